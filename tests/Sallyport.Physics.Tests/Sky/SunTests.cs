using System.Globalization;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class SunTests
{
    // Printed: 198.38083°, −7.78507°, 0.99766 au.
    [Fact, Reference("meeus-25a")]
    public void AtTerrestrial_ExampleOfTheBook_GivesThePrintedPlace()
    {
        SunPlace sun = Sun.AtTerrestrial(2448908.5 - SkyTime.J2000);
        Assert.Equal(198.38083, sun.RightAscension, 1e-5);
        Assert.Equal(-7.78507, sun.Declination, 1e-5);
        Assert.Equal(0.99766, sun.Distance, 1e-5);
    }

    [Fact, Reference("astronomy-engine")]
    public void At_AThousandDates_IsWithinAHundredthOfADegreeOfAnotherProgram()
    {
        DateTime first = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc), last = new(2050, 12, 31, 0, 0, 0, DateTimeKind.Utc);
        DateTime[] instants = [.. Enumerable.Range(0, 1000).Select(i => first.AddTicks((last - first).Ticks / 999 * i))];
        double[][] answers = Referee.Ask<double[][]>("astronomy-engine", "sun.mjs", instants.Select(instant => instant.ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture)));
        Assert.Equal(1000, answers.Length);
        for (int i = 0; i < instants.Length; i++)
        {
            SunPlace ours = Sun.At(instants[i]);
            double apart = Direction(ours.RightAscension, ours.Declination).AngleTo(Direction(answers[i][0], answers[i][1])) * 180 / Math.PI;
            Assert.True(apart < 0.01, $"{apart}° apart at {instants[i]:u}");
            Assert.Equal(answers[i][2], ours.Distance, 2e-4);
        }
    }

    // TEME has the true equator and the mean equinox: the same declination, a right ascension less by the nutation in it.
    [Fact]
    public void Direction_InTeme_LacksTheNutationInRightAscension()
    {
        SunPlace sun = Sun.At(new(2031, 5, 12, 8, 0, 0, DateTimeKind.Utc));
        Vector3D ofDate = Direction(sun.RightAscension, sun.Declination);
        Assert.InRange(Math.Abs(sun.NutationInRightAscension), 1e-4, 0.0045);
        Assert.Equal(0, (ofDate.InFrameTurnedAboutZ(sun.NutationInRightAscension * Math.PI / 180) - sun.Direction).Length, 1e-12);
    }

    private static Vector3D Direction(double ascension, double declination)
    {
        (double sinA, double cosA) = Math.SinCos(ascension * Math.PI / 180);
        (double sinD, double cosD) = Math.SinCos(declination * Math.PI / 180);
        return new(cosD * cosA, cosD * sinA, sinD);
    }
}
