using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>A rate that stays as it is for a while.</summary>
/// <param name="From">Its first second.</param>
/// <param name="To">The first second after it.</param>
/// <param name="Rate">In any unit; the mean is in the same.</param>
public sealed record RateStretch(Pet From, Pet To, double Rate);

/// <summary>The mean of a rate over a window that ends at a moment.</summary>
/// <param name="To">The end of the window.</param>
/// <param name="Mean">The mean over it.</param>
/// <param name="IsWhole">False when less than a whole window is known: the mean is then over what is known, and says nothing of what went before.</param>
public sealed record MeanPoint(Pet To, double Mean, bool IsWhole);

/// <summary>Rolling means of a rate that is constant by stretches, exact: no sampling.</summary>
/// <remarks>Over a constant window the mean is straight between the moments at which either end of the window meets the end of a stretch, so its
/// values there are all that is needed, and its greatest is one of them.</remarks>
public static class RollingMean
{
    /// <summary>The mean over each whole window, at every moment at which its slope changes; one point over everything when all stretches together
    /// are shorter than a window.</summary>
    /// <param name="stretches">Without a gap, rising in time.</param>
    /// <param name="window">The length of the window, above zero.</param>
    /// <exception cref="ArgumentException">No stretch, one that is empty or not finite, a gap, stretches out of order, or no window.</exception>
    public static ImmutableArray<MeanPoint> Over(ImmutableArray<RateStretch> stretches, Duration window)
    {
        RequireJoined(stretches);
        if (window.Seconds <= 0) throw new ArgumentException($"expected a window above 0 s, found {window}");
        int start = stretches[0].From.Seconds, end = stretches[^1].To.Seconds;
        double[] before = Totals(stretches);
        if ((long)end - start < window.Seconds) return [new(stretches[^1].To, before[^1] / ((double)end - start), false)];
        SortedSet<int> moments = [start + window.Seconds, end];
        foreach (RateStretch stretch in stretches)
        {
            if (stretch.To.Seconds - (long)start >= window.Seconds) moments.Add(stretch.To.Seconds);
            if ((long)end - stretch.To.Seconds >= window.Seconds) moments.Add(stretch.To.Seconds + window.Seconds);
        }
        ImmutableArray<MeanPoint>.Builder means = ImmutableArray.CreateBuilder<MeanPoint>(moments.Count);
        int first = 0, last = 0;
        foreach (int to in moments)
        {
            // Both ends of the window only ever move on.
            while (stretches[first].To.Seconds <= to - window.Seconds) first++;
            while (stretches[last].To.Seconds < to) last++;
            RateStretch cut = stretches[first], under = stretches[last];
            double total = first == last ? cut.Rate * window.Seconds
                : cut.Rate * (cut.To.Seconds - (double)to + window.Seconds) + (before[last] - before[first + 1]) + under.Rate * (to - (double)under.From.Seconds);
            means.Add(new(Pet.FromSeconds(to), total / window.Seconds, true));
        }
        return means.MoveToImmutable();
    }

    /// <summary>The greatest of those means; the first one when several are as great.</summary>
    public static MeanPoint Greatest(ImmutableArray<RateStretch> stretches, Duration window) => Over(stretches, window).MaxBy(point => point.Mean)!;

    internal static void RequireJoined(ImmutableArray<RateStretch> stretches)
    {
        if (stretches.IsEmpty) throw new ArgumentException("expected at least one stretch");
        for (int i = 0; i < stretches.Length; i++)
        {
            RateStretch stretch = stretches[i];
            if (stretch.From >= stretch.To) throw new ArgumentException($"the stretch from {stretch.From} to {stretch.To} does not rise in time");
            if (!double.IsFinite(stretch.Rate)) throw new ArgumentException($"the rate from {stretch.From} to {stretch.To} is not a finite number");
            if (i > 0 && stretches[i - 1].To != stretch.From)
                throw new ArgumentException($"expected a stretch from {stretches[i - 1].To} on, found one from {stretch.From}");
        }
    }

    /// <summary>The sum over all stretches before each, and over all of them at the end.</summary>
    private static double[] Totals(ImmutableArray<RateStretch> stretches)
    {
        double[] totals = new double[stretches.Length + 1];
        for (int i = 0; i < stretches.Length; i++) totals[i + 1] = totals[i] + stretches[i].Rate * ((double)stretches[i].To.Seconds - stretches[i].From.Seconds);
        return totals;
    }
}
