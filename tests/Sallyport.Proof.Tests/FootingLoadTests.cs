using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class FootingLoadTests
{
    private static Scenario With(double torque, double force, params FootingStrength[] footings) => Skerry.WithLeg("latch/free", leg => leg with
    {
        Steps = [leg.Steps[0] with { Fastener = new(torque, -6, "") }, leg.Steps[1] with { Force = force }],
    }) with
    { Footings = [.. footings] };

    private static FootingStrength Takes(Footing kind, double torque, double force) => new(kind, torque, force, "from memory", false);

    // The latch is worked on at a body tether.
    [Theory]
    [InlineData(12, 100, 0)]
    [InlineData(12.01, 100, 1)]
    [InlineData(12, 100.1, 1)]
    [InlineData(12.01, 100.1, 2)]
    public void FootingLoad_TorqueAndForce_AreFoundOnlyAbove(double torque, double force, int found) => Assert.Equal(
        found, Judged.By("footing.load", With(torque, force, Takes(Footing.BodyTether, 12, 100), Takes(Footing.Free, 1, 1), Takes(Footing.Restraint, 1, 1)), Plan.ShortWalk()).Length);

    [Fact]
    public void FootingLoad_AboveWhatItTakes_SaysTheFigures()
    {
        Finding finding = Judged.One("footing.load", With(14.5, 50, Takes(Footing.BodyTether, 12, 100)), Plan.ShortWalk());
        Assert.Equal(("14.5 N-m", "12 N-m", "-2.5 N-m", "from memory (unverified)"), (finding.Measured, finding.Limit, finding.Margin, finding.Source));
    }

    [Fact]
    public void FootingLoad_HeldInAWayThatNothingIsSaidOf_IsFound() =>
        Assert.Equal(2, Judged.By("footing.load", With(1, 1, Takes(Footing.Restraint, 12, 100)), Plan.ShortWalk()).Length);

    // EV1 stands in the restraint at the ring, whatever the leg asks for: what holds is what counts.
    [Fact]
    public void FootingLoad_InARestraint_IsHeldAgainstTheRestraint()
    {
        Scenario scenario = With(20, 50, Takes(Footing.BodyTether, 12, 100), Takes(Footing.Restraint, 20, 50));
        Plan plan = Plan.Outside().Take("EV1", "frame", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Plug("EV1", "B6").Enter("EV1")
            .Step("EV1", "latch/free", "loosen", 240);
        Judged.None("footing.load", scenario, plan.Timeline);
        Judged.One("footing.load", scenario, Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Step("EV1", "latch/free", "loosen", 240).Timeline);
    }

    [Fact]
    public void FootingLoad_WithNothingSaidOfAnyFooting_IsNotCalledClean()
    {
        Timeline plan = Plan.ShortWalk();
        Scenario scenario = With(1, 1);
        Assert.Contains("footing.load: the scenario does not say what each way of being held takes", Judge.Of(scenario, [(plan, Player.Play(scenario, plan))]).NotChecked);
    }
}
