using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>What it takes to leave one step of the plan, and what that leaves behind: a rung of the break-off ladder.</summary>
/// <param name="Branch">The branch of the plan.</param>
/// <param name="Activity">The step as it stands in the timeline.</param>
/// <param name="Who">Who does it.</param>
/// <param name="Leg">Its leg.</param>
/// <param name="Step">Which step.</param>
/// <param name="From">From when it goes on.</param>
/// <param name="Abort">Leaving it at once.</param>
/// <param name="Terminate">Leaving it in order.</param>
/// <param name="Off">What is off then, for its console to turn on again.</param>
public sealed record Rung(
    Branch Branch, ActivityId Activity, PersonId Who, LegId Leg, StepId Step, Pet From, WayOut Abort, WayOut Terminate, ImmutableArray<ShutdownId> Off);

/// <summary>One way of leaving a step.</summary>
/// <param name="Time">At most this long.</param>
/// <param name="Leaves">The features of the job that are then not as at the start of the sortie.</param>
/// <param name="Unsafe">Those of them that may not be left so.</param>
public sealed record WayOut(Duration Time, ImmutableArray<FeatureState> Leaves, ImmutableArray<FeatureId> Unsafe)
{
    /// <summary>What else is left that may not be, in words: lines shut off, clocks that run, things outside that are wanted inside.</summary>
    public ImmutableArray<string> Things { get; init; } = [];
}
