using System.Collections.Immutable;
using Sallyport.Desk;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;

namespace Sallyport.Tests.Damage;

/// <summary>The plans that are damaged, made once for all tests: the demo scenarios, and random ones.</summary>
internal static class CleanPlans
{
    private const int Seeds = 24;

    private static readonly Lazy<ImmutableArray<CleanPlan>> Made = new(() =>
    [
        Read("skerry-short", "scenarios", "skerry-short", "outlines", "by-hand.yaml"), Read("skerry", "tests", "Shared", "skerry-outline.yaml"), Searched("tern", ReadScenario("tern")),
        .. Enumerable.Range(1, Seeds).Select(seed => TrySearch($"random {seed}", RandomScenario.Of(seed))).OfType<CleanPlan>(),
    ]);

    public static ImmutableArray<CleanPlan> All => Made.Value;

    private static CleanPlan Read(string name, params string[] path)
    {
        Scenario scenario = ReadScenario(name);
        string file = RepositoryFolder.Of(path);
        Outline outline = OutlineFile.Read(file, scenario).Value ?? throw new InvalidOperationException($"{file} cannot be read");
        return new(name, scenario, new(scenario), outline);
    }

    private static CleanPlan Searched(string name, Scenario scenario) => TrySearch(name, scenario) ?? throw new InvalidOperationException($"{name} has no plan");

    /// <summary>The best plan of a short search that plays clean; null when there is none.</summary>
    private static CleanPlan? TrySearch(string name, Scenario scenario)
    {
        Expander expander = new(scenario);
        bool IsClean(Outline outline) => expander.Expand(outline, Branch.Likely, "search").Timeline is { } timeline
            && Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Clean;
        Outline? found = new Searcher(scenario, expander).Run(new(Effort: 1, Seed: 1, null, Threads: 2), IsClean, _ => { }, CancellationToken.None).Outline;
        return found is null ? null : new(name, scenario, expander, found);
    }

    private static Scenario ReadScenario(string name) =>
        ScenarioReader.Read(RepositoryFolder.Of("scenarios", name)).Value ?? throw new InvalidOperationException($"scenario {name} cannot be read");
}
