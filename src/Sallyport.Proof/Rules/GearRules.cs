using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What is needed is there.</summary>
internal sealed class GearAbsent : FactRule
{
    public override RuleCard Card { get; } = new(new("gear.absent"),
        "a person at the worksite without the tool",
        "where each thing is when it is taken, put, handed over, used or moved: on the person, in a bag there, hooked or installed at the worksite",
        RuleCard.NoFigure,
        Guard.Decoder("everything that a leg needs is fetched before it; completion does it again after an edit"));
}

/// <summary>Hands are free for holding on.</summary>
internal sealed class HandsBusy : FactRule
{
    public override RuleCard Card { get; } = new(new("hands.busy"),
        "translating with something in hand, and a thing on a carry point that cannot hold it",
        "what hangs on each carry point, by size and by mass with contents; what is in hand when a way begins",
        "the carry points as the scenario states them",
        Guard.Decoder("a thing is taken only where a carry point is free that holds it"));
}

/// <summary>What is put down is tied to something.</summary>
internal sealed class ItemUntied : FactRule
{
    public override RuleCard Card { get; } = new(new("item.untied"),
        "a thing left where nothing holds it",
        "each thing hooked at a grip: whether that grip may hold gear",
        RuleCard.NoFigure,
        Guard.Decoder("things are put down only at grips that may hold gear"));
}

/// <summary>Stock lasts.</summary>
internal sealed class StockOut : FactRule
{
    public override RuleCard Card { get; } = new(new("stock.out"),
        "running out of what a step uses up",
        "pieces left when a step uses some",
        "at least what the step uses",
        Guard.Proof("what is used up follows from which jobs are in, not from their order"));
}

/// <summary>Everything is accounted for at the end, and where it belongs.</summary>
internal sealed class ItemLost : Rule
{
    public override RuleCard Card { get; } = new(new("item.lost"),
        "a thing adrift, or left behind",
        "where each thing is at the end, what is in a bag being where the bag is, against where the scenario wants it; what a job left out would have brought there may stay as it was",
        "the scenario's end places",
        Guard.Decoder("what must come home or to its place is brought there before the ingress"));

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.EndsEarly) yield break;
        foreach (Gear gear in given.Scenario.Gear)
        {
            string spot = Spot(given, gear.Id);
            string outermost = Outermost(given, gear.Id);
            bool used = gear.Kind == GearKind.Stock && spot == "spent";
            bool held = outermost.StartsWith("person ", StringComparison.Ordinal) || outermost.StartsWith("hands ", StringComparison.Ordinal);
            bool astray = held || outermost.StartsWith("bag ", StringComparison.Ordinal) || (spot == "spent" && !used);
            bool home = used || gear.End is not { } wanted || (wanted == Location.Inside ? outermost == "inside" : spot == wanted.ToString());
            if (!astray && LeftOutJobs.Keep(given, gear)) continue;
            if (astray && gear.End?.Kind != LocationKind.Person)
                yield return At(given, $"{gear.Id} is {InWords(spot, outermost)} at the end, and not accounted for.", $"Bring {gear.Id} in, or hook it where it may stay.");
            else if (!home && !(gear.End?.Kind == LocationKind.Person && outermost.StartsWith(gear.End.ToString()!, StringComparison.Ordinal)))
                yield return At(given, $"{gear.Id} is {InWords(spot, outermost)} at the end, and is wanted {gear.End}.", $"Bring {gear.Id} to where it belongs: {gear.End}.");
        }
    }

    private Finding At(Case given, string sentence, string mend) => Broken(given, given.Trace.To, [], sentence, mend);

    private static string Spot(Case given, GearId gear) => given.History.LastState(given.History[$"gear {gear} place"]);

    private static string Outermost(Case given, GearId gear)
    {
        string spot = Spot(given, gear);
        for (int depth = 0; spot.StartsWith("bag ", StringComparison.Ordinal) && depth < given.Scenario.Gear.Length; depth++)
            spot = Spot(given, new GearId(spot["bag ".Length..]));
        return spot;
    }

    private static string InWords(string spot, string outermost) => spot == outermost ? $"'{spot}'" : $"'{spot}' ('{outermost}')";
}
