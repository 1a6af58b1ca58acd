using CsCheck;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Tests.Physics;

public class EstimateTests
{
    [Theory]
    [InlineData(2, 1, 3)]
    [InlineData(1, 3, 2)]
    [InlineData(double.NaN, 1, 2)]
    [InlineData(0, 1, double.PositiveInfinity)]
    public void Estimate_NotRising_IsRefused(double low, double likely, double high) => Assert.Throws<ArgumentException>(() => new Estimate(low, likely, high));

    [Fact]
    public void Estimate_TimesAFigureBelowZero_IsRefused() => Assert.Throws<ArgumentException>(() => new Estimate(-1, 0, 1).Times(2));

    // Whatever the two true figures are, their sum and product lie within.
    [Fact]
    public void Estimate_OfSumsAndProducts_HoldsThoseOfTheTrueFigures() =>
        Gen.Select(AnyEstimate, AnyEstimate, Gen.Double[0, 1], Gen.Double[0, 1]).Sample((one, other, first, second) =>
        {
            double a = one.Low + (one.High - one.Low) * first, b = other.Low + (other.High - other.Low) * second;
            Assert.InRange(a + b, one.Plus(other).Low - 1e-9, one.Plus(other).High + 1e-9);
            Assert.InRange(a * b, one.Times(other).Low - 1e-9, one.Times(other).High + 1e-9);
            Assert.Equal(one.Likely * other.Likely, one.Times(other)[Level.Likely]);
        });

    private static readonly Gen<Estimate> AnyEstimate = Gen.Double[0, 100].Array[3].Select(figures =>
    {
        Array.Sort(figures);
        return new Estimate(figures[0], figures[1], figures[2]);
    });
}
