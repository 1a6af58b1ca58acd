using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Rules about the sky where it is computed: twilight, radiation, the Sun at worksites.</summary>
public sealed class SkyRuleTests
{
    // EV1 is outside 0–0:56:30 in the short walk, EV2 too; the table asks what of a pass counts.
    private static Scenario Passing(int limit, int near, params (string From, string To)[] passes) => Skerry with
    {
        Sky = Skerry.Sky with { Radiation = [.. passes.Select(pass => new PetInterval(At(pass.From), At(pass.To)))] },
        Limits = Skerry.Limits.Add(new(new("radiation.high"), new(Dimension.Time, limit, $"{limit} s"), new(Dimension.Time, near, $"{near} s"), "invented for the test", false)),
    };

    [Theory]
    [InlineData(600, 0, null)] // 10 min of passes, exactly the limit
    [InlineData(599, 0, Severity.Broken)]
    [InlineData(600, 1, Severity.Near)]
    [InlineData(660, 60, null)]
    [InlineData(660, 61, Severity.Near)]
    [InlineData(0, 0, Severity.Broken)]
    public void RadiationHigh_TwoPassesInTheWalk_AreAddedUp(int limit, int near, Severity? found)
    {
        // Before anybody is out and after everybody is in nothing counts.
        Scenario scenario = Passing(limit, near, ("-1:00", "-0:30"), ("0:20", "0:24"), ("0:30", "0:36"), ("2:00", "2:30"));
        ImmutableArray<Finding> findings = Judged.By("radiation.high", scenario, Plan.ShortWalk());
        if (found is null) Assert.Empty(findings);
        else
        {
            Assert.Equal(["EV1", "EV2"], findings.Select(finding => Assert.Single(finding.Who).Value).Order());
            Assert.All(findings, finding => Assert.Equal((found.Value, "10 min"), (finding.Severity, finding.Measured)));
            // The moment at which the limit is passed, by the second.
            if (limit == 599) Assert.All(findings, finding => Assert.Equal((At("0:35:59"), "-1 s"), (finding.At, finding.Margin)));
            if (limit == 0) Assert.All(findings, finding => Assert.Equal(At("0:20"), finding.At));
        }
    }

    [Fact]
    public void RadiationHigh_WithoutPassesOrLimit_IsNotCheckedAndNotClean()
    {
        Verdict Of(Scenario scenario) => Judge.Of(scenario, [(Plan.ShortWalk(), Player.Play(scenario, Plan.ShortWalk()))]);
        Assert.Contains(Of(Skerry).NotChecked, words => words.StartsWith("radiation.high: nobody has said", StringComparison.Ordinal));
        Scenario without = Passing(0, 0) with { Limits = Skerry.Limits };
        Assert.Contains(Of(without).NotChecked, words => words.StartsWith("radiation.high: the scenario gives no limit", StringComparison.Ordinal));
        // Told that there are none: checked, and nothing is found even with a limit of zero.
        Verdict none = Of(Passing(0, 0));
        Assert.Contains(none.Checked, rule => rule.Value == "radiation.high");
        Assert.DoesNotContain(none.Findings, finding => finding.Rule.Value == "radiation.high");
    }

    // EV1 loosens 0:21:30–0:25:30 and greases until 0:31:30. Twilight 0:22–0:23 is neither day nor night.
    [Theory]
    [InlineData(LightCondition.Day, "0:31:30", "0:31:31", "0:31:31", "0:33", 0)]
    [InlineData(LightCondition.Day, "0:31:29", "0:33", "0:32", "0:33", 1)]
    [InlineData(LightCondition.Night, "0:20", "0:40", "0:21:30", "0:31:30", 0)]
    [InlineData(LightCondition.Night, "0:20", "0:40", "0:21:31", "0:31:30", 1)]
    [InlineData(LightCondition.Night, "0:20", "0:40", "0:21:30", "0:31:29", 1)]
    public void LightNeeded_InTwilight_IsNeitherDayNorNight(LightCondition wanted, string nightFrom, string nightTo, string darkFrom, string darkTo, int found)
    {
        Scenario scenario = Skerry.WithLeg("latch/free", leg => leg with { Light = wanted }) with
        {
            Sky = new([new(At(nightFrom), At(nightTo))], [], "invented for the test") { FullNight = [new(At(darkFrom), At(darkTo))] },
        };
        ImmutableArray<Finding> findings = Judged.By("light.needed", scenario, Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Contains("it is twilight", findings[0].Sentence);
    }

    [Fact]
    public void Zone_ClosedByDayOrNight_IsClosedInTwilightToo()
    {
        // EV1 is at quay-2 from 0:21:30 to 0:31:30.
        Sky twilight = new([new(At("0:00"), At("2:00"))], [], "invented for the test") { FullNight = [] };
        foreach (LightCondition light in Enum.GetValues<LightCondition>())
        {
            Scenario scenario = Skerry with
            {
                Sky = twilight,
                Station = Skerry.Station with { Zones = [new(new("hot"), "it is hot", [new("quay-2")], [], light, [])] },
            };
            Assert.NotEmpty(Judged.By("zone.entered", scenario, Plan.ShortWalk()));
        }
    }

    // A clock of 10 min by day and 20 min by night, running from 0:20 to 0:38 (bus off to on): the shorter rate holds in twilight.
    [Theory]
    [InlineData(20, 10, false, 0)] // all dark: 18 of 20 min
    [InlineData(20, 10, true, 1)] // all twilight: 18 of 10 min
    [InlineData(10, 20, true, 1)]
    [InlineData(18, 18, true, 0)]
    public void ThermalClock_InTwilight_RunsAtTheWorseRate(int byNight, int byDay, bool twilight, int found)
    {
        PetInterval night = new(At("0:00"), At("2:00"));
        HeatClock clock = new(new("box"), ClockKind.Cold, [new IsShutDown(new("bus"))],
            [new([new LightIs(LightCondition.Night)], Minutes(byNight)), new([], Minutes(byDay))], false, "invented for the test");
        Scenario scenario = Skerry with { Sky = new([night], [], "invented for the test") { FullNight = twilight ? [] : [night] }, Clocks = [clock] };
        Timeline timeline = Plan.Outside().Send("bus off", 1020).Send("bus on", 2100).Home();
        Assert.Equal(found, Judged.By("thermal.clock", scenario, timeline).Count(finding => finding.Severity == Severity.Broken));
    }

    // It runs by day only; in twilight it is taken to run.
    [Theory]
    [InlineData(true, 1)]
    [InlineData(false, 0)]
    public void ThermalClock_ThatRunsByDay_RunsInTwilightToo(bool twilight, int found)
    {
        PetInterval night = new(At("0:00"), At("2:00"));
        HeatClock clock = new(new("box"), ClockKind.Hot, [new LightIs(LightCondition.Day)], [new([], Minutes(10))], true, "invented for the test");
        Scenario scenario = Skerry with { Sky = new([night], [], "invented for the test") { FullNight = twilight ? [] : [night] }, Clocks = [clock] };
        Assert.Equal(found, Judged.By("thermal.clock", scenario, Plan.ShortWalk()).Count(finding => finding.Severity == Severity.Broken));
    }

    [Fact]
    public void Trace_OfAKnownSky_TellsRadiationAndTheSunAtWorksites()
    {
        Scenario scenario = Passing(3600, 0, ("0:20", "0:24"));
        scenario = scenario with
        {
            Sky = scenario.Sky with { Sites = [new(new("ring"), [(At("-2:00"), SunAtSite.Sun), (At("0:10"), SunAtSite.Glare), (At("0:12"), SunAtSite.None), (At("0:48"), SunAtSite.Shade)])] },
        };
        History history = new(Player.Play(scenario, Plan.ShortWalk()));
        Assert.Equal([At("0:20"), At("0:24")], history.Changes(history["sky radiation"]).Select(change => change.At));
        int ring = history["site ring light"];
        Assert.Equal(["sun", "glare", "none", "shade"], new[] { "0:00", "0:10", "0:20", "0:50" }.Select(at => history.StateAt(ring, At(at))));
        Assert.Null(history.Find("site rim light"));
    }
}
