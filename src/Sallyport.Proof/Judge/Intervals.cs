using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Stretches of time put together and cut.</summary>
internal static class Intervals
{
    /// <summary>In order, with those that touch or overlap made one.</summary>
    public static ImmutableArray<PetInterval> Join(IEnumerable<PetInterval> intervals)
    {
        List<PetInterval> sorted = [.. intervals], joined = new(sorted.Count);
        for (int i = 1; i < sorted.Count; i++)
        {
            if (sorted[i - 1].From <= sorted[i].From) continue;
            sorted.Sort(static (one, other) => one.From.CompareTo(other.From));
            break;
        }
        foreach (PetInterval one in sorted)
        {
            if (one.To <= one.From) continue;
            if (joined.Count > 0 && one.From <= joined[^1].To)
                joined[^1] = new PetInterval(joined[^1].From, one.To > joined[^1].To ? one.To : joined[^1].To);
            else joined.Add(one);
        }
        return [.. joined];
    }

    /// <summary>Whether a moment lies in one of some stretches, which are in order and do not overlap.</summary>
    public static bool Holds(ImmutableArray<PetInterval> stretches, Pet moment)
    {
        int first = FirstThatEndsAfter(stretches, moment);
        return first < stretches.Length && stretches[first].From <= moment;
    }

    /// <summary>Whether anything of some stretches, which are in order and do not overlap, lies within another.</summary>
    public static bool Meets(ImmutableArray<PetInterval> stretches, PetInterval one)
    {
        int first = FirstThatEndsAfter(stretches, one.From);
        return first < stretches.Length && stretches[first].From < one.To;
    }

    /// <summary>What of some stretches, which are in order and do not overlap, lies within another.</summary>
    public static ImmutableArray<PetInterval> Within(ImmutableArray<PetInterval> stretches, PetInterval one)
    {
        ImmutableArray<PetInterval>.Builder within = ImmutableArray.CreateBuilder<PetInterval>();
        for (int i = FirstThatEndsAfter(stretches, one.From); i < stretches.Length && stretches[i].From < one.To; i++)
            within.Add(new(stretches[i].From > one.From ? stretches[i].From : one.From, stretches[i].To < one.To ? stretches[i].To : one.To));
        return within.ToImmutable();
    }

    private static int FirstThatEndsAfter(ImmutableArray<PetInterval> stretches, Pet moment)
    {
        int low = 0, high = stretches.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (stretches[middle].To > moment) high = middle;
            else low = middle + 1;
        }
        return low;
    }

    /// <summary>What two lists of stretches share; both in order.</summary>
    public static IEnumerable<PetInterval> Common(ImmutableArray<PetInterval> some, ImmutableArray<PetInterval> others)
    {
        for (int i = 0, j = 0; i < some.Length && j < others.Length;)
        {
            Pet from = some[i].From > others[j].From ? some[i].From : others[j].From;
            Pet to = some[i].To < others[j].To ? some[i].To : others[j].To;
            if (from < to) yield return new PetInterval(from, to);
            if (some[i].To < others[j].To) i++;
            else j++;
        }
    }

    /// <summary>What of some stretches lies in none of the others; both in order.</summary>
    public static IEnumerable<PetInterval> Without(ImmutableArray<PetInterval> some, ImmutableArray<PetInterval> others)
    {
        foreach (PetInterval one in some)
        {
            Pet from = one.From;
            for (int i = FirstThatEndsAfter(others, from); i < others.Length; i++)
            {
                PetInterval other = others[i];
                if (other.To <= from) continue;
                if (other.From >= one.To) break;
                if (other.From > from) yield return new PetInterval(from, other.From);
                from = other.To;
            }
            if (from < one.To) yield return new PetInterval(from, one.To);
        }
    }
}
