using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.FluidWorld;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class LinePressureTests
{
    [Fact]
    public void LinePressure_AllStepsInTheirOrder_IsNotFound()
    {
        Assert.Empty(By("line.pressure", Order));
        // No break-off of these steps opens a line again, and nobody says that it may be left shut off.
        Assert.Empty(Judged.All(With(Order), FluidWorld.Timeline(Order)).Where(finding => finding.Severity == Severity.Broken && finding.Rule.Value != "job.halfway"));
    }

    // Each step of the order left out, with what is then wrong; the disconnect may be mated again at once, without a cap between.
    [Theory]
    [InlineData("shut-a", "coupling, but hose-a is under pressure")]
    [InlineData("shut-b", "coupling, but hose-a is under pressure")]
    [InlineData("read", "coupling, but the pressure of hose-a was not read")]
    [InlineData("lock", "valve-a onto coupling, which is mated")]
    [InlineData("mate lock", "valve-a onto coupling, which is apart")]
    [InlineData("watch", "valve-b on hose-b, which was taken apart and not watched")]
    public void LinePressure_AStepLeftOut_IsFoundWithWhatIsWrong(string left, string told)
    {
        ImmutableArray<string> steps = [.. Order.Where(step => !left.Split(' ').Contains(step))];
        Assert.Contains(By("line.pressure", steps), finding => finding.Severity == Severity.Broken && finding.Sentence.Contains(told));
    }

    [Fact]
    public void LinePressure_NoCapBeforeMatingAgain_IsNotFound() =>
        Assert.Empty(By("line.pressure", Order.Where(step => step is not ("cap" or "uncap"))));

    [Theory]
    [InlineData("shut-a shut-b read demate", "coupling is left apart")]
    [InlineData("shut-a shut-b read demate cap uncap mate", "coupling is left mated")]
    [InlineData("shut-a shut-b read demate mate lock open-a", "hose-a is left under pressure, was taken apart")]
    [InlineData("shut-a shut-b read demate mate lock open-both watch", "valve-a on hose-a, which was taken apart and not watched")]
    [InlineData("shut-a shut-b open-a shut-a demate", "the pressure of hose-a was not read")]
    [InlineData("shut-a read shut-b", "reads the pressure of hose-a, which is not shut off")]
    [InlineData("shut-a vent", "lets off hose-a, which is not shut off")]
    [InlineData("shut-a shut-b read demate mate lock watch", "watches hose-a for leaks, but no pressure is on it")]
    [InlineData("demate-and-cap", "coupling, but hose-a is under pressure")]
    public void LinePressure_AnotherOrder_IsFound(string steps, string told) =>
        Assert.Contains(By("line.pressure", steps.Split(' ')), finding => finding.Severity == Severity.Broken && finding.Sentence.Contains(told));

    [Fact]
    public void LinePressure_KnownUntilAValveOpens_MustBeReadAgain()
    {
        Assert.Empty(By("line.pressure", "shut-a shut-b read demate cap".Split(' ')));
        // Opened and shut again after the reading: what was read is no longer so.
        Assert.NotEmpty(By("line.pressure", "shut-a shut-b read open-a shut-a demate cap".Split(' ')));
        Assert.Empty(By("line.pressure", "shut-a shut-b read open-a shut-a read demate cap".Split(' ')));
    }

    [Fact]
    public void LinePressure_AValveOpenedByCommandOntoADisconnectApart_IsFound()
    {
        ImmutableArray<string> steps = ["shut-a", "shut-b", "read", "demate", "rest", "cap"];
        Scenario scenario = With(steps) with
        {
            Consoles = [new(new("fluids"), [new(new("valve-a open"), Minutes(3), false, [Is("valve-a", "open")])], [])],
        };
        // Apart from 0:38, when demating ends, to 0:48; the command runs 0:39–0:42.
        Timeline timeline = Walk(steps).Send("valve-a open", At("0:39").Seconds, console: "fluids").Home(0);
        Assert.Contains(Judged.By("line.pressure", scenario, timeline), finding => finding.At == At("0:39") && finding.Sentence.Contains("onto coupling, which is apart"));
    }

    [Fact]
    public void LinePressure_ALineThatLeadsOutOfTheNet_CountsAsUnderPressure()
    {
        // Without the loop nothing says what lies behind the valves: open, they lead to something unknown.
        Scenario scenario = With(["demate", "cap"]).WithStation(station => station with { FluidLines = station.FluidLines.RemoveAt(0) });
        Assert.Contains(Judged.By("line.pressure", scenario, FluidWorld.Timeline(["demate", "cap"])), finding => finding.Sentence.Contains("hose-a is under pressure"));
    }
}

public sealed class LineTrappedTests
{
    // Shut off at 0:28, when the second valve is shut, and joined again at 0:43, when the first is opened: 15 min, none of it in the night of 0:50.
    private static ImmutableArray<Finding> Trapped(int seconds, bool shaded = false, PetInterval? night = null, int near = 0, string steps = "shut-a shut-b rest rest open-a open-b")
    {
        Scenario scenario = With(steps.Split(' ')).WithStation(station => station with
        {
            FluidLines = [.. station.FluidLines.Select(line => line.Feeds ? line : line with { Trapped = Seconds(seconds), ShadedAtNight = shaded })],
        }).WithLimit("line.trapped", 0, near);
        scenario = scenario with { Sky = scenario.Sky with { Night = [night ?? new(At("0:50"), At("1:20"))] } };
        return Judged.By("line.trapped", scenario, FluidWorld.Timeline(steps.Split(' ')));
    }

    [Theory]
    [InlineData(15 * 60, 0, null)]
    [InlineData(15 * 60 - 1, 0, Severity.Broken)]
    [InlineData(15 * 60, 60, Severity.Near)]
    public void LineTrapped_FromShutToOpened_IsHeldAgainstTheLine(int longest, int near, Severity? found)
    {
        ImmutableArray<Finding> findings = Trapped(longest, near: near);
        Assert.Equal(found, findings.IsEmpty ? null : Assert.Single(findings).Severity);
        if (findings.IsEmpty) return;
        Assert.Equal(("15 min", found == Severity.Near ? "0 s" : "-1 s"), (findings[0].Measured, findings[0].Margin));
        Assert.Contains("hose-a, hose-b", findings[0].Sentence);
    }

    [Fact]
    public void LineTrapped_NightInBetween_CountsOnlyWhereItIsShadedThen()
    {
        PetInterval night = new(At("0:30"), At("0:35"));
        Assert.Empty(Trapped(10 * 60, shaded: true, night));
        Assert.Equal("10 min", Assert.Single(Trapped(10 * 60 - 1, shaded: true, night)).Measured);
        Assert.Equal("15 min", Assert.Single(Trapped(10 * 60, shaded: false, night)).Measured);
    }

    [Fact]
    public void LineTrapped_LetOffOnceShut_IsNotFound() => Assert.Empty(Trapped(10 * 60, steps: "shut-a shut-b vent rest rest open-a open-b"));

    [Fact]
    public void LineTrapped_LeftShutAtTheEnd_IsFound() => Assert.Contains("left so at the end", Assert.Single(Trapped(24 * 3600, steps: "shut-a shut-b")).Sentence);
}

public sealed class FluidCarriedTests
{
    private static readonly ImmutableArray<string> Demate = ["shut-a", "shut-b", "read", "demate", "cap"];

    private static Func<Step, Step> Spills(params Soiled[] who) => step => step.Fluid is { Opens: true } touch ? step with { Fluid = touch with { Spills = [.. who] } } : step;

    private static Step SaysNothing(Step step) => step.Fluid is { Opens: true } touch ? step with { Fluid = touch with { Spills = null } } : step;

    [Fact]
    public void FluidCarried_SoiledAndComingIn_IsFoundUnlessTheStepSpillsNothing()
    {
        Assert.Empty(By("fluid.carried", Demate));
        Finding finding = Judged.One("fluid.carried", With(Demate, SaysNothing), FluidWorld.Timeline(Demate));
        Assert.Contains("EV1 comes in with EV1 (soiled at 0:38)", finding.Sentence);
    }

    [Fact]
    public void FluidCarried_ADisconnectMovedWithoutAMark_SoilsToo() =>
        Assert.NotEmpty(By("fluid.carried", Demate, step => step with { Fluid = step.Fluid is { Opens: true } ? null : step.Fluid }));

    [Fact]
    public void FluidCarried_AHarmlessLine_SoilsNothing()
    {
        Scenario scenario = With(Demate, SaysNothing).WithStation(station => station with { FluidLines = [.. station.FluidLines.Select(line => line with { Harmless = true })] });
        Judged.None("fluid.carried", scenario, FluidWorld.Timeline(Demate));
    }

    // Soiled when demating ends, at 0:38; the night of the sky ends at 0:48. 30 min of sun are over at 1:18.
    [Theory]
    [InlineData("1:18", null)]
    [InlineData("1:17:59", "-1 s")]
    public void FluidCarried_TestedAfterTheBakeOut_IsFoundByTheSecond(string tested, string? margin)
    {
        Plan plan = Walk(Demate).Wait("EV1", At(tested).Seconds).Step("EV1", WorkLeg, "test-5", 300);
        ImmutableArray<Finding> findings = Judged.By("fluid.carried", With([.. Demate, "test"], Spills(Soiled.Person)), plan.Home(0));
        Assert.Equal(margin, findings.IsEmpty ? null : Assert.Single(findings).Margin);
        if (!findings.IsEmpty) Assert.Equal(("29 min 59 s", "30 min"), (findings[0].Measured, findings[0].Limit));
    }

    [Fact]
    public void FluidCarried_TestedForTooShortATime_IsFound()
    {
        Plan plan = Walk(Demate).Wait("EV1", At("1:30").Seconds).Step("EV1", WorkLeg, "test-5", 299);
        Assert.Contains("The test after a bake-out takes 5 min", Judged.One("fluid.carried", With([.. Demate, "test"], Spills(Soiled.Person)), plan.Home(0)).Sentence);
    }

    // The latch bag hangs at quay-1 while the disconnect there is opened, ended at 0:38.
    private static Scenario BagBeside(Location? end, params string[] more) => With([.. Demate, .. more], Spills(Soiled.Bag)).WithGear("latch-bag", gear => gear with { Start = new(LocationKind.Grip, "quay-1"), End = end });

    [Fact]
    public void FluidCarried_ASoiledBagThatNobodyTouches_MayStayOutside() => Judged.None("fluid.carried", BagBeside(null), Walk(Demate).Home(0));

    [Fact]
    public void FluidCarried_ASoiledBagThatIsTaken_SoilsWhoTakesIt()
    {
        Plan plan = Walk(Demate).Take("EV1", "latch-bag", "quay-1", "waist").Walk("EV1", "quay-1", ("lock", 60)).Put("EV1", "latch-bag", "lock");
        string[] found = [.. Judged.By("fluid.carried", BagBeside(Location.Inside), plan.Home()).Select(finding => finding.Sentence)];
        Assert.Equal(2, found.Length);
        Assert.Contains(found, sentence => sentence.Contains("What is handed in at lock holds latch-bag (soiled at 0:38)"));
        Assert.Contains(found, sentence => sentence.Contains("EV1 comes in with EV1 (soiled at 0:38)"));
    }

    [Fact]
    public void FluidCarried_ASoiledBagHandedOver_SoilsWhoIsHandedIt()
    {
        Plan plan = Walk(Demate).Take("EV1", "latch-bag", "quay-1", "waist").Walk("EV1", "quay-1", ("lock", 60));
        plan.Wait("EV2", 3600).Wait("EV1", 3600).Give("EV1", "EV2", "latch-bag", "lock", "waist").Put("EV2", "latch-bag", "lock");
        Assert.Contains(Judged.By("fluid.carried", BagBeside(null), plan.Home()), finding => finding.Sentence.Contains("EV2 comes in with EV2 (soiled at 0:38)"));
    }

    // What passes on is as old as what it came from: soiled at 0:38, taken at 1:00; 30 min of sun are over at 1:18.
    [Theory]
    [InlineData("1:18", null)]
    [InlineData("1:17:59", "-1 s")]
    public void FluidCarried_TakenLater_BakesOutFromTheSpillOn(string tested, string? margin)
    {
        Plan plan = Walk(Demate).Wait("EV1", 3600).Take("EV1", "latch-bag", "quay-1", "waist").Wait("EV1", At(tested).Seconds).Step("EV1", WorkLeg, "test-5", 300);
        ImmutableArray<Finding> findings = Judged.By("fluid.carried", BagBeside(Location.Inside, "test"), plan.Walk("EV1", "quay-1", ("lock", 60)).Put("EV1", "latch-bag", "lock").Home());
        Assert.Equal(margin, findings.IsEmpty ? null : Assert.Single(findings).Margin);
    }

    [Fact]
    public void FluidCarried_ATestThatLeavesOutASoiledBagInTheHand_MakesNobodyClean()
    {
        Plan plan = Walk(Demate).Take("EV1", "latch-bag", "quay-1", "waist").Wait("EV1", At("1:30").Seconds).Step("EV1", WorkLeg, "test-5", 300);
        Scenario scenario = BagBeside(null, "test").WithLeg(WorkLeg,
            leg => leg with { Steps = [.. leg.Steps.Select(step => step.Fluid is { Tests.IsEmpty: false } ? step with { Fluid = step.Fluid with { Tests = [Soiled.Person] } } : step)] });
        Assert.Contains(Judged.By("fluid.carried", scenario, plan.Walk("EV1", "quay-1", ("lock", 60)).Put("EV1", "latch-bag", "lock").Home()), finding => finding.Sentence.Contains("EV1 comes in with EV1"));
    }

    // The grease lies beside the driver in the bag. A step works with the driver, which is soiled: so are EV1, the bag and what is in it.
    [Theory]
    [InlineData(Soiled.Tool, true)]
    [InlineData(Soiled.Bag, false)]
    public void FluidCarried_AToolThatIsSoiled_SoilsWhatLiesBesideIt(Soiled spilled, bool beside)
    {
        Scenario scenario = With(Demate, step => step.Fluid is { Opens: true } touch
            ? step with { Fluid = touch with { Spills = [spilled] }, Needs = spilled == Soiled.Tool ? [new NeedGear(NeedTime.Throughout, new("driver"))] : [] } : step)
            .WithGear("latch-bag", gear => gear with { Start = new(LocationKind.Grip, "quay-1"), End = null });
        Trace trace = Player.Play(scenario, Walk(Demate).Home(0));
        History history = new(trace);
        string Last(string name) => history.LastState(history[$"{name} soil"]);
        Assert.Equal(beside ? "soiled" : "clean", Last("gear grease"));
        Assert.Equal("soiled", Last("gear latch-bag"));
        Assert.Equal(beside ? "soiled" : "clean", Last("person EV1"));
    }

    [Fact]
    public void FluidCarried_NoBakeOutStated_IsNotCalledClean()
    {
        Scenario scenario = With(Demate).WithStation(station => station with { BakeOut = null });
        Verdict verdict = Judge.Of(scenario, [(FluidWorld.Timeline(Demate), Player.Play(scenario, FluidWorld.Timeline(Demate)))]);
        Assert.Contains("fluid.carried: the scenario states no bake-out, although a disconnect can spill", verdict.NotChecked);
        Assert.Contains("bakeout.budget: the scenario states no bake-out, although a disconnect can spill", verdict.NotChecked);
    }
}

public sealed class BakeoutBudgetTests
{
    private static readonly ImmutableArray<string> Demate = ["shut-a", "shut-b", "read", "demate", "cap"];

    // Opened at 0:38. Sunlight from 0:48: the bake-out is over at 1:18 and its test at 1:23, 45 min after. Everybody in: EV2, at the hatch, goes in
    // for 3 min while EV1 breaks off and walks; then EV1 for 3 min, and 4 min to close: 10 min.
    private static ImmutableArray<Finding> Budget(string petLimit, int near = 0, int row = 0) => Judged.By("bakeout.budget",
        With(Demate).WithLimit("pet.limit", At(petLimit).Seconds).WithLimit("bakeout.budget", row, near), FluidWorld.Timeline(Demate));

    [Theory]
    [InlineData("1:33", 0, null)]
    [InlineData("1:32:59", 0, Severity.Broken)]
    [InlineData("1:33", 60, Severity.Near)]
    public void BakeoutBudget_WhatIsLeftAtTheDisconnect_IsFoundByTheSecond(string petLimit, int near, Severity? found)
    {
        ImmutableArray<Finding> findings = Budget(petLimit, near);
        Assert.Equal(found, findings.IsEmpty ? null : Assert.Single(findings).Severity);
        if (found == Severity.Broken) Assert.Equal(("44 min 59 s", "45 min", "-1 s"), (findings[0].Measured, findings[0].Limit, findings[0].Margin));
    }

    [Fact]
    public void BakeoutBudget_ALimitThatAsksForMore_Counts() => Assert.Equal("50 min", Assert.Single(Budget("1:33", row: 50 * 60)).Limit);

    // EV1's own way in: 1 min to break off, 1 min to walk, 3 min in: 5 min before the cut-off.
    [Theory]
    [InlineData("1:28", 0)]
    [InlineData("1:27:59", 1)]
    public void BakeoutBudget_TheCutOffOfASuit_IsFoundByTheSecond(string cutOff, int found)
    {
        Scenario scenario = With(Demate).WithPeople(person => person.Id.Value == "EV1" ? person with { Suit = person.Suit! with { CutOff = At(cutOff) } } : person);
        ImmutableArray<Finding> findings = Judged.By("bakeout.budget", scenario, FluidWorld.Timeline(Demate));
        Assert.Equal(found, findings.Length);
        Assert.All(findings, finding => Assert.Contains("the cut-off of EV1's suit", finding.Sentence));
    }
}
