using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What each kind of activity asks and does.</summary>
internal static class Deeds
{
    public static Deed Of(World world, LegStarts starts, Activity activity) => Contact.After(world, OfKind(world, starts, activity));

    private static Deed OfKind(World world, LegStarts starts, Activity activity) => activity switch
    {
        AirlockPhase phase => AirlockDeeds.Of(world, phase),
        Translate walk => WalkDeeds.Translate(world, walk),
        SwapReel swap => WalkDeeds.Swap(world, swap),
        Take take => GearDeeds.Take(world, take),
        Put put => GearDeeds.Put(world, put),
        Give give => GearDeeds.Give(world, give),
        Plug plug => GearDeeds.Plug(world, plug),
        Unplug unplug => GearDeeds.Unplug(world, unplug),
        EnterRestraint enter => GearDeeds.Enter(world, enter),
        LeaveRestraint leave => GearDeeds.Leave(world, leave),
        MountArm mount => ArmDeeds.Mount(world, mount),
        ArmMove move => ArmDeeds.Move(world, move),
        DismountArm dismount => ArmDeeds.Dismount(world, dismount),
        DoStep step => StepDeeds.Of(world, starts, step),
        SendCommand send => CommandDeeds.Of(world, send),
        Await wait => new Deed(wait),
        CheckGloves check => PauseDeeds.Check(world, check),
        Rest rest => PauseDeeds.Rest(world, rest),
        _ => throw new ArgumentException($"activity '{activity.Id}' is of a kind that play does not know: {activity.GetType().Name}"),
    };
}
