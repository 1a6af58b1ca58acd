using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Somebody as loaded, with the airlock that all ways home lead to; all that is reckoned of that is kept here.</summary>
internal sealed class Walker(WayBook book, Person person, Airlock airlock, double slower)
{
    private readonly Dictionary<Lay, Way> along = [];
    private readonly Dictionary<GripId, ShortestWays> alone = [];
    private readonly Dictionary<GripId, Way> climbing = [];

    private Scenario Scenario => book.Scenario;

    public Person Person { get; } = person;

    public Airlock Airlock { get; } = airlock;

    /// <summary>What the load multiplies span times by.</summary>
    public double Slower { get; } = slower;

    /// <summary>In through the hatch.</summary>
    public Way In => field ??= Way.Arrived.Behind(Passage.Through(Airlock), Airlock.InEach.Seconds);

    /// <summary>The shortest ways to the hatch, and in.</summary>
    public ShortestWays Shortest => field ??= new(book.Lookup, Airlock.Grip, In, SpanSeconds);

    /// <summary>The least time along one span.</summary>
    public int SpanSeconds(Span span) => Person.Pace is null ? Way.NoneSeconds : Lookup.SpanSeconds(Scenario, Person, span, Slower);

    /// <summary>The least time along one stretch of line; as told, where the station has no such span.</summary>
    public int Seconds(LineStretch stretch) => stretch.Span is { } span ? SpanSeconds(span) : stretch.ToldSeconds;

    /// <summary>The shortest ways to a grip, and no further.</summary>
    public ShortestWays AloneTo(GripId to)
    {
        if (alone.TryGetValue(to, out ShortestWays? ways)) return ways;
        book.Kept++;
        return alone[to] = new(book.Lookup, to, Way.Arrived, SpanSeconds);
    }

    /// <summary>From the end of a line, and in: back along it, changing reels at each anchor.</summary>
    public Way Along(Lay line)
    {
        // Mark by mark, since the way home from one is the end of the way home from the next.
        Stack<Lay> open = new();
        Way? way = null;
        for (Lay at = line; way is null; at = at.Before!)
        {
            // The first hook hangs at the hatch and stays there.
            if (at.IsEmpty || at.Before!.IsEmpty) way = In;
            else if (!along.TryGetValue(at, out way)) open.Push(at);
        }
        while (open.TryPop(out Lay? next))
        {
            string here = Places.At(next.Mark.Grip);
            way = next.Mark.Hook ? way.Behind(Passage.At(here), Scenario.Tether.Swap.Seconds) : way.Behind(new(here, Places.At(next.Before!.Mark.Grip)), Seconds(next.Mark.Stretch));
            along[next] = way;
            book.Kept++;
        }
        return way;
    }

    /// <summary>Climbing home where no line is laid, and in: the shortest way, with a change of reels for each reel needed beyond the first, where the
    /// one before ends.</summary>
    public Way Climbing(GripId grip)
    {
        if (Scenario.Tether.Protocol == TetherProtocol.Leapfrog || Shortest.From(grip) == Way.None) return Shortest.From(grip);
        if (climbing.TryGetValue(grip, out Way? way)) return way;
        book.Kept++;
        return climbing[grip] = In.Behind(ClimbingLegs(grip, [Person], SpanSeconds)!);
    }

    /// <summary>The pieces of that way as far as the hatch, with the changes of reels of everybody who climbs; null where there is no way.</summary>
    public List<WayLeg>? ClimbingLegs(GripId grip, IReadOnlyList<Person> who, Func<Span, int> seconds)
    {
        if (Shortest.From(grip) == Way.None) return null;
        List<WayLeg> legs = [];
        List<Reeling> reels = Scenario.Tether.Protocol == TetherProtocol.Leapfrog ? [] : [.. who.Select(one => new Reeling(one.Reels))];
        IReadOnlyList<GripId> grips = Shortest.Grips(grip);
        for (int i = 0; i + 1 < grips.Count; i++)
        {
            Span span = Shortest.SpanBetween(grips[i], grips[i + 1]);
            for (int swaps = reels.Sum(reel => reel.ChangesFor(span.Length)); swaps > 0; swaps--) legs.Add(new(Passage.At(Places.At(grips[i])), Scenario.Tether.Swap.Seconds));
            legs.Add(new(new(Places.At(grips[i]), Places.At(grips[i + 1])), seconds(span)));
        }
        return legs;
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
