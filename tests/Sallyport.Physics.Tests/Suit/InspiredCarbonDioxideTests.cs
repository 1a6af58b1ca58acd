using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;
using static Sallyport.Tests.Physics.SuitExamples;

namespace Sallyport.Tests.Physics;

/// <summary>No published figure was found to hold the balance against: these hold it against itself.</summary>
public class InspiredCarbonDioxideTests
{
    private static readonly Ventilation Fan = new(0.17 / 60, 290, 1, 20);
    private static readonly Duration Hour = Duration.FromMinutes(60);

    // By hand: 1 mol/h over 10.2 m³/h at 290 K is 8.314463 x 290 / 10.2 = 236.39 Pa, and 20 Pa from the cartridge.
    [Fact]
    public void InspiredPascals_OfAMoleAnHour_IsTheGasLaw() => Assert.Equal(256.39, Fan.InspiredPascals(0.044009 / 3600), 0.005);

    [Fact]
    public void InspiredPascals_LessFlowOrMoreGiven_IsNeverLower() =>
        Gen.Select(Gen.Double[1e-6, 1e-4], Gen.Double[1, 3], Gen.Double[0.1, 1]).Sample((rate, more, less) =>
        {
            double pascals = Fan.InspiredPascals(rate);
            Assert.True(Fan.InspiredPascals(rate * more) >= pascals);
            Assert.True((Fan with { CubicMetresPerSecond = Fan.CubicMetresPerSecond * less }).InspiredPascals(rate) >= pascals);
            Assert.True((Fan with { Mixing = less }).InspiredPascals(rate) <= pascals);
        });

    // The suit is closed from -1:00 to 6:30; before, nothing is said.
    [Fact]
    public void MeansOver_AWalk_AreThoseOfTheClosedSuitAtItsOneRate()
    {
        SuitUse use = SuitUse.Over(Plain, Walk(Exertion.Light), At("6:00"), SuitAmounts.None);
        InspiredMeans means = Fan.MeansOver(use, Hour, Level.High);
        Assert.Null(means.HoldsUntil);
        Assert.Equal(At("0:00"), means.Means[0].To);
        Assert.Equal(At("6:30"), means.Means[^1].To);
        double expected = Fan.InspiredPascals(use.Rates[0].CarbonDioxideGiven.High);
        Assert.All(means.Means, mean => Assert.Equal(expected, mean.Mean, 1e-9));
    }

    // Half a window open and shut again: two spells, neither mixed with the cabin's air nor with the other.
    [Fact]
    public void MeansOver_TwoSpells_KeepsThemApart()
    {
        ImmutableArray<SuitStretch> walk = Walk(Exertion.Light);
        walk = walk.Add(new(At("6:30"), At("6:40"), Exertion.Rest, SuitState.OutOfSuit)).Add(new(At("6:40"), At("7:00"), Exertion.Rest, SuitState.OnUmbilical(Dark, false)));
        InspiredMeans means = Fan.MeansOver(SuitUse.Over(Spread, walk, At("6:00"), SuitAmounts.None), Hour, Level.Likely);
        Assert.Equal((At("7:00"), false), (means.Means[^1].To, means.Means[^1].IsWhole));
        Assert.Equal((At("6:30"), true), (means.Means[^2].To, means.Means[^2].IsWhole));
    }

    // 88.194 g/h fill 441 g in 5 h, from -1:00 on.
    [Fact, Reference("energetics")]
    public void MeansOver_AFullCartridge_HoldsNoLonger()
    {
        SuitProfile small = Plain with { Aboard = Plain.Aboard with { CarbonDioxide = 0.088194 * 5 } };
        InspiredMeans means = Fan.MeansOver(SuitUse.Over(small, Walk(Exertion.Light), At("6:00"), SuitAmounts.None), Hour, Level.High);
        Assert.InRange(means.HoldsUntil!.Value.Seconds, At("4:00").Seconds - 1, At("4:00").Seconds + 1);
    }

    [Fact]
    public void MeansOver_ASuitNeverClosed_IsRefused() =>
        Assert.Contains("is not known", Assert.Throws<ArgumentException>(() =>
            Fan.MeansOver(SuitUse.Over(Plain, [Walk(Exertion.Light)[0]], At("-1:00"), SuitAmounts.None), Hour, Level.High)).Message);

    [Fact]
    public void InspiredPascals_BadFigure_IsRefused()
    {
        void Refused(string words, Ventilation fan, double rate = 1e-5) =>
            Assert.Contains(words, Assert.ThrowsAny<ArgumentException>(() => fan.InspiredPascals(rate)).Message);
        Refused("ventilation", Fan with { CubicMetresPerSecond = 0 });
        Refused("temperature", Fan with { Kelvin = 0 });
        Refused("mixing", Fan with { Mixing = 1.1 });
        Refused("cartridge outlet", Fan with { CartridgeOutletPascals = -1 });
        Refused("rate", Fan, -1e-5);
    }
}
