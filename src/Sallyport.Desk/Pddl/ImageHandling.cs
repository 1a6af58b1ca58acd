using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Taking, putting, handing over; plugging restraints, getting into and out of them. What is handled is in the hands meanwhile.</summary>
internal static class ImageHandling
{
    public static ImageAction Take(ImageWorld world, Take take)
    {
        ImageSpots spots = world.Spots;
        string hooked = spots.Lies(take.Gear, spots.Hook(take.At)), inside = spots.Lies(take.Gear, spots.Inside);
        IEnumerable<string> hatches = world.Scenario.Station.Airlocks.Where(airlock => airlock.Grip == take.At).Select(airlock => $"(opened {world.Hatch(airlock.Id)})");
        ImageAction action = world.Action("take", take, world.Scenario.Handling.Take.Time)
            .NeedsAtStart(world.Stands(take.Person, world.Grip(take.At)))
            .NeedsAtStart(Say.Or([hooked, .. hatches.Select(opened => Say.And([inside, opened]))]))
            .NeedsAtStart(spots.CanHang(take.Person, take.Carry, take.Gear))
            .Begins(Say.Not(hooked))
            .Begins(Say.Not(inside));
        return Onto(world, action, take.Person, take.Person, take.Carry, take.Gear);
    }

    public static ImageAction Put(ImageWorld world, Put put) => Off(
        world,
        world.Action("put", put, world.Scenario.Handling.Put.Time)
            .NeedsAtStart(world.Stands(put.Person, world.Grip(put.At)))
            .NeedsAtStart($"(stow {world.Grip(put.At)})"),
        put.Person, put.Gear).Ends(world.Spots.Lies(put.Gear, world.Spots.Hook(put.At)));

    public static ImageAction Give(ImageWorld world, Give give)
    {
        ImageAction action = Off(
            world,
            world.Action("give", give, world.Scenario.Handling.Give.Time)
                .NeedsAtStart(world.Stands(give.From, world.Grip(give.At)))
                .NeedsAtStart(world.Stands(give.To, world.Grip(give.At))),
            give.From, give.Gear).NeedsAtStart(world.Spots.CanHang(give.To, give.Carry, give.Gear));
        return Onto(world, action, give.From, give.To, give.Carry, give.Gear);
    }

    public static ImageAction Plug(ImageWorld world, Plug plug)
    {
        string socket = world.Spots.Socket(plug.Socket);
        return Off(
            world,
            world.Action("plug", plug, world.Scenario.Handling.Plug.Time)
                .NeedsAtStart(world.Stands(plug.Person, world.Grip(GripOf(world, plug.Socket))))
                .NeedsAtStart($"(restraint {world.Gear(plug.Gear)})")
                .NeedsAtStart($"(clear {socket})"),
            plug.Person, plug.Gear)
            .Ends($"(not (clear {socket}))")
            .Ends(world.Spots.Lies(plug.Gear, socket))
            .Ends(Fixed(world, plug.Gear, plug.Setting));
    }

    public static ImageAction Unplug(ImageWorld world, Unplug unplug)
    {
        string socket = world.Spots.Socket(unplug.Socket);
        ImageAction action = world.Action("unplug", unplug, world.Scenario.Handling.Unplug.Time)
            .NeedsAtStart(world.Stands(unplug.Person, world.Grip(GripOf(world, unplug.Socket))))
            .NeedsAtStart(world.Spots.Lies(unplug.Gear, socket))
            .NeedsAtStart($"(vacant {socket})")
            .NeedsAtStart(world.Spots.CanHang(unplug.Person, unplug.Carry, unplug.Gear))
            .Begins(Say.Not(world.Spots.Lies(unplug.Gear, socket)))
            .Begins($"(clear {socket})");
        foreach (string setting in SettingsOf(world, unplug.Gear)) action.Ends(Say.Not(Fixed(world, unplug.Gear, setting)));
        return Onto(world, action, unplug.Person, unplug.Person, unplug.Carry, unplug.Gear);
    }

    public static ImageAction Enter(ImageWorld world, EnterRestraint enter)
    {
        string socket = world.Spots.Socket(enter.Socket);
        return world.Action("enter", enter, world.Scenario.Handling.Enter.Time)
            .NeedsAtStart(world.Stands(enter.Person, world.Grip(GripOf(world, enter.Socket))))
            .NeedsAtStart(world.IsLoose(enter.Person))
            .NeedsAtStart($"(not (clear {socket}))")
            .NeedsAtStart($"(vacant {socket})")
            .Begins($"(not (vacant {socket}))")
            .Ends($"(held-at {world.Person(enter.Person)} {socket})")
            .Ends(Say.Not(world.IsLoose(enter.Person)));
    }

    public static ImageAction Leave(ImageWorld world, LeaveRestraint leave)
    {
        string socket = world.Spots.Socket(leave.Socket), held = $"(held-at {world.Person(leave.Person)} {socket})";
        return world.Action("leave", leave, world.Scenario.Handling.Leave.Time)
            .NeedsAtStart(held)
            .Ends(Say.Not(held))
            .Ends($"(vacant {socket})")
            .Ends(world.IsLoose(leave.Person));
    }

    public static string Fixed(ImageWorld world, GearId gear, string setting) => $"(fixed {world.Gear(gear)} {world.Setting(setting)})";

    /// <summary>From whatever carry point of a person into the hands at the start, and out of them at the end.</summary>
    private static ImageAction Off(ImageWorld world, ImageAction action, PersonId person, GearId gear)
    {
        action.NeedsAtStart(world.Spots.IsWith(person, gear));
        foreach (string carry in world.Spots.CarriesOf(person))
        {
            action.BeginsWhen(world.Spots.Lies(gear, carry), $"(clear {carry})");
            action.Begins(Say.Not(world.Spots.Lies(gear, carry)));
        }
        string hands = world.Spots.Lies(gear, world.Spots.Hands(person));
        return action.Begins(hands).Ends(Say.Not(hands));
    }

    /// <summary>In somebody's hands from the start, on a carry point at the end.</summary>
    private static ImageAction Onto(ImageWorld world, ImageAction action, PersonId by, PersonId onto, CarryPointId point, GearId gear)
    {
        string hands = world.Spots.Lies(gear, world.Spots.Hands(by)), carry = world.Spots.Carry(onto, point);
        return action.Begins(hands).Ends(Say.Not(hands)).Ends(world.Spots.Lies(gear, carry)).Ends($"(not (clear {carry}))");
    }

    private static IEnumerable<string> SettingsOf(ImageWorld world, GearId gear) =>
        world.Timeline.Activities.OfType<Plug>().Where(plug => plug.Gear == gear).Select(plug => plug.Setting).Distinct();

    private static GripId GripOf(ImageWorld world, SocketId socket) => world.Scenario.Station.Sockets.Single(one => one.Id == socket).Grip;
}
