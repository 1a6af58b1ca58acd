using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The way back to the hatch and in, for a person as loaded now.</summary>
internal sealed class WayHome(World world)
{
    private readonly Dictionary<(PersonId, AirlockId, double), ShortestWays> shortest = [];
    private readonly Dictionary<(PersonId, double, ImmutableArray<LineMark>, Way), Way> along = [];

    /// <summary>Every way, made once.</summary>
    public Ways Ways { get; } = new();

    /// <summary>In through the hatch.</summary>
    public Way In(PersonId person) => AirlockOf(person) is var airlock ? Ways.Before(Way.Arrived, Passage.Through(airlock), airlock.InEach.Seconds) : Way.None;

    /// <summary>From a grip, and in: back along the person's own line, changing reels at each anchor; or, where nothing is laid, the
    /// shortest way.</summary>
    public Way From(PersonId person, double slower, GripId grip) =>
        world.Lines[person].Count == 0 ? Shortest(person, slower).From(grip) : Along(person, slower, world.Lines[person].Marks);

    /// <summary>From the end of a line, and in.</summary>
    public Way Along(PersonId person, double slower, ImmutableArray<LineMark> line)
    {
        Way way = In(person), end = way;
        if (along.TryGetValue((person, slower, line, end), out Way? known)) return known;
        string? at = null;
        foreach (LineMark mark in line)
        {
            string here = Places.At(mark.Grip);
            // The first hook hangs at the hatch and stays there.
            if (at is not null) way = mark.Hook ? Ways.Before(way, Passage.At(here), world.Scenario.Tether.Swap.Seconds) : Ways.Before(way, new(here, at), Seconds(person, slower, mark.Stretch));
            at = here;
        }
        return along[(person, slower, line, end)] = way;
    }

    /// <summary>The least time along one stretch of line; as told, where the station has no such span.</summary>
    public int Seconds(PersonId person, double slower, LineStretch stretch) => stretch.Span is { } span
        ? SpanSeconds(person, slower, span)
        : stretch.ToldSeconds;

    /// <summary>The least time along one span.</summary>
    public int SpanSeconds(PersonId person, double slower, Span span) =>
        world.Lookup.Person(person) is { Pace: not null } walker ? Lookup.SpanSeconds(world.Scenario, walker, span, slower) : Way.NoneSeconds;

    /// <summary>Climbing home where no line is laid, and in: the shortest way, with a change of reels for each reel needed beyond the first, where the
    /// one before ends.</summary>
    public Way Climbing(PersonId person, double slower, GripId grip)
    {
        ShortestWays ways = Shortest(person, slower);
        if (world.Scenario.Tether.Protocol == TetherProtocol.Leapfrog || ways.From(grip) == Way.None) return ways.From(grip);
        return Ways.Before(In(person), ClimbingLegs(person, slower, grip, [person], span => SpanSeconds(person, slower, span))!);
    }

    /// <summary>The pieces of that way as far as the hatch, with the changes of reels of everybody who climbs; null where there is no way.</summary>
    public List<WayLeg>? ClimbingLegs(PersonId person, double slower, GripId grip, IReadOnlyList<PersonId> who, Func<Span, int> seconds)
    {
        ShortestWays ways = Shortest(person, slower);
        if (ways.From(grip) == Way.None) return null;
        List<WayLeg> legs = [];
        List<Reeling> reels = world.Scenario.Tether.Protocol == TetherProtocol.Leapfrog ? [] : [.. who.Select(one => new Reeling(world.Lookup.Person(one).Reels))];
        IReadOnlyList<GripId> grips = ways.Grips(grip);
        for (int i = 0; i + 1 < grips.Count; i++)
        {
            Span span = ways.SpanBetween(grips[i], grips[i + 1]);
            for (int swaps = reels.Sum(reel => reel.ChangesFor(span.Length)); swaps > 0; swaps--) legs.Add(new(Passage.At(Places.At(grips[i])), world.Scenario.Tether.Swap.Seconds));
            legs.Add(new(new(Places.At(grips[i]), Places.At(grips[i + 1])), seconds(span)));
        }
        return legs;
    }

    /// <summary>The airlock a person came out of; before that, the one in whose order the person is.</summary>
    public Airlock AirlockOf(PersonId person) =>
        world.OutOf.TryGetValue(person, out AirlockId airlock) ? world.Lookup.Airlock(airlock)
        : world.Scenario.Station.Airlocks.FirstOrDefault(one => one.Order.Contains(person)) ?? world.Scenario.Station.Airlocks[0];

    private ShortestWays Shortest(PersonId person, double slower)
    {
        Airlock airlock = AirlockOf(person);
        if (!shortest.TryGetValue((person, airlock.Id, slower), out ShortestWays? ways))
            shortest[(person, airlock.Id, slower)] = ways = new(world.Lookup, airlock.Grip, In(person), span => SpanSeconds(person, slower, span));
        return ways;
    }

    /// <summary>Reels are used in their order; when all are out, the shortest stands for every further one.</summary>
    private sealed class Reeling(IReadOnlyList<double> reels)
    {
        private double left = reels.Count == 0 ? double.PositiveInfinity : reels[0];
        private int used = 1;

        /// <summary>How many changes a further span asks for.</summary>
        public int ChangesFor(double metres)
        {
            int changes = 0;
            for (left -= metres; left < -1e-9 && used < 1000; used++, changes++) left += used < reels.Count ? reels[used] : Math.Max(reels.Min(), 0.1);
            return changes;
        }
    }
}
