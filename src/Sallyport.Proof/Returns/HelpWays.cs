using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The ways of a helper: to somebody, and home with that person.</summary>
internal sealed class HelpWays(World world, WayHome wayHome, HelpTimes help)
{
    private readonly Dictionary<(PersonId, double, GripId), Dictionary<GripId, int>> alone = [];
    private readonly Dictionary<(PersonId, double, PersonId, double), Dictionary<GripId, int>> together = [];

    private int Swap => world.Scenario.Tether.Swap.Seconds;

    private bool Reels => world.Scenario.Tether.Protocol == TetherProtocol.Reel;

    /// <summary>To a place. With reels back along the own line as far as both lines lie the same way, and out along the other one's line,
    /// each change of reels with its time; no way where the helper's reels are too short. With short tethers the quickest way.</summary>
    public int There(PersonId helper, Stand from, PersonId helped, Standpoint to)
    {
        Standpoint start = from.Places[0];
        if (!Reels || to.Line.IsEmpty || start.Line.IsEmpty) return Alone(helper, from.Slower, to.Grip).GetValueOrDefault(start.Grip, WayHome.None);
        int shared = 0;
        while (shared < start.Line.Length && shared < to.Line.Length && start.Line[shared].Same(to.Line[shared])) shared++;
        if (!ReelsReach(helper, to.Line)) return WayHome.None;
        int seconds = 0;
        foreach (LineMark mark in start.Line.AsSpan()[shared..]) seconds += mark.Hook ? Swap : wayHome.Seconds(helper, from.Slower, mark.Stretch);
        foreach (LineMark mark in to.Line.AsSpan()[shared..]) seconds += mark.Hook ? Swap : wayHome.Seconds(helper, from.Slower, mark.Stretch);
        // Out of different hatches the two lines share nothing: from hatch to hatch on the structure.
        if (shared == 0) seconds += Alone(helper, from.Slower, wayHome.AirlockOf(helped).Grip).GetValueOrDefault(wayHome.AirlockOf(helper).Grip, WayHome.None);
        return Math.Min(WayHome.None, seconds);
    }

    /// <summary>Home from a place, both of them, at the slower one's pace, and slower by what helping makes it; each changes reels.</summary>
    public int Home(PersonId helper, double helperSlower, PersonId helped, double helpedSlower, Standpoint place)
    {
        if (!Reels || place.Line.IsEmpty)
        {
            if (!together.TryGetValue((helper, helperSlower, helped, helpedSlower), out Dictionary<GripId, int>? table))
                together[(helper, helperSlower, helped, helpedSlower)] = table = Shortest(wayHome.AirlockOf(helped).Grip,
                    span => Slowed(Math.Max(wayHome.SpanSeconds(helper, helperSlower, span), wayHome.SpanSeconds(helped, helpedSlower, span))));
            return table.GetValueOrDefault(place.Grip, WayHome.None);
        }
        int seconds = 0, changes = place.Line.Count(mark => mark.Hook) - 1;
        foreach (LineMark mark in place.Line)
            if (!mark.Hook) seconds += Slowed(Math.Max(wayHome.Seconds(helper, helperSlower, mark.Stretch), wayHome.Seconds(helped, helpedSlower, mark.Stretch)));
        int forTheHelper = changes * Swap, forTheHelped = changes * Swap;
        return Math.Min(WayHome.None, seconds + forTheHelper + forTheHelped);
    }

    private int Slowed(int seconds) => (int)Math.Min(WayHome.None, Math.Ceiling(seconds * help.Slower - 1e-9));

    /// <summary>Whether a person's own reels, in their order, are as long as those of another line are paid out.</summary>
    private bool ReelsReach(PersonId person, ImmutableArray<LineMark> line)
    {
        ImmutableArray<double> reels = world.Lookup.Person(person).Reels;
        int reel = -1;
        double left = 0;
        foreach (LineMark mark in line)
        {
            if (mark.Hook)
            {
                if (++reel >= reels.Length) return false;
                left = reels[reel] * 1000 + 1e-6;
            }
            else left -= mark.Stretch.Millimetres;
            if (left < 0) return false;
        }
        return true;
    }

    private Dictionary<GripId, int> Alone(PersonId person, double slower, GripId to)
    {
        if (!alone.TryGetValue((person, slower, to), out Dictionary<GripId, int>? table))
            alone[(person, slower, to)] = table = Shortest(to, span => wayHome.SpanSeconds(person, slower, span));
        return table;
    }

    private Dictionary<GripId, int> Shortest(GripId to, Func<Span, int> seconds)
    {
        ILookup<GripId, ((GripId From, GripId To) Ends, Span Span)> spans = world.Lookup.SpansBothWays.ToLookup(one => one.Ends.From);
        Dictionary<GripId, int> found = [];
        PriorityQueue<GripId, int> queue = new();
        queue.Enqueue(to, 0);
        while (queue.TryDequeue(out GripId grip, out int so))
        {
            if (!found.TryAdd(grip, so)) continue;
            foreach (((_, GripId next), Span span) in spans[grip])
                if (!found.ContainsKey(next)) queue.Enqueue(next, so + seconds(span));
        }
        return found;
    }
}
