using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Things that each last for a while, asked which of them are so within another stretch of time, without looking at all of them.</summary>
internal sealed class Overlaps<T>
{
    private readonly ImmutableArray<(T Thing, PetInterval While, int Place)> inOrder;
    private readonly ImmutableArray<Pet> latestEnd;

    public Overlaps(IEnumerable<T> things, Func<T, PetInterval> lasts)
    {
        inOrder = [.. things.Select((thing, place) => (thing, lasts(thing), place)).OrderBy(one => one.Item2.From)];
        ImmutableArray<Pet>.Builder latest = ImmutableArray.CreateBuilder<Pet>(inOrder.Length);
        foreach ((_, PetInterval lasting, _) in inOrder) latest.Add(latest.Count > 0 && latest[^1] > lasting.To ? latest[^1] : lasting.To);
        latestEnd = latest.MoveToImmutable();
    }

    /// <summary>Those that begin before <paramref name="to"/> and end after <paramref name="from"/>, in the order in which they were given.</summary>
    public IReadOnlyList<T> Between(Pet from, Pet to)
    {
        // None before the first place at which anything yet has ended after that.
        int first = Searching.First(latestEnd.Length, i => latestEnd[i] > from);
        List<(T Thing, int Place)>? found = null;
        for (int i = first; i < inOrder.Length && inOrder[i].While.From < to; i++)
            if (inOrder[i].While.To > from) (found ??= []).Add((inOrder[i].Thing, inOrder[i].Place));
        if (found is null) return [];
        found.Sort((one, other) => one.Place.CompareTo(other.Place));
        return found.ConvertAll(one => one.Thing);
    }

    /// <summary>Those that go on at a moment, in the order in which they were given.</summary>
    public IReadOnlyList<T> At(Pet moment) => Between(moment, Pet.FromSeconds(moment.Seconds + 1));
}

/// <summary>Finding a place in something that is in order.</summary>
internal static class Searching
{
    /// <summary>The first of <paramref name="count"/> places from which on something holds; the count when it holds nowhere.</summary>
    public static int First(int count, Func<int, bool> holds)
    {
        int low = 0, high = count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (holds(middle)) high = middle;
            else low = middle + 1;
        }
        return low;
    }
}
