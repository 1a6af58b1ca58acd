using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>
/// One helper brings one person in, one thing after the other: the helper comes, gets that person clear of what goes on (an arm that could move
/// meanwhile is not reckoned so), makes that person ready, and both go home. Who is found between two grips has nothing to be got clear of.
/// </summary>
/// <param name="own">How the person who needs help stands.</param>
/// <param name="other">How the helper stands.</param>
/// <param name="ways">For each place where that person may be found: the helper's way there once clear of what goes on, and both's way home. The worst counts.</param>
/// <param name="secure">Seconds to make that person ready to be moved.</param>
internal sealed class HelpHome(Stand own, Stand other, ImmutableArray<(Passage Place, Way There, Way Home)> ways, int secure)
{
    /// <summary>The longest of the ways with everything open, there and home, s.</summary>
    private readonly int longest = Longest(ways);

    /// <summary>The ways there with getting clear before them; most are never asked for, since nothing is closed.</summary>
    private ImmutableArray<Way> There => field.IsDefault ? field = [.. ways.Select(one => one.There.Behind(other.Off))] : field;

    private bool Found => own.Places.Length == 1;

    /// <summary>Seconds at a moment with everything open.</summary>
    public double Open(Pet now) =>
        Math.Min(Way.NoneSeconds, other.Clear(now) + (Found ? own.Clear(now) : 0) + longest + secure);

    private static int Longest(ImmutableArray<(Passage Place, Way There, Way Home)> ways)
    {
        int longest = 0;
        foreach ((_, Way there, Way home) in ways) longest = Math.Max(longest, there.Seconds + home.Seconds);
        return longest;
    }

    /// <summary>Whether anything closed can make it longer for somebody who begins in a stretch.</summary>
    public bool Meets(Closed closed, Pet from, Pet to)
    {
        long last = to.Seconds + (long)Math.Max(Open(from), Open(to));
        for (int work = closed.WorkAt(from); work <= closed.WorkAt(Pet.FromSeconds(to.Seconds - 1)); work++)
        {
            if (Shut(own.Where) || Shut(other.Where)) return true;
            foreach (WayLeg leg in own.Off) if (Shut(leg.Where)) return true;
            foreach (WayLeg leg in other.Off) if (Shut(leg.Where)) return true;
            foreach ((Passage place, Way there, Way home) in ways)
                if (Shut(place) || there.Meets(closed, work, from.Seconds, last) || home.Meets(closed, work, from.Seconds, last)) return true;

            bool Shut(Passage where) => closed.Meets(where, work, from.Seconds, last);
        }
        return false;
    }

    /// <summary>Seconds at a moment. Who needs help cannot go out of the way of anything: where that person is must stay open until both have left.</summary>
    public double With(Closed closed, Pet now)
    {
        int work = closed.WorkAt(now);
        long ready = other.Until?.Seconds ?? now.Seconds, latest = 0;
        if (Shut(other.Where, now.Seconds, ready)) return Way.NoneSeconds;
        for (int i = 0; i < ways.Length; i++)
        {
            (Passage place, _, Way home) = ways[i];
            long come = There[i].Course(closed, work).At(ready), at = come;
            if (come >= Course.Never) return Way.NoneSeconds;
            if (Found)
            {
                at += own.Until is { } end ? end.Since(now).Seconds : 0;
                foreach (WayLeg leg in own.Off)
                {
                    if (Shut(leg.Where, at, at + leg.Seconds)) return Way.NoneSeconds;
                    at += leg.Seconds;
                }
            }
            at += secure;
            if (Shut(own.Where, now.Seconds, at) || Shut(place, come, at)) return Way.NoneSeconds;
            latest = Math.Max(latest, home.Course(closed, work).At(at));
        }
        return Math.Min(Way.NoneSeconds, latest - now.Seconds);

        bool Shut(Passage where, long from, long to) => closed.Meets(where, work, from, to);
    }

    /// <summary>What is closed on the ways, by name.</summary>
    public IEnumerable<string> Names(Closed closed, Pet from, double seconds)
    {
        int work = closed.WorkAt(from);
        long last = from.Seconds + (long)seconds;
        return closed.Names(own.Where, work, from.Seconds, last).Concat(closed.Names(other.Where, work, from.Seconds, last))
            .Concat(There.SelectMany(way => way.Names(closed, work, from.Seconds, last))).Concat(ways.SelectMany(way => way.Home.Names(closed, work, from.Seconds, last)));
    }
}
