using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>A robotic arm that carries a rider, described by a table of times.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Operator">Who moves it.</param>
/// <param name="Start">The pose it is in at the start.</param>
/// <param name="Poses">Every pose it can hold.</param>
/// <param name="Rides">Times between poses, usable both ways. Only listed pairs can be moved between.</param>
/// <param name="Mounts">Where a person gets on and off.</param>
/// <param name="Mount">To fit the restraint and get in.</param>
/// <param name="Dismount">To get out and remove the restraint. Also the last part of a return from the arm.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record Arm(
    ArmId Id, PersonId Operator, PoseId Start, ImmutableArray<Pose> Poses, ImmutableArray<RideTime> Rides, ImmutableArray<ArmMount> Mounts,
    HandlingTime Mount, HandlingTime Dismount, string Source)
{
    /// <summary>How long its brakes take; null when the scenario does not say.</summary>
    public ArmBrakes? Brakes { get; init; }

    /// <summary>The ride between two poses, either way; null when the table does not join them.</summary>
    public RideTime? RideBetween(PoseId from, PoseId to)
    {
        foreach (RideTime ride in Rides)
            if ((ride.A == from && ride.B == to) || (ride.A == to && ride.B == from)) return ride;
        return null;
    }

    /// <summary>A whole move: brakes off, the ride, and brakes on again.</summary>
    /// <param name="ride">The ride.</param>
    /// <param name="brakesSet">Whether they are set again at its end.</param>
    public Duration TimeOf(RideTime ride, bool brakesSet = true) => Brakes is not { } brakes ? ride.Time
        : Duration.FromSeconds(brakes.Release.Seconds + ride.Time.Seconds + (brakesSet ? brakes.Set.Seconds : 0));
}

/// <summary>How long the brakes of an arm take. They are on but while it moves; only so is it fit to get onto, to get off, or to work from.</summary>
/// <param name="Set">To set them after a move.</param>
/// <param name="Release">To release them before one.</param>
public sealed record ArmBrakes(Duration Set, Duration Release);

/// <summary>A pose of an arm.</summary>
/// <param name="Id">Its name.</param>
/// <param name="At">Where the rider is.</param>
/// <param name="ClimbTo">The grip a rider climbs down to when the arm has stopped here; null where nothing is in reach.</param>
/// <param name="Climb">How long that takes, out of the restraint included.</param>
public sealed record Pose(PoseId Id, Point At, GripId? ClimbTo, Duration Climb);

/// <summary>The time an arm takes between two poses, laden or empty.</summary>
/// <param name="A">One pose.</param>
/// <param name="B">The other.</param>
/// <param name="Time">How long.</param>
public sealed record RideTime(PoseId A, PoseId B, Duration Time)
{
    /// <summary>The grips that the arm or its rider comes within reach of on the way, beyond what is near the straight line between the
    /// poses; null when the scenario does not say, which is not the same as none.</summary>
    public ImmutableArray<GripId>? Through { get; init; }

    /// <summary>The last part of a ride, either way, that the rider guides by voice.</summary>
    public Duration Guided { get; init; }
}

/// <summary>A grip where a person gets on and off an arm, and the pose the arm holds meanwhile.</summary>
/// <param name="Grip">Where the person stands.</param>
/// <param name="Pose">What the arm holds.</param>
public sealed record ArmMount(GripId Grip, PoseId Pose);
