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
public sealed record OutlineComparison(ProvenPlan First, ProvenPlan Second, StateDifference Difference, ImmutableArray<LegInTwo> Legs)
{
    /// <summary>Compares two plans of one scenario.</summary>
    public static OutlineComparison Of(Scenario scenario, ProvenPlan first, ProvenPlan second)
    {
        Dictionary<LegId, DoStep> a = Begun(first.Likely), b = Begun(second.Likely);
        return new(first, second, StateDifference.Of(scenario, first, scenario, second),
        [
            .. a.Keys.Union(b.Keys).Select(leg => new LegInTwo(leg, a.GetValueOrDefault(leg)?.Person, a.GetValueOrDefault(leg)?.Start, b.GetValueOrDefault(leg)?.Person, b.GetValueOrDefault(leg)?.Start))
                .OrderBy(leg => leg.FirstStart ?? leg.SecondStart).ThenBy(leg => leg.Leg.Value, StringComparer.Ordinal),
        ]);
    }

    private static Dictionary<LegId, DoStep> Begun(Timeline timeline) =>
        timeline.Activities.OfType<DoStep>().GroupBy(step => step.Leg).ToDictionary(steps => steps.Key, steps => steps.MinBy(step => step.Start)!);
}
