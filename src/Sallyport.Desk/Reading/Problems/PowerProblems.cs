using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The texts of problems with the power net, commands, GOs and thermal clocks.</summary>
internal static class PowerProblems
{
    public static Problem Rates(Place place, ClockId clock, bool isLast) => isLast
        ? FileProblems.At(place, "clock.rates", $"'when' at the last of 'lasts' of {clock}", "one that always holds, without 'when'", "add a last one without 'when': how long it lasts in any other state.")
        : FileProblems.At(place, "clock.rates", $"one of 'lasts' of {clock} without 'when', and others after it", "only the last one without 'when'", "move it to the end, or say when it holds.");

    public static Problem ExposedWhenClosed(Place place, FeatureId feature, string state) =>
        FileProblems.At(place, "connector.states", $"{feature} '{state}' both as closed and as exposed", "pins that are bare only where the connector does not conduct", "take it out of 'exposed'.");

    public static Problem CapacitorFeeds(Place place, NodeId node) =>
        FileProblems.At(place, "power.twice", $"{node} both as a source and as a capacitor", "a source that always feeds, or a capacitor that bleeds down", "take it out of one of the two.");

    public static Problem GoTooLong(Place place, CommandId command, Duration go, Duration time) =>
        FileProblems.At(place, "time.order", $"'go' of {command} as {go}, within a 'time' of {time}", "a GO that is read in the last part of the command", "make 'time' longer, or 'go' shorter.");

    public static Problem NoGo(Place place, LegId leg, StepId step, CommandId command) =>
        FileProblems.At(place, "go.none", $"{leg}, step {step}, which needs the GO of {command}, for which none is read", "a command with 'go'", "add 'go: 1 min' to the command, or name another one.");

    public static Problem GoVoid(Place place, LegId leg, StepId step, CommandId command, FeatureId feature) =>
        FileProblems.At(place, "go.void", $"{leg}, step {step}, which needs the GO of {command} after an earlier step of the leg has changed {feature}, which that covers",
            "a GO that can be read before the leg", "put the step into a leg of its own, or take the feature out of 'covers'.");
}
