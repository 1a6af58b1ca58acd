using System.Collections.Immutable;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class ShadowTests
{
    private const double Mu = 398600.4418;

    [Theory, Reference("eclipse-circular")]
    [InlineData(420, 0, 92.9704, 36.0283)]
    [InlineData(420, 30, 92.9704, 34.3207)]
    [InlineData(420, 60, 92.9704, 23.8647)]
    [InlineData(420, 70, 92.9704, 0)]
    [InlineData(400, 0, 92.5604, 36.1078)]
    [InlineData(400, 30, 92.5604, 34.4508)]
    [InlineData(400, 60, 92.5604, 24.3738)]
    [InlineData(400, 70, 92.5604, 4.2647)]
    public void Umbra_CircularOrbitInACylinder_LastsAsTheClosedFormSays(double height, double beta, double period, double shadow)
    {
        // A Sun so far away that the cone is a cylinder.
        const double far = 1e16;
        double radius = EarthShadow.EarthRadius + height, rate = Math.Sqrt(Mu / (radius * radius * radius));
        Assert.Equal(period, Math.Tau / rate / 60, 1e-4);
        (double sin, double cos) = Math.SinCos(beta * Math.PI / 180);
        Vector3D sun = new(cos, 0, sin);
        ImmutableArray<Passage> passages = Crossings.Below(0, Math.Tau / rate, second =>
        {
            Vector3D place = new Vector3D(Math.Cos(rate * second), Math.Sin(rate * second), 0) * radius;
            return new(EarthShadow.OutsideUmbra(place, sun, far), 8);
        });
        Assert.Equal(shadow > 0 ? 1 : 0, passages.Length);
        Assert.Equal(shadow * 60, passages.Sum(passage => passage.Seconds), 0.2);
    }

    [Fact, Reference("eclipse-circular")]
    public void Beta_AnyOrbit_IsThatOfTheFormula()
    {
        Random random = new(3);
        for (int i = 0; i < 200; i++)
        {
            double tilt = random.NextDouble() * Math.PI, node = random.NextDouble() * Math.Tau, along = random.NextDouble() * Math.Tau;
            SunPlace sun = Sun.AtTerrestrial(random.Next(0, 15_000));
            double ascension = (sun.RightAscension - sun.NutationInRightAscension) * Math.PI / 180, declination = sun.Declination * Math.PI / 180;
            double sine = Math.Cos(declination) * Math.Sin(tilt) * Math.Sin(node - ascension) + Math.Sin(declination) * Math.Cos(tilt);
            Vector3D Place(double u) => new Vector3D(Math.Cos(u), Math.Sin(u) * Math.Cos(tilt), Math.Sin(u) * Math.Sin(tilt)).InFrameTurnedAboutZ(-node);
            TemeState state = new(Place(along) * 6800, Place(along + Math.PI / 2) * 7.6);
            Assert.Equal(Math.Asin(sine) * 180 / Math.PI, EarthShadow.Beta(state, sun.Direction), 1e-9);
        }
    }

    // The definition of both shadows, seen from the place itself: the disc of the Earth meets that of the Sun, or covers it.
    [Fact]
    public void Shadows_AnyPlace_AreWhereTheDiscsMeetAndWhereOneCoversTheOther()
    {
        Random random = new(5);
        int dark = 0, half = 0;
        const double far = Sun.AstronomicalUnit;
        for (int i = 0; i < 20_000; i++)
        {
            double angle = Math.PI / 2 + random.NextDouble() * Math.PI / 2, length = EarthShadow.EarthRadius * (1 + 6 * random.NextDouble());
            Vector3D place = new(Math.Cos(angle) * length, Math.Sin(angle) * length, 0), look = new Vector3D(far, 0, 0) - place;
            double apart = look.AngleTo(-place), earth = Math.Asin(EarthShadow.EarthRadius / length), sun = Math.Asin(Sun.Radius / look.Length);
            bool meets = apart < earth + sun, covers = apart < earth - sun;
            Assert.Equal(meets, EarthShadow.OutsidePenumbra(place, new(1, 0, 0), far) < 0);
            Assert.Equal(covers, EarthShadow.OutsideUmbra(place, new(1, 0, 0), far) < 0);
            if (covers) dark++;
            else if (meets) half++;
        }
        Assert.True(dark > 1000 && half > 50, $"{dark} dark, {half} half");
    }
}
