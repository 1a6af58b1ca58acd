using Sallyport.Planning;

namespace Sallyport.Desk.Tests;

/// <summary>The demos: what is proven of every plan, beside a plan that a short search finds.</summary>
public class StoredBoundsTests
{
    [Theory]
    [InlineData("skerry")]
    [InlineData("tern")]
    [InlineData("skerry-short")]
    public void Bounds_OfADemo_AreBeyondItsPlan(string name)
    {
        SortieDesk desk = SortieDesk.Open(Path.Combine(Path.GetDirectoryName(Folders.SkerryShort)!, name)).Value!;
        SearchProgress? last = null;
        PlanOutcome outcome = desk.Plan("plan", effort: 1, seed: 7, from: null, progress => last = progress, CancellationToken.None);
        Assert.NotNull(outcome.Plan);
        Bounds bounds = new(desk.Scenario, new(desk.Scenario));
        Bound most = bounds.MostValue(double.PositiveInfinity, 1, 1, CancellationToken.None);
        Bound least = bounds.LeastEnd(last!.Value, last.End, double.PositiveInfinity, 1, 1, CancellationToken.None);
        Assert.False(most.IsImpossible || least.IsImpossible);
        Assert.InRange(most.Figure, last.Value, desk.Scenario.Jobs.Sum(job => job.Value));
        // Half of the plan's time at least: a bound that says nothing would pass as well.
        Assert.InRange(least.Figure, last.End!.Value.Seconds / 2, last.End.Value.Seconds);
    }
}
