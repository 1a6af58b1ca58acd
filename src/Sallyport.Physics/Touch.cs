using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>When surfaces are too hot or too cold to touch, as far as that is known before a plan: by the light.</summary>
public static class Touch
{
    private const string Rule = "touch.temperature";

    /// <summary>Each surface with the stretches in which it may not be touched; none where the scenario gives no limit.</summary>
    public static ImmutableArray<(Surface Surface, ImmutableArray<PetInterval> Times)> Closed(Scenario scenario)
    {
        if (scenario.LimitOf(Rule) is not { Value.Dimension: Dimension.Temperature, Least: { } coldest, Value: var hottest }) return [];
        return [.. scenario.Station.Surfaces.Select(surface => (surface, TimesOf(surface))).Where(closed => !closed.Item2.IsEmpty)];

        bool Harms(Quantity temperature) => temperature.Value > hottest.Value || temperature.Value < coldest.Value;

        ImmutableArray<PetInterval> TimesOf(Surface surface) =>
        [
            .. Harms(surface.Lit) ? Daylight.Between(scenario.Sky.FullNight) : [],
            .. Harms(surface.Shade) ? scenario.Sky.Night : [],
        ];
    }
}
