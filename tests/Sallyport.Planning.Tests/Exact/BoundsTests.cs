using Sallyport.Bench;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Xunit;

namespace Sallyport.Tests.Planning.Exact;

/// <summary>No plan passes a bound: every plan found is held against the conditions that bounds are proven from.</summary>
public class BoundsTests
{
    private static readonly SolverLimits Brief = new(double.PositiveInfinity, 1, 1, CancellationToken.None);

    // Sharper than comparing figures, which a weak bound always meets: the plan itself, leg by leg and second by second, must be a solution.
    [Fact]
    public void Relaxation_EveryOutlineAnnounced_IsASolutionOfIt()
    {
        int asked = 0, solved = 0, dead = 0;
        SearchedPlans.Each(plan =>
        {
            // A third of the stored seeds, which takes long enough, and all of the fresh ones.
            if (plan.Seed < 1_000_000 && plan.Seed % 3 != 0) return;
            Timeline timeline = plan.Expand();
            SolverWord word = KeptTo(plan.Scenario, plan.Expander, timeline, plan.End);
            Assert.NotEqual(SolverWord.Impossible, word);
            asked++;
            if (word is SolverWord.Closed or SolverWord.Found) solved++;
            // With its own legs as they are, nothing is asked to be shut down for longer than it is.
            int own = DeadIn(plan.Scenario, timeline);
            if (own == 0) return;
            SolverAnswer least = Keeping(plan.Scenario, plan.Expander, timeline, plan.End, 0).LeastDead(0, Brief);
            Assert.NotEqual(SolverWord.Impossible, least.Word);
            Assert.InRange(least.Bound, 0, own);
            if (least.Word == SolverWord.Closed && least.Bound > 0) dead++;
        });
        Assert.True(solved > asked * 0.95, $"only {solved} of {asked} were seen to be solutions");
        Assert.True(dead > 20, $"only {dead} plans shut something down");
    }

    [Fact]
    public void Relaxation_PlansOfTheFamily_AreSolutionsOfIt()
    {
        int asked = 0;
        foreach (int legs in FrozenFamily.Sizes)
            foreach (int seed in FrozenFamily.Seeds.Take(4))
            {
                Scenario scenario = FrozenFamily.Of(legs, seed);
                Expander expander = new(scenario);
                if (Found(scenario, expander) is not { } plan) continue;
                asked++;
                Timeline timeline = expander.Expand(plan.Outline, Branch.Likely, "test").Timeline!;
                Assert.NotEqual(SolverWord.Impossible, KeptTo(scenario, expander, timeline, plan.End));
            }
        Assert.True(asked >= 6, $"only {asked} cases had a plan");
    }

    // The check itself, seen to work: a plan that begins a leg sooner than anybody can be there is no solution.
    [Fact]
    public void Relaxation_APlanQuickerThanItsWays_IsNoSolution()
    {
        Expander expander = new(ShortWalk.Skerry);
        Timeline timeline = expander.Expand(ShortWalk.ByHand, Branch.Likely, "test").Timeline!;
        Pet end = timeline.Activities.Max(activity => activity.End);
        Assert.Equal(SolverWord.Closed, KeptTo(ShortWalk.Skerry, expander, timeline, end));
        // EV1 takes the bag from 0:17 to 0:19 and is at the ring at 0:21:30.
        Assert.Equal(SolverWord.Impossible, KeptTo(ShortWalk.Skerry, expander, timeline, end, sooner: 1));
        Assert.Equal(SolverWord.Impossible, KeptTo(ShortWalk.Skerry, expander, timeline, end.Plus(Duration.FromSeconds(-1))));
    }

    // Worked by hand in ShortWalkTests: the only order there is ends at 0:56:30, and the relaxation loses nothing of it.
    [Fact]
    public void LeastEnd_TheWalkWorkedByHand_IsItsEnd()
    {
        Bounds bounds = new(ShortWalk.Skerry, new(ShortWalk.Skerry));
        Bound end = bounds.LeastEnd(10, null, double.PositiveInfinity, 5, 1, CancellationToken.None);
        Assert.Equal((56 * 60 + 30, true), (end.Figure, end.IsReached));
        Assert.Equal(10, bounds.MostValue(double.PositiveInfinity, 5, 1, CancellationToken.None).Figure);
        Assert.True(bounds.LeastEnd(11, null, double.PositiveInfinity, 5, 1, CancellationToken.None).IsImpossible);
    }

    [Theory]
    [InlineData(56 * 60 + 29, true)]
    [InlineData(56 * 60 + 30, false)]
    public void MostValue_AnEndLimitThatCannotBeMet_IsProvenImpossible(int limit, bool impossible)
    {
        Scenario scenario = ShortWalk.Skerry with { Limits = [new(new("pet.limit"), new(Dimension.Time, limit, $"{limit} s"), null, "invented for the test", false)] };
        Assert.Equal(impossible, new Bounds(scenario, new(scenario)).MostValue(double.PositiveInfinity, 5, 1, CancellationToken.None).IsImpossible);
    }

    [Fact]
    public void Bounds_TheSameWorkOnOneThread_AreTheSame()
    {
        Scenario scenario = FrozenFamily.Of(15, 1);
        Bounds bounds = new(scenario, new(scenario));
        Assert.Equal(bounds.LeastEnd(60, null, double.PositiveInfinity, 0.3, 1, CancellationToken.None), bounds.LeastEnd(60, null, double.PositiveInfinity, 0.3, 1, CancellationToken.None));
    }

    private static SolverWord KeptTo(Scenario scenario, Expander expander, Timeline timeline, Pet end, int sooner = 0) =>
        Keeping(scenario, expander, timeline, end, sooner).LeastEnd(0, Brief).Word;

    private static Relaxation Keeping(Scenario scenario, Expander expander, Timeline timeline, Pet end, int sooner)
    {
        SearchCase all = new(scenario, expander);
        Relaxation relaxed = new(all, new(all, expander.Graph), end.Seconds);
        relaxed.KeepTo(timeline.Activities.OfType<DoStep>().GroupBy(step => step.Leg).ToDictionary(leg => all.LegIndex[leg.Key],
            leg => (all.People.Select(person => person.Id).ToList().IndexOf(leg.First().Person), leg.Min(step => step.Start).Seconds - sooner)));
        return relaxed;
    }

    /// <summary>Seconds from the end of each command that turns something off to the end of the next that turns it on.</summary>
    private static int DeadIn(Scenario scenario, Timeline timeline) => scenario.Consoles.SelectMany(console => console.Shutdowns).Sum(shutdown =>
    {
        int EndsOf(CommandId command) => timeline.Activities.OfType<SendCommand>().Where(send => send.Command == command).Sum(send => send.End.Seconds);
        return EndsOf(shutdown.On) - EndsOf(shutdown.Off);
    });

    private static (Outline Outline, Pet End)? Found(Scenario scenario, Expander expander)
    {
        SearchProgress? last = null;
        SearchResult result = new Searcher(scenario, expander).Run(new(Effort: 1, Seed: 1, Threads: 2),
            outline => expander.Expand(outline, Branch.Likely, "test").Timeline is { } timeline && Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Clean,
            progress => last = progress, CancellationToken.None);
        return result.Outline is { } found ? (found, last!.End!.Value) : null;
    }
}
