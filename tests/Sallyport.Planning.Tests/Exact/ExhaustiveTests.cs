using Sallyport.Model;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning.Exact;

/// <summary>Small scenarios of which every candidate is tried: every order, every way to give legs to people and to bring their gear, every choice of jobs.</summary>
public class ExhaustiveTests
{
    private const int Wanted = 200, MostCandidates = 20_000, MostDecodes = 20_000;

    [Fact]
    public void Search_SmallScenarios_FindsTheBestOfAllCandidatesAndNoBoundPassesIt()
    {
        List<string> failed = [];
        int tried = 0, whole = 0, withPlan = 0, leaving = 0, closed = 0, brought = 0, deadClosed = 0;
        for (int seed = 1; tried < Wanted && seed < 20_000; seed++)
        {
            Scenario scenario = RandomScenario.Of(seed);
            if (scenario.Legs.Count() > 6) continue;
            Expander expander = new(scenario);
            SearchCase all = new(scenario, expander);
            if (Candidates(all) > MostCandidates) continue;
            // Where there are too many ways to bring gear, what is best with the usual one is still the least that search must reach.
            (PlanScore best, PlanScore usual, bool isWhole) = BestOfAll(all);
            if (!isWhole) best = usual;
            tried++;
            if (isWhole) whole++;
            if (best.CompareTo(usual) < 0) brought++;
            bool Reached(int value, int end) => isWhole ? (value, end) == (best.Value, best.End) : (-value, end).CompareTo((-best.Value, best.End)) <= 0;
            SearchProgress? found = null;
            // Most need one or two epochs; seed 8865 more than two. Past the best there is nothing to wait for.
            using CancellationTokenSource stop = new();
            SearchResult result = new Searcher(scenario, expander).Run(new(Effort: 12, seed, null, Threads: 2, Decodes: 2_000), _ => true, progress =>
            {
                found = progress;
                if (progress.End is { } end && Reached(progress.Value, end.Seconds)) stop.Cancel();
            }, stop.Token);
            bool isPlan = best.Broken == 0;
            if (isWhole ? isPlan != (result.Outline is not null) : isPlan && result.Outline is null) failed.Add($"seed {seed}: all candidates {(isPlan ? "hold" : "do not hold")} a plan, search says the other");
            if (!isPlan || result.Outline is null) continue;
            withPlan++;
            if (best.Value < scenario.Jobs.Sum(job => job.Value)) leaving++;
            int value = found!.Value, end = found.End!.Value.Seconds;
            if (!Reached(value, end)) failed.Add($"seed {seed}: best of {(isWhole ? "all" : "those with the usual gear")} is worth {best.Value} and ends at {best.End}, search found {value} and {end}");
            Bounds bounds = new(scenario, expander);
            // The order of objectives of these scenarios is the usual one, so that the best is the one with the least dead time of its value and end.
            if (isWhole && best.Dead > 0)
            {
                Bound dead = bounds.LeastDead(best.Value, Pet.FromSeconds(best.End), double.PositiveInfinity, 0.2, 1, CancellationToken.None);
                if (dead.IsImpossible || dead.Figure > best.Dead) failed.Add($"seed {seed}: a plan is shut down for {best.Dead} s, the bound says {dead}");
                if (dead.Figure == best.Dead) deadClosed++;
            }
            best = best with { Value = value, End = end };
            Bound most = bounds.MostValue(double.PositiveInfinity, 0.2, 1, CancellationToken.None), least = bounds.LeastEnd(best.Value, null, double.PositiveInfinity, 0.2, 1, CancellationToken.None);
            if (most.IsImpossible || most.Figure < best.Value) failed.Add($"seed {seed}: a plan is worth {best.Value}, the bound says {most}");
            if (least.IsImpossible || least.Figure > best.End) failed.Add($"seed {seed}: a plan ends at {best.End}, the bound says {least}");
            if (least.Figure == best.End) closed++;
        }
        Assert.True(failed.Count == 0, string.Join('\n', failed));
        Assert.True(tried == Wanted && whole > Wanted / 4 && withPlan > Wanted / 2 && leaving > 5 && brought > 5 && deadClosed > 5, $"{tried} tried, {whole} of them whole, {withPlan} with a plan, {leaving} of them leave a job out, {brought} bring gear another way than the usual, {closed} closed, {deadClosed} with a proven dead time");
    }

    private static long Candidates(SearchCase all)
    {
        long count = 1;
        for (int u = 0; u < all.Units.Length && count <= MostCandidates; u++) count *= (u + 1) * Math.Max(1, all.Units[u].Options.Length);
        return count << all.Leavable.Count(may => may);
    }

    /// <summary>The best of all candidates, and of those that bring gear in the usual way. Of the ways to bring gear, only those are tried that make a difference: one field
    /// after the other that decoding looked at; where that is too many, from then on the usual way alone, and then it is not whole.</summary>
    private static (PlanScore Best, PlanScore Usual, bool IsWhole) BestOfAll(SearchCase all)
    {
        int units = all.Units.Length, decodes = 0;
        bool brings = true;
        Decoder decoder = new(all) { Asked = new byte[units] };
        PlanScore best = PlanScore.Worst, usual = PlanScore.Worst;
        Candidate candidate = new(new int[units], new int[units], new Bringing[units], new bool[all.Leavable.Length]);
        byte[] given = new byte[units];
        int[] leavable = [.. Enumerable.Range(0, all.Leavable.Length).Where(j => all.Leavable[j])];
        bool[] placed = new bool[units];

        void Place(int at)
        {
            if (at == units)
            {
                Give(0);
                return;
            }
            for (int u = 0; u < units; u++)
            {
                if (placed[u] || Enumerable.Range(0, units).Any(other => all.Before[other][u] && !placed[other])) continue;
                (candidate.Order[at], placed[u]) = (u, true);
                Place(at + 1);
                placed[u] = false;
            }
        }

        void Give(int u)
        {
            if (u < units)
            {
                for (candidate.Options[u] = 0; candidate.Options[u] < Math.Max(1, all.Units[u].Options.Length); candidate.Options[u]++) Give(u + 1);
                candidate.Options[u] = 0;
                return;
            }
            PlanScore score = Bring();
            if (score.CompareTo(usual) < 0) usual = score;
        }

        PlanScore Bring()
        {
            if (++decodes > MostDecodes) brings = false;
            Array.Clear(decoder.Asked);
            PlanScore score = decoder.Decode(candidate, []);
            if (score.CompareTo(best) < 0) best = score;
            for (int u = 0; u < units && brings; u++)
                for (int field = 0; field < 4; field++)
                {
                    int bit = 1 << field;
                    if ((decoder.Asked[u] & ~given[u] & bit) == 0) continue;
                    Bringing was = candidate.Bringing[u];
                    given[u] |= (byte)bit;
                    // The usual value, decoded just now, and then each other one.
                    foreach (Bringing way in Ways(was, field))
                    {
                        candidate.Bringing[u] = way;
                        Bring();
                    }
                    candidate.Bringing[u] = was;
                    given[u] &= (byte)~bit;
                    return score;
                }
            return score;
        }

        for (int chosen = 0; chosen < 1 << leavable.Length; chosen++)
        {
            Array.Fill(candidate.JobIn, true);
            for (int i = 0; i < leavable.Length; i++) candidate.JobIn[leavable[i]] = (chosen >> i & 1) != 0;
            Place(0);
        }
        return (best, usual, brings);
    }

    private static IEnumerable<Bringing> Ways(Bringing was, int field) => field switch
    {
        0 => Enumerable.Range(0, Bringing.MostAhead + 1).Select(value => was with { Ahead = (byte)value }),
        1 => Enumerable.Range(0, Bringing.AtStow + 1).Select(value => was with { HandOver = (byte)value }),
        2 => [was, was with { Down = 1 }],
        _ => [was, was with { Stow = 1 }],
    };
}
