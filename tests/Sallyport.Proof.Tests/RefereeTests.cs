using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Return times against plain second-by-second and exhaustive reckoning on random walks.</summary>
public sealed class RefereeTests
{
    private static readonly Dictionary<(string, string), (int Easy, int Bulky, int Gap)> SecondsOf = BothWays(
        // By hand from lengths and paces: unladen, with the tray (1.8), and by two short tethers (20 s more, unladen).
        ("lock", "quay-1", (60, 108, 80)), ("quay-1", "quay-2", (90, 162, 110)), ("quay-2", "quay-3", (120, 216, 140)), ("quay-3", "lock", (120, 216, 140)));

    private static Dictionary<(string, string), (int, int, int)> BothWays(params (string A, string B, (int, int, int) Seconds)[] spans) =>
        spans.SelectMany(span => new[] { ((span.A, span.B), span.Seconds), ((span.B, span.A), span.Seconds) }).ToDictionary(pair => pair.Item1, pair => pair.Item2);

    private static readonly Dictionary<string, string[]> Next = SecondsOf.Keys.GroupBy(ends => ends.Item1).ToDictionary(group => group.Key, group => group.Select(ends => ends.Item2).Order().ToArray());

    /// <summary>A walk of random turns with random changes of reels. The referee keeps a stack of what must be undone: a stretch or a change.</summary>
    [Fact]
    public void ReturnOne_OfRandomWalksWithReels_IsWhatUndoingEachMoveTakes() =>
        Gen.Select(Gen.Bool, Gen.Int[0, 9].Array[1, 14]).Sample((laden, choices) =>
        {
            Scenario scenario = Skerry.WithPeople(person => person with { Reels = [200, 200, 200, 200] });
            Plan plan = Plan.Outside();
            if (laden) plan.Take("EV1", "tray", "lock", "stiff");
            int Of(string from, string to) => laden ? SecondsOf[(from, to)].Bulky : SecondsOf[(from, to)].Easy;

            string at = "lock";
            Stack<(string From, int Seconds)> undo = new();
            Dictionary<int, double> expected = [];
            int Home() => undo.Sum(move => move.Seconds) + 180;
            foreach (int choice in choices)
            {
                int start = plan.Now("EV1");
                bool anchor = at is "lock" or "quay-2" or "quay-3";
                if (choice >= 8 && anchor && undo.Count(move => move.From == "swap") < 3)
                {
                    plan.Swap("EV1", at, at);
                    undo.Push(("swap", 120));
                    for (int second = 0; second < 120; second++) expected[start + second] = 120 - second + Home();
                    continue;
                }
                string to = Next[at][choice % Next[at].Length];
                int seconds = Of(at, to);
                plan.Walk("EV1", at, (to, seconds));
                int before = Home();
                bool back = undo.TryPeek(out var last) && last.From == to;
                if (back) undo.Pop();
                else undo.Push((at, seconds));
                for (int second = 0; second < seconds; second++) expected[start + second] = back ? seconds - second + Home() : before + second;
                at = to;
            }
            Trace trace = Player.Play(scenario, plan.Timeline);
            Assert.Empty(trace.Facts);
            foreach ((int second, double value) in expected) Assert.Equal(value, Curves.At(trace, ReturnKind.One, "EV1", Pet.FromSeconds(second)), 6);
        }, iter: 300);

    [Fact]
    public void ReturnOne_OfRandomWalksByShortTethers_IsTheBestOfEveryWay() =>
        Gen.Int[0, 9].Array[1, 10].Sample(choices =>
        {
            Scenario scenario = Skerry with { Tether = Skerry.Tether with { Protocol = TetherProtocol.Leapfrog } };
            Plan plan = Plan.Outside();
            string at = "lock";
            Dictionary<int, double> expected = [];
            foreach (int choice in choices)
            {
                string to = Next[at][choice % Next[at].Length];
                int seconds = SecondsOf[(at, to)].Gap, start = plan.Now("EV1");
                plan.Walk("EV1", at, (to, seconds));
                for (int second = 0; second < seconds; second++)
                    expected[start + second] = Math.Min(Best(at, []) + second, seconds - second + Best(to, [])) + 180;
                at = to;
            }
            Trace trace = Player.Play(scenario, plan.Timeline);
            Assert.Empty(trace.Facts);
            foreach ((int second, double value) in expected)
            {
                // Never below; and above by no more than the second in which one turns round.
                double found = Curves.At(trace, ReturnKind.One, "EV1", Pet.FromSeconds(second));
                Assert.InRange(found, value - 1e-6, value + 1);
            }
        }, iter: 300);

    /// <summary>The least over every path that visits no grip twice.</summary>
    private static int Best(string at, ImmutableHashSet<string> seen) => at == "lock" ? 0 :
        Next[at].Where(next => !seen.Contains(next)).Select(next => SecondsOf[(at, next)].Gap + Best(next, seen.Add(at))).Where(time => time < 10_000).DefaultIfEmpty(10_000).Min();

    /// <summary>Both-in, reckoned second by second from the two curves with a queue at the hatch.</summary>
    [Fact]
    public void ReturnBoth_OfRandomWalks_IsTheQueueAtEachSecond() =>
        Gen.Select(Gen.Int[0, 9].Array[1, 8], Gen.Int[0, 9].Array[1, 8], Gen.Int[0, 100]).Sample((first, second, delay) =>
        {
            Scenario scenario = Skerry.WithPeople(person => person with { Reels = [400] });
            Plan plan = Plan.Outside();
            Ramble(plan, "EV1", first);
            plan.Wait("EV2", plan.Now("EV2") + delay);
            Ramble(plan, "EV2", second);
            Trace trace = Player.Play(scenario, plan.Timeline);
            int last = Math.Min(plan.Now("EV1"), plan.Now("EV2"));
            for (int now = 1020; now < last; now++)
            {
                double hatchFree = 0;
                foreach (double arrival in new[] { "EV1", "EV2" }.Select(who => Curves.At(trace, ReturnKind.One, who, Pet.FromSeconds(now)) - 180).Order())
                    hatchFree = Math.Max(hatchFree, arrival) + 180;
                Assert.Equal(hatchFree + 240, Curves.At(trace, ReturnKind.Both, null, Pet.FromSeconds(now)), 6);
            }
        }, iter: 150);

    private static void Ramble(Plan plan, string who, int[] choices)
    {
        string at = "lock";
        foreach (int choice in choices)
        {
            string to = Next[at][choice % Next[at].Length];
            plan.Walk(who, at, (to, SecondsOf[(at, to)].Easy));
            at = to;
        }
    }
}
