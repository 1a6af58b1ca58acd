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

/// <summary>Each GO point has its GO.</summary>
internal sealed class GoMissing : FactRule
{
    public override RuleCard Card { get; } = new(new("go.missing"),
        "beginning what cannot be taken back before everybody has said that it may begin",
        "for each step that needs a GO: that its reading began after the person had come to the site, and after the last change of what it covers",
        "the GOs written at the steps, and what the commands cover",
        Guard.Decoder("the command is sent once the person is there, and the leg waits for it; changes of what it covers by legs that must come before are waited for, other changes are left to the proof"));
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
