using System.Globalization;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class Sgp4RefereeTests
{
    private const double Km = 1e-6, KmPerSecond = 1e-9;

    [Fact, Reference("satellite-js")]
    public void Propagate_ManyOrbits_AgreesWithAnotherProgram()
    {
        List<(OrbitElements Elements, double[] Minutes)> asked = [.. Orbits(new Random(20_310_512))];
        double[][][] answers = Referee.Ask<double[][][]>("satellite-js", "states.mjs", asked.Select(one => new { elements = Omm(one.Elements), minutes = one.Minutes }));
        int states = 0, deep = 0, faults = 0;
        for (int i = 0; i < asked.Count; i++)
        {
            Sgp4 orbit = new(asked[i].Elements);
            for (int j = 0; j < asked[i].Minutes.Length; j++)
            {
                double[] row = answers[i][j];
                double minutes = asked[i].Minutes[j];
                Sgp4Fault fault = orbit.Propagate(minutes, out TemeState state);
                Assert.True((int)row[0] == (int)fault, $"{orbit.Elements} at {minutes} min: {fault}, the other {row[0]}");
                if (fault != Sgp4Fault.None)
                {
                    faults++;
                    continue;
                }
                states++;
                if (orbit.DeepSpace) deep++;
                double place = (state.Position - new Vector3D(row[1], row[2], row[3])).Length, pace = (state.Velocity - new Vector3D(row[4], row[5], row[6])).Length;
                Assert.True(place < Km && pace < KmPerSecond, $"{orbit.Elements} at {minutes} min is off by {place} km, {pace} km/s");
            }
        }
        Assert.True(states > 1500 && deep > 500 && faults > 0, $"{states} states, {deep} of them deep, and {faults} faults");
    }

    private static IEnumerable<(OrbitElements, double[])> Orbits(Random random)
    {
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        for (int i = 0; i < 160; i++)
        {
            // Turns a day, eccentricity, inclination.
            (double motion, double e, double tilt) = (i % 8) switch
            {
                0 => (Between(14.9, 15.7), Between(0, 0.003), Between(20, 60)),
                1 => (Between(13.5, 15.2), Between(0, 0.02), Between(60, 179)),
                2 => (Between(15.7, 16.3), Between(0, 0.005), Between(0, 100)),
                3 => (Between(6.5, 11), Between(0, 0.25), Between(0, 120)),
                4 => (Between(1.95, 2.05), Between(0.5, 0.74), Between(5, 70)),
                5 => (Between(0.98, 1.03), Between(0, 0.1), i % 16 == 5 ? Between(0, 0.1) : Between(0.1, 30)),
                6 => (Between(2.0, 4.5), Between(0.4, 0.73), Between(2, 40)),
                _ => (Between(0.3, 6), Between(0, 0.3), Between(0, 110)),
            };
            DateTime epoch = new DateTime(1995, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddSeconds(random.Next(0, 40 * 365) * 86400L + random.Next(0, 86400));
            double drag = i % 8 == 2 ? Between(1e-4, 5e-3) : Between(-1e-5, 4e-4);
            OrbitElements elements = new($"set {i}", epoch, motion, e, tilt, Between(0, 360), Between(0, 360), Between(0, 360), drag);
            yield return (elements, [0, .. Enumerable.Range(0, 12).Select(_ => Between(-1440, 1440)), .. i % 8 == 2 ? [20_000, 60_000.0] : (double[])[]]);
        }
    }

    private static object Omm(OrbitElements elements) => new
    {
        OBJECT_NAME = elements.Name,
        NORAD_CAT_ID = 1,
        EPOCH = elements.Epoch.ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture),
        MEAN_MOTION = elements.MeanMotion,
        ECCENTRICITY = elements.Eccentricity,
        INCLINATION = elements.Inclination,
        RA_OF_ASC_NODE = elements.Node,
        ARG_OF_PERICENTER = elements.Perigee,
        MEAN_ANOMALY = elements.MeanAnomaly,
        BSTAR = elements.Drag,
        MEAN_MOTION_DOT = 0,
        MEAN_MOTION_DDOT = 0,
    };
}
