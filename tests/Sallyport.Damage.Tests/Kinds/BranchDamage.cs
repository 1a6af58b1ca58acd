using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Tests.Damage;

/// <summary>What follows when a step does not go: each kind first puts one contingency into the world as played that the plan could meet.</summary>
internal static class BranchDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("tool of a contingency elsewhere", "A contingency asks for a thing that is not where its step is done when it happens.", "branch.unproven",
            "What is to be done then cannot be done without it.",
            plan => plan.All<DoStep>().SelectMany(step => Elsewhere(plan, step).Take(1).Select(tool => Honest(plan, One(plan, step, Minute) with { Tools = [tool] })))),
        new("contingency without end", "A contingency takes longer than the sortie may last, and so does leaving its step.", "branch.unproven",
            "Going on and ending in order both end after the limit.",
            plan => plan.All<DoStep>().Select(step => Honest(plan, One(plan, step, Limit(plan)), one => one with { Terminate = one.Terminate with { Time = Limit(plan) } }))),
        new("contingency without its time", "What is told of a contingency gives its step no more time than the plan did.", "branch.unproven",
            "The time that it takes is not in it.",
            plan => plan.All<DoStep>().Select(step => With(plan, One(plan, step, Minute)) with { GoOn = (planned, trouble) => (planned with { Trouble = trouble }, "") })),
        new("contingency known before", "What is told of a contingency has something else happen before it can be known.", "branch.unproven",
            "Nobody knows of it then.",
            plan => plan.All<DoStep>().Select(step => With(plan, One(plan, step, Minute)) with { GoOn = (planned, trouble) => Foreseen(plan, planned, trouble) })),
    ];

    private static Duration Minute { get; } = Duration.FromMinutes(1);

    private static Duration Limit(CleanPlan plan) => Duration.FromSeconds((int)plan.Scenario.LimitOf("pet.limit")!.Value.Value);

    private static Contingency One(CleanPlan plan, DoStep step, Duration extra) =>
        new(step.Leg, step.Step, "Trouble", 0.1, "a test", new(extra, extra, extra, "a test"), "go on");

    /// <summary>The world with this contingency alone.</summary>
    private static Damaged With(CleanPlan plan, Contingency contingency) => plan.InWorld(scenario => scenario with
    {
        Jobs = [.. scenario.Jobs.Select(job => job with { Contingencies = job.Legs.Any(leg => leg.Id == contingency.Step) ? [contingency] : [] })],
    });

    private static Damaged Honest(CleanPlan plan, Contingency contingency, Func<Step, Step>? change = null)
    {
        Damaged damaged = With(plan, contingency);
        if (change is not null)
            damaged = damaged with
            {
                Scenario = damaged.Scenario with
                {
                    Jobs = [.. damaged.Scenario.Jobs.Select(job => job with { Legs = CleanPlan.Each(job.Legs, leg => leg.Id == contingency.Step, leg => leg with { Steps = CleanPlan.Each(leg.Steps, one => one.Id == contingency.StepId, change) }) })],
                },
            };
        return damaged with { GoOn = new Detours(new Expander(damaged.Scenario), plan.Outline).Expand };
    }

    /// <summary>Things that are inside or with nobody near when a step ends.</summary>
    private static IEnumerable<GearId> Elsewhere(CleanPlan plan, DoStep step)
    {
        Site site = plan.Scenario.Station.Sites.First(one => one.Id == plan.Legs[step.Leg].Site);
        foreach (Gear gear in plan.Scenario.Gear)
        {
            string place = plan.History.StateAt(plan.History[$"gear {gear.Id} place"], step.Start), after = plan.History.StateAt(plan.History[$"gear {gear.Id} place"], step.End);
            if (place == after && (place == "inside" || (place.StartsWith("grip ", StringComparison.Ordinal) && place != $"grip {site.Grip}"))) yield return gear.Id;
        }
    }

    /// <summary>The honest way on, but with the first thing that anybody does moved by a second.</summary>
    private static (Timeline?, string) Foreseen(CleanPlan plan, Timeline planned, Trouble trouble)
    {
        (Timeline? way, string why) = new Detours(new Expander(plan.Scenario), plan.Outline).Expand(planned, trouble);
        Activity? first = way?.Activities.FirstOrDefault(activity => activity.Start < trouble.From && activity is Translate or Take);
        return first is null ? (way, why) : (way! with { Activities = [.. way.Activities.Select(one => one == first ? first with { End = first.End.Plus(Duration.FromSeconds(1)) } : one)] }, why);
    }
}
