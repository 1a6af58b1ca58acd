using System.Globalization;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;

namespace Sallyport.Tests.Planning;

/// <summary>Outlines that a short search announces on random scenarios, found once for all tests: the same seeds in every run, those on
/// which search and proof once disagreed, and fresh ones when they are asked for.</summary>
internal static class SearchedPlans
{
    private const int Scenarios = 700;

    /// <summary>Candidates a lane: enough to find plans, few enough to do it many hundred times.</summary>
    private const int Decodes = 1_000;

    /// <summary>Seeds that somebody asks for besides, as FIRST+COUNT; the others are the same in every run.</summary>
    private static readonly IEnumerable<int> Fresh = Environment.GetEnvironmentVariable("SALLYPORT_FRESH_SEEDS")?.Split('+') is [var first, var count]
        ? Enumerable.Range(int.Parse(first, CultureInfo.InvariantCulture), int.Parse(count, CultureInfo.InvariantCulture)) : [];

    private static readonly Lazy<IReadOnlyList<SearchedPlan>> Found = new(() =>
        [.. SearchCases.Seeds.Concat(Enumerable.Range(1, Scenarios)).Concat(Fresh).Distinct().AsParallel().AsOrdered().SelectMany(Search)]);

    public static IReadOnlyList<SearchedPlan> All => Found.Value;

    /// <summary>Holds something against every plan; tells all seeds that fail, not the first alone.</summary>
    public static void Each(Action<SearchedPlan> holds)
    {
        List<string> failed = [];
        foreach (SearchedPlan plan in All)
            try
            {
                holds(plan);
            }
            catch (Xunit.Sdk.XunitException failure)
            {
                failed.Add($"seed {plan.Seed}: {failure.Message}");
                SearchCases.Keep(plan.Seed, failure.Message);
            }
        Xunit.Assert.True(failed.Count == 0, string.Join('\n', failed));
    }

    /// <summary>Whether the proof refuses an outline only because something on a way home is closed: the one thing about return times that search says it
    /// leaves to the proof, save where it waits for zones that close at times.</summary>
    private static bool IsRefusedForAClosingOnTheWayHome(Scenario scenario, Expander expander, Outline outline)
    {
        if (expander.Expand(outline, Branch.Likely, "test").Timeline is not { } timeline) return false;
        Finding[] broken = [.. Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Findings.Where(finding => finding.Severity == Severity.Broken)];
        return broken.All(finding => finding.Rule.Value.StartsWith("return.", StringComparison.Ordinal))
            && broken.Any(finding => finding.Sentence.Contains("where that is closed", StringComparison.Ordinal) || finding.Sentence.Contains("closes it", StringComparison.Ordinal));
    }

    private static List<SearchedPlan> Search(int seed)
    {
        Scenario scenario = RandomScenario.Of(seed);
        Expander expander = new(scenario);
        List<SearchedPlan> announced = [];
        Outline? told = null;
        new Searcher(scenario, expander).Run(new(Effort: 1, seed, null, Threads: 1, Decodes), outline =>
        {
            told = IsRefusedForAClosingOnTheWayHome(scenario, expander, outline) ? null : outline;
            return told is not null;
        }, progress =>
        {
            // Progress tells the end that search reckons with right after an outline was taken.
            if (told is not null) announced.Add(new(seed, scenario, expander, told, progress.End!.Value));
            told = null;
        }, CancellationToken.None);
        // The first plan and the best one: what lies between is much the same.
        return announced.Count < 3 ? announced : [announced[0], announced[^1]];
    }
}

/// <summary>An outline announced by search, and the end search gave it.</summary>
internal sealed record SearchedPlan(int Seed, Scenario Scenario, Expander Expander, Outline Outline, Pet End)
{
    public Timeline Expand() => Expand(Outline);

    public Timeline Expand(Outline outline)
    {
        Expansion expansion = Expander.Expand(outline, Branch.Likely, "test");
        Xunit.Assert.True(expansion.Problem is null, expansion.Problem?.Found);
        return expansion.Timeline!;
    }
}
