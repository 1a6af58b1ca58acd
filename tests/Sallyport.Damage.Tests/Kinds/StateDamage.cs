using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Features, light and link.</summary>
internal static class StateDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("feature otherwise", "A feature that a step needs is in another state in the world as played.", "feature.wrong",
            "Nothing before the step changes it.",
            plan => FirstNeeds(plan).SelectMany(need => FeatureOf(plan, need.Condition.Feature).States.Where(state => !need.Condition.States.Contains(state)).Take(1)
                .Select(state => Features(plan, need.Condition.Feature, feature => feature with { Start = state })))),
        new("effect that fails", "A step does not bring about what a later one needs in the world as played.", "feature.wrong",
            "The feature is still as before.",
            plan => plan.All<DoStep>().SelectMany(step => plan.Step(step).Makes.OfType<MakeFeature>().Where(make => NeededAfter(plan, step, make)).Select(make =>
                plan.WithLeg(step.Leg, leg => leg with { Steps = CleanPlan.Each(leg.Steps, one => one.Id == step.Step, one => one with { Makes = one.Makes.Remove(make) }) })))),
        new("station not ready", "A feature is not ready in the world as played when the hatch is opened.", "station.unready",
            "It must be ready before.",
            plan => plan.Scenario.Station.Features.Where(feature => feature.Ready is not null && !plan.All<SendCommand>().Any(send => send.Start < FirstOut(plan)))
                .Select(feature => Features(plan, feature.Id, one => one with { Start = one.States.First(state => state != one.Ready) }))),
        new("station not given back", "A feature must be given back in another state in the world as played.", "station.unready",
            "It is not in that state at the end.",
            plan => plan.Scenario.Station.Features.Where(feature => feature.States.Length > 1)
                .Select(feature => Features(plan, feature.Id, one => one with { Back = one.States.First(state => state != plan.History.LastState(plan.History[$"feature {one.Id} state"])) }))),
        new("night", "It is night in the world as played while a leg needs day, or day while it needs night.", "light.needed",
            "The leg asks for the light.",
            plan => plan.All<DoStep>().Where(step => plan.Legs[step.Leg].Light is not null).Select(step =>
            {
                ImmutableArray<PetInterval> night = plan.Legs[step.Leg].Light == LightCondition.Day ? [new(step.Start, step.End)] : [];
                return plan.InWorld(scenario => scenario with { Sky = scenario.Sky with { Night = night, FullNight = night } });
            })),
        new("twilight", "It is neither day nor night in the world as played while a leg needs one of them.", "light.needed",
            "Twilight is not what the leg asks for.",
            plan => plan.All<DoStep>().Where(step => plan.Legs[step.Leg].Light is not null).Select(step => plan.InWorld(scenario => scenario with
            {
                Sky = scenario.Sky with { Night = [new(step.Start, step.End)], FullNight = [] },
            }))),
        new("begun by night", "Everything from a leg on is held until the light that it needs is gone.", "light.needed",
            "The leg begins in the other light.",
            plan => plan.Done.Where(leg => plan.Legs[leg].Light is not null).SelectMany(leg => Hold(plan, leg))),
        new("radiation all the time", "The station passes a region of high radiation during the whole walk in the world as played.", "radiation.high",
            "Everybody is outside for longer than the limit.",
            plan => plan.Scenario.Sky.Radiation is not null && plan.Scenario.LimitOf("radiation.high") is { } limit && plan.Trace.To.Since(plan.Trace.From).Seconds > 2 * limit.Value.Value
                ? [plan.InWorld(scenario => scenario with { Sky = scenario.Sky with { Radiation = [new(plan.Trace.From, plan.Trace.To)] } })] : []),
        new("link cut", "There is no link while a leg needs one.", "radio.needed",
            "The leg asks for the link.",
            plan => plan.All<DoStep>().Where(step => plan.Legs[step.Leg].NeedsLink).Select(step => NoLink(plan, new(step.Start, step.End)))),
    ];

    public static Damaged NoLink(CleanPlan plan, PetInterval when) => plan.InWorld(scenario => scenario with { Sky = scenario.Sky with { NoLink = scenario.Sky.NoLink.Add(when) } });

    private static IEnumerable<Damaged> Hold(CleanPlan plan, LegId leg)
    {
        DoStep first = plan.StepsOf(leg)[0];
        int seconds = 0;
        bool Wrong() => plan.Scenario.Sky.Night.Any(night => night.From <= first.Start.Plus(Duration.FromSeconds(seconds)) && first.Start.Plus(Duration.FromSeconds(seconds)) < night.To)
            == (plan.Legs[leg].Light == LightCondition.Day);
        while (!Wrong() && seconds < 12 * 3600) seconds += 60;
        if (Wrong() && seconds > 0) yield return plan.Hold(first.Start, seconds);
    }

    private static Pet FirstOut(CleanPlan plan) => plan.All<AirlockPhase>().First(phase => phase.Phase == AirlockPhaseKind.Out).Start;

    private static Feature FeatureOf(CleanPlan plan, FeatureId feature) => plan.Scenario.Station.Features.Single(one => one.Id == feature);

    private static Damaged Features(CleanPlan plan, FeatureId feature, Func<Feature, Feature> change) =>
        plan.WithStation(station => station with { Features = CleanPlan.Each(station.Features, one => one.Id == feature, change) });

    /// <summary>What steps need at their start of features that nothing has changed before.</summary>
    private static IEnumerable<NeedFeature> FirstNeeds(CleanPlan plan) => plan.All<DoStep>().SelectMany(step => plan.Step(step).Needs.OfType<NeedFeature>()
        .Where(need => need.When != NeedTime.End && !plan.History.Changes(plan.History[$"feature {need.Condition.Feature} state"]).Any(change => change.At <= step.Start)));

    /// <summary>Whether the next change of the feature comes after a step that needs what this one makes, and that was not so before.</summary>
    private static bool NeededAfter(CleanPlan plan, DoStep step, MakeFeature make)
    {
        int variable = plan.History[$"feature {make.State.Feature} state"];
        string before = plan.History.StateAt(variable, TimeDamage.Plus(step.End, -1));
        Pet until = plan.History.Changes(variable).Where(change => change.At > step.End).Select(change => change.At).DefaultIfEmpty(plan.Trace.To).First();
        return plan.All<DoStep>().Any(later => later.Start >= step.End && later.Start < until && plan.Step(later).Needs.OfType<NeedFeature>()
            .Any(need => need.When == NeedTime.Start && need.Condition.Feature == make.State.Feature && !need.Condition.States.Contains(before)));
    }
}
