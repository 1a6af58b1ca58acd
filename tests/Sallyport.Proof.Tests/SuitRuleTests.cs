using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Load, reserve, carbon dioxide, cooling water, the prebreathe and the day: passing, failing, and at the limit.</summary>
public sealed class SuitRuleTests
{
    private static readonly Timeline Walk = Plan.ShortWalk();

    private static readonly Pet End = Walk.Activities.Max(activity => activity.End);

    private static readonly SuitInUse Used = new(
        [new("EV1"), new("EV2")], default, default, 277.15, Estimate.Exactly(50), Estimate.Exactly(50), new(0.003, 293.15, 1, 0), Exertion.Moderate,
        At("-1:00"), At("-0:10"), At("0:00"), At("-0:05"), At("0:05"), Seconds(0), "a test");

    private static Body Burns(double all, double moderate) => new(
        new(Estimate.Exactly(all), Estimate.Exactly(all), Estimate.Exactly(all), Estimate.Exactly(moderate), Estimate.Exactly(all), "a test"), Estimate.Exactly(0.85),
        [new(new("EV1"), Estimate.Exactly(1)), new(new("EV2"), Estimate.Exactly(1))]);

    /// <summary>300 W whatever is done, 50 W drawn; enough of everything for ten hours.</summary>
    private static readonly Scenario Suited = (Skerry with { Body = Burns(300, 300), Suits = [Used] }).WithPeople(person => person with
    {
        Suit = person.Suit! with { PrimaryOxygen = 1, CarbonDioxide = 1, Feedwater = 6, Battery = 1_800_000 },
    }).WithLimit("suit.reserve", 1800);

    private static Scenario Limited(Scenario scenario, string rule, Dimension dimension, double value, double? near = null, double? hour = null) => scenario with
    {
        Limits = [.. scenario.Limits.Where(limit => limit.Rule.Value != rule), new Limit(new(rule), new(dimension, value, "a figure"), near is { } margin ? new(dimension, margin, "a margin") : null, "a test", true) { Hour = hour is { } mean ? new(dimension, mean, "a figure") : null }],
    };

    private static Scenario With(Scenario scenario, Func<SuitInUse, SuitInUse> change) => scenario with { Suits = [change(Used)] };

    private static Scenario Holding(double joules) => Suited.WithPeople(person => person with { Suit = person.Suit! with { Battery = person.Id.Value == "EV1" ? joules : 1_800_000 } });

    [Fact]
    public void Suits_OfAPlanWithEnough_BreakNothing() => Assert.DoesNotContain(Judged.All(Suited, Walk), finding => finding.Severity == Severity.Broken);

    // 50 W from 0:00 to the end and for the half hour of the reserve; one joule less lasts a second less.
    [Fact]
    public void SuitReserve_OfTheBattery_AtTheLimitAndASecondBelow()
    {
        double enough = 50.0 * (End.Seconds + 1800);
        Judged.None("suit.reserve", Holding(enough), Walk);
        Finding finding = Judged.One("suit.reserve", Holding(enough - 1), Walk);
        Assert.Equal(("29 min 59 s", "30 min", "-1 s", "EV1", End), (finding.Measured, finding.Limit, finding.Margin, Assert.Single(finding.Who).Value, finding.At));
        Assert.Contains("EV1's battery lasts 29 min 59 s more at the high rate", finding.Sentence);
    }

    // 100 W with the lights on, which are on whenever it is not full day.
    [Fact]
    public void SuitReserve_InTwilight_CountsTheLights()
    {
        PetInterval all = new(At("0:00"), At("3:00"));
        Scenario lit = With(Holding(100.0 * (End.Seconds + 1800)), suit => suit with { LightsOn = Estimate.Exactly(100) });
        foreach (ImmutableArray<PetInterval> dark in new[] { ImmutableArray<PetInterval>.Empty, [all] })
        {
            Sky sky = new([all], [], "a test") { FullNight = dark };
            Judged.None("suit.reserve", lit with { Sky = sky }, Walk);
            Judged.One("suit.reserve", With(Holding(100.0 * (End.Seconds + 1800) - 1), suit => suit with { LightsOn = Estimate.Exactly(100) }) with { Sky = sky }, Walk);
        }
    }

    // 75.439 g/h at 300 W and RQ 0.85, from -0:10 on, and for the half hour of the reserve.
    [Theory]
    [InlineData(0.0001, 0)]
    [InlineData(-0.0001, 2)]
    public void SuitReserve_OfOxygen_IsThatOfTheCard(double more, int found)
    {
        double needed = 0.075439 / 3600 * (End.Seconds + 600 + 1800);
        Scenario scenario = Suited.WithPeople(person => person with { Suit = person.Suit! with { PrimaryOxygen = needed + more } });
        Assert.Equal(found, Judged.By("suit.reserve", scenario, Walk).Count(finding => finding.Sentence.Contains("primary oxygen")));
    }

    [Fact]
    public void SuitReserve_WithinItsMargin_IsNear()
    {
        Scenario scenario = Holding(50.0 * (End.Seconds + 1800 + 60)).WithLimit("suit.reserve", 1800, 61);
        Finding finding = Judged.One("suit.reserve", scenario, Walk);
        Assert.Equal((Severity.Near, "1 min"), (finding.Severity, finding.Margin));
    }

    [Fact]
    public void SuitReserve_SecondaryOxygen_IsNeverCounted()
    {
        Scenario scenario = Holding(50.0 * (End.Seconds + 1800) - 1);
        Scenario more = scenario.WithPeople(person => person with { Suit = person.Suit! with { SecondaryOxygen = Minutes(600) } });
        Assert.Equal(Judged.One("suit.reserve", scenario, Walk).Measured, Judged.One("suit.reserve", more, Walk).Measured);
    }

    // EV1's ten minutes of moderate work at 600 W and 300 W elsewhere: (10 x 600 + 5 x 300) / 15 = 500 W over a quarter of an hour. The walk
    // and the hour before make (10 x 600 + 50 x 300) / 60 = 350 W over an hour.
    [Theory]
    [InlineData(500, 350, 0)]
    [InlineData(499.9, 350, 1)]
    [InlineData(500, 349.9, 1)]
    [InlineData(499.9, 349.9, 2)]
    public void WorkRate_OfAQuarterOfAnHourAndAnHour_IsTheirMean(double quarter, double hour, int found)
    {
        Scenario scenario = Limited(Suited with { Body = Burns(300, 600) }, "work.rate", Dimension.Power, quarter, hour: hour);
        ImmutableArray<Finding> findings = Judged.By("work.rate", scenario, Walk);
        Assert.Equal(found, findings.Count(finding => finding.Who[0].Value == "EV1"));
        Assert.All(findings, finding => Assert.Equal(Severity.Broken, finding.Severity));
    }

    [Fact]
    public void WorkRate_WithinItsMargin_IsNearAndSaysBothUnits()
    {
        Scenario scenario = Limited(Suited, "work.rate", Dimension.Power, 310, near: 11);
        ImmutableArray<Finding> findings = Judged.By("work.rate", scenario, Walk);
        Assert.All(findings, finding => Assert.Equal((Severity.Near, "300 W (1024 Btu/h)", "310 W (1057 Btu/h)"), (finding.Severity, finding.Measured, finding.Limit)));
        Assert.Equal(2, findings.Length);
    }

    [Fact]
    public void WorkRate_OfAPerson_TakesTheFactorsHighFigure()
    {
        Body body = Burns(300, 300) with { Factors = [new(new("EV1"), new(0.5, 1, 1.2)), new(new("EV2"), Estimate.Exactly(1))] };
        Scenario scenario = Limited(Suited with { Body = body }, "work.rate", Dimension.Power, 359);
        Assert.Equal("EV1", Assert.Single(Judged.One("work.rate", scenario, Walk).Who).Value);
        Judged.None("work.rate", Limited(Suited with { Body = body }, "work.rate", Dimension.Power, 360), Walk);
    }

    // 88.194 g/h of carbon dioxide at 300 W, RQ 0.85 are 5.5667e-4 mol/s; in 3 L/s at 293.15 K that is 452.3 Pa, 3.392 mmHg.
    [Theory]
    [InlineData(452.5, 0)]
    [InlineData(452.1, 2)]
    public void CarbonDioxide_InAnHour_IsThatOfTheFlow(double limit, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("carbon.dioxide", Limited(Suited, "carbon.dioxide", Dimension.Pressure, limit), Walk);
        Assert.Equal(found, findings.Length);
        Assert.All(findings, finding => Assert.Equal("3.40 mmHg", finding.Measured));
    }

    [Fact]
    public void CarbonDioxide_AtTheLimit_IsNoBreak()
    {
        double exact = Ventilation.Of(Used.Helmet!).InspiredPascals(Energetics.CarbonDioxideKilogramsPerSecond(Estimate.Exactly(300), Estimate.Exactly(0.85)).High);
        Judged.None("carbon.dioxide", Limited(Suited, "carbon.dioxide", Dimension.Pressure, exact), Walk);
    }

    [Fact]
    public void CarbonDioxide_OfACartridgeThatMayBeFull_IsABreak()
    {
        // 88.194 g/h from -1:00 on: 0.1 kg are full after 1 h 8 min.
        Scenario scenario = Limited(Suited, "carbon.dioxide", Dimension.Pressure, 1000).WithPeople(person => person with { Suit = person.Suit! with { CarbonDioxide = 0.1 } }).WithLimit("suit.reserve", 60);
        Finding finding = Judged.By("carbon.dioxide", scenario, Walk)[0];
        Assert.Contains("may be full", finding.Sentence);
        Assert.Equal(At("0:08").Seconds, finding.At.Seconds, 120.0);
    }

    [Theory]
    [InlineData("-0:05", 0)]
    [InlineData("-0:05:01", 2)]
    public void WaterPressure_BeforeVacuum_IsFoundByTheSecond(string on, int found)
    {
        Scenario scenario = With(Suited, use => use with { WaterOn = At(on) });
        ImmutableArray<Finding> findings = Judged.By("water.pressure", scenario, Walk);
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Contains("on outside vacuum from -0:05:01 to -0:05", findings[0].Sentence);
    }

    // Somebody goes in, the hatch is closed, and the other one's water is still on.
    [Fact]
    public void WaterPressure_AfterTheHatchWasClosed_IsFound()
    {
        AirlockPhase close = Walk.Activities.OfType<AirlockPhase>().Single(phase => phase.Phase == AirlockPhaseKind.Close);
        Timeline early = Walk with { Activities = [.. Walk.Activities.Select(activity => activity == close ? close with { Who = [new("EV1"), new("EV2")], End = close.End } : activity), close with { Id = new("early"), Start = At("0:20"), End = At("0:24"), Who = [] }] };
        Assert.Contains(Judged.By("water.pressure", Suited, early), finding => finding.At == At("0:24"));
        Judged.None("water.pressure", Suited, Walk);
    }

    // Breathing what the body is at already, nothing changes: the ratio stays 2.
    private static Scenario Breathing(params ImmutableArray<PrebreathePart> parts) =>
        Suited with { Prebreathe = new(360, 2 * 29_647, "a test", 0, null, Minutes(120), parts, "a test") };

    private static readonly PrebreathePart Still = new(2 * 29_647, 0, 60);

    [Theory]
    [InlineData(2.0, 0)]
    [InlineData(1.9999, 1)]
    public void PrebreatheRatio_AtTheLimitAndBelow(double limit, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("prebreathe.ratio", Limited(Breathing(Still), "prebreathe.ratio", Dimension.Count, limit), Walk);
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Equal(("2.0000", "1.9999"), (findings[0].Measured, findings[0].Limit));
    }

    [Fact]
    public void PrebreatheRatio_WithExercise_IsANoteAndNotChecked()
    {
        Scenario scenario = Limited(Breathing(Still with { Exercise = true }), "prebreathe.ratio", Dimension.Count, 1.5);
        Finding finding = Judged.One("prebreathe.ratio", scenario, Walk);
        Assert.Equal(Severity.Note, finding.Severity);
        Assert.Contains("for information only", finding.Sentence);
        Assert.Contains(Judge.Of(scenario, [(Walk, Player.Play(scenario, Walk))]).NotChecked, words => words.StartsWith("prebreathe.ratio: ", StringComparison.Ordinal));
    }

    // 10 min of air at the rule of two ask for 20 min more: 140 min breathed beside 120 planned pay it, a second less does not.
    [Theory]
    [InlineData(80, 0)]
    [InlineData(79.98, 1)]
    public void PrebreatheBreak_PaidBackAndNot(double after, int found)
    {
        PrebreathePart oxygen = new(101_325, 1, 60), air = new(101_325, 0.21, 10, IsBreak: true);
        Scenario scenario = Limited(Breathing(oxygen, air, oxygen with { Minutes = after }), "prebreathe.break", Dimension.Time, 120);
        Assert.Equal(found, Judged.By("prebreathe.break", scenario, Walk).Length);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 2)]
    public void CrewDay_AtTheLimitAndASecondAbove(int less, int found)
    {
        int day = 4 * 3600 + End.Seconds + 1800;
        Scenario scenario = (Suited with { Days = [new([new("EV1"), new("EV2")], At("-4:00"), Minutes(30), "a test")] }).WithLimit("crew.day", day - less);
        ImmutableArray<Finding> findings = Judged.By("crew.day", scenario, Walk);
        Assert.Equal(found, findings.Length);
        Assert.All(findings, finding => Assert.Equal("-1 s", finding.Margin));
    }

    [Fact]
    public void Rules_WithoutTheirFigures_AreSaidNotToBeChecked()
    {
        string NotChecked(Scenario scenario) => string.Join('\n', Judge.Of(scenario, [(Walk, Player.Play(scenario, Walk))]).NotChecked);
        string bare = NotChecked(Skerry);
        Assert.All(["work.rate", "suit.reserve", "carbon.dioxide", "water.pressure", "prebreathe.ratio", "prebreathe.break", "crew.day"], rule => Assert.Contains($"{rule}: ", bare));
        Scenario alone = Limited(With(Suited, use => use with { People = [new("EV1")], Helmet = null }), "carbon.dioxide", Dimension.Pressure, 400);
        string told = NotChecked(alone);
        Assert.Contains("suit.reserve: EV2's suit is not described", told);
        Assert.Contains("carbon.dioxide: what flows through EV1's helmet is not described", told);
        Assert.Contains("suit.reserve: heat that the bodies of EV1 store", told);
    }

    // Reserve reached at 1:00:00 at 50 W: the half hour's limit until 0:30, then what is left.
    [Fact]
    public void Ceiling_OfAReserveBeforeTheCutOff_ClosesThere()
    {
        Trace trace = Player.Play(Holding(50.0 * (At("1:00").Seconds + 1800)), Walk);
        Assert.Equal(new CutOff(new("EV1"), At("1:00"), "reserve of EV1's battery", "a test"), trace.CutOffs[0]);
        Assert.Equal(At("7:00"), trace.CutOffs[1].At);
        Assert.Equal([(At("0:00"), 1800, 1800), (At("0:30"), 1800, 3600 - End.Seconds)], trace.Ceiling.Select(piece => (piece.From, (int)piece.FromSeconds, (int)piece.ToSeconds)));
        Assert.Equal("reserve of EV1's battery", trace.Ceiling[1].Binds);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    public void ReturnOne_AgainstTheReserve_IsFoundByTheSecond(int less, int found)
    {
        // EV1 comes in last; whatever EV1 does, that moment is the earliest at which the curve ends.
        Trace played = Player.Play(Suited, Walk);
        int inside = played.Returns.Single(curve => curve.Kind == ReturnKind.One && curve.Person == new PersonId("EV1")).Points.Where(point => point.Seconds > 0).Max(point => point.At.Seconds + (int)Math.Ceiling(point.Seconds));
        Scenario scenario = Holding(50.0 * (inside - less + 1800)).WithLimit("suit.reserve", 1800);
        ImmutableArray<Finding> findings = [.. Judged.By("return.one", scenario, Walk).Where(finding => finding.Severity == Severity.Broken)];
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Contains("the reserve of EV1's battery is reached at", findings[0].Sentence);
    }
}
