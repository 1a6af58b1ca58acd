using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The break-off ladder: for each step of a plan what it takes to leave it by abort and by terminate, and what that leaves behind.
/// A feature is left as the break-off says; where it says nothing, as it is at that moment.</summary>
internal sealed class Ladder(Scenario scenario, Timeline timeline, History history)
{
    private readonly ImmutableArray<DoStep> steps = [.. timeline.Activities.OfType<DoStep>().Where(step => step.LeftBy is null)];
    private readonly Dictionary<LegId, ImmutableArray<FeatureId>> featuresOf = [];

    private readonly Dictionary<FeatureId, int> variables = [];
    private readonly Dictionary<FeatureId, ImmutableArray<Pet>> moments = [];

    /// <summary>The steps that say how they leave a feature, by abort or by terminate, in the order of the timeline.</summary>
    private Dictionary<FeatureId, Overlaps<DoStep>> Speaking => field ??= Spoken().ToDictionary(one => one.Key, one => new Overlaps<DoStep>(one.Value, step => new(step.Start, step.End)));

    private Overlaps<DoStep> InTime => field ??= new(steps, step => new(step.Start, step.End));

    /// <summary>The rungs of every branch; what branches share stands once.</summary>
    public static ImmutableArray<Rung> Of(ImmutableArray<Case> branches) =>
        [.. branches.SelectMany(given => given.Ladder.Rungs()).DistinctBy(rung => (rung.Leg, rung.Step, rung.From, rung.Who))];

    /// <summary>The states that a feature can be left in at a moment: more than one where several people leave it differently.</summary>
    public IEnumerable<string> Left(FeatureId feature, Pet moment, Leaving by)
    {
        List<string>? told = null;
        if (Speaking.TryGetValue(feature, out Overlaps<DoStep>? speaking))
            foreach (DoStep step in speaking.At(moment))
                foreach (FeatureState left in BreakOffOf(step, by).Leaves)
                    if (left.Feature == feature && !(told ??= []).Contains(left.State)) told.Add(left.State);
        return told ?? (IEnumerable<string>)[history.StateAt(VariableOf(feature), moment)];
    }

    private Dictionary<FeatureId, List<DoStep>> Spoken()
    {
        Dictionary<FeatureId, List<DoStep>> speaking = [];
        foreach (DoStep step in steps)
            foreach (FeatureState left in BreakOffOf(step, Leaving.Terminate).Leaves.Concat(BreakOffOf(step, Leaving.Abort).Leaves))
            {
                if (!speaking.TryGetValue(left.Feature, out List<DoStep>? known)) speaking[left.Feature] = known = [];
                if (known.Count == 0 || !ReferenceEquals(known[^1], step)) known.Add(step);
            }
        return speaking;
    }

    private int VariableOf(FeatureId feature) =>
        variables.TryGetValue(feature, out int known) ? known : variables[feature] = history[$"feature {feature} state"];

    /// <summary>Whether a state may be left: the scenario says so, it was so before the walk, or a console can bring the feature back to one that may.</summary>
    public bool MayBeLeft(MayBeLeft row, string state, Leaving by) =>
        row.In.Contains(state) || scenario.Station.Features.First(feature => feature.Id == row.Feature).Start == state || (by == Leaving.Abort && row.AfterAbort.Contains(state)) || IsCommanded(scenario, row);

    private static bool IsCommanded(Scenario scenario, MayBeLeft row) =>
        scenario.Consoles.SelectMany(console => console.Commands).SelectMany(command => command.Makes).Any(make => make.Feature == row.Feature && row.In.Contains(make.State));

    /// <summary>The moments from which on what is left of a feature may be another: its changes, and where steps that speak of it begin and end.</summary>
    public ImmutableArray<Pet> Moments(FeatureId feature)
    {
        if (moments.TryGetValue(feature, out ImmutableArray<Pet> known)) return known;
        SortedSet<Pet> all = [history.Trace.From];
        foreach (Change change in history.Changes(VariableOf(feature))) all.Add(change.At);
        foreach (DoStep step in Speaking.TryGetValue(feature, out Overlaps<DoStep>? speaking) ? speaking.Between(history.Trace.From, history.Trace.To) : [])
        {
            all.Add(step.Start);
            all.Add(step.End);
        }
        return moments[feature] = [.. all];
    }

    /// <summary>The step that goes on at a moment and has most to do with a feature; null when none does.</summary>
    public DoStep? StepAt(FeatureId feature, Pet moment) => InTime.At(moment).MaxBy(step => FeaturesOf(step.Leg).Contains(feature) ? 1 : 0);

    private IEnumerable<Rung> Rungs()
    {
        LeftThing[] things = [.. new LeftBehind(scenario, timeline, history, this).All()];
        return steps.Select(step => new Rung(
        timeline.Branch, step.Id, step.Person, step.Leg, step.Step, step.Start, Out(step, Leaving.Abort, things), Out(step, Leaving.Terminate, things),
        [
            .. scenario.Consoles.SelectMany(console => console.Shutdowns).Where(shutdown => history.StateAt(history[$"shutdown {shutdown.Id} state"], step.Start) != "on")
                .Select(shutdown => shutdown.Id),
        ]));
    }

    /// <summary>Leaving a step just before it is done, when most of it is under way.</summary>
    private WayOut Out(DoStep step, Leaving by, IEnumerable<LeftThing> things)
    {
        Pet moment = Pet.FromSeconds(step.End.Seconds - 1);
        ImmutableArray<FeatureState> left =
        [
            .. FeaturesOf(step.Leg).SelectMany(feature => Left(feature, moment, by).Select(state => new FeatureState(feature, state)))
                .Where(one => scenario.Station.Features.First(feature => feature.Id == one.Feature).Start != one.State),
        ];
        return new(BreakOffOf(step, by).Time, left,
            [.. left.Where(one => scenario.MayBeLeft.FirstOrDefault(row => row.Feature == one.Feature) is { } row && !MayBeLeft(row, one.State, by)).Select(one => one.Feature)])
        { Things = [.. things.Select(thing => thing.Left(moment, by)).OfType<string>().Distinct()] };
    }

    /// <summary>The features that the steps of a leg's job make or leave, in the order of the station.</summary>
    private ImmutableArray<FeatureId> FeaturesOf(LegId leg)
    {
        if (featuresOf.TryGetValue(leg, out ImmutableArray<FeatureId> known)) return known;
        HashSet<FeatureId> named = [.. scenario.Jobs.First(job => job.Legs.Any(one => one.Id == leg)).Legs.SelectMany(one => one.Steps).SelectMany(Touched)];
        return featuresOf[leg] = [.. scenario.Station.Features.Select(feature => feature.Id).Where(named.Contains)];
    }

    /// <summary>The features that a step makes, or leaves when it is broken off.</summary>
    public static IEnumerable<FeatureId> Touched(Step step) =>
        step.Makes.OfType<MakeFeature>().Select(make => make.State).Concat(step.Abort.Leaves).Concat(step.Terminate.Leaves).Select(state => state.Feature);

    private Model.BreakOff BreakOffOf(DoStep act, Leaving by)
    {
        Step step = Lookup.Of(scenario).Step(act.Leg, act.Step);
        return by == Leaving.Abort ? step.Abort : step.Terminate;
    }
}
