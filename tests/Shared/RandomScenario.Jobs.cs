using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests;

/// <summary>The gear and the jobs of a random scenario.</summary>
internal sealed partial class RandomScenario
{
    private readonly List<GearId> bags = [];
    private readonly List<GearId> restraints = [];
    private readonly Dictionary<GearId, GearId> toolIn = [];
    private readonly Dictionary<GearId, GearId> stockIn = [];

    private void MakeGear()
    {
        GripId[] stows = [.. grips.Where(grip => grip.Stow).Select(grip => grip.Id)];
        // What hangs at a hatch comes in with the bags, so nothing is meant to stay there.
        GripId[] stays = [.. stows.Where(stow => !airlocks.Any(airlock => airlock.Grip == stow))];
        Location Somewhere() => Chance(60) ? Location.Inside : new(LocationKind.Grip, Pick(stows).Value);
        for (int i = 1 + random.Next(4); i > 0; i--)
        {
            GearId bag = new($"bag-{i}"), tool = new($"driver-{i}"), stock = new($"ties-{i}");
            bags.Add(bag);
            gear.Add(new(bag, $"Bag {i}", GearKind.Bag, new("bag"), 8, 0.04, Somewhere(), Chance(15) ? new Location(LocationKind.Grip, Pick(stays).Value) : Location.Inside, 1));
            Location inside = new(LocationKind.Bag, bag.Value);
            if (Chance(70)) gear.Add(new(toolIn[bag] = tool, $"Driver {i}", GearKind.Tool, new("small"), 2, 0.002, inside, inside, 1));
            // More than all legs of a scenario can use.
            if (Chance(50)) gear.Add(new(stockIn[bag] = stock, $"Ties {i}", GearKind.Stock, new("small"), 0.05, 0.001, inside, null, 40));
        }
        for (int i = random.Next(3); i > 0; i--)
        {
            GearId restraint = new($"restraint-{i}");
            restraints.Add(restraint);
            Location start = Chance(25) ? new(LocationKind.Socket, sockets[i].Id.Value) : Somewhere();
            gear.Add(new(restraint, $"Restraint {i}", GearKind.Restraint, new("bag"), 10, 0.05, start, Chance(60) ? Location.Inside : null, 1));
        }
    }

    private void MakeJobs()
    {
        int count = 4 + random.Next(4);
        for (int j = 0; j < count; j++)
        {
            JobId id = new($"job-{j + 1}");
            ImmutableArray<Leg> legs = random.Next(6) switch
            {
                0 => Swap(id),
                1 => Together(id),
                2 or 3 => InARow(id),
                _ => [Single(id, "do")],
            };
            Worth worth = j == 0 || Chance(55) ? Worth.Must : Chance(50) ? Worth.Should : Worth.GetAhead;
            int value = 2 + random.Next(9);
            jobs.Add(new(id, $"Job {j + 1}", "so that search has work", worth, value, value / 2, "", legs, []));
        }
    }

    /// <summary>Legs of one job, each after the one before, some with the least or the most time between them.</summary>
    private ImmutableArray<Leg> InARow(JobId job)
    {
        FeatureId cover = new($"{job}-cover");
        string[] states = ["start", "first", "second", "third"];
        int count = 2 + random.Next(2);
        features.Add(new(cover, [.. states], states[0], null, null));
        ImmutableArray<Leg>.Builder legs = ImmutableArray.CreateBuilder<Leg>();
        for (int i = 0; i < count; i++)
        {
            Leg leg = Single(job, $"part-{i + 1}");
            leg = Makes(Needs(leg, new NeedFeature(NeedTime.Start, new(cover, [states[i]]))), new MakeFeature(new(cover, states[i + 1])));
            if (i > 0) leg = leg with { After = [new(legs[i - 1].Id, Minutes(Chance(30) ? 10 : 0), Chance(30) ? Minutes(120) : null)] };
            legs.Add(leg);
        }
        return legs.ToImmutable();
    }

    /// <summary>A bulky part is taken off and comes home; another one takes its place.</summary>
    private ImmutableArray<Leg> Swap(JobId job)
    {
        GearId old = new($"{job}-old"), fresh = new($"{job}-fresh");
        Site site = Pick(sites.FindAll(candidate => candidate.Grip is not null));
        gear.Add(new(old, "Old box", GearKind.Part, new("bulky"), 30, 0.1, new(LocationKind.Site, site.Id.Value), Location.Inside, 1));
        gear.Add(new(fresh, "Fresh box", GearKind.Part, new("bulky"), 30, 0.1, Location.Inside, new(LocationKind.Site, site.Id.Value), 1));
        FeatureId seat = new($"{job}-seat");
        features.Add(new(seat, ["filled", "empty", "renewed"], "filled", null, null));
        Leg Part(string name) => Single(job, name) with { Site = site.Id, Footing = Footing.BodyTether, Restraint = null, Socket = null, Setting = null, With = [], Steps = [AStep("work")] };
        Leg remove = Needs(Part("remove"), new NeedFeature(NeedTime.Start, new(seat, ["filled"])));
        remove = Makes(remove, new MakeFeature(new(seat, "empty")), new MoveGear(old, new(LocationKind.Person, ""))) with { PicksUp = [old] };
        Leg install = Needs(Part("install"), new NeedFeature(NeedTime.Start, new(seat, ["empty"])), new NeedGear(NeedTime.Start, fresh));
        install = Makes(install, new MakeFeature(new(seat, "renewed")), new MoveGear(fresh, new(LocationKind.Site, site.Id.Value)));
        return [remove, install with { With = [fresh], LeavesBehind = [fresh], After = [new(remove.Id, default, null)] }];
    }

    /// <summary>Two legs at one moment, by two people with nothing in common to carry.</summary>
    private ImmutableArray<Leg> Together(JobId job)
    {
        Leg first = Single(job, "hold"), second = Single(job, "turn");
        Leg Bare(Leg leg) => leg with { With = [], Who = [], Training = [], Steps = [AStep("work"), AStep("check")], MayWait = false, Together = "both" };
        bool sameRestraint = first.Restraint is { } restraint && (second.Restraint == restraint || second.Socket == first.Socket);
        bool sameArm = first.Footing == Footing.Arm && second.Footing == Footing.Arm;
        if (sameRestraint || sameArm) second = second with { Site = Pick(sites.FindAll(site => site.Grip is not null)).Id, Footing = Footing.Free, Restraint = null, Socket = null, Setting = null };
        return [Bare(first), Bare(second) with { Light = first.Light, NeedsLink = first.NeedsLink }];
    }

    private Leg Single(JobId job, string name)
    {
        Site site = Pick(sites);
        Leg leg = new(new($"{job}/{name}"), name, site.Id, [], [], site.Grip is null ? Footing.Arm : Chance(50) ? Footing.Free : Footing.BodyTether, null, null, null,
            [], [], [], "", [], [], null, false, false, [AStep("begin"), .. Chance(60) ? [AStep("end")] : ImmutableArray<Step>.Empty]);
        if (site.Grip is not null && restraints.Count > 0 && Chance(30))
        {
            Socket socket = Pick(sockets);
            Site atSocket = sites.Find(candidate => candidate.Grip == socket.Grip)!;
            leg = leg with { Site = atSocket.Id, Footing = Footing.Restraint, Restraint = Pick(restraints), Socket = socket.Id, Setting = Chance(50) ? "A1" : "B6" };
        }
        if (bags.Count > 0 && Chance(60))
        {
            GearId bag = Pick(bags);
            leg = leg with { With = [bag] };
            if (toolIn.TryGetValue(bag, out GearId tool)) leg = Needs(leg, new NeedGear(NeedTime.Throughout, tool));
            if (stockIn.TryGetValue(bag, out GearId stock)) leg = Makes(leg, new UseStock(stock, 1 + random.Next(2)));
        }
        if (Chance(20)) leg = leg with { Training = ["mechanisms"] };
        else if (Chance(20)) leg = leg with { Who = [people[random.Next(2)].Id] };
        if (Chance(25)) leg = leg with { Light = Chance(80) ? LightCondition.Day : LightCondition.Night, MayWait = Chance(60) };
        else if (Chance(15)) leg = leg with { NeedsLink = true };
        return consoles.Length > 0 && Chance(25) ? Dead(leg) : leg;
    }

    private Leg Dead(Leg leg)
    {
        Shutdown shutdown = Pick(consoles.SelectMany(console => console.Shutdowns).ToList());
        int switches = powerLines.Count(line => line.Closed!.Feature.Value.StartsWith(shutdown.Id.Value, StringComparison.Ordinal));
        return Needs(leg, new NeedDead(NeedTime.Throughout, new(shutdown.Id.Value), switches)) with { Shutdowns = [shutdown.Id] };
    }

    private Step AStep(string name)
    {
        int likely = 2 + random.Next(12);
        return new(new(name), name, "", new(Minutes(likely - 1), Minutes(likely), Minutes(likely * 2), Source), [], [],
            new(Seconds(30 + random.Next(90)), []), new(Seconds(60 + random.Next(120)), []), WorkClass.Moderate, null, null);
    }

    private static Leg Needs(Leg leg, params ImmutableArray<Need> needs) => leg with { Steps = leg.Steps.SetItem(0, leg.Steps[0] with { Needs = leg.Steps[0].Needs.AddRange(needs) }) };

    private static Leg Makes(Leg leg, params ImmutableArray<Effect> effects) => leg with { Steps = leg.Steps.SetItem(leg.Steps.Length - 1, leg.Steps[^1] with { Makes = leg.Steps[^1].Makes.AddRange(effects) }) };
}
