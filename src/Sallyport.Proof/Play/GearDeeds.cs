using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Taking, putting, handing over; plugging restraints, getting into and out of them.</summary>
internal static class GearDeeds
{
    public static Deed Take(World world, Take take)
    {
        Deed deed = new(take);
        deed.NeedsTime(world.Scenario.Handling.Take.Time, () => $"Taking {take.Gear}");
        NeedsTie(world, deed, take.Gear);
        deed.NeedsAt(world, take.Person, take.At, () => $"take {take.Gear}");
        deed.Needs("gear.absent", () => IsThere(world, take.Gear, take.At),
            () => $"{take.Person} is to take {take.Gear} at {take.At}, but it is {world.SpotOf(take.Gear).InWords()}",
            () => $"Bring {take.Gear} to {take.At} first, or take it where it is.");
        deed.NeedsCarry(world, take.Person, take.Carry, take.Gear);
        deed.Begin = () => world.Move(take.Gear, Spot.InHands(take.Person));
        deed.Finish = () => world.MoveOnto(take.Person, take.Carry, take.Gear);
        return deed;
    }

    /// <summary>Hooked at the grip; or inside, once the hatch at this grip is open.</summary>
    private static bool IsThere(World world, GearId gear, GripId grip)
    {
        Spot spot = world.SpotOf(gear);
        return spot == Spot.At(grip) || (spot == Spot.Inside && world.Scenario.Station.Airlocks.Any(
            airlock => airlock.Grip == grip && world.State(world.Register.Hatch[airlock.Id]) == "open"));
    }

    public static Deed Put(World world, Put put)
    {
        Deed deed = new(put);
        deed.NeedsTime(world.Scenario.Handling.Put.Time, () => $"Hooking {put.Gear}");
        NeedsTie(world, deed, put.Gear);
        deed.NeedsAt(world, put.Person, put.At, () => $"hook {put.Gear}");
        NeedsWith(world, deed, put.Person, put.Gear, "hook it");
        deed.Needs("item.untied", () => world.Lookup.Grip(put.At).Stow,
            () => $"{put.Person} is to hook {put.Gear} at {put.At}, where nothing may be left", () => $"Hook {put.Gear} at a grip that holds gear.");
        deed.Begin = () => world.Move(put.Gear, Spot.InHands(put.Person));
        deed.Finish = () => world.Move(put.Gear, Spot.At(put.At));
        return deed;
    }

    public static Deed Give(World world, Give give)
    {
        Deed deed = new(give);
        deed.NeedsTime(world.Scenario.Handling.Give.Time, () => $"Handing {give.Gear} over");
        NeedsTie(world, deed, give.Gear);
        deed.NeedsAt(world, give.From, give.At, () => $"hand {give.Gear} over");
        deed.NeedsAt(world, give.To, give.At, () => $"be handed {give.Gear}");
        NeedsWith(world, deed, give.From, give.Gear, "hand it over");
        deed.NeedsCarry(world, give.To, give.Carry, give.Gear);
        deed.Begin = () => world.Move(give.Gear, Spot.InHands(give.From));
        deed.Finish = () => world.MoveOnto(give.To, give.Carry, give.Gear);
        return deed;
    }

    public static Deed Plug(World world, Plug plug)
    {
        Socket socket = world.Lookup.Socket(plug.Socket);
        Deed deed = new(plug);
        deed.NeedsTime(world.Scenario.Handling.Plug.Time, () => $"Plugging {plug.Gear}");
        NeedsTie(world, deed, plug.Gear);
        deed.NeedsAt(world, plug.Person, socket.Grip, () => $"plug {plug.Gear}");
        NeedsWith(world, deed, plug.Person, plug.Gear, "plug it");
        deed.Needs("restraint.absent", () => world.Lookup.Gear(plug.Gear).Kind == GearKind.Restraint,
            () => $"{plug.Person} is to plug {plug.Gear} into {plug.Socket}, but it is no restraint", () => "Plug a restraint.");
        deed.Needs("restraint.absent", () => InSocket(world, plug.Socket) is null,
            () => $"{plug.Person} is to plug {plug.Gear} into {plug.Socket}, but {InSocket(world, plug.Socket)} is in it", () => "Use an empty socket.");
        deed.Begin = () => world.Move(plug.Gear, Spot.InHands(plug.Person));
        deed.Finish = () =>
        {
            world.Move(plug.Gear, Spot.In(plug.Socket));
            if (world.Register.Setting.TryGetValue(plug.Gear, out int setting)) world.Become(setting, plug.Setting);
        };
        return deed;
    }

    public static Deed Unplug(World world, Unplug unplug)
    {
        Socket socket = world.Lookup.Socket(unplug.Socket);
        Deed deed = new(unplug);
        deed.NeedsTime(world.Scenario.Handling.Unplug.Time, () => $"Unplugging {unplug.Gear}");
        NeedsTie(world, deed, unplug.Gear);
        deed.NeedsAt(world, unplug.Person, socket.Grip, () => $"unplug {unplug.Gear}");
        deed.Needs("restraint.absent", () => world.SpotOf(unplug.Gear) == Spot.In(unplug.Socket),
            () => $"{unplug.Person} is to unplug {unplug.Gear} from {unplug.Socket}, but it is {world.SpotOf(unplug.Gear).InWords()}",
            () => "Unplug it where it is.");
        deed.Needs("restraint.absent", () => world.State(world.Register.SocketUser[unplug.Socket]) == Places.None,
            () => $"{unplug.Person} is to unplug {unplug.Gear} while {world.State(world.Register.SocketUser[unplug.Socket])} is in it",
            () => "Get out of it first.");
        deed.NeedsCarry(world, unplug.Person, unplug.Carry, unplug.Gear);
        deed.Begin = () => world.Move(unplug.Gear, Spot.InHands(unplug.Person));
        deed.Finish = () =>
        {
            world.MoveOnto(unplug.Person, unplug.Carry, unplug.Gear);
            if (world.Register.Setting.TryGetValue(unplug.Gear, out int setting)) world.Become(setting, Places.None);
        };
        return deed;
    }

    public static Deed Enter(World world, EnterRestraint enter)
    {
        Socket socket = world.Lookup.Socket(enter.Socket);
        int user = world.Register.SocketUser[enter.Socket];
        Deed deed = new(enter);
        deed.NeedsTime(world.Scenario.Handling.Enter.Time, () => "Getting into the restraint");
        deed.NeedsAt(world, enter.Person, socket.Grip, () => "get into the restraint");
        deed.NeedsFree(world, enter.Person, () => "get into a restraint");
        deed.Needs("restraint.absent", () => InSocket(world, enter.Socket) is not null,
            () => $"{enter.Person} is to get into a restraint at {enter.Socket}, but none is there", () => $"Plug a restraint into {enter.Socket} first.");
        deed.Needs("restraint.absent", () => world.State(user) == Places.None,
            () => $"{enter.Person} is to get into the restraint at {enter.Socket} while {world.State(user)} is in it", () => "Use another restraint, or wait.");
        deed.Begin = () => world.Become(user, enter.Person.Value);
        deed.Finish = () => world.Become(world.Of(enter.Person).Footing, Places.In(enter.Socket));
        return deed;
    }

    public static Deed Leave(World world, LeaveRestraint leave)
    {
        Deed deed = new(leave);
        deed.NeedsTime(world.Scenario.Handling.Leave.Time, () => "Getting out of the restraint");
        deed.Needs("restraint.absent", () => world.Footing(leave.Person) == Places.In(leave.Socket),
            () => $"{leave.Person} is to get out of the restraint at {leave.Socket}, but is not in it", () => "Get into it first.");
        deed.Finish = () =>
        {
            world.Become(world.Of(leave.Person).Footing, Places.Free);
            world.Become(world.Register.SocketUser[leave.Socket], Places.None);
        };
        return deed;
    }

    /// <summary>The restraint in a socket; null when it is empty.</summary>
    public static GearId? InSocket(World world, SocketId socket)
    {
        foreach (Gear gear in world.Scenario.Gear)
        {
            if (world.PeekSpotOf(gear.Id) != Spot.In(socket)) continue;
            world.Read(world.Register.GearPlace[gear.Id]);
            return gear.Id;
        }
        return null;
    }

    /// <summary>Make before break: there is time to hook the second tie before the first is let go.</summary>
    private static void NeedsTie(World world, Deed deed, GearId gear)
    {
        if (world.Scenario.Handling.Tie is not { } tie) return;
        deed.Needs("item.untied", () => deed.Activity.Length >= tie,
            () => $"{gear} changes hands in {deed.Activity.Length}, and hooking its second tie before the first is let go takes {tie}",
            () => $"Give it at least {tie}.",
            () => new(deed.Activity.Length.ToString(), tie.ToString(), Duration.FromSeconds(deed.Activity.Length.Seconds - tie.Seconds).ToString()));
    }

    private static void NeedsWith(World world, Deed deed, PersonId person, GearId gear, string toDo) => deed.Needs(
        "gear.absent", () => world.SpotOf(gear).IsWith(person),
        () => $"{person} is to {toDo}, but {gear} is {world.SpotOf(gear).InWords()}", () => $"Let {person} take {gear} first.");
}
