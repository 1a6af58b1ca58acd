using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>What goes into an airlock at once, and how it gets there.</summary>
/// <param name="Volume">The room there is, m³.</param>
/// <param name="PersonVolume">What one suited person takes of it, m³.</param>
/// <param name="Items">The most things besides people, a bag with its contents counted once.</param>
/// <param name="Hatch">The size classes that pass the hatch.</param>
/// <param name="BeforePeople">Of these, those that must be in before the first person comes in, since nobody can bring them past a person.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record AirlockRoom(
    double Volume, double PersonVolume, int Items, ImmutableArray<SizeId> Hatch, ImmutableArray<SizeId> BeforePeople, string Source);
