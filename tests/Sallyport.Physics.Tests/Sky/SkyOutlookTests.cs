using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

/// <summary>Passages over whole spans, against looking at every second with formulae of another kind.</summary>
public class SkyOutlookTests
{
    private static readonly DateTime Zero = new(2031, 5, 12, 8, 0, 0, DateTimeKind.Utc);

    private static readonly ImmutableArray<GroundStation> Stations =
    [
        new("Cove", new(34.5, -71.2), 40, 5, []),
        new("Headland", new(-28.1, 114.6), 600, 3, [new(0, 8), new(90, 2), new(140, 22), new(250, 4)]),
    ];

    private static readonly ImmutableArray<Relay> Relays = [new("East", 76, 100), new("West", -150, 30)];

    // Across the antimeridian, convex, in order by the left.
    private static readonly RadiationRegion Region = new("Shoal", [new(-35, 150), new(-30, -160), new(5, -165), new(0, 155)]);

    private static OrbitElements Orbit(int i) => i switch
    {
        0 => new("Skerry", Zero.AddDays(-1), 15.35, 0.0008, 38, 110, 40, 320, 1e-4),
        1 => new("dusk", Zero.AddDays(-2), 14.6, 0.002, 97.8, 320, 10, 20, 5e-5),
        2 => new("edge", Zero, 15.35, 0.0005, 72, 317, 0, 0, 0),
        3 => new("transfer", Zero.AddDays(-1), 3.6, 0.62, 28, 200, 120, 10, 0),
        _ => new("steep", Zero, 2.005, 0.72, 63.4, 60, 270, 15, 0),
    };

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void SkyOf_AnyOrbit_IsWhatLookingEverySecondSees(int number)
    {
        const int from = -3600, to = 12 * 3600;
        OrbitElements elements = Orbit(number);
        SkyTimes sky = Times(elements, from, to);
        Sgp4 orbit = new(elements);
        Assert.True(sky.Penumbra.Length > 0 || number == 1, "no night to look at");
        string[] names = ["penumbra", "umbra", "Cove", "Headland", "East", "West", "Shoal"];
        ImmutableArray<Passage>[] told =
            [sky.Penumbra, sky.Umbra, .. sky.Stations.Select(one => one.Passages), .. sky.Relays.Select(one => one.Passages), sky.Radiation[0].Passages];
        for (int second = from; second <= to; second++)
        {
            bool[] seen = Look(orbit, second);
            for (int i = 0; i < seen.Length; i++)
            {
                bool inside = told[i].Any(passage => second >= passage.From && second < passage.To);
                if (inside == seen[i]) continue;
                Assert.True(told[i].Any(passage => Math.Min(Math.Abs(second - passage.From), Math.Abs(second - passage.To)) < 0.1), $"{names[i]} at {second} s is {seen[i]}");
            }
        }
        foreach (ImmutableArray<Passage> passages in told)
            for (int i = 0; i < passages.Length; i++)
            {
                Assert.True(passages[i].From < passages[i].To);
                Assert.True(i == 0 || passages[i - 1].To < passages[i].From);
                Assert.Equal(passages[i].CutAtStart, passages[i].From == from);
                Assert.Equal(passages[i].CutAtEnd, passages[i].To == to);
            }
    }

    // Whatever moment divides a span, both parts together tell the whole: nothing is lost or doubled at an end.
    [Fact]
    public void SkyOf_ASpanInTwoParts_TellsTheSame() =>
        Gen.Select(Gen.Int[0, 4], Gen.Int[-5000, 20_000], Gen.Int[1, 12_000], Gen.Int[1, 12_000]).Sample((number, from, first, second) =>
        {
            OrbitElements elements = Orbit(number);
            SkyTimes whole = Times(elements, from, from + first + second);
            SkyTimes before = Times(elements, from, from + first), after = Times(elements, from + first, from + first + second);
            AssertSame(whole.Penumbra, before.Penumbra, after.Penumbra);
            AssertSame(whole.Stations[1].Passages, before.Stations[1].Passages, after.Stations[1].Passages);
            AssertSame(whole.Relays[0].Passages, before.Relays[0].Passages, after.Relays[0].Passages);
            AssertSame(whole.Radiation[0].Passages, before.Radiation[0].Passages, after.Radiation[0].Passages);
        }, iter: 60);

    [Fact]
    public void SkyOf_AnOrbitThatDecays_TellsTheFaultAndWhen()
    {
        OrbitElements low = new("low", Zero, 16.4, 0.001, 38, 0, 0, 0, 0.02);
        SkyOutcome outcome = SkyOutlook.SkyOf(low, [], [], [], Zero, new(Pet.FromSeconds(0), Pet.FromSeconds(5 * 86400)));
        Assert.Null(outcome.Times);
        Assert.NotEqual(Sgp4Fault.None, outcome.Fault);
        Assert.InRange(outcome.FaultAt!.Value, Zero, Zero.AddDays(5));
    }

    [Theory]
    [InlineData(0, 0, 91, 0, 0, "span")]
    [InlineData(0, 100, 91, 0, 0, "stations")]
    [InlineData(0, 100, 45, 70, 0, "stations")]
    [InlineData(0, 100, 45, double.NaN, 0, "stations")]
    [InlineData(0, 100, 45, 5, -1, "relays")]
    public void SkyOf_AFigureOutOfRange_IsRefusedByName(int from, int to, double latitude, double mask, double grazing, string what)
    {
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => SkyOutlook.SkyOf(
            Orbit(0), [new("Cove", new(latitude, 0), 0, mask, [])], [new("East", 0, grazing)], [], Zero, new(Pet.FromSeconds(from), Pet.FromSeconds(to))));
        Assert.Equal(what, refused.ParamName);
    }

    private static SkyTimes Times(OrbitElements elements, int from, int to) =>
        SkyOutlook.SkyOf(elements, Stations, Relays, [Region], Zero, new(Pet.FromSeconds(from), Pet.FromSeconds(to))).Times!;

    private static void AssertSame(ImmutableArray<Passage> whole, ImmutableArray<Passage> before, ImmutableArray<Passage> after)
    {
        List<Passage> joined = [.. before];
        foreach (Passage next in after)
        {
            if (next.CutAtStart && joined.Count > 0 && joined[^1].CutAtEnd) joined[^1] = joined[^1] with { To = next.To, CutAtEnd = next.CutAtEnd };
            else joined.Add(next);
        }
        // A crossing within its accuracy of the cut, or shorter than it, may fall on either side.
        joined.RemoveAll(passage => passage.Seconds < 0.1);
        Passage[] expected = [.. whole.Where(passage => passage.Seconds >= 0.1)];
        Assert.Equal(expected.Length, joined.Count);
        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i].From, joined[i].From, 0.1);
            Assert.Equal(expected[i].To, joined[i].To, 0.1);
        }
    }

    private static bool[] Look(Sgp4 orbit, int second)
    {
        DateTime now = Zero.AddSeconds(second);
        Assert.Equal(Sgp4Fault.None, orbit.Propagate(orbit.Elements.MinutesTo(now), out TemeState state));
        SunPlace sun = Sun.At(now);
        Vector3D look = sun.Direction * (sun.Distance * Sun.AstronomicalUnit) - state.Position;
        double apart = look.AngleTo(-state.Position), earth = Math.Asin(EarthShadow.EarthRadius / state.Position.Length), disc = Math.Asin(Sun.Radius / look.Length);
        Vector3D place = EarthFixed.FromTeme(state.Position, SkyTime.DaysFromJ2000(now));
        GroundPoint below = EarthFixed.Below(place);
        return
        [
            apart < earth + disc, apart < earth - disc, .. Stations.Select(station => Sees(station, place)), .. Relays.Select(relay => Sees(relay, place)),
            Enumerable.Range(0, 4).All(i => IsLeft(Region.Corners[i], Region.Corners[(i + 1) % 4], below)),
        ];
    }

    private static bool Sees(GroundStation station, Vector3D place)
    {
        double latitude = station.At.Latitude * Math.PI / 180, longitude = station.At.Longitude * Math.PI / 180;
        Vector3D look = (place - EarthFixed.Of(station.At, station.Height)).InFrameTurnedAboutZ(longitude);
        double up = Math.Cos(latitude) * look.X + Math.Sin(latitude) * look.Z, north = Math.Cos(latitude) * look.Z - Math.Sin(latitude) * look.X;
        double elevation = Math.Asin(up / look.Length) * 180 / Math.PI, azimuth = (Math.Atan2(look.Y, north) * 180 / Math.PI + 360) % 360;
        // The skyline of Headland, written out.
        double skyline = station.Skyline.IsEmpty ? -90 : azimuth switch
        {
            < 90 => 8 - 6 * azimuth / 90,
            < 140 => 2 + 20 * (azimuth - 90) / 50,
            < 250 => 22 - 18 * (azimuth - 140) / 110,
            _ => 4 + 4 * (azimuth - 250) / 110,
        };
        return elevation > Math.Max(station.Mask, skyline);
    }

    private static bool Sees(Relay relay, Vector3D place)
    {
        Vector3D there = new Vector3D(Relay.Distance, 0, 0).InFrameTurnedAboutZ(-relay.Longitude * Math.PI / 180), line = (there - place).Unit;
        double radius = EarthShadow.EarthRadius + relay.GrazingHeight, ahead = -place.Dot(line), root = ahead * ahead - place.Dot(place) + radius * radius;
        return place.Length > radius && (root <= 0 || ahead < 0);
    }

    private static bool IsLeft(GroundPoint a, GroundPoint b, GroundPoint point)
    {
        double East(GroundPoint other) => (other.Longitude - a.Longitude + 540) % 360 - 180;
        return East(b) * (point.Latitude - a.Latitude) - (b.Latitude - a.Latitude) * East(point) > 0;
    }
}
