using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>
/// What touches what. Whoever handles a thing, or works with it, touches it, what hangs on that person, and the bag in which it lies or is put. Where one of
/// these is soiled, all of them are, and so is everything in a bag that something soiled lies in. What passes on is as old as the newest of it. This
/// comes after what the activity itself soils or tests, so that a test which leaves out something soiled in the hand makes nobody clean.
/// </summary>
internal static class Contact
{
    public static Deed After(World world, Deed deed)
    {
        if (!world.Register.Spills) return deed;
        PersonId[] who = [.. deed.Who.Where(world.Register.People.ContainsKey)];
        GearId[] handled = [.. Handled(world, deed.Activity).Distinct()];
        if (who.Length == 0 || (handled.Length == 0 && deed.Activity is not DoStep)) return deed;
        List<int> bags = [];
        deed.Look += () => bags = [.. Bags(world, handled)];
        deed.Finish += () => Spread(world, who, handled, [.. bags, .. Bags(world, handled)]);
        return deed;
    }

    private static IEnumerable<GearId> Handled(World world, Activity activity) => activity switch
    {
        Take take => [take.Gear],
        Put put => [put.Gear],
        Give give => [give.Gear],
        Plug plug => [plug.Gear],
        Unplug unplug => [unplug.Gear],
        DoStep act => WorkedWith(world.Lookup.Step(act.Leg, act.Step)),
        _ => [],
    };

    private static IEnumerable<GearId> WorkedWith(Step step) =>
    [
        .. step.Needs.OfType<NeedGear>().Select(need => need.Gear), .. step.Ties,
        .. step.Makes.Select(make => make switch { MoveGear move => move.Gear, UseStock use => use.Gear, _ => (GearId?)null }).OfType<GearId>(),
        .. step.Fastener?.Tool is { } tool ? [tool] : Array.Empty<GearId>(),
    ];

    /// <summary>The bags in which things lie directly. Places are only scanned: what is in the hands of one person nobody else moves meanwhile.</summary>
    private static IEnumerable<int> Bags(World world, IEnumerable<GearId> things) =>
        things.Select(world.PeekSpotOf).Where(spot => spot.Kind == SpotKind.Bag).Select(spot => world.Register.GearSoil[new(spot.Name)]);

    private static void Spread(World world, PersonId[] who, GearId[] handled, IEnumerable<int> bags)
    {
        Register register = world.Register;
        HashSet<int> touching = [.. bags];
        foreach (PersonId person in who)
        {
            touching.Add(register.PersonSoil[person]);
            foreach ((Gear gear, _) in world.PeekCarriedBy(person)) touching.Add(register.GearSoil[gear.Id]);
        }
        foreach (GearId gear in handled) touching.Add(register.GearSoil[gear]);
        int[] soiled = [.. touching.Where(one => SoilDeeds.IsSoiled(world, one))];
        if (soiled.Length == 0) return;
        // What lies in a bag beside something soiled is soiled with it; what lies in one that is soiled outside is not, until it is taken out.
        HashSet<Spot> within = [.. world.Scenario.Gear.Where(gear => soiled.Contains(register.GearSoil[gear.Id])).Select(gear => world.PeekSpotOf(gear.Id)).Where(spot => spot.Kind == SpotKind.Bag)];
        if (within.Count > 0) touching.UnionWith(world.Scenario.Gear.Where(gear => within.Contains(world.PeekSpotOf(gear.Id))).Select(gear => register.GearSoil[gear.Id]));
        Pet newest = soiled.Max(one => world.SoiledAt[one]);
        foreach (int one in touching)
        {
            if (SoilDeeds.IsSoiled(world, one) && world.SoiledAt[one] == newest) continue;
            world.Become(one, SoilDeeds.Soiled);
            world.SoiledAt[one] = newest;
        }
    }
}
