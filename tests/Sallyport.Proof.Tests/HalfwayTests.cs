using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>What is left behind when the short walk is cut off.</summary>
public sealed class HalfwayTests
{
    private const string Rule = "job.halfway";

    private static readonly Pet Loosen = Pet.FromSeconds(1290), Grease = Pet.FromSeconds(1530), Free = Pet.FromSeconds(1890);

    /// <summary>The latch may be left in these states; while it is loosened it is half open if the break-off says so.</summary>
    private static Scenario World(string[] safe, string[] afterAbort, string? abort = null, string? terminate = null) =>
        Skerry.WithStation(station => station with { Features = station.Features.SetItem(0, station.Features[0] with { States = ["sticky", "free", "half"] }) })
            .WithLeg("latch/free", leg => leg with
            {
                Steps = leg.Steps.SetItem(0, leg.Steps[0] with { Abort = Out(leg.Steps[0].Abort, abort), Terminate = Out(leg.Steps[0].Terminate, terminate) }),
            }) with
        {
            MayBeLeft = [new(new("latch"), [.. safe], [.. afterAbort], "it swings")],
        };

    private static Model.BreakOff Out(Model.BreakOff way, string? leaves) => way with { Leaves = leaves is null ? [] : [new(new("latch"), leaves)] };

    [Fact]
    public void Halfway_NothingSaidOfAnyFeature_IsSaidNotToBeChecked()
    {
        Timeline timeline = Plan.ShortWalk();
        Verdict verdict = Judge.Of(Skerry with { MayBeLeft = [] }, [(timeline, Player.Play(Skerry, timeline))]);
        Assert.DoesNotContain(new RuleId(Rule), verdict.Checked);
        Assert.Contains("job.halfway: the scenario does not say in which states anything may be left", verdict.NotChecked);
    }

    [Fact]
    public void Halfway_EveryStateMayBeLeft_IsClean() => Judged.None(Rule, World(["sticky", "free"], []), Plan.ShortWalk());

    [Fact]
    public void Halfway_StateAfterTheStepMayNotBeLeft_IsBrokenFromItsEnd()
    {
        Finding finding = Judged.One(Rule, World(["half"], []), Plan.ShortWalk());
        Assert.Equal((Severity.Broken, Free), (finding.Severity, finding.At));
        Assert.Contains("even an end in order leaves latch free, and that may not be left, because it swings", finding.Sentence);
        Assert.Equal(("free", "half"), (finding.Measured, finding.Limit));
    }

    [Fact]
    public void Halfway_OnlyAnAbortLeavesIt_IsACautionForAsLongAsTheStep()
    {
        Finding finding = Judged.One(Rule, World(["free"], [], abort: "half"), Plan.ShortWalk());
        Assert.Equal((Severity.Near, Loosen), (finding.Severity, finding.At));
        Assert.Contains($"until {Grease} an abort leaves latch half", finding.Sentence);
        Assert.Equal(["EV1"], finding.Who.Select(who => who.Value));
    }

    [Fact]
    public void Halfway_TolerableAfterAnAbort_IsCleanAndBrokenForTerminate()
    {
        Judged.None(Rule, World(["free"], ["half"], abort: "half"), Plan.ShortWalk());
        Finding finding = Judged.One(Rule, World(["free"], ["half"], abort: "half", terminate: "half"), Plan.ShortWalk());
        Assert.Equal((Severity.Broken, Loosen, "free"), (finding.Severity, finding.At, finding.Limit));
        Assert.Contains("terminate of latch/free, step loosen", finding.Mend);
    }

    [Fact]
    public void Halfway_AsItWasBeforeTheWalk_MayBeLeft() => Judged.None(Rule, World(["free"], []), Plan.ShortWalk());

    [Fact]
    public void Halfway_ConsoleBringsItBack_IsNotCounted()
    {
        Scenario world = World(["half"], []);
        GroundConsole console = world.Consoles[0];
        Judged.None(Rule, world with { Consoles = [console with { Commands = [console.Commands[0] with { Makes = console.Commands[0].Makes.Add(new(new("latch"), "half")) }, console.Commands[1]] }] }, Plan.ShortWalk());
    }

    [Fact]
    public void Halfway_FeatureOfAStepWithoutARow_IsSaidNotToBeChecked()
    {
        Scenario scenario = Skerry with { MayBeLeft = [new(new("jets"), ["held"], [], "they fire")] };
        Timeline timeline = Plan.ShortWalk();
        Verdict verdict = Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]);
        Assert.Contains(new RuleId(Rule), verdict.Checked);
        Assert.Contains("job.halfway: the scenario does not say in which states these may be left: latch", verdict.NotChecked);
    }

    /// <summary>Everything may be left of the features, and no break-off brings anything back.</summary>
    private static Scenario Lenient(Scenario scenario) => scenario with
    {
        MayBeLeft = [.. scenario.Station.Features.Select(feature => new MayBeLeft(feature.Id, [.. feature.States], [], "the test says so"))],
    };

    [Theory]
    [InlineData(null, 1)]
    [InlineData("it is turned away", 0)]
    public void Halfway_LineShutOffAndFull_IsBrokenUnlessItMayBeLeft(string? why, int found)
    {
        string[] shut = ["shut-a", "shut-b", "open-a"];
        Scenario scenario = Lenient(FluidWorld.With(shut)).WithStation(station => station with { FluidLines = [.. station.FluidLines.Select(line => line.Trapped is null ? line : line with { MayBeLeft = why })] });
        ImmutableArray<Finding> findings = Judged.By(Rule, scenario, FluidWorld.Timeline(shut));
        // Both hoses, from the second valve shut at 0:28 to the first one opened at 0:33.
        Assert.Equal(2 * found, findings.Length);
        Assert.All(findings, one => Assert.Equal((Severity.Broken, At("0:28")), (one.Severity, one.At)));
        Assert.All(findings, one => Assert.Contains("until 0:33 even an end in order leaves hose", one.Sentence));
    }

    [Fact]
    public void Halfway_LineShutOffThatATerminateOpens_IsACautionForTheAbortOnly()
    {
        string[] shut = ["shut-a", "shut-b", "open-a"];
        Scenario scenario = Lenient(FluidWorld.With(shut, step => step with { Terminate = step.Terminate with { Leaves = [FluidWorld.Is("valve-a", "open")] } }));
        ImmutableArray<Finding> findings = Judged.By(Rule, scenario, FluidWorld.Timeline(shut));
        Assert.Equal(2, findings.Length);
        Assert.All(findings, one => Assert.Equal((Severity.Near, At("0:28")), (one.Severity, one.At)));
    }

    [Fact]
    public void Halfway_DisconnectApartOfWhichNothingIsSaid_IsBroken()
    {
        string[] apart = ["shut-a", "shut-b", "read", "demate", "cap"];
        Scenario lenient = Lenient(FluidWorld.With(apart)).WithStation(station => station with { FluidLines = [.. station.FluidLines.Select(line => line with { MayBeLeft = "it is turned away" })] });
        Judged.None(Rule, lenient, FluidWorld.Timeline(apart));
        Finding finding = Judged.One(Rule, lenient with { MayBeLeft = [.. lenient.MayBeLeft.Where(row => row.Feature.Value != "coupling")] }, FluidWorld.Timeline(apart));
        Assert.Equal((Severity.Broken, At("0:38"), "coupling apart"), (finding.Severity, finding.At, finding.Measured));
    }

    [Theory]
    [InlineData("free", false, 1)]
    [InlineData("free", true, 0)]
    [InlineData("half", false, 0)]
    public void Halfway_ClockThatNobodyStops_IsBrokenUnlessItMayRunOn(string state, bool mayRunOn, int found)
    {
        Scenario scenario = World(["sticky", "free", "half"], []) with
        {
            Clocks = [new(new("ring"), ClockKind.Cold, [new FeatureIs(new(new("latch"), [state])), new LightIs(LightCondition.Day)], [new([], Minutes(600))], mayRunOn, "a test")],
        };
        ImmutableArray<Finding> findings = Judged.By(Rule, scenario, Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal((Severity.Broken, Free, "ring getting colder"), (findings[0].Severity, findings[0].At, findings[0].Measured));
    }

    // The gear of a clock that goes in with somebody is warm there.
    [Theory]
    [InlineData(false, 0)]
    [InlineData(true, 1)]
    public void Halfway_ClockOfAThing_RunsOnOnlyWhereTheThingStaysOut(bool hung, int found)
    {
        Scenario scenario = World(["sticky", "free", "half"], []).WithGear("latch-bag", gear => gear with { MayBeLeft = "the test says so" }) with
        {
            Clocks = [new(new("driver"), ClockKind.Cold, [new GearIsIn(new("driver"), In("latch-bag"))], [new([], Minutes(600))], false, "a test")],
        };
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90));
        if (hung) plan.Put("EV1", "latch-bag", "quay-2").Wait("EV1", plan.Now("EV1") + 60).Take("EV1", "latch-bag", "quay-2", "waist");
        Timeline timeline = plan.Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60)).Home();
        Assert.Equal(found, Judged.By(Rule, scenario, timeline).Length);
    }

    [Theory]
    [InlineData(null, 1)]
    [InlineData("it keeps", 0)]
    public void Halfway_BagHungOutside_IsACautionUnlessItMayBeLeft(string? why, int found)
    {
        Scenario scenario = World(["sticky", "free", "half"], []).WithGear("latch-bag", gear => gear with { MayBeLeft = why });
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Put("EV1", "latch-bag", "quay-2");
        int hung = plan.Now("EV1");
        Timeline timeline = plan.Wait("EV1", hung + 60).Take("EV1", "latch-bag", "quay-2", "waist").Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60)).Home();
        ImmutableArray<Finding> findings = Judged.By(Rule, scenario, timeline);
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal((Severity.Near, Pet.FromSeconds(hung), "latch-bag at grip quay-2"), (findings[0].Severity, findings[0].At, findings[0].Measured));
    }

    [Theory]
    [InlineData(false, 1)]
    [InlineData(true, 0)]
    public void Halfway_StepMovesAnUntiedThing_IsACautionForTheAbort(bool tied, int found)
    {
        Scenario scenario = World(["sticky", "free", "half"], []).WithLeg("latch/free", leg => leg with
        {
            Steps = leg.Steps.SetItem(1, leg.Steps[1] with { Makes = leg.Steps[1].Makes.Add(new MoveGear(new("driver"), new(LocationKind.Person, ""))), Ties = tied ? [new("driver")] : [] }),
        });
        ImmutableArray<Finding> findings = Judged.By(Rule, scenario, Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal((Severity.Near, Grease, "driver in EV1's hands"), (findings[0].Severity, findings[0].At, findings[0].Measured));
    }

    [Fact]
    public void Ladder_OfTheShortWalk_HasARungAStep()
    {
        Scenario scenario = World(["free"], [], abort: "half");
        Timeline timeline = Plan.ShortWalk();
        ImmutableArray<Rung> ladder = Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Ladder;
        Assert.Equal(["loosen", "grease", "look"], ladder.Select(rung => rung.Step.Value));
        Assert.Equal((Seconds(30), "half"), (ladder[0].Abort.Time, Assert.Single(ladder[0].Abort.Leaves).State));
        Assert.Equal("latch", Assert.Single(ladder[0].Abort.Unsafe).Value);
        Assert.Equal(Minutes(2), ladder[0].Terminate.Time);
        Assert.Empty(ladder[0].Terminate.Leaves);
        // Looking comes after freeing: what stands then is the job's own state, not as at the start.
        Assert.Equal("free", Assert.Single(ladder[2].Terminate.Leaves).State);
    }

    [Fact]
    public void StepTimes_Asked_AreTriedLowAndHighAndSayWhatBreaks()
    {
        Scenario scenario = Skerry.WithLeg("latch/look", leg => leg with { Steps = [leg.Steps[0] with { Time = new(Minutes(2), Minutes(3), Minutes(5), "a test") }] });
        Timeline timeline = Plan.ShortWalk();
        Verdict Judge(int limit) => Proof.Judge.Of(scenario.WithLimit("pet.limit", limit), [(timeline, Player.Play(scenario, timeline))], (planned, trouble) => (Looked(trouble), ""), stepTimes: true);
        int end = timeline.Activities.Max(activity => activity.End).Seconds, later = Looked(new(new("latch/look"), new("look"), "High time", Minutes(2), Free.Plus(Minutes(3)), GoingOn.AsPlanned)).Activities.Max(activity => activity.End).Seconds;
        Assert.True(later > end);
        ImmutableArray<StepTry> at = Judge(later).StepTimes!.Value, over = Judge(later - 1).StepTimes!.Value;
        Assert.Equal([-60, 120], at.Select(one => one.Extra.Seconds));
        Assert.All(at, one => Assert.True(one.Clean, one.Breaks));
        Assert.True(over[0].Clean);
        Assert.StartsWith("pet.limit, ", over[1].Breaks);
        // One step at a time and on the likely branch: what is not tried is said.
        string Untried(Verdict verdict) => Assert.Single(verdict.NotChecked, words => words.StartsWith("step times", StringComparison.Ordinal));
        Assert.Equal("step times: two steps at another figure than the likely one", Untried(Judge(later)));
        Timeline other = timeline with { Branch = Branch.Otherwise };
        Assert.EndsWith("the other branch of the decision at any",
            Untried(Proof.Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline)), (other, Player.Play(scenario, other))], (planned, trouble) => (Looked(trouble), ""), stepTimes: true)));
        Assert.Contains("low and high are not tried", Untried(Proof.Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))])));
    }

    /// <summary>The short walk with the last look longer or shorter.</summary>
    private static Timeline Looked(Trouble trouble)
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
            .Step("EV1", "latch/free", "loosen", 240).Step("EV1", "latch/free", "grease", 360).Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60))
            .Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", 1890).Step("EV2", "latch/look", "look", 180 + trouble.Extra.Seconds).Walk("EV2", "quay-1", ("lock", 60));
        return plan.Home() with { Trouble = trouble };
    }
}
