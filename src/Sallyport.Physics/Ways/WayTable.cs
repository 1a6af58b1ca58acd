using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>A place together with the tether line by which a person is there: what a plan's ways lead between.</summary>
/// <param name="Line">The tether line, which ends at the place.</param>
/// <param name="Standard">Whether it is a standard line.</param>
public sealed record Mooring(TetherLine Line, bool Standard);

/// <summary>
/// Times between all places that matter to one person, with the tether at both ends: each place has a mooring for every anchor that
/// reaches it, and a few more that save a long way round.
/// </summary>
public sealed class WayTable
{
    /// <summary>The most moorings a place gets beyond its standard ones.</summary>
    private const int ExtraMoorings = 3;

    /// <summary>A further mooring must save at least this much, s.</summary>
    private const int WorthSaving = 60;

    private readonly StandardLines lines;
    private readonly List<Mooring> moorings = [];
    private readonly Dictionary<int, ImmutableArray<int>> byGrip = [];
    private readonly Dictionary<TetherLine, int> byLine = [];
    private readonly int[][] seconds;
    private readonly bool[] crossesTimed;
    private readonly Dictionary<int, ImmutableArray<WayPiece>>[] timedWays;
    private readonly Dictionary<int, ImmutableArray<(long From, long To)>>[] closedHome;

    /// <summary>Builds the table.</summary>
    /// <param name="lines">The standard lines of the person.</param>
    /// <param name="sizes">The size classes of gear, for the load classes.</param>
    /// <param name="places">The grips that matter; the airlock's is added.</param>
    public WayTable(StandardLines lines, IEnumerable<SizeClass> sizes, IEnumerable<GripId> places)
    {
        this.lines = lines;
        StationGraph graph = lines.Book.Graph;
        Slower = LoadClasses(sizes);
        int[] grips = [.. places.Select(graph.IndexOf).Append(lines.Book.Root.Grip).Distinct().Order()];
        foreach (int grip in grips)
            foreach (TetherLine line in lines.Book.Reels ? lines.To(grip) : lines.To(grip).Take(1))
                Add(line, isStandard: true);
        if (lines.Book.Reels) AddShortCuts(grips);

        foreach (int grip in grips) byGrip[grip] = [.. Enumerable.Range(0, moorings.Count).Where(i => moorings[i].Line.Grip == grip)];
        int count = moorings.Count;
        crossesTimed = new bool[count * count];
        seconds = [.. Slower.Select(_ => new int[count * count])];
        for (int load = 0; load < Slower.Length; load++) Fill(load, lines.Zones.Timed);
        timedWays = [.. Slower.Select(slower => Enumerable.Range(0, count * count).Where(pair => crossesTimed[pair])
            .ToDictionary(pair => pair, pair => lines.Book.Between(moorings[pair / count].Line, moorings[pair % count].Line, slower)))];
        closedHome = [.. timedWays.Select(ways => ways.Where(way => way.Key % count == Root).ToDictionary(way => way.Key / count, way => lines.Zones.ClosedDepartures(way.Value)))];
    }

    /// <summary>What loads multiply span times by, ascending from 1; a load class is an index here.</summary>
    public ImmutableArray<double> Slower { get; }

    /// <summary>Every mooring; ways are between their indices.</summary>
    public IReadOnlyList<Mooring> Moorings => moorings;

    /// <summary>The mooring at the airlock.</summary>
    public int Root => byGrip[lines.Book.Root.Grip][0];

    /// <summary>The load classes of some size classes.</summary>
    public static ImmutableArray<double> LoadClasses(IEnumerable<SizeClass> sizes) => [.. sizes.Select(size => size.Slower).Append(1).Distinct().Order()];

    /// <summary>The moorings at a grip; none when it cannot be reached.</summary>
    public ImmutableArray<int> At(GripId grip) => byGrip.GetValueOrDefault(lines.Book.Graph.IndexOf(grip), []);

    /// <summary>Seconds from mooring to mooring with a load class, zones apart, row after row.</summary>
    public int[] Seconds(int load) => seconds[load];

    /// <summary>Whether the way between two moorings touches, with some load, a grip that is closed at times.</summary>
    public bool CrossesTimed(int from, int to) => crossesTimed[from * moorings.Count + to];

    /// <summary>The earliest departure, not before <paramref name="at"/>, that meets no zone closed at that time; null when there is none.</summary>
    public int? EarliestDeparture(int from, int to, int load, int at) =>
        CrossesTimed(from, to) ? lines.Zones.EarliestDeparture(timedWays[load][from * moorings.Count + to], at) : at;

    /// <summary>The longest wait, s, until the whole way home is open, of somebody who may have to set off at any second of a stretch, its last included.
    /// Waiting on the way can be shorter where several zones are closed in turn.</summary>
    /// <returns>A quarter of <see cref="int.MaxValue"/> where it does not open again.</returns>
    public int WaitHome(int from, int load, int first, int last)
    {
        if (!closedHome[load].TryGetValue(from, out ImmutableArray<(long From, long To)> closed)) return 0;
        long longest = 0;
        foreach ((long begin, long end) in closed)
            if (begin <= last && end > first) longest = Math.Max(longest, end - Math.Max(begin, first));
        return (int)Math.Min(longest, int.MaxValue / 4);
    }

    private void Add(TetherLine line, bool isStandard)
    {
        if (byLine.TryAdd(line, moorings.Count)) moorings.Add(new(line, isStandard));
    }

    private void Fill(int load, IReadOnlySet<int> timed)
    {
        int count = moorings.Count;
        Dictionary<TetherLine, (int Seconds, int Timed)> fromAirlock = new() { [lines.Book.Root] = (0, 0) };
        for (int from = 0; from < count; from++)
            for (int to = 0; to < count; to++)
            {
                (int Seconds, int Timed) way;
                if (lines.Book.Reels)
                {
                    (int Seconds, int Timed) a = FromAirlock(moorings[from].Line), b = FromAirlock(moorings[to].Line);
                    (int Seconds, int Timed) shared = FromAirlock(TetherLine.Common(moorings[from].Line, moorings[to].Line));
                    way = (a.Seconds + b.Seconds - 2 * shared.Seconds, a.Timed + b.Timed - 2 * shared.Timed);
                }
                else
                    way = Sum(lines.Book.Between(moorings[from].Line, moorings[to].Line, Slower[load]));
                seconds[load][from * count + to] = way.Seconds;
                // With short tethers another load may take another way.
                crossesTimed[from * count + to] |= way.Timed > 0;
            }

        (int Seconds, int Timed) FromAirlock(TetherLine line)
        {
            if (fromAirlock.TryGetValue(line, out (int, int) known)) return known;
            (int Seconds, int Timed) before = FromAirlock(line.Parent!), last = Sum(lines.Book.Between(line.Parent!, line, Slower[load]));
            return fromAirlock[line] = (before.Seconds + last.Seconds, before.Timed + last.Timed);
        }

        (int Seconds, int Timed) Sum(ImmutableArray<WayPiece> way) =>
            (way.Sum(piece => piece.Seconds), way.Count(piece => timed.Contains(piece.From) || timed.Contains(piece.To)));
    }

    /// <summary>Lines that go on from one place to the next instead of back to where their standard lines part, where that saves most.</summary>
    private void AddShortCuts(int[] grips)
    {
        int standards = moorings.Count;
        LineBook book = lines.Book;
        Dictionary<TetherLine, int> home = [];
        int Home(TetherLine line) =>
            home.TryGetValue(line, out int known) ? known
            : home[line] = line.Parent is null ? 0 : Home(line.Parent) + book.Between(line.Parent, line, 1).Sum(piece => piece.Seconds);

        List<(int Saved, TetherLine Line)> candidates = [];
        for (int from = 0; from < standards; from++)
        {
            TetherLine start = moorings[from].Line;
            IReadOnlyList<WayLabel>[] found = book.Explore(start, 1, lines.EveryZone);
            foreach (int grip in grips)
            {
                int best = int.MaxValue;
                foreach (TetherLine line in lines.To(grip)) best = Math.Min(best, Home(start) + Home(line) - 2 * Home(TetherLine.Common(start, line)));
                foreach (WayLabel label in found[grip])
                    if (best != int.MaxValue && best - label.Seconds >= WorthSaving && !byLine.ContainsKey(label.Line))
                        candidates.Add((best - label.Seconds, label.Line));
            }
        }
        foreach (IGrouping<int, (int Saved, TetherLine Line)> place in candidates.GroupBy(candidate => candidate.Line.Grip).OrderBy(group => group.Key))
            foreach ((int _, TetherLine line) in place.GroupBy(candidate => candidate.Line)
                         .Select(group => (Saved: group.Sum(candidate => candidate.Saved), Line: group.Key))
                         .OrderByDescending(candidate => candidate.Saved).ThenBy(candidate => candidate.Line.OutMillimetres).Take(ExtraMoorings))
                Add(line, isStandard: false);
    }
}
