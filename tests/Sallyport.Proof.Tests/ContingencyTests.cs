using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Contingencies of the short walk: what follows them is written by hand here, as an expander would tell it.</summary>
public sealed class ContingencyTests
{
    private const int LoosenStart = 1290, LoosenEnd = 1530;

    private static Timeline Planned { get; } = Walk(0, null);

    private static Trouble Stuck(int extra, GoingOn way) => new(new("latch/free"), new("loosen"), "Stuck", Seconds(extra), Pet.FromSeconds(LoosenEnd), way);

    /// <summary>The short walk with its first step longer, and all that waits for it later.</summary>
    private static Timeline Walk(int extra, GoingOn? way)
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90));
        Assert.Equal(LoosenStart, plan.Now("EV1"));
        plan.Step("EV1", "latch/free", "loosen", 240 + extra).Step("EV1", "latch/free", "grease", 360).Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));
        plan.Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", 1890 + extra).Step("EV2", "latch/look", "look", 180).Walk("EV2", "quay-1", ("lock", 60));
        return plan.Home() with { Trouble = way is { } known ? Stuck(extra, known) : null };
    }

    /// <summary>Everybody goes in from the moment it is known.</summary>
    private static Timeline Ended(int extra, int leaving = 120)
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90));
        plan.Include(new DoStep { Id = new("left"), Start = Pet.FromSeconds(LoosenStart), End = Pet.FromSeconds(LoosenEnd + leaving), Person = new("EV1"), Leg = new("latch/free"), Step = new("loosen"), LeftBy = Leaving.Terminate });
        plan.Skip("EV1", LoosenEnd + leaving).Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));
        plan.Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", LoosenEnd).Walk("EV2", "quay-1", ("lock", 60));
        return plan.Home() with { Trouble = Stuck(extra, GoingOn.EndsInOrder) };
    }

    private static (Timeline?, string) Honest(Timeline planned, Trouble trouble) => trouble.GoesOn switch
    {
        GoingOn.AsPlanned => (Walk(trouble.Extra.Seconds, GoingOn.AsPlanned), ""),
        GoingOn.EndsInOrder => (Ended(trouble.Extra.Seconds), ""),
        _ => (null, "nothing is left to leave out"),
    };

    private static Scenario World(int likely = 120, int high = 300, params string[] tools) => Skerry with
    {
        Jobs = [.. Skerry.Jobs.Select(job => job.Id.Value != "latch" ? job : job with
        {
            Worth = Worth.Must,
            Contingencies = [new(new("latch/free"), new("loosen"), "Stuck", 0.1, "a test", new(Seconds(60), Seconds(likely), Seconds(high), "a test"), "hit it") { Tools = [.. tools.Select(tool => new GearId(tool))] }],
        })],
    };

    private static Verdict Judge(Scenario scenario, GoOn? goOn) => Proof.Judge.Of(scenario, [(Planned, Player.Play(scenario, Planned))], goOn);

    private static ImmutableArray<Finding> Unproven(Verdict verdict) => [.. verdict.Findings.Where(finding => finding.Rule.Value == "branch.unproven")];

    [Fact]
    public void Contingency_RestOfThePlanPlaysClean_GoesOn()
    {
        Verdict verdict = Judge(World(), Honest);
        Assert.Empty(Unproven(verdict));
        Assert.Equal([120, 300], verdict.Contingencies.Select(proof => proof.Trouble.Extra.Seconds));
        Assert.All(verdict.Contingencies, proof => Assert.True(proof.Proven && proof.Trouble.GoesOn == GoingOn.AsPlanned && proof.LeftOut.IsEmpty && proof.Broken.IsEmpty));
        // Two minutes more at the step are two minutes more at the end.
        Pet end = Player.Play(Skerry, Planned).To;
        Assert.Equal(end.Plus(Seconds(120)), verdict.Contingencies[0].End);
        Assert.Equal(new PersonId("EV1"), verdict.Contingencies[0].Who);
    }

    [Fact]
    public void Contingency_EndExactlyAtTheLimit_GoesOnAndASecondLaterEndsInOrder()
    {
        int end = Player.Play(Skerry, Planned).To.Seconds;
        Verdict at = Judge(World(120, 120).WithLimit("pet.limit", end + 120), Honest), over = Judge(World(121, 121).WithLimit("pet.limit", end + 120), Honest);
        Assert.Equal(GoingOn.AsPlanned, Assert.Single(at.Contingencies).Trouble.GoesOn);
        ContingencyProof ended = Assert.Single(over.Contingencies);
        Assert.Equal((GoingOn.EndsInOrder, true), (ended.Trouble.GoesOn, ended.Proven));
        Assert.Equal("latch", Assert.Single(ended.LeftOut).Value);
        Assert.StartsWith("going on as planned: pet.limit", Assert.Single(ended.Broken));
        Assert.Empty(Unproven(over));
    }

    [Fact]
    public void Contingency_NoWayPlaysClean_IsFoundWithWhatEachBreaks()
    {
        int end = Player.Play(Skerry, Planned).To.Seconds;
        Verdict verdict = Judge(World(121, 121).WithLimit("pet.limit", end + 120), (planned, trouble) =>
            trouble.GoesOn == GoingOn.EndsInOrder ? (Ended(trouble.Extra.Seconds, leaving: 119), "") : Honest(planned, trouble));
        Finding finding = Assert.Single(Unproven(verdict));
        Assert.Equal((Severity.Broken, Pet.FromSeconds(LoosenEnd)), (finding.Severity, finding.At));
        Assert.Contains("going on as planned: pet.limit", finding.Sentence);
        Assert.Contains("ending in order and going in: time.short", finding.Sentence);
        Assert.Equal(Planned.IdOf<DoStep>(step => step.Step.Value == "loosen"), finding.Activity!.Value.Value);
    }

    [Fact]
    public void Contingency_ToolInTheBagAtHand_IsGood() => Assert.Empty(Unproven(Judge(World(120, 300, "driver", "grease"), Honest)));

    [Fact]
    public void Contingency_ToolElsewhere_IsFoundThoughAWayOnIsClean()
    {
        Verdict verdict = Judge(World(120, 300, "driver", "frame"), Honest);
        Assert.All(verdict.Contingencies, proof => Assert.True(proof.Proven));
        Finding finding = Unproven(verdict)[0];
        Assert.Contains("needs frame, which is not at hand for EV1", finding.Sentence);
        Assert.Equal("branch.unproven", finding.Rule.Value);
    }

    // Search asks only whether every contingency has a way on, the last way first: the same answer as the proof that tells which.
    [Theory]
    [InlineData(120, 120, "any way", true)]
    [InlineData(120, 119, "going on alone", true)]
    [InlineData(121, 120, "ending alone", true)]
    [InlineData(121, 119, "none", false)]
    [InlineData(120, 120, "tool", false)]
    [InlineData(120, 120, "not it", false)]
    public void AllHold_AnyWayClean_SaysWhatTheProofSays(int extra, int leaving, string what, bool holds)
    {
        int end = Player.Play(Skerry, Planned).To.Seconds;
        Scenario scenario = World(extra, extra, what == "tool" ? ["frame"] : []).WithLimit("pet.limit", end + 120);
        GoOn goOn = (planned, trouble) => what == "not it" ? (planned, "")
            : trouble.GoesOn == GoingOn.EndsInOrder ? (Ended(trouble.Extra.Seconds, leaving), "") : Honest(planned, trouble);
        Assert.Equal(holds, new Contingencies(scenario, [(Planned, Player.Play(scenario, Planned))], goOn).AllHold());
        Assert.Equal(holds, Unproven(Judge(scenario, goOn)).IsEmpty);
    }

    [Theory]
    [InlineData("the plan as it was", "it follows something else")]
    [InlineData("no more time", "step loosen of latch/free takes 4 min")]
    [InlineData("another past", "it forgets")]
    [InlineData("goes on", "it goes on with")]
    [InlineData("nothing of the job", "it leaves out latch, a must-job of the plan")]
    public void Contingency_WhatIsToldIsNotIt_IsNotProven(string told, string found)
    {
        Verdict verdict = Judge(World(121, 121), (planned, trouble) => (told switch
        {
            "the plan as it was" => planned,
            "no more time" => planned with { Trouble = trouble },
            "nothing of the job" => Looked(planned, trouble),
            "another past" => Walk(trouble.Extra.Seconds, trouble.GoesOn) is var walk ? (walk with { Trouble = trouble }).With(walk.IdOf<Take>(_ => true), take => ((Take)take) with { Carry = new("stiff") }) : null,
            _ => Walk(trouble.Extra.Seconds, null) with { Trouble = trouble with { GoesOn = GoingOn.EndsInOrder } },
        }, ""));
        Finding finding = Assert.Single(Unproven(verdict));
        Assert.Contains(found, finding.Sentence);
    }

    /// <summary>What is told goes on, and the look of the same job is never taken.</summary>
    private static Timeline Looked(Timeline planned, Trouble trouble) => (Walk(trouble.Extra.Seconds, trouble.GoesOn) with { Trouble = trouble }) is var walk
        ? walk with { Activities = [.. walk.Activities.Where(activity => activity is not DoStep { Leg.Value: "latch/look" })] } : planned;

    [Fact]
    public void Contingency_OfATimelineAlone_IsSaidNotToBeChecked()
    {
        Verdict verdict = Judge(World(), null);
        Assert.Contains(verdict.NotChecked, words => words.StartsWith("branch.unproven: ", StringComparison.Ordinal));
        Assert.DoesNotContain(new RuleId("branch.unproven"), verdict.Checked);
        Assert.Empty(verdict.Contingencies);
    }

    [Fact]
    public void Contingency_InBothBranches_IsProvenOnce()
    {
        Timeline other = Planned with { Branch = Branch.Otherwise };
        Scenario scenario = World();
        Verdict verdict = Proof.Judge.Of(scenario, [(Planned, Player.Play(scenario, Planned)), (other, Player.Play(scenario, other))], Honest);
        Assert.Equal([Branch.Likely, Branch.Likely], verdict.Contingencies.Select(proof => proof.Branch));
    }

    [Fact]
    public void Step_LeftInOrder_LeavesWhatItsBreakOffSaysAndIsNotDone()
    {
        Scenario scenario = Skerry.WithLeg("latch/free", leg => leg with
        {
            Steps = leg.Steps.SetItem(0, leg.Steps[0] with { Terminate = new(Seconds(120), [new(new("latch"), "free")]) }),
        });
        Trace trace = Player.Play(scenario, Ended(120));
        History history = new(trace);
        Assert.Empty(trace.Facts);
        Assert.Equal("free", history.LastState(history["feature latch state"]));
        Assert.Equal("under way", history.LastState(history["leg latch/free progress"]));
        Fact hurried = Assert.Single(Player.Play(scenario, Ended(120, leaving: 119)).Facts);
        // Four minutes of the step were done; leaving it takes two more.
        Assert.Equal(("time.short", "5 min 59 s", "6 min", "-1 s"), (hurried.Rule.Value, hurried.Measured, hurried.Limit, hurried.Margin));
    }
}
