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
    ];

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
