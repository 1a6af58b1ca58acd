using Sallyport.Model;

namespace Sallyport.Tests.Physics;

/// <summary>
/// The plain referee of ways with a tether: a uniform-cost search over whole states, where a state is every reel hooked with every
/// grip that it lies along. Nothing is pruned, so it is for a handful of grips only.
/// </summary>
/// <param name="structure">Where, and who.</param>
/// <param name="slower">What the load multiplies span times by.</param>
/// <param name="closed">Grips that are never entered; null for none.</param>
internal sealed class WholeStateSearch(RandomStructure structure, double slower, IReadOnlySet<GripId>? closed = null)
{
    private readonly Station station = structure.Scenario.Station;
    private readonly Person person = structure.Person;

    /// <summary>Where the person is: for each reel hooked, in order, the grips that it lies along, from its anchor on.</summary>
    public sealed record State(List<List<int>> Reels)
    {
        public int Grip => Reels[^1][^1];
        public int Anchor => Reels[^1][0];
        public string Key => string.Join('|', Reels.Select(reel => string.Join(',', reel)));
    }

    /// <summary>One thing done: over a span to a neighbour, or a change of reels where one is.</summary>
    public readonly record struct Move(State To, int Seconds);

    public IEnumerable<Move> Moves(State state)
    {
        List<int> reel = state.Reels[^1];
        List<List<int>> earlier = state.Reels[..^1];
        foreach ((int to, Span span) in Neighbours(state.Grip))
        {
            if (closed is not null && closed.Contains(station.Grips[to].Id)) continue;
            bool back = reel.Count >= 2 && reel[^2] == to;
            List<int> path = back ? reel[..^1] : [.. reel, to];
            // At the hatch only the first reel waits, and only along its own line.
            if (!back && station.Grips[to].Id == structure.Airlock.Grip) continue;
            if (Millimetres(path) <= Math.Round(person.Reels[earlier.Count] * 1000)) yield return new(new([.. earlier, path]), Seconds(span));
        }
        int swap = structure.Scenario.Tether.Swap.Seconds;
        bool another = state.Reels.Count < person.Reels.Length;
        if (another && state.Anchor != state.Grip && station.Grips[state.Grip].Anchor) yield return new(new([.. state.Reels, [state.Grip]]), swap);
        if (reel.Count == 1 && earlier.Count > 0) yield return new(new(earlier), swap);
    }

    /// <summary>The least time to every state that can be reached.</summary>
    public Dictionary<string, (State State, int Seconds)> From(State start)
    {
        Dictionary<string, (State, int)> done = [];
        PriorityQueue<State, int> open = new();
        open.Enqueue(start, 0);
        while (open.TryDequeue(out State? state, out int seconds))
        {
            if (!done.TryAdd(state.Key, (state, seconds))) continue;
            foreach (Move move in Moves(state)) open.Enqueue(move.To, seconds + move.Seconds);
        }
        return done;
    }

    /// <summary>What the reel in use has paid out along a path, mm.</summary>
    public int Millimetres(List<int> path) => path.Zip(path.Skip(1)).Sum(pair => (int)Math.Ceiling(Math.Round(SpanBetween(pair.First, pair.Second).Length * 1000, 4)));

    private Span SpanBetween(int a, int b) => Neighbours(a).Single(neighbour => neighbour.To == b).Span;

    private IEnumerable<(int To, Span Span)> Neighbours(int grip)
    {
        GripId here = station.Grips[grip].Id;
        foreach (Span span in station.Spans)
            if (span.A == here) yield return (IndexOf(span.B), span);
            else if (span.B == here) yield return (IndexOf(span.A), span);
    }

    private int IndexOf(GripId grip) => Enumerable.Range(0, station.Grips.Length).Single(i => station.Grips[i].Id == grip);

    private int Seconds(Span span)
    {
        Pace pace = person.Pace!;
        double unladen = span.Class == SpanClass.Gap ? pace.Gap.Seconds : span.Length / (span.Class == SpanClass.Easy ? pace.Easy : pace.Careful);
        return Math.Max(1, (int)Math.Ceiling(Math.Round(unladen * slower, 7)));
    }
}
