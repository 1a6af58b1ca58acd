using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What stays as it was because the job that it waits for is not in the plan.</summary>
internal static class LeftOutJobs
{
    /// <summary>Whether a thing was never touched, and is wanted where a job of which nothing is begun would have brought it.</summary>
    public static bool Keep(Case given, Gear gear) =>
        gear.End is { } wanted && given.History.Changes(given.History[$"gear {gear.Id} place"]).Count == 0
        && given.Scenario.Jobs.Any(job => job.Legs.All(leg => IsNotBegun(given, leg)) && job.Legs.Any(leg => Brings(leg, gear.Id, wanted)));

    private static bool IsNotBegun(Case given, Leg leg) => given.History.LastState(given.History[$"leg {leg.Id} progress"]) == "not begun";

    private static bool Brings(Leg leg, GearId gear, Location wanted) => leg.Steps.SelectMany(step => step.Makes).OfType<MoveGear>().Where(move => move.Gear == gear).Any(move => move.To.Kind switch
    {
        // What hangs on the person comes in with the person.
        LocationKind.Person => wanted == Location.Inside,
        LocationKind.Site when move.To.Name.Length == 0 => wanted == new Location(LocationKind.Site, leg.Site.Value),
        _ => move.To == wanted,
    });
}
