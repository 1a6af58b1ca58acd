using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Sunlit time between moments, as far as nights tell: what shades by day is not known.</summary>
public static class Sunlight
{
    /// <summary>How much of a stretch lies outside the nights.</summary>
    /// <param name="nights">In order, not overlapping.</param>
    /// <param name="from">Its first second.</param>
    /// <param name="to">The first second after it; not before <paramref name="from"/>.</param>
    /// <returns>Seconds.</returns>
    public static int Seconds(ImmutableArray<PetInterval> nights, Pet from, Pet to)
    {
        int lit = to.Seconds - from.Seconds;
        foreach (PetInterval night in nights)
            lit -= Math.Max(0, Math.Min(to.Seconds, night.To.Seconds) - Math.Max(from.Seconds, night.From.Seconds));
        return lit;
    }

    /// <summary>The first moment by which so much sunlight has passed.</summary>
    /// <param name="nights">In order, not overlapping.</param>
    /// <param name="from">The moment counted from.</param>
    /// <param name="seconds">How much, s; zero or more.</param>
    public static Pet After(ImmutableArray<PetInterval> nights, Pet from, int seconds)
    {
        int at = from.Seconds, left = seconds;
        foreach (PetInterval night in nights)
        {
            if (night.To.Seconds <= at) continue;
            int day = Math.Max(0, night.From.Seconds - at);
            if (left <= day) break;
            left -= day;
            at = night.To.Seconds;
        }
        return Pet.FromSeconds(at + left);
    }
}
