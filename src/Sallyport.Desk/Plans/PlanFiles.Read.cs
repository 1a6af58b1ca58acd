using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

// Reading: a timeline is taken as told, so that judging it is all that happens to it.
public static partial class PlanFiles
{
    private const string ActivityKind = "activity";

    /// <summary>Reads a timeline from JSON and looks up every name in it.</summary>
    /// <param name="path">The file, as the user gave it.</param>
    /// <param name="scenario">The scenario it must belong to.</param>
    public static ReadResult<Timeline> ReadTimeline(string path, Scenario scenario)
    {
        Binding binding = new();
        byte[]? bytes = SourceText.Bytes(path, path, binding.Report);
        return bytes is null ? binding.Failed<Timeline>() : ReadTimeline(bytes, path, scenario, binding);
    }

    /// <summary>Reads a timeline from the text of a file.</summary>
    /// <param name="bytes">JSON in UTF-8.</param>
    /// <param name="name">The name that problems give to it.</param>
    /// <param name="scenario">The scenario it must belong to.</param>
    public static ReadResult<Timeline> ReadTimeline(byte[] bytes, string name, Scenario scenario) => ReadTimeline(bytes, name, scenario, new());

    private static ReadResult<Timeline> ReadTimeline(byte[] bytes, string name, Scenario scenario, Binding binding)
    {
        SourceText? source = SourceText.From(bytes, name, binding.Report);
        Node? root = source is null ? null : JsonNodes.Read(source, binding.Report);
        if (root is null) return binding.Failed<Timeline>();
        ScenarioNames.Give(binding.Names, scenario);
        Timeline? timeline = binding.Map(root, "a timeline", r => Timeline(r, scenario));
        binding.LookUpNames();
        return timeline is null ? binding.Failed<Timeline>() : binding.Result(timeline);
    }

    private static Timeline Timeline(MapReader r, Scenario scenario)
    {
        r.Know("caution");
        TextNode? id = r.RequiredText("scenario", scenario.Id);
        if (id is not null && id.Text != scenario.Id) r.Binding.Report(PlanProblems.OtherScenario(id, "a timeline", scenario));
        ImmutableArray<Activity> activities = r.FilledList("activities", "an activity", Activity);
        return new(
            scenario.Id, r.Text("planId"), r.Choice("branch", ("likely", Branch.Likely), ("otherwise", Branch.Otherwise)),
            [.. activities.OrderBy(activity => activity.Start).ThenBy(activity => activity.Id.Value, StringComparer.Ordinal)],
            r.List("notes", "a pin missed", note => new MissedPin(new(note.Ref("leg", Kinds.Leg)), note.Text("pin"), note.Pet("wanted"), note.Pet("got"))))
        {
            Trouble = r.OptionalMap("trouble", "a contingency", Trouble),
        };
    }

    private static Trouble Trouble(MapReader r)
    {
        LegId leg = new(r.Ref("leg", Kinds.Leg));
        return new(
            leg, new(r.Ref("step", Kinds.Step(leg.Value))), r.Text("title"), r.SignedTime("extra"), r.Pet("from"),
            r.Choice("goesOn", ("asPlanned", GoingOn.AsPlanned), ("withoutGetAheads", GoingOn.WithoutGetAheads), ("mustJobsOnly", GoingOn.MustJobsOnly), ("endsInOrder", GoingOn.EndsInOrder)));
    }

    private static Activity? Activity(MapReader r)
    {
        if (ActivityReader.Read(r) is not { } activity) return null;
        int before = r.Binding.Count;
        activity = activity with
        {
            Id = IdOf(r),
            Start = r.Pet("start"),
            End = r.Pet("end"),
            After = r.List("after", "a dependency", Dependency),
            For = r.OptionalRef("for", Kinds.Leg) is { } leg ? new LegId(leg) : null,
        };
        if (r.Binding.Count == before && activity.End <= activity.Start) r.Binding.Report(PlanProblems.ActivityShort(r.Place, activity.Id));
        return activity;
    }

    // A step is named after its leg, job/leg.step, so that a slash may stand in it.
    private static ActivityId IdOf(MapReader r)
    {
        if (r.RequiredText("id", "EV1.001.out") is not { } node) return default;
        if (!node.Text.Split('/').All(part => MapReader.WellFormed(part, blanks: true))) r.Binding.Report(NameProblems.Form(node.Place, ActivityKind, node.Text, blanks: true));
        else if (!r.Binding.Names.Give(ActivityKind, node.Text, node.Place, out Place first)) r.Binding.Report(NameProblems.Twice(node.Place, ActivityKind, node.Text, first));
        return new(node.Text);
    }

    private static Dependency Dependency(MapReader r) => new(
        r.OptionalRef("activity", ActivityKind) is { } activity ? new ActivityId(activity) : null, r.SignedTime("lag"), r.Text("why"));
}
