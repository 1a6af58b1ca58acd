using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Getting onto an arm, riding it, getting off.</summary>
internal static class ImageArm
{
    public static ImageAction Mount(ImageWorld world, MountArm mount)
    {
        Arm arm = ArmOf(world, mount.Arm);
        string who = world.Person(mount.Person), name = world.Arm(arm.Id), grip = world.Grip(mount.At);
        ImageAction action = world.Action("mount", mount, arm.Mount.Time).TakesUp(name)
            .NeedsAtStart(world.Stands(mount.Person, grip))
            .NeedsAtStart(world.IsLoose(mount.Person))
            .NeedsAtStart($"(mount {name} {grip})")
            .NeedsAtStart($"(riderless {name})")
            .Begins($"(not (riderless {name}))")
            .Begins($"(rides {who} {name})")
            .Ends($"(aboard {who} {name})")
            .Ends(Say.Not(world.IsLoose(mount.Person)))
            .Ends(Say.Not(world.Stands(mount.Person, grip)))
            // The structure's tether stays at the grip.
            .Ends($"(reel-waits {who} {grip})");
        if (PoseAt(arm, mount.At) is { } pose)
            action.NeedsThroughout($"(posed {name} {world.Pose(arm.Id, pose)})").Ends(world.Stands(mount.Person, world.Pose(arm.Id, pose)));
        return action;
    }

    public static ImageAction Move(ImageWorld world, ArmMove move)
    {
        Arm arm = ArmOf(world, move.Arm);
        string name = world.Arm(arm.Id), from = world.Pose(arm.Id, move.From), to = world.Pose(arm.Id, move.To);
        RideTime? ride = arm.RideBetween(move.From, move.To);
        ImageAction action = world.Action("move", move, ride is null ? Duration.FromSeconds(1) : arm.TimeOf(ride, move.BrakesSet)).TakesUp(name)
            .NeedsAtStart($"(joins {name} {from} {to})")
            .NeedsAtStart($"(posed {name} {from})")
            .Begins($"(not (posed {name} {from}))")
            .Ends($"(posed {name} {to})");
        if (move.Rider is not { } rider) return action.NeedsAtStart($"(riderless {name})");
        Point At(PoseId pose) => arm.Poses.Single(one => one.Id == pose).At;
        ImageClosings.Guard(world, action, new(At(move.From), At(move.To)), ride?.Through ?? []);
        return action
            .NeedsAtStart($"(rides {world.Person(rider)} {name})")
            .NeedsThroughout($"(aboard {world.Person(rider)} {name})")
            .NeedsAtStart(world.Stands(rider, from))
            .Begins(Say.Not(world.Stands(rider, from)))
            .Ends(world.Stands(rider, to));
    }

    public static ImageAction Dismount(ImageWorld world, DismountArm dismount)
    {
        Arm arm = ArmOf(world, dismount.Arm);
        string who = world.Person(dismount.Person), name = world.Arm(arm.Id), grip = world.Grip(dismount.At);
        ImageAction action = world.Action("dismount", dismount, arm.Dismount.Time).TakesUp(name)
            .NeedsAtStart($"(rides {who} {name})")
            .NeedsAtStart($"(aboard {who} {name})")
            .NeedsAtStart($"(mount {name} {grip})")
            .Ends($"(not (rides {who} {name}))")
            .Ends($"(not (aboard {who} {name}))")
            .Ends($"(riderless {name})")
            .Ends(world.IsLoose(dismount.Person))
            .Ends(world.Stands(dismount.Person, grip))
            .Ends($"(not (reel-waits {who} {grip}))");
        // With two short tethers there is no reel to be tied to again.
        if (world.Scenario.Tether.Protocol == TetherProtocol.Reel) action.NeedsAtStart($"(reel-waits {who} {grip})");
        if (PoseAt(arm, dismount.At) is { } pose)
            action.NeedsThroughout($"(posed {name} {world.Pose(arm.Id, pose)})").Ends(Say.Not(world.Stands(dismount.Person, world.Pose(arm.Id, pose))));
        return action;
    }

    private static Arm ArmOf(ImageWorld world, ArmId arm) => world.Scenario.Arms.Single(one => one.Id == arm);

    private static PoseId? PoseAt(Arm arm, GripId grip) => arm.Mounts.FirstOrDefault(mount => mount.Grip == grip)?.Pose;
}
