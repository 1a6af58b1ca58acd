using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Tests.Damage.TimeDamage;

namespace Sallyport.Tests.Damage;

/// <summary>Things, where they are and where they end.</summary>
internal static class GearDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("take forgotten", "A person waits instead of taking a thing that the same person needs on the suit later.", "gear.absent",
            "The thing is not there when it is put down, plugged, handed over or worked with.",
            plan => plan.All<Take>().Where(take => NeedsLater(plan, take)).Select(take => plan.Skip(take))),
        new("bag moved", "A thing that is taken lies at another grip in the world as played.", "gear.absent",
            "It is not where it is taken first.",
            plan => FirstTakes(plan).Select(take => plan.WithGear(take.Gear, gear => gear with { Start = new(LocationKind.Grip, WayDamage.Other(plan, take.At).Value) }))),
        new("tool out of its bag", "A tool that a step needs lies at another grip in the world as played, not in its bag.", "gear.absent",
            "The step is done without it.",
            plan => plan.All<DoStep>().SelectMany(step => plan.Step(step).Needs.OfType<NeedGear>().Where(need => GearOf(plan, need.Gear).Start.Kind == LocationKind.Bag)
                .Select(need => plan.WithGear(need.Gear, gear => gear with { Start = new(LocationKind.Grip, NotAt(plan, plan.Legs[step.Leg].Site)) })))),
        new("put before take", "A thing is hooked first and taken then, where it was taken first and hooked then.", "gear.absent",
            "The thing is not on the person when it is hooked.",
            plan => plan.All<Take>().SelectMany(take => plan.All<Put>().Where(put => put.Gear == take.Gear && put.Person == take.Person && put.Start >= take.End).Take(1)
                .Select(put => plan.With(one => one == take ? [put with { Start = take.Start, End = take.Start.Plus(put.Length) }]
                    : one == put ? [take with { Start = put.Start, End = put.Start.Plus(take.Length) }] : [one])))),
        new("bag left outside", "A thing wanted inside is left at the grip where it was hooked last, away from any hatch.", "item.lost",
            "Nothing brings it in.",
            plan => Wanted(plan, LocationKind.Inside).SelectMany(gear => LastTake(plan, gear) is { } take && !IsHatch(plan, take.At)
                && plan.All<Put>().Any(put => put.Gear == gear.Id && put.End <= take.Start) ? [plan.Skip([take, .. Later(plan, take)])] : ImmutableArray<Damaged>.Empty)),
        new("not left where it stays", "A thing meant to stay outside is not hooked there, and comes in with the person.", "item.lost",
            "The scenario wants it outside at the end.",
            plan => Wanted(plan, LocationKind.Grip).SelectMany(gear => plan.All<Put>().Where(put => put.Gear == gear.Id).TakeLast(1).Select(put => plan.Skip(put)))),
        new("wanted elsewhere", "A thing is wanted inside at the end in the world as played, and hangs at a grip away from any hatch then.", "item.lost",
            "Nobody brings it in.",
            plan => plan.Scenario.Gear.Where(gear => gear.Kind != GearKind.Stock && !plan.Scenario.Station.Airlocks.Any(airlock =>
                plan.History.LastState(plan.History[$"gear {gear.Id} place"]) == $"grip {airlock.Grip}") && plan.History.LastState(plan.History[$"gear {gear.Id} place"]).StartsWith("grip ", StringComparison.Ordinal))
                .Select(gear => plan.WithGear(gear.Id, one => one with { End = Location.Inside }))),
        new("nothing to hook it to", "The grip where a thing is hooked holds no gear in the world as played.", "item.untied",
            "Nothing ties it there.",
            plan => plan.All<Put>().Select(put => plan.WithStation(station => station with { Grips = CleanPlan.Each(station.Grips, grip => grip.Id == put.At, grip => grip with { Stow = false }) }))),
        new("no such carry point", "A thing is hung on a carry point that the person does not have.", "hands.busy",
            "It cannot hang there, and stays in the hand.",
            plan => plan.All<Take>().Select(take => plan.Instead(take, take with { Carry = new("no-such-point") }))),
        new("two on one carry point", "A thing is hung on a carry point that already holds another.", "hands.busy",
            "A carry point holds one thing.",
            plan => plan.All<Take>().SelectMany(take => Person(plan, take.Person).CarryPoints
                .Where(point => plan.History.StateAt(plan.History[$"person {take.Person} carry {point.Id}"], take.Start) is var held && held != "none" && held != take.Gear.Value)
                .Select(point => plan.Instead(take, take with { Carry = point.Id })))),
        new("too heavy", "A thing that is taken weighs a ton more in the world as played.", "hands.busy",
            "No carry point takes it.",
            plan => plan.All<Take>().Select(take => plan.WithGear(take.Gear, gear => gear with { Mass = gear.Mass + 1000 }))),
        new("put forgotten", "A person waits instead of hooking a thing, and hangs another on its carry point.", "hands.busy",
            "The carry point is still taken.",
            plan => plan.All<Put>().SelectMany(put => CarryOf(plan, put) is { } carry && NextOn(plan, put, carry) is not null ? [plan.Skip(put)] : ImmutableArray<Damaged>.Empty)),
        new("stock short by one", "There is one piece fewer in the world as played than the plan uses.", "stock.out",
            "The last use finds too few.",
            plan => plan.Scenario.Gear.Where(gear => gear.Kind == GearKind.Stock && Used(plan, gear.Id) > 0)
                .Select(gear => plan.WithGear(gear.Id, one => one with { Count = Used(plan, gear.Id) - 1 }))),
        new("more stock used", "A step uses more pieces in the world as played than there are.", "stock.out",
            "There are not so many.",
            plan => plan.Done.SelectMany(leg => plan.Legs[leg].Steps.SelectMany(step => step.Makes.OfType<UseStock>().Select(use => plan.WithLeg(leg, one => one with
            {
                Steps = CleanPlan.Each(one.Steps, same => same.Id == step.Id, same => same with { Makes = same.Makes.Replace(use, use with { Count = GearOf(plan, use.Gear).Count + 1 }) }),
            }))))),
    ];

    public static Gear GearOf(CleanPlan plan, GearId gear) => plan.Scenario.Gear.Single(one => one.Id == gear);

    private static Person Person(CleanPlan plan, PersonId person) => plan.Scenario.People.Single(one => one.Id == person);

    private static bool IsHatch(CleanPlan plan, GripId grip) => plan.Scenario.Station.Airlocks.Any(airlock => airlock.Grip == grip);

    private static bool NeedsLater(CleanPlan plan, Take take)
    {
        Activity? next = Later(plan, take).FirstOrDefault();
        Pet until = next?.Start ?? plan.Trace.To;
        return next is not null || plan.All<DoStep>().Any(step => step.Person == take.Person && step.Start >= take.End && step.Start < until && plan.Legs[step.Leg].With.Contains(take.Gear));
    }

    /// <summary>What is done with a thing by hand after it was taken.</summary>
    private static ImmutableArray<Activity> Later(CleanPlan plan, Take take) => [.. plan.Timeline.Activities.Where(one => one.Start >= take.End && one switch
    {
        Put put => put.Gear == take.Gear,
        Give give => give.Gear == take.Gear,
        Plug plug => plug.Gear == take.Gear,
        _ => false,
    })];

    private static IEnumerable<Take> FirstTakes(CleanPlan plan) => plan.All<Take>().GroupBy(take => take.Gear).Select(takes => takes.First())
        .Where(take => !plan.All<Unplug>().Any(one => one.Gear == take.Gear) && GearOf(plan, take.Gear).Start.Kind is LocationKind.Inside or LocationKind.Grip);

    private static Take? LastTake(CleanPlan plan, Gear gear) => plan.All<Take>().LastOrDefault(take => take.Gear == gear.Id);

    private static IEnumerable<Gear> Wanted(CleanPlan plan, LocationKind where) => plan.Scenario.Gear.Where(gear => gear.End?.Kind == where);

    private static string NotAt(CleanPlan plan, SiteId site) =>
        plan.Scenario.Station.Grips.First(grip => grip.Id != plan.Scenario.Station.Sites.Single(one => one.Id == site).Grip && !IsHatch(plan, grip.Id)).Id.Value;

    private static CarryPointId? CarryOf(CleanPlan plan, Put put)
    {
        foreach (CarryPoint point in Person(plan, put.Person).CarryPoints)
            if (plan.History.StateAt(plan.History[$"person {put.Person} carry {point.Id}"], Plus(put.Start, -1)) == put.Gear.Value) return point.Id;
        return null;
    }

    /// <summary>The next thing that is hung on a carry point after a thing was put down from it, when it is another one.</summary>
    private static GearId? NextOn(CleanPlan plan, Put put, CarryPointId carry)
    {
        GearId? next = plan.Timeline.Activities.Where(one => one.Start >= put.End).Select(one => one switch
        {
            // Whoever takes it from where it should hang takes it off the carry point.
            Take take when take.Gear == put.Gear || (take.Person == put.Person && take.Carry == carry) => take.Gear,
            Give give when give.To == put.Person && give.Carry == carry => give.Gear,
            Unplug unplug when unplug.Person == put.Person && unplug.Carry == carry => unplug.Gear,
            _ => (GearId?)null,
        }).FirstOrDefault(gear => gear is not null);
        return next == put.Gear ? null : next;
    }

    private static int Used(CleanPlan plan, GearId stock) => plan.All<DoStep>().Sum(step => plan.Step(step).Makes.OfType<UseStock>().Where(use => use.Gear == stock).Sum(use => use.Count));
}
