using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class GlareEyesTests
{
    // EV1 loosens the latch at the ring from 0:21:30 to 0:25:30. All of it is invented for the tests.
    private static Scenario World(string from, string to, double? limit, bool asks = true, bool told = true, StationSide? looks = StationSide.Down) => Skerry.WithStation(station => station with
    {
        Sites = [.. station.Sites.Select(site => site.Id.Value == "ring" ? site with { Looks = looks } : site)],
    }).WithLeg("latch/free", leg => leg with { Steps = [.. leg.Steps.Select((step, i) => step with { NoGlare = asks && i == 0 })] }).WithLimit("glare.eyes", limit) with
    {
        Sky = Skerry.Sky with { Sites = told ? [new(new("ring"), [(At("-2:00"), SunAtSite.Sun), (At(from), SunAtSite.Glare), (At(to), SunAtSite.Sun)])] : [] },
    };

    // Told to half a minute: glare from 0:25 on counts from 0:24:30, a minute of the step.
    [Theory]
    [InlineData("0:25", "0:40", 60, 0)]
    [InlineData("0:25", "0:40", 59, 1)]
    [InlineData("0:26", "0:40", 0, 0)]
    [InlineData("0:25:59", "0:40", 0, 1)]
    [InlineData("0:10", "0:21", 0, 0)]
    [InlineData("0:10", "0:21:01", 0, 1)]
    public void GlareEyes_InAStepThatAsksForNone_IsACautionAboveTheLimit(string from, string to, double limit, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("glare.eyes", World(from, to, limit), Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal((Severity.Near, "EV1", "-1 s"), (findings[0].Severity, findings[0].Who[0].Value, findings[0].Margin));
    }

    [Fact]
    public void GlareEyes_InAStepThatDoesNotMind_IsNotTold() => Judged.None("glare.eyes", World("0:20", "0:40", 0, asks: false), Plan.ShortWalk());

    [Theory]
    [InlineData(null, true, StationSide.Down, "glare.eyes: the scenario gives no limit")]
    [InlineData(0.0, false, StationSide.Down, "glare.eyes: how the Sun stands to whoever works at ring is not told")]
    [InlineData(0.0, true, null, "glare.eyes: how the Sun stands to whoever works at ring is not told")]
    public void GlareEyes_WithoutWhatItNeeds_IsNotCalledClean(double? limit, bool told, StationSide? looks, string words)
    {
        Scenario scenario = World("0:20", "0:40", limit, told: told, looks: looks);
        Assert.Contains(Judge.Of(scenario, [(Plan.ShortWalk(), Player.Play(scenario, Plan.ShortWalk()))]).NotChecked, one => one.StartsWith(words, StringComparison.Ordinal));
    }
}
