using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class EvaporationTests
{
    [Theory, Reference("water")]
    [InlineData(0.01, 2500.910)]
    [InlineData(2, 2496.175)]
    [InlineData(4, 2491.425)]
    [InlineData(5, 2489.052)]
    [InlineData(10, 2477.209)]
    [InlineData(20, 2453.550)]
    public void JoulesPerKilogram_OfTheCard_IsExact(double celsius, double kilojoules) =>
        Assert.Equal(kilojoules, Evaporation.JoulesPerKilogram(celsius + 273.15) / 1000, 1e-9);

    // The other formulation differs by 0.022 kJ/kg at 10 °C.
    [Theory, Reference("water")]
    [InlineData(0.01, 2500.915)]
    [InlineData(10, 2477.187)]
    public void JoulesPerKilogram_OfTheScientificFormulation_AgreesWithin30JoulesAGram(double celsius, double kilojoules) =>
        Assert.Equal(kilojoules, Evaporation.JoulesPerKilogram(celsius + 273.15) / 1000, 0.030);

    [Fact, Reference("water")]
    public void KilogramsPerSecond_300Watts_IsThatOfTheCard() =>
        Assert.Equal(0.43184, Evaporation.KilogramsPerSecond(Estimate.Exactly(300), 273.16).Likely * 3600, 0.000005);

    // Between rows the line would tell a little too much heat for a kilogram, hence too little water: what is taken off keeps it on the safe side.
    [Fact, Reference("water")]
    public void JoulesPerKilogram_BetweenRows_LiesBelowTheLineByTheErrorStated()
    {
        Assert.Equal((2489.052 + 2477.209) / 2 - 0.010, Evaporation.JoulesPerKilogram(7.5 + 273.15) / 1000, 1e-9);
        // Skipping a row shows that the curve is hollow: the line from 0.01 to 4 °C lies above the row at 2 °C, by 4 J/kg.
        Assert.InRange(2500.910 + (2491.425 - 2500.910) * 1.99 / 3.99 - 2496.175, 0.0, 0.010);
    }

    [Fact]
    public void KilogramsPerSecond_OfASuitThatLosesHeat_IsNone() => Assert.Equal(default, Evaporation.KilogramsPerSecond(new(-50, -20, -1), 280));

    [Theory]
    [InlineData(273.15)]
    [InlineData(293.16)]
    [InlineData(double.NaN)]
    public void JoulesPerKilogram_OutsideTheRows_IsRefused(double kelvin) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Evaporation.JoulesPerKilogram(kelvin));
}
