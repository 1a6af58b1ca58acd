using Google.OrTools.Sat;

namespace Sallyport.Planning;

/// <summary>Windows in which something is shut down, from the end of the command that turns it off to the end of the one that turns it on.</summary>
/// <remarks>
/// <para>Of a plan that plays clean: each leg that wants it off lies in such a window and is over before the command that ends it is sent; a window lasts no longer
/// than the shutdown's longest time; between two windows its console sends the next command that turns it off; while one that cuts the link lasts, no leg that needs
/// the link is done. Of a leg that may wait between its steps only the first step is held to it.</para>
/// <para>Any number of windows fits: one without such a leg is left out, so there are at most as many as legs that start apart, in the order of time, and each
/// may be cut down to what its legs need, which takes nothing from the above.</para>
/// </remarks>
internal sealed partial class Relaxation
{
    /// <summary>By shutdown, the lengths of its windows, s; null while they are not in the model.</summary>
    private readonly IntVar[]?[] dead;

    /// <summary>Nothing that is worth so much, and ends by the latest end asked for, is shut down for less than the bound of the answer, s summed over the shutdowns.</summary>
    public SolverAnswer LeastDead(int worth, SolverLimits limits, Action<long>? bounded = null)
    {
        if (!CanEnd) return new(SolverWord.Impossible, null, long.MaxValue, null);
        model.Holds(Value >= worth);
        for (int s = 0; s < dead.Length; s++)
            if (dead[s] is null) AddWindows(s);
        model.Least(LinearExpr.Sum(dead.SelectMany(windows => windows!)));
        return model.Solve(limits, bounded);
    }

    /// <summary>The windows that bind value and end: those that may not last as long as they like, or that cut the link.</summary>
    private void AddPower()
    {
        for (int s = 0; s < dead.Length; s++)
            if (all.Shutdowns[s].Longest < SearchCase.Never || all.Shutdowns[s].Shutdown.CutsLink) AddWindows(s);
    }

    private void AddWindows(int s)
    {
        ShutdownCase shutdown = all.Shutdowns[s];
        int off = shutdown.Off.Time.Seconds, on = shutdown.On.Time.Seconds;
        int[][] users = [.. Enumerable.Range(0, legs).Where(l => (all.Data[l].ShutdownMask >> s & 1) != 0).GroupBy(l => all.UnitOfLeg[l]).Select(unit => unit.ToArray())];
        IntVar[] length = [.. users.Select((_, w) => model.Number(0, Math.Min(shutdown.Longest, horizon + on), $"{shutdown.Shutdown.Id} {w}"))];
        IntVar[] from = [.. users.Select(_ => model.Number(0, horizon, ""))], to = [.. users.Select(_ => model.Number(0, horizon + on, ""))];
        BoolVar[] used = [.. users.Select(_ => model.Choice(""))];
        BoolVar[][] lies = [.. users.Select(_ => used.Select(_ => model.Choice("")).ToArray())];
        dead[s] = length;
        for (int u = 0; u < users.Length; u++) model.ExactlyOne([.. lies[u], jobIn[all.JobOfLeg[users[u][0]]].Not()]);
        for (int w = 0; w < used.Length; w++)
        {
            model.Holds(length[w] >= to[w] - from[w]).OnlyEnforceIf(used[w]);
            // Those that are used come first, in the order of time.
            if (w > 0)
            {
                model.Brings(used[w], used[w - 1]);
                model.Holds(from[w] >= to[w - 1] + off).OnlyEnforceIf(used[w]);
            }
            for (int u = 0; u < users.Length; u++)
            {
                model.Brings(lies[u][w], used[w]);
                foreach (int l in users[u])
                {
                    int piece = all.Data[l].Pieces[0];
                    model.Holds(from[w] <= start[l]).OnlyEnforceIf(lies[u][w]);
                    model.Holds(to[w] >= start[l] + piece + on).OnlyEnforceIf(lies[u][w]);
                    // Follows from the two before; said in one row because linear reasoning does not see it.
                    model.Holds(length[w] >= lies[u][w] * (piece + on));
                }
            }
            if (shutdown.Shutdown.CutsLink)
                for (int l = 0; l < legs; l++)
                    if (all.Data[l].Leg.NeedsLink)
                    {
                        BoolVar before = model.Choice("");
                        BoolVar isIn = jobIn[all.JobOfLeg[l]];
                        model.Holds(start[l] + all.Data[l].Pieces[0] <= from[w]).OnlyEnforceIf([before, used[w], isIn]);
                        model.Holds(start[l] >= to[w]).OnlyEnforceIf([before.Not(), used[w], isIn]);
                    }
        }
    }
}
