using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class RuleBookTests
{
    [Fact]
    public void Cards_OfEveryRule_AreWholeAndTheirIdsUnique()
    {
        Assert.Equal(RuleBook.All.Length, RuleBook.All.DistinctBy(rule => rule.Card.Id).Count());
        Assert.All(RuleBook.All, rule =>
        {
            Assert.Matches("^[a-z]+\\.[a-z]+$", rule.Card.Id.Value);
            Assert.All([rule.Card.ProtectsFrom, rule.Card.Measured, rule.Card.LimitFrom], text => Assert.True(text.Length > 10, text));
        });
    }

    [Fact]
    public void Guard_OfEveryRule_SaysWhereAndHow() => Assert.All(RuleBook.All, rule =>
    {
        Assert.True(rule.Card.Guard.How.Length > 10, $"{rule.Card.Id}: {rule.Card.Guard}");
        Assert.Matches("^(decoder|expansion|the proof alone): ", rule.Card.Guard.ToString());
    });

    [Fact]
    public void Find_ByName_GivesTheRuleOrNothing()
    {
        Assert.Equal("return.one", RuleBook.Find("return.one")!.Card.Id.Value);
        Assert.Null(RuleBook.Find("return.never"));
    }

    [Fact]
    public void NotChecked_NamesNoRuleThatIsApplied()
    {
        // Some rules are applied in part and say what they leave out.
        string[] inPart = ["thermal.clock", "zone.entered", "fluid.carried", "touch.temperature", "edge.sharp", "return.help", "job.late"];
        foreach (string words in NotChecked.Always)
            foreach (string id in words.Split(':')[0].Split(", "))
                Assert.True(RuleBook.Find(id) is null || inPart.Contains(id), id);
    }

    [Fact]
    public void Judge_OfTwoBranches_TellsWhatTheyShareOnce()
    {
        Timeline likely = Plan.ShortWalk(), other = likely with { Branch = Branch.Otherwise };
        Scenario scenario = Skerry.WithPeople(person => person with { TrainedFor = [] });
        Verdict verdict = Judge.Of(scenario, [(likely, Player.Play(scenario, likely)), (other, Player.Play(scenario, other))]);
        Assert.Equal(Branch.Likely, Assert.Single(verdict.Findings).Branch);
    }

    [Fact]
    public void Judge_OfATraceOfAnotherPlan_IsRefused()
    {
        Timeline timeline = Plan.ShortWalk();
        Trace trace = Player.Play(Skerry, timeline) with { PlanId = "plan-2" };
        Assert.Throws<ArgumentException>(() => Judge.Of(Skerry, [(timeline, trace)]));
    }
}
