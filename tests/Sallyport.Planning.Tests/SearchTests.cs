using System.Collections;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Xunit;

namespace Sallyport.Tests.Planning;

/// <summary>What search announces, held against expansion and against the proof.</summary>
public class SearchTests
{
    // Two codes that know nothing of each other reckon the same plan: the decoder of search and expansion.
    [Fact]
    public void Search_EveryOutlineAnnounced_EndsWhereExpansionEndsIt()
    {
        SearchedPlans.Each(plan => Assert.Equal(plan.End,
            plan.Expand().Activities.OfType<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Close).Max(phase => phase.End)));
        int planned = SearchedPlans.All.Select(plan => plan.Seed).Distinct().Count();
        Assert.True(planned >= 500, $"only {planned} scenarios have a plan");
    }

    [Fact]
    public void Search_EveryOutlineAnnounced_PlaysClean() => SearchedPlans.Each(plan =>
    {
        Timeline timeline = plan.Expand();
        Verdict verdict = Judge.Of(plan.Scenario, [(timeline, Player.Play(plan.Scenario, timeline))]);
        Assert.True(verdict.Clean, string.Join("; ", verdict.Findings.Where(finding => finding.Severity == Severity.Broken).Select(finding => $"{finding.Rule}: {finding.Sentence}")));
    });

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    [InlineData(11)]
    public void Search_SameEffortAndSeed_GivesTheSameOutlineOnAnyNumberOfThreads(int seed)
    {
        Scenario scenario = RandomScenario.Of(seed);
        Outline Search(int threads) => new Searcher(scenario, new(scenario)).Run(new(Effort: 2, Seed: 7, From: null, threads), _ => true, _ => { }, CancellationToken.None).Outline!;
        string once = Told(Search(1));
        Assert.Contains("LegEntry", once);
        Assert.Equal(once, Told(Search(1)));
        Assert.Equal(once, Told(Search(2)));
    }

    [Fact]
    public void RandomScenario_SameSeed_IsTheSame() => Assert.Equal(Told(RandomScenario.Of(3)), Told(RandomScenario.Of(3)));

    /// <summary>Everything that a value holds, as text.</summary>
    private static string Told(object? value) => value switch
    {
        null => "none",
        string or Enum => value.ToString()!,
        IEnumerable many => $"[{string.Join(", ", many.Cast<object>().Select(Told))}]",
        IFormattable => value.ToString()!,
        _ when value.GetType().Namespace == typeof(Outline).Namespace =>
            $"{value.GetType().Name}({string.Join(", ", value.GetType().GetProperties().Where(property => property.GetIndexParameters().Length == 0 && !property.GetMethod!.IsStatic).Select(property => Told(property.GetValue(value))))})",
        _ => value.ToString()!,
    };
}
