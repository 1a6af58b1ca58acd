using System.Collections.Immutable;

namespace Sallyport.Physics;

/// <summary>When a measure that changes with time is below zero, with nothing missed between the moments looked at.</summary>
internal static class Crossings
{
    /// <summary>Moments looked at first are this far apart, s. A bound on a rate that a measure gives must hold so far to both sides.</summary>
    public const double Step = 30;

    /// <summary>A crossing is looked for down to this, s; what dips below zero for a shorter time may be missed.</summary>
    private const double Finest = 0.05;

    /// <summary>A measure and a bound on its change, in its unit a second.</summary>
    public readonly record struct Reading(double Value, double FastestChange);

    /// <summary>The stretches of a span in which the measure is below zero, in order.</summary>
    public static ImmutableArray<Passage> Below(double from, double to, Func<double, Reading> measure)
    {
        Finder finder = new(measure);
        int steps = Math.Max(1, (int)Math.Ceiling((to - from) / Step));
        double before = from;
        Reading at = measure(from), first = at;
        for (int i = 1; i <= steps; i++)
        {
            double time = i == steps ? to : from + (to - from) * i / steps;
            Reading next = measure(time);
            finder.Search(before, at, time, next);
            (before, at) = (time, next);
        }

        ImmutableArray<Passage>.Builder passages = ImmutableArray.CreateBuilder<Passage>();
        bool inside = first.Value < 0, cut = inside;
        double begin = from;
        foreach (double crossing in finder.Found)
        {
            if (inside) passages.Add(new(begin, crossing, cut, false));
            (begin, inside, cut) = (crossing, !inside, false);
        }
        if (inside) passages.Add(new(begin, to, cut, true));
        return passages.ToImmutable();
    }

    private sealed class Finder(Func<double, Reading> measure)
    {
        public List<double> Found { get; } = [];

        public void Search(double from, Reading a, double to, Reading b)
        {
            double length = to - from;
            bool changes = a.Value < 0 != b.Value < 0;
            // Too far from zero at both ends to get there and back.
            if (!changes && Math.Abs(a.Value) + Math.Abs(b.Value) > Math.Max(a.FastestChange, b.FastestChange) * length) return;
            if (length <= Finest)
            {
                if (changes) Found.Add(from + length * (a.Value / (a.Value - b.Value)));
                return;
            }
            double middle = from + length / 2;
            Reading m = measure(middle);
            Search(from, a, middle, m);
            Search(middle, m, to, b);
        }
    }
}
