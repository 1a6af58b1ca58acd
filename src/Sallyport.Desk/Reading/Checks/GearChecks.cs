using System.Globalization;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>Checks of bags at the start, of what steps put into them, of tools and bolts, and of airlocks against what goes through them.</summary>
internal static class GearChecks
{
    // Forgives the last bits of unit conversion and sums, far below any figure in a file.
    private const double Forgiven = 1e-9;

    public static void Run(Scenario scenario, Binding binding)
    {
        Tools(scenario, binding);
        if (binding.Sound("handling")) Ties(scenario, binding);
        if (binding.Sound("airlocks", "grips", "sizes")) Hatches(scenario.Station, binding);
        if (!binding.Sound("gear", "sizes")) return;
        Dictionary<GearId, Gear> gear = scenario.Gear.ToDictionary(thing => thing.Id);
        Start(scenario, gear, binding);
        Steps(scenario, gear, binding);
    }

    private static void Tools(Scenario scenario, Binding binding)
    {
        binding.Section = "gear";
        foreach (Gear tool in scenario.Gear.Where(tool => tool.SpareFor.Contains(tool.Id))) binding.Report(GearProblems.SpareForItself(binding.PlaceOf(tool), tool));
        binding.Section = "bolts";
        foreach (Bolt bolt in scenario.Bolts.Where(binding.IsWhole))
        {
            if (bolt.Start > bolt.Closed.Most) binding.Report(GearProblems.StartsTooFarIn(binding.PlaceOf(bolt), bolt));
            if (bolt.Preload is { } preload && BoltTorque.Keeping(preload) is null) binding.Report(GearProblems.NoTorque(binding.PlaceOf(bolt), bolt));
        }
    }

    private static void Ties(Scenario scenario, Binding binding)
    {
        binding.Section = "handling";
        if (scenario.Handling is not { Tie: { } tie } handling) return;
        foreach ((string key, HandlingTime time) in new[] { ("take", handling.Take), ("put", handling.Put), ("give", handling.Give), ("plug", handling.Plug), ("unplug", handling.Unplug) })
            if (time.Time < tie) binding.Report(GearProblems.TieTooLong(binding.PlaceOf(handling), key, time.Time, tie));
    }

    private static void Hatches(Station station, Binding binding)
    {
        binding.Section = "airlocks";
        foreach (Airlock airlock in station.Airlocks)
        {
            if (airlock.Room is not { } room) continue;
            foreach (SizeId size in room.BeforePeople.Except(room.Hatch)) binding.Report(GearProblems.NotThroughHatch(binding.PlaceOf(airlock), airlock, size));
            if (!room.BeforePeople.IsEmpty && station.Grips.FirstOrDefault(grip => grip.Id == airlock.Grip) is { Stow: false })
                binding.Report(GearProblems.NothingToHangAt(binding.PlaceOf(airlock), airlock));
        }
    }

    private static void Start(Scenario scenario, Dictionary<GearId, Gear> gear, Binding binding)
    {
        binding.Section = "gear";
        ILookup<GearId, Gear> within = scenario.Gear.Where(thing => thing.Start.Kind == LocationKind.Bag).ToLookup(thing => new GearId(thing.Start.Name));
        foreach (Gear bag in scenario.Gear.Where(thing => thing.Kind == GearKind.Bag))
        {
            Gear[] inside = [.. within[bag.Id]];
            foreach (Gear inner in inside.Where(thing => thing.Kind == GearKind.Bag))
                foreach (Gear innermost in within[inner.Id].Where(thing => thing.Kind == GearKind.Bag))
                    binding.Report(GearProblems.ThreeBags(binding.PlaceOf(innermost), bag, inner, innermost));
            if (bag.Holds is not { } holds) continue;
            foreach (Gear thing in inside) Fits($"{thing.Id} in {bag.Id} at the start", thing, bag, binding.PlaceOf(thing), binding);
            double volume = inside.Sum(thing => Volume(thing, within, scenario.Gear.Length)), mass = inside.Sum(thing => Mass(thing, within, scenario.Gear.Length));
            if (inside.Length > holds.Items) binding.Report(GearProblems.Overfilled(binding.PlaceOf(bag), bag, Things(inside.Length), Things(holds.Items)));
            if (volume > holds.Volume * (1 + Forgiven)) binding.Report(GearProblems.Overfilled(binding.PlaceOf(bag), bag, Figure(volume * 1000, "L"), Figure(holds.Volume * 1000, "L")));
            if (mass > holds.Mass * (1 + Forgiven)) binding.Report(GearProblems.Overfilled(binding.PlaceOf(bag), bag, Figure(mass, "kg"), Figure(holds.Mass, "kg")));
        }
    }

    private static void Steps(Scenario scenario, Dictionary<GearId, Gear> gear, Binding binding)
    {
        if (!binding.Sound("jobs")) return;
        binding.Section = "jobs";
        foreach (Leg leg in scenario.Legs)
            foreach (Step step in leg.Steps)
                foreach (MoveGear move in step.Makes.OfType<MoveGear>().Where(move => move.To.Kind == LocationKind.Bag))
                    Fits($"{move.Gear} into {move.To.Name}", gear[move.Gear], gear[new(move.To.Name)], binding.PlaceOf(step), binding);
    }

    private static void Fits(string what, Gear thing, Gear bag, Place place, Binding binding)
    {
        if (bag.Holds is not { } holds) return;
        if (!holds.Sizes.Contains(thing.Size)) binding.Report(GearProblems.SizeInBag(place, what, thing, bag));
        if (thing.Kind == GearKind.Bag && !holds.Bags) binding.Report(GearProblems.BagInBag(place, what, bag));
    }

    // The depth ends a circle of bags, which is told elsewhere.
    private static double Volume(Gear thing, ILookup<GearId, Gear> within, int depth) => thing.Kind == GearKind.Bag && depth > 0
        ? Math.Max(thing.Volume, within[thing.Id].Sum(inner => Volume(inner, within, depth - 1)))
        : thing.Volume * thing.Count;

    private static double Mass(Gear thing, ILookup<GearId, Gear> within, int depth) =>
        thing.Mass * thing.Count + (depth > 0 ? within[thing.Id].Sum(inner => Mass(inner, within, depth - 1)) : 0);

    private static string Things(int count) => $"{count} thing{(count == 1 ? "" : "s")}";

    private static string Figure(double value, string unit) => string.Create(CultureInfo.InvariantCulture, $"{value:0.###} {unit}");
}
