using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Overlaps, gaps, and less time than things take.</summary>
internal static class TimeDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("overlap of a second", "Something that a person does begins a second before the one before has ended.", "time.twice",
            "Nobody can do two things at once.",
            plan => InARow(plan).Select(pair => plan.Instead(pair.Later, pair.Later with { Start = Plus(pair.Later.Start, -1) }))),
        new("second unplanned", "Something that a person does outside begins a second late, with nothing planned in that second.", "time.twice",
            "Every second of everybody outside is planned.",
            plan => plan.All<PersonActivity>().Where(one => one.Length.Seconds > 1).Select(one => plan.Instead(one, one with { Start = Plus(one.Start, 1) }))),
        new("command over command", "A console sends a command a second time while it sends it.", "time.twice",
            "A console sends one command at a time.",
            plan => plan.All<SendCommand>().Select(send => plan.Add(Again(send) with { Start = Plus(send.Start, 1), End = Plus(send.End, 1) }))),
        new("command twice", "A console sends a command twice in the same seconds.", "time.clash",
            "Both would change the same switches in the same instant.",
            plan => plan.All<SendCommand>().Select(send => plan.Add(Again(send)))),
        new("two take one thing", "Somebody else takes the same thing in the same seconds.", "time.clash",
            "A thing can be taken by one person only.",
            plan => plan.All<Take>().SelectMany(take => plan.Outside.Where(other => other != take.Person).Take(1)
                .Select(other => plan.Add(take with { Id = new($"{take.Id}-too"), Person = other })))),
        new("step a second short", "A step is given a second less than its likely time.", "time.short",
            "The likely time is the least that the scenario says it takes.",
            plan => plan.All<DoStep>().Where(step => step.Length == plan.Step(step).Time.Likely && step.Length.Seconds > 1).Select(step => Shorter(plan, step))),
        new("reel change a second short", "A change of reels is given a second less than it takes.", "time.short",
            "The scenario states the time of a change.",
            plan => plan.All<SwapReel>().Where(one => one.Length == plan.Scenario.Tether.Swap).Select(one => Shorter(plan, one))),
        new("handling a second short", "A take, put, hand-over, plug, unplug, or getting into or out of a restraint is given a second less than it takes.", "time.short",
            "The scenario states the time of each.",
            plan => plan.Timeline.Activities.Where(one => Handling(plan.Scenario.Handling, one) is { } time && one.Length == time.Time).Select(one => Shorter(plan, one))),
        new("command a second short", "A command is given a second less than it takes to send, see and confirm.", "time.short",
            "The scenario states the time of each command.",
            plan => plan.All<SendCommand>().Select(one => Shorter(plan, one))),
        new("airlock a second short", "A phase of the airlock's sequence is given a second less than it takes.", "time.short",
            "The scenario states the time of each phase, and expansion gives no more.",
            plan => plan.All<AirlockPhase>().Where(one => one.Phase is not (AirlockPhaseKind.WaitInside or AirlockPhaseKind.SafeInside)).Select(one => Shorter(plan, one))),
        new("arm's mount a second short", "Getting onto or off an arm is given a second less than it takes.", "time.short",
            "The scenario states the time of both.",
            plan => plan.Timeline.Activities.Where(one => one is MountArm or DismountArm).Select(one => Shorter(plan, one))),
    ];

    public static Pet Plus(Pet at, int seconds) => Pet.FromSeconds(at.Seconds + seconds);

    public static Damaged Shorter(CleanPlan plan, Activity one) => plan.Instead(one, one with { End = Plus(one.End, -1) });

    /// <summary>What each person does, with what the person does next.</summary>
    public static IEnumerable<(Activity Earlier, Activity Later)> InARow(CleanPlan plan) =>
        plan.Outside.SelectMany(person => plan.Of(person).Zip(plan.Of(person).Skip(1)));

    private static SendCommand Again(SendCommand send) => send with { Id = new($"{send.Id}-again") };

    private static HandlingTime? Handling(Handling times, Activity activity) => activity switch
    {
        Take => times.Take,
        Put => times.Put,
        Give => times.Give,
        Plug => times.Plug,
        Unplug => times.Unplug,
        EnterRestraint => times.Enter,
        LeaveRestraint => times.Leave,
        _ => null,
    };
}
