using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

/// <summary>Sun, shade and glare along an orbit, against what the place over the Earth and the Sun alone tell of a flat slab.</summary>
public class SiteSunTests
{
    private static readonly DateTime Zero = new(2031, 5, 12, 8, 0, 0, DateTimeKind.Utc);

    private static readonly OrbitElements Orbit = new("Skerry", Zero.AddDays(-1), 15.35, 0.0008, 38, 110, 40, 320, 1e-4);

    private static readonly SkyTimes Times = SkyOutlook.SkyOf(Orbit, [], [], [], Zero, new(Pet.FromSeconds(-1800), Pet.FromSeconds(4 * 3600))).Times!;

    // A wide box: who stands on its upper side sees the Sun whenever that is above the local horizontal.
    private static Station Slab(SolidShape? shape) => new(
        "Slab",
        [new(new("top"), new(0, 0, -10), false, false), new(new("keel"), new(0, 0, 10), false, false)], [],
        [
            new(new("above"), "Above", new("top"), null, null) { Looks = StationSide.Forward },
            new(new("below"), "Below", new("keel"), null, null),
            new(new("arm"), "On the arm", null, new ArmId("crane"), new PoseId("high")),
        ],
        [], [], [], [], [], [], [], [new("Slab", new(-50, 0, 0), new(50, 0, 0), 20) { Shape = shape }]);

    [Theory]
    [InlineData(0, 1)]
    [InlineData(180, -1)]
    public void Of_ASlabInLevelFlight_IsLitFromAboveAndBelowAsTheSunStands(double yaw, double forwardIs)
    {
        const double glare = 75;
        ImmutableArray<SiteLight> sites = SiteSun.Of(Orbit, new(yaw, 0, 0), glare, Times, Slab(SolidShape.Box));
        Assert.Equal(["above", "below"], sites.Select(site => site.Site.Value));
        Sgp4 orbit = new(Orbit);
        Dictionary<SunAtSite, int> seen = [];
        for (int second = -1800; second < 4 * 3600; second += SiteSun.Step)
        {
            orbit.Propagate(Orbit.MinutesTo(Zero.AddSeconds(second)), out TemeState state);
            Vector3D sun = Sun.At(Zero.AddSeconds(second)).Direction, up = state.Position.Unit;
            Vector3D forward = state.Position.Cross(state.Velocity).Cross(state.Position).Unit * forwardIs;
            bool night = Times.NotDay.Any(one => one.From.Seconds <= second && second < one.To.Seconds);
            double height = up.Dot(sun), ahead = forward.Dot(sun);
            SunAtSite above = night ? SunAtSite.None : height <= 0 ? SunAtSite.Shade : ahead > Math.Cos(glare * Math.PI / 180) ? SunAtSite.Glare : SunAtSite.Sun;
            SunAtSite below = night ? SunAtSite.None : height >= 0 ? SunAtSite.Shade : SunAtSite.Sun;
            // Within a degree of an edge either will do.
            if (Math.Abs(height) > 0.018 && Math.Abs(ahead - Math.Cos(glare * Math.PI / 180)) > 0.018)
            {
                Assert.Equal((second, above), (second, At(sites[0], second)));
                Assert.Equal((second, below), (second, At(sites[1], second)));
            }
            seen[above] = seen.GetValueOrDefault(above) + 1;
        }
        Assert.Equal(4, seen.Count);
    }

    [Fact]
    public void Of_AStationWithoutBodiesThatCastShadows_TellsNothing() => Assert.Empty(SiteSun.Of(Orbit, default, 30, Times, Slab(null)));

    private static SunAtSite At(SiteLight site, int second) => site.Changes.Last(change => change.From.Seconds <= second).Sun;
}
