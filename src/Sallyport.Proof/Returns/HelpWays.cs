using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The ways of a helper: to somebody, and home with that person.</summary>
internal sealed class HelpWays(World world, WayHome wayHome, HelpTimes help)
{
    private readonly Dictionary<(PersonId, double, GripId), ShortestWays> alone = [];
    private readonly Dictionary<(PersonId, double, PersonId, double), ShortestWays> together = [];
    private readonly Dictionary<(PersonId, double, Standpoint, PersonId, Standpoint), Way> there = [];
    private readonly Dictionary<(PersonId, double, PersonId, double, ImmutableArray<LineMark>), Way> home = [];

    private int Swap => world.Scenario.Tether.Swap.Seconds;

    private bool Reels => world.Scenario.Tether.Protocol == TetherProtocol.Reel;

    /// <summary>Clear of what goes on and to a place. With reels back along the own line as far as both lines lie the same way, and out along the
    /// other one's line, each change of reels with its time; no way where the helper's reels are too short. With short tethers the quickest way.</summary>
    public Way There(PersonId helper, Stand from, PersonId helped, Standpoint to)
    {
        if (to.Climb is not null || from.Places.Any(place => place.Climb is not null)) return from.Places.Select(place => Climbing(helper, from, place, helped, to)).MaxBy(way => way.Seconds)!;
        (PersonId, double, Standpoint, PersonId, Standpoint) asked = (helper, from.Slower, from.Places[0], helped, to);
        if (!there.TryGetValue(asked, out Way? way)) there[asked] = way = There(helper, from.Slower, from.Places[0], helped, to);
        return wayHome.Ways.Before(way, from.Off);
    }

    /// <summary>The same for a helper who is clear of everything.</summary>
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
    private Way Climbing(PersonId helper, Stand from, Standpoint start, PersonId helped, Standpoint to)
    {
        int Alone(Span span) => wayHome.SpanSeconds(helper, from.Slower, span);
        List<WayLeg> legs = [.. from.Off];
        if (start.Climb is { } down)
        {
            if (wayHome.ClimbingLegs(helper, from.Slower, start.Grip, [helper], Alone) is not { } home) return Way.None;
            legs.AddRange([down, .. home]);
        }
        else if (!Reels || start.Line.IsEmpty)
        {
            if (Across(helper, from.Slower, start.Grip, wayHome.AirlockOf(helper).Grip) is not { } back) return Way.None;
            legs.AddRange(back);
        }
        // The first hook hangs at the hatch and stays there.
        else for (int i = start.Line.Length - 1; i > 0; i--) legs.Add(LegOf(helper, from.Slower, start.Line, i, back: true));
        if (Across(helper, from.Slower, wayHome.AirlockOf(helper).Grip, wayHome.AirlockOf(helped).Grip) is not { } between) return Way.None;
        legs.AddRange(between);
        if (to.Climb is { } up)
        {
            if (wayHome.ClimbingLegs(helped, from.Slower, to.Grip, [helper], Alone) is not { } outward) return Way.None;
            legs.AddRange([.. outward.AsEnumerable().Reverse().Select(Turned), Turned(up)]);
        }
        else if (!Reels || to.Line.IsEmpty)
        {
            if (Across(helper, from.Slower, wayHome.AirlockOf(helped).Grip, to.Grip) is not { } along) return Way.None;
            legs.AddRange(along);
        }
        else
        {
            if (!ReelsReach(helper, to.Line)) return Way.None;
            for (int i = 1; i < to.Line.Length; i++) legs.Add(LegOf(helper, from.Slower, to.Line, i, back: false));
        }
        return wayHome.Ways.Before(Way.Arrived, legs);

        static WayLeg Turned(WayLeg leg) => new(new(leg.Where.To, leg.Where.From), leg.Seconds);
    }

    /// <summary>Home from a place, both of them, at the slower one's pace, and slower by what helping makes it; each changes reels. Then in, and the
    /// hatch is closed.</summary>
    public Way Home(PersonId helper, double helperSlower, PersonId helped, double helpedSlower, Standpoint place)
    {
        int Both(Span span) => Slowed(Math.Max(wayHome.SpanSeconds(helper, helperSlower, span), wayHome.SpanSeconds(helped, helpedSlower, span)));
        // From an arm that has stopped both climb down, the one after the other.
        if (place.Climb is { } climb)
            return wayHome.ClimbingLegs(helped, helpedSlower, place.Grip, [helper, helped], Both) is { } home
                ? wayHome.Ways.Before(In(helped), [new WayLeg(climb.Where, Slowed(climb.Seconds + climb.Seconds)), .. home])
                : Way.None;
        if (!Reels || place.Line.IsEmpty)
        {
            if (!together.TryGetValue((helper, helperSlower, helped, helpedSlower), out ShortestWays? ways))
                together[(helper, helperSlower, helped, helpedSlower)] = ways = new(world.Lookup, wayHome.AirlockOf(helped).Grip, In(helped), Both);
            return ways.From(place.Grip);
        }
        (PersonId, double, PersonId, double, ImmutableArray<LineMark>) asked = (helper, helperSlower, helped, helpedSlower, place.Line);
        if (home.TryGetValue(asked, out Way? known)) return known;
        Way way = In(helped);
        for (int i = 1; i < place.Line.Length; i++)
        {
            LineMark mark = place.Line[i];
            string here = Places.At(mark.Grip);
            way = mark.Hook ? wayHome.Ways.Before(way, Passage.At(here), Swap + Swap) : wayHome.Ways.Before(way, new(here, Places.At(place.Line[i - 1].Grip)),
                Slowed(Math.Max(wayHome.Seconds(helper, helperSlower, mark.Stretch), wayHome.Seconds(helped, helpedSlower, mark.Stretch))));
        }
        return home[asked] = way;
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
