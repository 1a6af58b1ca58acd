using CsCheck;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Tests.Model;

public class QuantityTests
{
    private static readonly Gen<Unit> AnyUnit = Gen.Int[0, Units.All.Count - 1].Select(i => Units.All[i]);

    [Theory]
    [InlineData("12 min", Dimension.Time, 720)]
    [InlineData("12min", Dimension.Time, 720)]
    [InlineData("  12   min  ", Dimension.Time, 720)]
    [InlineData("1.5e3 Pa", Dimension.Pressure, 1500)]
    [InlineData("2E-1 m", Dimension.Length, 0.2)]
    [InlineData("-8 turns", Dimension.Count, -8)]
    [InlineData("+3 kg", Dimension.Mass, 3)]
    [InlineData(".5 m", Dimension.Length, 0.5)]
    public void TryParse_NumberAndUnit_GivesTheCanonicalFigure(string text, Dimension dimension, double value)
    {
        Assert.True(Quantity.TryParse(text, dimension, out Quantity quantity, out string? problem));
        Assert.Null(problem);
        Assert.Equal(dimension, quantity.Dimension);
        Assert.Equal(value, quantity.Value, 1e-12);
    }

    [Fact]
    public void TryParse_NumberAndUnit_KeepsTheTextAsWritten()
    {
        Assert.True(Quantity.TryParse(" 14 ft-lbf ", null, out Quantity quantity, out _));
        Assert.Equal("14 ft-lbf", quantity.ToString());
    }

    [Theory]
    [InlineData("", "no number at its start")]
    [InlineData("min", "no number at its start")]
    [InlineData("twelve min", "no number at its start")]
    [InlineData("1.2.3 min", "no number at its start")]
    [InlineData("1-2 min", "no number at its start")]
    [InlineData("NaN min", "no number at its start")]
    [InlineData("∞ min", "no number at its start")]
    [InlineData("1e999 min", "no number at its start")]
    [InlineData("12", "the unit is missing")]
    [InlineData("12 ", "the unit is missing")]
    [InlineData("12 fortnights", "unknown unit 'fortnights'")]
    [InlineData("12 MIN", "unknown unit 'MIN'")]
    [InlineData("1,5 m", "unknown unit ',5 m'")]
    [InlineData("12 min 30 s", "unknown unit 'min 30 s'")]
    [InlineData("5 ft-lbf", "'ft-lbf' measures torque, not time")]
    public void TryParse_BadText_SaysWhatIsWrong(string text, string expected)
    {
        Assert.False(Quantity.TryParse(text, Dimension.Time, out Quantity quantity, out string? problem));
        Assert.Equal(expected, problem);
        Assert.Equal(default, quantity);
    }

    [Fact]
    public void TryParse_AnyUnitWhereAnotherDimensionIsWanted_IsRefused() =>
        Gen.Select(AnyUnit, Gen.Enum<Dimension>()).Sample((unit, wanted) =>
            Quantity.TryParse("1 " + unit.Name, wanted, out _, out _) == (unit.Dimension == wanted));

    [Fact]
    public void TryParse_AnyTextAtAll_EitherReadsAFiniteFigureOrNamesAProblem() =>
        Gen.String.Sample(text =>
            Quantity.TryParse(text, null, out Quantity quantity, out string? problem)
                ? double.IsFinite(quantity.Value) && problem is null
                : problem is { Length: > 0 });
}
