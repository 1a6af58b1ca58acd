using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class EnergeticsTests
{
    private const double KilocaloriesPerHour = 1.163;
    private static readonly Gen<double> AnyQuotient = Gen.Double[0.7, 1.2];

    // Computed to five decimals, so half of the last one.
    [Theory, Reference("energetics")]
    [InlineData(0.75, 5.54190, 19.9508)]
    [InlineData(0.80, 5.60952, 20.1943)]
    [InlineData(0.85, 5.67714, 20.4377)]
    [InlineData(0.90, 5.74476, 20.6811)]
    [InlineData(1.00, 5.88000, 21.1680)]
    public void WattHoursPerLitre_OfTheCard_AgreesToItsLastDigit(double quotient, double wattHours, double kilojoules)
    {
        Assert.Equal(wattHours, Energetics.WattHoursPerLitre(quotient), 0.000005);
        Assert.Equal(kilojoules, Energetics.WattHoursPerLitre(quotient) * 3.6, 0.00005);
    }

    // The card's CO2 weighs 44.0095 g/mol and ours 44.009: 1.2e-5 of the mass, which the tolerance of 2 mg/h lets through.
    [Theory, Reference("energetics")]
    [InlineData(0.85, 52.8435, 75.439, 44.9170, 88.194)]
    [InlineData(0.90, 52.2215, 74.551, 46.9994, 92.282)]
    public void Rates_At300Watts_AreThoseOfTheCard(double quotient, double oxygenLitres, double oxygenGrams, double carbonDioxideLitres, double carbonDioxideGrams)
    {
        Estimate watts = Estimate.Exactly(300), rq = Estimate.Exactly(quotient);
        double litres = Energetics.OxygenLitresPerHour(300, quotient);
        Assert.Equal(oxygenLitres, litres, 0.00005);
        Assert.Equal(carbonDioxideLitres, litres * quotient, 0.00005);
        Assert.Equal(oxygenGrams, GramsPerHour(Energetics.OxygenKilogramsPerSecond(watts, rq).Likely), 0.0005);
        Assert.Equal(carbonDioxideGrams, GramsPerHour(Energetics.CarbonDioxideKilogramsPerSecond(watts, rq).Likely), 0.002);
    }

    [Fact, Reference("energetics")]
    public void LitresPerMole_IsThatOfTheCard() => Assert.Equal(22.413970, Energetics.LitresPerMole, 0.0000005);

    // Another rounding of the same formula, found in public code: 0.00276 L/s for one met of 58.2 W on one square metre.
    [Theory, Reference("energetics")]
    [InlineData(0.75)]
    [InlineData(0.85)]
    [InlineData(1.00)]
    public void WattsFromOxygen_OfTheSecondSource_AgreeWithinHalfAPercent(double quotient) =>
        Assert.Equal(58.2, Energetics.WattsFromOxygen(0.00276 * 3600 / (0.23 * quotient + 0.77), quotient), 0.005 * 58.2);

    [Theory, Reference("body-surface")]
    [InlineData(70, 1.70, 1.80548)]
    [InlineData(80, 1.80, 1.99176)]
    public void BodySurface_OfTheCard_AgreesToItsLastDigit(double kilograms, double metres, double area) =>
        Assert.Equal(area, Energetics.BodySurfaceSquareMetres(kilograms, metres), 0.000005);

    // The classes are rounded to 5 W on 1.8 m²; a man of 70 kg and 1.70 m has 1.805 m².
    [Theory, Reference("energetics"), Reference("body-surface")]
    [InlineData(65, 115)]
    [InlineData(100, 180)]
    [InlineData(165, 295)]
    [InlineData(230, 415)]
    [InlineData(290, 520)]
    public void BodySurface_OfAMiddlingMan_GivesTheClassesInWatts(double wattsPerSquareMetre, double watts) =>
        Assert.Equal(watts, wattsPerSquareMetre * Energetics.BodySurfaceSquareMetres(70, 1.70), 5.0);

    // Oxygen of one author against heat of another, over every quotient a body can have.
    [Theory, Reference("walk-oxygen")]
    [InlineData(0.55, 150, 200)]
    [InlineData(0.45, 147.95 - 24.51, 147.95 + 24.51)]
    [InlineData(1.0, 100, 500)]
    public void WattsFromOxygen_OfWalks_LieWhereOthersFoundThem(double litresPerMinute, double least, double most)
    {
        foreach (double quotient in (double[])[0.75, 0.80, 0.85, 0.90, 0.95, 1.0])
            Assert.InRange(Energetics.WattsFromOxygen(litresPerMinute * 60, quotient) / KilocaloriesPerHour, least, most);
    }

    [Fact]
    public void WattsFromOxygen_OfTheOxygenThatARateTakes_IsTheRate() =>
        Gen.Select(Gen.Double[50, 800], AnyQuotient).Sample((watts, quotient) =>
            Assert.Equal(watts, Energetics.WattsFromOxygen(Energetics.OxygenLitresPerHour(watts, quotient), quotient), 1e-9));

    // More oxygen at a low quotient, more carbon dioxide at a high one: whatever the quotient is, neither passes its high figure.
    [Fact]
    public void Rates_OfAnyQuotientWithinTheEstimate_LieWithinLowAndHigh() =>
        Gen.Select(Gen.Double[50, 800], AnyQuotient, AnyQuotient, Gen.Double[0, 1]).Sample((watts, one, other, share) =>
        {
            (double low, double high) = (Math.Min(one, other), Math.Max(one, other));
            double figure = low + (high - low) * share;
            Estimate rate = Estimate.Exactly(watts), range = new(low, Math.Clamp(figure, low, high), high), exact = Estimate.Exactly(Math.Clamp(figure, low, high));
            AssertWithin(Energetics.OxygenKilogramsPerSecond(rate, range), Energetics.OxygenKilogramsPerSecond(rate, exact).Likely);
            AssertWithin(Energetics.CarbonDioxideKilogramsPerSecond(rate, range), Energetics.CarbonDioxideKilogramsPerSecond(rate, exact).Likely);
        });

    [Theory]
    [InlineData(0.69)]
    [InlineData(1.21)]
    [InlineData(double.NaN)]
    public void WattHoursPerLitre_OfAQuotientNoBodyHas_IsRefused(double quotient) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Energetics.WattHoursPerLitre(quotient));

    [Theory]
    [InlineData(0, 1.7)]
    [InlineData(70, 0)]
    [InlineData(double.NaN, 1.7)]
    public void BodySurface_OfNobody_IsRefused(double kilograms, double metres) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Energetics.BodySurfaceSquareMetres(kilograms, metres));

    private static void AssertWithin(Estimate estimate, double figure)
    {
        Assert.True(figure >= estimate.Low * (1 - 1e-12), $"{figure} below {estimate.Low}");
        Assert.True(figure <= estimate.High * (1 + 1e-12), $"{figure} above {estimate.High}");
    }

    private static double GramsPerHour(double kilogramsPerSecond) => kilogramsPerSecond * 3600 * 1000;
}
