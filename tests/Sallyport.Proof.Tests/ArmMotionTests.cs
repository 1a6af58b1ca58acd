using Sallyport.Model;
using static Sallyport.Proof.Tests.MotionWorld;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Brakes, guided rides, and who is in the way of an arm.</summary>
public sealed class ArmMotionTests
{
    private static Timeline Honest => Ride().Home().Told();

    private static string Ride1 => Honest.IdOf<ArmMove>(_ => true);

    [Fact]
    public void Ride_WithBrakesAndVoice_PlaysClean() => Assert.Empty(Judged.All(Moving, Honest));

    [Fact]
    public void Rules_WithoutTheirData_AreSaidToBeUnchecked()
    {
        Verdict Of(Scenario scenario) => Judge.Of(scenario, [(Honest, Player.Play(scenario, Honest))]);
        Scenario noBrakes = Moving with { Arms = [Moving.Arms[0] with { Brakes = null }] };
        Assert.Contains("arm.brakes: the scenario does not say how long the brakes of crane take", Of(noBrakes).NotChecked);
        Scenario noLimit = Moving with { Limits = [.. Moving.Limits.Where(limit => limit.Rule.Value != "arm.swept")] };
        Assert.Contains("arm.swept: the scenario gives no limit", Of(noLimit).NotChecked);
        Scenario untold = Moving.WithRides(ride => ride with { Through = null });
        Assert.Contains("arm.swept: what crane passes between low and high beyond the straight line is not told (through)", Of(untold).NotChecked);
        Assert.DoesNotContain(Of(Moving).NotChecked, line => line.Contains("not told"));
    }

    [Fact]
    public void ArmBrakes_NotSetBeforeWork_AreFound()
    {
        Finding finding = Judged.One("arm.brakes", Moving, Honest.With(Ride1, one => ((ArmMove)one) with { BrakesSet = false }));
        Assert.Equal(At("0:35"), finding.At);
        Assert.Contains("works on head/fit from crane while the brakes of crane are off", finding.Sentence);
    }

    [Fact]
    public void ArmBrakes_NotSetBeforeGettingOff_AreFound()
    {
        string back = Honest.IdOf<ArmMove>(move => move.To.Value == "low");
        Assert.Contains("gets off crane", Judged.One("arm.brakes", Moving, Honest.With(back, one => ((ArmMove)one) with { BrakesSet = false })).Sentence);
    }

    // 10 s to release, 300 s of ride, 20 s to set.
    [Fact]
    public void ArmMove_WithExactlyTheTimeForItsBrakes_Passes()
    {
        Judged.None("way.short", Moving, Honest);
        Timeline hurried = Honest.With(Ride1, one => one with { Start = one.Start.Plus(Seconds(1)) });
        Assert.Equal("5 min 30 s", Judged.One("way.short", Moving, hurried).Limit);
    }

    [Fact]
    public void ReturnOne_FromAnArmWithBrakes_TakesTheirTime()
    {
        Trace trace = Player.Play(Moving, Honest);
        // By hand at work: break off 60, brakes 10, ride 300, brakes 20, off 300, home 150, in 180.
        Assert.Equal(1020, Curves.At(trace, ReturnKind.One, "EV1", At("0:40")));
    }

    // The guided part of the ride up: from 0:32:40 for 2 min, then the brakes are set.
    [Theory]
    [InlineData("0:31", "0:32:40", null)]
    [InlineData("0:31", "0:32:41", "1 s without voice")]
    [InlineData("0:34:39", "0:40", "1 s without voice")]
    [InlineData("0:34:40", "0:40", null)]
    public void ArmVoice_LostAroundTheGuidedPart_IsFoundToTheSecond(string from, string to, string? measured)
    {
        Scenario scenario = Moving with { Sky = Moving.Sky with { NoVoice = [new(At(from), At(to))] } };
        if (measured is null) Judged.None("arm.voice", scenario, Honest);
        else Assert.Equal(measured, Judged.One("arm.voice", scenario, Honest).Measured);
    }

    [Fact]
    public void ArmVoice_LostByAState_IsFound()
    {
        Scenario scenario = Moving with { Sky = Moving.Sky with { VoiceLost = [new(new("jets"), ["held"])] } };
        Assert.Equal(2, Judged.By("arm.voice", scenario, Honest).Length);
    }

    [Fact]
    public void ArmVoice_OfARideThatIsNotGuided_IsNotNeeded()
    {
        Scenario scenario = Moving.WithRides(ride => ride with { Guided = default }) with { Sky = Moving.Sky with { NoVoice = [new(At("0:00"), At("2:00"))] } };
        Judged.None("arm.voice", scenario, Honest);
    }

    private static Timeline WithOnlooker => Ride().Walk("EV2", "lock", ("quay-1", 60), ("quay-2", 90)).Wait("EV2", 3500).Walk("EV2", "quay-2", ("quay-1", 90), ("lock", 60)).Home().Told();

    // quay-2 is 2.5 m below the low pose, where both moves begin or end.
    [Fact]
    public void ArmSwept_ExactlyAtTheLimit_Passes() => Judged.None("arm.swept", Moving.With(LengthLimit("arm.swept", 2.5)), WithOnlooker);

    [Fact]
    public void ArmSwept_NearerThanTheLimit_IsFoundOnceAMove()
    {
        Scenario scenario = Moving.With(LengthLimit("arm.swept", 2.6));
        Finding[] found = [.. Judged.By("arm.swept", scenario, WithOnlooker)];
        Assert.Equal([At("0:29:30"), At("0:45")], found.Select(finding => finding.At));
        Assert.All(found, finding => Assert.Equal(("2.50 m", "2.6 m", "-0.11 m"), (finding.Measured, finding.Limit, finding.Margin)));
        Assert.All(found, finding => Assert.Equal(["EV2"], finding.Who.Select(who => who.Value)));
    }

    [Fact]
    public void ArmSwept_AtAGripThatTheRidePasses_IsFoundWhateverTheDistance() =>
        Assert.Equal("0.00 m", Judged.By("arm.swept", Moving.WithRides(ride => ride with { Through = [new("quay-2")] }), WithOnlooker)[0].Measured);

    [Fact]
    public void ArmSwept_PassingOnASpan_IsFound()
    {
        // EV2 is on the span from quay-1 to quay-2 from 0:29 to 0:30:30, and the arm moves from 0:29:30.
        Timeline timeline = Ride().Wait("EV2", 1680).Walk("EV2", "lock", ("quay-1", 60), ("quay-2", 90)).Wait("EV2", 2200).Walk("EV2", "quay-2", ("quay-1", 90), ("lock", 60)).Home().Told();
        Assert.Equal(At("0:29:30"), Judged.By("arm.swept", Moving.With(LengthLimit("arm.swept", 2.6)), timeline)[0].At);
    }

    [Fact]
    public void ArmSwept_TheRiderAlone_IsNoFinding() =>
        Assert.DoesNotContain(Judged.By("arm.swept", Moving.With(LengthLimit("arm.swept", 100)), Honest), finding => finding.Who.Contains(new("EV1")));
}
