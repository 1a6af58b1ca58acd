using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Where things can be. A thing lies in one spot: inside, hooked at a grip, in a bag, on a carry point, in somebody's hands, in a
/// socket, at a worksite, on an arm, or used up. Only the bags that a thing can come into are asked after.</summary>
internal sealed class ImageSpots(ImageWorld world)
{
    private readonly Dictionary<GearId, List<GearId>> bagsOf = [];

    public string Inside => Spot("inside", "");

    public string Spent => Spot("spent", "");

    public string Hook(GripId grip) => Spot("hook", grip.Value);

    public string Bag(GearId bag) => Spot("bag", bag.Value);

    public string Carry(PersonId person, CarryPointId carry) => Spot("carry", $"{person}/{carry}");

    public string Hands(PersonId person) => Spot("hands", person.Value);

    public string Socket(SocketId socket) => Spot("socket", socket.Value);

    public string Site(SiteId site) => Spot("site", site.Value);

    /// <summary>The spot that a location names; not for a person, whose carry point it does not tell.</summary>
    public string At(Location location) => location.Kind switch
    {
        LocationKind.Inside => Inside,
        LocationKind.Spent => Spent,
        LocationKind.Grip => Hook(new(location.Name)),
        LocationKind.Bag => Bag(new(location.Name)),
        LocationKind.Socket => Socket(new(location.Name)),
        LocationKind.Site => Site(new(location.Name)),
        LocationKind.Arm => Spot("arm-spot", location.Name),
        _ => throw new ArgumentException($"'{location}' does not name one spot"),
    };

    public string Lies(GearId gear, string spot) => $"(lies {world.Gear(gear)} {spot})";

    /// <summary>Every spot on a person: each carry point, and the hands.</summary>
    public IEnumerable<string> On(PersonId person) => CarriesOf(person).Append(Hands(person));

    public IEnumerable<string> CarriesOf(PersonId person) => PersonOf(person).CarryPoints.Select(point => Carry(person, point.Id));

    /// <summary>That a thing hangs on a person, or is in that person's hands, by itself.</summary>
    public string IsWith(PersonId person, GearId gear) => Say.Or(On(person).Select(spot => Lies(gear, spot)));

    /// <summary>The same, or in a bag that does.</summary>
    public string IsOn(PersonId person, GearId gear) => IsSomewhere(gear, On(person), []);

    /// <summary>That a thing is at hand: on the person, hooked or installed at the worksite, or in a bag that is.</summary>
    public string IsAtHand(PersonId person, GearId gear, Site site) => IsSomewhere(gear, AtHand(person, site), []);

    public IEnumerable<string> AtHand(PersonId person, Site site) =>
        [.. On(person), Site(site.Id), .. site.Grip is { } grip ? [Hook(grip)] : Array.Empty<string>()];

    /// <summary>That a thing is in one of some spots, by itself or in a bag that is.</summary>
    public string IsSomewhere(GearId gear, IEnumerable<string> spots) => IsSomewhere(gear, spots, []);

    private string IsSomewhere(GearId gear, IEnumerable<string> spots, IEnumerable<GearId> within) => Say.Or([
        .. spots.Select(spot => Lies(gear, spot)),
        .. BagsOf(gear).Except([.. within, gear]).Select(bag => Say.And([Lies(gear, Bag(bag)), IsSomewhere(bag, spots, [.. within, gear])]))]);

    /// <summary>The bags that a thing can be in: the one it starts in, and those that a step puts it in.</summary>
    public List<GearId> BagsOf(GearId gear)
    {
        if (bagsOf.TryGetValue(gear, out List<GearId>? known)) return known;
        IEnumerable<Location> put = world.Scenario.Legs.SelectMany(leg => leg.Steps).SelectMany(step => step.Makes).OfType<MoveGear>()
            .Where(move => move.Gear == gear).Select(move => move.To);
        return bagsOf[gear] = [.. put.Append(GearOf(gear).Start).Where(place => place.Kind == LocationKind.Bag).Select(place => new GearId(place.Name)).Distinct()];
    }

    /// <summary>That a thing fits a carry point by its size, and nothing hangs there. What it weighs is not in this image.</summary>
    public string CanHang(PersonId person, CarryPointId carry, GearId gear) =>
        Say.And([$"(fits {world.Size(GearOf(gear).Size)} {Carry(person, carry)})", $"(clear {Carry(person, carry)})"]);

    public Gear GearOf(GearId gear) => world.Scenario.Gear.Single(one => one.Id == gear);

    public Person PersonOf(PersonId person) => world.Scenario.People.Single(one => one.Id == person);

    private string Spot(string kind, string id) => world.Names.Of("spot", kind, id);
}
