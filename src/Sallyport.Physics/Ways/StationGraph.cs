using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>The grips of a station by index, with the spans that leave each of them.</summary>
public sealed class StationGraph
{
    private readonly Dictionary<GripId, int> index = [];
    private readonly List<Edge>[] edges;

    /// <summary>Indexes a station; the order of grips is that of the file.</summary>
    public StationGraph(Station station)
    {
        Station = station;
        for (int i = 0; i < station.Grips.Length; i++) index[station.Grips[i].Id] = i;
        edges = new List<Edge>[station.Grips.Length];
        for (int i = 0; i < edges.Length; i++) edges[i] = [];
        foreach (Span span in station.Spans)
        {
            int a = index[span.A], b = index[span.B];
            edges[a].Add(new(b, span));
            edges[b].Add(new(a, span));
        }
    }

    /// <summary>The station indexed.</summary>
    public Station Station { get; }

    /// <summary>How many grips there are.</summary>
    public int Count => edges.Length;

    /// <summary>The index of a grip.</summary>
    /// <exception cref="KeyNotFoundException">The station has no such grip.</exception>
    public int IndexOf(GripId grip) => index[grip];

    /// <summary>The grip at an index.</summary>
    public Grip GripAt(int grip) => Station.Grips[grip];

    /// <summary>The spans that leave a grip.</summary>
    public IReadOnlyList<Edge> From(int grip) => edges[grip];

    /// <summary>The shortest span between two grips, or null when none joins them.</summary>
    public Span? Between(int from, int to)
    {
        Span? best = null;
        foreach (Edge edge in edges[from])
            if (edge.To == to && (best is null || edge.Span.Length < best.Length)) best = edge.Span;
        return best;
    }

    /// <summary>A span as seen from one of its ends.</summary>
    /// <param name="To">Index of the other end.</param>
    /// <param name="Span">The span.</param>
    public readonly record struct Edge(int To, Span Span);

    /// <summary>The tether that a span takes, in whole millimetres, rounded up.</summary>
    public static int Millimetres(Span span) => (int)Math.Ceiling(span.Length * 1000 - 1e-6);
}
