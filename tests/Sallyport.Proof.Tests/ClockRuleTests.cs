using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Thermal clocks at the rates of their states, and GO points.</summary>
public sealed class ClockRuleTests
{
    private static readonly WorldCondition Bus = new IsShutDown(new("bus")), Night = new LightIs(LightCondition.Night), Free = new FeatureIs(new(new("latch"), ["free"]));

    private static ClockRate Lasts(int seconds, params WorldCondition[] when) => new([.. when], Seconds(seconds));

    private static Scenario With(ImmutableArray<WorldCondition> runs, bool mayRunOn, params ClockRate[] lasts) => Skerry with
    {
        Clocks = [new(new("heater"), ClockKind.Cold, runs, [.. lasts], mayRunOn, "a drawing")],
        Consoles = [Skerry.Consoles[0] with { Shutdowns = [Skerry.Consoles[0].Shutdowns[0] with { Longest = null }] }],
    };

    // The latch is freed at 0:31:30; night is 0:12-0:48; the bus is off from 0:20 to the end of the command that turns it on.
    private static Timeline Off(int on) => Plan.Latch(Plan.Outside()).Send("bus off", 1020).Send("bus on", on).Home();

    [Theory]
    [InlineData(1080, 0)] // 0:20 to 0:38
    [InlineData(1079, 1)]
    public void Clock_WithOneRate_IsHeldByTheSecond(int lasts, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("thermal.clock", With([Bus], false, Lasts(lasts)), Off(2100));
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Equal(("18 min", "-1 s", "a drawing", At("0:37:59")), (findings[0].Measured, findings[0].Margin, findings[0].Source, findings[0].At));
    }

    // 0:20-0:31:30 sticky, 690 s; then free until 0:38, 390 s.
    [Theory]
    [InlineData(1380, 780, 0)] // a half and a half: all used up and no more
    [InlineData(1380, 779, 1)]
    [InlineData(1379, 780, 1)]
    [InlineData(2070, 585, 0)] // a third and two thirds, which no binary fraction holds
    [InlineData(2070, 584, 1)]
    public void Clock_WithTwoRates_AddsTheSharesExactly(int sticky, int free, int found)
    {
        Scenario scenario = With([Bus], false, Lasts(free, Free), Lasts(sticky));
        ImmutableArray<Finding> findings = Judged.By("thermal.clock", scenario, Off(2100));
        Assert.Equal(found, findings.Length);
        if (found == 0) return;
        Assert.Equal("-1 s", findings[0].Margin);
        Assert.Contains("then", findings[0].Sentence);
    }

    [Fact]
    public void Clock_FasterByNight_CountsTheNight() =>
        // All of it by night, at a rate that just lasts; by day it would last for hours.
        Assert.Equal([0, 1], new[] { 1080, 1079 }.Select(night => Judged.By("thermal.clock", With([Bus], false, Lasts(night, Night), Lasts(36000)), Off(2100)).Length));

    [Fact]
    public void Clock_WhereTheThingLies_IsAtThatRate()
    {
        // In its bag the driver lasts; the bag is taken at 0:22 and never opened.
        WorldCondition inBag = new GearIsIn(new("driver"), new(LocationKind.Bag, "latch-bag")), onEv1 = new GearIsIn(new("latch-bag"), new(LocationKind.Person, "EV1"));
        Judged.None("thermal.clock", With([inBag], true, Lasts(60, new GearIsIn(new("driver"), Location.Inside)), Lasts(36000)), Plan.ShortWalk());
        Judged.One("thermal.clock", With([onEv1], true, Lasts(60)), Plan.ShortWalk());
    }

    [Fact]
    public void Clock_NearItsEnd_IsNear()
    {
        Scenario scenario = With([Bus], false, Lasts(1080 + 59)).WithLimit("thermal.clock", 0, 60);
        Assert.Equal(Severity.Near, Judged.One("thermal.clock", scenario, Off(2100)).Severity);
        Judged.None("thermal.clock", With([Bus], false, Lasts(1080 + 60)).WithLimit("thermal.clock", 0, 60), Off(2100));
    }

    [Theory]
    [InlineData(false, 1)]
    [InlineData(true, 0)]
    public void Clock_StillRunningAtTheEnd_IsFoundUnlessItMay(bool may, int found) =>
        Assert.Equal(found, Judged.By("thermal.clock", With([Free], may, Lasts(36000)), Plan.ShortWalk()).Length);

    [Fact]
    public void Clock_HeaterTurnedOnUnseen_RunsOn()
    {
        Scenario scenario = With([Bus], true, Lasts(1200)) with { Sky = Skerry.Sky with { NoLink = [new(At("0:36"), At("0:37"))] } };
        ImmutableArray<Finding> findings = Judged.By("thermal.clock", scenario, Off(2100));
        Assert.Contains(findings, finding => finding.At == At("0:40"));
        Assert.Contains(findings, finding => finding.Sentence.Contains("Nobody has seen bus to be on again"));
        // Sent again, and seen.
        Timeline again = Plan.Latch(Plan.Outside()).Send("bus off", 1020).Send("bus on", 2100).Send("bus on", 2280, id: "again").Home();
        Assert.Equal("21 min", Judged.One("thermal.clock", scenario, again).Measured);
    }

    [Fact]
    public void Clock_StoppedAndBegunAgain_IsFresh()
    {
        Timeline twice = Plan.Latch(Plan.Outside()).Send("bus off", 780).Send("bus on", 1320).Send("bus off", 1500, id: "again").Send("bus on", 2040, id: "on again").Home();
        Judged.None("thermal.clock", With([Bus], false, Lasts(540)), twice);
        Assert.Equal(2, Judged.By("thermal.clock", With([Bus], false, Lasts(539)), twice).Length);
    }

    // GO points. EV1 comes to the ring at 0:21:30 and begins there at once; EV2 stands at the rim from 0:18 and looks at 0:31:30, when the latch is free.

    private static Scenario Go(int reading, params string[] covers) => (Skerry with
    {
        Consoles = [.. Skerry.Consoles, new(new("flight"), [new(new("go look"), Minutes(2), false, []) { Go = reading == 0 ? null : Seconds(reading), Covers = [.. covers.Select(one => new FeatureId(one))] }], [])],
    }).WithLeg("latch/look", leg => leg with { Steps = [leg.Steps[0] with { Needs = leg.Steps[0].Needs.Add(new NeedGo(NeedTime.Start, new("go look"))) }] });

    private static Timeline Given(params string[] starts)
    {
        Plan plan = Plan.Latch(Plan.Outside());
        foreach (string start in starts) plan.Send("go look", At(start).Seconds, 120, "flight");
        return plan.Home();
    }

    [Theory]
    [InlineData("0:29:30", 0)] // read when the step begins
    [InlineData("0:29:31", 1)]
    [InlineData("0:17", 0)] // its reading begins in the instant in which EV2 comes
    [InlineData("0:16:59", 1)]
    public void GoMissing_ByTheSecond_IsFound(string sent, int found) =>
        Assert.Equal(found, Judged.By("go.missing", Go(60), Given(sent)).Length);

    [Fact]
    public void GoMissing_NeverSentOrNeverRead_IsFound()
    {
        Assert.Contains("it was not read", Judged.One("go.missing", Go(60), Given()).Sentence);
        Assert.Contains("no GO is read for it", Judged.One("go.missing", Go(0), Given("0:25")).Sentence);
    }

    [Fact]
    public void GoMissing_WhatItCoversChangesAfterIt_IsFound()
    {
        // The latch becomes free in the instant in which EV2 begins.
        Finding finding = Judged.One("go.missing", Go(60, "latch"), Given("0:25"));
        Assert.Contains("latch changed at 0:31:30", finding.Sentence);
        Judged.None("go.missing", Go(60, "jets"), Given("0:25"));
        Judged.None("go.missing", Go(60), Given("0:16:59", "0:25"));
    }
}
