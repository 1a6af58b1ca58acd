using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Getting onto an arm, riding it, getting off.</summary>
internal static class ArmDeeds
{
    public static Deed Mount(World world, MountArm mount)
    {
        Arm arm = world.Lookup.Arm(mount.Arm);
        PersonId who = mount.Person;
        ArmMount? at = arm.Mounts.FirstOrDefault(one => one.Grip == mount.At);
        int pose = world.Register.ArmPose[arm.Id], rider = world.Register.ArmRider[arm.Id];
        Deed deed = new(mount);
        deed.NeedsTime(arm.Mount.Time, () => $"Getting onto {arm.Id}");
        HookMoments.Needs(world, deed);
        deed.NeedsAt(world, who, mount.At, () => $"get onto {arm.Id}");
        deed.NeedsFree(world, who, () => $"get onto {arm.Id}");
        NeedsPose(world, deed, arm, at, mount.At, $"{who} is to get onto {arm.Id}");
        NeedsBrakes(world, deed, arm.Id, $"{who} gets onto {arm.Id}");
        deed.Needs("arm.shared", () => world.State(rider) == Places.None,
            () => $"{who} is to get onto {arm.Id} while {world.State(rider)} has it", () => $"Let {arm.Id} be free first.");
        deed.Begin = () =>
        {
            world.Become(rider, who.Value);
            if (mount.Hooks is null) world.Write(world.Of(who).Hooks, TetherHooks.AtRest(world, who) + 1);
        };
        deed.Finish = () =>
        {
            // Where the timeline mounts at a grip that is no mount, the arm's own pose is where the person is now.
            string now = at is not null ? at.Pose.Value : world.State(pose);
            PersonVariables variables = world.Of(who);
            world.Become(variables.Place, $"{arm.Id}/{now}");
            world.Become(variables.Footing, Places.On(arm.Id));
            world.Become(variables.Anchor, Places.On(arm.Id));
            world.Write(variables.Tether, 0);
            world.Write(variables.Hooks, 1);
            if (at is not null) world.MountedAt[who] = at;
        };
        return deed;
    }

    public static Deed Move(World world, ArmMove move)
    {
        Arm arm = world.Lookup.Arm(move.Arm);
        world.Lookup.Pose(arm, move.From);
        world.Lookup.Pose(arm, move.To);
        int pose = world.Register.ArmPose[arm.Id], rider = world.Register.ArmRider[arm.Id], brakes = world.Register.ArmBrakes[arm.Id];
        RideTime? ride = arm.RideBetween(move.From, move.To);
        string riderTold = move.Rider?.Value ?? Places.None;
        Deed deed = new(move);
        deed.Needs("way.none", () => ride is not null,
            () => $"{arm.Id} is to go from {move.From} to {move.To}, but no such move is known", () => "Go by poses that the table of the arm joins.");
        if (ride is not null) deed.NeedsTime(arm.TimeOf(ride, move.BrakesSet), () => $"{arm.Id} from {move.From} to {move.To}", "way.short");
        deed.Needs("arm.shared", () => world.State(pose) == move.From.Value,
            () => $"{arm.Id} is to go from {move.From}, but its pose is {world.State(pose)}", () => $"Bring {arm.Id} to {move.From} first.");
        deed.Needs("arm.rider", () => world.State(rider) == riderTold,
            () => $"{arm.Id} moves with {(move.Rider is null ? "nobody" : riderTold)} told, but {world.State(rider)} has it",
            () => "Let the rider told be the one who got on.");
        if (move.Rider is { } who)
        {
            deed.NeedsThroughout("arm.rider", () => world.Footing(who) == Places.On(arm.Id),
                () => $"{arm.Id} moves {who}, who is not held in its restraint", () => $"Let {who} get onto {arm.Id} first.");
            deed.NeedsThroughout("tether.rider", () => world.State(world.Of(who).Anchor) == Places.On(arm.Id),
                () => $"{arm.Id} moves {who} while {who} is still tied to {world.State(world.Of(who).Anchor)}", () => $"Untie {who} from the structure before {arm.Id} moves.");
        }
        deed.Begin = () =>
        {
            world.Become(pose, "moving");
            world.Become(brakes, "off");
            if (move.Rider is { } person) world.Become(world.Of(person).Place, Places.MovingOn(arm.Id));
        };
        deed.Finish = () =>
        {
            world.Become(pose, move.To.Value);
            if (move.BrakesSet) world.Become(brakes, "on");
            if (move.Rider is { } person) world.Become(world.Of(person).Place, Places.At(arm.Id, move.To));
        };
        return deed;
    }

    public static Deed Dismount(World world, DismountArm dismount)
    {
        Arm arm = world.Lookup.Arm(dismount.Arm);
        PersonId who = dismount.Person;
        TetherLine line = world.Lines[who];
        ArmMount? at = arm.Mounts.FirstOrDefault(one => one.Grip == dismount.At);
        int rider = world.Register.ArmRider[arm.Id];
        Deed deed = new(dismount);
        deed.NeedsTime(arm.Dismount.Time, () => $"Getting off {arm.Id}");
        HookMoments.Needs(world, deed);
        deed.Needs("arm.rider", () => world.State(rider) == who.Value && world.Footing(who) == Places.On(arm.Id),
            () => $"{who} is to get off {arm.Id}, but is not on it", () => $"Let {who} get onto {arm.Id} first.");
        NeedsPose(world, deed, arm, at, dismount.At, $"{who} is to get off {arm.Id}");
        NeedsBrakes(world, deed, arm.Id, $"{who} gets off {arm.Id}");
        if (world.Scenario.Tether.Protocol == TetherProtocol.Reel)
            deed.Needs("tether.none", () => line.End == dismount.At,
                () => $"{who} gets off {arm.Id} at {dismount.At}, but the reel was left at {line.End?.Value ?? "no grip"}: nothing to be tied to",
                () => "Get off where you got on.");
        if (dismount.Hooks is null) deed.Begin = () => world.Write(world.Of(who).Hooks, line.End == dismount.At ? TetherHooks.AtRest(world, who) + 1 : 1);
        deed.Finish = () =>
        {
            PersonVariables variables = world.Of(who);
            world.Become(variables.Place, Places.At(dismount.At));
            world.Become(variables.Footing, Places.Free);
            world.Become(rider, Places.None);
            if (line.End != dismount.At) line.Clear();
            world.ShowLine(who);
            world.Write(variables.Hooks, TetherHooks.AtRest(world, who));
            world.MountedAt.Remove(who);
        };
        return deed;
    }

    /// <summary>That an arm stands with its brakes on, from start to end. Of an arm whose brakes the scenario does not tell of, the rule says
    /// that it is not applied.</summary>
    public static void NeedsBrakes(World world, Deed deed, ArmId arm, string told)
    {
        if (world.Lookup.Arm(arm).Brakes is null) return;
        deed.NeedsThroughout("arm.brakes", () => world.State(world.Register.ArmBrakes[arm]) == "on",
            () => $"{told} while the brakes of {arm} are off", () => $"Set the brakes of {arm} at the end of the move before it, and keep it still meanwhile.");
    }

    private static void NeedsPose(World world, Deed deed, Arm arm, ArmMount? mount, GripId grip, string told)
    {
        int pose = world.Register.ArmPose[arm.Id];
        deed.Needs("arm.shared", () => mount is not null && world.State(pose) == mount.Pose.Value,
            () => mount is null
                ? $"{told} at {grip}, where nobody can get on or off"
                : $"{told} at {grip}, but its pose is {world.State(pose)} and not {mount.Pose}",
            () => mount is null ? "Use one of the arm's mounts." : $"Bring {arm.Id} to {mount.Pose} first.");
        if (mount is not null)
            deed.NeedsThroughout("arm.shared", () => world.State(pose) == mount.Pose.Value,
                () => $"{arm.Id} moves away from {mount.Pose} while somebody gets on or off", () => $"Keep {arm.Id} still meanwhile.");
    }
}
