using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Restraints and the arm, with their return times by hand.</summary>
public sealed class HoldRuleTests
{
    // Frame taken 0:17–0:19; quay-2 at 0:21:30; plugged 0:26:30; in 0:29:30; box open 0:34:30; out 0:36:30; unplugged 0:39:30; lock 0:42.
    // The bus is off from 0:20 (sent 0:17) until sent on at 0:35, on at 0:38.
    private static Plan InRestraint(string setting = "B6") => Plan.Outside().Send("bus off", 1020).Send("bus on", 2100)
        .Take("EV1", "frame", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
        .Plug("EV1", setting).Enter("EV1").Step("EV1", "box/open", "open", 300).Leave("EV1").Unplug("EV1", "waist")
        .Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));

    [Fact]
    public void Restraint_PluggedSetAndEntered_PlaysClean()
    {
        Assert.Empty(Judged.All(Skerry, InRestraint().Home()));
        Trace trace = Player.Play(Skerry, InRestraint().Home());
        History history = new(trace);
        Assert.Equal("socket socket-1", history.StateAt(history["person EV1 footing"], At("0:29:30")));
        Assert.Equal("B6", history.StateAt(history["gear frame setting"], At("0:30")));
        Assert.Equal("EV1", history.StateAt(history["socket socket-1 user"], At("0:30")));
        // By hand from quay-2, 150 s + 180 s: plugging 60, getting in 120, the step 45 and out 120, getting out 120, unplugging 60.
        Assert.Equal(390, Curves.At(trace, ReturnKind.One, "EV1", At("0:25")));
        Assert.Equal(450, Curves.At(trace, ReturnKind.One, "EV1", At("0:29")));
        Assert.Equal(495, Curves.At(trace, ReturnKind.One, "EV1", At("0:30")));
        Assert.Equal(450, Curves.At(trace, ReturnKind.One, "EV1", At("0:36")));
        Assert.Equal(390, Curves.At(trace, ReturnKind.One, "EV1", At("0:38")));
    }

    [Fact]
    public void ReturnArmless_OnlyARestraintIsLeft_IsNotDrawn() =>
        Assert.DoesNotContain(Player.Play(Skerry, InRestraint().Home()).Returns, curve => curve.Kind == ReturnKind.Armless);

    [Fact]
    public void ReturnArmless_WithoutALimit_IsMissedOnlyWhereThereIsAnArm()
    {
        Scenario scenario = Skerry.WithLimit("return.armless", null);
        Timeline timeline = InRestraint().Home();
        Verdict Of(Scenario given) => Judge.Of(given, [(timeline, Player.Play(given, timeline))]);
        Assert.Contains(Of(scenario).NotChecked, line => line.StartsWith("return.armless:", StringComparison.Ordinal));
        Assert.Contains(new RuleId("return.armless"), Of(scenario with { Arms = [] }).Checked);
    }

    [Fact]
    public void RestraintAbsent_AnotherSetting_IsFound() =>
        Assert.Contains("B5", Judged.One("restraint.absent", Skerry, InRestraint("B5").Home()).Sentence);

    [Fact]
    public void RestraintAbsent_NeverPlugged_IsFound()
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Enter("EV1");
        Judged.One("restraint.absent", Skerry, plan.Timeline);
    }

    [Fact]
    public void RestraintAbsent_WalkingOffWhileHeld_IsFound()
    {
        Timeline timeline = InRestraint().Home();
        timeline = timeline.Without(timeline.IdOf<LeaveRestraint>(_ => true));
        ImmutableArray<Finding> findings = Judged.By("restraint.absent", Skerry, timeline);
        // Unplugged from under the person, who then walks off.
        Assert.Equal([At("0:36:30"), At("0:39:30")], findings.Select(finding => finding.At));
    }

    // At quay-2 0:19:30; on the arm 0:29:30; high 0:34:30; fitted 0:44:30; low 0:49:30; off 0:54:30; lock 0:57.
    private static Plan OnArm(string dismountAt = "quay-2") => Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
        .Mount("EV1").Ride("EV1", "low", "high").Step("EV1", "head/fit", "fit", 600).Ride("EV1", "high", "low").Dismount("EV1", dismountAt)
        .Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));

    [Fact]
    public void Arm_RiddenThereAndBack_PlaysClean()
    {
        Assert.Empty(Judged.All(Skerry, OnArm().Home()));
        History history = new(Player.Play(Skerry, OnArm().Home()));
        Assert.Equal("crane/moving", history.StateAt(history["person EV1 place"], At("0:30")));
        Assert.Equal("crane/high", history.StateAt(history["person EV1 place"], At("0:34:30")));
        Assert.Equal("arm crane", history.StateAt(history["person EV1 anchor"], At("0:40")));
        Assert.Equal(0, history.At(history["person EV1 tether"], At("0:40")));
        Assert.Equal("lock", history.StateAt(history["person EV1 anchor"], At("0:54:30")));
        Assert.Equal(10_500, history.At(history["person EV1 tether"], At("0:54:30")));
    }

    // By hand: from quay-2 home 150, entry 180, off the arm 300, ride 300, step 60, mount 240 to break off.
    // Stopped at high: climb 480 to quay-3, from there by the gap 120 s, 18 m on one reel; so 780 with the entry.
    [Theory]
    [InlineData("0:20", 570, 570)] // getting on: 240 + 150 + 180
    [InlineData("0:29:30", 1230, 780)] // rides out: 300 left + 300 back + 300 + 150 + 180; stopped, the worse of high 780 and low 300 + 150 + 180
    [InlineData("0:34:30", 990, 840)] // works: 60 + 300 + 300 + 150 + 180; stopped 60 + 780
    [InlineData("0:49:30", 630, 630)] // gets off: 300 + 150 + 180
    [InlineData("0:52", 480, 480)]
    public void ReturnTimes_OnTheArm_AreWhatTheHandGives(string pet, double one, double armless)
    {
        Trace trace = Player.Play(Skerry, OnArm().Home());
        Assert.Equal(one, Curves.At(trace, ReturnKind.One, "EV1", At(pet)));
        Assert.Equal(armless, Curves.At(trace, ReturnKind.Armless, "EV1", At(pet)));
    }

    [Fact]
    public void ReturnTimes_DuringARide_FallByTheSecond()
    {
        Trace trace = Player.Play(Skerry, OnArm().Home());
        Assert.Equal(1030, Curves.At(trace, ReturnKind.One, "EV1", At("0:32:50"))); // 100 left + 930
        Assert.Equal(730, Curves.At(trace, ReturnKind.One, "EV1", At("0:47:50"))); // 100 left + 630
    }

    [Fact]
    public void ReturnArmless_AtAndAboveTheLimit_IsFoundOnlyAbove()
    {
        Judged.None("return.armless", Skerry.WithLimit("return.armless", 840), OnArm().Home());
        Finding finding = Judged.One("return.armless", Skerry.WithLimit("return.armless", 839), OnArm().Home());
        Assert.Equal((At("0:34:30"), "-1 s"), (finding.At, finding.Margin));
    }

    [Fact]
    public void ReturnArmless_FromAPoseWithNothingInReach_IsFoundAsNoWay()
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Mount("EV1").Ride("EV1", "low", "high").Ride("EV1", "high", "off", 360)
            .Ride("EV1", "off", "high", 360).Ride("EV1", "high", "low").Dismount("EV1").Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));
        Finding finding = Judged.One("return.armless", Skerry, plan.Home());
        Assert.Equal((At("0:34:30"), "no way at all"), (finding.At, finding.Measured));
    }

    [Fact]
    public void TetherNone_GettingOffWhereTheReelIsNot_IsFoundOnce()
    {
        Scenario scenario = Skerry with { Arms = [Skerry.Arms[0] with { Mounts = [.. Skerry.Arms[0].Mounts, new(new("quay-3"), new("low"))] }] };
        Judged.One("tether.none", scenario, OnArm("quay-3").Timeline);
    }

    [Fact]
    public void TetherRiderAndArmRider_CarriedWithoutGettingOn_AreFound()
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Ride("EV1", "low", "high");
        Assert.Contains("tied to lock", Judged.One("tether.rider", Skerry, plan.Timeline).Sentence);
        Assert.Equal(2, Judged.By("arm.rider", Skerry, plan.Timeline).Length);
    }

    [Fact]
    public void ArmRider_TheArmMovesUnderTheWork_IsFound()
    {
        Plan plan = OnArm();
        plan.Include(new ArmMove { Id = new("away"), Start = At("0:40"), End = At("0:45"), Arm = new("crane"), From = new("high"), To = new("low") });
        Assert.Contains(Judged.By("arm.rider", Skerry, plan.Timeline), finding => finding.At == At("0:40"));
    }

    [Theory]
    [InlineData("0:14:30", 0)] // ends as EV1 begins to get on, but then it is at high
    [InlineData("0:14:31", 1)]
    public void ArmShared_AMoveIntoTheMount_IsFoundWhenTheyOverlap(string start, int overlap)
    {
        Plan plan = OnArm();
        plan.Include(new ArmMove { Id = new("empty"), Start = At(start), End = At(start).Plus(Minutes(5)), Arm = new("crane"), From = new("low"), To = new("high") });
        ImmutableArray<Finding> findings = Judged.By("arm.shared", Skerry, plan.Timeline);
        Assert.Contains(findings, finding => finding.Sentence.Contains("its pose is"));
        Assert.Equal(overlap, findings.Count(finding => finding.Sentence.Contains("is in empty until")));
        Judged.None("arm.shared", Skerry, OnArm().Timeline);
    }

    [Fact]
    public void ArmShared_GettingOnWhereOneCannot_IsFound()
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60)).Mount("EV1", "quay-1");
        Judged.One("arm.shared", Skerry, plan.Timeline);
    }

    [Theory]
    [InlineData(300, 0)]
    [InlineData(299, 1)]
    public void WayShort_ARideAgainstItsTable_IsFoundOnlyBelow(int seconds, int found)
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Mount("EV1").Ride("EV1", "low", "high", seconds);
        Assert.Equal(found, Judged.By("way.short", Skerry, plan.Timeline).Length);
    }
}
