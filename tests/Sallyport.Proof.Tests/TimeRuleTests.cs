using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class TimeRuleTests
{
    private static Scenario TwoConsoles { get; } = Skerry with
    {
        Consoles =
        [
            .. Skerry.Consoles,
            new(new("spare"), [new(new("switch-1 off"), Minutes(3), false, [new(new("switch-1"), "open")])], []),
        ],
    };

    private static Timeline Commands(int second)
    {
        Plan plan = Plan.Latch(Plan.Outside());
        // Both end at 0:23 when the second starts at 0:20.
        plan.Send("bus off", 1200).Send("switch-1 off", second, console: "spare").Send("bus on", 1800);
        return plan.Home();
    }

    [Fact]
    public void TimeClash_TwoCommandsWriteOneSwitchInOneInstant_IsFound()
    {
        Finding finding = Judged.One("time.clash", TwoConsoles, Commands(1200));
        Assert.Equal(At("0:23"), finding.At);
        Assert.Contains("feature switch-1 state", finding.Sentence);
    }

    [Fact]
    public void TimeClash_OneSecondApart_IsNotFound() => Judged.None("time.clash", TwoConsoles, Commands(1201));

    [Fact]
    public void TimeClash_OneChangesWhatAnotherLooksAt_IsFound()
    {
        // The arm leaves its pose in the instant in which somebody begins to get on.
        Plan plan = Plan.Latch(Plan.Outside());
        plan.Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90));
        int start = plan.Now("EV1");
        plan.Mount("EV1").Include(new ArmMove { Id = new("empty"), Start = Pet.FromSeconds(start), End = Pet.FromSeconds(start + 300), Arm = new("crane"), From = new("low"), To = new("high") });
        Assert.Contains(Judged.By("time.clash", Skerry, plan.Timeline), finding => finding.Sentence.Contains("arm crane pose"));
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    public void TimeTwice_PersonOverlapsByASecond_IsFound(int overlap, bool found)
    {
        Timeline timeline = Plan.ShortWalk();
        timeline = timeline.With(timeline.IdOf<Take>(_ => true), take => take with { End = take.End.Plus(Seconds(overlap)) });
        Assert.Equal(found, Judged.By("time.twice", Skerry, timeline).Any());
    }

    [Fact]
    public void TimeTwice_ASecondOutsideWithNothingPlanned_IsFound()
    {
        Timeline timeline = Plan.ShortWalk();
        timeline = timeline.With(timeline.IdOf<Await>(wait => wait.Person.Value == "EV1"), wait => wait with { Start = wait.Start.Plus(Seconds(1)) });
        Finding finding = Judged.One("time.twice", Skerry, timeline);
        Assert.Equal(At("0:08"), finding.At);
        Assert.Contains("EV1", finding.Sentence);
        Assert.Contains("1 s", finding.Sentence);
    }

    [Theory]
    [InlineData(1380, 0)]
    [InlineData(1379, 1)]
    public void TimeTwice_TwoCommandsOnOneConsole_AreFoundWhenTheyOverlap(int second, int found)
    {
        Plan plan = Plan.Latch(Plan.Outside()).Send("bus off", 1200).Send("bus on", second);
        Assert.Equal(found, Judged.By("time.twice", Skerry, plan.Home()).Length);
    }

    [Fact]
    public void TimeTwice_OneThingInTwoHandlings_IsFound()
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Take("EV2", "latch-bag", "lock", "waist");
        Assert.Contains(Judged.By("time.twice", Skerry, plan.Timeline), finding => finding.Sentence.Contains("latch-bag is in"));
    }

    [Theory]
    [InlineData(240, 0)]
    [InlineData(239, 1)]
    public void TimeShort_AStepAgainstItsLikelyTime_IsFoundOnlyBelow(int seconds, int found)
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
            .Step("EV1", "latch/free", "loosen", seconds);
        Assert.Equal(found, Judged.By("time.short", Skerry, plan.Timeline).Length);
    }

    [Theory]
    [InlineData("take")]
    [InlineData("out")]
    [InlineData("command")]
    public void TimeShort_AnythingASecondTooShort_IsFoundWithItsFigures(string what)
    {
        Plan plan = Plan.Outside().Send("bus off", 1200, what == "command" ? 179 : 180);
        plan.Take("EV1", "latch-bag", "lock", "waist", what == "take" ? 119 : 120);
        Timeline timeline = plan.Timeline;
        if (what == "out") timeline = timeline.With("EV1-01", one => one with { Start = Pet.FromSeconds(1) });
        Finding finding = Judged.One("time.short", Skerry, timeline);
        Assert.Equal("-1 s", finding.Margin);
    }

    [Fact]
    public void Play_OfAnActivityThatEndsAsItStarts_IsRefusedByName()
    {
        Timeline timeline = Plan.ShortWalk();
        timeline = timeline.With("EV1-02", one => one with { End = one.Start });
        Assert.Contains("EV1-02", Assert.Throws<ArgumentException>(() => Player.Play(Skerry, timeline)).Message);
    }

    [Fact]
    public void PetLimit_AtTheLimit_IsNearAndOneSecondOverIsBroken()
    {
        // The short walk ends at 0:56:30, 3390 s.
        Assert.Empty(Judged.By("pet.limit", Skerry.WithLimit("pet.limit", 3390), Plan.ShortWalk()));
        Finding near = Judged.One("pet.limit", Skerry.WithLimit("pet.limit", 3390, near: 60), Plan.ShortWalk());
        Assert.Equal((Severity.Near, "0 s"), (near.Severity, near.Margin));
        Finding broken = Judged.One("pet.limit", Skerry.WithLimit("pet.limit", 3389), Plan.ShortWalk());
        Assert.Equal((Severity.Broken, "-1 s", "PET 0:56:30"), (broken.Severity, broken.Margin, broken.Measured));
    }

    [Fact]
    public void PetLimit_WithoutAFigure_IsSaidNotToBeChecked()
    {
        Scenario scenario = Skerry.WithLimit("pet.limit", null);
        Verdict verdict = Judge.Of(scenario, [(Plan.ShortWalk(), Player.Play(scenario, Plan.ShortWalk()))]);
        Assert.DoesNotContain(new RuleId("pet.limit"), verdict.Checked);
        Assert.Contains(verdict.NotChecked, words => words.StartsWith("pet.limit: the scenario gives no limit"));
    }

    [Fact]
    public void PinMissed_ANoteOfExpansion_BecomesAFinding()
    {
        Timeline timeline = Plan.ShortWalk() with { Notes = [new(new("latch/look"), "starts at 0:30", At("0:30"), At("0:31:30"))] };
        Finding finding = Judged.One("pin.missed", Skerry, timeline);
        Assert.Equal(At("0:31:30"), finding.At);
        Judged.None("pin.missed", Skerry, Plan.ShortWalk());
    }
}
