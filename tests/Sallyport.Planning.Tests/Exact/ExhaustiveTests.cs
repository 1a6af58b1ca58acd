using Sallyport.Model;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning.Exact;

/// <summary>Small scenarios of which every candidate is tried: every order, every way to give legs to people, every choice of jobs.</summary>
public class ExhaustiveTests
{
    private const int Wanted = 200, MostCandidates = 20_000;

    [Fact]
    public void Search_SmallScenarios_FindsTheBestOfAllCandidatesAndNoBoundPassesIt()
    {
        List<string> failed = [];
        int tried = 0, withPlan = 0, leaving = 0, closed = 0;
        for (int seed = 1; tried < Wanted && seed < 20_000; seed++)
        {
            Scenario scenario = RandomScenario.Of(seed);
            if (scenario.Legs.Count() > 6) continue;
            Expander expander = new(scenario);
            SearchCase all = new(scenario, expander);
            if (Candidates(all) > MostCandidates) continue;
            tried++;
            PlanScore best = BestOfAll(all);
            SearchProgress? found = null;
            // Most need one or two epochs; seed 8865 more than two. Past the best there is nothing to wait for.
            using CancellationTokenSource stop = new();
            SearchResult result = new Searcher(scenario, expander).Run(new(Effort: 12, seed, null, Threads: 2, Decodes: 2_000), _ => true, progress =>
            {
                found = progress;
                if (progress.End is { } end && (progress.Value, end.Seconds) == (best.Value, best.End)) stop.Cancel();
            }, stop.Token);
            bool isPlan = best.Broken == 0;
            if (isPlan != (result.Outline is not null)) failed.Add($"seed {seed}: all candidates {(isPlan ? "hold" : "do not hold")} a plan, search says the other");
            if (!isPlan || result.Outline is null) continue;
            withPlan++;
            if (best.Value < scenario.Jobs.Sum(job => job.Value)) leaving++;
            if ((best.Value, best.End) != (found!.Value, found.End!.Value.Seconds)) failed.Add($"seed {seed}: best of all is worth {best.Value} and ends at {best.End}, search found {found.Value} and {found.End.Value.Seconds}");
            Bounds bounds = new(scenario, expander);
            Bound most = bounds.MostValue(double.PositiveInfinity, 0.2, 1, CancellationToken.None), least = bounds.LeastEnd(best.Value, null, double.PositiveInfinity, 0.2, 1, CancellationToken.None);
            if (most.IsImpossible || most.Figure < best.Value) failed.Add($"seed {seed}: a plan is worth {best.Value}, the bound says {most}");
            if (least.IsImpossible || least.Figure > best.End) failed.Add($"seed {seed}: a plan ends at {best.End}, the bound says {least}");
            if (least.Figure == best.End) closed++;
        }
        Assert.True(failed.Count == 0, string.Join('\n', failed));
        Assert.True(tried == Wanted && withPlan > Wanted * 3 / 4 && leaving > 5, $"{tried} tried, {withPlan} with a plan, {leaving} of them leave a job out, {closed} closed");
    }

    private static long Candidates(SearchCase all)
    {
        long count = 1;
        for (int u = 0; u < all.Units.Length && count <= MostCandidates; u++) count *= (u + 1) * Math.Max(1, all.Units[u].Options.Length);
        return count << all.Leavable.Count(may => may);
    }

    private static PlanScore BestOfAll(SearchCase all)
    {
        Decoder decoder = new(all);
        PlanScore best = PlanScore.Worst;
        int[] order = new int[all.Units.Length], options = new int[all.Units.Length];
        int[] leavable = [.. Enumerable.Range(0, all.Leavable.Length).Where(j => all.Leavable[j])];
        bool[] jobIn = new bool[all.Leavable.Length], placed = new bool[all.Units.Length];

        void Place(int at)
        {
            if (at == order.Length)
            {
                Give(0);
                return;
            }
            for (int u = 0; u < order.Length; u++)
            {
                if (placed[u] || Enumerable.Range(0, order.Length).Any(other => all.Before[other][u] && !placed[other])) continue;
                (order[at], placed[u]) = (u, true);
                Place(at + 1);
                placed[u] = false;
            }
        }

        void Give(int u)
        {
            if (u < options.Length)
            {
                for (options[u] = 0; options[u] < Math.Max(1, all.Units[u].Options.Length); options[u]++) Give(u + 1);
                options[u] = 0;
                return;
            }
            PlanScore score = decoder.Decode(order, options, jobIn, []);
            if (score.CompareTo(best) < 0) best = score;
        }

        for (int chosen = 0; chosen < 1 << leavable.Length; chosen++)
        {
            Array.Fill(jobIn, true);
            for (int i = 0; i < leavable.Length; i++) jobIn[leavable[i]] = (chosen >> i & 1) != 0;
            Place(0);
        }
        return best;
    }
}
