using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Times in which something may not go on, in order and joined where they touch.</summary>
/// <param name="Intervals">In order, apart.</param>
internal sealed record Closings(ImmutableArray<PetInterval> Intervals)
{
    public static Closings None { get; } = new(ImmutableArray<PetInterval>.Empty);

    public bool Any => !Intervals.IsEmpty;

    /// <summary>Joins several sets of times.</summary>
    public static Closings Join(params IEnumerable<PetInterval>[] sets)
    {
        List<PetInterval> joined = [];
        foreach (PetInterval next in sets.SelectMany(set => set).OrderBy(interval => interval.From))
        {
            if (joined.Count > 0 && next.From <= joined[^1].To)
                joined[^1] = joined[^1] with { To = next.To > joined[^1].To ? next.To : joined[^1].To };
            else
                joined.Add(next);
        }
        return new([.. joined]);
    }

    /// <summary>The earliest start, not before <paramref name="from"/>, of something that takes <paramref name="seconds"/> and stays clear of all closings; null when there is none.</summary>
    public int? Next(int from, int seconds)
    {
        int start = from;
        foreach (PetInterval closed in Intervals)
            if (start < closed.To.Seconds && start + seconds > closed.From.Seconds)
            {
                if (closed.To.Seconds == int.MaxValue) return null;
                start = closed.To.Seconds;
            }
        return start;
    }

    /// <summary>How much of a stretch lies in them, s.</summary>
    public int Seconds(int from, int to)
    {
        int sum = 0;
        foreach (PetInterval closed in Intervals) sum += Math.Max(0, Math.Min(to, closed.To.Seconds) - Math.Max(from, closed.From.Seconds));
        return sum;
    }

    /// <summary>The latest start, not after <paramref name="until"/>, of something that takes <paramref name="seconds"/> and stays clear of all closings; null when there is none.</summary>
    public int? Last(int until, int seconds)
    {
        int start = until;
        for (int i = Intervals.Length - 1; i >= 0; i--)
            if (start < Intervals[i].To.Seconds && start + seconds > Intervals[i].From.Seconds)
            {
                if (Intervals[i].From.Seconds == int.MinValue) return null;
                start = Intervals[i].From.Seconds - seconds;
            }
        return start;
    }

    /// <summary>What must be closed to a leg by light, link, the zones at its site, and surfaces too hot or cold there.</summary>
    public static Closings Of(Scenario scenario, Leg leg, IEnumerable<PetInterval> atSite) => Join(
        leg.Light switch
        {
            LightCondition.Day => scenario.Sky.Night,
            LightCondition.Night => Physics.Daylight.Between(scenario.Sky.FullNight),
            _ => ImmutableArray<PetInterval>.Empty,
        },
        leg.NeedsLink ? scenario.Sky.NoLink : [],
        Physics.Touch.Closed(scenario).Where(one => one.Surface.Sites.Contains(leg.Site)).SelectMany(one => one.Times),
        atSite);
}
