using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>How many independent open inhibits keep a node from its sources on the worst path.</summary>
/// <param name="Count">The least over all paths; <see cref="int.MaxValue"/> when no path is whole.</param>
/// <param name="Path">The nodes of the worst path, from the node to the source; empty when there is none.</param>
internal sealed record InhibitCount(int Count, ImmutableArray<NodeId> Path)
{
    public string PathInWords => Path.IsEmpty ? "" : $"; worst path {string.Join(" – ", Path)}";
}

/// <summary>
/// The power net with its switches as they are. A path is any way from the node to a source along lines, none visited twice. An open
/// switch is an inhibit, and all open switches of one controller are one. A connector apart ends the path, but is no inhibit.
/// </summary>
internal sealed class PowerNet(Station station, Func<FeatureId, string> state)
{
    /// <summary>A node that no line names counts as not inhibited at all: nothing shows that it is dead.</summary>
    public InhibitCount FewestInhibits(NodeId node)
    {
        if (station.PowerSources.Contains(node) || !station.PowerLines.Any(line => line.From == node || line.To == node))
            return new InhibitCount(0, [node]);
        InhibitCount best = new(int.MaxValue, []);
        Follow(node, [node], []);
        return best;

        void Follow(NodeId at, List<NodeId> path, List<string> opened)
        {
            if (opened.Count >= best.Count) return;
            if (station.PowerSources.Contains(at))
            {
                best = new InhibitCount(opened.Count, [.. path]);
                return;
            }
            foreach (PowerLine line in station.PowerLines)
            {
                if (line.From != at && line.To != at) continue;
                NodeId next = line.From == at ? line.To : line.From;
                if (path.Contains(next)) continue;
                bool interrupted = line.Closed is { } closed && !closed.States.Contains(state(closed.Feature));
                if (interrupted && line.Controller is null) continue;
                bool counts = interrupted && !opened.Contains(line.Controller!);
                path.Add(next);
                if (counts) opened.Add(line.Controller!);
                Follow(next, path, opened);
                if (counts) opened.RemoveAt(opened.Count - 1);
                path.RemoveAt(path.Count - 1);
            }
        }
    }
}
