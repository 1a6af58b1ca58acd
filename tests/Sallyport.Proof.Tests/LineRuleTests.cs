using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.MotionWorld;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Hooks one by one, lines in the way of what moves, and lines across each other.</summary>
public sealed class LineRuleTests
{
    // EV1 at quay-2 at 0:19:30; changes over until 0:21:30, and back until 0:23:30.
    private static Timeline Swaps => Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Swap("EV1", "quay-2", "quay-2").Swap("EV1", "quay-2", "lock")
        .Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60)).Home().Told();

    private static string First => Swaps.IdOf<SwapReel>(_ => true);

    private static Timeline Hooked(int on, int off) => Swaps.With(First, one => ((SwapReel)one) with { Hooks = new(one.Start.Plus(Seconds(on)), one.Start.Plus(Seconds(off))) });

    [Fact]
    public void TetherSwap_HookedFirst_PlaysCleanAndShowsBothHooks()
    {
        Assert.Empty(Judged.All(Moving, Swaps));
        History history = new(Player.Play(Moving, Swaps));
        int hooks = history["person EV1 hooks"];
        Assert.Equal((1, 2, 1), (history.At(hooks, At("0:20:19")), history.At(hooks, At("0:20:20")), history.At(hooks, At("0:21:30"))));
    }

    [Fact]
    public void TetherSwap_ReleasedFirst_IsFoundWithNobodyTied()
    {
        Finding finding = Judged.One("tether.swap", Moving, Hooked(on: 90, off: 60));
        Assert.Equal((At("0:20:30"), "1 hooks", "2 hooks"), (finding.At, finding.Measured, finding.Limit));
        Assert.Equal(At("0:20:30"), Judged.One("tether.none", Moving, Hooked(on: 90, off: 60)).At);
    }

    [Fact]
    public void TetherSwap_BothInOneSecond_IsFound() => Judged.One("tether.swap", Moving, Hooked(on: 90, off: 90));

    [Fact]
    public void TetherSwap_TheHookGivenExactlyItsTime_Passes()
    {
        Judged.None("tether.swap", Moving, Hooked(on: 50, off: 51));
        Assert.Equal("49 s", Judged.One("tether.swap", Moving, Hooked(on: 49, off: 51)).Measured);
    }

    [Fact]
    public void TetherSwap_NotTold_IsFound() =>
        Assert.Contains("not told", Judged.One("tether.swap", Moving, Swaps.With(First, one => ((SwapReel)one) with { Hooks = null })).Sentence);

    [Fact]
    public void TetherSwap_OutsideOfTheChange_IsFound() => Assert.NotEmpty(Judged.By("tether.swap", Moving, Hooked(on: 50, off: 121)));

    [Fact]
    public void TetherSwap_MoreHooksAskedFor_IsFound() => Assert.NotEmpty(Judged.By("tether.swap", Moving.With(HookLimit(3)), Swaps));

    [Fact]
    public void TetherSwap_GettingOntoAnArmReleasedFirst_IsFound()
    {
        Timeline told = Ride().Home().Told();
        Timeline timeline = told.With(told.IdOf<MountArm>(_ => true), one => ((MountArm)one) with { Hooks = new(one.End, one.Start.Plus(Seconds(60))) });
        Assert.Equal("1 hooks", Judged.One("tether.swap", Moving, timeline).Measured);
    }

    [Fact]
    public void TetherSwap_WithoutTheTimeOfAHook_IsSaidToBeUnchecked() =>
        Assert.Contains("tether.swap: the scenario does not say how long it takes until the further hook is on (hooked)",
            Judge.Of(Moving with { Tether = Skerry.Tether }, [(Swaps, Player.Play(Moving with { Tether = Skerry.Tether }, Swaps))]).NotChecked);

    [Fact]
    public void TetherSwap_SettingOffByShortTethersWhileOneIsBeingMoved_IsFound()
    {
        Scenario scenario = Moving with { Tether = Skerry.Tether with { Protocol = TetherProtocol.Leapfrog } };
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 80));
        Judged.None("tether.swap", scenario, plan.Timeline);
        // A second walk begun while the first goes on.
        Timeline twice = plan.Include(new Translate { Id = new("again"), Start = At("0:17:30"), End = At("0:18:50"), Person = new("EV1"), Spans = [new(new("lock"), new("quay-1"), Seconds(80))] }).Timeline;
        Assert.Equal("1 hooks", Judged.One("tether.swap", scenario, twice).Measured);
    }

    // The rider's own line ends at quay-2, 2.5 m below the low pose.
    [Theory]
    [InlineData(2.5, 0)]
    [InlineData(2.51, 2)]
    public void TetherSwept_NearerThanTheLimit_IsFoundOnceAMove(double metres, int found) =>
        Assert.Equal(found, Judged.By("tether.swept", Moving.With(LengthLimit("tether.swept", metres)), Ride().Home().Told()).Length);

    [Fact]
    public void TetherSwept_AtAGripThatTheRidePasses_IsFound() =>
        Assert.All(Judged.By("tether.swept", Moving.WithRides(ride => ride with { Through = [new("quay-1")] }), Ride().Home().Told()), finding => Assert.Equal("0.00 m", finding.Measured));

    [Fact]
    public void TetherSwept_LyingOnAJointThatMoves_IsFoundEvenWithNobodyThere()
    {
        // Beyond quay-2, the line still lies at quay-1.
        Timeline timeline = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Wait("EV1", 1800).Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60)).Home();
        Scenario With(string locked) => Moving.WithStation(station => station with { Joints = [new(new("fold"), new("jets"), [locked], [new("quay-1")])] });
        Judged.None("tether.swept", With("held"), timeline);
        Assert.Contains("until 0:32:30", Judged.One("tether.swept", With("armed"), timeline).Sentence);
    }

    /// <summary>Two more grips: EV1 goes from the hatch along quay-1 and quay-2 to one of them, EV2 round by quay-3 along quay-2 and quay-1 to the other.</summary>
    private static Scenario Crossroads(Point end) => Skerry.WithPeople(person => person with { Reels = [100] }).WithStation(station => station with
    {
        Grips = [.. station.Grips, new(new("end"), end, false, false), new(new("spur"), new(6, -4, 1.5), false, false)],
        Spans = [.. station.Spans, new(new("quay-2"), new("end"), 40, SpanClass.Easy), new(new("quay-1"), new("spur"), 4, SpanClass.Easy)],
    });

    private static Timeline Cross => Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90), ("end", 400)).Wait("EV1", 2400)
        .Walk("EV2", "lock", ("quay-3", 120), ("quay-2", 120), ("quay-1", 90), ("spur", 40)).Wait("EV2", 2000)
        .Walk("EV2", "spur", ("quay-1", 40), ("quay-2", 90), ("quay-3", 120), ("lock", 120)).Walk("EV1", "end", ("quay-2", 400), ("quay-1", 90), ("lock", 60)).Home();

    // Where the two come together at quay-1, EV1's line comes from 4 m to starboard of EV2's spur; quay-3 lies 12 m to starboard.
    [Theory]
    [InlineData(-4, 0, true)]
    [InlineData(11.9, 0, true)]
    [InlineData(12.1, 0, false)]
    [InlineData(12, 5, true)]
    public void TetherCrossed_ByTheSideOnWhichTheLinesPart_IsACautionOrNothing(double y, double z, bool crossed)
    {
        ImmutableArray<Finding> found = Judged.By("tether.crossed", Crossroads(new(10, y, 1.5 + z)), Cross);
        if (!crossed) Assert.Empty(found);
        // From EV2's arrival at the spur at 0:23:10 until it is taken in again at quay-1, 40 s after 0:33:20.
        else Assert.Equal((Severity.Near, At("0:26:10")), (Assert.Single(found).Severity, found[0].At));
    }

    [Fact]
    public void Crossings_AtOneGrip_CountWhenAllFourSpansDiffer()
    {
        static ImmutableArray<GripId> Line(string names) => [.. names.Split(' ').Select(name => new GripId(name))];
        Dictionary<GripId, Point> points = Line("a b c d e f").ToDictionary(grip => grip, _ => new Point(0, 0, 0));
        Assert.Equal(new GripId("b"), Crossings.First(Line("a b c"), Line("d b e"), points));
        Assert.Null(Crossings.First(Line("a b c"), Line("a b e"), points));
        Assert.Null(Crossings.First(Line("a b c"), Line("d b"), points));
        Assert.Null(Crossings.First(Line("a b c"), Line("d e f"), points));
    }
}
