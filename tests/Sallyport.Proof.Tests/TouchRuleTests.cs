using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class TouchTemperatureTests
{
    private static Quantity Degrees(string text) => Quantity.TryParse(text, Dimension.Temperature, out Quantity quantity, out _) ? quantity : throw new ArgumentException(text);

    // The short walk: EV1 is at quay-2, the ring, from 0:21:30 to 0:33; the sky is dark from 0:12 to 0:48.
    private static Scenario Rail(string lit, string shade, PetInterval night, string? near = null) => Skerry.WithStation(station => station with
    {
        Surfaces = [new("rail", [], [new("ring")], Degrees(lit), Degrees(shade), "a test")],
    }) with
    {
        Sky = Skerry.Sky with { Night = [night] },
        Limits = Skerry.Limits.Add(new Limit(new("touch.temperature"), Degrees("113 degC"), near is null ? null : Degrees(near), "from memory", false) { Least = Degrees("-118 degC") }),
    };

    private static readonly PetInterval Always = new(At("-1:00"), At("9:00")), Never = new(At("-2:00"), At("-1:00"));

    [Theory]
    [InlineData("113 degC", "0 degC", false, 0)] // exactly at the hottest
    [InlineData("113.1 degC", "0 degC", false, 1)]
    [InlineData("113.1 degC", "0 degC", true, 0)]
    [InlineData("0 degC", "-118 degC", true, 0)] // exactly at the coldest
    [InlineData("0 degC", "-118.1 degC", true, 1)]
    [InlineData("0 degC", "-118.1 degC", false, 0)]
    [InlineData("-118.1 degC", "0 degC", false, 1)]
    public void TouchTemperature_AgainstBothLimits_IsFoundByDayOrByNight(string lit, string shade, bool night, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("touch.temperature", Rail(lit, shade, night ? Always : Never), Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found == 0) return;
        Assert.Equal((At("0:21:30"), "EV1", "-0.1 K", Severity.Broken), (findings[0].At, findings[0].Who[0].Value, findings[0].Margin, findings[0].Severity));
        Assert.Contains("unverified", findings[0].Source);
    }

    [Fact]
    public void TouchTemperature_DayBreakingMeanwhile_IsFoundFromThen() =>
        Assert.Equal(At("0:30"), Judged.One("touch.temperature", Rail("150 degC", "0 degC", new(At("0:12"), At("0:30"))), Plan.ShortWalk()).At);

    [Fact]
    public void TouchTemperature_WithinTheMarginWanted_IsNear() =>
        Assert.Equal(Severity.Near, Judged.One("touch.temperature", Rail("108 degC", "0 degC", Never, near: "10 K"), Plan.ShortWalk()).Severity);

    [Fact]
    public void TouchTemperature_WithOneLimitOnly_IsNotCalledClean()
    {
        Scenario scenario = Rail("0 degC", "0 degC", Never);
        scenario = scenario with { Limits = [.. scenario.Limits.Select(limit => limit with { Least = null })] };
        Assert.Contains("touch.temperature: the scenario gives the hottest only, and no least",
            Judge.Of(scenario, [(Plan.ShortWalk(), Player.Play(scenario, Plan.ShortWalk()))]).NotChecked);
    }
}

public sealed class EdgeSharpTests
{
    // 0.4 m from quay-2, at (10, 0, 1.5 m), where EV1 frees the latch.
    private static Scenario Burr(double reach, FeatureCondition? covered = null, bool minded = false) => (Skerry.WithStation(station => station with
    {
        Edges = [new("burr", new(10, 0.4, 1.5), covered)],
    }) with
    {
        Limits = Skerry.Limits.Add(new(new("edge.sharp"), new(Dimension.Length, reach, $"{reach} m"), null, "a test", true)),
    }).WithLeg("latch/free", leg => leg with { Minds = minded ? ["burr"] : [] });

    [Theory]
    [InlineData(0.4, 2)] // exactly at the reach; two steps
    [InlineData(0.399, 0)]
    public void EdgeSharp_WithinReachOfWork_IsFound(double reach, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("edge.sharp", Burr(reach), Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Equal((Severity.Broken, At("0:21:30"), "0.4 m", "0 m"), (findings[0].Severity, findings[0].At, findings[0].Measured, findings[0].Margin));
    }

    [Fact]
    public void EdgeSharp_WaitingThere_IsFoundEvenWhereTheLegMindsIt()
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Wait("EV1", 1500).Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));
        Assert.Contains("nobody was told of it", Judged.One("edge.sharp", Burr(0.5, minded: true), plan.Home()).Sentence);
    }

    [Fact]
    public void EdgeSharp_MindedByTheLeg_IsANoteThatNamesIt()
    {
        Finding note = Judged.One("edge.sharp", Burr(0.5, minded: true), Plan.ShortWalk());
        Assert.Equal(Severity.Note, note.Severity);
        Assert.Contains("burr", note.Sentence);
    }

    [Theory]
    [InlineData("held", 0)]
    [InlineData("armed", 2)]
    public void EdgeSharp_CoveredMeanwhile_IsNotFound(string covers, int found) =>
        Assert.Equal(found, Judged.By("edge.sharp", Burr(0.5, new(new("jets"), [covers])), Plan.ShortWalk()).Length);

    [Fact]
    public void EdgeSharp_WithoutAReach_IsNotCalledClean()
    {
        Scenario scenario = Burr(0.5) with { Limits = Skerry.Limits };
        Assert.Contains("edge.sharp: the scenario gives no limit", Judge.Of(scenario, [(Plan.ShortWalk(), Player.Play(scenario, Plan.ShortWalk()))]).NotChecked);
    }
}
