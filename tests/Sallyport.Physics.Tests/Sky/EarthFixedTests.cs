using System.Globalization;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class EarthFixedTests
{
    [Fact, Reference("satellite-js")]
    public void FromTeme_AndBackFromTheMap_AgreesWithAnotherProgram()
    {
        Random random = new(7);
        var asked = Enumerable.Range(0, 400).Select(i =>
        {
            double length = i % 4 == 0 ? 42_000 : 6500 + 1000 * random.NextDouble();
            Vector3D direction = new Vector3D(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5).Unit;
            DateTime instant = new DateTime(1998, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddSeconds(random.Next(0, 40 * 366 * 86400 / 2) * 2L);
            return (Instant: instant, Place: direction * length);
        }).ToArray();
        double[][] answers = Referee.Ask<double[][]>("satellite-js", "ground.mjs", asked.Select(one => new
        {
            instant = one.Instant.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture),
            place = new[] { one.Place.X, one.Place.Y, one.Place.Z },
        }));
        for (int i = 0; i < asked.Length; i++)
        {
            double[] row = answers[i];
            Vector3D place = EarthFixed.FromTeme(asked[i].Place, SkyTime.DaysFromJ2000(asked[i].Instant));
            // The other program's Julian date is rounded to 40 µs, in which a point of the geostationary orbit moves 0.1 m.
            Assert.True((place - new Vector3D(row[0], row[1], row[2])).Length < 2e-4);
            GroundPoint below = EarthFixed.Below(place);
            Assert.Equal(row[3], below.Latitude, 1e-6);
            Assert.Equal(0, Math.IEEERemainder(row[4] - below.Longitude, 360), 1e-6);
            Assert.True((EarthFixed.Of(new(row[3], row[4]), row[5] * 1000) - new Vector3D(row[6], row[7], row[8])).Length < 1e-5);
        }
    }

    [Fact]
    public void Below_APlaceMadeFromTheMap_IsThatPoint()
    {
        for (double latitude = -90; latitude <= 90; latitude += 7.5)
            for (double longitude = -175; longitude <= 175; longitude += 35)
                foreach (double height in (double[])[0, 465_000, 35_000_000])
                {
                    GroundPoint below = EarthFixed.Below(EarthFixed.Of(new(latitude, longitude), height));
                    Assert.Equal(latitude, below.Latitude, 1e-6);
                    if (Math.Abs(latitude) < 90) Assert.Equal(longitude, below.Longitude, 1e-9);
                }
    }
}
