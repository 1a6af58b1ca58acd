using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Sky times, or why the orbit could not be followed; never both, never neither.</summary>
/// <param name="Times">Null when the model gave up.</param>
/// <param name="Fault">Why; <see cref="Sgp4Fault.None"/> when there are times.</param>
/// <param name="FaultAt">At the first moment met without a state, UTC; null when there are times.</param>
public sealed record SkyOutcome(SkyTimes? Times, Sgp4Fault Fault, DateTime? FaultAt);

/// <summary>Looks ahead along an orbit: light, links and radiation over a span of PET.</summary>
public static class SkyOutlook
{
    /// <summary>The longest span that is looked at, days: far above any sortie, and keeps a slip of the pen from taking hours.</summary>
    public const int LongestSpan = 60;

    /// <summary>Follows an orbit through a span.</summary>
    /// <param name="elements">The orbit.</param>
    /// <param name="stations">Ground stations; may be none.</param>
    /// <param name="relays">Relays; may be none.</param>
    /// <param name="regions">Regions of high radiation; may be none.</param>
    /// <param name="petZero">PET 0:00, UTC.</param>
    /// <param name="span">PET from and to; not empty.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside the range that its type states.</exception>
    public static SkyOutcome SkyOf(
        OrbitElements elements, ImmutableArray<GroundStation> stations, ImmutableArray<Relay> relays, ImmutableArray<RadiationRegion> regions,
        DateTime petZero, PetInterval span)
    {
        Check(stations, relays, regions, span);
        OrbitTrack track = new(elements, petZero);
        double from = span.From.Seconds, to = span.To.Seconds;
        try
        {
            ImmutableArray<Passage> Shadow(Func<Vector3D, Vector3D, double, double> outside) => Crossings.Below(from, to, second =>
            {
                TemeState state = track.At(second);
                SunPlace sun = track.SunAt(second);
                // The shadow itself turns by 2e-7 rad/s; the cones lean less than 0.5 %.
                double change = 1.005 * track.SpeedBound(state) + 2.1e-7 * state.Position.Length;
                return new(outside(state.Position, sun.Direction, sun.Distance * Sun.AstronomicalUnit), change);
            });
            ImmutableArray<Passage> Seen(Func<Vector3D, double, Crossings.Reading> sight) => Crossings.Below(from, to, second =>
            {
                TemeState state = track.At(second);
                return sight(track.EarthFixed(state, second), track.SpeedBound(state) + EarthFixed.TurningRate * state.Position.Length);
            });
            double middle = (from + to) / 2;
            double age = Math.Max(elements.AgeInDays(petZero.AddSeconds(from)), elements.AgeInDays(petZero.AddSeconds(to)));
            SkyTimes times = new(
                petZero, span, age, EarthShadow.Beta(track.At(middle), track.SunAt(middle).Direction),
                Shadow((place, sun, far) => EarthShadow.OutsidePenumbra(place, sun, far)),
                Shadow((place, sun, far) => EarthShadow.OutsideUmbra(place, sun, far)),
                Shadow((place, sun, far) => EarthShadow.OutsideUmbra(place, sun, far, EarthShadow.PolarRadius)),
                [.. stations.Select(station => new NamedPassages(station.Name, Seen(Sighting.Of(station))))],
                [.. relays.Select(relay => new NamedPassages(relay.Name, Seen(Sighting.Of(relay))))],
                [.. regions.Select(region => new NamedPassages(region.Name, Seen(Sighting.Of(region))))]);
            return new(times, Sgp4Fault.None, null);
        }
        catch (OrbitLostException lost)
        {
            return new(null, lost.Fault, petZero.AddSeconds(lost.Second));
        }
    }

    private static void Check(ImmutableArray<GroundStation> stations, ImmutableArray<Relay> relays, ImmutableArray<RadiationRegion> regions, PetInterval span)
    {
        static void Within(double value, double least, double most, string what)
        {
            if (!(value >= least && value <= most)) throw new ArgumentOutOfRangeException(what, value, $"expected {least} to {most}");
        }
        static void Map(GroundPoint point, string what)
        {
            Within(point.Latitude, -90, 90, what);
            Within(point.Longitude, -360, 360, what);
        }
        Within((double)span.To.Seconds - span.From.Seconds, 1, LongestSpan * 86400.0, nameof(span));
        foreach (GroundStation station in stations)
        {
            Map(station.At, nameof(stations));
            Within(station.Height, -1000, 10_000, nameof(stations));
            Within(station.Mask, -5, 60, nameof(stations));
            double before = -1;
            foreach (SkylinePoint point in station.Skyline)
            {
                Within(point.Azimuth, Math.BitIncrement(before), 360, nameof(stations));
                Within(point.Elevation, -5, 60, nameof(stations));
                before = point.Azimuth;
            }
        }
        foreach (Relay relay in relays)
        {
            Within(relay.Longitude, -360, 360, nameof(relays));
            Within(relay.GrazingHeight, 0, 10_000, nameof(relays));
        }
        foreach (RadiationRegion region in regions)
        {
            Within(region.Corners.Length, 3, 10_000, nameof(regions));
            foreach (GroundPoint corner in region.Corners) Map(corner, nameof(regions));
        }
    }
}

/// <summary>The model gave up while an orbit was followed. Caught where the following began; nobody else sees it.</summary>
internal sealed class OrbitLostException(Sgp4Fault fault, double second) : Exception($"no state at {second} s: {fault}")
{
    public Sgp4Fault Fault { get; } = fault;

    public double Second { get; } = second;
}
