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
        new("early end while soiled", "A contingency takes longer than the sortie may last, after a disconnect spilled over everything and with no test in the world as played.", "branch.unproven",
            "Going on ends after the limit, and whoever ends in order goes in soiled.",
            plan => Opened(plan).SelectMany(open => plan.All<DoStep>().Where(step => step.Person == open.Person && step.Leg == open.Leg && step.Start >= open.End)).Select(step =>
                Honest(plan, One(plan, step, Limit(plan)), one => one, one => one.Fluid is { Opens: true } touch ? one with { Fluid = touch with { Spills = null } }
                    : one.Fluid is { Tests.IsEmpty: false } ? one with { Fluid = null } : one))),
        new("early end with a line shut off", "A contingency takes longer than the sortie may last while a line of liquid is shut off, and no line may be left so in the world as played.", "branch.unproven",
            "Going on ends after the limit, and ending in order leaves the line to burst.",
            plan => plan.All<DoStep>().Where(step => IsShutThroughout(plan, step)).Select(step => Honest(plan, One(plan, step, Limit(plan))) is var honest
                ? Unleft(plan, honest) : honest)),
        new("way on without a must-job", "What is told of a contingency leaves out a must-job that nobody had begun.", "branch.unproven",
            "It is not that way on.",
            plan => plan.All<DoStep>().SelectMany(step => Later(plan, step).Take(1).Select(leg => With(plan, One(plan, step, Minute)) with { GoOn = (planned, trouble) => Without(plan, planned, trouble, leg) }))),
    ];

    private static IEnumerable<DoStep> Opened(CleanPlan plan) => plan.All<DoStep>().Where(step => plan.Step(step).Fluid is { Opens: true } touch
        && plan.Scenario.Station.FluidLines.Any(line => line.Name == touch.Line && !line.Harmless));

    /// <summary>Whether a line of liquid is shut off and full from the start of a step to the end of its job's leg.</summary>
    private static bool IsShutThroughout(CleanPlan plan, DoStep step) => plan.Scenario.Station.FluidLines.Any(line => line.Trapped is not null
        && plan.History.While(plan.History[$"line {line.Name} state"], state => state != "fed").Any(shut => shut.From < step.Start && step.End < shut.To)
        && plan.History.StateAt(plan.History[$"line {line.Name} fill"], step.End) == "full");

    /// <summary>No line may be left shut off, and no terminate opens one.</summary>
    private static Damaged Unleft(CleanPlan plan, Damaged honest)
    {
        Scenario world = honest.Scenario with
        {
            Station = honest.Scenario.Station with { FluidLines = [.. honest.Scenario.Station.FluidLines.Select(line => line with { MayBeLeft = null })] },
            Jobs = [.. honest.Scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg with { Steps = [.. leg.Steps.Select(one => one with { Terminate = one.Terminate with { Leaves = [] } })] })] })],
        };
        return honest with { Scenario = world, GoOn = new Detours(new Expander(world), plan.Outline).Expand };
    }

    /// <summary>The legs of must-jobs of which nothing is begun when a step ends.</summary>
    private static IEnumerable<LegId> Later(CleanPlan plan, DoStep step) => plan.Scenario.Jobs.Where(job => job.Worth == Worth.Must)
        .Where(job => job.Legs.All(leg => plan.StepsOf(leg.Id).All(one => one.Start >= step.End)) && job.Legs.Any(leg => !plan.StepsOf(leg.Id).IsEmpty)).Select(job => job.Legs[0].Id);

    /// <summary>The honest way on as planned, told for every way, but whoever was to do a leg waits instead.</summary>
    private static (Timeline?, string) Without(CleanPlan plan, Timeline planned, Trouble trouble, LegId leg)
    {
        (Timeline? way, string why) = new Detours(new Expander(plan.Scenario), plan.Outline).Expand(planned, trouble with { GoesOn = GoingOn.AsPlanned });
        return way is null ? (way, why) : (way with { Trouble = trouble, Activities = [.. way.Activities.Select(activity => activity is DoStep step && step.Leg == leg ? CleanPlan.Wait(step, step.Person) : activity)] }, why);
    }

    private static Duration Minute { get; } = Duration.FromMinutes(1);

    private static Duration Limit(CleanPlan plan) => Duration.FromSeconds((int)plan.Scenario.LimitOf("pet.limit")!.Value.Value);

    private static Contingency One(CleanPlan plan, DoStep step, Duration extra) =>
        new(step.Leg, step.Step, "Trouble", 0.1, "a test", new(extra, extra, extra, "a test"), "go on");

    /// <summary>The world with this contingency alone.</summary>
    private static Damaged With(CleanPlan plan, Contingency contingency) => plan.InWorld(scenario => scenario with
    {
        Jobs = [.. scenario.Jobs.Select(job => job with { Contingencies = job.Legs.Any(leg => leg.Id == contingency.Step) ? [contingency] : [] })],
    });

    private static Damaged Honest(CleanPlan plan, Contingency contingency, Func<Step, Step>? change = null, Func<Step, Step>? every = null)
    {
        Damaged damaged = With(plan, contingency);
        if (every is not null)
            damaged = damaged with
            {
                Scenario = damaged.Scenario with { Jobs = [.. damaged.Scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg with { Steps = [.. leg.Steps.Select(every)] })] })] },
            };
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
