using Sallyport.Planning;
using Xunit;
using static Sallyport.Tests.Planning.ShortWalk;

namespace Sallyport.Tests.Planning.Exact;

/// <summary>Bounds proven beside a search.</summary>
public class BoundsWatchTests
{
    // As worked by hand the walk is worth 10 and ends at 0:56:30.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Now_OnceAPlanIsTold_HoldsBothBoundsAndNeitherIsPassedByThePlan(bool ends)
    {
        SearchProgress told = new(1, 100, 1, 10, At("0:56:30"));
        using BoundsWatch watch = new(Skerry, ends);
        Assert.Equal(ProvenBounds.None, watch.Now);
        Assert.False(watch.Now.IsEnough(told, 99));
        watch.Tell(told);
        Assert.True(SpinWait.SpinUntil(() => watch.Now is { MostValue: not null, LeastEnd: not null }, TimeSpan.FromMinutes(2)));
        ProvenBounds now = watch.Now;
        Assert.InRange(10, 0, now.MostValue!.Value);
        Assert.Equal(10, now.Worth);
        Assert.True(now.LeastEnd <= At("0:56:30"));
        Assert.False(now.NoPlan);
        Assert.True(now.IsEnough(told, Math.Max(now.ValueGap(10)!.Value, now.EndGap(At("0:56:30"))!.Value)));
        Assert.False(now.IsEnough(told, null));
    }
}
