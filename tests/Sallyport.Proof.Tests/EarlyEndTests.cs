using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>What is asked otherwise, and what is asked all the same, where everybody goes in early after a contingency.</summary>
public sealed class EarlyEndTests
{
    /// <summary>The timeline as one that follows from everybody going in at a moment.</summary>
    private static Timeline Early(Timeline timeline, Pet from) => timeline with { Trouble = new(new("latch/free"), new("loosen"), "Stuck", Minutes(2), from, GoingOn.EndsInOrder) };

    private static Step SpillsAll(Step step) => step.Fluid is { Opens: true } touch ? step with { Fluid = touch with { Spills = null } } : step;

    private static readonly string[] Demate = ["shut-a", "shut-b", "read", "demate-and-cap"];

    [Fact]
    public void FluidCarried_SoiledPersonGoesInEarly_IsFound()
    {
        Timeline early = Early(FluidWorld.Timeline(Demate), At("0:40"));
        Assert.Contains("EV1 comes in with EV1", Judged.One("fluid.carried", FluidWorld.With(Demate, SpillsAll), early).Sentence);
        Judged.None("fluid.carried", FluidWorld.With(Demate), early);
    }

    // Hung at the hatch, a soiled bag that is wanted inside is handed in with the bags of a plan; of those who go in early it stays there.
    [Theory]
    [InlineData(false, "inside")]
    [InlineData(true, "grip lock")]
    public void FluidCarried_SoiledBagHungAtTheHatch_StaysOutsideOnlyWhereTheWalkEndsEarly(bool early, string place)
    {
        Scenario scenario = FluidWorld.With(Demate, step => step.Fluid is { Opens: true } touch ? step with { Fluid = touch with { Spills = [Soiled.Bag] } } : step);
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60));
        for (int at = 0; at < Demate.Length; at++) plan.Step("EV1", FluidWorld.WorkLeg, $"{Demate[at]}-{at}", 300);
        Timeline timeline = plan.Walk("EV1", "quay-1", ("lock", 60)).Put("EV1", "latch-bag", "lock").Home();
        if (early) timeline = Early(timeline, At("0:40"));
        Assert.Equal(early ? 0 : 1, Judged.By("fluid.carried", scenario, timeline).Count(finding => finding.Sentence.Contains("is handed in", StringComparison.Ordinal)));
        // Who has carried it is soiled by it, and comes in.
        Assert.Contains(Judged.By("fluid.carried", scenario, timeline), finding => finding.Sentence.Contains("EV1 comes in with EV1", StringComparison.Ordinal));
        History history = new(Player.Play(scenario, timeline));
        Assert.Equal(place, history.LastState(history["gear latch-bag place"]));
    }

    [Fact]
    public void LinePressure_DisconnectLeftApartEarly_IsFoundUnlessItMayBeLeft()
    {
        string[] apart = ["shut-a", "shut-b", "read", "demate"];
        Timeline early = Early(FluidWorld.Timeline(apart), At("0:40"));
        Assert.Contains("coupling is left apart", Judged.One("line.pressure", FluidWorld.With(apart), early).Sentence);
        Scenario allowed = FluidWorld.With(apart) with { MayBeLeft = [new(new("coupling"), ["apart"], [], "the lines are shut")] };
        Judged.None("line.pressure", allowed, early);
        // Of the plan itself the same is asked as before.
        Judged.One("line.pressure", allowed, FluidWorld.Timeline(apart));
    }

    // Shut off at 0:28 by the second valve, in the dark until 0:48 or not: the figure counts sunlight always here.
    [Fact]
    public void LineTrapped_LeftShutOffEarly_IsFoundUnlessItMayBeLeftAndHasNotRunOut()
    {
        string[] shut = ["shut-a", "shut-b"];
        Timeline early = Early(FluidWorld.Timeline(shut), At("0:30"));
        Scenario Lines(string? why, int seconds) => FluidWorld.With(shut).WithStation(station => station with
        {
            FluidLines = [.. station.FluidLines.Select(line => line.Trapped is null ? line : line with { Trapped = Seconds(seconds), MayBeLeft = why })],
        });
        Assert.Contains("left so at the end", Judged.One("line.trapped", Lines(null, 7200), early).Sentence);
        Judged.None("line.trapped", Lines("it is turned away", 7200), early);
        // It may be left, and yet it bursts before everybody is in: exactly as long as it takes is clean, a second less is not.
        int lit = Player.Play(Lines(null, 7200), early).To.Seconds - At("0:28").Seconds;
        Judged.None("line.trapped", Lines("it is turned away", lit), early);
        Assert.Equal("-1 s", Judged.One("line.trapped", Lines("it is turned away", lit - 1), early).Margin);
        Assert.Contains("left so at the end", Judged.One("line.trapped", Lines("it is turned away", 7200), FluidWorld.Timeline(shut)).Sentence);
    }

    // EV1 leaves the hatch at 0:05 and EV2 at 0:13; everybody goes in from 0:40 on.
    [Theory]
    [InlineData(2100, 0)]
    [InlineData(2099, 1)]
    public void Pauses_OnceEverybodyGoesIn_AreNotAskedAnyMore(int limit, int found)
    {
        Timeline early = Early(Plan.ShortWalk(), At("0:40"));
        Scenario scenario = Skerry with { Checks = new(new(new(Seconds(90), Seconds(10)), AfterRough: true, "a test"), new(Minutes(5), "a test")) };
        Assert.Equal(found, Judged.By("glove.check", scenario.WithLimit("glove.check", limit), early).Length);
        Judged.None("work.rest", scenario.WithLimit("work.rest", 2100), early);
    }

    [Fact]
    public void AirlockVolume_WhatDoesNotFitComesInEarly_IsFound() =>
        Assert.NotEmpty(Judged.By("airlock.volume", Skerry.WithStation(station => station with
        {
            Airlocks = [station.Airlocks[0] with { Room = new(10, 0.9, 5, [new("small"), new("bag")], [new("bag")], "a test") }],
        }), Early(Plan.ShortWalk(), At("0:40"))));

    [Fact]
    public void Halfway_StateLeftByAnEarlyEnd_IsFound()
    {
        Scenario may = Skerry with { MayBeLeft = [new(new("latch"), ["free"], [], "it swings")] };
        Scenario states = Skerry.WithStation(station => station with { Features = station.Features.SetItem(0, station.Features[0] with { States = ["sticky", "free", "half"] }) });
        Timeline early = Early(Plan.ShortWalk(), At("0:40"));
        Judged.None("job.halfway", may, early);
        Finding finding = Judged.One("job.halfway", states with { MayBeLeft = [new(new("latch"), ["half"], [], "it swings")] }, early);
        Assert.Equal((Severity.Broken, "free", "half"), (finding.Severity, finding.Measured, finding.Limit));
        Assert.Contains("everybody goes in early and leaves latch free", finding.Sentence);
    }

    [Fact]
    public void JobMissing_OnAWayOn_IsItsPriceAndNoFinding()
    {
        Timeline nothing = Plan.Outside().Home();
        Scenario must = Skerry with { Jobs = [.. Skerry.Jobs.Select(job => job with { Worth = Worth.Must })] };
        Assert.NotEmpty(Judged.By("job.missing", must, nothing));
        Judged.None("job.missing", must, Early(nothing, At("0:17")));
    }

    // What a terminate brings back where its step was never begun needs nothing that the work would have needed.
    [Fact]
    public void StepLeft_BeforeAnyOfIt_NeedsOnlyThePlaceOfItsWork()
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90));
        Pet now = Pet.FromSeconds(plan.Now("EV1"));
        DoStep left = new() { Id = new("left"), Start = now, End = now.Plus(Minutes(2)), Person = new("EV1"), Leg = new("latch/free"), Step = new("loosen"), LeftBy = Leaving.Terminate };
        Timeline timeline = plan.Include(left).Skip("EV1", left.End.Seconds).Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60)).Home();
        Scenario scenario = Skerry.WithLeg("latch/free", leg => leg with { With = [], Steps = leg.Steps.SetItem(0, leg.Steps[0] with { Needs = [new NeedGear(NeedTime.Throughout, new("driver"))] }) });
        Judged.None("gear.absent", scenario, Early(timeline, now));
        Judged.One("gear.absent", scenario, Early(timeline, now.Plus(Seconds(1))));
    }
}
