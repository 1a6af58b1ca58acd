using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>A stretch of one person's time that is drawn with one stroke.</summary>
/// <param name="Going">How it is drawn.</param>
/// <param name="From">Its start.</param>
/// <param name="To">Its end.</param>
/// <param name="Leg">The leg, when it is work.</param>
/// <param name="Arm">The arm, when it is a ride.</param>
/// <param name="At">The grip, when gear is handled there.</param>
internal sealed record Stretch(Going Going, Pet From, Pet To, Leg? Leg, ArmId? Arm, GripId? At)
{
    public int Seconds => To.Since(From).Seconds;

    /// <summary>What one person does, in order; activities that are drawn alike and follow each other are one.</summary>
    public static ImmutableArray<Stretch> Of(PersonId person, Scenario scenario, Timeline timeline)
    {
        Dictionary<LegId, Leg> legs = scenario.Legs.ToDictionary(leg => leg.Id);
        List<Stretch> stretches = [];
        ArmId? aboard = null;
        foreach (Activity activity in timeline.Activities.Where(activity => activity.People.Contains(person)).OrderBy(activity => activity.Start))
        {
            if (activity is DismountArm) aboard = null;
            Stretch next = activity switch
            {
                DoStep step => new(aboard is null ? Going.Work : Going.WorkOnArm, step.Start, step.End, legs.GetValueOrDefault(step.Leg), aboard, null),
                ArmMove move => new(Going.Ride, move.Start, move.End, null, move.Arm, null),
                Await or Rest or AirlockPhase { Phase: AirlockPhaseKind.WaitInside or AirlockPhaseKind.SafeInside } => new(Going.Wait, activity.Start, activity.End, null, null, null),
                Take take => Handling(take, take.At),
                Put put => Handling(put, put.At),
                Give give => Handling(give, give.At),
                _ => new(Going.Way, activity.Start, activity.End, null, null, null),
            };
            if (activity is MountArm mount) aboard = mount.Arm;
            if (stretches.Count > 0 && stretches[^1] is var last && last.To == next.From && last with { From = next.From, To = next.To } == next)
                stretches[^1] = last with { To = next.To };
            else
                stretches.Add(next);
        }
        return [.. stretches];

        static Stretch Handling(Activity activity, GripId at) => new(Going.Way, activity.Start, activity.End, null, null, at);
    }
}
