using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Nothing is let go before something else holds it.</summary>
internal sealed class ItemUntied : FactRule
{
    public override RuleCard Card { get; } = new(new("item.untied"),
        "a thing adrift, which may come back as a missile",
        "each thing hooked at a grip: whether that grip may hold gear; each thing that changes hands: whether there is time to hook its second tie before the first is let go; "
            + "each thing that a step moves: whether this step, or one before it in the leg, has tied it; and nothing in hand beyond the activity that handles it",
        "the time for the second tie, as the scenario states it; else no figure: it must never happen (common practice, no source)",
        Guard.Decoder("things are put down only at grips that may hold gear, and hung up before anything else is done; what steps tie is said by the job"));

    public override IEnumerable<string> Unseen(Scenario scenario) =>
        scenario.Handling.Tie is null ? ["the scenario does not say that a second tie is hooked before the first is let go, so that what is handled, and what steps move, is not looked at"] : [];

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        ILookup<GearId, PetInterval> handled = given.Timeline.Activities.Where(activity => Handles(activity) is not null)
            .ToLookup(activity => Handles(activity)!.Value, activity => new PetInterval(activity.Start, activity.End));
        foreach (Gear gear in given.Scenario.Gear)
            foreach (PetInterval loose in Intervals.Without(
                given.History.While(given.History[$"gear {gear.Id} place"], place => place.StartsWith("hands ", StringComparison.Ordinal)), Intervals.Join(handled[gear.Id])))
                yield return Broken(given, loose.From, [], $"{gear.Id} is in {InHandsOf(given, gear, loose.From)}'s hands until {loose.To}, tied to nothing.", $"Hang {gear.Id} on a carry point, or hook it at a grip.");
    }

    private static string InHandsOf(Case given, Gear gear, Pet at) => given.History.StateAt(given.History[$"gear {gear.Id} place"], at)["hands ".Length..];

    private static GearId? Handles(Activity activity) => activity switch
    {
        Take take => take.Gear,
        Put put => put.Gear,
        Give give => give.Gear,
        Plug plug => plug.Gear,
        Unplug unplug => unplug.Gear,
        _ => null,
    };
}

/// <summary>Everything is accounted for at the end, and where it belongs.</summary>
internal sealed class ItemLost : Rule
{
    public override RuleCard Card { get; } = new(new("item.lost"),
        "a thing adrift, or left behind",
        "where each thing is at the end, what is in a bag being where the bag is: used up, come home, where the scenario wants it, outside on purpose, or outside as it was before; what a job left out would have brought to its place may stay as it was; "
            + "one taken out and left outside without a word about it is told as a note",
        "the end places and reasons that the scenario states at each thing",
        Guard.Decoder("what must come home or to its place is brought there before the ingress"));

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.EndsEarly) yield break;
        foreach (Account account in Accounts.Of(given.Scenario, given.Trace))
        {
            GearId gear = account.Gear.Id;
            if (account.Fate == Fate.Elsewhere && LeftOutJobs.Keep(given, account.Gear)) continue;
            switch (account.Fate)
            {
                case Fate.Astray:
                    yield return Broken(given, given.Trace.To, [], $"{gear} is {account.Words} at the end, and not accounted for.", $"Bring {gear} in, or hook it where it may stay.");
                    break;
                case Fate.Elsewhere when account.Gear.End is { } wanted:
                    yield return Broken(given, given.Trace.To, [], $"{gear} is {account.Words} at the end, and is wanted {wanted}.", $"Bring {gear} to where it belongs: {wanted}.");
                    break;
                case Fate.Elsewhere:
                    yield return Broken(given, given.Trace.To, [], $"{gear} is {account.Words} at the end, and is meant to stay outside: {account.Gear.Stays}.", $"Leave {gear} outside.");
                    break;
                case Fate.LeftOutside:
                    yield return Broken(given, given.Trace.To, [], $"{gear} was taken out and is {account.Words} at the end; nothing says that it stays there.",
                        $"Say where {gear} must end, or why it stays outside.") with
                    { Severity = Severity.Note };
                    break;
            }
        }
    }
}
