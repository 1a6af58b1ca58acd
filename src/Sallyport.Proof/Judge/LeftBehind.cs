using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Something that may be left behind when the walk is cut off, other than a feature of which the scenario says in which states it may be.</summary>
/// <param name="Moments">The moments from which on what is left of it may be another, in order.</param>
/// <param name="Left">How it is left at a moment by a way of leaving, in words that follow "leaves"; null when it may be left so.</param>
/// <param name="Why">What is wrong with that, in words that follow "because".</param>
/// <param name="Mend">What would mend it.</param>
internal sealed record LeftThing(IEnumerable<Pet> Moments, Func<Pet, Leaving, string?> Left, string Why, string Mend)
{
    /// <summary>Whether it is held where it is and only not where it is wanted: a caution however it is left.</summary>
    public bool IsCaution { get; init; }
}

/// <summary>What is left behind of lines, open ends, clocks and things when everybody goes in at a moment.</summary>
internal sealed class LeftBehind(Scenario scenario, Timeline timeline, History history, Ladder ladder)
{
    private readonly Dictionary<GearId, int> places = scenario.Gear.ToDictionary(gear => gear.Id, gear => history[$"gear {gear.Id} place"]);

    public static LeftBehind Of(Case given, Ladder ladder) => new(given.Scenario, given.Timeline, given.History, ladder);

    /// <summary>Everything there is, in the order of the scenario.</summary>
    public IEnumerable<LeftThing> All() => [.. OpenEnds(), .. ShutLines(), .. Clocks(), .. UntiedThings(), .. ThingsOut()];

    private IEnumerable<LeftThing> OpenEnds()
    {
        HashSet<FeatureId> told = [.. scenario.MayBeLeft.Select(row => row.Feature)];
        LeftThing One(FeatureId feature, Func<string, bool> open, string why) => new(ladder.Moments(feature),
            (moment, by) => ladder.Left(feature, moment, by).FirstOrDefault(state => open(state) && IsMade(feature, state)) is { } state ? $"{feature} {state}" : null,
            why, $"Let the break-offs close {feature}, or say under may_be_left that it may be left so.");
        foreach (Disconnect one in scenario.Station.Disconnects.Where(one => !told.Contains(one.Feature)))
            yield return One(one.Feature, state => !one.Mated.Contains(state) && !one.Capped.Contains(state), "it is open to vacuum");
        foreach (PowerLine line in scenario.Station.PowerLines.Where(line => line.IsConnector && !told.Contains(line.Closed!.Feature)))
            yield return One(line.Closed!.Feature, line.IsExposedIn, "its pins are bare");
    }

    /// <summary>As it was before the walk it may always be left.</summary>
    private bool IsMade(FeatureId feature, string state) => scenario.Station.Features.First(one => one.Id == feature).Start != state;

    private IEnumerable<LeftThing> ShutLines() => scenario.Station.FluidLines.Where(line => line is { Trapped: not null, MayBeLeft: null }).Select(line => new LeftThing(
        scenario.Station.FluidLines.SelectMany(one => one.Ends).Distinct().SelectMany(end => ladder.Moments(end)).Concat(Changes($"line {line.Name} fill")).Distinct().Order(),
        (moment, by) => !IsFed(line, moment, by) && history.StateAt(history[$"line {line.Name} fill"], moment) == LineStates.Full ? $"{line.Name} shut off and full" : null,
        $"it bursts once it was in the sun for {line.Trapped}", $"Let the break-offs open a valve of {line.Name} or let it off, or say in its may_be_left why it may be left so."));

    /// <summary>Whether a line is joined, through ends that are surely left open, to what keeps it under pressure or leads out of the net.</summary>
    private bool IsFed(FluidLine line, Pet moment, Leaving by)
    {
        bool Passes(FeatureId end) => scenario.Station.Valves.FirstOrDefault(valve => valve.Feature == end) is { } valve ? ladder.Left(end, moment, by).All(state => !valve.Shut.Contains(state))
            : scenario.Station.Disconnects.FirstOrDefault(one => one.Feature == end) is not { } disconnect || ladder.Left(end, moment, by).All(disconnect.Mated.Contains);
        List<FluidLine> joined = [line];
        for (int i = 0; i < joined.Count; i++)
        {
            if (joined[i].Feeds) return true;
            foreach (FeatureId end in joined[i].Ends.Where(Passes))
            {
                FluidLine[] touching = [.. scenario.Station.FluidLines.Where(one => one.Ends.Contains(end))];
                if (touching.Length < 2) return true;
                joined.AddRange(touching.Except(joined));
            }
        }
        return false;
    }

    /// <summary>What a console can end is not counted: a clock that hangs on it is never left running.</summary>
    private IEnumerable<LeftThing> Clocks() => scenario.Clocks.Where(clock => !clock.MayRunOn && !clock.While.Any(IsEndedFromTheGround)).Select(clock => new LeftThing(
        clock.While.SelectMany(MomentsOf).Append(history.Trace.From).Distinct().Order(),
        (moment, by) => clock.While.All(condition => MayHold(condition, moment, by)) ? $"{clock.Id} {(clock.Kind == ClockKind.Cold ? "getting colder" : "getting hotter")}" : null,
        "nobody is there to bring that to an end before it runs out", "Let the break-offs bring what it hangs on to an end, with the time for that, or let the clock run on (may_run_on)."));

    private IEnumerable<Pet> MomentsOf(WorldCondition condition) => condition switch
    {
        FeatureIs one => ladder.Moments(one.Condition.Feature),
        GearIsIn => PlaceChanges,
        _ => [],
    };

    private bool IsEndedFromTheGround(WorldCondition condition) => condition is IsShutDown || (condition is FeatureIs one && CanBeCommandedOut(one.Condition));

    /// <summary>Whether a condition may be so once everybody is in: night and day come and go.</summary>
    private bool MayHold(WorldCondition condition, Pet moment, Leaving by) => condition switch
    {
        FeatureIs one => ladder.Left(one.Condition.Feature, moment, by).Any(one.Condition.States.Contains),
        GearIsIn one => PlaceOf(one.Gear, moment) == one.Place.ToString() && !ComesIn(one.Gear, moment),
        LightIs => true,
        _ => throw new ArgumentException($"a clock has a condition that the ladder does not know: {condition.GetType().Name}"),
    };

    private bool CanBeCommandedOut(FeatureCondition condition) => scenario.Consoles.SelectMany(console => console.Commands).SelectMany(command => command.Makes)
        .Any(make => make.Feature == condition.Feature && !condition.States.Contains(make.State));

    /// <summary>Things that a step moves with nothing that ties them: an abort drops them. Where second ties are told, item.untied breaks already.</summary>
    private IEnumerable<LeftThing> UntiedThings()
    {
        if (scenario.Handling.Tie is not null) yield break;
        foreach (DoStep act in timeline.Activities.OfType<DoStep>().Where(step => step.LeftBy is null))
        {
            Leg leg = scenario.Legs.First(one => one.Id == act.Leg);
            Step step = leg.Steps.First(one => one.Id == act.Step);
            HashSet<GearId> tied = [.. leg.Steps.Take(leg.Steps.IndexOf(step) + 1).SelectMany(one => one.Ties)];
            foreach (MoveGear move in step.Makes.OfType<MoveGear>().Where(move => !tied.Contains(move.Gear)))
                yield return new([act.Start, act.End],
                    (moment, by) => by == Leaving.Abort && act.Start <= moment && moment < act.End ? $"{move.Gear} in {act.Person}'s hands" : null,
                    "nothing ties it", $"Let step {act.Step} of {act.Leg} tie {move.Gear} first.")
                { IsCaution = true };
        }
    }

    /// <summary>Things that are wanted inside and hang somewhere outside, on nobody.</summary>
    private IEnumerable<LeftThing> ThingsOut()
    {
        // What hangs at a hatch is handed in with the bags, unless there is no time for that.
        HashSet<string> atHatch = [.. scenario.Station.Airlocks.Select(airlock => $"grip {airlock.Grip}")];
        return scenario.Gear.Where(gear => gear is { MayBeLeft: null, Stays: null } && gear.End == Location.Inside).Select(gear => Out(gear, gear.Start.ToString()));

        LeftThing Out(Gear gear, string start) => new(
        PlaceChanges,
        (moment, by) => PlaceOf(gear.Id, moment) is var place && !(by == Leaving.Terminate && atHatch.Contains(place)) && place != start && place is not ("inside" or "spent") && !ComesIn(gear.Id, moment)
            && !place.StartsWith("bag ", StringComparison.Ordinal) ? $"{gear.Id} at {place}" : null,
        "it is wanted inside", $"Keep {gear.Id} on somebody, or say in its may_be_left why it may be left out.")
        { IsCaution = true };
    }

    private Pet[] PlaceChanges => field ??= [.. places.Values.SelectMany(place => history.Changes(place)).Select(change => change.At).Append(history.Trace.From).Distinct().Order()];

    private IEnumerable<Pet> Changes(string variable) => history.Changes(history[variable]).Select(change => change.At);

    private string PlaceOf(GearId gear, Pet moment) => history.StateAt(places[gear], moment);

    /// <summary>Whether a thing goes in with somebody: it, or the outermost bag that holds it, hangs on a person, is in hand, or is inside.</summary>
    private bool ComesIn(GearId gear, Pet moment)
    {
        string place = PlaceOf(gear, moment);
        for (int depth = 0; place.StartsWith("bag ", StringComparison.Ordinal) && depth < scenario.Gear.Length; depth++) place = PlaceOf(new(place["bag ".Length..]), moment);
        return place == "inside" || place.StartsWith("person ", StringComparison.Ordinal) || place.StartsWith("hands ", StringComparison.Ordinal);
    }
}
