using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The actions of each kind of activity.</summary>
internal static class ImageActivities
{
    public static IEnumerable<ImageAction> Of(ImageWorld world, Activity activity) => activity switch
    {
        AirlockPhase phase => [ImageAirlock.Of(world, phase)],
        Translate walk => ImageWalk.Spans(world, walk),
        SwapReel swap => [ImageWalk.Swap(world, swap)],
        Take take => [ImageHandling.Take(world, take)],
        Put put => [ImageHandling.Put(world, put)],
        Give give => [ImageHandling.Give(world, give)],
        Plug plug => [ImageHandling.Plug(world, plug)],
        Unplug unplug => [ImageHandling.Unplug(world, unplug)],
        EnterRestraint enter => [ImageHandling.Enter(world, enter)],
        LeaveRestraint leave => [ImageHandling.Leave(world, leave)],
        MountArm mount => [ImageArm.Mount(world, mount)],
        ArmMove move => [ImageArm.Move(world, move)],
        DismountArm dismount => [ImageArm.Dismount(world, dismount)],
        DoStep step => [ImageSteps.Of(world, step)],
        SendCommand send => [ImageCommands.Of(world, send)],
        Await wait => [world.Action("wait", wait, Duration.FromSeconds(1))],
        CheckGloves check => [world.Action("check-gloves", check, world.Scenario.Checks?.Gloves?.Time.Time ?? Duration.FromSeconds(1))],
        Rest rest => [world.Action("rest", rest, Duration.FromSeconds(1))],
        _ => throw new ArgumentException($"activity '{activity.Id}' is of a kind that has no image: {activity.GetType().Name}"),
    };
}

/// <summary>Commands: on their way from the start, in effect at the end.</summary>
internal static class ImageCommands
{
    public static ImageAction Of(ImageWorld world, SendCommand send)
    {
        GroundConsole console = world.Scenario.Consoles.Single(one => one.Id == send.Console);
        Command command = console.Commands.Single(one => one.Id == send.Command);
        ImageAction action = world.Action("command", send, command.Time).TakesUp(world.Console(console.Id));
        if (command.NeedsLink) action.NeedsThroughout(world.HasLink);
        foreach (string literal in world.Becomes(command.Makes)) action.Ends(literal);
        if (command.Go is not null) action.Ends(IsRead(world, command.Id));
        foreach (Shutdown shutdown in console.Shutdowns)
        {
            string name = world.Shutdown(shutdown.Id);
            // Between sending and effect nobody may count on either state. A link that is cut is lost until the end of what turns on.
            if (shutdown.Off == command.Id) action.Begins($"(not (on {name}))").Ends($"(off {name})").Ends($"(cut {name})");
            if (shutdown.On == command.Id) action.Begins($"(not (off {name}))").Ends($"(on {name})").Ends($"(not (cut {name}))");
        }
        return action;
    }

    /// <summary>That the GO of a command was read at all; that it holds still is a matter of figures.</summary>
    public static string IsRead(ImageWorld world, CommandId command) => $"(read {world.Names.Of("command", "command", command.Value)})";
}

/// <summary>Zones: nobody is where it is closed, in whatever activity.</summary>
internal static class ImageZones
{
    public static void Guard(ImageWorld world, ImageAction action)
    {
        foreach (PersonId person in action.People)
            foreach (Zone zone in world.Scenario.Station.Zones)
                action.NeedsBetween(Say.Or([IsOpen(world, zone), Say.And(zone.Grips.Select(grip => Say.Not(world.Stands(person, world.Grip(grip)))))]));
    }

    public static string IsOpen(ImageWorld world, Zone zone) => Say.And([
        $"(not (shut {world.Zone(zone.Id)}))",
        .. zone.Light switch { LightCondition.Day => ["(dark)"], LightCondition.Night => ["(not (night))"], _ => Array.Empty<string>() },
        .. zone.While.Select(condition => Say.Not(world.Holds(condition)))]);
}
