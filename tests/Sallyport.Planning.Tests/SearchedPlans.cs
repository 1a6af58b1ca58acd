using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Tests.Planning;

/// <summary>Every outline that a short search announces on the random scenarios, found once for all tests.</summary>
internal static class SearchedPlans
{
    public const int Scenarios = 40;

    private static readonly Lazy<IReadOnlyList<SearchedPlan>> Found = new(() => [.. Enumerable.Range(1, Scenarios).AsParallel().AsOrdered().SelectMany(Search)]);

    public static IReadOnlyList<SearchedPlan> All => Found.Value;

    private static List<SearchedPlan> Search(int seed)
    {
        Scenario scenario = RandomScenario.Of(seed);
        Expander expander = new(scenario);
        List<SearchedPlan> announced = [];
        Outline? told = null;
        new Searcher(scenario, expander).Run(new(Effort: 1, seed, null), outline =>
        {
            told = outline;
            return true;
        }, progress =>
        {
            // Progress tells the end that search reckons with right after an outline was taken.
            if (told is not null) announced.Add(new(seed, scenario, expander, told, progress.End!.Value));
            told = null;
        }, CancellationToken.None);
        return announced;
    }
}

/// <summary>An outline announced by search, and the end search gave it.</summary>
internal sealed record SearchedPlan(int Seed, Scenario Scenario, Expander Expander, Outline Outline, Pet End)
{
    public Timeline Expand()
    {
        Expansion expansion = Expander.Expand(Outline, Branch.Likely, "test");
        return expansion.Timeline ?? throw new InvalidOperationException($"seed {Seed}: {expansion.Problem!.Code}: {expansion.Problem.Found}");
    }
}
