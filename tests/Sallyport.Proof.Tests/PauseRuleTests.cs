using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

// In the short walk EV1 leaves the hatch at 0:05 and is in at 0:52:30, EV2 at 0:13 and 0:49:30.
public sealed class PauseRuleTests
{
    private static readonly Checks Told = new(new(new(Seconds(90), Seconds(10)), AfterRough: true, "a test"), new(Minutes(5), "a test"));

    private static Scenario Gloves(int seconds, int near = 0) => Skerry.WithLimit("glove.check", seconds, near) with { Checks = Told };

    private static Scenario Rest(int seconds, int near = 0) => Skerry.WithLimit("work.rest", seconds, near) with { Checks = Told };

    private static CheckGloves Check(string who, string from, int seconds = 90) =>
        new() { Id = new($"{who}-check-{from}"), Start = At(from), End = At(from).Plus(Seconds(seconds)), Person = new(who) };

    /// <summary>The short walk with something instead of a part of a wait.</summary>
    private static Timeline Instead(Activity pause)
    {
        Timeline timeline = Plan.ShortWalk();
        Await wait = timeline.Activities.OfType<Await>().Single(one => one.Person == pause.People[0] && one.Start <= pause.Start && pause.End <= one.End);
        ImmutableArray<Activity> parts =
        [
            .. wait.Start < pause.Start ? [wait with { End = pause.Start }] : ImmutableArray<Activity>.Empty, pause,
            .. pause.End < wait.End ? [wait with { Id = new($"{wait.Id}-after"), Start = pause.End }] : ImmutableArray<Activity>.Empty,
        ];
        return timeline with { Activities = [.. timeline.Activities.Where(one => one != wait).Concat(parts).OrderBy(one => one.Start).ThenBy(one => one.Id.Value, StringComparer.Ordinal)] };
    }

    // 2850 s from the hatch to being in.
    [Theory]
    [InlineData(2850, 0)]
    [InlineData(2849, 1)]
    public void GloveCheck_FromTheHatchToBeingIn_IsFoundByTheSecond(int limit, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("glove.check", Gloves(limit), Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal((At("0:52:29"), "-1 s", "47 min 30 s", "EV1"), (findings[0].At, findings[0].Margin, findings[0].Measured, findings[0].Who[0].Value));
    }

    [Fact]
    public void GloveCheck_WithinTheMarginWantedToHear_IsNear()
    {
        Finding near = Judged.One("glove.check", Gloves(2860, near: 60), Plan.ShortWalk());
        Assert.Equal((Severity.Near, "10 s", At("0:52:30")), (near.Severity, near.Margin, near.At));
    }

    // EV2 waits from 0:18 to 0:31:30; the check ends at 0:30, 1020 s after the hatch and 1170 s before being in.
    [Theory]
    [InlineData(1170, 0)]
    [InlineData(1169, 1)]
    [InlineData(1019, 2)]
    public void GloveCheck_WithACheckBetween_CountsToItsEndAndAnewFromThere(int limit, int found)
    {
        Timeline timeline = Instead(Check("EV2", "0:28:30"));
        Assert.Equal(found, Judged.By("glove.check", Gloves(limit), timeline).Count(finding => finding.Who[0].Value == "EV2"));
        Assert.Empty(Judged.All(Gloves(2850), timeline));
    }

    [Fact]
    public void GloveCheck_ByAStepThatIsOne_Counts()
    {
        // latch/free.grease ends at 0:31:30: 1590 s after EV1's hatch, 1260 s before EV1 is in.
        Scenario scenario = Gloves(1590).WithLeg("latch/free", leg => leg with { Steps = [leg.Steps[0], leg.Steps[1] with { ChecksGloves = true }] });
        Assert.DoesNotContain(Judged.By("glove.check", scenario, Plan.ShortWalk()), finding => finding.Who[0].Value == "EV1");
        Assert.Contains(Judged.By("glove.check", scenario.WithLimit("glove.check", 1589), Plan.ShortWalk()), finding => finding.Who[0].Value == "EV1");
    }

    [Fact]
    public void GloveCheck_AfterRoughWork_IsDueBeforeTheNextLeg()
    {
        Scenario Rough(bool after) => Gloves(9000).WithLeg("pair/far", leg => leg with { Steps = [.. leg.Steps.Select(step => step with { Rough = true })] }) with
        { Checks = Told with { Gloves = Told.Gloves! with { AfterRough = after } } };
        Plan Far() => Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Step("EV1", "pair/far", "turn", 120);
        Plan Near(Plan plan) => plan.Walk("EV1", "quay-2", ("quay-1", 90)).Step("EV1", "latch/look", "look", 180);
        Finding finding = Judged.One("glove.check", Rough(true), Near(Far()).Timeline);
        Assert.Equal((At("0:23"), "EV1"), (finding.At, finding.Who[0].Value));
        Judged.None("glove.check", Rough(false), Near(Far()).Timeline);
        Plan looked = Far().Include(Check("EV1", "0:21:30"));
        Judged.None("glove.check", Rough(true), Near(looked.Wait("EV1", At("0:23").Seconds)).Timeline);
        // Nothing is done after it.
        Judged.None("glove.check", Rough(true), Far().Timeline);
    }

    [Fact]
    public void GloveCheck_TakesItsTimeAndIsDoneOutside()
    {
        Judged.One("time.short", Gloves(9000), Instead(Check("EV2", "0:28:30", 89)));
        Timeline inside = Plan.ShortWalk();
        inside = inside with { Activities = inside.Activities.Add(Check("EV2", "0:01")) };
        Assert.Contains("EV2 is inside", Judged.One("way.none", Gloves(9000), inside).Sentence);
    }

    // EV1 waits at the hatch from 0:08 to 0:13, 300 s, and then never as long: 2370 s to being in. EV2 waits from 0:18, 810 s.
    [Theory]
    [InlineData(2370, 0)]
    [InlineData(2369, 1)]
    public void WorkRest_WithoutAWaitLongEnough_IsFoundByTheSecond(int limit, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("work.rest", Rest(limit), Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal((At("0:52:29"), "-1 s", "EV1"), (findings[0].At, findings[0].Margin, findings[0].Who[0].Value));
    }

    [Theory]
    [InlineData(300, 1080, 0)] // EV2's wait counts: 1080 s from its end at 0:31:30 to being in
    [InlineData(300, 1079, 1)]
    [InlineData(811, 1080, 1)] // it is a second too short
    public void WorkRest_AWaitAsLongAsARest_IsOne(int least, int limit, int found)
    {
        Scenario scenario = Rest(limit) with { Checks = Told with { Rest = new(Seconds(least), "a test") } };
        Assert.Equal(found, Judged.By("work.rest", scenario, Plan.ShortWalk()).Count(finding => finding.Who[0].Value == "EV2"));
    }

    [Fact]
    public void WorkRest_ARestAndAWaitInARow_AreOneRest()
    {
        // 150 s of rest in the middle of a wait of 810 s: none of the parts is as long as 811 s less the others.
        Rest rest = new() { Id = new("EV2-rest"), Start = At("0:20"), End = At("0:22:30"), Person = new("EV2") };
        Scenario scenario = Rest(1080) with { Checks = Told with { Rest = new(Seconds(810), "a test") } };
        Assert.DoesNotContain(Judged.By("work.rest", scenario, Instead(rest)), finding => finding.Who[0].Value == "EV2");
        Assert.DoesNotContain(Judged.All(scenario, Instead(rest)), finding => finding.Rule.Value != "work.rest");
    }

    [Fact]
    public void Pauses_WithoutTheirFigures_AreSaidNotToBeChecked()
    {
        string NotChecked(Scenario scenario) => string.Join('\n', Judge.Of(scenario, [(Plan.ShortWalk(), Player.Play(scenario, Plan.ShortWalk()))]).NotChecked);
        Assert.Contains("glove.check: the scenario gives no limit", NotChecked(Skerry));
        Assert.Contains("work.rest: the scenario gives no limit", NotChecked(Skerry));
        Assert.Contains("work.rest: the scenario does not say how long a rest is", NotChecked(Skerry.WithLimit("work.rest", 9000)));
    }

    [Fact]
    public void Return_FromACheck_BreaksItOff()
    {
        Trace trace = Player.Play(Gloves(9000), Instead(Check("EV2", "0:28:30")));
        // 60 s from quay-1, 180 s in.
        Assert.Equal(240, Curves.At(trace, ReturnKind.One, "EV2", At("0:28")));
        Assert.Equal(250, Curves.At(trace, ReturnKind.One, "EV2", At("0:29")));
    }
}
