using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>One piece of a way: a span, or a change of reels at an anchor.</summary>
/// <param name="From">Index of the grip before.</param>
/// <param name="To">Index of the grip after; equal to <paramref name="From"/> for a change of reels.</param>
/// <param name="Seconds">How long it takes.</param>
/// <param name="Onto">For a change of reels, index of the grip where the reel in use hangs afterwards; otherwise -1.</param>
public readonly record struct WayPiece(int From, int To, int Seconds, int Onto)
{
    /// <summary>Whether this is a change of reels.</summary>
    public bool IsSwap => Onto >= 0;
}

/// <summary>The tether lines of one person from one airlock, and the ways between them.</summary>
public sealed class LineBook
{
    private readonly Person person;
    private readonly TetherRules tether;
    private readonly ImmutableArray<IReadOnlySet<int>> avoid;

    /// <summary>Opens a book for a person who is outside.</summary>
    /// <param name="graph">The station.</param>
    /// <param name="tether">The tether rules.</param>
    /// <param name="person">Whose pace and reels; <see cref="Person.Pace"/> must be given.</param>
    /// <param name="airlock">The grip where the first reel hangs.</param>
    /// <param name="avoid">Sets of grips that ways with short tethers keep out of, by index, in order: where the first leaves no way, the
    /// second is tried, and so on; where none leaves one, nothing is avoided.</param>
    /// <exception cref="ArgumentException">The person has no pace.</exception>
    public LineBook(StationGraph graph, TetherRules tether, Person person, GripId airlock, params ReadOnlySpan<IReadOnlySet<int>> avoid)
    {
        if (person.Pace is null) throw new ArgumentException($"{person.Id} has no pace; expected a person outside", nameof(person));
        Graph = graph;
        this.tether = tether;
        this.person = person;
        this.avoid = [.. avoid];
        Root = new(null, graph.IndexOf(airlock), hooked: true, reel: 0, outMillimetres: 0);
    }

    /// <summary>The station.</summary>
    public StationGraph Graph { get; }

    /// <summary>The line at the airlock, nothing paid out.</summary>
    public TetherLine Root { get; }

    /// <summary>Whether tethers limit ways at all.</summary>
    public bool Reels => tether.Protocol == TetherProtocol.Reel;

    /// <summary>The seconds that a span takes with a load.</summary>
    public int SpanSeconds(Span span, double slower) => Walking.SpanSeconds(person.Pace!, span, slower, tether);

    /// <summary>The line after walking over a span, or null when the reel is too short, or when the span leads back to the hatch otherwise
    /// than along the line: the first reel waits there, so nobody comes home on a further one or from the other side.</summary>
    public TetherLine? Step(TetherLine line, int to, Span span)
    {
        if (!Reels) return Child(line, to, hooked: false, 0, 0);
        if (!line.Hooked && line.Parent!.Grip == to) return line.Parent;
        if (to == Root.Grip) return null;
        int paidOut = line.OutMillimetres + StationGraph.Millimetres(span);
        return paidOut > Math.Floor(person.Reels[line.Reel] * 1000 + 1e-6) ? null : Child(line, to, hooked: false, line.Reel, paidOut);
    }

    /// <summary>The line after hooking on the next reel here, or null when this is no anchor, when the reel in use begins here itself, or
    /// when no reel is left.</summary>
    public TetherLine? SwapOn(TetherLine line) =>
        Reels && line.Anchor != line.Grip && line.Reel + 1 < person.Reels.Length && Graph.GripAt(line.Grip).Anchor
            ? Child(line, line.Grip, hooked: true, line.Reel + 1, 0)
            : null;

    /// <summary>The line after going back to the reel before, or null when the reel in use does not begin here.</summary>
    public static TetherLine? SwapBack(TetherLine line) => line.Hooked ? line.Parent : null;

    /// <summary>The pieces of the one way between two lines: back along the first to what they share, then along the second.</summary>
    /// <remarks>With reels this is the only way that ends with the tether along the second line and nothing wrapped round the
    /// structure; it is also how a person gets home round the same side. With short tethers it is the quickest way that keeps out of
    /// what is to be avoided.</remarks>
    /// <exception cref="ArgumentException">Short tethers, and no way joins the two grips.</exception>
    public ImmutableArray<WayPiece> Between(TetherLine from, TetherLine to, double slower)
    {
        if (!Reels)
        {
            TetherLine start = new(null, from.Grip, hooked: true, reel: 0, outMillimetres: 0);
            (from, to) = (start, Quickest(start, to.Grip, slower));
        }
        ImmutableArray<WayPiece>.Builder pieces = ImmutableArray.CreateBuilder<WayPiece>();
        TetherLine common = TetherLine.Common(from, to);
        for (TetherLine line = from; !ReferenceEquals(line, common); line = line.Parent!)
            pieces.Add(line.Hooked
                ? new(line.Grip, line.Grip, tether.Swap.Seconds, line.Parent!.Anchor)
                : new(line.Grip, line.Parent!.Grip, SecondsBetween(line.Grip, line.Parent.Grip, slower), -1));
        Stack<TetherLine> ahead = new();
        for (TetherLine line = to; !ReferenceEquals(line, common); line = line.Parent!) ahead.Push(line);
        foreach (TetherLine line in ahead)
            pieces.Add(line.Hooked
                ? new(line.Grip, line.Grip, tether.Swap.Seconds, line.Grip)
                : new(line.Parent!.Grip, line.Grip, SecondsBetween(line.Parent.Grip, line.Grip, slower), -1));
        return pieces.ToImmutable();
    }

    private TetherLine Quickest(TetherLine start, int to, double slower)
    {
        foreach (IReadOnlySet<int>? closed in avoid.Append(null))
            if (Explore(start, slower, closed)[to] is [var found, ..]) return found.Line;
        throw new ArgumentException($"no way joins grips {start.Grip} and {to}", nameof(to));
    }

    private int SecondsBetween(int from, int to, double slower) => SpanSeconds(Graph.Between(from, to)!, slower);

    private static TetherLine Child(TetherLine line, int grip, bool hooked, int reel, int paidOut)
    {
        int key = hooked ? -1 - grip : grip;
        if (!line.Children.TryGetValue(key, out TetherLine? child)) line.Children[key] = child = new(line, grip, hooked, reel, paidOut);
        return child;
    }

    /// <summary>Every best way from a line to every place: Pareto sets of time and tether paid out, by grip and anchor.</summary>
    /// <remarks>
    /// First back along the line, which is never dominated because only so can an earlier reel be reached; from each grip on it
    /// outward. A way that goes outward and then back over its own last span is never better than one that had turned off there
    /// before, so outward ways only grow. With short tethers nothing pays out and one way a grip remains.
    /// </remarks>
    /// <param name="start">Where from.</param>
    /// <param name="slower">What the load multiplies span times by.</param>
    /// <param name="closed">Grips that may not be entered, by index; null for none.</param>
    /// <returns>The labels kept, by grip index.</returns>
    public IReadOnlyList<WayLabel>[] Explore(TetherLine start, double slower, IReadOnlySet<int>? closed = null)
    {
        List<WayLabel>[] kept = new List<WayLabel>[Graph.Count];
        for (int i = 0; i < kept.Length; i++) kept[i] = [];
        PriorityQueue<(WayLabel Label, bool Backing), (int, int)> queue = new();

        void Offer(TetherLine? line, int seconds, bool backing)
        {
            if (line is not null && (closed is null || !closed.Contains(line.Grip))) queue.Enqueue((new(line, seconds), backing), (seconds, line.OutMillimetres));
        }

        Offer(start, 0, backing: true);
        while (queue.TryDequeue(out (WayLabel Label, bool Backing) next, out _))
        {
            (TetherLine line, int seconds) = next.Label;
            List<WayLabel> here = kept[line.Grip];
            bool dominated = here.Exists(other => other.Line.Anchor == line.Anchor && other.Line.Reel == line.Reel && other.Line.OutMillimetres <= line.OutMillimetres);
            if (dominated && !next.Backing) continue;
            if (!dominated) here.Add(next.Label);
            foreach (StationGraph.Edge edge in Graph.From(line.Grip))
            {
                bool back = Reels && !line.Hooked && line.Parent!.Grip == edge.To;
                if (!back && dominated) continue;
                if (back && !next.Backing) continue;
                Offer(Step(line, edge.To, edge.Span), seconds + SpanSeconds(edge.Span, slower), back);
            }
            if (!dominated) Offer(SwapOn(line), seconds + tether.Swap.Seconds, backing: false);
            if (next.Backing && line.Parent is not null) Offer(SwapBack(line), seconds + tether.Swap.Seconds, backing: true);
        }
        return kept;
    }
}

/// <summary>A way found: where it ends, with the tether along which line, and how long it takes.</summary>
/// <param name="Line">The line at its end.</param>
/// <param name="Seconds">How long it takes, changes of reels included.</param>
public readonly record struct WayLabel(TetherLine Line, int Seconds);
