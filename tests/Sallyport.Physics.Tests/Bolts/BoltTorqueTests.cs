using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public sealed class BoltTorqueTests
{
    private const double Inch = 0.0254, PoundForce = 4.4482216152605;

    // A 3/4 in-16 UNF bolt drawn with 25 kip.
    private const double Diameter = 0.75 * Inch, Pitch = Inch / 16, Force = 25_000 * PoundForce;

    // Printed to the pound-force inch; answer (b) is exact.
    [Fact, Reference("shigley-9")]
    public void Torque_OfTheExampleWithItsNutFactor_IsTheAnswer() =>
        Assert.Equal(3750, BoltTorque.Of(0.2, Diameter, Force) / (Inch * PoundForce), 1e-6);

    // Printed to the pound-force inch, with the minor diameter printed to four figures: one unit of the last digit.
    [Fact, Reference("shigley-9")]
    public void Torque_OfTheExampleFromFriction_IsTheAnswer() =>
        Assert.Equal(3551, BoltTorque.Of(BoltTorque.NutFactor(Diameter, Pitch, 0.15, 0.15), Diameter, Force) / (Inch * PoundForce), 1.0);

    // The steps between, worked again apart from the code: K 0.189393.
    [Fact]
    public void NutFactor_OfTheExample_IsThatWorkedByHand() => Assert.Equal(0.189393, BoltTorque.NutFactor(Diameter, Pitch, 0.15, 0.15), 5e-7);

    [Fact, Reference("shigley-9")]
    public void NutFactors_OfFinishes_AreThoseOfTheTable() => Assert.Equal(
        [0.30, 0.20, 0.18, 0.16],
        [BoltTorque.PlainNutFactor, BoltTorque.ZincNutFactor, BoltTorque.LubricatedNutFactor, BoltTorque.CadmiumNutFactor]);

    // Ten lubricated bolts at one torque, three standard deviations of 2.88 kN: what that scatter allows to be wanted of all of them.
    [Fact, Reference("shigley-9")]
    public void Keeping_TheScatterOfTheTenBolts_HoldsAllOfThem()
    {
        double[] preloads = [30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5];
        const double mean = 34.18, deviation = 2.88;
        // The one torque lies in the band of a preload wanted within three deviations, and stands at both its ends at once.
        Band kept = BoltTorque.Keeping(new(new((mean - 3 * deviation) * 1000, (mean + 3 * deviation) * 1000, ""), 0.0127, 0.2, 3 * deviation / mean))!.Value;
        double torque = BoltTorque.Of(0.2, 0.0127, mean * 1000);
        Assert.True(kept.Takes(torque));
        Assert.Equal(kept.Least, kept.Most, 1e-9);
        Assert.All(preloads, preload => Assert.InRange(preload, mean - 3 * deviation, mean + 3 * deviation));
    }

    [Theory]
    [InlineData(0, 16, 20)] // no scatter: K × d × force
    [InlineData(0.1, 17.7778, 18.1818)]
    public void Keeping_APreload_GivesTheTorquesThatKeepItHoweverItScatters(double scatter, double least, double most)
    {
        Band kept = BoltTorque.Keeping(new(new(8000, 10_000, ""), 0.01, 0.2, scatter))!.Value;
        Assert.Equal(least, kept.Least, 1e-4);
        Assert.Equal(most, kept.Most, 1e-4);
    }

    [Fact]
    public void Keeping_APreloadNarrowerThanItsScatter_IsNotPossible() => Assert.Null(BoltTorque.Keeping(new(new(8000, 10_000, ""), 0.01, 0.2, 0.12)));
}
