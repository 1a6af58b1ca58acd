using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>How long it takes from an arm: by riding it back, or with the arm stopped by climbing down.</summary>
internal sealed class ArmHome(World world, WayHome wayHome)
{
    /// <summary>From a pose: the ride back to where the person got on, off the arm, and home along the line that waits there.</summary>
    public Way Riding(PersonId person, double slower, Arm arm, PoseId pose) => MountOf(person, arm) is { } mount
        ? wayHome.From(person, slower, mount.Grip).Behind(OffBy(person, arm, pose))
        : Way.None;

    /// <summary>From a pose with the arm stopped there: climbing down and the shortest way home; at the pose where the person got on,
    /// getting off needs no arm. No way where nothing is in reach.</summary>
    public Way Stopped(PersonId person, double slower, Arm arm, PoseId poseId)
    {
        if (MountOf(person, arm) is { } mount && mount.Pose == poseId) return Riding(person, slower, arm, poseId);
        Pose pose = world.Lookup.Pose(arm, poseId);
        return pose.ClimbTo is { } grip
            ? wayHome.Of(person, slower).Climbing(grip).Behind(new Passage(Places.At(arm.Id, poseId), Places.At(grip)), pose.Climb.Seconds)
            : Way.None;
    }

    /// <summary>From a pose to where the person got on, and off: the rides between, and getting off.</summary>
    public List<WayLeg> OffBy(PersonId person, Arm arm, PoseId pose)
    {
        List<WayLeg> legs = [];
        if (MountOf(person, arm) is not { } mount || !world.Book.RideTimes(arm, mount.Pose).TryGetValue(pose, out (int Seconds, PoseId? Next) way)) return [new(Passage.At(Places.At(arm.Id, pose)), Way.NoneSeconds)];
        while (way.Next is { } next)
        {
            (int seconds, PoseId here) = (way.Seconds, pose);
            way = world.Book.RideTimes(arm, mount.Pose)[pose = next];
            legs.Add(new(new(Places.At(arm.Id, here), Places.At(arm.Id, next)), seconds - way.Seconds));
        }
        legs.Add(new(new(Places.At(arm.Id, pose), Places.At(mount.Grip)), arm.Dismount.Time.Seconds));
        return legs;
    }

    /// <summary>Where the person got on; for a rider told without ever getting on, the arm's first mount.</summary>
    public ArmMount? MountOf(PersonId person, Arm arm) =>
        world.MountedAt.TryGetValue(person, out ArmMount? mount) ? mount : arm.Mounts.FirstOrDefault();
}
