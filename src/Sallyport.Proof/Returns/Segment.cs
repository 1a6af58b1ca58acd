using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Where a person stands in the sortie, for the queue at the hatch.</summary>
internal enum Stage
{
    /// <summary>Inside: nothing to come.</summary>
    Inside,
    /// <summary>Outside, or on the way out: the return ends with the entry.</summary>
    Outside,
    /// <summary>In the hatch, coming in.</summary>
    Entering,
}

/// <summary>A straight piece of one person's return time.</summary>
internal readonly record struct Segment(Pet From, Pet To, double FromSeconds, double ToSeconds, ActivityId Activity, Stage Stage)
{
    /// <summary>What is closed on the way, by name; null for nothing.</summary>
    public string? Closed { get; init; }

    public double At(Pet now) => To == From
        ? Math.Max(FromSeconds, ToSeconds)
        : FromSeconds + (ToSeconds - FromSeconds) * (now.Seconds - From.Seconds) / (To.Seconds - From.Seconds);
}

/// <summary>Straight pieces put together to one curve.</summary>
internal static class Segments
{
    /// <summary>Pieces in order of time without overlap. Where a person is told to do two things at once, the longer return counts.</summary>
    public static ImmutableArray<Segment> InOrder(IReadOnlyList<Segment> pieces)
    {
        List<Segment> sorted = [.. pieces.Where(piece => piece.From < piece.To).OrderBy(piece => piece.From).ThenBy(piece => piece.Activity.Value, StringComparer.Ordinal)];
        bool overlap = false;
        for (int i = 1; i < sorted.Count; i++) overlap |= sorted[i].From < sorted[i - 1].To;
        return overlap ? Worst(sorted) : [.. sorted];
    }

    private static ImmutableArray<Segment> Worst(List<Segment> pieces)
    {
        List<Pet> moments = [.. pieces.SelectMany(piece => new[] { piece.From, piece.To }).Distinct().Order()];
        ImmutableArray<Segment>.Builder worst = ImmutableArray.CreateBuilder<Segment>();
        for (int i = 0; i + 1 < moments.Count; i++)
        {
            Pet from = moments[i], to = moments[i + 1];
            List<Segment> active = [.. pieces.Where(piece => piece.From <= from && to <= piece.To)];
            if (active.Count == 0) continue;
            Segment longest = active.MaxBy(piece => piece.At(from) + piece.At(to));
            worst.Add(new Segment(
                from, to, active.Max(piece => piece.At(from)), active.Max(piece => piece.At(to)), longest.Activity,
                active.Any(piece => piece.Stage == Stage.Outside) ? Stage.Outside : longest.Stage)
            { Closed = longest.Closed });
        }
        return worst.ToImmutable();
    }

    /// <summary>The points of a curve through the pieces.</summary>
    public static ImmutableArray<ReturnPoint> Points(IReadOnlyList<Segment> pieces)
    {
        ImmutableArray<ReturnPoint>.Builder points = ImmutableArray.CreateBuilder<ReturnPoint>(2 * pieces.Count);
        foreach (Segment piece in pieces)
        {
            ReturnPoint start = new(piece.From, piece.FromSeconds, piece.Activity) { Closed = piece.Closed };
            if (points.Count == 0 || points[^1] != start) points.Add(start);
            points.Add(new ReturnPoint(piece.To, piece.ToSeconds, piece.Activity) { Closed = piece.Closed });
        }
        return points.ToImmutable();
    }
}
