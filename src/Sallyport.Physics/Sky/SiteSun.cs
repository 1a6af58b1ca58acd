using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Sun, shade and glare at the worksites of a station along its orbit.</summary>
/// <remarks>
/// By a ray to the middle of the Sun against the bodies that cast shadows, see <see cref="Shade"/>: as rough as those bodies. A worksite on an arm
/// has no place that is known here and is left out.
/// </remarks>
public static class SiteSun
{
    /// <summary>How far apart the moments are that are looked at, s: the Sun moves by two degrees meanwhile as seen from a low orbit.</summary>
    public const int Step = 30;

    /// <summary>Looks at every worksite on a grip; none where no body casts a shadow.</summary>
    /// <param name="elements">An orbit that can be followed through the span.</param>
    /// <param name="attitude">How the station flies, all the time.</param>
    /// <param name="glare">Nearer than this, degrees, to where somebody looks the Sun is in the eyes.</param>
    /// <param name="times">Day and night, and the span.</param>
    /// <param name="station">Its bodies, grips and worksites.</param>
    public static ImmutableArray<SiteLight> Of(OrbitElements elements, Attitude attitude, double glare, SkyTimes times, Station station)
    {
        ImmutableArray<Solid> bodies = [.. station.Modules.Where(module => module.Shape is not null).Select(module => Solid.Of(module, module.Shape!.Value))];
        if (bodies.IsEmpty) return [];
        Dictionary<GripId, Point> grips = station.Grips.ToDictionary(grip => grip.Id, grip => grip.At);
        Site[] sites = [.. station.Sites.Where(site => site.Grip is not null)];
        List<(Pet From, SunAtSite Sun)>[] changes = [.. sites.Select(_ => new List<(Pet, SunAtSite)>())];
        OrbitTrack track = new(elements, times.PetZero);
        ImmutableArray<PetInterval> notDay = times.NotDay;
        int last = 0;
        foreach (int second in Moments(times.Span, notDay))
        {
            Pet now = Pet.FromSeconds(second);
            while (last < notDay.Length && notDay[last].To <= now) last++;
            bool night = last < notDay.Length && notDay[last].From <= now;
            Vector3D sun = night ? default : attitude.ToStation(track.SunAt(second).Direction, track.At(second));
            for (int i = 0; i < sites.Length; i++)
            {
                SunAtSite state = night ? SunAtSite.None
                    : Shade.IsShaded(grips[sites[i].Grip!.Value], sun, bodies) ? SunAtSite.Shade
                    : sites[i].Looks is { } side && Shade.FromGaze(-Along(side), sun) < glare ? SunAtSite.Glare : SunAtSite.Sun;
                if (changes[i].Count == 0 || changes[i][^1].Sun != state) changes[i].Add((now, state));
            }
        }
        return [.. sites.Select((site, i) => new SiteLight(site.Id, [.. changes[i]]))];
    }

    private static IEnumerable<int> Moments(PetInterval span, ImmutableArray<PetInterval> notDay)
    {
        SortedSet<int> moments = [.. notDay.SelectMany(night => new[] { night.From.Seconds, night.To.Seconds })];
        for (int second = span.From.Seconds; second < span.To.Seconds; second += Step) moments.Add(second);
        return moments.Where(second => second < span.To.Seconds);
    }

    private static Vector3D Along(StationSide side) => side switch
    {
        StationSide.Forward => new(1, 0, 0),
        StationSide.Aft => new(-1, 0, 0),
        StationSide.Starboard => new(0, 1, 0),
        StationSide.Port => new(0, -1, 0),
        StationSide.Down => new(0, 0, 1),
        _ => new(0, 0, -1),
    };
}
