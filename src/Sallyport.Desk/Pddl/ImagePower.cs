using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What it says of the switches that a node is dead: on every way from it to a source a connector is apart, or enough switches
/// with controllers of their own are open, and the crew knows it.</summary>
internal static class ImagePower
{
    public static string IsDead(ImageWorld world, NodeId node, int inhibits)
    {
        // A node that no line names, or that is a source itself, is not shown to be dead by any switch.
        string wired = $"(wired {world.Node(node)})";
        if (inhibits <= 0 || !IsWired(world.Scenario.Station, node)) return wired;
        return Say.And(Ways(world.Scenario.Station, node).Select(way => IsCut(world, way, inhibits)).Prepend(wired));
    }

    public static bool IsWired(Station station, NodeId node) =>
        !station.PowerSources.Contains(node) && station.PowerLines.Any(line => line.From == node || line.To == node);

    /// <summary>Every way from a node to the first source it meets, no node visited twice.</summary>
    private static IEnumerable<List<PowerLine>> Ways(Station station, NodeId node)
    {
        Stack<(NodeId At, List<PowerLine> Lines, HashSet<NodeId> Visited)> open = new([(node, [], [node])]);
        while (open.TryPop(out var way))
        {
            if (station.PowerSources.Contains(way.At))
            {
                yield return way.Lines;
                continue;
            }
            foreach (PowerLine line in station.PowerLines)
            {
                NodeId? next = line.From == way.At ? line.To : line.To == way.At ? line.From : null;
                if (next is { } to && !way.Visited.Contains(to)) open.Push((to, [.. way.Lines, line], [.. way.Visited, to]));
            }
        }
    }

    private static string IsCut(ImageWorld world, List<PowerLine> way, int inhibits)
    {
        List<string> apart = [.. way.Where(line => line is { Closed: not null, Controller: null }).Select(line => IsOpen(world, line))];
        List<string> controllers = [.. way.Where(line => line is { Closed: not null, Controller: not null }).GroupBy(line => line.Controller!)
            .Select(lines => Say.Or(lines.Select(line => Say.And([IsOpen(world, line), world.IsKnown(line.Closed!.Feature)]))))];
        return Say.Or([.. apart, .. Choose(controllers, inhibits).Select(Say.And)]);
    }

    private static string IsOpen(ImageWorld world, PowerLine line) => Say.Not(world.Holds(line.Closed!));

    private static IEnumerable<IEnumerable<string>> Choose(List<string> from, int count)
    {
        if (count == 0) return [[]];
        return Enumerable.Range(0, from.Count).SelectMany(i => Choose(from[(i + 1)..], count - 1).Select(rest => rest.Prepend(from[i])));
    }
}
