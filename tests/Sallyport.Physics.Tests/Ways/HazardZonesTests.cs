using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class HazardZonesTests
{
    private static Scenario With(double? clearance, params Emitter[] jets)
    {
        Scenario scenario = RandomStructure.Of(3, 6).Scenario;
        return scenario with
        {
            Limits = clearance is { } metres ? [new(new("jets.armed"), new(Dimension.Length, metres, $"{metres} m"), null, "invented", false)] : [],
            Station = scenario.Station with
            {
                Grips = [new(new("a"), new(0, 0, 0), false, false), new(new("b"), new(10, 0, 0), false, false), new(new("c"), new(10, 8, 0), false, false)],
                Spans = [new(new("a"), new("b"), 10, SpanClass.Easy), new(new("b"), new("c"), 8, SpanClass.Easy)],
                Zones = [],
                Features = [new(new("jets"), ["armed", "held"], "armed", null, null), new(new("fold"), ["turning", "locked"], "locked", null, null)],
                Jets = [.. jets],
                Joints = [new(new("fold"), new("fold"), ["locked"], [new("c")])],
            },
        };
    }

    private static Emitter At(double x, double y) => new(new("bow"), new("jets"), ["held"], new(x, y, 0), 0, null);

    private static string[] Grips(Scenario scenario, string zone) => [.. HazardZones.Of(scenario).Where(one => one.Id.Value == zone).SelectMany(one => one.Grips).Select(grip => grip.Value)];

    [Fact]
    public void Of_AJoint_IsItsGripsWhileNotLocked()
    {
        Zone zone = HazardZones.Of(With(null)).Single();
        Assert.Equal((["c"], ["turning"]), ((string[])[.. zone.Grips.Select(grip => grip.Value)], (string[])[.. zone.While[0].States]), Lists);
    }

    private static readonly IEqualityComparer<(string[], string[])> Lists =
        EqualityComparer<(string[], string[])>.Create((left, right) => left.Item1.SequenceEqual(right.Item1) && left.Item2.SequenceEqual(right.Item2));

    [Fact]
    public void Of_JetsBesideASpan_IsBothItsEnds()
    {
        Assert.Equal(["a", "b"], Grips(With(1, At(5, 0.9)), "bow"));
        Assert.Empty(Grips(With(1, At(5, 1)), "bow"));
        Assert.Equal(["a", "b", "c"], Grips(With(1, At(10, 0.5)), "bow"));
    }

    [Fact]
    public void Of_JetsWithoutALimit_IsNothing() => Assert.Empty(Grips(With(null, At(5, 0)), "bow"));

    [Fact]
    public void Of_JetsSafeInEveryState_IsNothing() => Assert.Empty(Grips(With(1, At(5, 0) with { Safe = ["armed", "held"] }), "bow"));
}
