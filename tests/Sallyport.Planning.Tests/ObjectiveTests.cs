using System.Collections.Immutable;
using Sallyport.Bench;
using Sallyport.Model;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning;

/// <summary>The order of what makes one plan better than another.</summary>
public class ObjectiveTests
{
    // Every figure of the first is better but the one that comes first in the order.
    [Theory]
    [InlineData(Objective.Value)]
    [InlineData(Objective.End)]
    [InlineData(Objective.Dead)]
    [InlineData(Objective.Balance)]
    [InlineData(Objective.Walking)]
    [InlineData(Objective.Margin)]
    public void PlanScore_OneObjectiveFirst_GoesBeforeAllOthers(Objective first)
    {
        ImmutableArray<Objective> order = [first, .. Enum.GetValues<Objective>().Where(one => one != first)];
        int On(Objective one) => one == first ? 100 : 10;
        PlanScore worse = new(0, first == Objective.Value ? 1 : 100, 0, On(Objective.End), On(Objective.Dead), On(Objective.Balance), On(Objective.Walking), On(Objective.Margin), 0) { Objectives = order };
        PlanScore better = new(0, first == Objective.Value ? 100 : 1, 0, 110 - On(Objective.End), 110 - On(Objective.Dead), 110 - On(Objective.Balance), 110 - On(Objective.Walking), 110 - On(Objective.Margin), 0) { Objectives = order };
        Assert.True(better.CompareTo(worse) < 0);
        Assert.True(worse.CompareTo(better) > 0);
        Assert.True((better with { Broken = 1 }).CompareTo(worse) > 0, "what is broken comes before every objective");
    }

    [Fact]
    public void PlanScore_UsualOrder_IsValueEndDeadBalance()
    {
        PlanScore score = new(0, 10, 0, 1000, 50, 20, 5, 5, 0);
        Assert.True((score with { Value = 11, End = 9999 }).CompareTo(score) < 0);
        Assert.True((score with { End = 999, Dead = 999 }).CompareTo(score) < 0);
        Assert.True((score with { Dead = 49, Unbalance = 999 }).CompareTo(score) < 0);
        Assert.True((score with { Unbalance = 19 }).CompareTo(score) < 0);
        Assert.Equal(0, (score with { Walked = 1, Narrow = 1 }).CompareTo(score));
    }

    // The same effort under each order: each is the best of the plans by what it asks for first.
    [Fact]
    public void Search_WalkingFirst_WalksLessThanTheUsualOrder()
    {
        Scenario scenario = FrozenFamily.Of(15, 8);
        int usual = Walked(Planned(scenario, Sortie.UsualObjectives)), least = Walked(Planned(scenario, [Objective.Walking, .. Sortie.UsualObjectives]));
        Assert.True(least < usual, $"{least} s walked with walking first, {usual} s in the usual order");
        Timeline early = Planned(scenario, [Objective.End, Objective.Value, Objective.Dead, Objective.Balance]), full = Planned(scenario, Sortie.UsualObjectives);
        Assert.True(EndOf(early) < EndOf(full), $"{EndOf(early)} with the end first, {EndOf(full)} with the value first");
    }

    private static Timeline Planned(Scenario scenario, ImmutableArray<Objective> objectives)
    {
        Scenario ordered = scenario with { Sortie = scenario.Sortie with { Objectives = objectives } };
        Expander expander = new(ordered);
        Outline outline = new Searcher(ordered, expander).Run(new(Effort: 4, Seed: 8, null, Threads: 2, Decodes: 2_000), _ => true, _ => { }, CancellationToken.None).Outline!;
        return expander.Expand(outline, Branch.Likely, "test").Timeline!;
    }

    private static int Walked(Timeline timeline) => timeline.Activities.OfType<Translate>().Sum(walk => walk.Length.Seconds);

    private static int EndOf(Timeline timeline) => timeline.Activities.Max(activity => activity.End.Seconds);
}
