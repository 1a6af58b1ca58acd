using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>How long the way back to the hatch takes, for a person as loaded now. Zones are taken as open: said among what is not checked.</summary>
internal sealed class WayHome(World world)
{
    /// <summary>Stands for "no way at all": a whole day, beyond every limit, and a figure that every file can hold.</summary>
    public const int None = 86_400;

    private readonly Dictionary<(PersonId, AirlockId, double), Dictionary<GripId, (int Seconds, double Metres)>> shortest = [];

    /// <summary>From a grip to the hatch: back along the person's own line, changing reels at each anchor; or, where nothing is laid, the
    /// shortest way.</summary>
    public int From(PersonId person, double slower, GripId grip)
    {
        TetherLine line = world.Lines[person];
        if (line.Count == 0) return Shortest(person, slower, grip).Seconds;
        int seconds = (line.Count - 1) * world.Scenario.Tether.Swap.Seconds;
        foreach (LineStretch stretch in line.FromEndToAirlock()) seconds += Seconds(person, slower, stretch);
        return Math.Min(seconds, None);
    }

    /// <summary>The least time along one stretch of line; as told, where the station has no such span.</summary>
    public int Seconds(PersonId person, double slower, LineStretch stretch) => stretch.Span is { } span
        ? SpanSeconds(person, slower, span)
        : stretch.ToldSeconds;

    /// <summary>The least time along one span.</summary>
    public int SpanSeconds(PersonId person, double slower, Span span) =>
        world.Lookup.Person(person) is { Pace: not null } walker ? Lookup.SpanSeconds(world.Scenario, walker, span, slower) : None;

    /// <summary>Climbing home where no line is laid: the shortest way, with a change of reels for each reel needed beyond the first.</summary>
    public int Climbing(PersonId person, double slower, GripId grip)
    {
        (int seconds, double metres) = Shortest(person, slower, grip);
        if (world.Scenario.Tether.Protocol == TetherProtocol.Leapfrog) return seconds;
        return Math.Min(None, seconds + Swaps(world.Lookup.Person(person).Reels, metres) * world.Scenario.Tether.Swap.Seconds);
    }

    /// <summary>Reels are used in their order; when all are out, the shortest stands for every further one.</summary>
    private static int Swaps(IReadOnlyList<double> reels, double metres)
    {
        if (reels.Count == 0) return 0;
        int used = 0;
        for (double left = metres; left > 1e-9 && used < 1000; used++) left -= used < reels.Count ? reels[used] : Math.Max(reels.Min(), 0.1);
        return Math.Max(0, used - 1);
    }

    /// <summary>The quickest way over spans to the hatch the person came out of, and how long it is.</summary>
    public (int Seconds, double Metres) Shortest(PersonId person, double slower, GripId grip)
    {
        AirlockId airlock = AirlockOf(person).Id;
        if (!shortest.TryGetValue((person, airlock, slower), out var table))
            shortest[(person, airlock, slower)] = table = ShortestFrom(world.Lookup.Airlock(airlock).Grip, person, slower);
        return table.TryGetValue(grip, out var way) ? way : (None, 0);
    }

    /// <summary>The airlock a person came out of; before that, the one in whose order the person is.</summary>
    public Airlock AirlockOf(PersonId person) =>
        world.OutOf.TryGetValue(person, out AirlockId airlock) ? world.Lookup.Airlock(airlock)
        : world.Scenario.Station.Airlocks.FirstOrDefault(one => one.Order.Contains(person)) ?? world.Scenario.Station.Airlocks[0];

    private Dictionary<GripId, (int Seconds, double Metres)> ShortestFrom(GripId hatch, PersonId person, double slower)
    {
        ILookup<GripId, ((GripId From, GripId To) Ends, Span Span)> spans = world.Lookup.SpansBothWays.ToLookup(one => one.Ends.From);
        Dictionary<GripId, (int Seconds, double Metres)> found = [];
        PriorityQueue<GripId, (int Seconds, double Metres)> queue = new();
        queue.Enqueue(hatch, (0, 0));
        while (queue.TryDequeue(out GripId grip, out (int Seconds, double Metres) way))
        {
            if (!found.TryAdd(grip, way)) continue;
            foreach (((_, GripId next), Span span) in spans[grip])
                if (!found.ContainsKey(next)) queue.Enqueue(next, (way.Seconds + SpanSeconds(person, slower, span), way.Metres + span.Length));
        }
        return found;
    }
}
