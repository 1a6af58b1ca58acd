using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Bringing in somebody who cannot come in alone, by hand and against a plain referee.</summary>
public sealed class HelpTests
{
    // 4 min to make ready, 8 min to enter, and the hatch of the test station closed in 4 min: 960 s in every figure.
    private const int Always = 240 + 480 + 240;

    private static readonly Scenario Helped = Skerry with { Help = new(Seconds(240), 1.5, Seconds(480), "a test") };

    private static double Read(Trace trace, string person, string pet) => Curves.At(trace, ReturnKind.Help, person, At(pet));

    [Fact]
    public void ReturnHelp_InTheShortWalk_IsWhatTheHandGives()
    {
        Trace trace = Player.Play(Helped, Plan.ShortWalk());
        // EV2 waits at quay-1: 90 s to the ring; EV1 breaks off in 30 s; home 90 s and 60 s, each half as long again.
        Assert.Equal(90 + 30 + 135 + 90 + Always, Read(trace, "EV1", "0:25"));
        // EV1 breaks off in 30 s and comes back 90 s; home 60 s, half as long again.
        Assert.Equal(30 + 90 + 90 + Always, Read(trace, "EV2", "0:25"));
        // EV1 is found on the way to the ring, 60 s before its end: at the worse of its two ends. As a helper EV1 goes there first.
        Assert.Equal(90 + 135 + 90 + Always, Read(trace, "EV1", "0:20:30"));
        Assert.Equal(60 + 90 + 90 + Always, Read(trace, "EV2", "0:20:30"));
    }

    [Fact]
    public void ReturnHelp_WithNobodyElseOutside_IsNotDrawn()
    {
        Trace trace = Player.Play(Helped, Plan.ShortWalk());
        // EV2 goes out at 0:13 and begins to come in at 0:46:30; before and after EV1 is outside alone, at the hatch.
        ReturnCurve curve = trace.Returns.Single(one => one.Kind == ReturnKind.Help && one.Person!.Value.Value == "EV1");
        Assert.Equal((At("0:13"), At("0:46:30")), (curve.Points[0].At, curve.Points[^1].At));
    }

    [Fact]
    public void ReturnHelp_OfARider_RidesBackAndGetsOffFirst()
    {
        Timeline timeline = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Mount("EV1").Ride("EV1", "low", "high").Step("EV1", "head/fit", "fit", 600).Wait("EV2", 3600).Timeline;
        Trace trace = Player.Play(Helped, timeline);
        // Abort 60 s, ride 300 s, off 300 s; EV2 comes from the hatch, 60 and 90 s; home half as long again.
        Assert.Equal(660 + 150 + 225 + Always, Read(trace, "EV1", "0:36"));
        // 100 s of the ride out are left at 0:32:50.
        Assert.Equal(100 + 600 + 150 + 225 + Always, Read(trace, "EV1", "0:32:50"));
        // EV1 as the helper of EV2, who stands at the hatch: off the arm and home.
        Assert.Equal(660 + 150 + 0 + Always, Read(trace, "EV2", "0:36"));
    }

    private static readonly Timeline Riding = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Mount("EV1").Ride("EV1", "low", "high").Step("EV1", "head/fit", "fit", 600).Wait("EV2", 3600).Timeline;

    [Fact]
    public void HelpArmless_OfARider_IsClimbedForAndDownByBoth()
    {
        Trace trace = Player.Play(Helped, Riding);
        double Stopped(string person, string pet) => Curves.At(trace, ReturnKind.HelpArmless, person, At(pet));
        // EV2 over the gap of 120 s and up the climb of 480 s; abort 60 s; down twice and over the gap, half as long again.
        Assert.Equal(600 + 60 + 1440 + 180 + Always, Stopped("EV1", "0:36"));
        // On the ride out EV1 sits at the higher of the two poses, with nothing to break off. At the lower one EV1 got on, and would get off in 300 s:
        // 150 s and 300 s, then 600 s and 150 s half as long again.
        Assert.True(150 + 300 + 900 + 225 < 600 + 1440 + 180);
        Assert.Equal(600 + 1440 + 180 + Always, Stopped("EV1", "0:32:50"));
        // EV1 as the helper of EV2, who stands at the hatch: abort, down, and over the gap.
        Assert.Equal(60 + 480 + 120 + Always, Stopped("EV2", "0:36"));
    }

    [Theory]
    [InlineData(600 + 60 + 1440 + 180 + Always, 0)]
    [InlineData(600 + 60 + 1440 + 180 + Always - 1, 1)]
    public void HelpArmless_AtAndAboveTheLimit_IsFoundOnlyAbove(int limit, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("help.armless", Helped.WithLimit("help.armless", limit), Riding);
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal(("-1 s", "EV1"), (findings[0].Margin, findings[0].Who[0].Value));
    }

    [Fact]
    public void HelpArmless_WithoutAWayDown_IsNoWayAtAll()
    {
        Scenario scenario = Helped with { Arms = [.. Helped.Arms.Select(arm => arm with { Poses = [.. arm.Poses.Select(pose => pose with { ClimbTo = null })] })] };
        Assert.Contains("not possible at all", Judged.By("help.armless", scenario.WithLimit("help.armless", 3600), Riding)[0].Sentence);
    }

    [Fact]
    public void HelpArmless_WithNobodyOnAnArm_IsNotDrawn() =>
        Assert.DoesNotContain(Player.Play(Helped, Plan.ShortWalk()).Returns, curve => curve.Kind == ReturnKind.HelpArmless);

    // EV1 is brought in from latch/free in 1305 s until that leg ends.
    [Theory]
    [InlineData("EV1", 0, 0)]
    [InlineData("EV1", -1, 1)]
    [InlineData("EV2", -1, 1)]
    public void ReturnHelp_AgainstTheCutOffOfEither_IsFoundByTheSecond(string whose, int more, int found)
    {
        ReturnCurve[] curves = [.. Player.Play(Helped, Plan.ShortWalk()).Returns.Where(curve => curve.Kind == ReturnKind.Help)];
        int last = curves.SelectMany(curve => curve.Points).Max(point => point.At.Seconds + (int)Math.Ceiling(point.Seconds));
        Scenario scenario = Helped.WithLimit("return.help", 7200).WithPeople(person => person.Id.Value == whose ? person with { Suit = person.Suit! with { CutOff = Pet.FromSeconds(last + more) } } : person);
        ImmutableArray<Finding> findings = Judged.By("return.help", scenario, Plan.ShortWalk());
        Assert.Equal(found > 0, !findings.IsEmpty);
        if (found > 0) Assert.All(findings, finding => Assert.Equal((true, "-1 s"), (finding.Sentence.Contains($"{whose}'s cut-off"), finding.Margin)));
    }

    [Fact]
    public void ReturnHelp_WithReelsTooShortForTheHelper_IsNoWayAtAll()
    {
        Scenario scenario = Helped with { People = [.. Helped.People.Select(person => person.Id.Value == "EV2" ? person with { Reels = [8] } : person)] };
        Trace trace = Player.Play(scenario, Plan.ShortWalk());
        Assert.Equal(86_400, Read(trace, "EV1", "0:25"));
        Assert.Contains("not possible at all", Judged.By("return.help", scenario.WithLimit("return.help", 3600), Plan.ShortWalk())[0].Sentence);
    }

    // The most is for EV1 in leg latch/free: 1305 s.
    [Theory]
    [InlineData(1305, 0)]
    [InlineData(1304, 1)]
    public void ReturnHelp_AtAndAboveTheLimit_IsFoundOnlyAbove(int limit, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("return.help", Helped.WithLimit("return.help", limit), Plan.ShortWalk());
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal((At("0:21:30"), "-1 s", "EV1"), (findings[0].At, findings[0].Margin, findings[0].Who[0].Value));
    }

    [Fact]
    public void ReturnHelp_WithoutItsFigures_IsSaidNotToBeChecked()
    {
        string NotChecked(Scenario scenario) => string.Join('\n', Judge.Of(scenario, [(Plan.ShortWalk(), Player.Play(scenario, Plan.ShortWalk()))]).NotChecked);
        Assert.Contains("return.help: the scenario gives no limit", NotChecked(Helped));
        Assert.Contains("return.help: the scenario does not say what helping takes", NotChecked(Skerry.WithLimit("return.help", 3600)));
    }

    private static readonly Dictionary<(string, string), int> Easy = new[] { ("lock", "quay-1", 60), ("quay-1", "quay-2", 90), ("quay-2", "quay-3", 120), ("quay-3", "lock", 120) }
        .SelectMany(span => new[] { ((span.Item1, span.Item2), span.Item3), ((span.Item2, span.Item1), span.Item3) }).ToDictionary(pair => pair.Item1, pair => pair.Item2);

    /// <summary>What one person of the referee does for a while, and the line before and after it: grips walked to, and hooks by their grip in brackets.</summary>
    internal sealed record Move(int Start, int End, bool Walks, ImmutableList<string> Before, ImmutableList<string> After);

    [Fact]
    public void ReturnHelp_OfRandomWalksWithReels_IsWhatARefereeReckonsAtEachSecond() =>
        Gen.Select(Gen.Int[0, 9].Array[1, 9], Gen.Int[0, 9].Array[1, 9], Gen.Int[0, 100]).Sample((first, second, delay) =>
        {
            Scenario scenario = Helped.WithPeople(person => person with { Reels = [400, 400, 400] });
            Plan plan = Plan.Outside();
            List<Move> one = Ramble(plan, "EV1", first);
            plan.Wait("EV2", plan.Now("EV2") + delay);
            List<Move> two = Ramble(plan, "EV2", second);
            Trace trace = Player.Play(scenario, plan.Timeline);
            Assert.Empty(trace.Facts);
            for (int now = 1020 + delay; now < Math.Min(plan.Now("EV1"), plan.Now("EV2")); now++)
            {
                Assert.Equal(Bring(one, two, now), Curves.At(trace, ReturnKind.Help, "EV1", Pet.FromSeconds(now)), 6);
                Assert.Equal(Bring(two, one, now), Curves.At(trace, ReturnKind.Help, "EV2", Pet.FromSeconds(now)), 6);
            }
        }, iter: 150);

    /// <summary>Seconds to bring in the first by the second.</summary>
    private static double Bring(List<Move> helped, List<Move> helper, int now)
    {
        Move own = helped.Single(move => move.Start <= now && now < move.End), other = helper.Single(move => move.Start <= now && now < move.End);
        int clear = other.End - now + (own.Walks ? 0 : own.End - now), worst = 0;
        foreach (ImmutableList<string> place in own.Walks ? new[] { own.Before, own.After } : [own.After])
        {
            int same = 0;
            while (same < place.Count && same < other.After.Count && place[same] == other.After[same]) same++;
            int there = Enumerable.Range(same, other.After.Count - same).Sum(i => Takes(other.After, i)) + Enumerable.Range(same, place.Count - same).Sum(i => Takes(place, i));
            int home = Enumerable.Range(1, place.Count - 1).Sum(i => place[i][0] == '[' ? 240 : (int)Math.Ceiling(1.5 * Takes(place, i)));
            worst = Math.Max(worst, there + home);
        }
        return clear + worst + Always;
    }

    internal static int Takes(ImmutableList<string> line, int i) => line[i][0] == '[' ? 120 : Easy[(line[i - 1].Trim('[', ']'), line[i])];

    internal static List<Move> Ramble(Plan plan, string who, int[] choices)
    {
        List<Move> moves = [];
        ImmutableList<string> line = ["[lock]"];
        foreach (int choice in choices)
        {
            string at = line[^1].Trim('[', ']');
            int start = plan.Now(who);
            ImmutableList<string> before = line;
            if (choice >= 8 && at is "quay-2" or "quay-3" && line[^1][0] != '[' && line.Count(mark => mark[0] == '[') < 3)
            {
                plan.Swap(who, at, at);
                line = line.Add($"[{at}]");
                moves.Add(new(start, plan.Now(who), false, before, line));
                continue;
            }
            string[] next = [.. Easy.Keys.Where(ends => ends.Item1 == at).Select(ends => ends.Item2).Order()];
            string to = next[choice % next.Length];
            plan.Walk(who, at, (to, Easy[(at, to)]));
            // Back over the stretch walked last winds it in; it never undoes a hook.
            bool back = line.Count > 1 && line[^1][0] != '[' && line[^2].Trim('[', ']') == to;
            line = back ? line.RemoveAt(line.Count - 1) : line.Add(to);
            moves.Add(new(start, plan.Now(who), true, before, line));
        }
        return moves;
    }
}
