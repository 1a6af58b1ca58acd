using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The ways of a helper: to somebody, and home with that person.</summary>
internal sealed class HelpWays(World world, WayHome wayHome, HelpTimes help)
{
    private readonly Dictionary<(PersonId, double, GripId), ShortestWays> alone = [];
    private readonly Dictionary<(PersonId, double, PersonId, double), ShortestWays> together = [];
    private readonly Dictionary<(PersonId, double, Standpoint, PersonId, Standpoint), Way> there = [];
    private readonly Dictionary<(PersonId, double, PersonId, double, Standpoint), Way> home = [];

    private readonly Dictionary<(PersonId, double, Standpoint), List<WayLeg>?> backs = [];
    private readonly Dictionary<(PersonId, double, PersonId, Standpoint), Way> outs = [];

    private int Swap => world.Scenario.Tether.Swap.Seconds;

    private bool Reels => world.Scenario.Tether.Protocol == TetherProtocol.Reel;

    /// <summary>To a place, for a helper who is clear of everything. With reels back along the own line as far as both lines lie the same way, and out along the
    /// other one's line, each change of reels with its time; no way where the helper's reels are too short. With short tethers the quickest way.</summary>
    public Way There(PersonId helper, Stand from, PersonId helped, Standpoint to)
    {
        Way? longest = null;
        // Who is between two grips ends the span first, and is then at the one ahead; with an arm stopped under one of the two, the worse place counts.
        bool climbs = to.Climb is not null || from.Places[0].Climb is not null;
        foreach (Standpoint start in climbs ? from.Places.AsSpan() : from.Places.AsSpan()[..1])
        {
            (PersonId, double, Standpoint, PersonId, Standpoint) asked = (helper, from.Slower, start, helped, to);
            if (!there.TryGetValue(asked, out Way? way)) there[asked] = way = climbs ? Climbing(helper, from.Slower, start, helped, to) : There(helper, from.Slower, start, helped, to);
            if (longest is null || way.Seconds > longest.Seconds) longest = way;
        }
        return longest!;
    }

    private Way There(PersonId helper, double slower, Standpoint start, PersonId helped, Standpoint to)
    {
        if (!Reels || to.Line.IsEmpty || start.Line.IsEmpty) return Alone(helper, slower, to.Grip).From(start.Grip);
        if (!ReelsReach(helper, to.Line)) return Way.None;
        int shared = 0;
        while (shared < start.Line.Length && shared < to.Line.Length && start.Line[shared].Same(to.Line[shared])) shared++;
        List<WayLeg> legs = [];
        for (int i = start.Line.Length - 1; i >= shared; i--) legs.Add(LegOf(helper, slower, start.Line, i, back: true));
        // Out of different hatches the two lines share nothing: from hatch to hatch on the structure.
        if (shared == 0)
        {
            if (Across(helper, slower, wayHome.AirlockOf(helper).Grip, wayHome.AirlockOf(helped).Grip) is not { } across) return Way.None;
            legs.AddRange(across);
        }
        for (int i = shared; i < to.Line.Length; i++) legs.Add(LegOf(helper, slower, to.Line, i, back: false));
        return wayHome.Ways.Before(Way.Arrived, legs);
    }

    private WayLeg LegOf(PersonId helper, double slower, ImmutableArray<LineMark> line, int i, bool back)
    {
        string here = Places.At(line[i].Grip);
        if (line[i].Hook) return new(Passage.At(here), Swap);
        string before = Places.At(line[i - 1].Grip);
        return new(back ? new(here, before) : new(before, here), wayHome.Seconds(helper, slower, line[i].Stretch));
    }

    /// <summary>From grip to grip on the structure, the quickest way; null where there is none.</summary>
    private List<WayLeg>? Across(PersonId helper, double slower, GripId from, GripId to)
    {
        ShortestWays across = Alone(helper, slower, to);
        IReadOnlyList<GripId> grips = across.Grips(from);
        return grips.Count == 0 ? null : [.. grips.Zip(grips.Skip(1)).Select(pair =>
            new WayLeg(new(Places.At(pair.First), Places.At(pair.Second)), wayHome.SpanSeconds(helper, slower, across.SpanBetween(pair.First, pair.Second))))];
    }

    /// <summary>
    /// With an arm stopped under one of the two. The helper goes to the hatch first, back along the own line, or down from the arm and by the shortest way with
    /// each change of reels; then out along the other one's line, or to below the arm by the shortest way with each change, and up. Longer than need be where both are near each other.
    /// </summary>
    private Way Climbing(PersonId helper, double slower, Standpoint start, PersonId helped, Standpoint to)
    {
        if (!backs.TryGetValue((helper, slower, start), out List<WayLeg>? back)) backs[(helper, slower, start)] = back = ToHatch(helper, slower, start);
        if (!outs.TryGetValue((helper, slower, helped, to), out Way? way)) outs[(helper, slower, helped, to)] = way = FromHatches(helper, slower, helped, to);
        return back is null ? Way.None : wayHome.Ways.Before(way, back);
    }

    /// <summary>From where the helper is to the own hatch; null where there is no way.</summary>
    private List<WayLeg>? ToHatch(PersonId helper, double slower, Standpoint start)
    {
        if (start.Climb is { } down) return Legs(helper, slower, helper, start.Grip) is { } home ? [down, .. home] : null;
        if (!Reels || start.Line.IsEmpty) return Across(helper, slower, start.Grip, wayHome.AirlockOf(helper).Grip);
        List<WayLeg> legs = [];
        // The first hook hangs at the hatch and stays there.
        for (int i = start.Line.Length - 1; i > 0; i--) legs.Add(LegOf(helper, slower, start.Line, i, back: true));
        return legs;
    }

    /// <summary>From the helper's hatch to that of the one who needs help, and out.</summary>
    private Way FromHatches(PersonId helper, double slower, PersonId helped, Standpoint to)
    {
        if (Across(helper, slower, wayHome.AirlockOf(helper).Grip, wayHome.AirlockOf(helped).Grip) is not { } legs) return Way.None;
        if (to.Climb is { } up)
        {
            if (Legs(helper, slower, helped, to.Grip) is not { } outward) return Way.None;
            legs.AddRange([.. outward.AsEnumerable().Reverse().Select(Turned), Turned(up)]);
        }
        else if (!Reels || to.Line.IsEmpty)
        {
            if (Across(helper, slower, wayHome.AirlockOf(helped).Grip, to.Grip) is not { } along) return Way.None;
            legs.AddRange(along);
        }
        else
        {
            if (!ReelsReach(helper, to.Line)) return Way.None;
            for (int i = 1; i < to.Line.Length; i++) legs.Add(LegOf(helper, slower, to.Line, i, back: false));
        }
        return wayHome.Ways.Before(Way.Arrived, legs);

        static WayLeg Turned(WayLeg leg) => new(new(leg.Where.To, leg.Where.From), leg.Seconds);
    }

    /// <summary>The shortest way with each change of the helper's reels to the hatch of one of the two.</summary>
    private List<WayLeg>? Legs(PersonId helper, double slower, PersonId hatchOf, GripId grip) =>
        wayHome.ClimbingLegs(hatchOf, slower, grip, [helper], span => wayHome.SpanSeconds(helper, slower, span));

    /// <summary>Home from a place, both of them, at the slower one's pace, and slower by what helping makes it; each changes reels. Then in, and the
    /// hatch is closed.</summary>
    public Way Home(PersonId helper, double helperSlower, PersonId helped, double helpedSlower, Standpoint place)
    {
        (PersonId, double, PersonId, double, Standpoint) asked = (helper, helperSlower, helped, helpedSlower, place);
        if (!home.TryGetValue(asked, out Way? way)) home[asked] = way = HomeFrom(helper, helperSlower, helped, helpedSlower, place);
        return way;
    }

    private Way HomeFrom(PersonId helper, double helperSlower, PersonId helped, double helpedSlower, Standpoint place)
    {
        int Both(Span span) => Slowed(Math.Max(wayHome.SpanSeconds(helper, helperSlower, span), wayHome.SpanSeconds(helped, helpedSlower, span)));
        // From an arm that has stopped both climb down, the one after the other.
        if (place.Climb is { } climb)
            return wayHome.ClimbingLegs(helped, helpedSlower, place.Grip, [helper, helped], Both) is { } down
                ? wayHome.Ways.Before(In(helped), [new WayLeg(climb.Where, Slowed(climb.Seconds + climb.Seconds)), .. down])
                : Way.None;
        if (!Reels || place.Line.IsEmpty)
        {
            if (!together.TryGetValue((helper, helperSlower, helped, helpedSlower), out ShortestWays? ways))
                together[(helper, helperSlower, helped, helpedSlower)] = ways = new(world.Lookup, wayHome.AirlockOf(helped).Grip, In(helped), Both);
            return ways.From(place.Grip);
        }
        Way way = In(helped);
        for (int i = 1; i < place.Line.Length; i++)
        {
            LineMark mark = place.Line[i];
            string here = Places.At(mark.Grip);
            way = mark.Hook ? wayHome.Ways.Before(way, Passage.At(here), Swap + Swap) : wayHome.Ways.Before(way, new(here, Places.At(place.Line[i - 1].Grip)),
                Slowed(Math.Max(wayHome.Seconds(helper, helperSlower, mark.Stretch), wayHome.Seconds(helped, helpedSlower, mark.Stretch))));
        }
        return way;
    }

    private Way In(PersonId helped)
    {
        Airlock airlock = wayHome.AirlockOf(helped);
        return wayHome.Ways.Before(wayHome.Ways.Before(Way.Arrived, Passage.Inside, airlock.Close.Seconds), Passage.Through(airlock), help.Enter.Seconds);
    }

    private int Slowed(int seconds) => (int)Math.Min(Way.NoneSeconds, Math.Ceiling(seconds * help.Slower - 1e-9));

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

    private ShortestWays Alone(PersonId person, double slower, GripId to)
    {
        if (!alone.TryGetValue((person, slower, to), out ShortestWays? ways))
            alone[(person, slower, to)] = ways = new(world.Lookup, to, Way.Arrived, span => wayHome.SpanSeconds(person, slower, span));
        return ways;
    }
}
