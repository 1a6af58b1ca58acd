using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>When and where zones are closed and surfaces too hot or cold, as far as that is known before a plan: by the clock and by the light.</summary>
public sealed class ZoneTimes
{
    private readonly Dictionary<int, ImmutableArray<PetInterval>> closings = [];
    private readonly HashSet<int> stated = [];

    /// <summary>Collects the closings of a scenario's zones and surfaces.</summary>
    public ZoneTimes(Scenario scenario, StationGraph graph)
    {
        Dictionary<int, List<PetInterval>> collected = [];
        foreach (Zone zone in scenario.Station.Zones.Concat(HazardZones.Of(scenario)))
        {
            List<PetInterval> times = [.. zone.Times];
            if (zone.Light is { } light) times.AddRange(light == LightCondition.Night ? scenario.Sky.Night : Daylight.Between(scenario.Sky.FullNight));
            foreach (GripId grip in zone.Grips)
            {
                int at = graph.IndexOf(grip);
                if (zone.While.Any(condition => CanBe(scenario, condition))) stated.Add(at);
                Close(at, times);
            }
        }
        foreach ((Surface surface, ImmutableArray<PetInterval> times) in Touch.Closed(scenario))
            foreach (GripId grip in surface.Grips.Concat(scenario.Station.Sites.Where(site => surface.Sites.Contains(site.Id)).Select(site => site.Grip).OfType<GripId>()).Distinct())
                Close(graph.IndexOf(grip), times);
        foreach ((int at, List<PetInterval> times) in collected) closings[at] = [.. times.OrderBy(time => time.From)];

        void Close(int at, IReadOnlyCollection<PetInterval> times)
        {
            if (times.Count == 0) return;
            if (!collected.TryGetValue(at, out List<PetInterval>? list)) collected[at] = list = [];
            list.AddRange(times);
        }
    }

    /// <summary>Whether a condition holds at the start, or something in the scenario can bring it about.</summary>
    private static bool CanBe(Scenario scenario, FeatureCondition condition)
    {
        bool Makes(FeatureState state) => state.Feature == condition.Feature && condition.States.Contains(state.State);
        return scenario.Station.Features.Any(feature => feature.Id == condition.Feature && condition.States.Contains(feature.Start))
            || scenario.Consoles.SelectMany(console => console.Commands).SelectMany(command => command.Makes).Any(Makes)
            || scenario.Legs.SelectMany(leg => leg.Steps).Any(step =>
                step.Makes.OfType<MakeFeature>().Any(make => Makes(make.State)) || step.Abort.Leaves.Any(Makes) || step.Terminate.Leaves.Any(Makes));
    }

    /// <summary>Grips closed at times that are known beforehand.</summary>
    public IReadOnlySet<int> Timed => closings.Keys.ToHashSet();

    /// <summary>Grips closed while some feature is in some state that it begins in or can be brought to.</summary>
    public IReadOnlySet<int> Stated => stated;

    /// <summary>When a grip is closed; empty when it never is.</summary>
    public ImmutableArray<PetInterval> ClosedAt(int grip) => closings.GetValueOrDefault(grip, []);

    /// <summary>The earliest departure, not before <paramref name="from"/>, at which no piece of the way is in a zone while that is closed.</summary>
    /// <returns>Seconds of PET, or null when the way is closed for good.</returns>
    public int? EarliestDeparture(ImmutableArray<WayPiece> way, int from)
    {
        int departure = from;
        for (bool moved = true; moved;)
        {
            moved = false;
            int at = departure;
            foreach (WayPiece piece in way)
            {
                if (ClosedUntil(piece, at) is { } until)
                {
                    if (until == int.MaxValue) return null;
                    departure += until - at;
                    moved = true;
                    break;
                }
                at += piece.Seconds;
            }
        }
        return departure;
    }

    /// <summary>The departures, in order and apart, at which some piece of the way would be met closed; seconds of PET, the last not included.</summary>
    public ImmutableArray<(long From, long To)> ClosedDepartures(ImmutableArray<WayPiece> way)
    {
        List<(long From, long To)> met = [];
        long gone = 0;
        foreach (WayPiece piece in way)
        {
            foreach (int grip in (ReadOnlySpan<int>)[piece.From, piece.To])
                met.AddRange(ClosedAt(grip).Select(closed => (closed.From.Seconds - gone - piece.Seconds + 1, closed.To.Seconds - gone)).Where(one => one.Item1 < one.Item2));
            gone += piece.Seconds;
        }
        List<(long From, long To)> joined = [];
        foreach ((long from, long to) in met.OrderBy(one => one.From))
        {
            if (joined.Count > 0 && from <= joined[^1].To) joined[^1] = (joined[^1].From, Math.Max(joined[^1].To, to));
            else joined.Add((from, to));
        }
        return [.. joined];
    }

    /// <summary>The end of a closing that a piece begun at a moment would meet; null when it meets none.</summary>
    private int? ClosedUntil(WayPiece piece, int at)
    {
        foreach (int grip in (ReadOnlySpan<int>)[piece.From, piece.To])
            foreach (PetInterval closed in ClosedAt(grip))
                if (at < closed.To.Seconds && at + piece.Seconds > closed.From.Seconds) return closed.To.Seconds;
        return null;
    }
}

/// <summary>Day, as what lies between nights.</summary>
public static class Daylight
{
    /// <summary>The stretches of day that nights leave, the first and last open-ended.</summary>
    public static ImmutableArray<PetInterval> Between(ImmutableArray<PetInterval> nights)
    {
        ImmutableArray<PetInterval>.Builder days = ImmutableArray.CreateBuilder<PetInterval>();
        int from = int.MinValue;
        foreach (PetInterval night in nights)
        {
            if (night.From.Seconds > from) days.Add(new(Pet.FromSeconds(from), night.From));
            from = night.To.Seconds;
        }
        days.Add(new(Pet.FromSeconds(from), Pet.FromSeconds(int.MaxValue)));
        return days.ToImmutable();
    }
}
