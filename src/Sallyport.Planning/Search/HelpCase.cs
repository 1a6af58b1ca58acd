using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>The ways of a helper, made ready for the decoder: from every mooring to every mooring of somebody else, and both of them home from there.</summary>
internal sealed class HelpCase
{
    private readonly SearchCase all;
    private readonly StationGraph graph;
    private readonly HelpTimes help;

    // By helper, person helped and load class of the helper: mooring of the helper to mooring of the other one, row after row.
    private readonly int[][][][] there;

    // By helper, person helped and load class of each: from the mooring of the person helped, in and the hatch closed.
    private readonly int[][][][][] home;

    private HelpCase(SearchCase all, StationGraph graph, HelpTimes help, int limit)
    {
        (this.all, this.graph, this.help, Limit) = (all, graph, help, limit);
        int people = all.People.Length;
        there = [.. Enumerable.Range(0, people).Select(q => Enumerable.Range(0, people).Select(p => q == p ? [] : all.Slower.Select(slower => There(q, p, slower)).ToArray()).ToArray())];
        home = [.. Enumerable.Range(0, people).Select(q => Enumerable.Range(0, people).Select(p => q == p ? []
            : all.Slower.Select(own => all.Slower.Select(other => Home(q, own, p, other)).ToArray()).ToArray()).ToArray())];
    }

    /// <summary>The limit of <c>return.help</c>, s.</summary>
    public int Limit { get; }

    /// <summary>Null where nobody says what helping takes, or nothing limits it, or nobody is there to help.</summary>
    public static HelpCase? Of(SearchCase all, StationGraph graph, int limit) =>
        all.Scenario.Help is { } help && limit < SearchCase.Never && all.People.Length > 1 ? new(all, graph, help, limit) : null;

    /// <summary>The ways of a helper with a load class to somebody with another one, and of both home.</summary>
    public Ways Between(int helper, int helperLoad, int helped, int load) =>
        new(there[helper][helped][helperLoad], home[helper][helped][helperLoad][load], all.Width[helped], help.Secure.Seconds);

    /// <summary>The ways of one helper to one other.</summary>
    internal readonly struct Ways(int[] there, int[] home, int width, int secure)
    {
        /// <summary>Seconds from a moment at which one is called to help until both are in and the hatch is closed, break-offs apart.</summary>
        public int Seconds(int from, int at) => Math.Min(SearchCase.Never, there[from * width + at] + secure + home[at]);
    }

    private int[] There(int q, int p, double slower)
    {
        IReadOnlyList<Mooring> from = all.Tables[q].Moorings, to = all.Tables[p].Moorings;
        int[] ways = new int[from.Count * to.Count];
        if (!all.Lines[q].Book.Reels)
        {
            for (int a = 0; a < from.Count; a++)
            {
                int[] quickest = QuickestWays.From(graph, from[a].Line.Grip, Alone);
                for (int b = 0; b < to.Count; b++) ways[a * to.Count + b] = quickest[to[b].Line.Grip];
            }
            return ways;
        }
        // Back along the own line as far as both lie the same way, and out along the other one's; from hatch to hatch where they share nothing.
        int across = RootGrip(q) == RootGrip(p) ? 0 : QuickestWays.From(graph, RootGrip(p), Alone)[RootGrip(q)];
        TetherLine[][] own = [.. from.Select(mooring => Chain(mooring.Line))], others = [.. to.Select(mooring => Chain(mooring.Line))];
        int[][] back = [.. own.Select(FromHatch)], out_ = [.. others.Select(FromHatch)];
        for (int b = 0; b < to.Count; b++)
        {
            bool reaches = ReelsReach(all.People[q], others[b]);
            for (int a = 0; a < from.Count; a++)
            {
                TetherLine[] line = own[a], other = others[b];
                int shared = 0;
                while (shared < line.Length && shared < other.Length && line[shared].Grip == other[shared].Grip && line[shared].Hooked == other[shared].Hooked) shared++;
                int way = shared == 0 ? across + back[a][^1] + out_[b][^1] : back[a][^1] + out_[b][^1] - 2 * back[a][shared - 1];
                ways[a * to.Count + b] = reaches ? Math.Min(way, SearchCase.Never) : SearchCase.Never;
            }
        }
        return ways;

        int Alone(Span span) => all.Lines[q].Book.SpanSeconds(span, slower);

        // By mark of a line, from the hatch to there.
        int[] FromHatch(TetherLine[] line)
        {
            int[] seconds = new int[line.Length];
            for (int i = 1; i < line.Length; i++) seconds[i] = seconds[i - 1] + (line[i].Hooked ? all.Scenario.Tether.Swap.Seconds : Alone(SpanOf(line, i)));
            return seconds;
        }
    }

    private int[] Home(int q, double slowerHelper, int p, double slowerHelped)
    {
        Airlock airlock = all.Scenario.Station.Airlocks[all.Airlocks[p]];
        int inside = help.Enter.Seconds + airlock.Close.Seconds;
        int Both(Span span) => (int)Math.Ceiling(Math.Max(all.Lines[q].Book.SpanSeconds(span, slowerHelper), all.Lines[p].Book.SpanSeconds(span, slowerHelped)) * help.Slower - 1e-9);
        IReadOnlyList<Mooring> moorings = all.Tables[p].Moorings;
        if (!all.Lines[p].Book.Reels)
        {
            int[] quickest = QuickestWays.From(graph, RootGrip(p), Both);
            return [.. moorings.Select(mooring => (int)Math.Min((long)quickest[mooring.Line.Grip] + inside, SearchCase.Never))];
        }
        return [.. moorings.Select(mooring =>
        {
            TetherLine[] line = Chain(mooring.Line);
            int way = inside;
            for (int i = 1; i < line.Length; i++) way += line[i].Hooked ? 2 * all.Scenario.Tether.Swap.Seconds : Both(SpanOf(line, i));
            return way;
        })];
    }

    private int RootGrip(int p) => all.Lines[p].Book.Root.Grip;

    private static TetherLine[] Chain(TetherLine end)
    {
        List<TetherLine> chain = [];
        for (TetherLine? line = end; line is not null; line = line.Parent) chain.Add(line);
        chain.Reverse();
        return [.. chain];
    }

    private Span SpanOf(TetherLine[] line, int i) => graph.Between(line[i - 1].Grip, line[i].Grip)!;

    /// <summary>Whether somebody's own reels, in their order, are as long as those of a line are paid out.</summary>
    private static bool ReelsReach(Person person, TetherLine[] line)
    {
        int reel = -1, out_ = 0;
        for (int i = 0; i < line.Length; i++)
        {
            if (line[i].Hooked) (reel, out_) = (reel + 1, 0);
            else out_ = line[i].OutMillimetres;
            if (reel >= person.Reels.Length || out_ > person.Reels[reel] * 1000 + 1e-6) return false;
        }
        return true;
    }
}
