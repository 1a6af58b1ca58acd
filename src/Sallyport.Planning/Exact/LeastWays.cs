using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>
/// The least time that anybody can need between two stops, whatever way, line, load or hour is chosen: the quickest spans without a load, no change of
/// reels, no closed zone, the quickest rides. Every plan takes as long or longer, and a stop put in between never makes it less.
/// </summary>
internal sealed class LeastWays
{
    private readonly SearchCase all;
    private readonly int[][][] rides;
    private readonly int[][][] walks;
    private readonly int[][] anybody;
    private readonly int[][][][] slowed;

    public LeastWays(SearchCase all, StationGraph graph)
    {
        this.all = all;
        rides = [.. all.ArmData.Select(arm => Close(arm.Rides))];
        LineBook[] books = [.. all.Lines.Select(lines => lines.Book)];
        walks = [.. books.Select(book => Ways(graph, span => book.SpanSeconds(span, 1), byArm: true))];
        anybody = Ways(graph, span => books.Min(book => book.SpanSeconds(span, 1)), byArm: true);
        slowed = [.. books.Select(book => all.Slower.Select(slower => Ways(graph, span => book.SpanSeconds(span, slower) - book.SpanSeconds(span, 1), byArm: false)).ToArray())];
    }

    private LeastWays(LeastWays least, int[][][] walks)
    {
        (all, rides, anybody, slowed) = (least.all, least.rides, least.anybody, least.slowed);
        this.walks = walks;
    }

    /// <summary>The same with the ways that search knows instead of the quickest there are: along the lines of the moorings at each place, under one load.</summary>
    public LeastWays AsSearched(int load) => new(this,
        [.. all.Ways.Select(known => all.Places.Select((_, from) => all.Places.Select((_, to) => from == to ? 0 : Math.Min(SearchCase.Never, known.Between(load, from, to))).ToArray()).ToArray())]);

    /// <summary>The least seconds in which a thing comes from a place to another in the hands of whoever is quickest on each span.</summary>
    public int Carried(int from, int to) => anybody[from][to];

    /// <summary>By how many seconds a load at least slows its carrier between two places.</summary>
    public int SlowedBy(int person, int load, int from, int to) => slowed[person][load][from][to];

    /// <summary>Seconds that an arm takes between two of its poses, by whichever poses.</summary>
    public int Ride(int arm, int from, int to) => rides[arm][from][to];

    /// <summary>Seconds from the end of what is done at one stop to the start of what is done at another: restraints left and entered, arms mounted and left.</summary>
    public int Between(int person, Stop from, Stop to)
    {
        if (from.Arm >= 0 && from.Arm == to.Arm) return rides[from.Arm][from.Pose][to.Pose];
        int leave = from.Socket >= 0 && from.Socket != to.Socket ? all.Scenario.Handling.Leave.Time.Seconds : 0;
        int enter = to.Socket >= 0 && from.Socket != to.Socket ? all.Scenario.Handling.Enter.Time.Seconds : 0;
        int least = SearchCase.Never;
        foreach ((int place, int down) in Ends(from, isMount: false))
            foreach ((int other, int up) in Ends(to, isMount: true))
                least = Math.Min(least, down + walks[person][place][other] + up);
        return Math.Min(SearchCase.Never, leave + least + enter);
    }

    /// <summary>Where somebody at a stop gets onto or off the structure, and how long that takes.</summary>
    private IEnumerable<(int Place, int Seconds)> Ends(Stop stop, bool isMount)
    {
        if (stop.Arm < 0) return [(stop.Place, 0)];
        ArmCase arm = all.ArmData[stop.Arm];
        int handling = (isMount ? arm.Arm.Mount : arm.Arm.Dismount).Time.Seconds;
        return arm.MountPlaces.Select((place, i) => (place, handling + rides[stop.Arm][arm.MountPoses[i]][stop.Pose]));
    }

    /// <summary>The least sums of what spans cost, between all places; an arm with more than one place to get on may carry somebody from one to another.</summary>
    private int[][] Ways(StationGraph graph, Func<Span, int> cost, bool byArm)
    {
        int[] grips = [.. all.Places.Select(graph.IndexOf)];
        int[][] ways = [.. grips.Select(from => QuickestWays.From(graph, from, cost)).Select(least => grips.Select(to => least[to]).ToArray())];
        foreach (ArmCase arm in all.ArmData)
            for (int i = 0; i < arm.MountPlaces.Length; i++)
                for (int j = 0; j < arm.MountPlaces.Length; j++)
                    if (i != j)
                    {
                        ref int way = ref ways[arm.MountPlaces[i]][arm.MountPlaces[j]];
                        way = Math.Min(way, byArm ? arm.Arm.Mount.Time.Seconds + rides[arm.Index][arm.MountPoses[i]][arm.MountPoses[j]] + arm.Arm.Dismount.Time.Seconds : 0);
                    }
        return Close(ways);
    }

    /// <summary>No way is longer than one by a third place.</summary>
    private static int[][] Close(int[][] ways)
    {
        int[][] closed = [.. ways.Select(row => row.ToArray())];
        for (int k = 0; k < closed.Length; k++)
            for (int a = 0; a < closed.Length; a++)
                for (int b = 0; b < closed.Length; b++) closed[a][b] = Math.Min(closed[a][b], closed[a][k] + closed[k][b]);
        return closed;
    }
}

/// <summary>Where something is done: at a place, in a restraint there, or at a pose of an arm; by index, -1 for none.</summary>
internal readonly record struct Stop(int Place, int Socket = -1, int Arm = -1, int Pose = -1)
{
    public static Stop Of(LegData leg) => leg.Arm >= 0 ? new(-1, -1, leg.Arm, leg.Pose) : new(leg.Place, leg.Socket);
}
