using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>
/// When somebody arrives who is ready at a place at a given second, waiting where the way must be waited for: over all seconds of PET,
/// as parts in which the arrival is later by each second, or stays the same.
/// </summary>
internal sealed class Course
{
    /// <summary>Stands for "not at all".</summary>
    public const long Never = long.MaxValue / 4;

    private const long Start = -Never;

    private readonly ImmutableArray<Part> parts;

    private Course(ImmutableArray<Part> parts) => this.parts = parts;

    /// <summary>A part of it, to the next one's first second: the arrival at its first second, and what each second adds, 0 or 1.</summary>
    private readonly record struct Part(long From, long Arrival, long Slope);

    /// <summary>One is there already.</summary>
    public static Course Arrived { get; } = new([new(Start, Start, 1)]);

    /// <summary>There is no way.</summary>
    public static Course None { get; } = new([new(Start, Never, 0)]);

    /// <summary>The arrival of somebody who is ready at a second; <see cref="Never"/> for none.</summary>
    public long At(long second)
    {
        if (second >= Never) return Never;
        Part part = parts[IndexAt(second)];
        return part.Slope == 0 ? part.Arrival : part.Arrival + second - part.From;
    }

    public bool Same(Course other) => parts.AsSpan().SequenceEqual(other.parts.AsSpan());

    /// <summary>The course of whoever is ready one piece of way earlier.</summary>
    /// <param name="seconds">How long the piece takes; at least one.</param>
    /// <param name="during">When it may not be gone, in order and apart.</param>
    /// <param name="waiting">When one may not stay where it begins, in order and apart.</param>
    public Course Before(int seconds, ImmutableArray<PetInterval> during, ImmutableArray<PetInterval> waiting)
    {
        SortedSet<long> cuts = [Start, .. parts.Select(part => part.From == Start ? Start : part.From - seconds)];
        // Whoever sets off in these seconds is still under way when it closes.
        foreach (PetInterval closed in during) cuts.UnionWith([closed.From.Seconds - seconds + 1L, closed.To.Seconds]);
        foreach (PetInterval closed in waiting) cuts.UnionWith([closed.From.Seconds, closed.To.Seconds]);
        List<Part> backwards = [];
        long next = Never, best = Never;
        foreach (long from in cuts.Reverse())
        {
            long goes = Closed.Meets(during, from, from + seconds) ? Never : At(from + seconds);
            if (Closed.Meets(waiting, from, from + 1)) backwards.Add(new(from, Never, 0));
            else if (goes >= best) backwards.Add(new(from, best, 0));
            else if (parts[IndexAt(from + seconds)].Slope == 0) backwards.Add(new(from, goes, 0));
            else
            {
                // From here on it is better to wait for what comes than to go.
                long turn = best == Never ? Never : from + best - goes;
                if (turn < next) backwards.Add(new(turn, best, 0));
                backwards.Add(new(from, goes, 1));
            }
            (next, best) = (from, backwards[^1].Arrival);
        }
        backwards.Reverse();
        return new(Joined(backwards));
    }

    /// <summary>The better of two at each second.</summary>
    public static Course Best(Course one, Course other)
    {
        List<Part> better = [];
        long[] cuts = [.. one.parts.Concat(other.parts).Select(part => part.From).Distinct().Order()];
        for (int i = 0; i < cuts.Length; i++)
        {
            long from = cuts[i], to = i + 1 < cuts.Length ? cuts[i + 1] : Never;
            Part a = one.From(from), b = other.From(from);
            (Part first, Part second) = a.Arrival < b.Arrival || (a.Arrival == b.Arrival && a.Slope <= b.Slope) ? (a, b) : (b, a);
            better.Add(first);
            // One that rises meets one that stays.
            if (first.Slope > second.Slope && second.Arrival < Never && from + second.Arrival - first.Arrival is var meet && meet < to)
                better.Add(second with { From = meet });
        }
        return new(Joined(better));
    }

    private Part From(long second) => parts[IndexAt(second)] with { From = second, Arrival = At(second) };

    private int IndexAt(long second)
    {
        int low = 0, high = parts.Length - 1;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            if (parts[middle].From <= second) low = middle;
            else high = middle - 1;
        }
        return low;
    }

    private static ImmutableArray<Part> Joined(List<Part> parts)
    {
        ImmutableArray<Part>.Builder joined = ImmutableArray.CreateBuilder<Part>(parts.Count);
        foreach (Part part in parts)
        {
            if (joined.Count > 0 && joined[^1] is var last && last.Slope == part.Slope && last.Arrival + (part.From - last.From) * last.Slope == part.Arrival) continue;
            joined.Add(part);
        }
        return joined.ToImmutable();
    }
}
