using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class PrebreatheTests
{
    private const double Psi = 6894.757293168;

    /// <summary>Dry gas, as every figure of the card.</summary>
    private static readonly InertGas Standard = From(11.6, 4.3);

    // Computed to five decimals of a psi and of the ratio: half of the last one; four decimals where the card has four.
    [Theory, Reference("inert-gas")]
    [InlineData(60, 10.33443, 2.40335)]
    [InlineData(120, 9.20693, 2.14115)]
    [InlineData(180, 8.20244, 1.90754)]
    [InlineData(240, 7.30754, 1.69943)]
    [InlineData(300, 6.51028, 1.51402)]
    [InlineData(360, 5.80000, 1.34884)]
    public void Over_OxygenOnly_IsTheTensionAndRatioOfTheCard(double minutes, double psi, double ratio)
    {
        PrebreatheStep step = Run(Standard, Oxygen(minutes)).Steps[^1];
        Assert.Equal(psi, step.TensionPascals / Psi, 0.000005);
        Assert.Equal(ratio, step.Ratio, 0.000005);
    }

    [Theory, Reference("inert-gas")]
    [InlineData(11.6, 210, 1.8005)]
    [InlineData(11.4778, 210, 1.7815)]
    [InlineData(11.6, 480, 1.0706)]
    public void Over_OxygenOnlyFromAStatedStart_IsTheRatioOfTheCard(double start, double minutes, double ratio) =>
        Assert.Equal(ratio, Run(From(start, 4.3), Oxygen(minutes)).Steps[^1].Ratio, 0.00005);

    // The start is 0.7808 x 14.7 psi, which the card rounds to 11.4778.
    [Fact, Reference("inert-gas")]
    public void Over_OxygenOnlyFromTheOtherStart_IsTheTensionAndRatioOfTheCard()
    {
        PrebreatheStep step = Run(From(0.7808 * 14.7, 4.3), Oxygen(240)).Steps[^1];
        Assert.Equal(7.23054, step.TensionPascals / Psi, 0.000005);
        Assert.Equal(1.68152, step.Ratio, 0.000005);
    }

    [Theory, Reference("inert-gas")]
    [InlineData(12, 8.20636, 75, 7.10290, 1.65184)]
    [InlineData(24, 7.67434, 40, 7.10548, 1.65244)]
    public void Over_OxygenThenANightAtLowerPressureThenOxygen_IsTheTensionAndRatioOfTheCard(
        double hours, double afterNight, double minutes, double psi, double ratio)
    {
        ImmutableArray<PrebreatheStep> steps = Run(Standard, Oxygen(60), new(10.2 * Psi, 0.265, hours * 60), Oxygen(minutes)).Steps;
        Assert.Equal(10.33443, steps[0].TensionPascals / Psi, 0.000005);
        Assert.Equal(afterNight, steps[1].TensionPascals / Psi, 0.000005);
        Assert.Equal(psi, steps[2].TensionPascals / Psi, 0.000005);
        Assert.Equal(ratio, steps[2].Ratio, 0.000005);
        Assert.Equal(60 + hours * 60 + minutes, steps[2].EndMinutes);
    }

    // Schedules of the chamber tests.
    [Theory, Reference("inert-gas")]
    [InlineData(0, 12, 0.265, 40, 4.3, 1.8351)]
    [InlineData(0, 12, 0.265, 90, 4.3, 1.6667)]
    [InlineData(45, 12, 0.265, 40, 4.3, 1.7833)]
    [InlineData(120, 24, 0.28, 0, 6.0, 1.2434)]
    public void Over_SchedulesOfTheChamber_HaveTheRatioOfTheCard(double before, double hours, double share, double after, double suit, double ratio)
    {
        PrebreathePart[] parts = [.. new[] { Oxygen(before), new(10.2 * Psi, share, hours * 60), Oxygen(after) }.Where(part => part.Minutes > 0)];
        Assert.Equal(ratio, Run(From(11.6, suit), parts).Steps[^1].Ratio, 0.00005);
    }

    [Fact, Reference("inert-gas")]
    public void Over_AirAtTheStartOwnTension_ChangesNothing()
    {
        InertGas air = From(11.6, 4.3);
        PrebreatheStep step = Run(air, new PrebreathePart(14.7 * Psi, 1 - 11.6 / 14.7, 600)).Steps[^1];
        Assert.Equal(2.69767, step.Ratio, 0.000005);
        Assert.Equal(11.6, step.TensionPascals / Psi, 1e-9);
    }

    [Theory, Reference("inert-gas")]
    [InlineData(1.68, 245.97)]
    [InlineData(1.65, 255.33)]
    [InlineData(1.40, 340.66)]
    [InlineData(1.22, 412.14)]
    public void MinutesToRatio_OnOxygen_AreThoseOfTheCard(double ratio, double minutes) =>
        Assert.Equal(minutes, Standard.MinutesToRatio(ratio, 14.7 * Psi, 1)!.Value, 0.005);

    [Fact]
    public void MinutesToRatio_ThenThatLong_IsTheRatio() =>
        Gen.Select(Gen.Double[0.5, 2.6], Gen.Double[0.6, 1], Gen.Double[4.3, 14.7]).Sample((ratio, share, psi) =>
        {
            double? minutes = Standard.MinutesToRatio(ratio, psi * Psi, share);
            if (psi * (1 - share) >= ratio * 4.3) Assert.Null(minutes);
            else Assert.Equal(ratio, Run(Standard, new PrebreathePart(psi * Psi, share, minutes!.Value)).Steps[0].Ratio, 1e-9);
        });

    [Fact]
    public void MinutesToRatio_ThereAlready_IsNone() => Assert.Equal(0, Standard.MinutesToRatio(2.7, 14.7 * Psi, 0.21));

    [Fact]
    public void Over_MoreOxygenOrLessPressureOrLonger_NeverHasAHigherRatioOnPureOxygenAfter() =>
        Gen.Select(Gen.Double[0.21, 0.9], Gen.Double[0, 0.1], Gen.Double[8, 14.7], Gen.Double[0, 3], Gen.Double[1, 900]).Sample((share, more, psi, less, minutes) =>
        {
            double ratio = Run(Standard, new(psi * Psi, share, minutes), Oxygen(30)).Steps[^1].Ratio;
            Assert.True(Run(Standard, new((psi - less) * Psi, share + more, minutes), Oxygen(30)).Steps[^1].Ratio <= ratio + 1e-12);
            Assert.True(Run(Standard, new(psi * Psi, share, minutes), Oxygen(31)).Steps[^1].Ratio < ratio);
        });

    // A part told in two is the same part.
    [Fact]
    public void Over_APartCutInTwo_EndsTheSame() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[4, 15], Gen.Double[1, 500], Gen.Double[1, 500]).Sample((share, psi, first, second) =>
            Assert.Equal(
                Run(Standard, new PrebreathePart(psi * Psi, share, first + second)).Steps[^1].TensionPascals,
                Run(Standard, new(psi * Psi, share, first), new(psi * Psi, share, second)).Steps[^1].TensionPascals, 1e-6));

    // The rule asks for twice the length; the compartment alone would ask for less, and the longer one counts.
    [Fact, Reference("inert-gas")]
    public void Penalty_OfABreakInAir_IsTwiceItsLength()
    {
        BreakPenalty penalty = Standard.Over([Oxygen(100), Air(10), Oxygen(140)], 2).Penalty;
        Assert.Equal(10, penalty.BreakMinutes);
        Assert.Equal(20, penalty.ByRuleMinutes);
        Assert.InRange(penalty.ByTensionMinutes!.Value, 0.1, 20);
        Assert.Equal(20, penalty.Minutes);
    }

    [Fact]
    public void Penalty_WhenTheCompartmentAsksForMore_IsWhatItAsksFor()
    {
        BreakPenalty penalty = Standard.Over([Oxygen(900), Air(60), Oxygen(60)], 1).Penalty;
        Assert.True(penalty.ByTensionMinutes > 60);
        Assert.Equal(penalty.ByTensionMinutes, penalty.Minutes);
    }

    [Fact]
    public void Penalty_OnceGivenBack_BringsTheTensionBackToWhereItWas() =>
        Gen.Select(Gen.Double[30, 400], Gen.Double[1, 60], Gen.Double[30, 300], Gen.Double[1, 60], Gen.Double[30, 300]).Sample((before, pause, between, second, after) =>
        {
            double owed = Standard.Over([Oxygen(before), Air(pause), Oxygen(between), Air(second), Oxygen(after)], 1).Penalty.ByTensionMinutes!.Value;
            Assert.Equal(
                Run(Standard, Oxygen(before + between + after)).Steps[^1].TensionPascals,
                Run(Standard, Oxygen(before), Air(pause), Oxygen(between), Air(second), Oxygen(after + owed)).Steps[^1].TensionPascals, 1e-6);
        });

    [Fact]
    public void Penalty_WhenTheGasBeforeNeverGivesItBack_IsNotKnown() =>
        Assert.Null(Run(Standard, Oxygen(400), new(10.2 * Psi, 0.265, 60), Air(30)).Penalty.Minutes);

    [Fact]
    public void Penalty_WithoutABreak_IsNone() => Assert.Equal(new(0, 0, 0), Run(Standard, Oxygen(240)).Penalty);

    [Fact]
    public void Over_WithExercise_IsForInformationOnly()
    {
        Assert.False(Run(Standard, Oxygen(50)).IsForInformationOnly);
        Assert.True(Run(Standard, Oxygen(40), Oxygen(10) with { Exercise = true }).IsForInformationOnly);
    }

    [Fact]
    public void Over_WhatTheRatioRestsOn_IsSaidBesideIt()
    {
        PrebreathePart air = Air(30) with { IsBreak = false };
        PrebreatheResult result = Run(Standard with { WaterVapourPascals = 6266 }, air);
        Assert.Equal(("11.6 psi", 6266), (result.StartIs, result.WaterVapourPascals));
        Assert.True(result.Steps[^1].Ratio < Run(Standard, air).Steps[^1].Ratio);
    }

    [Fact]
    public void Over_BadFigure_IsRefusedAndNamed()
    {
        void Refused(string words, InertGas gas, params PrebreathePart[] parts) =>
            Assert.Contains(words, Assert.ThrowsAny<ArgumentException>(() => Run(gas, parts)).Message);
        Refused("part 2: an oxygen share of 1.01", Standard, Oxygen(10), new(14.7 * Psi, 1.01, 10));
        Refused("part 1: an oxygen share of -0.1", Standard, new PrebreathePart(14.7 * Psi, -0.1, 10));
        Refused("part 1: 0 min", Standard, Oxygen(0));
        Refused("part 1: NaN min", Standard, Oxygen(double.NaN));
        Refused("part 1: 0 Pa", Standard, new PrebreathePart(0, 1, 10));
        Refused("part 1: 5000 Pa is not above the water vapour", Standard with { WaterVapourPascals = 6266 }, new PrebreathePart(5000, 1, 10));
        Refused("part 1: a break with nothing before it", Standard, Air(10));
        Refused("at least one part", Standard);
        Refused("suit pressure", Standard with { SuitPascals = 0 }, Oxygen(10));
        Refused("half-time", Standard with { HalfTimeMinutes = 0 }, Oxygen(10));
        Refused("tension", Standard with { StartPascals = -1 }, Oxygen(10));
        Assert.Contains("at least one minute", Assert.Throws<ArgumentOutOfRangeException>(() => Standard.Over([Oxygen(10)], 0.9)).Message);
        Assert.Throws<ArgumentOutOfRangeException>(() => Standard.MinutesToRatio(0, 14.7 * Psi, 1));
    }

    private static InertGas From(double startPsi, double suitPsi) => new(360, startPsi * Psi, $"{startPsi} psi", suitPsi * Psi);

    private static PrebreathePart Oxygen(double minutes) => new(14.7 * Psi, 1, minutes);

    private static PrebreathePart Air(double minutes) => new(14.7 * Psi, 0.21, minutes, IsBreak: true);

    private static PrebreatheResult Run(InertGas gas, params PrebreathePart[] parts) => gas.Over([.. parts], 2);
}
