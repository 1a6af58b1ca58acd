using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class PeopleRuleTests
{
    [Fact]
    public void PersonAlone_TheOtherGoesInAndOneGoesOnWorking_IsFound()
    {
        Judged.None("person.alone", Skerry, Plan.ShortWalk());
        // EV2 comes in 0:17–0:20 while EV1 stands at quay-1 until 0:25.
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60)).Wait("EV1", 1500).Walk("EV1", "quay-1", ("lock", 60)).Phase(AirlockPhaseKind.In, 180, "EV2");
        Finding finding = Judged.One("person.alone", Skerry, plan.Timeline);
        Assert.Equal((At("0:20"), "EV1"), (finding.At, finding.Who[0].Value));
    }

    [Fact]
    public void PersonAlone_WaitingAtTheHatchWithNobodyOnTheWay_IsFound()
    {
        Timeline timeline = Plan.ShortWalk();
        // EV1's way in begins a second late: that second EV1 stands outside alone.
        string last = timeline.IdOf<AirlockPhase>(phase => phase.Phase == AirlockPhaseKind.In && phase.Who[0].Value == "EV1");
        Assert.Equal(At("0:49:30"), Judged.One("person.alone", Skerry, timeline.With(last, one => one with { Start = one.Start.Plus(Seconds(1)) })).At);
    }

    [Fact]
    public void PersonUntrained_ByTrainingAndByName_IsFound()
    {
        Judged.None("person.untrained", Skerry, Plan.ShortWalk());
        Judged.One("person.untrained", Skerry.WithPeople(person => person with { TrainedFor = [] }), Plan.ShortWalk());
        Judged.One("person.untrained", Skerry.WithLeg("latch/look", leg => leg with { Who = [new("EV1")] }), Plan.ShortWalk());
    }

    // EV1 is done at 0:31:30; EV2 looks from 0:32.
    [Theory]
    [InlineData(30, null, 0)]
    [InlineData(31, null, 1)]
    [InlineData(0, 30, 0)]
    [InlineData(0, 29, 1)]
    public void JobOrder_LagsBetweenLegs_AreFoundByTheSecond(int least, int? most, int found)
    {
        Scenario scenario = Skerry.WithLeg("latch/look", leg => leg with { After = [new(new("latch/free"), Seconds(least), most is { } value ? Seconds(value) : null)] });
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
            .Step("EV1", "latch/free", "loosen", 240).Step("EV1", "latch/free", "grease", 360).Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60))
            .Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", 1920).Step("EV2", "latch/look", "look", 180).Walk("EV2", "quay-1", ("lock", 60));
        ImmutableArray<Finding> findings = Judged.By("job.order", scenario, plan.Home());
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal("-1 s", findings[0].Margin);
    }

    private static Plan Steps(string first, string second, int gap)
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90));
        int start = plan.Now("EV1");
        int length = first == "loosen" ? 240 : 360;
        return plan.Step("EV1", "latch/free", first, length).Wait("EV1", start + length + gap).Step("EV1", "latch/free", second, second == "loosen" ? 240 : 360);
    }

    [Theory]
    [InlineData("loosen", "grease", 0, false, 0)]
    [InlineData("loosen", "grease", 1, false, 1)]
    [InlineData("loosen", "grease", 1, true, 0)]
    [InlineData("grease", "loosen", 0, false, 2)]
    [InlineData("loosen", "loosen", 0, false, 1)]
    public void JobOrder_StepsOfALeg_FollowWithoutAGapUnlessItMayWait(string first, string second, int gap, bool mayWait, int found)
    {
        Scenario scenario = Skerry.WithLeg("latch/free", leg => leg with { MayWait = mayWait });
        Assert.Equal(found, Judged.By("job.order", scenario, Steps(first, second, gap).Timeline).Count(finding => !finding.Sentence.Contains("half done")));
    }

    [Fact]
    public void JobOrder_ALegWithoutItsSister_IsLeftHalfDone()
    {
        Plan plan = Steps("loosen", "grease", 0).Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));
        Assert.Contains("latch/look not begun", Judged.One("job.order", Skerry, plan.Home()).Sentence);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 2)]
    public void JobOrder_LegsTogether_StartInOneInstant(int late, int found)
    {
        // EV1 is at the ring at 0:19:30.
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", At("0:19:30").Seconds + late)
            .Step("EV1", "pair/far", "turn", 120).Step("EV2", "pair/near", "hold", 120);
        Assert.Equal(found, Judged.By("job.order", Skerry, plan.Timeline).Length);
    }

    [Fact]
    public void JobOrder_LegsTogetherByOnePerson_IsFound()
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60)).Step("EV1", "pair/near", "hold", 120);
        Timeline timeline = plan.Include(new DoStep { Id = new("far"), Start = At("0:18"), End = At("0:20"), Person = new("EV1"), Leg = new("pair/far"), Step = new("turn") }).Timeline;
        Assert.Equal(2, Judged.By("job.order", Skerry, timeline).Count(finding => finding.Sentence.Contains("begins both")));
    }

    [Fact]
    public void AirlockOrder_OutAndInAgainstTheOrder_IsFound()
    {
        Judged.None("airlock.order", Skerry, Plan.ShortWalk());
        Scenario other = Skerry.WithStation(station => station with { Airlocks = [station.Airlocks[0] with { Order = [new("EV2"), new("EV1")] }] });
        Assert.Equal([At("0:00"), At("0:46:30")], Judged.By("airlock.order", other, Plan.ShortWalk()).Select(finding => finding.At));
    }

    [Theory]
    [InlineData(AirlockPhaseKind.BagsOut, "handed out")]
    [InlineData(AirlockPhaseKind.Check, "without a check")]
    [InlineData(AirlockPhaseKind.Inventory, "inventory")]
    [InlineData(AirlockPhaseKind.BagsIn, "handed in")]
    public void AirlockOrder_APartOfTheSequenceLeftOut_IsFound(AirlockPhaseKind phase, string says)
    {
        Timeline timeline = Plan.ShortWalk();
        Assert.Contains(says, Judged.One("airlock.order", Skerry, timeline.Without(timeline.IdOf<AirlockPhase>(one => one.Phase == phase))).Sentence);
    }

    [Theory]
    [InlineData(AirlockPhaseKind.Check)]
    [InlineData(AirlockPhaseKind.Inventory)]
    public void AirlockOrder_DoneByOneAlone_IsFound(AirlockPhaseKind phase)
    {
        Timeline timeline = Plan.ShortWalk();
        Judged.One("airlock.order", Skerry, timeline.With(timeline.IdOf<AirlockPhase>(one => one.Phase == phase), one => ((AirlockPhase)one) with { Who = [new("EV1")] }));
    }

    // The check ends at 0:17, in the second in which the first thing is taken: a second more is too late.
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    public void AirlockOrder_SomethingBegunBeforeTheCheckEnds_IsFound(int late, int found)
    {
        Timeline timeline = Plan.ShortWalk();
        timeline = timeline.With(timeline.IdOf<AirlockPhase>(one => one.Phase == AirlockPhaseKind.Check), one => one with { End = one.End.Plus(Seconds(late)) });
        Assert.Equal(found, Judged.By("airlock.order", Skerry, timeline).Length);
    }

    [Fact]
    public void HatchEnd_SomebodyOutAndTheHatchOpen_IsFound()
    {
        Judged.None("hatch.end", Skerry, Plan.ShortWalk());
        Timeline open = Plan.ShortWalk();
        open = open.Without(open.IdOf<AirlockPhase>(phase => phase.Phase == AirlockPhaseKind.Close));
        Assert.Contains("hatch of lock open", Judged.One("hatch.end", Skerry, open).Sentence);
        Timeline outside = Plan.ShortWalk();
        outside = outside.Without(outside.IdOf<AirlockPhase>(phase => phase.Phase == AirlockPhaseKind.In && phase.Who[0].Value == "EV1"));
        // Once when the hatch is closed on EV1, once because the plan ends so.
        Assert.Equal([At("0:52:30"), At("0:56:30")], Judged.By("hatch.end", Skerry, outside).Select(finding => finding.At));
    }

    // The longest return of the short walk is EV1's at the ring, 360 s.
    [Fact]
    public void ReturnOne_AtTheLimitNearAndAbove_IsToldApart()
    {
        Judged.None("return.one", Skerry.WithLimit("return.one", 360), Plan.ShortWalk());
        Finding near = Judged.One("return.one", Skerry.WithLimit("return.one", 389, near: 30), Plan.ShortWalk());
        Assert.Equal((Severity.Near, "29 s", At("0:21:30")), (near.Severity, near.Margin, near.At));
        Judged.None("return.one", Skerry.WithLimit("return.one", 390, near: 30), Plan.ShortWalk());
        Finding broken = Judged.One("return.one", Skerry.WithLimit("return.one", 359), Plan.ShortWalk());
        Assert.Equal((Severity.Broken, "-1 s", At("0:21:30"), "6 min"), (broken.Severity, broken.Margin, broken.At, broken.Measured));
    }

    [Fact]
    public void ReturnOne_CrossedInTheMiddleOfASpan_IsFoundAtTheFirstSecondAbove()
    {
        // 240 s at quay-1 at 0:20, a second more each second: above 300 s from 0:21:01, until the way back at 0:31:59.
        Finding finding = Judged.One("return.one", Skerry.WithLimit("return.one", 300), Plan.ShortWalk());
        Assert.Equal(At("0:21:01"), finding.At);
    }

    [Theory]
    [InlineData("0:52:30", 0)] // EV1 is in at 0:52:30
    [InlineData("0:52:29", 1)]
    public void ReturnOne_AgainstTheCutOff_IsFoundBySecond(string cutOff, int found)
    {
        Scenario scenario = Skerry.WithPeople(person => person with { Suit = person.Suit! with { CutOff = At(cutOff) } });
        ImmutableArray<Finding> findings = Judged.By("return.one", scenario, Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal("-1 s", findings[0].Margin);
    }

    // The most is at 0:31:30: EV1 150 away, EV2 10 + 60: in at 250 and 430, closed 240 later: 670 by hand.
    [Fact]
    public void ReturnBoth_AtAndAboveTheLimit_IsFoundOnlyAbove()
    {
        Judged.None("return.both", Skerry.WithLimit("return.both", 670), Plan.ShortWalk());
        Finding finding = Judged.One("return.both", Skerry.WithLimit("return.both", 669), Plan.ShortWalk());
        Assert.Equal((At("0:31:30"), "-1 s"), (finding.At, finding.Margin));
    }
}
