using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Features are as steps need them.</summary>
internal sealed class FeatureWrong : FactRule
{
    public override RuleCard Card { get; } = new(new("feature.wrong"),
        "a step done on something that is not in the state it must be in",
        "each feature and each shutdown that a step needs, at its start, through it, or at its end",
        "the needs written at the step",
        Guard.Decoder("legs wait for the legs that they name, and what they want shut down is; other needs are left to the proof"));
}

/// <summary>What is touched is cut off from every source.</summary>
internal sealed class InhibitFew : FactRule
{
    public override RuleCard Card { get; } = new(new("inhibit.few"),
        "electric shock, and pins burnt by drawing an arc",
        "on every path from a source to what is touched: open switches, those of one controller counted once; the fewest over all paths. "
            + "Batteries and capacitors are sources; a connector apart ends a path but is no inhibit",
        "the number of inhibits written at the step (two for a critical, three for a catastrophic hazard: from memory, unverified)",
        Guard.Decoder("what a leg wants shut down is off before it begins; whether that is enough, only the proof knows"));
}

/// <summary>Steps that need light have it.</summary>
internal sealed class LightNeeded : FactRule
{
    public override RuleCard Card { get; } = new(new("light.needed"),
        "work in the dark that must be seen, or in the sun that must not be",
        "day or night for the whole of each step of a leg that asks for one",
        "the legs, and the sky as given",
        Guard.Decoder("legs wait until the light lasts for them; expansion waits too"));
}

/// <summary>Steps and commands that need a link have it.</summary>
internal sealed class RadioNeeded : FactRule
{
    public override RuleCard Card { get; } = new(new("radio.needed"),
        "a step or a command that nobody on the ground can hear or see",
        "the link for the whole of each step and command that asks for it; lost while a shutdown that cuts it is in effect",
        "the legs and commands, and the sky as given",
        Guard.Decoder("legs and commands wait until the link lasts for them; what a shutdown cuts counts against a plan"));
}

/// <summary>What is left cold is not left too long.</summary>
internal sealed class ThermalClock : Rule
{
    public override RuleCard Card { get; } = new(new("thermal.clock"),
        "hardware that freezes while its heaters are off",
        "from the end of the command that turns off to the end of the one that turns on again",
        "the longest time written at the shutdown",
        Guard.Decoder("windows of dead power are kept short, and what is too long counts against a plan"));

    public override IEnumerable<Finding> Find(Case given)
    {
        double near = given.Scenario.LimitOf(Card.Id.Value)?.Near is { Dimension: Dimension.Time } wanted ? wanted.Value : 0;
        foreach (Shutdown shutdown in given.Scenario.Consoles.SelectMany(console => console.Shutdowns))
        {
            int variable = given.History[$"shutdown {shutdown.Id} state"];
            if (given.History.LastState(variable) is var last && last != "on")
                yield return Broken(given, given.Trace.To, [], $"{shutdown.Id} is {last} at the end.", $"Send {shutdown.On} before the end.");
            foreach (PetInterval off in Cold(given, variable))
            {
                if (shutdown.Longest is not { } longest) continue;
                int margin = longest.Seconds - off.To.Since(off.From).Seconds;
                if (margin >= 0 && margin >= near) continue;
                yield return Broken(given, off.From.Plus(longest), [],
                    $"{shutdown.Id} is off from {off.From} to {off.To}, {off.To.Since(off.From)}; the limit is {longest}.",
                    $"Send {shutdown.Off} later or {shutdown.On} earlier.") with
                {
                    Severity = margin < 0 ? Severity.Broken : Severity.Near,
                    Measured = off.To.Since(off.From).ToString(),
                    Limit = longest.ToString(),
                    Margin = Duration.FromSeconds(margin).ToString(),
                    Source = shutdown.Source,
                };
            }
        }
    }

    /// <summary>From each moment at which it is off until it is on again. A command that turns it off once more stops no clock.</summary>
    private static IEnumerable<PetInterval> Cold(Case given, int variable)
    {
        Pet? since = null;
        foreach ((Pet from, Pet _, int value) in given.History.Stretches(variable))
        {
            string state = given.Trace.Variables[variable].States[value];
            if (state == "off") since ??= from;
            if (state != "on" || since is not { } off) continue;
            yield return new PetInterval(off, from);
            since = null;
        }
        if (since is { } still) yield return new PetInterval(still, given.Trace.To);
    }
}

/// <summary>The station is ready before the hatch opens, and given back after.</summary>
internal sealed class StationUnready : Rule
{
    public override RuleCard Card { get; } = new(new("station.unready"),
        "going out with jets armed or arrays turning, and leaving the station other than it must be",
        "each feature with a state to be ready in, when the first person begins to go out; each with a state to be given back in, at the end",
        "the states written at the features",
        Guard.Proof("nothing in a plan of the search brings the station to a state"));

    public override IEnumerable<Finding> Find(Case given)
    {
        Activity? first = given.Timeline.Activities.OfType<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Out).MinBy(phase => phase.Start);
        foreach (Feature feature in given.Scenario.Station.Features)
        {
            int variable = given.History[$"feature {feature.Id} state"];
            if (feature.Ready is { } ready && first is not null && given.History.StateAt(variable, first.Start) is var opened && opened != ready)
                yield return Broken(given, first.Start, [], $"{feature.Id} is {opened} when the hatch is opened, and must be {ready}.",
                    $"Bring {feature.Id} to {ready} before {first.Start}.", first.Id);
            if (!given.EndsEarly && feature.Back is { } back && given.History.LastState(variable) is var left && left != back)
                yield return Broken(given, given.Trace.To, [], $"{feature.Id} is {left} at the end, and must be given back {back}.",
                    $"Bring {feature.Id} to {back} before the end.");
        }
    }
}
