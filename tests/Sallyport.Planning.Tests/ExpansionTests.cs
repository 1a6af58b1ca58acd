using Sallyport.Model;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning;

/// <summary>What holds of the expansion of any outline, seen on those that search announces on the random scenarios.</summary>
public class ExpansionTests
{
    [Fact]
    public void Expand_AnyOutline_FillsEverySecondOfEverybodyOnce() => SearchedPlans.Each(plan =>
    {
        Timeline timeline = plan.Expand();
        foreach (PersonOutline list in plan.Outline.People)
        {
            Activity[] own = [.. timeline.Activities.Where(activity => activity.People.Contains(list.Person)).OrderBy(activity => activity.Start)];
            Assert.Equal(0, own[0].Start.Seconds);
            for (int i = 1; i < own.Length; i++)
                Assert.True(own[i].Start == own[i - 1].End, $"{list.Person}: {own[i - 1].Id} ends at {own[i - 1].End}, {own[i].Id} starts at {own[i].Start}");
            Assert.Equal(AirlockPhaseKind.Close, ((AirlockPhase)own[^1]).Phase);
        }
    });

    [Fact]
    public void Expand_AnyOutline_KeepsEveryDependencyItTells() => SearchedPlans.Each(plan =>
    {
        Timeline timeline = plan.Expand();
        Dictionary<ActivityId, Activity> byId = timeline.Activities.ToDictionary(activity => activity.Id);
        foreach (Activity activity in timeline.Activities)
            foreach (Dependency dependency in activity.After)
                if (dependency.Activity is { } earlier)
                    Assert.True(activity.Start >= byId[earlier].End.Plus(dependency.Lag), $"{activity.Id} starts at {activity.Start}, {earlier} ends at {byId[earlier].End}: {dependency.Why}");
    });

    // Nothing starts later than what it waits for allows: a wait has a reason outside, or an edge that is just met.
    [Fact]
    public void Expand_AnyOutline_StartsNothingLaterThanItMust() => SearchedPlans.Each(plan =>
    {
        Timeline timeline = plan.Expand();
        HashSet<CommandId> late = [.. plan.Outline.Ground.Where(entry => entry.Late).Select(entry => entry.Do)];
        Dictionary<ActivityId, Activity> byId = timeline.Activities.ToDictionary(activity => activity.Id);
        foreach (Activity activity in timeline.Activities.Where(activity => activity is not (Await or AirlockPhase { Phase: AirlockPhaseKind.WaitInside or AirlockPhaseKind.SafeInside })))
            if (activity.Start.Seconds > 0 && !(activity is SendCommand command && late.Contains(command.Command)))
                Assert.True(activity.After.Any(dependency => dependency.Activity is not { } earlier || byId[earlier].End.Plus(dependency.Lag) == activity.Start),
                    $"{activity.Id} could start before {activity.Start}");
    });

    [Fact]
    public void Expand_LateCommands_EndAsLateAsNothingElseIsMovedByThem()
    {
        int seen = 0;
        SearchedPlans.Each(plan =>
        {
            Timeline timeline = plan.Expand();
            Timeline early = plan.Expand(plan.Outline with { Ground = [.. plan.Outline.Ground.Select(entry => entry with { Late = false })] });
            // Nothing else is moved.
            Assert.Equal(Others(early), Others(timeline));
            foreach ((SendCommand command, GroundEntry entry) in InOrder(plan, timeline))
            {
                if (!entry.Late) continue;
                seen++;
                // What waits for it may want some time between, such as until something has bled down.
                int latest = timeline.Activities.SelectMany(activity => activity.After.Where(dependency => dependency.Activity == command.Id)
                    .Select(dependency => activity.Start.Seconds - dependency.Lag.Seconds)).Min() - command.Length.Seconds;
                bool needsLink = plan.Scenario.Consoles.SelectMany(console => console.Commands).First(one => one.Id == command.Command).NeedsLink;
                for (int start = command.Start.Seconds + 1; start <= latest; start++)
                    Assert.True(needsLink && plan.Scenario.Sky.NoLink.Any(gap => start < gap.To.Seconds && start + command.Length.Seconds > gap.From.Seconds),
                        $"{command.Id} could start at {Pet.FromSeconds(start)}, not at {command.Start}");
            }
        });
        Assert.True(seen > 50, $"only {seen} late commands were seen");

        static IEnumerable<(ActivityId, Pet, Pet)> Others(Timeline timeline) =>
            timeline.Activities.Where(activity => activity is not SendCommand).Select(activity => (activity.Id, activity.Start, activity.End));
    }

    [Fact]
    public void Expand_AStepMadeLonger_NeverEndsTheSortieSooner()
    {
        int compared = 0;
        SearchedPlans.Each(plan =>
        {
            Random random = new(plan.Seed);
            // A longer step before the one that is led from inside lets its leg begin sooner, and so perhaps in another day: the order of voices is left out.
            Outline outline = plan.Outline with { Voice = [], Ground = [.. plan.Outline.Ground.Select(entry => entry with { Late = false })] };
            Timeline before = plan.Expand(outline);
            for (int i = 0; i < 4; i++)
            {
                DoStep[] steps = [.. before.Activities.OfType<DoStep>()];
                DoStep step = steps[random.Next(steps.Length)];
                Scenario longer = Lengthened(plan.Scenario, step.Leg, step.Step, 1 + random.Next(600));
                // With a longer step a longest lag or a window may not be met any more; then there is no end to compare.
                if (new Expander(longer).Expand(outline, Branch.Likely, "test").Timeline is not { } after) continue;
                compared++;
                Assert.True(End(after) >= End(before), $"{step.Id} made longer ends at {End(after)}, not {End(before)}");
            }
        });
        Assert.True(compared > 300, $"only {compared} could be compared");

        static Pet End(Timeline timeline) => timeline.Activities.Where(activity => activity is not SendCommand).Max(activity => activity.End);
    }

    private static Scenario Lengthened(Scenario scenario, LegId leg, StepId step, int seconds) => scenario with
    {
        Jobs =
        [
            .. scenario.Jobs.Select(job => job with
            {
                Legs =
                [
                    .. job.Legs.Select(one => one.Id != leg ? one : one with
                    {
                        Steps = [.. one.Steps.Select(each => each.Id != step ? each : each with { Time = each.Time with { Likely = each.Time.Likely.Plus(Duration.FromSeconds(seconds)) } })],
                    }),
                ],
            }),
        ],
    };

    /// <summary>The commands of a timeline with the entries they come from: each console sends its own in their order.</summary>
    private static IEnumerable<(SendCommand Command, GroundEntry Entry)> InOrder(SearchedPlan plan, Timeline timeline)
    {
        Dictionary<ConsoleId, Queue<SendCommand>> sent = timeline.Activities.OfType<SendCommand>().GroupBy(command => command.Console)
            .ToDictionary(group => group.Key, group => new Queue<SendCommand>(group.OrderBy(command => command.Start)));
        foreach (GroundEntry entry in plan.Outline.Ground)
        {
            SendCommand command = sent[plan.Scenario.Consoles.First(console => console.Commands.Any(one => one.Id == entry.Do)).Id].Dequeue();
            Assert.Equal(entry.Do, command.Command);
            yield return (command, entry);
        }
    }
}
