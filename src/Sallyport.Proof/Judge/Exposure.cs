using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>A connector with its pins bare from one moment to another, and what the steps that touched it asked for.</summary>
/// <param name="Line">The connector.</param>
/// <param name="From">When it was taken apart, or the start of the plan.</param>
/// <param name="To">When it was mated or capped again, or the end of the plan.</param>
/// <param name="IsLeft">Whether it is still bare at the end of the plan.</param>
/// <param name="Touches">The steps that touched it, with what they asked for.</param>
internal sealed record Exposure(PowerLine Line, Pet From, Pet To, bool IsLeft, ImmutableArray<(DoStep Step, NeedDead Need)> Touches)
{
    public string Name => Line.Closed!.Feature.Value;

    /// <summary>Every time that a connector of the net is bare.</summary>
    public static IEnumerable<Exposure> All(Case given)
    {
        Dictionary<LegId, Leg> legs = given.Scenario.Legs.ToDictionary(leg => leg.Id);
        Overlaps<(DoStep Step, NeedDead Need)> touches = new(given.Timeline.Activities.OfType<DoStep>()
            .SelectMany(act => legs[act.Leg].Steps.Single(step => step.Id == act.Step).Needs.OfType<NeedDead>().Select(need => (act, need))), touch => new(touch.Step.Start, touch.Step.End));
        foreach (PowerLine line in given.Scenario.Station.PowerLines.Where(line => line.IsConnector))
        {
            int variable = given.History[$"feature {line.Closed!.Feature} state"];
            bool left = line.IsExposedIn(given.History.LastState(variable));
            ImmutableArray<PetInterval> times = given.History.While(variable, line.IsExposedIn);
            // Taken apart in the very last instant.
            if (left && (times.IsEmpty || times[^1].To != given.Trace.To)) times = times.Add(new(given.Trace.To, given.Trace.To));
            foreach (PetInterval bare in times)
                yield return new(line, bare.From, bare.To, left && bare.To == given.Trace.To, TouchesOf(touches, line, bare));
        }
    }

    /// <summary>The moments of it, each with the net as it is then: its beginning, and whenever a switch or connector changes.</summary>
    public IEnumerable<(Pet At, PowerNet Net)> Moments(Case given)
    {
        IEnumerable<Pet> changes = given.Scenario.Station.PowerLines.Where(line => line.Closed is not null)
            .SelectMany(line => given.History.Changes(given.History[$"feature {line.Closed!.Feature} state"], From, To)).Select(change => change.At);
        PowerNet? net = null;
        foreach (Pet moment in changes.Prepend(From).Distinct().Order())
        {
            string State(FeatureId feature) => given.History.StateAt(given.History[$"feature {feature} state"], moment);
            net = net?.With(State) ?? new PowerNet(given.Scenario.Station, State);
            yield return (moment, net);
        }
    }

    /// <summary>What was asked for holds until the connector is mated or capped again: the moments at which it is lost.</summary>
    /// <param name="given">The case.</param>
    /// <param name="rule">The rule that tells it; what its facts told of the touch itself is not told again.</param>
    /// <param name="count">How many inhibits there are.</param>
    public IEnumerable<(Pet At, NodeId Node, int Found, int Asked)> Lost(Case given, RuleId rule, Func<PowerNet, NodeId, int, int> count)
    {
        foreach (NodeId node in Touches.Select(touch => touch.Need.Node).Distinct())
        {
            bool lost = Touches.Any(touch => given.IsTold(rule, touch.Step.Id));
            foreach ((Pet at, PowerNet net) in Moments(given))
            {
                int asked = Touches.Where(touch => touch.Need.Node == node && touch.Step.Start <= at).Select(touch => touch.Need.Inhibits).DefaultIfEmpty(0).Max();
                int found = count(net, node, asked);
                bool fewer = found < asked;
                // While a step touches it, its own need tells.
                bool told = Touches.Any(touch => touch.Need.Node == node && touch.Need.When == NeedTime.Throughout && touch.Need.Inhibits >= asked
                    && touch.Step.Start <= at && at < touch.Step.End);
                if (fewer && !lost && !told) yield return (at, node, found, asked);
                lost = fewer;
            }
        }
    }

    /// <summary>The steps that touch an end of the connector while it is bare, or take it apart.</summary>
    private static ImmutableArray<(DoStep, NeedDead)> TouchesOf(Overlaps<(DoStep Step, NeedDead Need)> touches, PowerLine line, PetInterval bare) =>
        [.. touches.Between(Pet.FromSeconds(bare.From.Seconds - 1), bare.To).Where(touch => touch.Need.Node == line.From || touch.Need.Node == line.To)];
}
