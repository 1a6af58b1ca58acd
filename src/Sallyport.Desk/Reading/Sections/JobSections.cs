using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the section jobs: jobs with their legs and contingencies.</summary>
internal static class JobSections
{
    public static Job Job(MapReader r)
    {
        string id = r.Id("id", Kinds.Job);
        string source = r.OptionalText("source") ?? "";
        const int mostValue = 1_000_000;
        int before = r.Binding.Count;
        int value = r.Whole("value", 0, mostValue);
        int mostHalf = r.Binding.Count == before ? value : mostValue;
        return new(
            new(id), r.Text("title"), r.Text("for"),
            r.Choice("worth", ("must", Worth.Must), ("should", Worth.Should), ("get-ahead", Worth.GetAhead)),
            value, r.Has("half_value") ? r.Whole("half_value", 0, mostHalf) : 0, r.OptionalText("hazard") ?? "",
            r.FilledList("legs", "a leg", inner => Leg(inner, id, source)),
            r.List("contingencies", "a contingency", inner => Contingency(inner, id)))
        { Latest = r.OptionalPet("latest") };
    }

    private static Leg Leg(MapReader r, string job, string source)
    {
        LegId id = FullId(r, job);
        SiteId site = new(r.Ref("site", Kinds.Site));
        Footing footing = r.Choice("footing", ("free", Footing.Free), ("body tether", Footing.BodyTether), ("restraint", Footing.Restraint), ("arm", Footing.Arm));
        GearId? restraint = null;
        SocketId? socket = null;
        string? setting = null;
        r.Know("restraint");
        if (footing == Footing.Restraint)
            r.Map("restraint", "a restraint", inner =>
            {
                (restraint, socket, setting) = (new GearId(inner.Ref("use", Kinds.Restraint)), new SocketId(inner.Ref("socket", Kinds.Socket)), inner.Text("setting", "\"B6\""));
                return inner;
            });
        else r.Refuse("restraint", "only the footing 'restraint' has one");
        return new(
            id, r.Text("title"), site,
            r.Refs("who", Kinds.Outside, name => new PersonId(name)), r.Refs("training", Kinds.Training, name => name),
            footing, restraint, socket, setting,
            Gear(r, "with"), Gear(r, "picks_up"), Gear(r, "leaves_behind"),
            r.OptionalText("together") ?? "", r.List("after", "a precedence", inner => After(inner, job)),
            r.Refs("shutdowns", Kinds.Shutdown, name => new ShutdownId(name)),
            StationSections.Light(r), r.Flag("link"), r.Flag("may_wait"), r.FilledList("steps", "a step", inner => StepSections.Step(inner, id, site, source)))
        {
            Latest = r.OptionalPet("latest"),
            Minds = r.Refs("minds", Kinds.Edge, name => name),
        };
    }

    // In the file a leg has a short name; everywhere else it is called job/leg.
    private static LegId FullId(MapReader r, string job)
    {
        if (r.RequiredText("id", "name") is not { } node) return new($"{job}/");
        string full = $"{job}/{node.Text}";
        if (!MapReader.WellFormed(node.Text, blanks: false)) r.Binding.Report(NameProblems.Form(node.Place, Kinds.Leg, node.Text, blanks: false));
        else if (!r.Binding.Names.Give(Kinds.Leg, full, node.Place, out Place first)) r.Binding.Report(NameProblems.Twice(node.Place, Kinds.Leg, full, first));
        return new(full);
    }

    private static ImmutableArray<GearId> Gear(MapReader r, string key) => r.Refs(key, Kinds.Gear, name => new GearId(name));

    private static Precedence After(MapReader r, string job)
    {
        LegId leg = LegOf(r, job);
        Duration least = r.OptionalTime("least", 0, default);
        Duration? most = r.OptionalLimitTime("most", 0);
        if (most is { } limit && limit < least) r.Binding.Report(ScenarioProblems.LagsCrossed(r.Place, least, limit));
        return new(leg, least, most);
    }

    private static Contingency Contingency(MapReader r, string job)
    {
        LegId leg = LegOf(r, job);
        string source = r.Text("source");
        return new(
            leg, new(r.Ref("step", Kinds.Step(leg.Value))), r.Text("title"), r.Number("probability", 0, 1), source, r.StepTime("extra", source), r.Text("do"))
        {
            Tools = Gear(r, "tools"),
        };
    }

    /// <summary>A leg as referred to from inside a job: its own legs may be called by their short names.</summary>
    private static LegId LegOf(MapReader r, string job)
    {
        if (r.RequiredText("leg", "job/leg") is not { } node) return new("");
        return new(r.Use(node.Text.Contains('/') ? node : node with { Text = $"{job}/{node.Text}" }, Kinds.Leg));
    }
}
