using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;

namespace Sallyport.Desk.Tests;

/// <summary>Two statements of the world, written apart, held against each other on random scenarios: what the judge calls clean the referee
/// accepts, and what the referee refuses the judge calls broken. The other way round need not hold: the image covers less.</summary>
public sealed class PddlRandomTests
{
    private const int Scenarios = 30;

    private static readonly Lazy<List<(Scenario Scenario, Timeline Timeline)>> Clean = new(() => [.. Enumerable.Range(1, Scenarios).Select(Search).OfType<(Scenario, Timeline)>()]);

    [Fact]
    public void Pddl_RandomPlanThatIsClean_IsAccepted()
    {
        Assert.True(Clean.Value.Count > Scenarios / 2, "too few of the scenarios have a plan to say anything");
        Assert.All(Clean.Value, plan => Assert.Null(Referee.Refuses(PddlImage.Of(plan.Scenario, plan.Timeline))));
    }

    [Fact]
    public void Pddl_RandomPlanWithoutOneActivity_IsRefusedOnlyIfItIsBroken()
    {
        int refused = 0;
        Assert.All(Clean.Value, plan =>
        {
            // One activity in seven, so that each kind is met in some of the scenarios.
            for (int i = plan.Timeline.Activities.Length % 7; i < plan.Timeline.Activities.Length; i += 7)
            {
                Timeline damaged = plan.Timeline with { Activities = plan.Timeline.Activities.RemoveAt(i) };
                if (Referee.Refuses(PddlImage.Of(plan.Scenario, damaged)) is not { } why) continue;
                refused++;
                Assert.False(IsClean(plan.Scenario, damaged), $"without {plan.Timeline.Activities[i].Id} the plan is called clean, but the referee says: {why}");
            }
        });
        Assert.True(refused > 50, $"only {refused} damaged plans were refused");
    }

    private static (Scenario, Timeline)? Search(int seed)
    {
        Scenario scenario = Sallyport.Tests.RandomScenario.Of(seed);
        Expander expander = new(scenario);
        Outline? found = new Searcher(scenario, expander).Run(
            new(Effort: 1, seed, null, Threads: 1), outline => expander.Expand(outline, Branch.Likely, "test").Timeline is { } timeline && IsClean(scenario, timeline),
            _ => { }, CancellationToken.None).Outline;
        return found is null ? null : (scenario, expander.Expand(found, Branch.Likely, "test").Timeline!);
    }

    private static bool IsClean(Scenario scenario, Timeline timeline) => Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Clean;
}
