using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning.Exact;

/// <summary>Windows in which something is shut down, in the bounds: worked by hand on the short walk with a bus that its legs want off.</summary>
public class PowerBoundsTests
{
    private const int Minute = 60, EndOfWalk = 56 * Minute + 30;

    // EV1 frees the latch from 0:21:30 to 0:31:30, EV2 looks from then to 0:34:30; to turn on takes 4 min: 13 + 4 min in one window. In two, the second turned off
    // as long as may be after the first, 10 + 4 and 3 + 4 min.
    [Fact]
    public void LeastDead_TwoLegsOneAfterTheOther_IsOneWindowOverBoth()
    {
        Assert.Equal((17L * Minute, true), Dead(WithBus(null), 10, EndOfWalk));
        Assert.True(Asked(WithBus(null), 10, EndOfWalk - 1).IsImpossible);
    }

    // Too long for one window by a second: on for 4 min, off for 4 min, and only then the look.
    [Theory]
    [InlineData(17 * Minute, 17 * Minute, 0)]
    [InlineData(17 * Minute - 1, 21 * Minute, 8 * Minute)]
    public void LeastDead_ALongestTimeJustTooShort_TakesTwoWindowsAndTheTimeBetween(int longest, int dead, int later)
    {
        Scenario scenario = WithBus(longest);
        Assert.Equal((EndOfWalk + later, true), (End(scenario).Figure, End(scenario).IsReached));
        Assert.Equal(((long)dead, true), Dead(scenario, 10, EndOfWalk + later));
        Assert.True(later == 0 || Asked(scenario, 10, EndOfWalk + later - 1).IsImpossible);
    }

    [Fact]
    public void MostValue_ALongestTimeTooShortForOneLeg_IsProvenImpossible()
    {
        // The latch takes 10 min, and to turn on 4.
        Assert.True(new Bounds(WithBus(14 * Minute - 1), new(WithBus(null))).MostValue(double.PositiveInfinity, 5, 1, CancellationToken.None).IsImpossible);
        Assert.False(new Bounds(WithBus(14 * Minute), new(WithBus(null))).MostValue(double.PositiveInfinity, 5, 1, CancellationToken.None).IsImpossible);
    }

    // Off for the latch alone until 0:35:30, and the look, which then needs the link, cannot begin at 0:31:30.
    [Theory]
    [InlineData(false, 0)]
    [InlineData(true, 4 * Minute)]
    public void LeastEnd_AWindowThatCutsTheLink_IsWaitedForByWhoNeedsIt(bool cuts, int later)
    {
        Scenario scenario = WithBus(null, cuts, ShortWalk.Free);
        scenario = scenario with { Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg.Id == ShortWalk.Look ? leg with { NeedsLink = true } : leg)] })] };
        Assert.Equal((EndOfWalk + later, true), (End(scenario).Figure, End(scenario).IsReached));
    }

    // A plan is no solution where a window over what it does would last too long.
    [Theory]
    [InlineData(17 * Minute, true)]
    [InlineData(17 * Minute - 1, false)]
    public void Relaxation_APlanWithItsWindow_IsASolutionWhileTheWindowMayLast(int longest, bool may)
    {
        Scenario scenario = WithBus(longest);
        SearchCase all = new(scenario, new(scenario));
        Relaxation relaxed = new(all, new(all, new Expander(scenario).Graph), EndOfWalk);
        relaxed.KeepTo(new Dictionary<int, (int, int)> { [all.LegIndex[ShortWalk.Free]] = (0, 21 * Minute + 30), [all.LegIndex[ShortWalk.Look]] = (1, 31 * Minute + 30) });
        Assert.Equal(may ? SolverWord.Closed : SolverWord.Impossible, relaxed.LeastDead(10, new(double.PositiveInfinity, 5, 1, CancellationToken.None)).Word);
    }

    [Fact]
    public void HoldsFor_APlanWorthLessOrEndingLater_IsNotWhatTheBoundIsAbout()
    {
        DeadBound bound = new(10, ShortWalk.At("0:56:30"), Duration.FromMinutes(17));
        Assert.True(bound.HoldsFor(10, ShortWalk.At("0:56:30")));
        Assert.True(bound.HoldsFor(11, ShortWalk.At("0:56")));
        Assert.False(bound.HoldsFor(9, ShortWalk.At("0:56:30")));
        Assert.False(bound.HoldsFor(10, ShortWalk.At("0:56:31")));
    }

    private static (long, bool) Dead(Scenario scenario, int worth, int end) => (Asked(scenario, worth, end).Figure, Asked(scenario, worth, end).IsReached);

    private static Bound Asked(Scenario scenario, int worth, int end) =>
        new Bounds(scenario, new(scenario)).LeastDead(worth, Pet.FromSeconds(end), double.PositiveInfinity, 5, 1, CancellationToken.None);

    private static Bound End(Scenario scenario) => new Bounds(scenario, new(scenario)).LeastEnd(10, null, double.PositiveInfinity, 5, 1, CancellationToken.None);

    /// <summary>The short walk with a bus that some legs, or both, want off; 4 min to turn it off and 4 to turn it on.</summary>
    private static Scenario WithBus(int? longest, bool cuts = false, params LegId[] wanting)
    {
        ShutdownId bus = new("bus");
        Command Send(string what) => new(new($"bus {what}"), Duration.FromMinutes(4), NeedsLink: false, []) { SeenAboard = true };
        Shutdown shutdown = new(bus, new("bus off"), new("bus on"), longest is { } most ? Duration.FromSeconds(most) : null, cuts, "invented for the test");
        ImmutableArray<LegId> off = wanting.Length == 0 ? [ShortWalk.Free, ShortWalk.Look] : [.. wanting];
        return ShortWalk.Skerry with
        {
            Consoles = [new(new("power"), [Send("off"), Send("on")], [shutdown])],
            Jobs = [.. ShortWalk.Skerry.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => off.Contains(leg.Id) ? leg with { Shutdowns = [bus] } : leg)] })],
        };
    }
}
