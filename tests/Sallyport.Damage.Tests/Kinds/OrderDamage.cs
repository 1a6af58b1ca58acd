using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Tests.Damage.TimeDamage;

namespace Sallyport.Tests.Damage;

/// <summary>What comes after what.</summary>
internal static class OrderDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("steps swapped", "Two steps of a leg that follow each other are done the other way round.", "job.order",
            "Steps are done in the order of their leg.",
            plan => plan.Done.Select(plan.StepsOf).Where(steps => steps.Length > 1).Select(steps => plan.With(one =>
                one == steps[0] ? [steps[1] with { Start = steps[0].Start, End = steps[0].Start.Plus(steps[1].Length) }]
                : one == steps[1] ? [steps[0] with { Start = steps[0].Start.Plus(steps[1].Length), End = steps[1].End }] : [one]))),
        new("step left out", "A person waits instead of doing a step.", "job.order",
            "Every step of a leg is done once.",
            plan => plan.All<DoStep>().Where(step => plan.StepsOf(step.Leg).Length > 1).Select(step => plan.Skip(step))),
        new("step twice", "A step is done a second time.", "job.order",
            "Every step of a leg is done once.",
            plan => plan.All<DoStep>().Select(step => plan.Hold(step.End, step.Length.Seconds, step with { Id = new($"{step.Id}-again"), Start = step.End, End = step.End.Plus(step.Length) }))),
        new("job half done", "A leg of a job with more than one is not done.", "job.order",
            "All legs of a job are done, or none.",
            plan => plan.Done.Where(leg => plan.Scenario.Jobs.Single(job => job.Id == plan.Legs[leg].Job).Legs.Length > 1).Select(leg => plan.Skip([.. plan.StepsOf(leg)]))),
        new("precedence broken", "A leg is done in the very seconds in which the leg before it begins.", "job.order",
            "The leg waits for the end of the other.",
            plan => Pairs(plan).Select(pair => plan.With(one => one is DoStep step && step.Leg == pair.After.Id
                ? [Moved(step, plan.StepsOf(pair.Before.Leg)[0].Start.Seconds - plan.StepsOf(pair.After.Id)[0].Start.Seconds)] : [one]))),
        new("least time broken", "There is a second less between two legs than must lie between them.", "job.order",
            "The job states the least time.",
            plan => Pairs(plan).Where(pair => pair.Before.Least.Seconds > 0).Select(pair => plan.With(one => one is DoStep step && step.Leg == pair.After.Id
                ? [Moved(step, plan.StepsOf(pair.Before.Leg)[^1].End.Seconds + pair.Before.Least.Seconds - 1 - plan.StepsOf(pair.After.Id)[0].Start.Seconds)] : [one]))),
        new("longest time broken", "There is a second more between two legs than may lie between them.", "job.order",
            "The job states the longest time.",
            plan => Pairs(plan).Where(pair => pair.Before.Most is not null).Select(pair => plan.Hold(plan.StepsOf(pair.After.Id)[0].Start,
                pair.Before.Most!.Value.Seconds + 1 - plan.StepsOf(pair.After.Id)[0].Start.Since(plan.StepsOf(pair.Before.Leg)[^1].End).Seconds))),
        new("leg cut in two", "A minute lies between two steps of a leg that may not wait.", "job.order",
            "The leg may not wait.",
            plan => plan.Done.Where(leg => plan.StepsOf(leg).Length > 1 && !plan.Legs[leg].MayWait).Select(leg => plan.Hold(plan.StepsOf(leg)[1].Start, 60))),
        new("together apart", "Of two legs that start together, one starts a minute late.", "job.order",
            "Both start at the same moment.",
            plan => PeopleDamage.Together(plan).Select(pair => plan.With(one => [one is DoStep step && step.Leg == pair.Other ? Moved(step, 60) : one]))),
        new("leg dropped of a pair", "Of two legs that start together, one is not done.", "job.order",
            "Neither is done without the other.",
            plan => PeopleDamage.Together(plan).Select(pair => plan.Skip([.. plan.StepsOf(pair.Other)]))),
    ];

    private static Activity Moved(Activity activity, int seconds) => activity with { Start = Plus(activity.Start, seconds), End = Plus(activity.End, seconds) };

    private static IEnumerable<(Precedence Before, Leg After)> Pairs(CleanPlan plan) =>
        plan.Done.SelectMany(leg => plan.Legs[leg].After.Where(before => plan.Done.Contains(before.Leg)).Select(before => (before, plan.Legs[leg])));
}
