using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Everything that the timeline and the sky make happen at one moment.</summary>
internal sealed class Instant(Pet now)
{
    public Pet Now { get; } = now;

    /// <summary>Activities that end now.</summary>
    public List<Activity> Ends { get; } = [];

    /// <summary>Spans that end now while the walk goes on, by their place in it.</summary>
    public List<(Translate Walk, int Span)> Arrivals { get; } = [];

    /// <summary>Activities that start now.</summary>
    public List<Activity> Starts { get; } = [];

    /// <summary>Activities in which a further hook comes on now.</summary>
    public List<Activity> HooksOn { get; } = [];

    /// <summary>Activities in which a hook is released now.</summary>
    public List<Activity> HooksOff { get; } = [];

    /// <summary>Every moment at which something happens, in order.</summary>
    public static IEnumerable<Instant> All(Scenario scenario, ImmutableArray<Activity> activities, Pet from, Pet to)
    {
        Dictionary<int, Instant> instants = new(2 * activities.Length);
        foreach (Activity activity in activities)
        {
            At(activity.Start).Starts.Add(activity);
            At(activity.End).Ends.Add(activity);
            if (HookMoments.Of(activity) is { } moves)
            {
                // A moment outside the activity is a finding of its own, and nothing is moved then.
                if (activity.Start < moves.On && moves.On <= activity.End) At(moves.On).HooksOn.Add(activity);
                if (activity.Start < moves.Off && moves.Off <= activity.End) At(moves.Off).HooksOff.Add(activity);
            }
            if (activity is not Translate walk) continue;
            Pet arrival = walk.Start;
            for (int span = 0; span < walk.Spans.Length - 1; span++)
            {
                arrival = arrival.Plus(walk.Spans[span].Time);
                if (arrival < walk.End) At(arrival).Arrivals.Add((walk, span));
            }
        }
        foreach (Pet moment in Outside.Moments(scenario))
            if (from <= moment && moment <= to) At(moment);
        return instants.Values.OrderBy(instant => instant.Now);

        Instant At(Pet moment)
        {
            if (!instants.TryGetValue(moment.Seconds, out Instant? instant)) instants[moment.Seconds] = instant = new Instant(moment);
            return instant;
        }
    }
}
