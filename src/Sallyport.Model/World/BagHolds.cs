using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>What a bag takes, at every moment.</summary>
/// <param name="Volume">The most volume of everything in it, m³. A bag in it counts with its own volume, or with that of its contents where that is more.</param>
/// <param name="Mass">The most mass of everything in it, kg, bags in it with their contents.</param>
/// <param name="Sizes">The size classes that may lie in it.</param>
/// <param name="Items">The most things that lie in it directly; a stock counts as one, as it is packed.</param>
/// <param name="Bags">Whether another bag may lie in it. A bag in a bag in a bag is never allowed.</param>
public sealed record BagHolds(double Volume, double Mass, ImmutableArray<SizeId> Sizes, int Items, bool Bags);
