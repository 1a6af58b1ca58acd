using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>The way to safety, and the end.</summary>
internal static class ReturnDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("slow to leave", "It takes an hour longer than the limit to leave a step in the world as played.", "return.one",
            "Nobody is safe in time from within the step.",
            plan => plan.All<DoStep>().Select(step => plan.WithLeg(step.Leg, leg => leg with
            {
                Steps = CleanPlan.Each(leg.Steps, one => one.Id == step.Step, one => one with { Abort = one.Abort with { Time = OverLimit(plan, "return.one") } }),
            }))),
        new("suit ends early", "A suit's cut-off in the world as played is before its person comes in.", "return.one",
            "The person is outside after it.",
            plan => plan.Outside.Where(person => plan.All<AirlockPhase>().Any(phase => phase.Phase == AirlockPhaseKind.In && phase.Who.Contains(person))).Select(person =>
                plan.WithPerson(person, one => one with { Suit = one.Suit! with { CutOff = plan.All<AirlockPhase>().Last(phase => phase.Phase == AirlockPhaseKind.In && phase.Who.Contains(person)).Start } }))),
        new("closed way home", "In the world as played the hatch lies in a zone that closes as a step begins, for a second longer than the way to safety may take.", "return.one",
            "Whoever does the step waits for it.",
            plan => plan.All<DoStep>().Select(step => Shut(plan, new(step.Start, step.Start.Plus(Duration.FromSeconds((int)plan.Scenario.LimitOf("return.one")!.Value.Value + 1))), []))),
        new("not made safe again", "In the world as played the hatch lies in a zone that a command closes, and the commands that would open it again are left out.", "return.one",
            "Nobody who is outside then has a way home.",
            plan => plan.Scenario.Consoles.SelectMany(console => console.Shutdowns).SelectMany(shutdown => plan.All<SendCommand>().Where(send => send.Command == shutdown.Off).Take(1)
                .SelectMany(send => Made(plan, send.Command).Take(1).Select(made => new Damaged(
                    Shut(plan, null, [new(made.Feature, [made.State])]).Scenario, plan.Skip([.. plan.All<SendCommand>().Where(other => other.Command == shutdown.On)]).Timeline))))),
        new("abort that closes the way home", "In the world as played the hatch lies in a zone that is closed in a state that nothing brings about, and the abort of a step leaves it so.", "return.one",
            "Whoever breaks that step off has closed the own way home.",
            plan => plan.All<DoStep>().SelectMany(step => plan.Scenario.Station.Features.Where(feature => !IsCommanded(plan, feature)).Take(1).Select(feature => LeftClosed(plan, step, feature)))),
        new("slow hatch", "Closing the hatch takes longer in the world as played than everybody may take to be in.", "return.both",
            "Not everybody is in in time from anywhere.",
            plan => plan.Scenario.Station.Airlocks.Select(airlock => plan.WithStation(station => station with
            {
                Airlocks = CleanPlan.Each(station.Airlocks, one => one.Id == airlock.Id, one => one with { Close = OverLimit(plan, "return.both") }),
            }))),
        new("long climb", "Climbing down from a pose where somebody rides takes longer in the world as played than the way to safety may.", "return.armless",
            "With the arm stopped there the rider is not safe in time.",
            plan => Rides(plan).Select(move => Poses(plan, move, pose => pose with { Climb = OverLimit(plan, "return.armless") }))),
        new("no climb", "There is no way down from a pose where somebody rides in the world as played.", "return.armless",
            "With the arm stopped there the rider is stranded.",
            plan => Rides(plan).Select(move => Poses(plan, move, pose => pose with { ClimbTo = null }))),
        new("past the end", "Everything from the middle on is held until the plan ends a second past the limit.", "pet.limit",
            "The scenario limits the end.",
            plan => plan.Scenario.LimitOf("pet.limit") is not { } limit ? [] :
                [plan.Hold(plan.Timeline.Activities[plan.Timeline.Activities.Length / 2].Start, (int)limit.Value.Value + 1 - plan.Trace.To.Seconds)]),
    ];

    private static Damaged Shut(CleanPlan plan, PetInterval? time, ImmutableArray<FeatureCondition> condition) => plan.WithStation(station => station with
    {
        Zones = [.. station.Zones, new(new("closed-way-home"), "it is closed", [.. station.Airlocks.Select(airlock => airlock.Grip).Distinct()], time is { } closed ? [closed] : [], null, condition)],
    });

    private static bool IsCommanded(CleanPlan plan, Feature feature) =>
        plan.Scenario.Consoles.SelectMany(console => console.Commands).Any(command => command.Makes.Any(made => made.Feature == feature.Id));

    private static Damaged LeftClosed(CleanPlan plan, DoStep step, Feature feature)
    {
        const string state = "damaged";
        Scenario shut = Shut(plan, null, [new(feature.Id, [state])]).Scenario;
        return new(shut with
        {
            Station = shut.Station with { Features = CleanPlan.Each(shut.Station.Features, one => one.Id == feature.Id, one => one with { States = one.States.Add(state) }) },
            Jobs = [.. shut.Jobs.Select(job => job with
            {
                Legs = CleanPlan.Each(job.Legs, leg => leg.Id == step.Leg, leg => leg with
                {
                    Steps = CleanPlan.Each(leg.Steps, one => one.Id == step.Step, one => one with { Abort = one.Abort with { Leaves = [new(feature.Id, state)] } }),
                }),
            })],
        }, plan.Timeline);
    }

    /// <summary>What a command makes that is not so before.</summary>
    private static IEnumerable<FeatureState> Made(CleanPlan plan, CommandId command) => plan.Scenario.Consoles.SelectMany(console => console.Commands).First(one => one.Id == command).Makes
        .Where(made => plan.Scenario.Station.Features.First(feature => feature.Id == made.Feature).Start != made.State);

    private static Duration OverLimit(CleanPlan plan, string rule) => Duration.FromSeconds((int)plan.Scenario.LimitOf(rule)!.Value.Value + 3600);

    /// <summary>Rides to a pose where nobody gets off: at a mount, getting off needs no arm.</summary>
    private static IEnumerable<ArmMove> Rides(CleanPlan plan) => plan.All<ArmMove>().Where(move => move.Rider is not null
        && !plan.Scenario.Arms.Single(arm => arm.Id == move.Arm).Mounts.Any(mount => mount.Pose == move.To));

    private static Damaged Poses(CleanPlan plan, ArmMove move, Func<Pose, Pose> change) => plan.InWorld(scenario => scenario with
    {
        Arms = CleanPlan.Each(scenario.Arms, arm => arm.Id == move.Arm, arm => arm with { Poses = CleanPlan.Each(arm.Poses, pose => pose.Id == move.To, change) }),
    });
}
