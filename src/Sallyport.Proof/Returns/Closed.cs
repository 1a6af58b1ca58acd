using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>
/// What is closed when on the way home, once everything is played: zones, whatever moves with a joint, what lies too near to jets and
/// beams, surfaces too hot or too cold, and hatches. From the moment at which somebody turns back nobody outside does any more work: nothing
/// is opened or closed by a later step, and no hatch. Of the commands that come later, what opens is sent as told, and nothing that
/// closes; what was sent before takes effect. What is so at the end of the timeline stays so. What the abort of a step under way leaves
/// loose, armed or live counts from the moment of turning back, until a command makes it safe that takes effect once the abort is over.
/// </summary>
internal sealed class Closed
{
    private static readonly Pet Always = Pet.FromSeconds(int.MinValue), Ever = Pet.FromSeconds(int.MaxValue);

    private static int plays;

    private readonly World world;
    private readonly ImmutableArray<int> start;
    private readonly ILookup<int, Change> worked;
    private readonly ILookup<FeatureId, (Pet Sent, Pet At, string State)> commanded;

    /// <summary>What the aborts of steps leave, while each goes on, and how long the abort takes.</summary>
    private readonly ILookup<FeatureId, (PetInterval While, Duration Abort, string State)> left;

    /// <summary>The moments at which people outside open or close something, or a command that may is sent.</summary>
    private readonly ImmutableArray<Pet> turns;

    private readonly ImmutableArray<Hazard> hazards;
    private readonly ImmutableDictionary<string, ImmutableArray<(Pet At, bool Opens)>> hatches;
    private readonly Dictionary<Passage, Closings> known = [];

    public Closed(World world, ImmutableArray<int> start, IReadOnlyList<Change> changes, IReadOnlyCollection<Activity> activities)
    {
        this.world = world;
        this.start = start;
        Station station = world.Scenario.Station;
        HashSet<int> minded =
        [
            .. station.Zones.SelectMany(zone => zone.While).Select(condition => condition.Feature).Concat(station.Joints.Select(joint => joint.Feature))
                .Concat(station.Jets.Concat(station.Beams).Select(emitter => emitter.Feature)).Where(world.Register.Features.ContainsKey).Select(feature => world.Register.Features[feature]),
        ];
        SendCommand[] sends = [.. activities.OfType<SendCommand>()];
        HashSet<ActivityId> sent = [.. sends.Select(send => send.Id)];
        worked = changes.Where(change => minded.Contains(change.Variable) && !(change.By is { } by && sent.Contains(by))).ToLookup(change => change.Variable);
        commanded = sends.SelectMany(send => world.Lookup.Command(send.Command).Makes.Select(make => (make.Feature, send.Start, send.End, make.State)))
            .Where(one => world.Register.Features.TryGetValue(one.Feature, out int variable) && minded.Contains(variable)).ToLookup(one => one.Feature, one => (one.Start, one.End, one.State));
        left = activities.OfType<DoStep>().Where(act => act.LeftBy is null).SelectMany(act => world.Lookup.Step(act.Leg, act.Step).Abort is var abort
            ? abort.Leaves.Select(state => (state.Feature, new PetInterval(act.Start, act.End), abort.Time, state.State)) : [])
            .Where(one => world.Register.Features.TryGetValue(one.Feature, out int variable) && minded.Contains(variable)).ToLookup(one => one.Feature, one => (one.Item2, one.Time, one.State));
        hatches = station.Airlocks.ToImmutableDictionary(airlock => Passage.Through(airlock).To, airlock => HatchOf(airlock.Id, activities));
        turns = [.. worked.SelectMany(own => own).Select(change => change.At).Concat(commanded.SelectMany(own => own).Select(one => one.Sent)).Concat(hatches.Values.SelectMany(hatch => hatch).Select(turn => turn.At))
            .Concat(left.SelectMany(own => own).SelectMany(one => new[] { one.While.From, one.While.To })).Distinct().Order()];
        hazards = [.. Hazards()];
    }

    /// <summary>Something that closes places: what it is called, and whether it touches a passage.</summary>
    private sealed class Hazard(string name, IEnumerable<PetInterval> always, int works, Func<int, IEnumerable<PetInterval>>? byWork, Func<Passage, bool> touches)
    {
        private readonly ImmutableArray<PetInterval>[] times = byWork is null ? [] : new ImmutableArray<PetInterval>[works];

        public string Name { get; } = name;

        public Func<Passage, bool> Touches { get; } = touches;

        /// <summary>When it does, whatever is done.</summary>
        public ImmutableArray<PetInterval> Always { get; } = Intervals.Join(always);

        /// <summary>Whether what is done closes or opens it too.</summary>
        public bool Varies => byWork is not null;

        /// <summary>When it does by the work done until then, reckoned when it is asked for.</summary>
        public ImmutableArray<PetInterval> ByWork(int work) => byWork is null ? [] : times[work].IsDefault ? times[work] = Intervals.Join(byWork(work)) : times[work];
    }

    /// <summary>What closes a passage: at which times whatever is done, and, kept when it was asked for, at which others by the work done until then. That is kept
    /// apart since a long walk has many times of the one and much work for the other.</summary>
    private sealed record Closings(ImmutableArray<Hazard> Hazards, bool IsHatch, ImmutableArray<PetInterval> Always, ImmutableArray<PetInterval>[] ByWork)
    {
        public bool Varies => ByWork.Length > 0;

        /// <summary>Both together, where that was asked for.</summary>
        public ImmutableArray<PetInterval>[] All { get; } = new ImmutableArray<PetInterval>[ByWork.Length];
    }

    /// <summary>Tells this play from every other.</summary>
    public int Play { get; } = Interlocked.Increment(ref plays);

    /// <summary>How much is done and sent at a moment, as a number that says which future holds from there.</summary>
    public int WorkAt(Pet moment)
    {
        int low = 0, high = turns.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (turns[middle] <= moment) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    /// <summary>When a passage may not be taken or stayed at, in order and apart.</summary>
    public ImmutableArray<PetInterval> Of(Passage passage, int work)
    {
        Closings own = ClosingsOf(passage);
        return !own.Varies ? own.Always : own.All[work].IsDefault ? own.All[work] = Joined(own.Always, ByWork(own, passage, work)) : own.All[work];
    }

    /// <summary>The same times, those that hold whatever is done.</summary>
    public ImmutableArray<PetInterval> WhateverIsDone(Passage passage) => ClosingsOf(passage).Always;

    /// <summary>The same times, those that follow from the work done until then.</summary>
    public ImmutableArray<PetInterval> ByWork(Passage passage, int work) => ByWork(ClosingsOf(passage), passage, work);

    private ImmutableArray<PetInterval> ByWork(Closings own, Passage passage, int work)
    {
        if (!own.Varies) return [];
        if (!own.ByWork[work].IsDefault) return own.ByWork[work];
        IEnumerable<PetInterval> all = own.Hazards.SelectMany(hazard => hazard.ByWork(work));
        return own.ByWork[work] = Intervals.Join(own.IsHatch ? all.Concat(Hatch(passage.To, work)) : all);
    }

    /// <summary>Two lists of times made one; in order and apart, as they are.</summary>
    public static ImmutableArray<PetInterval> Joined(ImmutableArray<PetInterval> some, ImmutableArray<PetInterval> others) =>
        some.IsEmpty ? others : others.IsEmpty ? some : Intervals.Join(some.Concat(others));

    /// <summary>Whether a passage may not be taken or stayed at in some second of a stretch, the last not included.</summary>
    public bool Meets(Passage passage, int work, long from, long to)
    {
        Closings own = ClosingsOf(passage);
        return Meets(own.Always, from, to) || (own.Varies && Meets(ByWork(own, passage, work), from, to));
    }

    /// <summary>What closes a passage at some time in a stretch, by name.</summary>
    public IEnumerable<string> Names(Passage passage, int work, long from, long to)
    {
        Closings own = ClosingsOf(passage);
        foreach (Hazard hazard in own.Hazards)
            if (Meets(hazard.Always, from, to) || Meets(hazard.ByWork(work), from, to)) yield return hazard.Name;
        if (own.IsHatch && Meets([.. Hatch(passage.To, work)], from, to)) yield return $"the {passage.To}";
    }

    /// <summary>Whether a stretch of seconds, the last not included, shares one with any of some times; these in order and apart.</summary>
    public static bool Meets(ImmutableArray<PetInterval> times, long from, long to)
    {
        int low = 0, high = times.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (times[middle].To.Seconds <= from) low = middle + 1;
            else high = middle;
        }
        return from < to && low < times.Length && times[low].From.Seconds < to;
    }

    private Closings ClosingsOf(Passage passage)
    {
        return known.TryGetValue(passage, out Closings? found) ? found : known[passage] = Sought(passage);
    }

    private Closings Sought(Passage passage)
    {
        ImmutableArray<Hazard> touching = hazards.IsEmpty || passage == Passage.Inside ? [] : [.. hazards.Where(hazard => hazard.Touches(passage))];
        bool isHatch = hatches.ContainsKey(passage.To);
        return new(touching, isHatch, Intervals.Join(touching.SelectMany(hazard => hazard.Always)), isHatch || touching.Any(hazard => hazard.Varies) ? new ImmutableArray<PetInterval>[turns.Length + 1] : []);
    }

    private IEnumerable<Hazard> Hazards()
    {
        Scenario scenario = world.Scenario;
        // What is never closed is left out: whether it touches a passage takes longer to find out.
        foreach (Zone zone in scenario.Station.Zones)
        {
            Func<int, IEnumerable<PetInterval>>[] closing =
                [.. zone.While.Where(condition => EverCloses(condition.Feature, condition.States.Contains)).Select(condition => While(condition.Feature, condition.States.Contains))];
            if (closing.Length > 0) yield return new(zone.Id.Value, ByTheClock(zone), turns.Length + 1, work => closing.SelectMany(times => times(work)), AtAny(zone.Grips));
            else if (ByTheClock(zone).Any()) yield return new(zone.Id.Value, ByTheClock(zone), turns.Length + 1, null, AtAny(zone.Grips));
        }
        foreach (Joint joint in scenario.Station.Joints)
        {
            bool IsLoose(string state) => !joint.Locked.Contains(state);
            if (EverCloses(joint.Feature, IsLoose)) yield return ByFeature(joint.Id.Value, joint.Feature, IsLoose, AtAny(joint.Moves));
        }
        foreach ((ImmutableArray<Emitter> emitters, string rule) in new[] { (scenario.Station.Jets, "jets.armed"), (scenario.Station.Beams, "beam.live") })
            if (HazardZones.Clearance(scenario, rule) is { } keep)
                foreach (Emitter emitter in emitters)
                {
                    bool IsLive(string state) => !emitter.Safe.Contains(state);
                    if (EverCloses(emitter.Feature, IsLive)) yield return ByFeature(emitter.Id.Value, emitter.Feature, IsLive, passage => IsNear(passage, emitter, keep));
                }
        foreach ((Surface surface, ImmutableArray<PetInterval> times) in Physics.Touch.Closed(scenario))
        {
            // As the rule has it: who walks touches the surface of the place left until the next one is reached.
            HashSet<string> places = [.. surface.Grips.Select(Places.At), .. scenario.Station.Sites.Where(site => surface.Sites.Contains(site.Id)).Select(Places.At)];
            yield return new(surface.Name, times, turns.Length + 1, null, passage => places.Contains(passage.From) && (passage.From == passage.To || world.Lookup.GripPlaces.Contains(passage.From) || world.Lookup.GripPlaces.Contains(passage.To)));
        }
    }

    /// <summary>When a zone is closed by the clock or by the light, whatever is done.</summary>
    private IEnumerable<PetInterval> ByTheClock(Zone zone) => zone.Times.Concat(zone.Light switch
    {
        null => [],
        LightCondition.Night => world.Scenario.Sky.Night,
        _ => Daylight.Between(world.Scenario.Sky.FullNight),
    });

    /// <summary>Whether a feature is ever in a state that closes, at the start or by anything done, sent or left by an abort.</summary>
    private bool EverCloses(FeatureId feature, Func<string, bool> closes)
    {
        if (!world.Register.Features.TryGetValue(feature, out int variable)) return false;
        ImmutableArray<string> states = world.Register.Variables[variable].States;
        return closes(states[start[variable]]) || worked[variable].Any(change => closes(states[change.Value])) || commanded[feature].Any(one => closes(one.State))
            || left[feature].Any(one => closes(one.State));
    }

    private Hazard ByFeature(string name, FeatureId feature, Func<string, bool> closes, Func<Passage, bool> touches) =>
        new(name, [], turns.Length + 1, While(feature, closes), touches);

    private Func<Passage, bool> AtAny(ImmutableArray<GripId> ids)
    {
        HashSet<string> places = [.. ids.Select(Places.At)];
        return passage => places.Contains(passage.From) || places.Contains(passage.To) || RideOf(passage).Any(grip => places.Contains(Places.At(grip)));
    }

    private ImmutableArray<GripId> RideOf(Passage passage)
    {
        foreach (Arm arm in world.Scenario.Arms)
            foreach (RideTime ride in arm.Rides)
                if (ride.Through is { } through && (passage == new Passage(Places.At(arm.Id, ride.A), Places.At(arm.Id, ride.B)) || passage == new Passage(Places.At(arm.Id, ride.B), Places.At(arm.Id, ride.A))))
                    return through;
        return [];
    }

    private bool IsNear(Passage passage, Emitter emitter, double keep)
    {
        if (!world.Lookup.Points.TryGetValue(passage.From, out Point from)) return false;
        Point to = world.Lookup.Points.GetValueOrDefault(passage.To, from);
        Stretch way = new(from, to);
        return !Closeness.IsBeyond(keep, way, emitter) && Closeness.Between(way, emitter) < keep;
    }

    /// <summary>One time at which a feature is brought into a state.</summary>
    /// <param name="At">When it is in it.</param>
    /// <param name="Sure">Who turns back later than this meets it; at any time, for a command that opens.</param>
    /// <param name="Closes">Whether the state closes.</param>
    private readonly record struct Made(Pet At, Pet Sure, bool Closes);

    /// <summary>When a feature is in a state that closes, by the work done: by what was done and sent until the next turn, and after it by what opens.</summary>
    private Func<int, IEnumerable<PetInterval>> While(FeatureId feature, Func<string, bool> closes)
    {
        if (!world.Register.Features.TryGetValue(feature, out int variable)) return static _ => [];
        ImmutableArray<string> states = world.Register.Variables[variable].States;
        bool atStart = closes(states[start[variable]]);
        Made[] made =
        [
            .. worked[variable].Select(change => new Made(change.At, change.At, closes(states[change.Value])))
                .Concat(commanded[feature].Select(one => closes(one.State) ? new Made(one.At, one.Sent, true) : new Made(one.At, Always, false))).OrderBy(one => one.At),
        ];
        (PetInterval While, Duration Abort)[] loose = [.. left[feature].Where(one => closes(one.State)).Select(one => (one.While, one.Abort))];
        return Times;

        IEnumerable<PetInterval> Times(int work)
        {
            Pet until = work < turns.Length ? turns[work] : Ever;
            Pet from = Always;
            bool closed = atStart;
            foreach ((Pet at, Pet sure, bool shuts) in made)
            {
                if (sure >= until) continue;
                if (closed) yield return new(from, at);
                (from, closed) = (at, shuts);
            }
            if (closed) yield return new(from, Ever);
            // Whoever turns back at any moment until the next turn leaves it so, and only what opens it after the last of these is sure to come later.
            if (work == 0) yield break;
            Pet since = turns[work - 1];
            foreach ((PetInterval during, Duration abort) in loose)
                if (during.From <= since && since < during.To)
                    yield return new(since, commanded[feature].Where(one => !closes(one.State) && one.At >= until.Plus(abort)).Select(one => one.At).Append(Ever).Min());
        }
    }

    /// <summary>When a hatch is closed: after what was done until then, nobody opens or closes it any more.</summary>
    private IEnumerable<PetInterval> Hatch(string hatch, int work)
    {
        Pet? from = Always;
        foreach ((Pet at, bool opens) in hatches[hatch])
        {
            if (work < turns.Length && at >= turns[work]) break;
            if (opens && from is { } since) yield return new(since, at);
            from = opens ? null : at;
        }
        if (from is { } last) yield return new(last, Ever);
    }

    /// <summary>When a hatch is opened, as the first one begins to go out, and when somebody begins to close it.</summary>
    private static ImmutableArray<(Pet At, bool Opens)> HatchOf(AirlockId airlock, IReadOnlyCollection<Activity> activities)
    {
        ImmutableArray<(Pet At, bool Opens)>.Builder turns = ImmutableArray.CreateBuilder<(Pet At, bool Opens)>();
        foreach (AirlockPhase phase in activities.OfType<AirlockPhase>().Where(phase => phase.Airlock == airlock && phase.Phase is AirlockPhaseKind.Out or AirlockPhaseKind.Close)
            .OrderBy(phase => phase.Start).ThenBy(phase => phase.Phase == AirlockPhaseKind.Out))
            if ((phase.Phase == AirlockPhaseKind.Out) is var opens && opens != (turns.Count > 0 && turns[^1].Opens)) turns.Add((phase.Start, opens));
        return turns.ToImmutable();
    }
}
