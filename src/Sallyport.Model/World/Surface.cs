using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>A surface that hands touch at some places, with its temperatures.</summary>
/// <param name="Name">As people call it.</param>
/// <param name="Grips">The grips where a person touches it.</param>
/// <param name="Sites">The worksites, those on an arm too, where a person touches it.</param>
/// <param name="Lit">Its temperature by day.</param>
/// <param name="Shade">Its temperature by night.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record Surface(
    string Name, ImmutableArray<GripId> Grips, ImmutableArray<SiteId> Sites, Quantity Lit, Quantity Shade, string Source);

/// <summary>A sharp edge.</summary>
/// <param name="Name">As people call it; legs name it when they mind it.</param>
/// <param name="At">Where it is.</param>
/// <param name="Covered">The states in which nobody can be cut by it; null when it is always bare.</param>
public sealed record Edge(string Name, Point At, FeatureCondition? Covered);
