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
        string seen = IsSeen(world, command, action);
        foreach (FeatureState made in command.Makes.GroupBy(one => one.Feature).Select(states => states.Last()).Where(one => world.IsSwitch(one.Feature)))
        {
            // Seen and read to the crew, it is known; seen only, or changed unseen, it is not.
            if (command.Go is not null) action.EndsWhen(seen, world.IsKnown(made.Feature)).EndsWhen(Say.And([Say.Not(seen), Say.Not(world.Is(made.Feature, made.State))]), Say.Not(world.IsKnown(made.Feature)));
            else action.EndsWhen(Say.Or([seen, Say.Not(world.Is(made.Feature, made.State))]), Say.Not(world.IsKnown(made.Feature)));
        }
        foreach (Shutdown shutdown in console.Shutdowns)
        {
            string name = world.Shutdown(shutdown.Id);
            // Between sending and effect nobody may count on either state. A link that is cut is lost until the end of what turns on.
            if (shutdown.Off == command.Id) action.Begins($"(not (on {name}))").Ends($"(off {name})").Ends($"(cut {name})").Ends(world.IsCold(shutdown.Id));
            if (shutdown.On == command.Id) action.Begins($"(not (off {name}))").Ends($"(on {name})").Ends($"(not (cut {name}))").EndsWhen(seen, Say.Not(world.IsCold(shutdown.Id)));
            // Nobody sees what is under way meanwhile.
            if (shutdown.Off == command.Id && shutdown.CutsLink)
                foreach (Command other in Watched(world).Where(other => other.Id != command.Id)) action.Ends(Say.Not(IsWatched(world, other.Id)));
        }
        return action;
    }

    /// <summary>That a command was seen to work: with a link for the whole of it, or on board.</summary>
    private static string IsSeen(ImageWorld world, Command command, ImageAction action)
    {
        if (command.NeedsLink || command.SeenAboard) return Say.And([]);
        string watched = IsWatched(world, command.Id);
        action.BeginsWhen(world.HasLink, watched).BeginsWhen(Say.Not(world.HasLink), Say.Not(watched));
        return watched;
    }

    /// <summary>The commands of which it hangs on the link whether they are seen.</summary>
    public static IEnumerable<Command> Watched(ImageWorld world) =>
        world.Scenario.Consoles.SelectMany(console => console.Commands).Where(command => !command.NeedsLink && !command.SeenAboard);

    /// <summary>That there has been a link since the command was sent.</summary>
    public static string IsWatched(ImageWorld world, CommandId command) => $"(watched {world.Names.Of("command", "command", command.Value)})";

    /// <summary>That the GO of a command was read at all; that it holds still is a matter of figures.</summary>
    public static string IsRead(ImageWorld world, CommandId command) => $"(read {world.Names.Of("command", "command", command.Value)})";
}
