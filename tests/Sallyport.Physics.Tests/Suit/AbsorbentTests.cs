using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class AbsorbentTests
{
    // Five decimals, so half of the last one.
    [Fact, Reference("absorbents")]
    public void Ratios_OfTheReactions_AreThoseOfTheCard()
    {
        Assert.Equal(0.91888, Absorbent.LithiumHydroxide.CarbonDioxidePerMass, 0.000005);
        Assert.Equal(1.08828, 1 / Absorbent.LithiumHydroxide.CarbonDioxidePerMass, 0.000005);
        Assert.Equal(0.40935, Absorbent.LithiumHydroxide.WaterPerCarbonDioxide, 0.000005);
        Assert.Equal(0.18991, Absorbent.SilverOxide.CarbonDioxidePerMass, 0.000005);
        Assert.Equal(0, Absorbent.SilverOxide.WaterPerCarbonDioxide);
    }

    // The wrong figure of the card: 4 kg for a kilogram. Used to the last grain, a kilogram takes less than one.
    [Fact, Reference("absorbents")]
    public void CartridgeKilograms_OfAKilogramUsedUp_IsFarFromTheWrongFigure() =>
        Assert.InRange(Absorbent.LithiumHydroxide.CartridgeKilograms(1, 1), 0.9, 0.92);

    [Fact]
    public void CartridgeKilograms_HalfUsed_IsHalf() =>
        Assert.Equal(Absorbent.SilverOxide.CartridgeKilograms(14, 1) / 2, Absorbent.SilverOxide.CartridgeKilograms(14, 0.5), 1e-12);

    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(-1, 0.5)]
    [InlineData(1, 0)]
    [InlineData(1, 1.01)]
    [InlineData(1, double.NaN)]
    public void CartridgeKilograms_BadFigure_IsRefused(double kilograms, double used) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Absorbent.LithiumHydroxide.CartridgeKilograms(kilograms, used));
}
