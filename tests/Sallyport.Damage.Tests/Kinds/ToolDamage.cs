using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Tools, fasteners, and what holds whoever drives them.</summary>
internal static class ToolDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("bolt less far in", "A bolt is half a turn less far in at the start of the world as played than a step opens it by.", "bolt.turns",
            "Nobody turns a bolt out further than it was in.",
            plan => Driven(plan).Where(one => one.Step.Fastener!.Turns <= -1).Select(one => WithBolt(plan, one.Bolt, bolt => bolt with { Start = -one.Step.Fastener!.Turns - 0.5 }))),
        new("turns short by one", "A step that closes a bolt drives it a turn less in the world as played.", "bolt.turns",
            "It is not home.",
            plan => Driven(plan).Where(one => one.Step.Fastener!.Turns > 1).Select(one => WithFastener(plan, one, fastener => fastener with { Turns = fastener.Turns - 1 - Width(one.Bolt) }))),
        new("torque doubled", "A step that closes a bolt sets twice the torque in the world as played.", "bolt.turns",
            "The bolt is overdrawn.",
            plan => Driven(plan).Where(one => one.Step.Fastener!.Turns > 0).Select(one => WithFastener(plan, one, fastener => fastener with { Torque = fastener.Torque * 2 }))),
        new("preload not reached", "A step that closes a bolt sets a tenth of the torque in the world as played.", "bolt.turns",
            "The bolt holds nothing.",
            plan => Driven(plan).Where(one => one.Step.Fastener!.Turns > 0).Select(one => WithFastener(plan, one, fastener => fastener with { Torque = fastener.Torque / 10 }))),
        new("tool with another range", "The tool of a step can only be set to twice its torque and more in the world as played.", "bolt.turns",
            "It cannot drive that bolt as its drawing says.",
            plan => Driven(plan).Where(one => one.Step.Fastener!.Tool is not null).Select(one => plan.WithGear(one.Step.Fastener!.Tool!.Value, tool => tool with
            {
                Torque = new Band(one.Step.Fastener.Torque * 2, one.Step.Fastener.Torque * 3, "too much"),
            }))),
        new("battery at its reserve", "A battery tool that is used holds its reserve and nothing more at the start of the world as played.", "tool.battery",
            "It stops halfway.",
            plan => Used(plan).Select(tool => plan.WithGear(tool.Id, one => one with { Charge = one.Charge! with { Full = one.Charge!.Keep } }))),
        new("no spare", "No tool stands in for one that a must-job uses, in the world as played.", "tool.spare",
            "When the tool fails, the job is lost.",
            plan => MustTools(plan).Select(tool => plan.InWorld(scenario => scenario with
            {
                Gear = CleanPlan.Each(scenario.Gear, one => one.SpareFor.Contains(tool), one => one with { SpareFor = one.SpareFor.Remove(tool) }),
            }))),
        new("footing that takes half", "A way of being held takes half the torque and force in the world as played that a step done so works with.", "footing.load",
            "The person turns instead of the bolt.",
            plan => Loaded(plan).Select(one => plan.InWorld(scenario => scenario with
            {
                Footings = CleanPlan.Each(scenario.Footings, footing => footing.Kind == one.Leg.Footing,
                    footing => footing with { Torque = (one.Step.Fastener?.Torque ?? footing.Torque * 2) / 2, Force = (one.Step.Force ?? footing.Force * 2) / 2 }),
            }))),
        new("footing that nobody knows", "Nothing is said of the way of being held that a loaded step is done in, in the world as played.", "footing.load",
            "Nobody knows what it takes.",
            plan => Loaded(plan).Where(_ => plan.Scenario.Footings.Length > 1).Select(one => plan.InWorld(scenario => scenario with { Footings = [.. scenario.Footings.Where(footing => footing.Kind != one.Leg.Footing)] }))),
        new("force doubled", "A step is done with twice the force that its footing takes in the world as played.", "footing.load",
            "It pushes the person off.",
            plan => Loaded(plan).Where(one => one.Step.Force is not null).Select(one => plan.WithLeg(one.Leg.Id, leg => leg with
            {
                Steps = CleanPlan.Each(leg.Steps, step => step.Id == one.Step.Id, step => step with { Force = plan.Scenario.Footings.First(footing => footing.Kind == leg.Footing).Force * 2 }),
            }))),
    ];

    private static double Width(Bolt bolt) => bolt.Closed.Most - bolt.Closed.Least;

    private static IEnumerable<(Leg Leg, Step Step)> Steps(CleanPlan plan) => plan.Done.SelectMany(leg => plan.Legs[leg].Steps.Select(step => (plan.Legs[leg], step)));

    private static IEnumerable<(Leg Leg, Step Step, Bolt Bolt)> Driven(CleanPlan plan) => Steps(plan).Where(one => one.Step.Fastener?.Bolt is not null)
        .Select(one => (one.Leg, one.Step, plan.Scenario.Bolts.Single(bolt => bolt.Id == one.Step.Fastener!.Bolt)));

    private static IEnumerable<(Leg Leg, Step Step)> Loaded(CleanPlan plan) =>
        plan.Scenario.Footings.IsEmpty ? [] : Steps(plan).Where(one => one.Step.Fastener is { Torque: > 0 } || one.Step.Force is > 0);

    private static IEnumerable<Gear> Used(CleanPlan plan) => plan.Scenario.Gear.Where(tool => tool.Charge is not null && Steps(plan).Any(one => one.Step.Fastener?.Tool == tool.Id
        || (!tool.Charge.ByTurns && one.Step.Needs.OfType<NeedGear>().Any(need => need.Gear == tool.Id))));

    private static IEnumerable<GearId> MustTools(CleanPlan plan) => plan.Scenario.LimitOf("tool.spare") is null ? [] : plan.Scenario.Jobs.Where(job => job.Worth == Worth.Must)
        .SelectMany(job => job.Legs).Where(leg => plan.Done.Contains(leg.Id)).SelectMany(leg => leg.Steps).SelectMany(step => step.Needs).OfType<NeedGear>().Select(need => need.Gear)
        .Where(id => GearDamage.GearOf(plan, id).Kind == GearKind.Tool).Distinct();

    private static Damaged WithBolt(CleanPlan plan, Bolt bolt, Func<Bolt, Bolt> change) =>
        plan.InWorld(scenario => scenario with { Bolts = CleanPlan.Each(scenario.Bolts, one => one.Id == bolt.Id, change) });

    private static Damaged WithFastener(CleanPlan plan, (Leg Leg, Step Step, Bolt Bolt) at, Func<Fastener, Fastener> change) => plan.WithLeg(at.Leg.Id, leg => leg with
    {
        Steps = CleanPlan.Each(leg.Steps, step => step.Id == at.Step.Id, step => step with { Fastener = change(step.Fastener!) }),
    });
}
