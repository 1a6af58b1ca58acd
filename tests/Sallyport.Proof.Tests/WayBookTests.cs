using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Ways are reckoned once for all plays of a scenario: two plays that differ in what a way hangs on never get each other's.</summary>
public sealed class WayBookTests
{
    /// <summary>A second hatch at the next grip, slower to enter and to close.</summary>
    private static Scenario TwoHatches() => (Skerry with { Help = new(Seconds(240), 1.5, Seconds(480), "a test") }).WithStation(station => station with
    {
        Airlocks = [station.Airlocks[0], station.Airlocks[0] with { Id = new("side"), Grip = new("quay-1"), InEach = Minutes(7), Close = Minutes(9), Order = [] }],
    });

    private static Timeline Through(string airlock, Timeline timeline) => timeline with
    {
        Activities = [.. timeline.Activities.Select(activity => activity is AirlockPhase phase ? phase with { Airlock = new(airlock) } : activity)],
    };

    private static ImmutableArray<ReturnPoint> Returns(Scenario scenario, Timeline timeline) => [.. Player.Play(scenario, timeline).Returns.SelectMany(curve => curve.Points)];

    [Fact]
    public void Play_OutOfAnotherHatch_GetsItsOwnWaysHome()
    {
        Timeline main = Plan.ShortWalk(), side = Through("side", main);
        ImmutableArray<ReturnPoint> mainAlone = Returns(TwoHatches(), main), sideAlone = Returns(TwoHatches(), side);
        Assert.NotEqual(mainAlone.Select(point => point.Seconds), sideAlone.Select(point => point.Seconds));
        Scenario shared = TwoHatches();
        foreach (Timeline timeline in new[] { main, side, main, side })
            Assert.Equal(timeline == main ? mainAlone : sideAlone, Returns(shared, timeline));
    }

    [Fact]
    public void Play_WithAnotherLoadOnTheSameLine_GetsItsOwnPace()
    {
        Timeline light = Plan.ShortWalk(), laden = Plan.Outside().Take("EV1", "tray", "lock", "stiff").Walk("EV1", "lock", ("quay-1", 108), ("quay-2", 162)).Timeline;
        ImmutableArray<ReturnPoint> lightAlone = Returns(Skerry with { }, light), ladenAlone = Returns(Skerry with { }, laden);
        Scenario shared = Skerry with { };
        foreach (Timeline timeline in new[] { light, laden, light, laden })
            Assert.Equal(timeline == light ? lightAlone : ladenAlone, Returns(shared, timeline));
    }

    [Fact]
    public void Play_OfManyAtOnce_IsThatOfOneAlone()
    {
        Scenario shared = TwoHatches();
        Timeline main = Plan.ShortWalk(), side = Through("side", main);
        ImmutableArray<ReturnPoint> mainAlone = Returns(TwoHatches(), main), sideAlone = Returns(TwoHatches(), side);
        ImmutableArray<ReturnPoint>[] all = [.. Enumerable.Range(0, 200).AsParallel().AsOrdered().WithDegreeOfParallelism(8).Select(i => Returns(shared, i % 2 == 0 ? main : side))];
        for (int i = 0; i < all.Length; i++) Assert.Equal(i % 2 == 0 ? mainAlone : sideAlone, all[i]);
    }
}
