using System.Globalization;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class OxygenGasTests
{
    private const double PascalsPerPsi = 6894.757293168;
    private static readonly Gen<double> AnyPsi = Gen.Double[1, 6000];
    private static readonly Gen<double> AnyKelvin = Gen.Double[273.15, 300];

    // Densities have three decimals, Z five: half of the last one, and for densities the rounding of our Z on top.
    [Theory, Reference("oxygen-density")]
    [InlineData(273.15, 900, 92.379, 0.94644)]
    [InlineData(273.15, 3000, 322.018, 0.90503)]
    [InlineData(273.15, 6000, 556.074, 1.04820)]
    [InlineData(293.15, 900, 84.652, 0.96237)]
    [InlineData(293.15, 3000, 288.738, 0.94049)]
    [InlineData(293.15, 6000, 509.768, 1.06540)]
    [InlineData(300.00, 900, 82.336, 0.96684)]
    [InlineData(300.00, 3000, 279.155, 0.95056)]
    [InlineData(300.00, 6000, 495.567, 1.07091)]
    public void Density_OfTheCard_AgreesToItsLastDigit(double kelvin, double psi, double density, double z)
    {
        Assert.Equal(z, OxygenGas.Compressibility(psi * PascalsPerPsi, kelvin), 0.000005);
        Assert.Equal(density, Density(psi, kelvin).Likely, 0.0005 + density * 0.5e-5);
    }

    [Theory, Reference("oxygen-density")]
    [InlineData(273.15, 4.3, 0.4178)]
    [InlineData(293.15, 4.3, 0.3893)]
    [InlineData(300.00, 4.3, 0.3804)]
    public void Density_InASuit_AgreesToItsLastDigit(double kelvin, double psi, double density) => Assert.Equal(density, Density(psi, kelvin).Likely, 0.00005);

    [Theory, Reference("oxygen-density")]
    [InlineData(300.00, 1.30069)]
    [InlineData(273.15, 1.4290)]
    public void Density_AtOneAtmosphere_AgreesWithinTheErrorOfTheLines(double kelvin, double density) =>
        Assert.Equal(density, OxygenGas.KilogramsPerCubicMetre(101325, kelvin).Likely, 0.0005 * density);

    [Fact, Reference("oxygen-density")]
    public void Compressibility_AtEveryRow_IsThatOfTheCard()
    {
        double[][] rows = Read("oxygen-density/rows.csv");
        Assert.Equal(52, rows.Length);
        foreach (double[] row in rows) Assert.Equal(row[2], OxygenGas.Compressibility(row[1] * PascalsPerPsi, row[0]), 0.000005);
    }

    [Fact, Reference("oxygen-density")]
    public void Density_BetweenRows_ErrsNoMoreThanStatedAndLiesBetweenLowAndHigh()
    {
        double[][] rows = Read("oxygen-density/between.csv");
        Assert.Equal(48, rows.Length);
        foreach (double[] row in rows)
        {
            (double kelvin, double psi, double z, double density) = (row[0], row[1], row[2], row[3]);
            Assert.InRange(OxygenGas.Compressibility(psi * PascalsPerPsi, kelvin) / z - 1, -0.0004, 0.0012);
            Estimate ours = Density(psi, kelvin);
            // The equation's own 0.1 % is inside low and high as well.
            Assert.InRange(density, ours.Low * 1.001, ours.High / 1.001);
        }
    }

    [Fact]
    public void Density_ForAnIdealGas_WouldBeSixPercentTooHighInTheSecondarySupply()
    {
        double ideal = 6000 * PascalsPerPsi * 0.0319988 / (8.31434 * 293.15);
        Assert.InRange(ideal / Density(6000, 293.15).Likely, 1.06, 1.07);
    }

    [Fact]
    public void Density_MorePressureOrLessHeat_IsHigher() =>
        Gen.Select(AnyPsi, AnyKelvin, Gen.Double[1, 100], Gen.Double[0.5, 10]).Sample((psi, kelvin, more, warmer) =>
        {
            if (psi + more <= 6000) Assert.True(Density(psi + more, kelvin).Likely > Density(psi, kelvin).Likely);
            if (kelvin + warmer <= 300) Assert.True(Density(psi, kelvin + warmer).Likely < Density(psi, kelvin).Likely);
        });

    [Theory]
    [InlineData(-1, 290)]
    [InlineData(6001, 290)]
    [InlineData(900, 273)]
    [InlineData(900, 300.1)]
    [InlineData(double.NaN, 290)]
    public void Density_WhereNoFigureIsKnown_IsRefused(double psi, double kelvin) => Assert.Throws<ArgumentOutOfRangeException>(() => Density(psi, kelvin));

    [Fact]
    public void UsableKilograms_WhateverTheTrueState_LieBetweenLowAndHigh() =>
        Gen.Select(AnyPsi, AnyPsi, AnyKelvin, AnyKelvin, Gen.Double[0, 1], Gen.Double[0, 1]).Sample((psi, otherPsi, kelvin, otherKelvin, share, warmth) =>
        {
            OxygenBottle bottle = new(0.004, 100 * PascalsPerPsi);
            double Between(double one, double other, double at) => Math.Clamp(one + (other - one) * at, Math.Min(one, other), Math.Max(one, other));
            double truePsi = Between(psi, otherPsi, share), trueKelvin = Between(kelvin, otherKelvin, warmth);
            Estimate read = bottle.UsableKilograms(
                new(Math.Min(psi, otherPsi) * PascalsPerPsi, truePsi * PascalsPerPsi, Math.Max(psi, otherPsi) * PascalsPerPsi),
                new(Math.Min(kelvin, otherKelvin), trueKelvin, Math.Max(kelvin, otherKelvin)));
            double exact = bottle.UsableKilograms(Estimate.Exactly(truePsi * PascalsPerPsi), Estimate.Exactly(trueKelvin)).Likely;
            Assert.InRange(exact, read.Low, read.High);
        });

    // Low takes the thin end of what is there and the dense end of what stays: warm and 0.25 % down, cold and 0.25 % up; high the other way round.
    [Fact, Reference("oxygen-density")]
    public void UsableKilograms_LowAndHigh_TakeEveryErrorTheirWay()
    {
        Estimate usable = new OxygenBottle(0.002, 900 * PascalsPerPsi).UsableKilograms(Estimate.Exactly(3000 * PascalsPerPsi), new(273.15, 293.15, 300));
        Assert.Equal(0.002 * (279.155 * 0.9975 - 92.379 * 1.0025), usable.Low, 5e-6);
        Assert.Equal(0.002 * (288.738 - 84.652), usable.Likely, 5e-6);
        Assert.Equal(0.002 * (322.018 * 1.0025 - 82.336 * 0.9975), usable.High, 5e-6);
    }

    [Fact]
    public void UsableKilograms_AtTheLeastPressure_IsNone()
    {
        OxygenBottle bottle = new(0.004, 100 * PascalsPerPsi);
        Assert.Equal(0, bottle.UsableKilograms(Estimate.Exactly(100 * PascalsPerPsi), Estimate.Exactly(290)).Likely);
        Assert.Equal(Duration.FromSeconds(0), bottle.LastsAt(Estimate.Exactly(100 * PascalsPerPsi), Estimate.Exactly(290), 1e-5));
    }

    // By hand: 3 L at 293.15 K hold 509.768 g/L at 6000 psi, 0.25 % off is 1525.48 g; empty at vacuum; 50 g/min last 30.509 min.
    [Fact, Reference("oxygen-density")]
    public void LastsAt_AStatedFlow_RoundsTheLowContentDown() =>
        Assert.Equal(Duration.FromSeconds(1830), new OxygenBottle(0.003, 0).LastsAt(Estimate.Exactly(6000 * PascalsPerPsi), Estimate.Exactly(293.15), 0.050 / 60));

    [Fact]
    public void Bottle_BadFigure_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new OxygenBottle(0, 0).UsableKilograms(Estimate.Exactly(1e6), Estimate.Exactly(290)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new OxygenBottle(0.003, 0).LastsAt(Estimate.Exactly(1e6), Estimate.Exactly(290), 0));
    }

    private static Estimate Density(double psi, double kelvin) => OxygenGas.KilogramsPerCubicMetre(psi * PascalsPerPsi, kelvin);

    /// <summary>The figures of a reference, without its header.</summary>
    private static double[][] Read(string reference)
    {
        string path = Path.Combine(RepositoryFolder.Of("tests", "References"), reference);
        return [.. File.ReadLines(path).Skip(1).Select(line => line.Split(',').Select(field => double.Parse(field, CultureInfo.InvariantCulture)).ToArray())];
    }
}
