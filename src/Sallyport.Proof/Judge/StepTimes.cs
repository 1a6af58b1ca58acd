using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Tries each step of the likely branch at its low and at its high time, one at a time, the rest of the plan as told.</summary>
internal static class StepTimes
{
    public static ImmutableArray<StepTry> Of(Scenario scenario, Timeline planned, GoOn goOn)
    {
        Dictionary<LegId, Leg> legs = scenario.Legs.ToDictionary(leg => leg.Id);
        List<Trouble> asked = [];
        foreach (DoStep act in planned.Activities.OfType<DoStep>())
        {
            StepTime time = legs[act.Leg].Steps.First(one => one.Id == act.Step).Time;
            foreach (Duration tried in new[] { time.Low, time.High }.Where(one => one != time.Likely))
            {
                Duration extra = Duration.FromSeconds(tried.Seconds - time.Likely.Seconds);
                asked.Add(new(act.Leg, act.Step, extra.Seconds < 0 ? "Low time" : "High time", extra, extra.Seconds < 0 ? act.End.Plus(extra) : act.End, GoingOn.AsPlanned));
            }
        }
        GoOn inTurn = SideBySide.OneAtATime(goOn);
        return SideBySide.Each(asked, trouble => Try(scenario, planned, trouble, inTurn));
    }

    private static StepTry Try(Scenario scenario, Timeline planned, Trouble trouble, GoOn goOn)
    {
        (Timeline? timeline, string why) = goOn(planned, trouble);
        string breaks = timeline is null ? why
            : Detour.Differs(scenario, planned, timeline, trouble) is { } differs ? $"what was told is not this: {differs}"
            : Replay.Of(scenario, timeline).Broken is [var first, ..] ? $"{first.Rule}, {first.Sentence}" : "";
        return new(trouble.Leg, trouble.Step, trouble.Extra, trouble.From, breaks.Length == 0, breaks);
    }
}
