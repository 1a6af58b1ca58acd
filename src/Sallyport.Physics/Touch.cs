using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>When surfaces are too hot or too cold to touch, as far as that is known before a plan: by the light.</summary>
public static class Touch
{
    private const string Rule = "touch.temperature";

    /// <summary>Each surface with the stretches in which it may not be touched; none where the scenario gives no limit.</summary>
    public static IEnumerable<(Surface Surface, ImmutableArray<PetInterval> Times)> Closed(Scenario scenario)
    {
        if (scenario.LimitOf(Rule) is not { Value.Dimension: Dimension.Temperature, Least: { } coldest, Value: var hottest }) yield break;
        foreach (Surface surface in scenario.Station.Surfaces)
        {
            bool Harms(Quantity temperature) => temperature.Value > hottest.Value || temperature.Value < coldest.Value;
            ImmutableArray<PetInterval> times =
            [
                .. Harms(surface.Lit) ? Daylight.Between(scenario.Sky.Night) : [],
                .. Harms(surface.Shade) ? scenario.Sky.Night : [],
            ];
            if (!times.IsEmpty) yield return (surface, times);
        }
    }
}
