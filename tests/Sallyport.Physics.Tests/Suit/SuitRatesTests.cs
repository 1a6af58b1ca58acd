using Sallyport.Model;
using Sallyport.Physics;
using Xunit;
using static Sallyport.Tests.Physics.SuitExamples;

namespace Sallyport.Tests.Physics;

public class SuitRatesTests
{
    private static readonly SuitState Own = SuitState.OnItsOwn(Lights);

    // 75.439 g/h of oxygen and 36 g/h of leak; (300 + 50 + 60) W / 2500.910 kJ/kg of water.
    [Fact, Reference("energetics"), Reference("water")]
    public void Of_ASuitThatLeaks_AddsOxygenAndHeat()
    {
        SuitRates rates = SuitRates.Of(Plain with { OxygenLeakKilogramsPerSecond = new(0, 1e-5, 2e-5), HeatLeakWatts = new(-40, 60, 100) }, Exertion.Light, Own);
        Assert.Equal(0.075439, rates.Oxygen.Low * 3600, 0.0000005);
        Assert.Equal(0.075439 + 0.036, rates.Oxygen.Likely * 3600, 0.0000005);
        Assert.Equal(0.075439 + 0.072, rates.Oxygen.High * 3600, 0.0000005);
        Assert.Equal(310 / 2500910.0, rates.Feedwater.Low, 1e-12);
        Assert.Equal(410 / 2500910.0, rates.Feedwater.Likely, 1e-12);
        Assert.Equal(450 / 2500910.0, rates.Feedwater.High, 1e-12);
    }

    // Each supply is drawn on by its own switch and by no other.
    [Theory]
    [InlineData(true, false, false)]
    [InlineData(false, true, false)]
    [InlineData(false, false, true)]
    public void Of_OneSupplyOff_StopsThatOneAlone(bool oxygenOff, bool powerOff, bool waterOff)
    {
        SuitRates all = SuitRates.Of(Spread, Exertion.Moderate, Own);
        SuitState state = Own with { OwnOxygen = !oxygenOff, OwnPower = !powerOff, WaterOn = !waterOff };
        SuitRates some = SuitRates.Of(Spread, Exertion.Moderate, state);
        Assert.Equal(oxygenOff ? default : all.Oxygen, some.Oxygen);
        Assert.Equal(powerOff ? default : all.Battery, some.Battery);
        Assert.Equal(waterOff ? default : all.Feedwater, some.Feedwater);
        Assert.Equal(all.CarbonDioxide, some.CarbonDioxide);
    }

    [Fact]
    public void Of_TheSuitOff_DrawsNothingAndTheBodyGoesOn()
    {
        SuitRates rates = SuitRates.Of(Plain, Exertion.Rest, SuitState.OutOfSuit);
        Assert.All(Enum.GetValues<Consumable>(), kind => Assert.Equal(default, rates.Of(kind)));
        Assert.Equal(300, rates.MetabolicWatts.Likely);
        Assert.True(rates.CarbonDioxideGiven.Likely > 0);
    }

    [Theory]
    [InlineData(Exertion.Rest, 120)]
    [InlineData(Exertion.Translate, 250)]
    [InlineData(Exertion.Light, 200)]
    [InlineData(Exertion.Moderate, 300)]
    [InlineData(Exertion.Heavy, 450)]
    public void Watts_OfEachClass_AreItsOwnTimesThePersonFactor(Exertion exertion, double watts)
    {
        Assert.Equal(watts, Spread.Rates.Watts(exertion, Exactly(1)).Likely);
        Assert.Equal(watts * 1.5, Spread.Rates.Watts(exertion, Exactly(1.5)).Likely, 1e-9);
    }

    [Theory]
    [InlineData(WorkClass.Rest, Exertion.Rest)]
    [InlineData(WorkClass.Light, Exertion.Light)]
    [InlineData(WorkClass.Moderate, Exertion.Moderate)]
    [InlineData(WorkClass.Heavy, Exertion.Heavy)]
    public void Of_AStepsClass_IsTheExertionOfThatName(WorkClass work, Exertion exertion) => Assert.Equal(exertion, WorkRates.Of(work));

    [Fact]
    public void Of_NoSuchClass_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => WorkRates.Of((WorkClass)99));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plain.Rates.Watts((Exertion)99, Exactly(1)));
    }
}
