using Sallyport.Model;
using static Sallyport.Proof.Tests.MotionWorld;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Joints, jets, beams, and zones that an arm carries a rider through.</summary>
public sealed class HazardRuleTests
{
    // EV1 is on the way from quay-1 to quay-2 from 0:20, at quay-2 from 0:21:30 to 0:31:30, and back at quay-1 at 0:33.
    private static Timeline Walk => Plan.ShortWalk();

    private static Scenario With(Joint joint) => Moving.WithStation(station => station with { Joints = [joint] });

    private static Scenario WithJets(Emitter jets) => Moving.WithStation(station => station with { Jets = [jets] });

    private static Joint JointAt(string locked, params string[] grips) => new(new("fold"), new("jets"), [locked], [.. grips.Select(grip => new GripId(grip))]);

    // 3 m above quay-2, blowing up.
    private static Emitter Above(Cone? cone = null, double around = 0) => new(new("bow-jets"), new("jets"), ["armed"], new(10, 0, -1.5), around, cone);

    [Fact]
    public void StructureMoving_WhileLocked_Passes() => Judged.None("structure.moving", With(JointAt("held", "quay-2")), Walk);

    [Fact]
    public void StructureMoving_WithinReachOfALooseJoint_IsFoundForAsLongAsThatLasts()
    {
        Finding finding = Judged.One("structure.moving", With(JointAt("armed", "quay-2")), Walk);
        Assert.Equal(At("0:20"), finding.At);
        Assert.Contains("EV1 is within reach of fold until 0:33, while jets is held and may move", finding.Sentence);
    }

    [Fact]
    public void StructureMoving_OneGripBesideIt_Passes() => Judged.None("structure.moving", With(JointAt("armed", "quay-3")), Walk);

    [Fact]
    public void StructureMoving_LockedAsOneComesThere_IsFoundOnlyBefore()
    {
        // Locked by a command that ends at 0:19:30 s; EV1 sets off from quay-1 at 0:20.
        Scenario scenario = Moving.WithStation(station => station with { Joints = [new(new("fold"), new("switch-1"), ["open"], [new("quay-2")])] });
        Judged.None("structure.moving", scenario, Plan.Latch(Plan.Outside().Send("bus off", 1020).Send("bus on", 2400)).Home());
        Assert.Equal(At("0:20"), Judged.One("structure.moving", scenario, Plan.Latch(Plan.Outside().Send("bus off", 1021).Send("bus on", 2400)).Home()).At);
    }

    [Fact]
    public void StructureMoving_RidingPastIt_IsFound()
    {
        Scenario scenario = With(JointAt("armed", "quay-3")).WithRides(ride => ride with { Through = [new("quay-3")] });
        Assert.Equal([At("0:29:30"), At("0:45")], Judged.By("structure.moving", scenario, Ride().Home().Told()).Select(finding => finding.At));
    }

    [Theory]
    [InlineData(3, false)]
    [InlineData(3.01, true)]
    public void JetsArmed_NearerThanTheLimit_IsFound(double metres, bool found) =>
        Assert.Equal(found, !Judged.By("jets.armed", WithJets(Above()).With(LengthLimit("jets.armed", metres)), Walk).IsEmpty);

    [Fact]
    public void JetsArmed_Found_SaysHowNearAndUntilWhen()
    {
        Finding finding = Judged.One("jets.armed", WithJets(Above(around: 0.5)).With(LengthLimit("jets.armed", 3)), Walk);
        Assert.Equal((At("0:20"), "2.50 m", "3 m", "-0.50 m"), (finding.At, finding.Measured, finding.Limit, finding.Margin));
        Assert.Contains("EV1", finding.Sentence);
        Assert.Contains("2.50 m from bow-jets until 0:33", finding.Sentence);
    }

    [Fact]
    public void JetsArmed_WithinTheMarginToHearOf_IsNear()
    {
        Finding finding = Judged.One("jets.armed", WithJets(Above()).With(LengthLimit("jets.armed", 3, near: 0.5)), Walk);
        Assert.Equal((Severity.Near, "0.00 m"), (finding.Severity, finding.Margin));
    }

    [Fact]
    public void JetsArmed_WhileSafe_Passes() => Judged.None("jets.armed", WithJets(Above(around: 3)).WithFeature("jets", "armed"), Walk);

    [Fact]
    public void JetsArmed_InTheCone_IsFoundAndBesideItNot()
    {
        // Down onto quay-2; its side at half an angle of 20 deg is 4 m × sin(atan(4 / 3) - 20 deg) from quay-1, far beyond the limit.
        Cone down = new(new(0, 0, 1), 20 * Math.PI / 180, 3);
        Assert.Equal("0.00 m", Judged.One("jets.armed", WithJets(Above(down)).With(LengthLimit("jets.armed", 0.5)), Walk).Measured);
        Cone up = down with { Along = new(0, 0, -1) };
        Judged.None("jets.armed", WithJets(Above(up)).With(LengthLimit("jets.armed", 0.5)), Walk);
    }

    [Fact]
    public void JetsArmed_WithoutALimit_IsSaidToBeUnchecked()
    {
        Scenario scenario = WithJets(Above()) with { Limits = Skerry.Limits };
        Assert.Contains("jets.armed: the scenario gives no limit", Judge.Of(scenario, [(Walk, Player.Play(scenario, Walk))]).NotChecked);
    }

    // The dish is 0.5 m from the pose at the top: near it from the start of the ride up to the end of the ride down.
    private static Scenario WithDish(string start) => Moving.WithFeature("jets", start)
        .WithStation(station => station with { Beams = [new(new("dish"), new("jets"), ["held"], new(10, 12.5, 9), 0, null)] });

    [Fact]
    public void BeamLive_RidingToALiveDish_IsFoundFromTheRideOn()
    {
        Timeline timeline = Ride().Home().Told();
        Judged.None("beam.live", WithDish("held"), timeline);
        Finding finding = Judged.One("beam.live", WithDish("armed"), timeline);
        Assert.Equal((At("0:29:30"), "0.50 m"), (finding.At, finding.Measured));
        Assert.Contains("until 0:50:30", finding.Sentence);
    }

    [Fact]
    public void ZoneEntered_RidingThroughAClosedZone_IsFound()
    {
        Scenario Closed(string from, string to) => Moving.WithRides(ride => ride with { Through = [new("quay-3")] })
            .WithStation(station => station with { Zones = [new(new("beam"), "the beam burns", [new("quay-3")], [new(At(from), At(to))], null, [])] });
        Timeline timeline = Ride().Home().Told();
        Judged.None("zone.entered", Closed("0:35", "0:45"), timeline);
        Assert.Equal(At("0:34:59"), Judged.One("zone.entered", Closed("0:34:59", "0:45"), timeline).At);
        Assert.Equal(At("0:45"), Judged.One("zone.entered", Closed("0:35", "0:45:01"), timeline).At);
    }
}
