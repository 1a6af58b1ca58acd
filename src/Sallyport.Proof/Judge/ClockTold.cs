using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>A thermal clock that ran in a plan, as the judge sees it.</summary>
/// <param name="Clock">Its name, or that of the shutdown whose longest time it is.</param>
/// <param name="From">When it began to run.</param>
/// <param name="To">When it stopped, or the end of the plan.</param>
/// <param name="Left">What is left then at the rate of its last state; negative when it has run out.</param>
public sealed record ClockTold(string Clock, Pet From, Pet To, Duration Left)
{
    /// <summary>Every run of every clock, in order of clock and time.</summary>
    public static ImmutableArray<ClockTold> All(Scenario scenario, Timeline timeline, Trace trace)
    {
        Case given = new(scenario, timeline, trace);
        return [.. ThermalClock.ClocksOf(scenario).SelectMany(clock => ClockRun.All(given, clock)).Select(run => new ClockTold(run.Clock.Id.Value, run.From, run.To, Duration.FromSeconds(run.Left)))];
    }
}
