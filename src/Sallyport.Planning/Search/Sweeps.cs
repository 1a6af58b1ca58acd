using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>Which rides sweep whom and whose line, as bits: one bit a ride of any arm.</summary>
internal sealed class Sweeps
{
    private readonly SearchCase all;
    private readonly StationGraph graph;
    private readonly List<(int Arm, Stretch Line, ImmutableArray<GripId> Through)> rides = [];
    private readonly double? body, line;
    private readonly Dictionary<(int From, int To), ulong> spans = [];
    private readonly ulong[][] walks;

    public Sweeps(SearchCase all, StationGraph graph)
    {
        (this.all, this.graph) = (all, graph);
        body = HazardZones.Clearance(all.Scenario, "arm.swept");
        line = HazardZones.Clearance(all.Scenario, "tether.swept");
        ImmutableArray<Arm> arms = all.Scenario.Arms;
        for (int a = 0; a < arms.Length; a++)
            foreach (RideTime ride in arms[a].Rides)
                rides.Add((a, new(At(arms[a], ride.A), At(arms[a], ride.B)), ride.Through ?? []));
        // Beyond what bits can hold the proof alone looks.
        if (rides.Count > 64 || (body is null && line is null)) rides.Clear();
        Standing = [.. all.Tables.Select(table => table.Moorings.Select(mooring => Touched(body, -1, Stretch.Of(graph.GripAt(mooring.Line.Grip).At), [graph.GripAt(mooring.Line.Grip).Id])).ToArray())];
        Lines = [.. all.Tables.Select((table, p) => table.Moorings.Select(mooring => all.Lines[p].Book.Reels ? OfLine(mooring.Line) : 0).ToArray())];
        Dictionary<WayTable, ulong[]> known = [];
        for (int p = 0; p < all.People.Length; p++)
            if (!known.ContainsKey(all.Tables[p])) known[all.Tables[p]] = WalksOf(p);
        walks = [.. all.Tables.Select(table => known[table])];
        Posed = [.. arms.Select((arm, a) => arm.Poses.Select(pose => Touched(body, a, Stretch.Of(pose.At), [])).ToArray())];
        Ridden = [.. Enumerable.Range(0, rides.Count).Select(r => Touched(body, rides[r].Arm, rides[r].Line, rides[r].Through))];
    }

    /// <summary>Whether there is anything to look at.</summary>
    public bool Any => rides.Count > 0;

    /// <summary>By person and mooring, the rides that sweep whoever stands there.</summary>
    public ulong[][] Standing { get; }

    /// <summary>By person and mooring, the rides that sweep the line laid there.</summary>
    public ulong[][] Lines { get; }

    /// <summary>By arm and pose, the rides of other arms that sweep whoever is held there.</summary>
    public ulong[][] Posed { get; }

    /// <summary>By ride, the rides of other arms that sweep its rider.</summary>
    public ulong[] Ridden { get; }

    /// <summary>The bit of a ride between two poses; -1 when there is none or nothing is looked at.</summary>
    public int RideOf(int arm, int from, int to)
    {
        Arm given = all.Scenario.Arms[arm];
        if (!Any || given.RideBetween(given.Poses[from].Id, given.Poses[to].Id) is not { } ride) return -1;
        return all.Scenario.Arms.Take(arm).Sum(one => one.Rides.Length) + given.Rides.IndexOf(ride);
    }

    /// <summary>The rides that sweep whoever walks from one mooring to another.</summary>
    public ulong Walking(int p, int from, int to) => walks[p][from * all.Width[p] + to];

    // All at once and beforehand: every thread of search reads them.
    private ulong[] WalksOf(int p)
    {
        int width = all.Width[p];
        ulong[] swept = new ulong[Any ? width * width : 0];
        IReadOnlyList<Mooring> moorings = all.Tables[p].Moorings;
        LineBook book = all.Lines[p].Book;
        ulong[][] back = Any && book.Reels ? [.. moorings.Select(mooring => Back(mooring.Line))] : [];
        for (int way = 0; way < swept.Length; way++)
        {
            (int from, int to) = (way / width, way % width);
            if (book.Reels)
            {
                int shared = TetherLine.Common(moorings[from].Line, moorings[to].Line).Depth;
                swept[way] = back[from][shared] | back[to][shared];
            }
            else
                foreach (WayPiece piece in book.Between(moorings[from].Line, moorings[to].Line, 1)) swept[way] |= OfSpan(piece.From, piece.To);
        }
        return swept;
    }

    /// <summary>By depth, the rides that sweep whoever walks along a line from its end back to there, or from there to its end.</summary>
    private ulong[] Back(TetherLine end)
    {
        ulong[] swept = new ulong[end.Depth + 1];
        for (TetherLine line = end; line.Parent is { } parent; line = parent) swept[parent.Depth] = swept[line.Depth] | OfSpan(parent.Grip, line.Grip);
        return swept;
    }

    private ulong OfSpan(int from, int to)
    {
        if (spans.TryGetValue((from, to), out ulong known)) return known;
        return spans[(from, to)] = Touched(body, -1, new(graph.GripAt(from).At, graph.GripAt(to).At), [graph.GripAt(from).Id, graph.GripAt(to).Id]);
    }

    private ulong OfLine(TetherLine laid)
    {
        ulong swept = 0;
        for (TetherLine? at = laid; at is not null; at = at.Parent)
        {
            Grip here = graph.GripAt(at.Grip);
            swept |= Touched(line, -1, new(here.At, at.Parent is null ? here.At : graph.GripAt(at.Parent.Grip).At), [here.Id]);
        }
        return swept;
    }

    private ulong Touched(double? keep, int byOtherThan, Stretch stretch, ImmutableArray<GripId> grips)
    {
        ulong touched = 0;
        if (keep is not { } clearance) return 0;
        for (int r = 0; r < rides.Count; r++)
            if (rides[r].Arm != byOtherThan && (grips.Any(rides[r].Through.Contains) || Closeness.Between(stretch, rides[r].Line) < clearance)) touched |= 1UL << r;
        return touched;
    }

    private static Point At(Arm arm, PoseId pose) => arm.Poses.First(one => one.Id == pose).At;
}
