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
        for (int i = start.Line.Length - 1; i >= shared; i--) legs.Add(LegOf(start.Line, i, back: true));
        // Out of different hatches the two lines share nothing: from hatch to hatch on the structure.
        if (shared == 0)
        {
            ShortestWays across = Alone(helper, slower, wayHome.AirlockOf(helped).Grip);
            IReadOnlyList<GripId> grips = across.Grips(wayHome.AirlockOf(helper).Grip);
            if (grips.Count == 0) return Way.None;
            for (int i = 0; i + 1 < grips.Count; i++)
                legs.Add(new(new(Places.At(grips[i]), Places.At(grips[i + 1])), wayHome.SpanSeconds(helper, slower, across.SpanBetween(grips[i], grips[i + 1]))));
        }
        for (int i = shared; i < to.Line.Length; i++) legs.Add(LegOf(to.Line, i, back: false));
        return wayHome.Ways.Before(Way.Arrived, legs);

        WayLeg LegOf(ImmutableArray<LineMark> line, int i, bool back)
        {
            string here = Places.At(line[i].Grip);
            if (line[i].Hook) return new(Passage.At(here), Swap);
            string before = Places.At(line[i - 1].Grip);
            return new(back ? new(here, before) : new(before, here), wayHome.Seconds(helper, slower, line[i].Stretch));
        }
    }

    /// <summary>Home from a place, both of them, at the slower one's pace, and slower by what helping makes it; each changes reels. Then in, and the
    /// hatch is closed.</summary>
    public Way Home(PersonId helper, double helperSlower, PersonId helped, double helpedSlower, Standpoint place)
    {
        if (!Reels || place.Line.IsEmpty)
        {
            if (!together.TryGetValue((helper, helperSlower, helped, helpedSlower), out ShortestWays? ways))
                together[(helper, helperSlower, helped, helpedSlower)] = ways = new(world.Lookup, wayHome.AirlockOf(helped).Grip, In(helped),
                    span => Slowed(Math.Max(wayHome.SpanSeconds(helper, helperSlower, span), wayHome.SpanSeconds(helped, helpedSlower, span))));
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
