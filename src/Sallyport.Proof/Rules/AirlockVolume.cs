using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Whatever goes through an airlock fits it, at once and in its order.</summary>
internal sealed class AirlockVolume : Rule
{
    public override RuleCard Card { get; } = new(new("airlock.volume"),
        "a hatch that cannot be closed behind what was brought home, and a person shut in behind a bulky thing",
        "before the hatch opens and when it is closed again: people, things and volume in the airlock, a bag with its contents counted once, stocks by the piece; "
            + "the size class of each thing that passes the hatch; and that things which must be in before people come in before anybody",
        "the room, the hatch and the order that the scenario states at the airlock",
        Guard.Decoder("what must be in before people is hung at the hatch before the inventory; whether all of it fits, the proof alone sees"));

    public override string? Missing(Scenario scenario) => scenario.Station.Airlocks.All(airlock => airlock.Room is null) ? "no airlock says what it has room for" : null;

    public override IEnumerable<string> Unseen(Scenario scenario)
    {
        AirlockId[] without = [.. scenario.Station.Airlocks.Where(airlock => airlock.Room is null).Select(airlock => airlock.Id)];
        return without.Length == 0 ? [] : [$"airlocks that do not say what they have room for: {string.Join(", ", without)}"];
    }

    public override IEnumerable<Finding> Find(Case given)
    {
        Dictionary<ActivityId, Activity> activities = given.Timeline.Activities.ToDictionary(activity => activity.Id);
        ImmutableArray<Crossing> crossings = [.. Crossings(given, activities)];
        foreach (Airlock airlock in given.Scenario.Station.Airlocks)
        {
            if (airlock.Room is not { } room) continue;
            ImmutableArray<AirlockPhase> phases = [.. given.Timeline.Activities.OfType<AirlockPhase>().Where(phase => phase.Airlock == airlock.Id)];
            ImmutableArray<Crossing> own = [.. crossings.Where(one => one.Airlock == airlock.Id)];
            foreach (Crossing one in own.Where(one => !room.Hatch.Contains(one.Thing.Size)))
                yield return Broken(given, one.At, one.Who, $"{one.Thing.Id} goes {(one.Inward ? "in" : "out")} through {airlock.Id}, and is {one.Thing.Size}; its hatch lets {string.Join(", ", room.Hatch)} pass.",
                    $"Leave {one.Thing.Id} where it is, or pack it smaller.", one.By);
            foreach (Crossing one in own.Where(one => one.Inward && room.BeforePeople.Contains(one.Thing.Size) && SomebodyIsIn(phases, one.At)))
                yield return Broken(given, one.At, one.Who, $"{one.Thing.Id} comes in through {airlock.Id} with a person or after one, and must be in before anybody.",
                    $"Hang {one.Thing.Id} at {airlock.Grip} before the inventory, so that it is handed in with the bags.", one.By);
            foreach (Finding finding in Rooms(given, airlock, room, phases, own)) yield return finding;
        }
    }

    /// <summary>Whether somebody has begun to come in since the hatch was closed last.</summary>
    private static bool SomebodyIsIn(ImmutableArray<AirlockPhase> phases, Pet at)
    {
        ImmutableArray<AirlockPhase> closed = [.. phases.Where(phase => phase.Phase == AirlockPhaseKind.Close && phase.End < at)];
        return phases.Any(phase => phase.Phase == AirlockPhaseKind.In && phase.Start < at && closed.All(close => close.End <= phase.Start));
    }

    /// <summary>What is in the airlock at once: with those who go out, all that is taken out after them; with those who come in, all that came in.</summary>
    private IEnumerable<Finding> Rooms(Case given, Airlock airlock, AirlockRoom room, ImmutableArray<AirlockPhase> phases, ImmutableArray<Crossing> crossings)
    {
        Pet from = given.Trace.From;
        ImmutableArray<Pet> closings = [.. phases.Where(phase => phase.Phase == AirlockPhaseKind.Close).Select(phase => phase.Start).Order(), given.Trace.To];
        foreach (Pet until in closings)
        {
            ImmutableArray<AirlockPhase> now = [.. phases.Where(phase => phase.Start >= from && phase.Start < until)];
            ImmutableArray<Crossing> meanwhile = [.. crossings.Where(one => one.At > from && one.At <= until)];
            ImmutableArray<PersonId> outward = PeopleIn(now, AirlockPhaseKind.Out), inward = PeopleIn(now, AirlockPhaseKind.In);
            Pet opened = now.Where(phase => phase.Phase == AirlockPhaseKind.Out).Select(phase => phase.Start).DefaultIfEmpty(from).Min();
            ImmutableArray<Crossing> taken = [.. meanwhile.Where(one => !one.Inward)], brought = [.. meanwhile.Where(one => one.Inward)];
            foreach (Finding finding in Fits(given, airlock, room, opened, "before its hatch opens", outward, taken).Concat(Fits(given, airlock, room, until, "when its hatch is closed", inward, brought)))
                yield return finding;
            from = until;
        }
    }

    private IEnumerable<Finding> Fits(Case given, Airlock airlock, AirlockRoom room, Pet at, string when, ImmutableArray<PersonId> people, ImmutableArray<Crossing> things)
    {
        double volume = (people.Length * room.PersonVolume + things.Sum(one => one.Volume)) * 1000;
        string held = string.Join(", ", things.Select(one => one.Thing.Id.Value).DefaultIfEmpty("nothing else"));
        if (people.Length > airlock.Holds)
            yield return Full(given, at, people, airlock, when, $"{people.Length} people", $"{airlock.Holds} people", $"{airlock.Holds - people.Length} people", $"Let fewer people use {airlock.Id} at once.");
        if (things.Length > room.Items)
            yield return Full(given, at, people, airlock, when, $"{things.Length} things ({held})", $"{room.Items} things", $"{room.Items - things.Length} things", "Leave something outside, or pack it into a bag.");
        if (volume > room.Volume * 1000 * (1 + 1e-9))
            yield return Full(given, at, people, airlock, when, $"{Litres(volume)} ({people.Length} people, {held})", Litres(room.Volume * 1000), Litres(room.Volume * 1000 - volume), "Leave something outside, or pack it smaller.");
    }

    private Finding Full(Case given, Pet at, ImmutableArray<PersonId> people, Airlock airlock, string when, string measured, string limit, string margin, string mend) =>
        Broken(given, at, people, $"{airlock.Id} holds {measured} {when}, and takes {limit}.", mend) with
        {
            Measured = measured,
            Limit = limit,
            Margin = margin,
            Source = airlock.Room!.Source,
        };

    private static string Litres(double value) => $"{value.ToString("0.##", CultureInfo.InvariantCulture)} L";

    private static ImmutableArray<PersonId> PeopleIn(ImmutableArray<AirlockPhase> phases, AirlockPhaseKind kind) =>
        [.. phases.Where(phase => phase.Phase == kind).SelectMany(phase => phase.Who).Distinct()];

    /// <summary>A thing that passes a hatch, by itself or with what is in it.</summary>
    private sealed record Crossing(Gear Thing, AirlockId Airlock, bool Inward, Pet At, ActivityId By, ImmutableArray<PersonId> Who, double Volume);

    private static IEnumerable<Crossing> Crossings(Case given, Dictionary<ActivityId, Activity> activities)
    {
        Packing packing = new(given);
        Dictionary<int, (Gear Thing, string Place)> now = given.Scenario.Gear.Select(thing => (thing, variable: given.History[$"gear {thing.Id} place"]))
            .ToDictionary(one => one.variable, one => (one.thing, given.Trace.Variables[one.variable].States[given.Trace.Start[one.variable]]));
        foreach (Change change in given.Trace.Changes)
        {
            packing.Apply(change);
            if (!now.TryGetValue(change.Variable, out (Gear Thing, string Place) before)) continue;
            string place = given.Trace.Variables[change.Variable].States[change.Value];
            now[change.Variable] = (before.Thing, place);
            bool inward = place == "inside";
            if ((!inward && before.Place != "inside") || change.By is not { } by || AirlockOf(given, activities[by]) is not { } airlock) continue;
            yield return new(before.Thing, airlock, inward, change.At, by, activities[by].People, packing.VolumeOf(before.Thing));
        }
    }

    /// <summary>The airlock through which an activity takes things: its own phase, or the one at whose grip a thing is taken.</summary>
    private static AirlockId? AirlockOf(Case given, Activity activity) => activity switch
    {
        AirlockPhase phase => phase.Airlock,
        Take take => given.Scenario.Station.Airlocks.FirstOrDefault(airlock => airlock.Grip == take.At)?.Id,
        _ => null,
    };
}
