using System.Collections.Immutable;
using System.Numerics;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>How many independent open inhibits keep a node from its sources on the worst path.</summary>
/// <param name="Count">The least over all paths; <see cref="int.MaxValue"/> when no path has fewer than were asked for.</param>
/// <param name="Path">The nodes of the worst path, from the node to the source; empty when there is none.</param>
internal sealed record InhibitCount(int Count, ImmutableArray<NodeId> Path)
{
    public string PathInWords => Path.IsEmpty ? "" : $"; worst path {string.Join(" – ", Path)}";
}

/// <summary>
/// The power net with its switches as they are. A path is any way from the node to a source along lines. An open switch is an inhibit,
/// and all open switches of one controller are one. A connector apart ends the path, but is no inhibit.
/// </summary>
internal sealed class PowerNet
{
    private readonly Func<FeatureId, string> state;
    private readonly Dictionary<NodeId, List<PowerLine>> linesAt = [];
    private readonly HashSet<NodeId> sources;
    private readonly Dictionary<string, string> common;

    public PowerNet(Station station, Func<FeatureId, string> state)
    {
        this.state = state;
        sources = [.. station.PowerSources];
        common = station.Controllers.Where(one => one.Common is not null).ToDictionary(one => one.Id, one => one.Common!, StringComparer.Ordinal);
        foreach (PowerLine line in station.PowerLines)
            foreach (NodeId end in new[] { line.From, line.To })
                if (linesAt.TryGetValue(end, out List<PowerLine>? lines)) lines.Add(line);
                else linesAt[end] = [line];
    }

    private PowerNet(PowerNet same, Func<FeatureId, string> state) => (this.state, linesAt, sources, common) = (state, same.linesAt, same.sources, same.common);

    /// <summary>The same net with its switches in other states.</summary>
    public PowerNet With(Func<FeatureId, string> states) => new(this, states);

    /// <summary>Open switches by their controller.</summary>
    public static string? ByController(PowerLine line) => line.Controller;

    /// <summary>Open switches by what would close them: the common cause of their controllers where there is one.</summary>
    public string? ByCause(PowerLine line) => common.TryGetValue(line.Controller!, out string? cause) ? $"common {cause}" : line.Controller;

    /// <summary>The fewest inhibits to any source that always feeds the net.</summary>
    public InhibitCount FewestInhibits(NodeId node, int enough = int.MaxValue) => FewestInhibits(node, sources, ByController, enough);

    /// <summary>The fewest inhibits to any source that always feeds the net, named in another way.</summary>
    public InhibitCount FewestInhibits(NodeId node, Func<PowerLine, string?> inhibit, int enough) => FewestInhibits(node, sources, inhibit, enough);

    /// <summary>The fewest inhibits on any path from a node to one of some others. Paths are followed in the order of their inhibits, and
    /// from each node only with sets of inhibits that hold no set with which it was reached before: the longer way round can add nothing then.</summary>
    /// <param name="node">From here. A node that no line names counts as not inhibited at all: nothing shows that it is dead.</param>
    /// <param name="to">What the paths lead to.</param>
    /// <param name="inhibit">Which inhibit an open switch is; null when it counts for nothing and is taken as closed.</param>
    /// <param name="enough">Paths with so many are not followed: nobody asks for more.</param>
    public InhibitCount FewestInhibits(NodeId node, IReadOnlySet<NodeId> to, Func<PowerLine, string?> inhibit, int enough = int.MaxValue)
    {
        if (!linesAt.ContainsKey(node)) return new InhibitCount(0, [node]);
        Dictionary<string, int> numbers = new(StringComparer.Ordinal);
        Dictionary<NodeId, List<BigInteger>> reached = [];
        PriorityQueue<Reached, (int Inhibits, int Turn)> open = new();
        int turn = 0;
        open.Enqueue(new(node, BigInteger.Zero, null), (0, turn++));
        while (open.TryDequeue(out Reached? at, out (int Inhibits, int) found))
        {
            if (!reached.TryGetValue(at.Node, out List<BigInteger>? before)) reached[at.Node] = before = [];
            if (before.Exists(fewer => (fewer & at.Opened) == fewer)) continue;
            before.Add(at.Opened);
            if (to.Contains(at.Node)) return new InhibitCount(found.Inhibits, at.Path());
            foreach (PowerLine line in linesAt[at.Node])
            {
                NodeId next = line.From == at.Node ? line.To : line.From;
                BigInteger opened = at.Opened;
                if (IsInterrupted(line))
                {
                    if (line.Controller is null) continue;
                    if (inhibit(line) is { } name)
                    {
                        if (!numbers.TryGetValue(name, out int number)) numbers[name] = number = numbers.Count;
                        opened |= BigInteger.One << number;
                    }
                }
                int inhibits = (int)BigInteger.PopCount(opened);
                if (inhibits < enough) open.Enqueue(new(next, opened, at), (inhibits, turn++));
            }
        }
        return new InhibitCount(int.MaxValue, []);
    }

    /// <summary>Whether a source that always feeds the net reaches this node with nothing open between.</summary>
    public bool IsFed(NodeId node) => sources.Overlaps(JoinedTo(node));

    /// <summary>Every node that conducts to this one, itself among them.</summary>
    public HashSet<NodeId> JoinedTo(NodeId node)
    {
        HashSet<NodeId> joined = [node];
        Queue<NodeId> open = new([node]);
        while (open.TryDequeue(out NodeId at))
            foreach (PowerLine line in linesAt.GetValueOrDefault(at, []))
                if (!IsInterrupted(line) && joined.Add(line.From == at ? line.To : line.From)) open.Enqueue(line.From == at ? line.To : line.From);
        return joined;
    }

    private bool IsInterrupted(PowerLine line) => line.Closed is { } closed && !closed.States.Contains(state(closed.Feature));

    /// <summary>A node, the inhibits met on the way to it as bits, and where the way came from.</summary>
    private sealed record Reached(NodeId Node, BigInteger Opened, Reached? From)
    {
        public ImmutableArray<NodeId> Path()
        {
            List<NodeId> path = [];
            for (Reached? at = this; at is not null; at = at.From) path.Add(at.Node);
            path.Reverse();
            return [.. path];
        }
    }
}
