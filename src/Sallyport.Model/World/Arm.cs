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
    HandlingTime Mount, HandlingTime Dismount, string Source);

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
public sealed record RideTime(PoseId A, PoseId B, Duration Time);

/// <summary>A grip where a person gets on and off an arm, and the pose the arm holds meanwhile.</summary>
/// <param name="Grip">Where the person stands.</param>
/// <param name="Pose">What the arm holds.</param>
public sealed record ArmMount(GripId Grip, PoseId Pose);
