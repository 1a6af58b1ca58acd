using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The sortie ends in time.</summary>
internal sealed class PetLimit : Rule
{
    public override RuleCard Card { get; } = new(new("pet.limit"),
        "tired people and used reserves",
        "the end of the last activity, in PET",
        "the scenario's limit",
        Guard.Decoder("what ends late counts against a plan"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Time);

    public override IEnumerable<Finding> Find(Case given)
    {
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        double margin = limit.Value.Value - given.Trace.To.Seconds;
        double near = limit.NearMargin;
        if (margin >= 0 && margin >= near) yield break;
        Pet latest = Pet.FromSeconds((int)Math.Floor(limit.Value.Value));
        yield return Broken(given, given.Trace.To, given.People, $"The sortie ends at {given.Trace.To}; the limit is {latest}.",
            "Leave a job out, or shorten a way.", given.Timeline.Activities.MaxBy(activity => activity.End)?.Id) with
        {
            Severity = margin < 0 ? Severity.Broken : Severity.Near,
            Measured = $"PET {given.Trace.To}",
            Limit = $"PET {latest}",
            Margin = Duration.FromSeconds((int)Math.Floor(margin)).ToString(),
            Source = SourceOf(limit),
        };
    }
}

/// <summary>It ends with everybody in and the hatch closed.</summary>
internal sealed class HatchEnd : FactRule
{
    public override RuleCard Card { get; } = new(new("hatch.end"),
        "a plan that ends with somebody outside or the hatch open",
        "at the end: each person's place and each hatch; and nobody outside when a hatch is closed",
        RuleCard.NoFigure,
        Guard.Expansion("a hatch is closed when everybody is in, and not before"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        foreach (PersonId person in given.People)
            if (given.History.LastState(given.History[$"person {person} place"]) is var place && place != Places.Inside)
                yield return Broken(given, given.Trace.To, [person], $"The plan ends with {person} at {place}.", $"Bring {person} in.");
        foreach (Airlock airlock in given.Scenario.Station.Airlocks)
            if (given.History.LastState(given.History[$"airlock {airlock.Id} hatch"]) == "open")
                yield return Broken(given, given.Trace.To, [], $"The plan ends with the hatch of {airlock.Id} open.", "Close the hatch at the end.");
    }
}
