using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>A joint, a set of jets or a beam that can hurt somebody near it.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct HazardId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A joint of the structure that moves unless it is locked.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Feature">What says whether it is locked.</param>
/// <param name="Locked">The states in which it is; in every other one it may move.</param>
/// <param name="Moves">The grips that move with it, and those within reach of what moves.</param>
public sealed record Joint(HazardId Id, FeatureId Feature, ImmutableArray<string> Locked, ImmutableArray<GripId> Moves);

/// <summary>Something that sends out gas or radio power unless it is safe: jets, or an antenna.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Feature">What says whether it is safe.</param>
/// <param name="Safe">The states in which it is; in every other one it is not.</param>
/// <param name="At">Where it sends from, station axes, m.</param>
/// <param name="Around">The radius round that point that counts as the thing itself, m; zero or more.</param>
/// <param name="Cone">Where it sends to; null when only the thing itself is to be kept clear of.</param>
public sealed record Emitter(HazardId Id, FeatureId Feature, ImmutableArray<string> Safe, Point At, double Around, Cone? Cone);

/// <summary>A cone with a round end: every point within a half-angle of its axis and no farther from its tip than its reach.</summary>
/// <param name="Along">The direction of its axis, station axes; of any length but zero.</param>
/// <param name="HalfAngle">Between axis and side, rad; more than 0, at most a right angle.</param>
/// <param name="Reach">From tip to end, m; more than zero.</param>
public sealed record Cone(Point Along, double HalfAngle, double Reach);
