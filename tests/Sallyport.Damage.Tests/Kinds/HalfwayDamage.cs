using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>The walk cut off halfway: what the break-offs leave behind in the world as played.</summary>
internal static class HalfwayDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("left as the step makes it", "What a step makes may not be left in the world as played, and no break-off after it brings it back.", "job.halfway",
            "Whoever goes in after the step leaves it so.",
            plan => Made(plan).Select(made => InWorld(plan, made.Make.State.Feature, made.Before, step => step with { Abort = Bare(step.Abort), Terminate = Bare(step.Terminate) }))),
        new("terminate that leaves a wrong state", "The terminate of a step leaves what the step makes, and that may not be left.", "job.halfway",
            "Ending the step in order leaves it so.",
            plan => Made(plan).Select(made => InWorld(plan, made.Make.State.Feature, made.Before, step => step.Id == made.Act.Step && step.Makes.Contains(made.Make)
                ? step with { Terminate = step.Terminate with { Leaves = [made.Make.State] } } : step))),
        new("clock left running", "A thermal clock runs in the world as played while a feature is as a step makes it, and no break-off brings it back.", "job.halfway",
            "Once everybody is in nobody stops it.",
            plan => Made(plan).Select(made => Bare(plan, scenario => scenario with
            {
                Clocks = [new(new("test clock"), ClockKind.Cold, [new FeatureIs(new(made.Make.State.Feature, [made.Make.State.State]))], [new([], Duration.FromMinutes(6000))], MayRunOn: false, "a test")],
            }))),
        new("line left shut off halfway", "A line of liquid may not be left shut off in the world as played, and no break-off opens a valve of it.", "job.halfway",
            "Whoever goes in meanwhile leaves it to burst.",
            plan => plan.Scenario.Station.FluidLines.Where(line => line.Trapped is not null && IsShutFull(plan, line)).Select(line => Bare(plan, scenario => scenario with
            {
                Station = scenario.Station with { FluidLines = CleanPlan.Each(scenario.Station.FluidLines, one => one == line, one => one with { MayBeLeft = null }) },
            }))),
        new("moved with nothing that ties it", "The scenario as played speaks of no second tie, and no step of a leg ties what one of its steps moves.", "job.halfway",
            "An abort in that step drops it.",
            plan => plan.Done.Where(leg => plan.Legs[leg].Steps.Any(step => step.Makes.OfType<MoveGear>().Any())).Select(leg => Bare(plan, scenario => scenario with
            {
                Handling = scenario.Handling with { Tie = null },
                Jobs = [.. scenario.Jobs.Select(job => job with { Legs = CleanPlan.Each(job.Legs, one => one.Id == leg, one => one with { Steps = [.. one.Steps.Select(step => step with { Ties = [] })] }) })],
            })))
        { IsCaution = true },
        new("open end that nobody spoke of", "The scenario as played does not say how a disconnect or connector may be left that a step takes apart, and no break-off closes it.", "job.halfway",
            "It is left open.",
            plan => Made(plan).Where(made => IsOpen(plan.Scenario, made.Make.State)).Select(made => Bare(plan, scenario => scenario with
            {
                MayBeLeft = [.. scenario.Station.Features.Where(feature => feature.Id != made.Make.State.Feature).Take(1).Select(feature => new MayBeLeft(feature.Id, [.. feature.States], [], "the test says so"))],
            }))),
    ];

    private static bool IsOpen(Scenario scenario, FeatureState made) =>
        scenario.Station.Disconnects.Any(one => one.Feature == made.Feature && !one.Mated.Contains(made.State) && !one.Capped.Contains(made.State))
        || scenario.Station.PowerLines.Any(line => line.IsConnector && line.Closed!.Feature == made.Feature && line.IsExposedIn(made.State));

    private static bool IsShutFull(CleanPlan plan, FluidLine line) =>
        plan.History.While(plan.History[$"line {line.Name} state"], state => state != "fed").Any(shut => plan.History.StateAt(plan.History[$"line {line.Name} fill"], shut.From) == "full");

    /// <summary>A world in which no break-off leaves anything by itself, and features may be left as they are.</summary>
    private static Damaged Bare(CleanPlan plan, Func<Scenario, Scenario> change) => plan.InWorld(scenario => change(scenario with
    {
        MayBeLeft = [.. scenario.Station.Features.Select(feature => new MayBeLeft(feature.Id, [.. feature.States], [], "the test says so"))],
        Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg with { Steps = [.. leg.Steps.Select(step => step with { Abort = Bare(step.Abort), Terminate = Bare(step.Terminate) })] })] })],
    }));

    private static BreakOff Bare(BreakOff way) => way with { Leaves = [] };

    /// <summary>Steps that make a feature other than it was at the start, where no console can bring it back.</summary>
    private static IEnumerable<(DoStep Act, MakeFeature Make, string Before)> Made(CleanPlan plan)
    {
        HashSet<FeatureId> commanded = [.. plan.Scenario.Consoles.SelectMany(console => console.Commands).SelectMany(command => command.Makes).Select(make => make.Feature)];
        foreach (DoStep act in plan.All<DoStep>())
            foreach (MakeFeature make in plan.Step(act).Makes.OfType<MakeFeature>().Where(make => !commanded.Contains(make.State.Feature)))
                if (plan.Scenario.Station.Features.First(feature => feature.Id == make.State.Feature).Start is var start && start != make.State.State) yield return (act, make, start);
    }

    private static Damaged InWorld(CleanPlan plan, FeatureId feature, string safe, Func<Step, Step> change) => plan.InWorld(scenario => scenario with
    {
        MayBeLeft = [new(feature, [safe], [], "the test says so")],
        Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg with { Steps = [.. leg.Steps.Select(change)] })] })],
    });
}
