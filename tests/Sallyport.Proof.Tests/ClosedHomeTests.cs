using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Return times with something closed on the way home, by hand and against a referee that walks home second by second.</summary>
public sealed class ClosedHomeTests
{
    // EV1 works at quay-2 from 0:21:30, breaks off in 30 s there; home are 90 s to quay-1, 60 s to the hatch and 180 s in: 360 s.
    private static Zone ZoneAt(string grip, params (int From, int To)[] times) =>
        new(new($"near {grip}"), "a test", [new(grip)], [.. times.Select(time => new PetInterval(Pet.FromSeconds(time.From), Pet.FromSeconds(time.To)))], null, []);

    private static Scenario With(params Zone[] zones) => Skerry.WithStation(station => station with { Zones = [.. zones] });

    private static Scenario Stated(string grip) => With(ZoneAt(grip) with { While = [new(new("switch-1"), ["open"])] });

    private static double One(Scenario scenario, int at, Timeline? timeline = null) =>
        Curves.At(Player.Play(scenario, timeline ?? Plan.ShortWalk()), ReturnKind.One, "EV1", Pet.FromSeconds(at));

    [Theory]
    // Ready to leave quay-2 at 1530, at quay-1 at 1620, at the hatch at 1680.
    [InlineData(1500, 2400, 2430, 360)]
    [InlineData(1500, 1680, 1700, 360)]
    // One second too early by 1679: the last span waits, and with it the one before, which ends at quay-1.
    [InlineData(1500, 1679, 1700, 200 + 90 + 60 + 180)]
    [InlineData(1500, 1500, 1530, 360)]
    [InlineData(1500, 1500, 1531, 361)]
    [InlineData(1500, 1530, 1600, 100 + 90 + 60 + 180)]
    public void ReturnOne_WithTheWayClosedByTheClock_WaitsWhereItIsOpen(int at, int from, int to, int seconds) =>
        Assert.Equal(seconds, One(With(ZoneAt("quay-1", (from, to))), at));

    // Ready to leave quay-2 at 1530: twilight at quay-1 from 1540 to 1600 closes a place that is closed by day, and one that is closed by night.
    [Theory]
    [InlineData(LightCondition.Day)]
    [InlineData(LightCondition.Night)]
    public void ReturnOne_ThroughAPlaceClosedByLight_WaitsForTwilightToPass(LightCondition light)
    {
        PetInterval Between(int from, int to) => new(Pet.FromSeconds(from), Pet.FromSeconds(to));
        Zone zone = ZoneAt("quay-1") with { Light = light };
        Sky sky = light == LightCondition.Night
            ? new([Between(1540, 1600)], [], "a test") { FullNight = [] }
            : new([Between(0, 9000)], [], "a test") { FullNight = [Between(0, 1540), Between(1600, 9000)] };
        Assert.Equal(100 + 90 + 60 + 180, One(With(zone) with { Sky = sky }, 1500));
    }

    [Fact]
    public void ReturnOne_StandingWhereItIsClosed_IsNoWayUntilItOpens()
    {
        Scenario scenario = With(ZoneAt("quay-2", (1500, 1600)));
        Assert.Equal(86_400, One(scenario, 1500));
        Assert.Equal(86_400, One(scenario, 1599));
        Assert.Equal(360, One(scenario, 1600));
        // Who breaks off at 1380 is gone by the second at which it closes; a second later one is shut in.
        Assert.Equal(360, One(scenario, 1380));
        Assert.Equal(86_400, One(scenario, 1381));
    }

    [Fact]
    public void ReturnOne_WalkingOutBeforeItCloses_TurnsBackOrGoesOnWhicheverIsOpen()
    {
        // EV1 walks from quay-1 to quay-2 from 1200 to 1290.
        Scenario scenario = With(ZoneAt("quay-1", (1290, 1400)));
        // Back in 30 s, and off to the hatch, 60 s, just before it closes.
        Assert.Equal(10 + 60 + 180, One(scenario, 1210));
        Assert.Equal(15 + 60 + 180, One(scenario, 1215));
        // Too late for that: on to quay-2, there until 1400, and back.
        Assert.Equal(184 + 90 + 60 + 180, One(scenario, 1216));
    }

    [Fact]
    public void ReturnOne_ClosedByACommand_IsClosedFromTheSecondItTakesEffectForThoseWhoSetOffAfterItWasSent()
    {
        // Sent at 1380, in effect at 1560, opened again by one that is sent at 2000 and in effect at 2180.
        Timeline timeline = Plan.Latch(Plan.Outside().Send("bus off", 1380).Send("bus on", 2000)).Home();
        Scenario scenario = Stated("quay-1");
        // Not sent yet: nobody sends what closes while somebody comes home.
        Assert.Equal(360, One(scenario, 1379, timeline));
        // Sent: past quay-1 only when all of 30, 90 and 60 s are gone by 1560.
        Assert.Equal(360, One(scenario, 1380, timeline));
        Assert.Equal(2180 - 1381 + 90 + 60 + 180, One(scenario, 1381, timeline));
        // Where nothing opens it any more, there is no way.
        Timeline never = Plan.Latch(Plan.Outside().Send("bus off", 1380)).Home();
        Assert.Equal(86_400, One(scenario, 1381, never));
    }

    [Fact]
    public void ReturnOne_OpenedByALaterStep_StaysClosed()
    {
        // EV1 frees the latch at 1890, and until then quay-1 is closed.
        Scenario scenario = With(ZoneAt("quay-1") with { While = [new(new("latch"), ["sticky"])] });
        Assert.Equal(86_400, One(scenario, 1889));
        Assert.Equal(150 + 180, One(scenario, 1890));
    }

    // EV1 loosens the latch from 1290 to 1530 and aborts it within 30 s; left sticky or free, it closes quay-1 or it does not.
    private static Scenario LeavesLatch(string state) => (With(ZoneAt("quay-1") with { While = [new(new("latch"), ["swinging"])] })).WithStation(station => station with
    {
        Features = [.. station.Features.Select(feature => feature.Id.Value == "latch" ? feature with { States = feature.States.Add("swinging") } : feature)],
    }).WithLeg("latch/free", leg => leg with { Steps = [.. leg.Steps.Select((step, i) => i == 0 ? step with { Abort = step.Abort with { Leaves = [new(new("latch"), state)] } } : step)] });

    [Fact]
    public void ReturnOne_WithWhatTheAbortLeavesOnTheWay_IsNoWayWhileThatStepGoesOn()
    {
        Pet end = Plan.ShortWalk().Activities.OfType<DoStep>().First(step => step.Leg.Value == "latch/free").End, start = Plan.ShortWalk().Activities.OfType<DoStep>().First(step => step.Leg.Value == "latch/free").Start;
        Assert.Equal(86_400, One(LeavesLatch("swinging"), start.Seconds));
        Assert.Equal(86_400, One(LeavesLatch("swinging"), end.Seconds - 1));
        Assert.Equal(One(Skerry, start.Seconds), One(LeavesLatch("sticky"), start.Seconds));
        Assert.Equal(One(Skerry, end.Seconds), One(LeavesLatch("swinging"), end.Seconds));
        // EV2 waits at the hatch's side of it and is in all the same; everybody in is not possible.
        Trace trace = Player.Play(LeavesLatch("swinging"), Plan.ShortWalk());
        Assert.True(Curves.At(trace, ReturnKind.Both, null, start) >= 86_400);
        Assert.Contains("near quay-1 closes it", Judged.By("return.one", LeavesLatch("swinging"), Plan.ShortWalk())[0].Sentence);
    }

    // The abort leaves the first switch open, which closes quay-1. A command sent meanwhile closes it again, and counts once it takes effect after the last moment of the step and its abort.
    [Theory]
    [InlineData(0, true)]
    [InlineData(-1, false)]
    public void ReturnOne_WithWhatTheAbortLeaves_WaitsForACommandOnlyIfItComesAfterTheAbort(int more, bool waits)
    {
        DoStep step = Plan.ShortWalk().Activities.OfType<DoStep>().First(one => one.Leg.Value == "latch/free");
        Scenario scenario = Stated("quay-1").WithLeg("latch/free", leg => leg with { Steps = [.. leg.Steps.Select((one, i) => i == 0 ? one with { Abort = one.Abort with { Leaves = [new(new("switch-1"), "open")] } } : one)] });
        int effect = step.End.Seconds + 30 + more;
        Timeline timeline = Plan.Latch(Plan.Outside().Send("bus on", effect - 180)).Home();
        double seconds = One(scenario, step.End.Seconds - 1, timeline);
        Assert.Equal(waits ? effect - (step.End.Seconds - 1) + 90 + 60 + 180 : 86_400, seconds);
    }

    [Fact]
    public void ReturnOne_WithTheHatchClosedBehind_IsNoWay()
    {
        Timeline timeline = Plan.Latch(Plan.Outside()).Include(new AirlockPhase { Id = new("closed"), Start = Pet.FromSeconds(1400), End = Pet.FromSeconds(1640), Airlock = new("lock"), Phase = AirlockPhaseKind.Close, Who = [new("IV")] }).Timeline;
        Assert.Equal(360, One(Skerry, 1399, timeline));
        Assert.Equal(86_400, One(Skerry, 1400, timeline));
    }

    [Fact]
    public void ReturnOne_ByShortTethers_GoesRoundWhatIsClosed()
    {
        // From quay-2 by quay-1 110 and 80 s; by quay-3 140 and 140 s.
        Scenario scenario = With(ZoneAt("quay-1", (1400, 9000))) with { Tether = Skerry.Tether with { Protocol = TetherProtocol.Leapfrog } };
        Timeline timeline = Plan.Outside().Walk("EV1", "lock", ("quay-1", 80), ("quay-2", 110)).Wait("EV1", 3000).Timeline;
        Assert.Equal(280 + 180, One(scenario, 1500, timeline));
        // Waiting for 40 s is still quicker than going round.
        Assert.Equal(40 + 190 + 180, One(scenario with { Station = scenario.Station with { Zones = [ZoneAt("quay-1", (1400, 1540))] } }, 1500, timeline));
    }

    [Fact]
    public void ReturnArmless_ClimbingDownToWhatIsClosed_WaitsOnTheArm()
    {
        // The ride ends at 2070 at high; from there 8 min down to quay-3, then the gap home and in.
        Timeline timeline = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Mount("EV1").Ride("EV1", "low", "high").Step("EV1", "head/fit", "fit", 600).Timeline;
        double Armless(Scenario scenario) => Curves.At(Player.Play(scenario, timeline), ReturnKind.Armless, "EV1", Pet.FromSeconds(2200));
        double open = Armless(Skerry);
        Assert.Equal(60 + 480 + 120 + 180, open);
        // Climbing down counts as near quay-3, where it ends: from 2260 to 2740; and the way on from there until 2860.
        Assert.Equal(open, Armless(With(ZoneAt("quay-3", (2200, 2260), (2860, 2900)))));
        Assert.Equal(open + 1, Armless(With(ZoneAt("quay-3", (2200, 2261)))));
        // Not to be shut in there, one stays on the arm until then.
        Assert.Equal(open + 2780 - 2260, Armless(With(ZoneAt("quay-3", (2740, 2780)))));
    }

    [Fact]
    public void ReturnBoth_WithOneShutOut_WaitsForThatOne()
    {
        Scenario scenario = With(ZoneAt("quay-1", (1530, 2000)));
        // EV1 is in at 2000 + 330, EV2 waits at quay-1 itself until 1890 and is shut in there: no way.
        Assert.Equal(86_400 + 240, Curves.At(Player.Play(scenario, Plan.ShortWalk()), ReturnKind.Both, null, Pet.FromSeconds(1540)));
        // Both wait until they can walk up to the hatch, from 1660, and enter one after the other from 1720.
        Assert.Equal(1720 - 1500 + 180 + 180 + 240, Curves.At(Player.Play(With(ZoneAt("lock", (1600, 1660))), Plan.ShortWalk()), ReturnKind.Both, null, Pet.FromSeconds(1500)));
    }

    // EV1 at quay-2 waits for 1700 from 1530 on: longest at 1500 less the seconds waited; at most 1289 + 1.
    [Theory]
    [InlineData(1700, 0)]
    [InlineData(1701, 1)]
    public void ReturnOne_AtAndAboveTheLimit_NamesWhatIsClosed(int opens, int found)
    {
        // Whoever turns back from the second on at which the last span home would not be ended in time waits.
        Scenario scenario = With(ZoneAt("quay-1", (1530, opens)), ZoneAt("quay-3")).WithLimit("return.one", 1700 - 1351 + 330);
        ImmutableArray<Finding> findings = [.. Judged.By("return.one", scenario, EV1Alone()).Where(finding => finding.Severity == Severity.Broken)];
        Assert.Equal(found, findings.Length);
        if (found == 0) return;
        Assert.Equal((Pet.FromSeconds(1351), "-1 s"), (findings[0].At, findings[0].Margin));
        Assert.Contains("near quay-1", findings[0].Sentence);
        Assert.Contains("Make near quay-1 safe before 0:22:31", findings[0].Mend);
    }

    [Fact]
    public void ReturnOne_WithNoWayLeft_SaysWhatClosesIt()
    {
        Finding finding = Assert.Single(Judged.By("return.one", Stated("quay-1"), Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Step("EV1", "latch/free", "loosen", 400).Send("bus off", 1380).Timeline));
        Assert.Equal(Pet.FromSeconds(1381), finding.At);
        Assert.Contains("EV1's way to safety is not possible at all: near quay-1 closes it", finding.Sentence);
    }

    // EV2 stays inside the hatch's reach.
    private static Timeline EV1Alone() => Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Step("EV1", "latch/free", "loosen", 240).Timeline;

    // The referee: what may be stood at, second by second.

    private const int Last = 9000;

    private sealed record World(ImmutableArray<(string Grip, int From, int To)> Timed, string Stated, int Off, int On)
    {
        public Scenario Scenario(Scenario from) => from.WithStation(station => station with
        {
            Zones = [.. Timed.Select((zone, i) => ZoneAt(zone.Grip, (zone.From, zone.To)) with { Id = new($"timed-{i}") }), ZoneAt(Stated) with { While = [new(new("switch-1"), ["open"])] }],
        });

        /// <summary>For each grip the number of closed seconds before each second, seen by who turns back now.</summary>
        public Dictionary<string, int[]> Closed(int now)
        {
            Dictionary<string, int[]> sums = [];
            foreach (string grip in new[] { "lock", "quay-1", "quay-2", "quay-3" })
            {
                int[] sum = new int[Last + 2];
                bool off = false;
                for (int second = 0; second <= Last; second++)
                {
                    if (second == Off + 180 && Off <= now) off = true;
                    if (second == On + 180) off = false;
                    bool closed = Timed.Any(zone => zone.Grip == grip && zone.From <= second && second < zone.To) || (grip == Stated && off);
                    sum[second + 1] = sum[second] + (closed ? 1 : 0);
                }
                sums[grip] = sum;
            }
            return sums;
        }
    }

    private static bool Open(Dictionary<string, int[]> closed, int from, int to, params ReadOnlySpan<string> grips)
    {
        foreach (string grip in grips)
            if (closed[grip][Math.Min(to, Last)] > closed[grip][Math.Min(from, Last)]) return false;
        return true;
    }

    /// <summary>The first second at which all pieces are gone; each with where it begins, where it ends, and its seconds. Null for never.</summary>
    private static int? Gone(Dictionary<string, int[]> closed, int ready, IReadOnlyList<(string From, string To, int Seconds)> pieces)
    {
        bool[] here = new bool[Last + 1];
        if (ready <= Last) here[ready] = true;
        foreach ((string from, string to, int seconds) in pieces)
        {
            bool[] there = new bool[Last + 1];
            for (int second = 0; second + seconds <= Last; second++)
            {
                if (!here[second] || !Open(closed, second, second + 1, from)) continue;
                here[second + 1] = true;
                if (Open(closed, second, second + seconds, from, to)) there[second + seconds] = true;
            }
            here = there;
        }
        int first = Array.IndexOf(here, true);
        return first < 0 ? null : first;
    }

    private static List<(string From, string To, int Seconds)> Home(ImmutableList<string> line, Func<int, int> takes)
    {
        List<(string From, string To, int Seconds)> pieces = [];
        for (int i = line.Count - 1; i > 0; i--) pieces.Add((line[i].Trim('[', ']'), line[i][0] == '[' ? line[i].Trim('[', ']') : line[i - 1].Trim('[', ']'), takes(i)));
        return pieces;
    }

    private static int OneAt(World world, List<HelpTests.Move> moves, int now)
    {
        Dictionary<string, int[]> closed = world.Closed(now);
        HelpTests.Move move = moves.Single(one => one.Start <= now && now < one.End);
        string at = move.Before[^1].Trim('[', ']'), to = move.After[^1].Trim('[', ']');
        if (move.Walks && move.After.Count < move.Before.Count) to = move.After[^1].Trim('[', ']');
        int best = int.MaxValue;
        int back = now - move.Start;
        if (move.Walks && Open(closed, now, now + back, at, to) && In(move.Before, now + back) is { } turned) best = turned;
        if (Open(closed, now, move.End, at, to) && In(move.After, move.End) is { } ended) best = Math.Min(best, ended);
        return best == int.MaxValue ? 86_400 : best - now;

        int? In(ImmutableList<string> line, int ready) => Gone(closed, ready, [.. Home(line, i => HelpTests.Takes(line, i)), ("lock", "lock", 180)]);
    }

    private static int HelpAt(World world, List<HelpTests.Move> helped, List<HelpTests.Move> helper, int now)
    {
        Dictionary<string, int[]> closed = world.Closed(now);
        HelpTests.Move own = helped.Single(move => move.Start <= now && now < move.End), other = helper.Single(move => move.Start <= now && now < move.End);
        string[] Around(HelpTests.Move move) => [move.Before[^1].Trim('[', ']'), move.After[^1].Trim('[', ']')];
        if (!Open(closed, now, other.End, Around(other))) return 86_400;
        int worst = 0;
        foreach (ImmutableList<string> place in own.Walks ? new[] { own.Before, own.After } : [own.After])
        {
            int same = 0;
            while (same < place.Count && same < other.After.Count && place[same] == other.After[same]) same++;
            List<(string From, string To, int Seconds)> there = [.. Home(other.After, i => HelpTests.Takes(other.After, i)).Take(other.After.Count - same)];
            for (int i = same; i < place.Count; i++) there.Add((place[place[i][0] == '[' ? i : i - 1].Trim('[', ']'), place[i].Trim('[', ']'), HelpTests.Takes(place, i)));
            if (Gone(closed, other.End, there) is not { } come) return 86_400;
            int ready = come + (own.Walks ? 0 : own.End - now) + 240;
            if (!Open(closed, now, ready, Around(own))) return 86_400;
            if (Gone(closed, ready, [.. Home(place, i => place[i][0] == '[' ? 240 : (int)Math.Ceiling(1.5 * HelpTests.Takes(place, i))), ("lock", "lock", 480)]) is not { } inside) return 86_400;
            worst = Math.Max(worst, inside + 240 - now);
        }
        return worst;
    }

    private static readonly Gen<World> Worlds =
        from grips in Gen.Int[0, 6].Select(i => i == 6 ? "lock" : $"quay-{i % 3 + 1}").Array[1, 3]
        from starts in Gen.Int[1000, 2600].Array[3]
        from lengths in Gen.Int[1, 400].Array[3]
        from stated in Gen.Int[1, 3].Select(i => $"quay-{i}")
        from off in Gen.Int[900, 2400]
        from gap in Gen.Int[200, 900]
        select new World([.. grips.Select((grip, i) => (grip, starts[i], starts[i] + lengths[i]))], stated, off, off + gap);

    [Fact]
    public void Returns_OfRandomWalksWithReels_AreWhatARefereeWalksSecondBySecond() =>
        Gen.Select(Gen.Int[0, 9].Array[1, 9], Gen.Int[0, 9].Array[1, 9], Worlds, Gen.Int[0, 100_000].Array[24]).Sample((first, second, world, moments) =>
        {
            Scenario scenario = world.Scenario(Skerry with { Help = new(Seconds(240), 1.5, Seconds(480), "a test") }).WithPeople(person => person with { Reels = [400, 400, 400] });
            Plan plan = Plan.Outside().Send("bus off", world.Off).Send("bus on", world.On);
            List<HelpTests.Move> one = HelpTests.Ramble(plan, "EV1", first), two = HelpTests.Ramble(plan, "EV2", second);
            Trace trace = Player.Play(scenario, plan.Timeline);
            int end = Math.Min(plan.Now("EV1"), plan.Now("EV2"));
            int[] edges = [.. world.Timed.SelectMany(zone => new[] { zone.From, zone.To }).Concat([world.Off, world.On]).SelectMany(edge => new[] { edge - 1, edge })];
            foreach (int now in moments.Select(moment => 1020 + moment % (end - 1020)).Concat(edges).Where(now => now >= 1020 && now < end).Distinct())
            {
                Pet at = Pet.FromSeconds(now);
                int ev1 = OneAt(world, one, now), ev2 = OneAt(world, two, now);
                Assert.Equal(ev1, Curves.At(trace, ReturnKind.One, "EV1", at), 6);
                Assert.Equal(ev2, Curves.At(trace, ReturnKind.One, "EV2", at), 6);
                Assert.Equal(HelpAt(world, one, two, now), Curves.At(trace, ReturnKind.Help, "EV1", at), 6);
                Assert.Equal(HelpAt(world, two, one, now), Curves.At(trace, ReturnKind.Help, "EV2", at), 6);
                if (world.Timed.Any(zone => zone.Grip == "lock")) continue;
                double hatchFree = 0;
                foreach (int arrival in new[] { ev1 - 180, ev2 - 180 }.Order()) hatchFree = Math.Max(hatchFree, arrival) + 180;
                Assert.Equal(hatchFree + 240, Curves.At(trace, ReturnKind.Both, null, at), 6);
            }
        }, iter: 60);

    private static readonly (string A, string B, int Seconds)[] Gaps = [("lock", "quay-1", 80), ("quay-1", "quay-2", 110), ("quay-2", "quay-3", 140), ("quay-3", "lock", 140)];

    [Fact]
    public void ReturnOne_OfRandomWalksByShortTethers_IsTheBestWayOfAllSecondBySecond() =>
        Gen.Select(Gen.Int[0, 9].Array[1, 10], Worlds, Gen.Int[0, 100_000].Array[24]).Sample((choices, world, moments) =>
        {
            Scenario scenario = world.Scenario(Skerry with { Tether = Skerry.Tether with { Protocol = TetherProtocol.Leapfrog } });
            Plan plan = Plan.Outside().Send("bus off", world.Off).Send("bus on", world.On);
            string at = "lock";
            List<(int Start, int End, string From, string To)> moves = [];
            foreach (int choice in choices)
            {
                var spans = Gaps.Where(span => span.A == at || span.B == at).ToArray();
                (string a, string b, int seconds) = spans[choice % spans.Length];
                string to = a == at ? b : a;
                moves.Add((plan.Now("EV1"), plan.Now("EV1") + seconds, at, to));
                plan.Walk("EV1", at, (to, seconds));
                at = to;
            }
            Trace trace = Player.Play(scenario, plan.Timeline);
            foreach (int now in moments.Select(moment => 1020 + moment % (plan.Now("EV1") - 1020)))
            {
                Dictionary<string, int[]> closed = world.Closed(now);
                var (start, end, from, to) = moves.Single(move => move.Start <= now && now < move.End);
                int best = int.MaxValue, back = now - start;
                if (Open(closed, now, now + back, from, to)) best = Math.Min(best, Round(closed, from, now + back) ?? best);
                if (Open(closed, now, end, from, to)) best = Math.Min(best, Round(closed, to, end) ?? best);
                double found = Curves.At(trace, ReturnKind.One, "EV1", Pet.FromSeconds(now)), value = best == int.MaxValue ? 86_400 : best - now;
                // Never below; above by no more than the second in which one turns round.
                Assert.InRange(found, value - 1e-6, value + 1);
            }
        }, iter: 60);

    /// <summary>The first second inside of somebody who may walk any span either way and wait anywhere that is open.</summary>
    private static int? Round(Dictionary<string, int[]> closed, string from, int ready)
    {
        Dictionary<string, bool[]> here = closed.Keys.ToDictionary(grip => grip, _ => new bool[Last + 1]);
        here[from][ready] = true;
        for (int second = ready; second + 180 <= Last; second++)
            foreach ((string grip, bool[] stands) in here)
            {
                if (!stands[second] || !Open(closed, second, second + 1, grip)) continue;
                if (grip == "lock" && Open(closed, second, second + 180, grip)) return second + 180;
                stands[second + 1] = true;
                foreach ((string a, string b, int seconds) in Gaps)
                    if ((a == grip || b == grip) && second + seconds <= Last && Open(closed, second, second + seconds, a, b)) here[a == grip ? b : a][second + seconds] = true;
            }
        return null;
    }
}
