using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What is touched is cut off from every source, and stays so while its pins are bare.</summary>
internal sealed class InhibitFew : FactRule
{
    public override RuleCard Card { get; } = new(new("inhibit.few"),
        "electric shock, and pins burnt by drawing an arc",
        "on every path from a source to what is touched: open switches, those of one controller counted once; the fewest over all paths. "
            + "Batteries are sources; a connector apart ends a path but is no inhibit. From the touch until the connector is mated or capped again",
        "the number of inhibits written at the step (two for a critical, three for a catastrophic hazard: from memory, unverified)",
        Guard.Decoder("what a leg wants shut down is off before it begins, and until what it leaves bare is closed; whether that is enough, only the proof knows"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        foreach (Exposure bare in given.Exposures)
            foreach ((Pet at, NodeId node, int found, int asked) in bare.Lost(given, Card.Id, static (net, node, asked) => net.FewestInhibits(node, asked).Count))
                yield return Broken(given, at, [], $"{node} is behind {found} of the {asked} independent open inhibits that it was touched with, and {bare.Name} is still bare until {bare.To}.",
                    $"Close no switch before {bare.Name} is mated or capped again.") with
                {
                    Measured = $"{found}",
                    Limit = $"{asked}",
                    Margin = $"{found - asked}",
                    Source = given.Scenario.LimitOf(Card.Id.Value) is { } limit ? SourceOf(limit) : Card.LimitFrom,
                };
    }
}

/// <summary>Inhibits that one cause takes away together are one.</summary>
internal sealed class InhibitCommon : FactRule
{
    public override RuleCard Card { get; } = new(new("inhibit.common"),
        "switches that all close together because their controllers hang on one thing",
        "as inhibit.few, with the controllers that share a cause counted as one; told where controllers alone would do",
        "the number of inhibits written at the step, and the common causes written at the controllers",
        Guard.Proof("which switches a command opens is the scenario's, and no order of legs changes it"));

    public override string? Missing(Scenario scenario)
    {
        if (!scenario.Legs.SelectMany(leg => leg.Steps).SelectMany(step => step.Needs).OfType<NeedDead>().Any(need => need.Inhibits > 1)) return null;
        string[] unknown = [.. scenario.Station.PowerLines.Select(line => line.Controller).OfType<string>().Distinct()
            .Where(id => scenario.Station.Controllers.All(known => known.Id != id))];
        return unknown.Length == 0 ? null : $"the scenario does not say whether {string.Join(", ", unknown)} {(unknown.Length == 1 ? "has" : "have")} a cause in common with other controllers";
    }

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        foreach (Exposure bare in given.Exposures)
            foreach ((Pet at, NodeId node, int found, int asked) in bare.Lost(given, Card.Id, Independent))
                yield return Broken(given, at, [], $"{node} is behind switches of only {found} of the {asked} causes that it was touched with, and {bare.Name} is still bare until {bare.To}.",
                    $"Close no switch before {bare.Name} is mated or capped again.") with
                { Measured = $"{found}", Limit = $"{asked}", Margin = $"{found - asked}" };
    }

    // Too few controllers are told by inhibit.few alone.
    private static int Independent(PowerNet net, NodeId node, int asked) =>
        net.FewestInhibits(node, asked).Count < asked ? asked : net.FewestInhibits(node, net.ByCause, asked).Count;
}

/// <summary>An inhibit of which the crew has not heard is none.</summary>
internal sealed class InhibitUnseen : FactRule
{
    public override RuleCard Card { get; } = new(new("inhibit.unseen"),
        "touching what everybody believes to be off and nobody has seen to be",
        "open switches on every path, those only that were opened by a command, seen in telemetry with a link for the whole of it (or on board), and read to the crew before the touch; "
            + "what is as it must be before the hatch opens was read then. A switch that changes again is unseen again",
        "the number of inhibits written at the step",
        Guard.Decoder("commands that need a link are sent while it lasts, and end before the leg begins; whether they are read to the crew is the scenario's"));
}

/// <summary>Charge that is left has gone before the touch.</summary>
internal sealed class ConnectorBleed : FactRule
{
    public override RuleCard Card { get; } = new(new("connector.bleed"),
        "shock from what is still charged after it is off",
        "from the moment at which nothing conducts to a capacitor from a source any more, to the touch of what it is not cut off from by as many inhibits as the step asks for. "
            + "Cut off since the start of the plan counts as just cut off; capacitors that conduct to each other wait for the slowest",
        "the time written at the capacitor, with its source",
        Guard.Expansion("the command that turns off ends so long before the leg; search counts the same wait"));

    public override string? Missing(Scenario scenario) =>
        scenario.Station.Capacitors is null && scenario.Legs.SelectMany(leg => leg.Steps).Any(step => step.Needs.Any(need => need is NeedDead))
            ? "the scenario does not say which capacitors there are"
            : null;

    public override IEnumerable<Finding> Find(Case given) => base.Find(given).Select(finding => finding with
    {
        Source = string.Join("; ", (given.Scenario.Station.Capacitors ?? []).Select(capacitor => capacitor.Source).Distinct()),
    });
}

/// <summary>Nothing is powered up with bare pins.</summary>
internal sealed class ConnectorUncapped : Rule
{
    public override RuleCard Card { get; } = new(new("connector.uncapped"),
        "bare pins that are live, for the next hand or tool that comes by",
        "from when a connector is taken apart until it is mated or capped: whether either half conducts to a source; and that none is left bare at the end",
        RuleCard.NoFigure,
        Guard.Decoder("what a leg wants shut down stays off until what it leaves bare is closed"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Exposure bare in given.Exposures)
        {
            ImmutableArray<PersonId> who = [.. bare.Touches.Select(touch => touch.Step.Person).Distinct()];
            foreach (NodeId node in new[] { bare.Line.From, bare.Line.To })
            {
                bool live = false;
                foreach ((Pet at, PowerNet net) in bare.Moments(given))
                {
                    bool now = net.IsFed(node);
                    if (now && !live)
                        yield return Broken(given, at, who, $"{node} is live while the pins of {bare.Name} are bare, until {bare.To}.",
                            $"Mate or cap {bare.Name} before anything is powered up.");
                    live = now;
                }
            }
            if (bare.IsLeft)
                yield return Broken(given, given.Trace.To, who, $"The pins of {bare.Name} are left bare at the end.", $"Mate or cap {bare.Name} before the end.");
        }
    }
}
