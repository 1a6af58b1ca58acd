using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>How long it takes from an arm: by riding it back, or with the arm stopped by climbing down.</summary>
internal sealed class ArmHome(World world, WayHome wayHome)
{
    private readonly Dictionary<(ArmId, PoseId), Dictionary<PoseId, int>> rides = [];

    /// <summary>From a pose: the ride back to where the person got on, off the arm, and home along the line that waits there.</summary>
    public int Riding(PersonId person, double slower, Arm arm, PoseId pose)
    {
        ArmMount? mount = MountOf(person, arm);
        if (mount is null) return WayHome.None;
        int ride = RideTimes(arm, mount.Pose).GetValueOrDefault(pose, WayHome.None);
        return Math.Min(WayHome.None, ride + arm.Dismount.Time.Seconds + wayHome.From(person, slower, mount.Grip));
    }

    /// <summary>From a pose with the arm stopped there: climbing down and the shortest way home; at the pose where the person got on,
    /// getting off needs no arm. No way where nothing is in reach.</summary>
    public int Stopped(PersonId person, double slower, Arm arm, PoseId poseId)
    {
        if (MountOf(person, arm) is { } mount && mount.Pose == poseId) return Riding(person, slower, arm, poseId);
        Pose pose = world.Lookup.Pose(arm, poseId);
        return pose.ClimbTo is { } grip
            ? Math.Min(WayHome.None, pose.Climb.Seconds + wayHome.Climbing(person, slower, grip))
            : WayHome.None;
    }

    /// <summary>From a pose to the one where the person got on.</summary>
    public int ToMount(PersonId person, Arm arm, PoseId pose) =>
        MountOf(person, arm) is { } mount ? RideTimes(arm, mount.Pose).GetValueOrDefault(pose, WayHome.None) : WayHome.None;

    /// <summary>Where the person got on; for a rider told without ever getting on, the arm's first mount.</summary>
    public ArmMount? MountOf(PersonId person, Arm arm) =>
        world.MountedAt.TryGetValue(person, out ArmMount? mount) ? mount : arm.Mounts.FirstOrDefault();

    /// <summary>The least ride time from each pose to one, over the poses that the table joins.</summary>
    private Dictionary<PoseId, int> RideTimes(Arm arm, PoseId to)
    {
        if (rides.TryGetValue((arm.Id, to), out Dictionary<PoseId, int>? known)) return known;
        Dictionary<PoseId, int> found = [];
        PriorityQueue<PoseId, int> queue = new();
        queue.Enqueue(to, 0);
        while (queue.TryDequeue(out PoseId pose, out int seconds))
        {
            if (!found.TryAdd(pose, seconds)) continue;
            foreach (RideTime ride in arm.Rides)
            {
                if (ride.A == pose) queue.Enqueue(ride.B, seconds + arm.TimeOf(ride).Seconds);
                if (ride.B == pose) queue.Enqueue(ride.A, seconds + arm.TimeOf(ride).Seconds);
            }
        }
        return rides[(arm.Id, to)] = found;
    }
}
