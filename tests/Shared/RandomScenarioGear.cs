using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests;

/// <summary>What a random scenario says of bags, tools, bolts, footings, second ties and the room of its airlocks: sometimes nothing, sometimes
/// enough, sometimes just too little. It draws from a stream of its own, so that all else stays as the seed has it.</summary>
internal sealed class RandomScenarioGear
{
    private const string Source = "invented for the test";

    private readonly Random random;
    private Scenario scenario;

    private RandomScenarioGear(Scenario scenario, int seed) => (this.scenario, random) = (scenario, new(seed ^ 0x6EA2));

    public static Scenario Add(Scenario scenario, int seed)
    {
        RandomScenarioGear made = new(scenario, seed);
        made.Scraps();
        made.Bags();
        made.Fasteners();
        made.Tools();
        made.Footings();
        made.Ties();
        made.Rooms();
        return made.scenario;
    }

    private bool Chance(int percent) => random.Next(100) < percent;

    private void Each(Func<Gear, Gear> change) => scenario = scenario with { Gear = [.. scenario.Gear.Select(change)] };

    private void EachLeg(Func<Job, Leg, Leg> change) =>
        scenario = scenario with { Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => change(job, leg))] })] };

    /// <summary>Legs that put something into the bag that they are done with.</summary>
    private void Scraps()
    {
        List<Gear> scraps = [];
        EachLeg((_, leg) =>
        {
            bool onGrip = scenario.Station.Sites.First(site => site.Id == leg.Site).Grip is not null;
            if (!onGrip || leg.With.Length != 1 || leg.Together.Length > 0 || leg.LeavesBehind.Length > 0 || !Chance(40)) return leg;
            GearId scrap = new($"scrap-{scraps.Count + 1}");
            scraps.Add(new(scrap, "Scrap", GearKind.Part, new("small"), 1, 0.01, new(LocationKind.Site, leg.Site.Value), null, 1));
            Step last = leg.Steps[^1];
            return leg with { Steps = leg.Steps.SetItem(leg.Steps.Length - 1, last with { Makes = last.Makes.Add(new MoveGear(scrap, new(LocationKind.Bag, leg.With[0].Value))) }) };
        });
        scenario = scenario with { Gear = scenario.Gear.AddRange(scraps) };
    }

    /// <summary>Bags with room for all that comes into them, or for one thing less.</summary>
    private void Bags()
    {
        if (Chance(30)) return;
        Each(bag =>
        {
            if (bag.Kind != GearKind.Bag || Chance(20)) return bag;
            Gear[] start = [.. scenario.Gear.Where(thing => thing.Start == new Location(LocationKind.Bag, bag.Id.Value))];
            int comes = scenario.Legs.SelectMany(leg => leg.Steps).SelectMany(step => step.Makes).OfType<MoveGear>().Count(move => move.To == new Location(LocationKind.Bag, bag.Id.Value));
            int room = Chance(75) ? comes : Math.Max(0, comes - 1);
            bool byItems = Chance(50);
            double volume = start.Sum(thing => thing.Volume * thing.Count), mass = start.Sum(thing => thing.Mass * thing.Count);
            return bag with
            {
                Holds = new(volume + 0.01 * (byItems ? comes : room) + 0.001, mass + comes + 1, [new("small")], Math.Max(1, start.Length + (byItems ? room : comes)), false),
            };
        });
    }

    /// <summary>Steps that need a tool drive a bolt of their own with it; where the leg goes on, its last step closes what its first one opened.</summary>
    private void Fasteners()
    {
        List<Bolt> bolts = [];
        EachLeg((_, leg) =>
        {
            if (leg.Steps[0].Needs.OfType<NeedGear>().FirstOrDefault(need => scenario.Gear.First(gear => gear.Id == need.Gear).Kind == GearKind.Tool) is not { } need || !Chance(70)) return leg;
            BoltId bolt = new($"bolt-{bolts.Count + 1}");
            bool closes = leg.Steps.Length > 1;
            bolts.Add(new(bolt, "Bolts", 1 + random.Next(4), closes || Chance(50) ? 6 : 0, new(5.5, 6.5, "5.5 turns to 6.5 turns"), new Band(8, 16, "8 N-m to 16 N-m"), null, Source, false));
            Fastener Drive(double turns) => new(12, turns, "12 N-m") { Bolt = bolt, Tool = need.Gear };
            ImmutableArray<Step> steps = leg.Steps.SetItem(0, leg.Steps[0] with { Fastener = Drive(bolts[^1].Start > 0 ? -6 : 6) });
            if (closes) steps = steps.SetItem(steps.Length - 1, steps[^1] with { Fastener = Drive(6), Needs = steps[^1].Needs.Add(need) });
            return leg with { Steps = steps };
        });
        scenario = scenario with { Bolts = [.. bolts] };
    }

    /// <summary>Tools with a range and sometimes a battery for all jobs or for fewer; sometimes one that stands in for all.</summary>
    private void Tools()
    {
        Each(tool =>
        {
            if (tool.Kind != GearKind.Tool) return tool;
            bool byTurns = Chance(50);
            ToolCharge charge = new(byTurns, 1, 0, Source);
            double all = scenario.Legs.SelectMany(leg => leg.Steps).Sum(step => Sallyport.Physics.ToolUse.Of(tool with { Charge = charge }, step, scenario.Bolts));
            ToolCharge? full = all > 0 && Chance(60) ? charge with { Full = 2 + (Chance(70) ? all : Math.Floor(all * 0.7)), Keep = 2 } : null;
            return tool with { Torque = new Band(5, 20, "5 N-m to 20 N-m"), Charge = full };
        });
        if (!Chance(50)) return;
        ImmutableArray<GearId> tools = [.. scenario.Gear.Where(gear => gear.Kind == GearKind.Tool).Select(gear => gear.Id)];
        scenario = scenario with
        {
            Gear = scenario.Gear.Add(new(new("stand-in"), "Stand-in", GearKind.Tool, new("small"), 2, 0.002, Location.Inside, null, 1) { SpareFor = tools, Torque = new Band(5, 15, "5 N-m to 15 N-m") }),
            Limits = scenario.Limits.Add(new(new("tool.spare"), new(Dimension.Count, 1, "1 pieces"), null, Source, false)),
        };
    }

    private void Footings()
    {
        if (Chance(30)) return;
        scenario = scenario with { Footings = [.. Enum.GetValues<Footing>().Select(kind => new FootingStrength(kind, 15, 200, Source, false))] };
        EachLeg((_, leg) => Chance(30) ? leg with { Steps = leg.Steps.SetItem(0, leg.Steps[0] with { Force = 50 + random.Next(150) }) } : leg);
    }

    private void Ties()
    {
        if (Chance(30)) return;
        scenario = scenario with { Handling = scenario.Handling with { Tie = Duration.FromSeconds(20 + random.Next(60)) } };
        EachLeg((_, leg) => leg with { Steps = [.. leg.Steps.Select(step => step with { Ties = [.. step.Makes.OfType<MoveGear>().Select(move => move.Gear)] })] });
        Each(gear => gear.End is null && gear.Kind == GearKind.Restraint && Chance(60) ? gear with { Stays = "the next walk uses it" } : gear);
    }

    private void Rooms()
    {
        if (Chance(30)) return;
        AirlockRoom room = new(8, 0.9, 12, [new("small"), new("bag"), new("bulky")], Chance(60) ? [new("bulky")] : [], Source);
        scenario = scenario with { Station = scenario.Station with { Airlocks = [.. scenario.Station.Airlocks.Select(airlock => airlock with { Room = room })] } };
    }
}
