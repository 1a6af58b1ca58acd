using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk.Tests;

/// <summary>The section <c>orbit</c>, key by key.</summary>
public sealed class EveryOrbitKeyTests
{
    private static readonly ScenarioRead Read = Folders.Good(ScenarioReader.ReadWhole(Folders.EveryKey));

    [Fact]
    public void Orbit_Everything_IsAsWritten()
    {
        ScenarioOrbit orbit = Read.Orbit!;
        Assert.Equal(("ISLET", 1.5, 10.0), (orbit.Elements.Name, orbit.NoteAfter, orbit.RefuseAfter));
        GroundStation station = Assert.Single(orbit.Stations);
        Assert.Equal(("Cove east", 40.0), (station.Name, station.Height));
        Assert.Equal((34.5, -71.2, 5.0), (Math.Round(station.At.Latitude, 9), Math.Round(station.At.Longitude, 9), Math.Round(station.Mask, 9)));
        Assert.Equal([(10.0, 12.0), (90.0, 0.0)], station.Skyline.Select(point => (Math.Round(point.Azimuth, 9), Math.Round(point.Elevation, 9))));
        Relay relay = Assert.Single(orbit.Relays);
        Assert.Equal(("Lamp", 76.0, 100.0), (relay.Name, Math.Round(relay.Longitude, 9), relay.GrazingHeight));
        Assert.Equal([-35.0, -30.0, 5.0], Assert.Single(orbit.Regions).Corners.Select(corner => Math.Round(corner.Latitude, 9)));
        Assert.Equal((90.0, 2.0, -1.0, 25.0), (Math.Round(orbit.Attitude!.Flown.Yaw, 9), Math.Round(orbit.Attitude.Flown.Pitch, 9), Math.Round(orbit.Attitude.Flown.Roll, 9), Math.Round(orbit.Attitude.Glare, 9)));
        Assert.Equal(SolidShape.Cylinder, Read.Scenario.Station.Modules[0].Shape);
        Assert.Equal(StationSide.Down, Read.Scenario.Station.Sites[0].Looks);
    }

    [Fact]
    public void Sky_ByHandBesideAnOrbit_ClosesFurther()
    {
        Sky sky = Read.Scenario.Sky;
        // By hand 0:30–0:36, within a time in which the relay is in sight.
        Assert.Contains(new PetInterval(Pet.FromSeconds(1800), Pet.FromSeconds(2160)), sky.NoLink);
        Assert.True(sky.NoLink.Length > Read.Times!.NoLink.Length);
        Assert.Contains(new PetInterval(Pet.FromSeconds(12_600), Pet.FromSeconds(13_200)), sky.Radiation!.Value);
        // Nothing but the orbit says that it is fully dark, and this one never is.
        Assert.Empty(sky.FullNight);
        Assert.Equal("bench", Assert.Single(sky.Sites).Site.Value);
    }

    // The file of elements is an input like any other: another one is another scenario.
    [Fact]
    public void Digest_OfOtherElements_IsAnother()
    {
        ReadResult<Scenario> changed = Folders.ReadChanged(Folders.EveryKey, "islet.omm", "MEAN_ANOMALY = 20.0000", "MEAN_ANOMALY = 20.0001");
        Assert.NotEqual(Read.Scenario.Digest, Folders.Good(changed).Digest);
    }

    [Theory]
    [InlineData("orbit.yaml", "elements: islet.omm", "elements: other.omm", "orbit.yaml:3:13: file.missing")]
    [InlineData("orbit.yaml", "elements: islet.omm", "elements: folder/islet.omm", "orbit.yaml:3:13: value.form")]
    [InlineData("orbit.yaml", "azimuth: 90 deg", "azimuth: 10 deg", "orbit.yaml:12:53: orbit.skyline")]
    [InlineData("orbit.yaml", ", {latitude: 5 deg, longitude: -165 deg}]", "]", "orbit.yaml:16:5: orbit.corners")]
    [InlineData("orbit.yaml", "mask: 5 deg", "mask: 61 deg", "orbit.yaml:11:11: value.range")]
    [InlineData("orbit.yaml", "grazing: 100 km", "grazing: 1001 km", "orbit.yaml:14:46: value.range")]
    [InlineData("orbit.yaml", "yaw: 90 deg", "yaw: 181 deg", "orbit.yaml:18:19: value.range")]
    [InlineData("islet.omm", "EPOCH = 2031-09-01", "EPOCH = 2001-09-01", "islet.omm:9:9: orbit.old")]
    public void Orbit_ThatCannotBeUsed_IsToldWithItsPlace(string file, string from, string to, string told)
    {
        ReadResult<Scenario> result = Folders.ReadChanged(Folders.EveryKey, file, from, to);
        Assert.Null(result.Value);
        Assert.Contains(result.Problems, problem => $"{problem.File}:{problem.Line}:{problem.Column}: {problem.Code}" == told);
    }
}
