using CsCheck;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class AttitudeTests
{
    // Over the equator at the first axis, flying east: down is against x, forward is y, starboard is south.
    private static readonly TemeState State = new(new(7000, 0, 0), new(0, 7.5, 0));

    [Fact]
    public void ToStation_NoTurn_IsForwardStarboardDown()
    {
        Attitude level = new(0, 0, 0);
        AssertNear(new(1, 0, 0), level.ToStation(new(0, 1, 0), State));
        AssertNear(new(0, 1, 0), level.ToStation(new(0, 0, -1), State));
        AssertNear(new(0, 0, 1), level.ToStation(new(-1, 0, 0), State));
    }

    [Theory]
    // Bow to starboard: what lies forward is seen to port.
    [InlineData(90, 0, 0, 0, -1, 0)]
    // Bow up: what lies forward is seen below, at the keel.
    [InlineData(0, 90, 0, 0, 0, 1)]
    [InlineData(0, 0, 90, 1, 0, 0)]
    // First yaw, then pitch about the new starboard axis: forward has gone to port and stays there.
    [InlineData(90, 90, 0, 0, -1, 0)]
    // ... and a roll that lowers starboard brings it up.
    [InlineData(90, 90, 90, 0, 0, 1)]
    public void ToStation_AQuarterTurn_CarriesForwardWhereItShould(double yaw, double pitch, double roll, double x, double y, double z) =>
        AssertNear(new(x, y, z), new Attitude(yaw, pitch, roll).ToStation(new(0, 1, 0), State));

    [Fact]
    public void Turned_StarboardUnderRoll_IsSeenAbove() => AssertNear(new(0, 0, -1), new Attitude(0, 0, 90).Turned(new(0, 1, 0)));

    [Fact]
    public void Turned_AnyAttitude_KeepsLengthsAndAngles() =>
        Gen.Select(Gen.Double[-180, 180], Gen.Double[-90, 90], Gen.Double[-180, 180]).Sample((yaw, pitch, roll) =>
        {
            Attitude attitude = new(yaw, pitch, roll);
            Vector3D x = attitude.Turned(new(1, 0, 0)), y = attitude.Turned(new(0, 1, 0)), z = attitude.Turned(new(0, 0, 1));
            AssertNear(z, x.Cross(y));
            Assert.Equal(1, x.Length, 1e-12);
            Assert.Equal(0, x.Dot(y), 1e-12);
        });

    [Fact]
    public void SunInStation_Level_HasTheSunsHeightOverTheOrbitOnTheSides()
    {
        DateTime now = new(2031, 5, 12, 8, 0, 0, DateTimeKind.Utc);
        Vector3D sun = new Attitude(0, 0, 0).SunInStation(State, now);
        Assert.Equal(Math.Sin(EarthShadow.Beta(State, Sun.At(now).Direction) * Math.PI / 180), -sun.Y, 1e-12);
        Assert.Equal(1, sun.Length, 1e-12);
    }

    private static void AssertNear(Vector3D expected, Vector3D actual) => Assert.True((expected - actual).Length < 1e-12, $"{actual} is not {expected}");
}
