using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>A disconnect is opened only when it is shut off and its pressure known, and closed up and watched before the line is used.</summary>
internal sealed class LinePressure : FactRule
{
    public override RuleCard Card { get; } = new(new("line.pressure"),
        "a disconnect that flies apart under pressure, and a jet of what the line holds",
        "at each disconnect that is opened: every line at it is shut off, and its pressure was read since. At each valve: it opens onto no disconnect that is "
            + "neither capped nor mated with its lock checked, and after the first valve each waits until the line was watched for leaks. At the end: no disconnect is "
            + "left open, and no line under pressure was taken apart without being watched since; where everybody goes in early, a disconnect may also be left "
            + "in a state that the scenario says may be left",
        RuleCard.NoFigure,
        Guard.Proof("steps and legs of a job come in the order that the file gives them"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        History history = given.History;
        foreach (Disconnect one in given.Scenario.Station.Disconnects)
            if (history.LastState(history[$"feature {one.Feature} state"]) is var last && !one.Mated.Contains(last) && !one.Capped.Contains(last) && !(given.EndsEarly && MayBeLeft(given, one, last)))
                yield return Broken(given, given.Trace.To, [], $"{one.Feature} is left {last}: neither mated with its lock checked, nor capped.",
                    $"Mate {one.Feature} and check its lock, or cap it, before the end.");
        foreach (FluidLine line in given.Scenario.Station.FluidLines)
            if (history.LastState(history[$"line {line.Name} joints"]) == LineStates.Disturbed && history.LastState(history[$"line {line.Name} state"]) == LineStates.Fed)
                yield return Broken(given, given.Trace.To, [], $"{line.Name} is left under pressure, was taken apart, and was not watched for leaks since.",
                    $"Watch {line.Name} for leaks once pressure is on it.");
    }

    private static bool MayBeLeft(Case given, Disconnect one, string state) =>
        given.Scenario.MayBeLeft.FirstOrDefault(row => row.Feature == one.Feature) is { } row && row.In.Contains(state);
}

/// <summary>No line full of liquid is left shut off in the sun.</summary>
internal sealed class LineTrapped : Rule
{
    public override RuleCard Card { get; } = new(new("line.trapped"),
        "a hose that bursts because the liquid shut into it grows warm",
        "minutes in the sun while a line of liquid is shut off and was not let off, from the valve that shuts it to the one that opens it; "
            + "night neither counts nor cools, and a line that counts as sunlit always has no night. None is left so at the end, "
            + "save where everybody goes in early and the scenario says why it may be",
        "the longest time written at the line",
        Guard.Decoder("what shuts a line and what opens it again are kept near each other, and what is too far apart counts against a plan"));

    public override IEnumerable<Finding> Find(Case given)
    {
        double near = given.Scenario.LimitOf(Card.Id.Value)?.Near is { Dimension: Dimension.Time } wanted ? wanted.Value : 0;
        var stretches = given.Scenario.Station.FluidLines.Where(line => line.Trapped is not null).SelectMany(line => Full(given, line).Select(one => (Line: line, one.From, one.To)));
        // Lines that are shut off and opened together are one finding.
        foreach (var together in stretches.GroupBy(one => (one.From, one.To, Longest: one.Line.Trapped!.Value, one.Line.ShadedAtNight, one.Line.Source, MayBeLeft: one.Line.MayBeLeft is not null)))
        {
            (Pet from, Pet to, Duration longest, bool shaded, string source, bool mayBeLeft) = together.Key;
            string lines = string.Join(", ", together.Select(one => one.Line.Name));
            ImmutableArray<PetInterval> nights = shaded ? given.Scenario.Sky.FullNight : [];
            Duration lit = Duration.FromSeconds(Sunlight.Seconds(nights, from, to));
            int margin = longest.Seconds - lit.Seconds;
            bool left = to == given.Trace.To && !(given.EndsEarly && mayBeLeft);
            if (margin >= 0 && margin >= near && !left) continue;
            bool over = margin < 0;
            yield return Broken(given, over ? Sunlight.After(nights, from, longest.Seconds) : to, [],
                left ? $"{lines}: shut off and full from {from}, and left so at the end; in the sun for {lit} until then, of {longest} allowed."
                    : $"{lines}: shut off and full from {from} to {to}, in the sun for {lit} of it; the limit is {longest}.",
                "Open a valve of it earlier, or let it off once it is shut off.") with
            {
                Severity = over || left ? Severity.Broken : Severity.Near,
                Measured = lit.ToString(),
                Limit = longest.ToString(),
                Margin = Duration.FromSeconds(margin).ToString(),
                Source = source,
            };
        }
    }

    private static IEnumerable<PetInterval> Full(Case given, FluidLine line) => Intervals.Common(
        given.History.While(given.History[$"line {line.Name} state"], state => state != LineStates.Fed),
        given.History.While(given.History[$"line {line.Name} fill"], fill => fill == LineStates.Full));
}

/// <summary>Nothing that a spill has soiled comes in.</summary>
internal sealed class FluidCarried : FactRule
{
    public override RuleCard Card { get; } = new(new("fluid.carried"),
        "what a line holds, carried inside on a suit or in a bag and breathed there",
        "each person and each thing that comes in: not soiled by a disconnect that was opened, or clean again after the bake-out, counted in sunlit minutes outside "
            + "since last soiled, and the test after it. Where a step does not say how far a spill reaches, it reaches the person, the tools and the bags at hand. "
            + "Whoever handles something or works with it, the thing, what hangs on that person and the bag in which it lies or is put touch each other: where one is soiled, all are, "
            + "and so is everything in a bag that something soiled lies in, as lately as the newest of it",
        "the bake-out and the test that the fluid net states",
        Guard.Proof("a job that soils has a leg that tests, as late as a bake-out takes; what is soiled and stays outside has no end inside"));

    public override string? Missing(Scenario scenario) => FluidSpill.Missing(scenario);
}

/// <summary>What a spill asks of a scenario.</summary>
internal static class FluidSpill
{
    /// <summary>That nothing says how what is spilled is got rid of; null when it is said, or when nothing can spill.</summary>
    public static string? Missing(Scenario scenario) =>
        scenario.Station.BakeOut is null && scenario.Station.FluidLines.Any(line => !line.Harmless && line.Ends.Any(end => scenario.Station.Disconnects.Any(one => one.Feature == end)))
            ? "the scenario states no bake-out, although a disconnect can spill"
            : null;
}
