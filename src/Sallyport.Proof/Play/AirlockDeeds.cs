using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Out and in through an airlock.</summary>
internal static class AirlockDeeds
{
    public static Deed Of(World world, AirlockPhase phase)
    {
        Airlock airlock = world.Lookup.Airlock(phase.Airlock);
        Deed deed = new(phase);
        switch (phase.Phase)
        {
            case AirlockPhaseKind.Out:
                deed.NeedsTime(airlock.OutEach, () => "Going out through the hatch");
                foreach (PersonId person in phase.Who) Out(world, deed, airlock, person);
                break;
            case AirlockPhaseKind.In:
                deed.NeedsTime(airlock.InEach, () => "Coming in through the hatch");
                foreach (PersonId person in phase.Who) In(world, deed, airlock, person);
                break;
            case AirlockPhaseKind.WaitInside or AirlockPhaseKind.SafeInside:
                foreach (PersonId person in phase.Who) NeedsInside(world, deed, person, "wait inside");
                break;
            case AirlockPhaseKind.BagsOut:
                deed.NeedsTime(airlock.OutBags, () => "Handing the bags out");
                AtHatch(world, deed, airlock, "hand the bags out");
                break;
            case AirlockPhaseKind.Check:
                deed.NeedsTime(airlock.OutCheck, () => "The mutual check");
                AtHatch(world, deed, airlock, "do the mutual check");
                break;
            case AirlockPhaseKind.Inventory:
                deed.NeedsTime(airlock.Inventory, () => "Clean-up and inventory");
                AtHatch(world, deed, airlock, "do the inventory");
                break;
            case AirlockPhaseKind.BagsIn:
                deed.NeedsTime(airlock.InBags, () => "Handing the bags in");
                AtHatch(world, deed, airlock, "hand the bags in");
                SoilDeeds.NeedsCleanBags(world, deed, airlock.Grip);
                deed.Finish += () => BringIn(world, Spot.At(airlock.Grip));
                break;
            case AirlockPhaseKind.Close:
                Close(world, deed, airlock);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(phase), phase.Phase, "not a phase of an airlock");
        }
        return deed;
    }

    private static void Out(World world, Deed deed, Airlock airlock, PersonId person)
    {
        NeedsInside(world, deed, person, "go out");
        foreach (PersonId earlier in airlock.Order.TakeWhile(one => one != person))
            deed.Needs("airlock.order", () => world.IsOutside(earlier),
                () => $"{person} goes out before {earlier}, against the order of {airlock.Id}", () => $"Let {earlier} go out first.");
        deed.Begin += () =>
        {
            if (world.State(world.Register.Hatch[airlock.Id]) != "open") world.Become(world.Register.Hatch[airlock.Id], "open");
            world.OutOf[person] = airlock.Id;
        };
        deed.Finish += () =>
        {
            PersonVariables variables = world.Of(person);
            world.Become(variables.Place, Places.At(airlock.Grip));
            world.Become(variables.Footing, Places.Free);
            Tie(world, person, airlock.Grip);
        };
    }

    private static void Tie(World world, PersonId person, GripId grip)
    {
        world.Lines[person].Clear();
        if (world.Scenario.Tether.Protocol == TetherProtocol.Reel && world.Lookup.Person(person).Reels.Length > 0) world.Lines[person].Hook(grip);
        world.ShowLine(person);
        world.Write(world.Of(person).Hooks, TetherHooks.AtRest(world, person));
    }

    private static void In(World world, Deed deed, Airlock airlock, PersonId person)
    {
        deed.NeedsAt(world, person, airlock.Grip, () => "come in");
        SoilDeeds.NeedsClean(world, deed, person);
        foreach (PersonId before in airlock.Order.SkipWhile(one => one != person).Skip(1))
            deed.Needs("airlock.order", () => !world.IsOutside(before),
                () => $"{person} comes in before {before}, against the order of {airlock.Id}", () => $"Let {before} come in first.");
        deed.Needs("tether.wrap",
            () => world.Read(world.Of(person).Reels) <= 1 && world.Read(world.Of(person).Tether) == 0,
            () => $"{person} comes in with {world.Read(world.Of(person).Tether) / 1000.0:0.0} m of line still laid from "
                + $"{world.State(world.Of(person).Anchor)} and {world.Read(world.Of(person).Reels)} reels hooked: the way home was not back along the line",
            () => $"Bring {person} home the way the line lies, taking each reel back where it was hooked.",
            () => new($"{world.Read(world.Of(person).Tether) / 1000.0:0.0} m", "0 m", $"{-world.Read(world.Of(person).Tether) / 1000.0:0.0} m"));
        deed.Finish += () =>
        {
            PersonVariables variables = world.Of(person);
            world.Become(variables.Place, Places.Inside);
            world.Become(variables.Footing, Places.Free);
            world.Lines[person].Clear();
            world.ShowLine(person);
            world.Write(variables.Hooks, 0);
            foreach (Gear gear in world.CarriedBy(person).ToList()) world.Move(gear.Id, Spot.Inside);
        };
    }

    /// <summary>What hangs at the hatch and is wanted inside is handed in; what belongs there stays. Where everybody goes in early, what is soiled
    /// stays hung there too.</summary>
    private static void BringIn(World world, Spot hatch)
    {
        foreach (Gear gear in world.Scenario.Gear)
            if (gear.End == Location.Inside && world.PeekSpotOf(gear.Id) == hatch && !SoilDeeds.StaysOutside(world, gear)) world.Move(gear.Id, Spot.Inside);
    }

    private static void Close(World world, Deed deed, Airlock airlock)
    {
        deed.NeedsTime(airlock.Close, () => "Closing the hatch");
        foreach (PersonId person in world.Register.People.Keys)
            deed.Needs("hatch.end", () => !world.IsOutside(person),
                () => $"The hatch is closed while {person} is {Deed.PlaceInWords(world, person)}", () => $"Bring {person} in before the hatch is closed.");
        deed.Finish += () => world.Become(world.Register.Hatch[airlock.Id], "closed");
    }

    private static void AtHatch(World world, Deed deed, Airlock airlock, string toDo)
    {
        foreach (PersonId person in deed.Activity.People) deed.NeedsAt(world, person, airlock.Grip, () => toDo);
    }

    private static void NeedsInside(World world, Deed deed, PersonId person, string toDo) => deed.Needs(
        "way.none", () => !world.IsOutside(person),
        () => $"{person} is to {toDo}, but is {Deed.PlaceInWords(world, person)}", () => $"Let {person} {toDo} only when inside.");
}

/// <summary>How many hooks hold a person.</summary>
internal static class TetherHooks
{
    /// <summary>Standing: the reel's line, or both short tethers where two are moved in turn. None without a line.</summary>
    public static int AtRest(World world, PersonId person) =>
        world.Scenario.Tether.Protocol == TetherProtocol.Leapfrog ? 2 : world.Lines[person].Count > 0 ? 1 : 0;

    /// <summary>Walking: one of two short tethers is always being moved.</summary>
    public static int Walking(World world, PersonId person) =>
        world.Scenario.Tether.Protocol == TetherProtocol.Leapfrog ? 1 : AtRest(world, person);
}
