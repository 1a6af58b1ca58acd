using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What must be so at the end: everybody in, the hatch closed, everything accounted for and where it belongs, the station given
/// back, and no job left half done.</summary>
internal static class ImageEnd
{
    public static List<string> Goals(ImageWorld world, IReadOnlyList<ImageAction> actions) =>
    [
        .. world.People.Select(person => world.Stands(person.Id, world.Indoors)),
        .. world.Scenario.Station.Airlocks.Select(airlock => $"(not (opened {world.Hatch(airlock.Id)}))"),
        .. world.Scenario.Station.Features.Where(feature => feature.Back is not null).Select(feature => world.Is(feature.Id, feature.Back!)),
        .. world.Scenario.Consoles.SelectMany(console => console.Shutdowns).Select(shutdown => $"(on {world.Shutdown(shutdown.Id)})"),
        .. world.Scenario.Consoles.SelectMany(console => console.Shutdowns).Select(shutdown => Say.Not(world.IsCold(shutdown.Id))),
        .. ImageClocks.Goals(world, actions),
        .. world.Scenario.Jobs.Select(job => AllOrNone(world, job)),
        .. world.Scenario.Gear.SelectMany(gear => Accounted(world, gear)),
    ];

    private static string AllOrNone(ImageWorld world, Job job) => Say.Or([
        Say.And(job.Legs.Select(leg => $"(done {world.Leg(leg.Id)})")),
        Say.And(job.Legs.Select(leg => $"(not (begun {world.Leg(leg.Id)}))"))]);

    private static IEnumerable<string> Accounted(ImageWorld world, Gear gear)
    {
        ImageSpots spots = world.Spots;
        string spent = spots.Lies(gear.Id, spots.Spent);
        if (gear.End is { Kind: LocationKind.Person } person)
        {
            yield return spots.IsOn(new(person.Name), gear.Id);
            yield break;
        }
        // What is still on somebody is not put down anywhere; what is in a bag is where the bag is, and the bag has its own line.
        foreach (Person one in world.People) yield return Say.Not(spots.IsWith(one.Id, gear.Id));
        if (gear.Kind != GearKind.Stock) yield return Say.Not(spent);
        // What is meant to stay outside and was there before is not inside now.
        if (gear.Stays is not null && gear.Start.Kind is not (LocationKind.Inside or LocationKind.Bag)) yield return Say.Not(spots.Lies(gear.Id, spots.Inside));
        if (gear.End is not { } wanted) yield break;
        string home = wanted == Location.Inside ? spots.IsSomewhere(gear.Id, [spots.Inside]) : spots.Lies(gear.Id, spots.At(wanted));
        yield return gear.Kind == GearKind.Stock ? Say.Or([home, spent]) : home;
    }
}
