using CsCheck;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Tests.Model;

public class UnitsTests
{
    private static readonly Gen<Unit> AnyUnit = Gen.Int[0, Units.All.Count - 1].Select(i => Units.All[i]);

    // Each is exact by definition or a product of exact figures, so a difference can only be the last bit of a double.
    [Theory, Reference("units")]
    [InlineData("1 ft-lbf", Dimension.Torque, 1.3558179483314004)]
    [InlineData("1 in-lbf", Dimension.Torque, 0.1129848290276167)]
    [InlineData("1 lbf", Dimension.Force, 4.4482216152605)]
    [InlineData("1 ft", Dimension.Length, 0.3048)]
    [InlineData("1 in", Dimension.Length, 0.0254)]
    [InlineData("1 lb", Dimension.Mass, 0.45359237)]
    [InlineData("1 psi", Dimension.Pressure, 6894.757293168)]
    [InlineData("1 mmHg", Dimension.Pressure, 133.322387415)]
    [InlineData("1 Btu", Dimension.Energy, 1055.05585262)]
    [InlineData("0 degC", Dimension.Temperature, 273.15)]
    public void TryParse_UnitDefinedExactly_IsItsDefinition(string text, Dimension dimension, double expected) =>
        AssertWithin(expected, Read(text, dimension), 1e-15 * expected);

    // Printed with seven digits, so half of the last one is what can be held against it.
    [Theory, Reference("units")]
    [InlineData("1 ft-lbf", Dimension.Torque, 1.355818, 0.0000005)]
    [InlineData("1 in-lbf", Dimension.Torque, 0.1129848, 0.00000005)]
    [InlineData("1 Btu", Dimension.Energy, 1055.056, 0.0005)]
    public void TryParse_UnitOfThePrintedTable_AgreesToItsLastDigit(string text, Dimension dimension, double printed, double halfDigit) =>
        AssertWithin(printed, Read(text, dimension), halfDigit);

    // Multiplied out in decimal arithmetic to four decimals of a kilopascal.
    [Theory, Reference("units")]
    [InlineData("4.3 psi", 29.6475)]
    [InlineData("8.2 psi", 56.5370)]
    [InlineData("10.2 psi", 70.3265)]
    [InlineData("14.7 psi", 101.3529)]
    public void TryParse_CabinAndSuitPressures_AgreeWithTheCardInKilopascals(string text, double kilopascals) =>
        AssertWithin(kilopascals, Read(text, Dimension.Pressure) / 1000, 0.00005);

    // 1055.05585262 J / 3600 s, multiplied out to eight decimals.
    [Fact, Reference("units")]
    public void TryParse_OneBtuAnHour_AgreesWithTheCardInWatts() =>
        AssertWithin(0.29307107, Read("1 Btu/h", Dimension.Power), 0.000000005);

    // The two temperatures that both scales fix by definition: freezing 32 °F = 0 °C, and −40 on both.
    [Theory, Reference("units")]
    [InlineData("32 degF", "0 degC")]
    [InlineData("-40 degF", "-40 degC")]
    [InlineData("235 degF", "112.77777777777777 degC")]
    public void TryParse_FahrenheitAndCelsius_MeetWhereTheScalesDo(string fahrenheit, string celsius) =>
        AssertWithin(Read(celsius, Dimension.Temperature), Read(fahrenheit, Dimension.Temperature), 1e-9);

    [Theory]
    [InlineData("h", "60 min")]
    [InlineData("d", "24 h")]
    [InlineData("km", "1000 m")]
    [InlineData("m", "100 cm")]
    [InlineData("cm", "10 mm")]
    [InlineData("ft", "12 in")]
    [InlineData("m/s", "60 m/min")]
    [InlineData("ft/min", "0.3048 m/min")]
    [InlineData("kg", "1000 g")]
    [InlineData("m3", "1000 L")]
    [InlineData("ft3", "28.316846592 L")]
    [InlineData("ft-lbf", "12 in-lbf")]
    [InlineData("kPa", "1000 Pa")]
    [InlineData("kW", "1000 W")]
    [InlineData("kJ", "1000 J")]
    [InlineData("Wh", "3600 J")]
    public void TryParse_OneOfALargerUnit_IsItsCountOfTheSmaller(string one, string many)
    {
        double expected = Read(many, null);
        AssertWithin(expected, Read("1 " + one, null), 1e-14 * expected);
    }

    [Fact]
    public void TryParse_HalfATurn_IsPiInAngleButHalfInTurns()
    {
        Assert.Equal(Math.PI, Read("180 deg", Dimension.Angle));
        Assert.Equal(0.5, Read("0.5 turns", Dimension.Count));
    }

    [Fact]
    public void All_EveryDimension_HasItsCanonicalUnitWithFactorOne()
    {
        foreach (Dimension dimension in Enum.GetValues<Dimension>())
            Assert.Contains(Units.All, unit => unit.Dimension == dimension && unit is { Factor: 1, Offset: 0 });
    }

    [Fact]
    public void TryFind_WrongCase_FindsNothing()
    {
        Assert.True(Units.TryFind("kPa", out _));
        Assert.False(Units.TryFind("KPA", out _));
        Assert.False(Units.TryFind("kpa", out _));
    }

    [Fact]
    public void TryParse_AnyFigureInAnyUnit_GoesThroughSiAndBack() =>
        Gen.Select(AnyUnit, Gen.Double[-1e6, 1e6]).Sample((unit, figure) =>
        {
            double canonical = Read(FormattableString.Invariant($"{figure:R} {unit.Name}"), unit.Dimension);
            double back = (canonical - unit.Offset) / unit.Factor;
            // Two roundings of the multiplication, and for temperatures the bits that the offset takes.
            return Math.Abs(back - figure) <= 4e-16 * (Math.Abs(figure) + Math.Abs(unit.Offset / unit.Factor)) * 2;
        });

    private static double Read(string text, Dimension? dimension)
    {
        Assert.True(Quantity.TryParse(text, dimension, out Quantity quantity, out string? problem), $"'{text}': {problem}");
        return quantity.Value;
    }

    private static void AssertWithin(double expected, double actual, double tolerance) =>
        Assert.True(Math.Abs(actual - expected) <= tolerance, FormattableString.Invariant($"expected {expected:R} ± {tolerance:R}, found {actual:R}"));
}
