using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Xunit;
using static Sallyport.Tests.Planning.ShortWalk;

namespace Sallyport.Tests.Planning.Exact;

/// <summary>Wishes forced on a search, and which of them cannot be kept together.</summary>
public class WishesTests
{
    private const double Work = 2;

    // As worked by hand, EV1 is at the ring at 0:21:30 and done at 0:31:30. Begun at 0:25 that is 0:35, and EV2 looks after it.
    private static readonly Wish Late = new WhenWish("free at 0:25", Free, At("0:25"), At("0:25"));
    private static readonly Wish LookSoon = new WhenWish("look by 0:33", Look, null, At("0:33"));
    private static readonly Wish ByOne = new ByWish("EV1 frees", [Free], new("EV1"));

    [Fact]
    public void InConflict_TwoOfThreeThatExcludeEachOther_AreTheTwo()
    {
        Assert.Equal([Late, LookSoon], new Wishes(Skerry, [Late, ByOne, LookSoon]).InConflict(Work, CancellationToken.None));
        foreach (Wish one in new[] { Late, LookSoon }) Assert.False(new Wishes(Skerry, [one, ByOne]).CannotBe(Work, CancellationToken.None));
    }

    [Fact]
    public void InConflict_WishesThatGoTogether_IsEmpty() => Assert.Empty(new Wishes(Skerry, [Late, ByOne]).InConflict(Work, CancellationToken.None));

    [Fact]
    public void Search_ALegWishedForAMoment_BeginsThen()
    {
        Timeline? found = Search(new(Skerry, [Late]));
        Assert.Equal(At("0:25"), found!.Activities.OfType<DoStep>().Where(step => step.Leg == Free).Min(step => step.Start));
        Assert.Equal(At("1:00"), found.Activities.Max(activity => activity.End));
    }

    [Fact]
    public void Search_ALegWishedForWhoMayNot_FindsNoneAndItIsProven()
    {
        Wishes wishes = new(Skerry, [new ByWish("EV2 frees", [Free], new("EV2"))]);
        Assert.Null(Search(wishes));
        Assert.True(wishes.CannotBe(Work, CancellationToken.None));
    }

    // A job that is wished for is no must-job to the proof: that would ask for spare tools, which nobody wished for.
    [Fact]
    public void Judged_OfAJobWishedFor_KeepsItsWorthAndWhatElseTheWishesChange()
    {
        Job job = Skerry.Jobs.First(job => job.Legs.Any(leg => leg.Id == Free));
        Scenario optional = Skerry with { Jobs = [.. Skerry.Jobs.Select(one => one.Id == job.Id ? one with { Worth = Worth.GetAhead, Value = 4 } : one)] };
        Wishes wishes = new(optional, [new DoneWish("done", job.Id), ByOne]);
        Assert.Equal(Worth.Must, wishes.Scenario.Jobs.First(one => one.Id == job.Id).Worth);
        Job judged = wishes.Judged.Jobs.First(one => one.Id == job.Id);
        Assert.Equal((Worth.GetAhead, 4), (judged.Worth, judged.Value));
        Assert.Equal(["EV1"], judged.Legs.First(leg => leg.Id == Free).Who.Select(person => person.Value));
    }

    // What is found must do as wished, judged from its timeline alone; where none is found nothing is claimed.
    [Fact]
    public void Search_JobsWishedFirstOrInOrder_AreSoInWhatIsFound()
    {
        int first = 0, ordered = 0;
        for (int seed = 1; seed <= 30 && (first < 3 || ordered < 3); seed++)
        {
            Scenario scenario = RandomScenario.Of(seed);
            if (scenario.Jobs.Length < 2) continue;
            JobId last = scenario.Jobs[^1].Id, before = scenario.Jobs[0].Id;
            if (Search(new(scenario, [new FirstWish("", last)])) is { } timeline)
            {
                DoStep begun = Steps(timeline).First(step => JobOf(step) == last);
                Assert.Equal(begun, Steps(timeline).First(step => step.Person == begun.Person));
                first++;
            }
            if (Search(new(scenario, [new BeforeWish("", last, before)])) is { } inOrder)
            {
                Assert.True(Steps(inOrder).Where(step => JobOf(step) == last).Max(step => step.End) <= Steps(inOrder).Where(step => JobOf(step) == before).Min(step => step.Start), $"seed {seed}");
                ordered++;
            }
        }
        Assert.True(first >= 3 && ordered >= 3, $"{first} and {ordered} found only");
    }

    private static IEnumerable<DoStep> Steps(Timeline timeline) => timeline.Activities.OfType<DoStep>().OrderBy(step => step.Start).ThenBy(step => step.Id.Value, StringComparer.Ordinal);

    private static JobId JobOf(DoStep step) => new(step.Leg.Value[..step.Leg.Value.IndexOf('/')]);

    private static Timeline? Search(Wishes wishes)
    {
        Expander expander = new(wishes.Scenario);
        Timeline? Accept(Outline outline) =>
            expander.Expand(outline, Branch.Likely, "test").Timeline is { } timeline && Judge.Of(wishes.Scenario, [(timeline, Player.Play(wishes.Scenario, timeline))]).Clean ? timeline : null;
        return wishes.Search(effort: 1, seed: 1, Accept, CancellationToken.None).Outline is { } outline ? Accept(outline) : null;
    }
}
