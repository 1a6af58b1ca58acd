using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The ways of a helper: to somebody, and home with that person.</summary>
internal sealed class HelpWays(WayBook book, HelpTimes help)
{
    private readonly Dictionary<(Walker, Walker), ShortestWays> together = [];
    private readonly Dictionary<(Walker, Standpoint, AirlockId, Standpoint), Way> there = [];
    private readonly Dictionary<(Walker, Walker, Standpoint), Way> home = [];
    private readonly Dictionary<(Walker, Walker, Lay), Way> homeAlong = [];
    private readonly Dictionary<(Walker, Lay), Way[]> outward = [];

    private readonly Dictionary<(Walker, Standpoint), List<WayLeg>?> backs = [];
    private readonly Dictionary<(Walker, AirlockId, Standpoint), Way> outs = [];

    private int Swap => book.Scenario.Tether.Swap.Seconds;

    private bool Reels => book.Scenario.Tether.Protocol == TetherProtocol.Reel;

    /// <summary>To a place, for a helper who is clear of everything. With reels back along the own line as far as both lines lie the same way, and out along the
    /// other one's line, each change of reels with its time; no way where the helper's reels are too short. With short tethers the quickest way.</summary>
    public Way There(Walker helper, Stand from, Walker helped, Standpoint to)
    {
        Way? longest = null;
        // Who is between two grips ends the span first, and is then at the one ahead; with an arm stopped under one of the two, the worse place counts.
        bool climbs = to.Climb is not null || from.Places[0].Climb is not null;
        foreach (Standpoint start in climbs ? from.Places.AsSpan() : from.Places.AsSpan()[..1])
        {
            (Walker, Standpoint, AirlockId, Standpoint) asked = (helper, start, helped.Airlock.Id, to);
            if (!there.TryGetValue(asked, out Way? way))
            {
                there[asked] = way = climbs ? Climbing(helper, start, helped, to) : Along(helper, start, helped, to);
                book.Kept++;
            }
            if (longest is null || way.Seconds > longest.Seconds) longest = way;
        }
        return longest!;
    }

    private Way Along(Walker helper, Standpoint start, Walker helped, Standpoint to)
    {
        if (!Reels || to.Line.IsEmpty || start.Line.IsEmpty) return helper.AloneTo(to.Grip).From(start.Grip);
        if (!ReelsReach(helper, to.Line)) return Way.None;
        ImmutableArray<LineMark> back = start.Line.Marks, outward = to.Line.Marks;
        int shared = 0;
        while (shared < back.Length && shared < outward.Length && back[shared].Same(outward[shared])) shared++;
        List<WayLeg> legs = [];
        for (int i = back.Length - 1; i >= shared; i--) legs.Add(LegOf(helper, back, i, back: true));
        // Out of different hatches the two lines share nothing: from hatch to hatch on the structure.
        if (shared == 0)
        {
            if (Across(helper, helper.Airlock.Grip, helped.Airlock.Grip) is not { } across) return Way.None;
            legs.AddRange(across);
        }
        return Outward(helper, to.Line)[shared].Behind(legs);
    }

    /// <summary>From each mark of a line to its end, before that mark is passed; the last one is there.</summary>
    private Way[] Outward(Walker helper, Lay line)
    {
        if (outward.TryGetValue((helper, line), out Way[]? ways)) return ways;
        book.Kept++;
        ways = new Way[line.Marks.Length + 1];
        ways[^1] = Way.Arrived;
        for (int i = line.Marks.Length - 1; i >= 0; i--)
            ways[i] = ways[i + 1].Behind([LegOf(helper, line.Marks, i, back: false)]);
        return outward[(helper, line)] = ways;
    }

    private WayLeg LegOf(Walker helper, ImmutableArray<LineMark> line, int i, bool back)
    {
        string here = Places.At(line[i].Grip);
        if (line[i].Hook) return new(Passage.At(here), Swap);
        string before = Places.At(line[i - 1].Grip);
        return new(back ? new(here, before) : new(before, here), helper.Seconds(line[i].Stretch));
    }

    /// <summary>From grip to grip on the structure, the quickest way; null where there is none.</summary>
    private static List<WayLeg>? Across(Walker helper, GripId from, GripId to)
    {
        ShortestWays across = helper.AloneTo(to);
        IReadOnlyList<GripId> grips = across.Grips(from);
        return grips.Count == 0 ? null : [.. grips.Zip(grips.Skip(1)).Select(pair =>
            new WayLeg(new(Places.At(pair.First), Places.At(pair.Second)), helper.SpanSeconds(across.SpanBetween(pair.First, pair.Second))))];
    }

    /// <summary>
    /// With an arm stopped under one of the two. The helper goes to the hatch first, back along the own line, or down from the arm and by the shortest way with
    /// each change of reels; then out along the other one's line, or to below the arm by the shortest way with each change, and up. Longer than need be where both are near each other.
    /// </summary>
    private Way Climbing(Walker helper, Standpoint start, Walker helped, Standpoint to)
    {
        if (!backs.TryGetValue((helper, start), out List<WayLeg>? back)) backs[(helper, start)] = back = ToHatch(helper, start);
        if (!outs.TryGetValue((helper, helped.Airlock.Id, to), out Way? way)) outs[(helper, helped.Airlock.Id, to)] = way = FromHatches(helper, helped, to);
        return back is null ? Way.None : way.Behind(back);
    }

    /// <summary>From where the helper is to the own hatch; null where there is no way.</summary>
    private List<WayLeg>? ToHatch(Walker helper, Standpoint start)
    {
        if (start.Climb is { } down) return Legs(helper, helper, start.Grip) is { } home ? [down, .. home] : null;
        if (!Reels || start.Line.IsEmpty) return Across(helper, start.Grip, helper.Airlock.Grip);
        List<WayLeg> legs = [];
        // The first hook hangs at the hatch and stays there.
        for (int i = start.Line.Marks.Length - 1; i > 0; i--) legs.Add(LegOf(helper, start.Line.Marks, i, back: true));
        return legs;
    }

    /// <summary>From the helper's hatch to that of the one who needs help, and out.</summary>
    private Way FromHatches(Walker helper, Walker helped, Standpoint to)
    {
        if (Across(helper, helper.Airlock.Grip, helped.Airlock.Grip) is not { } legs) return Way.None;
        if (to.Climb is { } up)
        {
            if (Legs(helper, helped, to.Grip) is not { } outward) return Way.None;
            legs.AddRange([.. outward.AsEnumerable().Reverse().Select(Turned), Turned(up)]);
        }
        else if (!Reels || to.Line.IsEmpty)
        {
            if (Across(helper, helped.Airlock.Grip, to.Grip) is not { } along) return Way.None;
            legs.AddRange(along);
        }
        else
        {
            if (!ReelsReach(helper, to.Line)) return Way.None;
            for (int i = 1; i < to.Line.Marks.Length; i++) legs.Add(LegOf(helper, to.Line.Marks, i, back: false));
        }
        return Way.Arrived.Behind(legs);

        static WayLeg Turned(WayLeg leg) => new(new(leg.Where.To, leg.Where.From), leg.Seconds);
    }

    /// <summary>The shortest way, as loaded, with each change of the helper's reels, to the hatch of one of the two.</summary>
    private List<WayLeg>? Legs(Walker helper, Walker hatchOf, GripId grip) =>
        book.WalkerOf(hatchOf.Person.Id, hatchOf.Airlock, helper.Slower).ClimbingLegs(grip, [helper.Person], helper.SpanSeconds);

    /// <summary>Home from a place, both of them, at the slower one's pace, and slower by what helping makes it; each changes reels. Then in, and the
    /// hatch is closed.</summary>
    public Way Home(Walker helper, Walker helped, Standpoint place)
    {
        if (home.TryGetValue((helper, helped, place), out Way? way)) return way;
        book.Kept++;
        return home[(helper, helped, place)] = HomeFrom(helper, helped, place);
    }

    private Way HomeFrom(Walker helper, Walker helped, Standpoint place)
    {
        int Both(Span span) => Slowed(Math.Max(helper.SpanSeconds(span), helped.SpanSeconds(span)));
        // From an arm that has stopped both climb down, the one after the other.
        if (place.Climb is { } climb)
            return helped.ClimbingLegs(place.Grip, [helper.Person, helped.Person], Both) is { } down
                ? In(helped).Behind([new WayLeg(climb.Where, Slowed(climb.Seconds + climb.Seconds)), .. down])
                : Way.None;
        if (!Reels || place.Line.IsEmpty)
        {
            if (!together.TryGetValue((helper, helped), out ShortestWays? ways))
                together[(helper, helped)] = ways = new(book.Lookup, helped.Airlock.Grip, In(helped), Both);
            return ways.From(place.Grip);
        }
        return HomeAlong(helper, helped, place.Line);
    }

    /// <summary>Back along a line, mark by mark, since the way home from one is the end of the way home from the next.</summary>
    private Way HomeAlong(Walker helper, Walker helped, Lay line)
    {
        Stack<Lay> open = new();
        Way? way = null;
        for (Lay at = line; way is null; at = at.Before!)
            if (at.Before!.IsEmpty) way = homeAlong.TryGetValue((helper, helped, at), out Way? known) ? known : homeAlong[(helper, helped, at)] = In(helped);
            else if (!homeAlong.TryGetValue((helper, helped, at), out way)) open.Push(at);
        while (open.TryPop(out Lay? next))
        {
            string here = Places.At(next.Mark.Grip);
            way = next.Mark.Hook ? way.Behind(Passage.At(here), Swap + Swap) : way.Behind(new(here, Places.At(next.Before!.Mark.Grip)),
                Slowed(Math.Max(helper.Seconds(next.Mark.Stretch), helped.Seconds(next.Mark.Stretch))));
            homeAlong[(helper, helped, next)] = way;
        }
        return way;
    }

    private Way In(Walker helped) =>
        Way.Arrived.Behind(Passage.Inside, helped.Airlock.Close.Seconds).Behind(Passage.Through(helped.Airlock), help.Enter.Seconds);

    private int Slowed(int seconds) => (int)Math.Min(Way.NoneSeconds, Math.Ceiling(seconds * help.Slower - 1e-9));

    /// <summary>Whether a person's own reels, in their order, are as long as those of another line are paid out.</summary>
    private static bool ReelsReach(Walker walker, Lay line)
    {
        ImmutableArray<double> reels = walker.Person.Reels;
        int reel = -1;
        double left = 0;
        foreach (LineMark mark in line.Marks)
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
}
