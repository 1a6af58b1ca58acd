using System.Runtime.Intrinsics;
using CsCheck;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class FourAnglesTests
{
    [Fact]
    public void SinCos_AnyAngles_AreThoseOfThePlatform() =>
        Gen.Select(Gen.Double[-20, 20], Gen.Double[-1e5, 1e5], Gen.Double[-1e9, 1e9], Gen.Int[-60_000, 60_000]).Sample((small, large, huge, quarter) =>
        {
            double[] angles = [small, large, huge, quarter * Math.PI / 2];
            AssertSame(Vector256.Create(angles), angles);
            // Without the huge one, which sends all four to the platform.
            angles[2] = small * 1e-9;
            AssertSame(Vector256.Create(angles), angles);
        }, iter: 50_000);

    private static void AssertSame(Vector256<double> four, double[] angles)
    {
        (Vector256<double> sin, Vector256<double> cos) = FourAngles.SinCos(four);
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(Math.Sin(angles[i]), sin[i], 5e-16);
            Assert.Equal(Math.Cos(angles[i]), cos[i], 5e-16);
        }
    }
}
