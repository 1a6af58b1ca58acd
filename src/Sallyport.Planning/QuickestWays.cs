using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>Ways along spans, whatever line lies there and whatever is closed.</summary>
internal static class QuickestWays
{
    /// <summary>By grip, the least sum of what the spans between there and one grip cost; <see cref="SearchCase.Never"/> where no way leads.</summary>
    public static int[] From(StationGraph graph, int from, Func<Span, int> cost)
    {
        int[] best = new int[graph.Count];
        Array.Fill(best, SearchCase.Never);
        PriorityQueue<int, int> open = new();
        open.Enqueue(from, best[from] = 0);
        while (open.TryDequeue(out int grip, out int sum))
        {
            if (sum > best[grip]) continue;
            foreach (StationGraph.Edge edge in graph.From(grip))
            {
                int next = sum + cost(edge.Span);
                if (next >= best[edge.To]) continue;
                best[edge.To] = next;
                open.Enqueue(edge.To, next);
            }
        }
        return best;
    }
}
