using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Xunit;

namespace Sallyport.Tests.Planning.Exact;

/// <summary>Parts of a plan ordered anew with episodes of carrying: held against a walk worked by hand, against proven bounds, and against the proof.</summary>
public class CarryingModelTests
{
    private static readonly LegId Wipe = new("wipe/wipe");

    /// <summary>The short walk with a second leg that needs its one bag: EV2 wipes the rim for 5 min, before or after EV1 has freed the latch.</summary>
    private static Scenario TwoUsers { get; } = ShortWalk.Skerry with { Jobs = [.. ShortWalk.Skerry.Jobs, WipeJob()] };

    // By hand, in minutes. Out at 17; lock to rim 1, rim to ring 1:30; take, put and give 2; from the last one back at the hatch 21 more.
    // The bag to EV1 first, handed over where EV1 works: free 21:30 to 31:30, hand-over at the ring until 33:30, EV2 wipes 35 to 40 and looks until 43, back 44. So search decodes it.
    // The same with the hand-over at the rim, 33 to 35: EV2 wipes until 40, EV1 looks meanwhile, back 41. Nothing is sooner, for the bag goes from ring to rim with a hand-over.
    // The bag to EV2 first: taken until 19, wipe 20 to 25, hand-over at the rim until 27, free 28:30 to 38:30, and looking comes after that: until 41:30, back 42:30.
    private const int Usual = (44 + 21) * 60, Best = (41 + 21) * 60, OtherFirst = (42 * 60) + 30 + (21 * 60);

    [Fact]
    public void Solve_OneBagForTwo_IsTheBestWorkedByHandAndDecodesToIt()
    {
        (SearchCase all, PartMoves parts, Candidate plan) = Plan(TwoUsers, ShortWalk.Free, Wipe, ShortWalk.Look);
        KnownWalk known = parts.Known(plan);
        Assert.Equal(Usual, known.End);
        CarriedWalk walk = parts.Solve(known, Everything(all), 5, CancellationToken.None)!;
        Assert.Equal((Best, true, true), (walk.End, walk.IsBetter, walk.IsBest));
        Assert.Equal((0L, Best), Score(all, parts.Read(walk, plan)));
    }

    // With each list kept, EV2 wipes and then looks: the bag may still come to EV2 first, which is the sooner of the two.
    [Fact]
    public void Solve_OnlyGearFree_KeepsListsAndGivesTheBagToTheOtherFirst()
    {
        (SearchCase all, PartMoves parts, Candidate plan) = Plan(TwoUsers, ShortWalk.Free, Wipe, ShortWalk.Look);
        CarriedWalk walk = parts.Solve(parts.Known(plan), new(new bool[all.Units.Length], AllGear: true, MayAdd: false, 0, int.MaxValue), 5, CancellationToken.None)!;
        Assert.Equal((OtherFirst, true, true), (walk.End, walk.IsBetter, walk.IsBest));
        Assert.Equal((0L, OtherFirst), Score(all, parts.Read(walk, plan)));
    }

    [Fact]
    public void Solve_AJobLeftOut_ComesInWhereItMay()
    {
        (SearchCase all, PartMoves parts, Candidate plan) = Plan(TwoUsers, ShortWalk.Free, ShortWalk.Look, Wipe);
        int job = Array.FindIndex([.. TwoUsers.Jobs], one => one.Id == new JobId("wipe"));
        plan.JobIn[job] = false;
        KnownWalk known = parts.Known(plan);
        // As in ShortWalkTests.
        Assert.Equal((56 * 60) + 30, known.End);
        CarriedWalk kept = parts.Solve(known, Everything(all), 5, CancellationToken.None)!;
        Assert.Equal((known.End, 10, true), (kept.End, kept.Value, kept.IsBest));
        CarriedWalk added = parts.Solve(known, Everything(all) with { MayAdd = true }, 5, CancellationToken.None)!;
        Assert.Equal((Best, 15, true, true), (added.End, added.Value, added.IsBetter, added.IsBest));
        Candidate read = parts.Read(added, plan);
        Assert.True(read.JobIn[job]);
        Assert.Equal((0L, Best), Score(all, read));
    }

    [Fact]
    public void Solve_PlansOfRandomScenarios_PassesNoBoundAndIsRefusedOnlyForReturnTimes()
    {
        int asked = 0, said = 0, better = 0, clean = 0;
        for (int seed = 1; asked < 15 && seed < 3000; seed++)
        {
            Scenario scenario = RandomScenario.Of(seed);
            if (scenario.Legs.Count() > 5) continue;
            Expander expander = new(scenario);
            SearchCase all = new(scenario, expander);
            // Few candidates, so that there is something left to find.
            Annealer lane = new(all, LaneSetting.Lanes[0], seed, Starts.First(all), [], []);
            lane.Run(30, 1);
            if (lane.Best[0] is not { Score.Broken: 0, Candidate: var candidate }) continue;
            PartMoves parts = new(all, expander.Graph, []);
            asked++;
            if (parts.Solve(parts.Known(candidate), Everything(all) with { MayAdd = true }, 0.1, CancellationToken.None) is not { } walk) continue;
            said++;
            Bound least = new Bounds(scenario, expander).LeastEnd(walk.Value, null, double.PositiveInfinity, 0.1, 1, CancellationToken.None);
            Assert.False(least.IsImpossible, $"seed {seed}: proven impossible");
            Assert.True(walk.End >= least.Figure, $"seed {seed}: ends at {walk.End}, proven not before {least.Figure}");
            if (!walk.IsBetter) continue;
            Candidate read = parts.Read(walk, candidate);
            (long limits, int end) = Score(all, read);
            if (limits > 0) continue;
            better++;
            Outline outline = new Searcher(scenario, expander).Write(read, [], OutlineReading.ByHand(null), new(1, 1), []);
            Timeline timeline = expander.Expand(outline, Branch.Likely, "test").Timeline!;
            Assert.Equal(end, timeline.Activities.Max(activity => activity.End).Seconds);
            // Something closed on a way home is what search leaves to the proof.
            Finding[] broken = [.. Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Findings.Where(finding => finding.Severity == Severity.Broken)];
            Assert.All(broken, finding => Assert.StartsWith("return.", finding.Rule.Value, StringComparison.Ordinal));
            if (broken.Length == 0) clean++;
        }
        Assert.True(said > 5 && better > 2 && clean > 1, $"{asked} plans, {said} of them can be said, {better} made better without breaking anything search sees, {clean} of these clean");
    }

    [Fact]
    public void Improve_AnyNumberOfThreads_FindsTheSame()
    {
        (SearchCase all, PartMoves parts, Candidate plan) = Plan(TwoUsers, ShortWalk.Free, Wipe, ShortWalk.Look);
        PlanScore score = new Decoder(all).Decode(plan, []);
        Kept one = parts.Improve(plan, score, [], 1, CancellationToken.None)!, two = parts.Improve(plan, score, [], 2, CancellationToken.None)!;
        Assert.Equal(Best, one.Score.End);
        Assert.Equal((one.Score, one.Key), (two.Score, two.Key));
        Assert.Null(parts.Improve(one.Candidate, one.Score, [], 2, CancellationToken.None));
    }

    // Small enough that plans stay as they are for a cooling, so that the solver is asked after the second and the third.
    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    public void Search_PastTheSecondCooling_GivesTheSameOutlineOnAnyNumberOfThreads(int seed)
    {
        Scenario scenario = RandomScenario.Of(seed);
        string once = Search(1);
        Assert.Contains("LegEntry", once);
        Assert.Equal(once, Search(2));

        string Search(int threads)
        {
            SearchResult found = new Searcher(scenario, new(scenario)).Run(new(Effort: 26, Seed: 7, From: null, threads, Decodes: 100), _ => true, _ => { }, CancellationToken.None);
            return string.Join('\n', found.Outline!.People.SelectMany(list => list.Entries.Select(entry => $"{list.Person} {entry}")));
        }
    }

    private static FreePart Everything(SearchCase all) => new([.. all.Units.Select(_ => true)], AllGear: true, MayAdd: false, 0, int.MaxValue);

    private static (long Broken, int End) Score(SearchCase all, Candidate candidate) => new Decoder(all).Decode(candidate, []) is var score ? (score.Broken, score.End) : default;

    private static (SearchCase All, PartMoves Parts, Candidate Plan) Plan(Scenario scenario, params LegId[] order)
    {
        Expander expander = new(scenario);
        SearchCase all = new(scenario, expander);
        int[] units = [.. order.Select(leg => all.UnitOfLeg[all.LegIndex[leg]])];
        int[] options = [.. all.Units.Select(unit => Array.FindIndex(unit.Options, who => all.People[who[0]].Id.Value == (all.Legs[unit.Legs[0]].Id == ShortWalk.Free ? "EV1" : "EV2")))];
        return (all, new(all, expander.Graph, []), new(units, options, new Bringing[units.Length], [.. scenario.Jobs.Select(_ => true)]));
    }

    private static Job WipeJob()
    {
        Job latch = ShortWalk.Skerry.Jobs[0];
        Leg look = latch.Legs.First(leg => leg.Id == ShortWalk.Look), free = latch.Legs.First(leg => leg.Id == ShortWalk.Free);
        Step step = look.Steps[0] with { Id = new("wipe"), Needs = [], Time = new(Duration.FromMinutes(4), Duration.FromMinutes(5), Duration.FromMinutes(8), "common practice, no source") };
        return latch with { Id = new("wipe"), Worth = Worth.GetAhead, Value = 5, Legs = [look with { Id = Wipe, Who = [new("EV2")], With = free.With, After = [], Steps = [step] }] };
    }
}
