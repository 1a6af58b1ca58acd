using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Restraints and arms.</summary>
internal static class HoldDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("restraint skipped", "A person waits instead of getting into the restraint, and works.", "restraint.absent",
            "The leg asks for the restraint.",
            plan => plan.All<EnterRestraint>().Select(enter => plan.Skip(enter))),
        new("not out of the restraint", "A person waits instead of getting out of the restraint, and walks off.", "restraint.absent",
            "Whoever is held cannot walk.",
            plan => plan.All<LeaveRestraint>().Select(leave => plan.Skip(leave))),
        new("another setting", "A restraint is plugged with another setting than the leg asks for.", "restraint.absent",
            "The leg names its setting.",
            plan => plan.All<Plug>().Where(plug => UsesOf(plan, plug).Any(leg => leg.Setting is not null)).Select(plug => plan.Instead(plug, plug with { Setting = "other" }))),
        new("restraint not plugged", "A person waits instead of plugging the restraint.", "restraint.absent",
            "There is nothing to get into.",
            plan => plan.All<Plug>().Where(plug => UsesOf(plan, plug).Any()).Select(plug => plan.Skip(plug))),
        new("another restraint", "The leg is done in the restraint that is there, and asks for another in the world as played.", "restraint.absent",
            "The restraint asked for is elsewhere.",
            plan => plan.Done.Where(leg => plan.Legs[leg].Restraint is not null).SelectMany(leg => plan.Scenario.Gear
                .Where(gear => gear.Kind == GearKind.Restraint && gear.Id != plan.Legs[leg].Restraint).Take(1).Select(gear => plan.WithLeg(leg, one => one with { Restraint = gear.Id })))),
        new("two riders", "Somebody else gets onto an arm while a rider has it.", "arm.shared",
            "An arm carries one rider.",
            plan => plan.All<MountArm>().SelectMany(mount => plan.Outside.Where(other => other != mount.Person).Take(1).Select(other => plan.Add(mount with
            {
                Id = new($"{mount.Id}-too"),
                Person = other,
                Start = mount.End,
                End = mount.End.Plus(mount.Length),
            })))),
        new("two moves at once", "An arm makes one move while it makes another.", "arm.shared",
            "An arm makes one move at a time.",
            plan => plan.All<ArmMove>().Select(move => plan.Add(move with { Id = new($"{move.Id}-too"), Start = TimeDamage.Plus(move.Start, 1), End = TimeDamage.Plus(move.End, 1) }))),
        new("ride with nobody", "An arm moves with a rider, but is told to be empty.", "arm.rider",
            "Somebody is on it.",
            plan => plan.All<ArmMove>().Where(move => move.Rider is not null).Select(move => plan.Instead(move, move with { Rider = null }, CleanPlan.Wait(move, move.Rider!.Value)))),
        new("another rider", "An arm moves with somebody told who never got on.", "arm.rider",
            "Somebody else has it.",
            plan => plan.All<ArmMove>().Where(move => move.Rider is not null).SelectMany(move => plan.Outside.Where(other => other != move.Rider).Take(1)
                .Select(other => plan.Instead(move, move with { Rider = other })))),
        new("not off the arm", "A rider waits instead of getting off, and goes on as if on the structure.", "way.none",
            "The person is still at the arm's pose, and what comes next is at a grip.",
            plan => plan.All<DismountArm>().Select(off => plan.Skip(off))),
        new("arm not brought", "An arm's empty move is left out.", "arm.shared",
            "The arm is not at the pose that comes next.",
            plan => plan.All<ArmMove>().Where(move => move.Rider is null && (plan.All<MountArm>().Any(mount => mount.Arm == move.Arm && mount.Start >= move.End)
                || plan.All<ArmMove>().Any(next => next.Arm == move.Arm && next.Start >= move.End))).Select(move => plan.Skip(move))),
        new("arm elsewhere", "An arm stands at another pose in the world as played.", "arm.shared",
            "The first use of it counts on the pose.",
            plan => plan.Scenario.Arms.Where(arm => plan.All<ArmMove>().Any(move => move.Arm == arm.Id)).SelectMany(arm => arm.Poses.Where(pose => pose.Id != arm.Start).Select(pose =>
                plan.InWorld(scenario => scenario with { Arms = CleanPlan.Each(scenario.Arms, one => one.Id == arm.Id, one => one with { Start = pose.Id }) })))),
        new("arm moves at work", "An arm moves while its rider works from it.", "arm.rider",
            "The rider is carried away from the work.",
            plan => plan.All<DoStep>().SelectMany(step => SiteOf(plan, step) is { Arm: { } arm, Pose: { } pose } ? RideFrom(plan, arm, pose, step) : [])),
    ];

    private static IEnumerable<Damaged> RideFrom(CleanPlan plan, ArmId id, PoseId pose, DoStep step)
    {
        Arm arm = plan.Scenario.Arms.Single(one => one.Id == id);
        if (arm.Rides.FirstOrDefault(ride => ride.A == pose || ride.B == pose) is not { } ride) yield break;
        Pet start = TimeDamage.Plus(step.Start, step.Length.Seconds / 2);
        yield return plan.Add(new ArmMove
        {
            Id = new("stray-move"),
            Start = start,
            End = start.Plus(ride.Time),
            Arm = id,
            From = pose,
            To = ride.A == pose ? ride.B : ride.A,
            Rider = step.Person,
        });
    }

    private static Site SiteOf(CleanPlan plan, DoStep step) => plan.Scenario.Station.Sites.Single(site => site.Id == plan.Legs[step.Leg].Site);

    /// <summary>The legs done in a restraint after it was plugged and before it is unplugged.</summary>
    private static IEnumerable<Leg> UsesOf(CleanPlan plan, Plug plug)
    {
        Pet until = plan.All<Unplug>().FirstOrDefault(one => one.Gear == plug.Gear && one.Start >= plug.End)?.Start ?? plan.Trace.To;
        return plan.All<DoStep>().Where(step => step.Start >= plug.End && step.Start < until).Select(step => plan.Legs[step.Leg])
            .Where(leg => leg.Restraint == plug.Gear && leg.Socket == plug.Socket);
    }
}
