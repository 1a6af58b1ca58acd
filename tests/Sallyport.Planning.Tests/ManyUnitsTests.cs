using Sallyport.Bench;
using Sallyport.Model;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning;

/// <summary>Search where units are many, and where there is nothing to search for.</summary>
public class ManyUnitsTests
{
    [Fact]
    public void Search_ManyUnits_GivesTheSamePlanOnAnyNumberOfThreads()
    {
        (int Value, Pet? End, long Decodes) Search(int threads)
        {
            Scenario scenario = FrozenFamily.Of(40, 7);
            SearchProgress? last = null;
            SearchResult result = new Searcher(scenario, new(scenario)).Run(new(Effort: 4, Seed: 3, null, threads, Decodes: 500), _ => true, progress => last = progress, CancellationToken.None);
            Assert.NotNull(result.Outline);
            return (last!.Value, last.End, result.Decodes);
        }
        (int, Pet?, long Decodes) once = Search(1);
        Assert.Equal(once, Search(2));
        // As many candidates as eight lanes would have tried, but for those that are none.
        Assert.InRange(once.Decodes, 4 * 8 * 500 / 2, 4 * 8 * 500 + 8);
    }

    // By hand from what the proof says of the best candidates (docs/bench/2026-11-29-search.md): 37 s too far.
    [Theory]
    [InlineData(36, false)]
    [InlineData(37, true)]
    public void Search_AMustJobTooFarFromTheHatch_IsNotBegun(int longer, bool isBegun)
    {
        Scenario scenario = FrozenFamily.Of(40, 4);
        scenario = scenario with
        {
            Limits = [.. scenario.Limits.Select(limit => limit.Rule.Value.StartsWith("return.", StringComparison.Ordinal)
                ? limit with { Value = limit.Value with { Value = limit.Value.Value + longer } } : limit)],
        };
        SearchResult result = new Searcher(scenario, new(scenario)).Run(new(Effort: 1, Seed: 1, Decodes: 20), _ => false, _ => { }, CancellationToken.None);
        Assert.Equal(isBegun, result.Decodes > 0);
        Assert.Equal(isBegun, result.Epochs > 0);
        if (!isBegun) Assert.Contains("return times by 1 s at the least", result.Why);
    }

    // What is said to be out of reach must be: no candidate of annealing that does not ask comes within its limits.
    [Fact]
    public void Search_NothingToSearchFor_NorDoesAnnealingFindAnything()
    {
        int never = 0;
        foreach (int legs in FrozenFamily.Sizes)
            foreach (int seed in FrozenFamily.Seeds)
            {
                Scenario scenario = FrozenFamily.Of(legs, seed);
                Expander expander = new(scenario);
                if (new Searcher(scenario, expander).WhyNever() is null) continue;
                never++;
                SearchCase all = new(scenario, expander);
                Annealer lane = new(all, LaneSetting.Lanes[0], seed, Starts.First(all), [], []);
                lane.Run(5_000, 1);
                Assert.True(lane.BestScore.Broken > 0, $"{legs}-{seed}");
            }
        Assert.True(never >= 5, $"only {never}");
    }
}
