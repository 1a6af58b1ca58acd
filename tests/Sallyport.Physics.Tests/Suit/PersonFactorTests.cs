using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;
using static Sallyport.Tests.Physics.SuitExamples;

namespace Sallyport.Tests.Physics;

public class PersonFactorTests
{
    private static readonly PersonFactor Prior = new(1, 0.15);
    private static readonly ImmutableArray<SuitStretch> Plan = Walk(Exertion.Light);

    // 1.645 standard deviations leave one in twenty on either side (a table of the normal distribution).
    [Fact]
    public void ToEstimate_LeavesOneInTwentyOnEitherSide()
    {
        Estimate estimate = new PersonFactor(1.1, 0.2).ToEstimate();
        Assert.Equal(1.1, estimate.Likely);
        Assert.Equal(1.645, Math.Log(estimate.High / 1.1) / 0.2, 0.0005);
        Assert.Equal(-1.645, Math.Log(estimate.Low / 1.1) / 0.2, 0.0005);
    }

    [Fact]
    public void Refit_ExactReadingsAndRates_FindTheTrueFactor() =>
        Gen.Double[0.6, 1.6].Sample(factor =>
        {
            PersonFactor after = Prior.Refit(Spread, Plan, Readings(factor, 1e-7), 0);
            Assert.Equal(factor, after.Median, 1e-4);
            Assert.True(after.LogSigma < 1e-4);
        });

    [Fact]
    public void Refit_ReadingsThatTellNothing_LeaveThePrior()
    {
        PersonFactor after = Prior.Refit(Spread, Plan, Readings(1.4, 1e4), 0.05);
        Assert.Equal(Prior.Median, after.Median, 1e-6);
        Assert.Equal(Prior.LogSigma, after.LogSigma, 1e-6);
    }

    // Equal weights: the middle, on the scale of the logarithm, and a spread smaller by the root of two.
    [Fact]
    public void Refit_RatesAsUncertainAsThePrior_EndHalfWay()
    {
        PersonFactor after = Prior.Refit(Spread, Plan, Readings(1.21, 1e-9), 0.15);
        Assert.Equal(1.1, after.Median, 1e-6);
        Assert.Equal(0.15 / Math.Sqrt(2), after.LogSigma, 1e-6);
    }

    // A reading that is far off, and known to be poor, moves nothing; known to be good, it would.
    [Fact]
    public void Refit_APoorReading_CountsForLittle()
    {
        ImmutableArray<OxygenReading> good = Readings(1.2, 1e-5);
        double With(double error) => Prior.Refit(Spread, Plan, good.SetItem(2, good[2] with { LeftKilograms = good[2].LeftKilograms - 0.1, ErrorKilograms = error }), 0).Median;
        Assert.Equal(1.2, With(10), 1e-3);
        Assert.True(Math.Abs(With(1e-5) - 1.2) > 0.02);
    }

    // However many readings, the spread of the rates themselves stays.
    [Fact]
    public void Refit_Always_LiesBetweenPriorAndReadingsAndIsNarrower() =>
        Gen.Select(Gen.Double[0.6, 1.6], Gen.Double[1e-4, 0.02], Gen.Double[0.01, 0.2]).Sample((factor, error, model) =>
        {
            PersonFactor after = Prior.Refit(Spread, Plan, Readings(factor, error), model);
            Assert.InRange(after.Median, Math.Min(1, factor) - 1e-9, Math.Max(1, factor) + 1e-9);
            Assert.True(after.LogSigma < Prior.LogSigma);
            Assert.True(after.LogSigma >= 1 / Math.Sqrt(1 / (0.15 * 0.15) + 1 / (model * model)) - 1e-12);
        });

    [Fact]
    public void Refit_ReadingsOfAHardWorker_BringTheCutOffForward()
    {
        Pet CutOff(PersonFactor factor) =>
            SuitUse.Over(Spread with { PersonFactor = factor.ToEstimate() }, Plan, At("6:00"), SuitAmounts.None).CutOff(Level.High)!.At;
        Assert.True(CutOff(Prior.Refit(Spread, Plan, Readings(1.5, 0.002), 0.05)) < CutOff(Prior));
        Assert.True(CutOff(Prior.Refit(Spread, Plan, Readings(0.8, 0.002), 0.05)) > CutOff(Prior));
    }

    [Fact]
    public void Refit_BadReadings_AreRefused()
    {
        ImmutableArray<OxygenReading> good = Readings(1, 0.01);
        void Refused(string words, ImmutableArray<OxygenReading> readings) =>
            Assert.Contains(words, Assert.ThrowsAny<ArgumentException>(() => Prior.Refit(Spread, Plan, readings, 0.05)).Message);
        Refused("the readings are out of order: 1:00 after 3:00", [good[0], good[2], good[1]]);
        Refused("the readings are out of order: 1:00 after 1:00", [good[1], good[1]]);
        Refused("at least two readings of oxygen, found 1", [good[0]]);
        Refused("oxygen left rises from 0:00 to 3:00", [good[0] with { LeftKilograms = 0.3 }, good[2] with { LeftKilograms = 0.5 }]);
        Refused("0.7 kg of oxygen left at 0:00, of 0.6 kg aboard", good.SetItem(0, good[0] with { LeftKilograms = 0.7 }));
        Refused("-0.1 kg of oxygen left", good.SetItem(3, good[3] with { LeftKilograms = -0.1 }));
        Refused("has no error above zero", good.SetItem(1, good[1] with { ErrorKilograms = 0 }));
        Refused("expected a moment from -2:00 to 6:30", good.Add(new(At("7:00"), 0, 0.01)));
        Refused("at no time between the readings", [new(At("-2:00"), 0.6, 0.01), new(At("-1:30"), 0.6, 0.01)]);
        Refused("at no time between the readings", [new(At("6:01"), 0.1, 0.01), new(At("6:10"), 0.1, 0.02), new(At("6:29"), 0.1, 0.01)]);
        Refused("less oxygen was used than leaks", [good[0], good[3] with { LeftKilograms = good[0].LeftKilograms }]);
    }

    [Theory]
    [InlineData(0, 0.1)]
    [InlineData(double.NaN, 0.1)]
    [InlineData(1, 0)]
    [InlineData(1, 2.1)]
    public void ToEstimate_OfNoFactor_IsRefused(double median, double sigma) =>
        Assert.Throws<ArgumentException>(() => new PersonFactor(median, sigma).ToEstimate());

    /// <summary>What a person of that factor would leave at 0:00, 1:00, 3:00 and 5:00, at likely rates.</summary>
    private static ImmutableArray<OxygenReading> Readings(double factor, double error)
    {
        ConsumableCurve oxygen = SuitUse.Over(Spread with { PersonFactor = Exactly(factor), Aboard = Spread.Aboard with { Oxygen = 2 } }, Plan, At("6:00"), SuitAmounts.None)
            .Of(Consumable.Oxygen);
        return [.. new[] { "0:00", "1:00", "3:00", "5:00" }.Select(at => new OxygenReading(At(at), 0.6 - oxygen.UsedAt(At(at)).Likely, error))];
    }
}
