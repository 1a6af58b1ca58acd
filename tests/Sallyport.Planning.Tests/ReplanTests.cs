using Sallyport.Bench;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Xunit;

namespace Sallyport.Tests.Planning;

/// <summary>New plans from the middle of a walk, held against the plan before and against the proof.</summary>
public class ReplanTests
{
    private const int Scenarios = 24;

    // Nothing has changed: what is left of the plan is a plan, so one is found, and it is no worse.
    [Fact]
    public void Replan_NothingChanged_KeepsThePastAndEveryMustJob()
    {
        List<string> failed = [];
        int replanned = 0, past = 0;
        for (int seed = 1; seed <= Scenarios; seed++)
        {
            Scenario scenario = RandomScenario.Of(seed);
            if (PlanOf(scenario, seed) is not { } plan) continue;
            Timeline before = Expanded(scenario, plan);
            Pet now = Pet.FromSeconds(EndOf(before) * 2 / 5);
            Replanned made = Replan(scenario, plan, now, seed);
            if (made.Outline is not { } outline)
            {
                failed.Add($"seed {seed}: {made.Why}");
                continue;
            }
            replanned++;
            Timeline after = Expanded(scenario, outline);
            string[] was = Past(before, now), @is = Past(after, now);
            past += was.Length;
            if (!was.SequenceEqual(@is)) failed.Add($"seed {seed}: the past at {now} is another: {string.Join("; ", was.Except(@is).Concat(@is.Except(was)))}");
            if (!made.Dropped.IsEmpty) failed.Add($"seed {seed}: drops {string.Join(", ", made.Dropped)}");
            if (!IsClean(scenario, outline)) failed.Add($"seed {seed}: not clean");
            if (ValueOf(scenario, outline) < ValueOf(scenario, plan)) failed.Add($"seed {seed}: worth {ValueOf(scenario, outline)} after {ValueOf(scenario, plan)}");
        }
        Assert.True(failed.Count == 0, string.Join('\n', failed));
        Assert.True(replanned > Scenarios / 2 && past > 10 * replanned, $"{replanned} replanned, {past} activities past");
    }

    // A step under way takes so much longer that something has to give.
    [Fact]
    public void Replan_AStepTakesLonger_DropsNoMustJobThatTheRepairedOrderKeeps()
    {
        List<string> failed = [];
        List<string> none = [];
        int replanned = 0, shorter = 0, dropped = 0;
        for (int seed = 1; seed <= Scenarios; seed++)
        {
            Scenario scenario = RandomScenario.Of(seed);
            if (PlanOf(scenario, seed) is not { } plan) continue;
            Timeline before = Expanded(scenario, plan);
            int end = EndOf(before);
            DoStep? step = before.Activities.OfType<DoStep>().Where(one => one.Start.Seconds > end / 4).MinBy(one => one.Start);
            if (step is null) continue;
            // The plan is to be over when it was meant to, so that nothing else makes room for the ten minutes.
            Scenario longer = Longer(scenario, step, 600);
            longer = longer with { Limits = [.. longer.Limits.Select(limit => limit.Rule.Value == "pet.limit" ? limit with { Value = limit.Value with { Value = end } } : limit)] };
            Pet now = step.Start.Plus(Duration.FromSeconds(1));
            Replanned made = Replan(longer, plan, now, seed);
            bool mustOnly = KeepsTheMustJobs(longer, plan, before, now);
            if (made.Outline is not { } outline)
            {
                none.Add($"seed {seed}: {made.Why}");
                if (mustOnly) failed.Add($"seed {seed}: none found, and the old order without what is optional is one: {made.Why}");
                continue;
            }
            replanned++;
            if (ValueOf(longer, outline) < ValueOf(scenario, plan)) shorter++;
            if (!made.Dropped.IsEmpty) dropped++;
            if (!made.Dropped.IsEmpty && mustOnly) failed.Add($"seed {seed}: drops {string.Join(", ", made.Dropped)}, which the old order without what is optional keeps");
            if (!Past(Expanded(longer, plan), now).SequenceEqual(Past(Expanded(longer, outline), now))) failed.Add($"seed {seed}: the past at {now} is another");
            Scenario judged = longer with { Jobs = [.. longer.Jobs.Select(job => made.Dropped.Contains(job.Id) ? job with { Worth = Worth.Should } : job)] };
            if (!IsClean(judged, outline)) failed.Add($"seed {seed}: not clean");
        }
        Assert.True(failed.Count == 0, string.Join('\n', failed));
        Assert.True(replanned > 5 && shorter + dropped > 2, $"{replanned} replanned, {shorter} worth less, {dropped} without a must-job; {string.Join("; ", none)}");
    }

    [Fact]
    public void Replan_AtTheStart_IsAPlanOfItsOwn()
    {
        Scenario scenario = FrozenFamily.Of(15, 8);
        Outline plan = PlanOf(scenario, 8) ?? throw new InvalidOperationException("the case has a plan");
        Replanned made = Replan(scenario, plan, Pet.FromSeconds(0), 8);
        Assert.True(made.Outline is not null, made.Why);
        Assert.True(IsClean(scenario, made.Outline!));
    }

    [Fact]
    public void Replan_SameEffortAndSeed_GivesTheSameOnAnyNumberOfThreads()
    {
        Scenario scenario = FrozenFamily.Of(15, 8);
        Outline plan = PlanOf(scenario, 8) ?? throw new InvalidOperationException("the case has a plan");
        string[] Told(int threads)
        {
            Replanned made = new Replanner(scenario, new(scenario)).Run(plan, Pet.FromSeconds(9_000), new(2, 8, null, threads, 1_000), IsClean, _ => { }, CancellationToken.None);
            Assert.True(made.Outline is not null, made.Why);
            return [.. Expanded(scenario, made.Outline!).Activities.Select(activity => $"{activity.Start} {activity.End} {activity.GetType().Name} {string.Join(' ', activity.People)}")];
        }
        Assert.Equal(Told(1), Told(2));
    }

    private static Outline? PlanOf(Scenario scenario, int seed) =>
        new Searcher(scenario, new(scenario)).Run(new(Effort: 1, seed, null, Threads: 1, 1_000), outline => IsClean(scenario, outline), _ => { }, CancellationToken.None).Outline is { } plan
            ? plan with
            {
                Decision = null,
                People = plan.Decision is null ? plan.People : [.. plan.People.Select(list => list with
            { Entries = [.. list.Entries, .. plan.Decision.Then.Where(tail => tail.Person == list.Person).SelectMany(tail => tail.Entries)] })]
            }
            : null;

    private static Replanned Replan(Scenario scenario, Outline plan, Pet now, int seed) =>
        new Replanner(scenario, new(scenario)).Run(plan, now, new(1, seed, null, 1, 1_000), IsClean, _ => { }, CancellationToken.None);

    /// <summary>Whether the old order plays clean without its optional jobs that were not begun: a plan found without any search.</summary>
    private static bool KeepsTheMustJobs(Scenario scenario, Outline plan, Timeline before, Pet now)
    {
        HashSet<LegId> begun = [.. before.Activities.OfType<DoStep>().Where(step => step.Start < now).Select(step => step.Leg)];
        HashSet<LegId> left = [.. scenario.Jobs.Where(job => job.Worth != Worth.Must && !job.Legs.Any(leg => begun.Contains(leg.Id))).SelectMany(job => job.Legs).Select(leg => leg.Id)];
        Outline without = plan with { People = [.. plan.People.Select(list => list with { Entries = [.. list.Entries.Where(entry => entry is not LegEntry leg || !left.Contains(leg.Leg))] })] };
        Expander expander = new(scenario);
        Outline complete = new Completion(scenario, expander).Complete(without).Outline;
        return expander.Expand(complete, Branch.Likely, "test").Timeline is { } timeline
            && Past(timeline, now).SequenceEqual(Past(Expanded(scenario, plan), now)) && IsClean(scenario, complete);
    }

    private static Scenario Longer(Scenario scenario, DoStep step, int seconds) => scenario with
    {
        Jobs = [.. scenario.Jobs.Select(job => job with
        {
            Legs = [.. job.Legs.Select(leg => leg.Id != step.Leg ? leg : leg with
            {
                Steps = [.. leg.Steps.Select(one => one.Id != step.Step ? one : one with
                { Time = one.Time with { Likely = one.Time.Likely.Plus(Duration.FromSeconds(seconds)), High = one.Time.High.Plus(Duration.FromSeconds(seconds)) } })],
            })],
        })],
    };

    private static bool IsClean(Scenario scenario, Outline outline) =>
        new Expander(scenario).Expand(outline, Branch.Likely, "test").Timeline is { } timeline && Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Clean;

    private static Timeline Expanded(Scenario scenario, Outline outline) => new Expander(scenario).Expand(outline, Branch.Likely, "test").Timeline!;

    private static int EndOf(Timeline timeline) => timeline.Activities.Max(activity => activity.End.Seconds);

    private static int ValueOf(Scenario scenario, Outline outline)
    {
        HashSet<LegId> done = [.. outline.People.SelectMany(list => list.Entries.OfType<LegEntry>()).Select(entry => entry.Leg)];
        return scenario.Jobs.Where(job => job.Legs.All(leg => done.Contains(leg.Id))).Sum(job => job.Value);
    }

    /// <summary>All that was begun before a moment, waits apart: those tell of what comes.</summary>
    private static string[] Past(Timeline timeline, Pet now) => [.. timeline.Activities.Where(activity => activity.Start < now && activity is not Await)
        .Select(activity => $"{activity.Start} {activity.End} {activity.GetType().Name} {string.Join(' ', activity.People)} {(activity as DoStep)?.Leg} {(activity as DoStep)?.Step} {(activity as Take)?.Gear} {(activity as Put)?.Gear}")
        .Order(StringComparer.Ordinal)];
}
