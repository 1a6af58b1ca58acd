using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>A leg in two plans: who does it and when, in each; null where it is not done.</summary>
public sealed record LegInTwo(LegId Leg, PersonId? FirstBy, Pet? FirstStart, PersonId? SecondBy, Pet? SecondStart);

/// <summary>Two outlines of one scenario, for one chart.</summary>
/// <param name="First">The one.</param>
/// <param name="Second">The other.</param>
/// <param name="Difference">What the second makes of the first.</param>
/// <param name="Legs">Every leg of either, by its first start.</param>
public sealed record OutlineComparison(ProvenPlan First, ProvenPlan Second, StateDifference Difference, ImmutableArray<LegInTwo> Legs);
