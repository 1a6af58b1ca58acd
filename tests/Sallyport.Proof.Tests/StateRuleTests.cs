using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class StateRuleTests
{
    [Fact]
    public void FeatureWrong_TheLatchNotYetFree_IsFoundUntilTheInstantItIs()
    {
        // EV2 looks from 0:31:30, the instant in which the latch is free; one second earlier it is not.
        Judged.None("feature.wrong", Skerry, Plan.ShortWalk());
        Timeline timeline = Plan.ShortWalk();
        string look = timeline.IdOf<DoStep>(step => step.Leg.Value == "latch/look");
        Finding finding = Judged.One("feature.wrong", Skerry, timeline.With(look, one => one with { Start = At("0:31:29") }));
        Assert.Contains("sticky", finding.Sentence);
    }

    [Theory]
    [InlineData(NeedTime.Start, 0)]
    [InlineData(NeedTime.Throughout, 1)]
    [InlineData(NeedTime.End, 1)]
    public void FeatureWrong_AStateLostInTheMiddle_IsFoundAsTheNeedAsks(NeedTime when, int found)
    {
        // EV2 holds 0:31–0:33 and needs the latch sticky, which EV1 frees at 0:31:30.
        Scenario scenario = Skerry.WithLeg("pair/near", leg => leg with
        {
            Together = "",
            Steps = [leg.Steps[0] with { Needs = [new NeedFeature(when, new(new("latch"), ["sticky"]))] }],
        }).WithLeg("pair/far", leg => leg with { Together = "" });
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
            .Step("EV1", "latch/free", "loosen", 240).Step("EV1", "latch/free", "grease", 360)
            .Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", 1860).Step("EV2", "pair/near", "hold", 120).Wait("EV1", 1980);
        ImmutableArray<Finding> findings = Judged.By("feature.wrong", scenario, plan.Timeline);
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Equal(At(when == NeedTime.Throughout ? "0:31:30" : "0:33"), findings[0].At);
    }

    // In the restraint 0:29:30–0:34:30 behind two switches, each with its own controller.
    private static Plan Box(int off, int on) => Plan.Outside().Send("bus off", off).Send("bus on", on)
        .Take("EV1", "frame", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
        .Plug("EV1", "B6").Enter("EV1").Step("EV1", "box/open", "open", 300).Leave("EV1").Unplug("EV1", "waist").Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));

    [Theory]
    [InlineData("0:26:30", "0:34:30", 0)] // off in the instant the step starts, sent on in the instant it ends
    [InlineData("0:26:31", "0:34:30", 1)]
    [InlineData("0:26:30", "0:34:29", 1)]
    public void FeatureWrong_AShutdownAgainstItsLeg_IsFoundByTheSecond(string off, string on, int found) =>
        Assert.Equal(found, Judged.By("feature.wrong", Skerry, Box(At(off).Seconds, At(on).Seconds).Home()).Length);

    [Fact]
    public void InhibitFew_OneOfTwoSwitches_IsFoundWithItsCount()
    {
        Scenario scenario = Skerry with
        {
            Consoles = [Skerry.Consoles[0] with { Commands = [.. Skerry.Consoles[0].Commands.Select(one => one.Id.Value == "bus off" ? one with { Makes = [one.Makes[0]] } : one)] }],
        };
        Finding finding = Judged.One("inhibit.few", scenario, Box(1020, 2100).Home());
        // The source is the step's own, or the scenario's where it gives one.
        Assert.Contains("unverified", finding.Source);
        Assert.Equal(("1", "2", "-1", At("0:29:30")), (finding.Measured, finding.Limit, finding.Margin, finding.At));
        Judged.None("inhibit.few", Skerry, Box(1020, 2100).Home());
    }

    [Fact]
    public void InhibitFew_PowerBackInTheMiddleOfTheStep_IsFoundThen()
    {
        // On again at 0:33, a minute and a half before the step ends.
        Finding finding = Judged.One("inhibit.few", Skerry, Box(1020, At("0:30").Seconds).Home());
        Assert.Equal((At("0:33"), "0"), (finding.At, finding.Measured));
    }

    // Off from 0:20; on at 0:38 when sent at 0:35: 18 min.
    [Theory]
    [InlineData(18 * 60, 0, null)]
    [InlineData(18 * 60 - 1, 0, Severity.Broken)]
    [InlineData(18 * 60, 60, Severity.Near)]
    public void ThermalClock_FromOffToOn_IsHeldAgainstTheShutdown(int longest, int near, Severity? found)
    {
        Scenario scenario = Skerry with { Consoles = [Skerry.Consoles[0] with { Shutdowns = [Skerry.Consoles[0].Shutdowns[0] with { Longest = Seconds(longest) }] }] };
        if (near > 0) scenario = scenario.WithLimit("thermal.clock", 0, near);
        ImmutableArray<Finding> findings = Judged.By("thermal.clock", scenario, Box(1020, 2100).Home());
        Assert.Equal(found is null ? [] : [found.Value], findings.Select(finding => finding.Severity));
        if (found == Severity.Broken) Assert.Equal(("18 min", "-1 s", At("0:37:59")), (findings[0].Measured, findings[0].Margin, findings[0].At));
    }

    [Fact]
    public void ThermalClock_TurnedOffOnceMore_RunsOn()
    {
        Scenario scenario = Skerry with { Consoles = [Skerry.Consoles[0] with { Shutdowns = [Skerry.Consoles[0].Shutdowns[0] with { Longest = Seconds(1079) }] }] };
        Plan plan = Plan.Latch(Plan.Outside()).Send("bus off", 1020).Send("bus off", 1400, id: "again").Send("bus on", 2100);
        Assert.Equal("18 min", Judged.One("thermal.clock", scenario, plan.Home()).Measured);
    }

    [Fact]
    public void ThermalClock_NeverTurnedOnAgain_IsFound()
    {
        Plan plan = Plan.Latch(Plan.Outside()).Send("bus off", 1020);
        Assert.Contains("bus is off at the end", Judged.One("thermal.clock", Skerry, plan.Home()).Sentence);
    }

    [Fact]
    public void StationUnready_WhenTheHatchOpensAndAtTheEnd_IsFound()
    {
        Judged.None("station.unready", Skerry, Plan.ShortWalk());
        Scenario armed = Skerry.WithStation(station => station with
        {
            Features = [.. station.Features.Select(feature => feature.Id.Value == "jets" ? feature with { Start = "armed", Back = "armed" } : feature)],
        });
        Assert.Equal(At("0:00"), Judged.One("station.unready", armed, Plan.ShortWalk()).At);
        Timeline left = Plan.Latch(Plan.Outside()).Send("bus off", 1020).Home();
        Assert.Equal(2, Judged.By("station.unready", Skerry, left).Length);
    }

    [Fact]
    public void StationUnready_MadeReadyInTheInstantTheHatchOpens_IsNotFound()
    {
        Scenario scenario = Skerry.WithStation(station => station with
        {
            Features = [.. station.Features.Select(feature => feature.Id.Value == "jets" ? feature with { Start = "armed" } : feature)],
        }) with
        {
            Consoles = [.. Skerry.Consoles, new(new("jets"), [new(new("hold"), Minutes(2), false, [new(new("jets"), "held")])], [])],
        };
        Judged.None("station.unready", scenario, Plan.Latch(Plan.Outside()).Send("hold", -120, 120, "jets").Home());
        Judged.One("station.unready", scenario, Plan.Latch(Plan.Outside()).Send("hold", -119, 120, "jets").Home());
    }

    // Night is 0:12–0:48; EV2 looks 0:31:30–0:34:30.
    [Theory]
    [InlineData("0:31:30", LightCondition.Day, 0)]
    [InlineData("0:31:31", LightCondition.Day, 1)]
    [InlineData("0:34:30", LightCondition.Night, 0)]
    [InlineData("0:34:29", LightCondition.Night, 1)]
    public void LightNeeded_ByTheSecond_IsFound(string sunrise, LightCondition light, int found)
    {
        Scenario scenario = Skerry.WithLeg("latch/look", leg => leg with { Light = light }) with { Sky = Skerry.Sky with { Night = [new(At("0:12"), At(sunrise))] } };
        Assert.Equal(found, Judged.By("light.needed", scenario, Plan.ShortWalk()).Length);
    }

    [Theory]
    [InlineData("0:34:30", 0)]
    [InlineData("0:34:29", 1)]
    public void RadioNeeded_ByTheSecond_IsFound(string lost, int found)
    {
        Scenario scenario = Skerry.WithLeg("latch/look", leg => leg with { NeedsLink = true }) with { Sky = Skerry.Sky with { NoLink = [new(At(lost), At("0:40"))] } };
        Assert.Equal(found, Judged.By("radio.needed", scenario, Plan.ShortWalk()).Length);
    }

    [Fact]
    public void RadioNeeded_ACommandWithoutALink_IsFound() =>
        // The link is lost 0:06–0:11.
        Assert.Equal(At("0:06"), Judged.One("radio.needed", Skerry, Plan.Latch(Plan.Outside()).Send("bus off", 181).Send("bus on", 1200).Home()).At);

    [Fact]
    public void Link_CutByAShutdown_IsLostUntilItIsOnAgain()
    {
        GroundConsole console = Skerry.Consoles[0];
        Scenario scenario = Skerry with
        {
            Consoles = [console with { Commands = [.. console.Commands.Select(one => one with { NeedsLink = false })], Shutdowns = [console.Shutdowns[0] with { CutsLink = true }] }],
        };
        History history = new(Player.Play(scenario, Box(1020, 2100).Home()));
        Assert.Equal(
            [(At("0:06"), "none"), (At("0:11"), "link"), (At("0:20"), "none"), (At("0:38"), "link")],
            history.Changes(history["sky link"]).Select(change => (change.At, history.Trace.Variables[change.Variable].States[change.Value])));
    }
}
