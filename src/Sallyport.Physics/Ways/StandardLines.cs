using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>
/// The standard way of one person to each grip with each anchor that reaches it: the quickest from the airlock that keeps out of
/// every zone. What can only be reached through a zone closed at times is reached through it.
/// </summary>
public sealed class StandardLines
{
    private readonly Dictionary<int, List<TetherLine>> byGrip = [];

    /// <summary>Finds the standard lines of one person.</summary>
    /// <param name="scenario">Station, tether rules and zones.</param>
    /// <param name="graph">The station, indexed.</param>
    /// <param name="person">Who; outside.</param>
    /// <param name="airlock">The airlock this person goes out by.</param>
    public StandardLines(Scenario scenario, StationGraph graph, Person person, Airlock airlock)
    {
        Zones = new(scenario, graph);
        EveryZone = Zones.Timed.Union(Zones.Stated).ToHashSet();
        Book = new(graph, scenario.Tether, person, airlock.Grip, EveryZone, Zones.Stated);
        foreach (IReadOnlySet<int> closed in (ReadOnlySpan<IReadOnlySet<int>>)[EveryZone, Zones.Stated])
        {
            IReadOnlyList<WayLabel>[] found = Book.Explore(Book.Root, 1, closed);
            for (int grip = 0; grip < found.Length; grip++)
            {
                if (!byGrip.TryGetValue(grip, out List<TetherLine>? lines)) byGrip[grip] = lines = [];
                // Labels come quickest first, so the first of an anchor is its standard line.
                foreach (WayLabel label in found[grip])
                    if (!lines.Exists(line => line.Anchor == label.Line.Anchor)) lines.Add(label.Line);
            }
        }
    }

    /// <summary>The lines of this person.</summary>
    public LineBook Book { get; }

    /// <summary>When zones are closed.</summary>
    public ZoneTimes Zones { get; }

    /// <summary>The grips inside some zone.</summary>
    public IReadOnlySet<int> EveryZone { get; }

    /// <summary>The standard lines to a grip, the quickest way home first; none when it cannot be reached.</summary>
    public IReadOnlyList<TetherLine> To(int grip) => byGrip[grip];

    /// <summary>The standard line to a grip with the anchor named, or the one with the quickest way home.</summary>
    /// <returns>Null when no line reaches the grip so.</returns>
    public TetherLine? To(int grip, int? anchor) =>
        anchor is { } named ? byGrip[grip].Find(line => line.Anchor == named) : byGrip[grip].FirstOrDefault();
}
