using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class WayRuleTests
{
    private static Timeline OneWalk(int first, params string[] load)
    {
        Plan plan = Plan.Outside();
        foreach (string gear in load) plan.Take("EV1", gear, "lock", gear == "tray" ? "stiff" : "waist");
        return plan.Walk("EV1", "lock", ("quay-1", first)).Timeline;
    }

    [Fact]
    public void WayNone_NoSpanBetween_IsFound()
    {
        Finding finding = Judged.One("way.none", Skerry, Plan.Outside().Walk("EV1", "lock", ("quay-2", 600)).Timeline);
        Assert.Contains("no span joins them", finding.Sentence);
        Assert.Equal([new PersonId("EV1")], finding.Who);
    }

    [Fact]
    public void WayNone_SettingOffWhereOneIsNot_IsFoundOnce() =>
        Judged.One("way.none", Skerry, Plan.Outside().Walk("EV1", "quay-1", ("quay-2", 90)).Timeline);

    [Fact]
    public void WayNone_ATaskWhereNobodyBroughtThePerson_IsFound() =>
        Judged.One("way.none", Skerry, Plan.Outside().Step("EV2", "pair/near", "hold", 120).Timeline);

    [Fact]
    public void WayNone_SpansEndToEnd_IsNotFound() => Judged.None("way.none", Skerry, Plan.ShortWalk());

    // 6 m at 0.1 m/s is 60 s; with a bulky thing 1.8 times that, 108 s.
    [Theory]
    [InlineData(60, false, 0)]
    [InlineData(59, false, 1)]
    [InlineData(108, true, 0)]
    [InlineData(107, true, 1)]
    public void WayShort_ASpanAgainstPaceAndLoad_IsFoundOnlyBelow(int seconds, bool laden, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("way.short", Skerry, OneWalk(seconds, laden ? ["tray"] : []));
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal("-1 s", findings[0].Margin);
    }

    [Fact]
    public void WayShort_SpansTogetherLongerThanTheWhole_IsFound()
    {
        Timeline timeline = OneWalk(60).With("EV1-05", walk => walk with { End = walk.End.Plus(Seconds(-1)) });
        Assert.Contains(Judged.By("way.short", Skerry, timeline), finding => finding.Sentence.Contains("together"));
    }

    // EV1 is on the span to quay-1 from 0:17 to 0:18, stands there to 0:20, and is back at the lock at 0:21.
    [Theory]
    [InlineData("0:10", "0:17", 0)]
    [InlineData("0:10", "0:17:01", 1)]
    [InlineData("0:21", "0:30", 0)]
    [InlineData("0:20:59", "0:30", 1)]
    public void ZoneEntered_ByTheSecond_CountsStandingAndSpans(string from, string to, int found)
    {
        Scenario scenario = Skerry.WithStation(station => station with
        {
            Zones = [new(new("cone"), "jets may fire", [new("quay-1")], [new(At(from), At(to))], null, [])],
        });
        Timeline timeline = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60)).Wait("EV1", 1200).Walk("EV1", "quay-1", ("lock", 60)).Timeline;
        Assert.Equal(found, Judged.By("zone.entered", scenario, timeline).Length);
    }

    [Fact]
    public void ZoneEntered_ClosedByNightAndByAFeature_IsFoundAtItsFirstMoment()
    {
        Zone dark = new(new("hoses"), "hot hoses", [new("quay-1")], [], LightCondition.Night, []);
        Zone live = new(new("latch-arc"), "the latch swings", [new("quay-2")], [], null, [new(new("latch"), ["free"])]);
        Scenario scenario = Skerry.WithStation(station => station with { Zones = [dark, live] });
        // Night is 0:12–0:48. EV1 walks through quay-1; the latch is free from 0:31:30, when EV1 is still at quay-2.
        ImmutableArray<Finding> findings = Judged.By("zone.entered", scenario, Plan.ShortWalk());
        Assert.Equal(
            [(At("0:17"), "EV2"), (At("0:19"), "EV1"), (At("0:31:30"), "EV1"), (At("0:31:30"), "EV1")],
            findings.Select(finding => (finding.At, finding.Who[0].Value)));
    }

    private static Scenario WithReel(double metres) => Skerry.WithPeople(person => person with { Reels = [metres, 26] });

    // The ring lies 10.5 m along the spans.
    [Fact]
    public void TetherReach_TheReelExactlyLongEnough_IsNotFound() => Judged.None("tether.reach", WithReel(10.5), Plan.ShortWalk());

    [Fact]
    public void TetherReach_AMillimetreTooShort_IsFoundWithItsFigures()
    {
        Finding finding = Judged.One("tether.reach", WithReel(10.499), Plan.ShortWalk());
        Assert.Equal(At("0:21:30"), finding.At);
        Assert.Equal(("10.5 m", "10.499 m", "-0.001 m"), (finding.Measured, finding.Limit, finding.Margin));
    }

    [Fact]
    public void TetherReach_WithinTheMarginAskedFor_IsNear()
    {
        Scenario scenario = WithReel(11) with
        {
            Limits = [.. Skerry.Limits, new Limit(new("tether.reach"), new(Dimension.Length, 0, "0 m"), new(Dimension.Length, 1, "1 m"), "a test", true)],
        };
        Assert.Equal(Severity.Near, Judged.One("tether.reach", scenario, Plan.ShortWalk()).Severity);
    }

    // Out 10.5 m, the next reel hooked at quay-2, 12 m on: 22.5 m with reels of 12 m.
    private static Plan TwoReels() => Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Swap("EV1", "quay-2", "quay-2").Walk("EV1", "quay-2", ("quay-3", 120));

    [Fact]
    public void TetherReach_WithASecondReelHooked_CountsFromThere()
    {
        Scenario scenario = Skerry.WithPeople(person => person with { Reels = [10.5, 12] });
        Plan plan = TwoReels();
        Judged.None("tether.reach", scenario, plan.Timeline);
        History history = new(Player.Play(scenario, plan.Timeline));
        Assert.Equal(("quay-2", 12_000, 2), (history.LastState(history["person EV1 anchor"]), history.Last(history["person EV1 tether"]), history.Last(history["person EV1 reels"])));
        Judged.One("tether.reach", scenario.WithPeople(person => person with { Reels = [10.5, 11.9] }), plan.Timeline);
    }

    [Fact]
    public void TetherReach_NoFurtherReelToHook_IsFound() =>
        Judged.One("tether.reach", Skerry.WithPeople(person => person with { Reels = [26] }), TwoReels().Timeline);

    [Fact]
    public void TetherNone_AReelHookedWhereNoneMayBe_IsFound()
    {
        Timeline timeline = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60)).Swap("EV1", "quay-1", "quay-1").Timeline;
        Judged.One("tether.none", Skerry, timeline);
        Judged.None("tether.none", Skerry, TwoReels().Timeline);
    }

    [Fact]
    public void TetherNone_SomebodyOutsideWhoNeverCameThroughTheHatch_IsFound()
    {
        Timeline timeline = Plan.ShortWalk();
        timeline = timeline.Without(timeline.IdOf<AirlockPhase>(phase => phase.Phase == AirlockPhaseKind.Out && phase.Who[0].Value == "EV2"));
        Finding finding = Judged.One("tether.none", Skerry, timeline);
        // EV2 is first outside where the first span ends.
        Assert.Equal((At("0:18"), "0 hooks", "1 hook"), (finding.At, finding.Measured, finding.Limit));
    }

    [Fact]
    public void TetherWrap_HomeRoundTheOtherSide_IsFoundAtTheHatch()
    {
        // Round by quay-3: 10.5 m + 12 m + 18 m are out, and none of it winds in.
        Plan round = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90), ("quay-3", 120), ("lock", 120));
        Finding finding = Judged.One("tether.wrap", Skerry.WithPeople(person => person with { Reels = [50] }), round.Home());
        Assert.Equal("40.5 m", finding.Measured);
        Plan back = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90), ("quay-1", 90), ("lock", 60));
        Judged.None("tether.wrap", Skerry, back.Home());
    }

    [Fact]
    public void TetherWrap_ReelsTakenBackInTurn_LeaveNothingHooked()
    {
        Plan plan = TwoReels().Walk("EV1", "quay-3", ("quay-2", 120)).Swap("EV1", "quay-2", "lock").Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));
        Assert.Empty(Judged.All(Skerry, plan.Home()));
        // Left hooked at quay-2, the second reel pays out all the way home.
        Plan left = TwoReels().Walk("EV1", "quay-3", ("quay-2", 120), ("quay-1", 90), ("lock", 60));
        Judged.One("tether.wrap", Skerry, left.Home());
    }

    [Fact]
    public void Leapfrog_AnyWay_PaysNothingOutAndTakesHookingTime()
    {
        Scenario scenario = Skerry with { Tether = Skerry.Tether with { Protocol = TetherProtocol.Leapfrog } };
        // 60 s + 20 s to hook, 90 s + 20 s, then round by quay-3: 140 s and 140 s.
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 80), ("quay-2", 110), ("quay-3", 140), ("lock", 140));
        Assert.Empty(Judged.All(scenario, plan.Home()));
        History history = new(Player.Play(scenario, plan.Home()));
        Assert.Empty(history.Changes(history["person EV1 tether"]));
        Judged.One("way.short", scenario, Plan.Outside().Walk("EV1", "lock", ("quay-1", 79)).Timeline);
    }
}
