using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Proof;

namespace Sallyport.Tests.Damage;

/// <summary>Joints, jets, beams, and what an arm passes.</summary>
internal static class MotionDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("joint not locked", "A joint is not locked in the world as played.", "structure.moving",
            "Somebody comes within its reach.",
            plan => plan.Scenario.Station.Joints.Where(joint => Touches(plan, joint.Moves)).SelectMany(joint => Otherwise(plan, joint.Feature, joint.Locked))),
        new("line on a joint", "A joint on which a line lies is not locked in the world as played.", "tether.swept",
            "The joint turns with the line on it.",
            plan => plan.Scenario.Station.Joints.Where(joint => plan.Trace.Lines.Any(line => line.At < plan.Trace.To && line.Grips.Any(joint.Moves.Contains)))
                .SelectMany(joint => Otherwise(plan, joint.Feature, joint.Locked))),
        new("jets armed", "Jets are armed in the world as played.", "jets.armed",
            "Somebody is nearer than the limit, or in the cone.",
            plan => plan.Scenario.Station.Jets.Where(jets => ComesNear(plan, jets, "jets.armed")).SelectMany(jets => Otherwise(plan, jets.Feature, jets.Safe))),
        new("antenna on", "An antenna sends in the world as played.", "beam.live",
            "Somebody comes nearer than the limit, and nothing turns it off.",
            plan => plan.Scenario.Station.Beams.Where(beam => ComesNear(plan, beam, "beam.live") && !plan.All<SendCommand>().Any(send => Makes(plan, send, beam)))
                .SelectMany(beam => Otherwise(plan, beam.Feature, beam.Safe))),
        new("antenna left on", "The command that turns an antenna off before somebody comes near is left out.", "beam.live",
            "It still sends.",
            plan => plan.Scenario.Station.Beams.Where(beam => ComesNear(plan, beam, "beam.live"))
                .SelectMany(beam => plan.All<SendCommand>().Where(send => Makes(plan, send, beam)).Take(1).Select(send => plan.Skip(send)))),
        new("ride through a closed zone", "What an arm carries its rider through is closed in the world as played.", "zone.entered",
            "The rider is carried through it.",
            plan => Rides(plan, ridden: true).Select(move => plan.InWorld(scenario => Through(scenario, move, scenario.Station.Grips[0].Id) with
            {
                Station = scenario.Station with { Zones = [.. scenario.Station.Zones, new(new("closed-on-the-way"), "it is closed", [scenario.Station.Grips[0].Id], [new(move.Start, move.End)], null, [])] },
            }))),
        new("brakes not set", "An arm's brakes are left off at the end of a move, and then somebody gets on, gets off or works.", "arm.brakes",
            "The arm gives way.",
            plan => Rides(plan, ridden: false).Where(move => plan.Scenario.Arms.All(arm => arm.Brakes is not null) && UsedNext(plan, move)).Select(move => plan.Instead(move, move with { BrakesSet = false }))),
        new("voice lost", "Nobody is heard in the last metres of a guided ride in the world as played.", "arm.voice",
            "The rider guides the arm by voice just then.",
            plan => Rides(plan, ridden: true).Where(move => RideOf(plan, move) is { Guided.Seconds: > 0 }).Select(move => plan.InWorld(scenario => scenario with
            {
                Sky = scenario.Sky with { NoVoice = [new(Pet.FromSeconds(move.End.Seconds - SetSeconds(plan, move) - 1), move.End)] },
            }))),
        new("person in the arm's way", "An arm passes where somebody else stands, in the world as played.", "arm.swept",
            "The person is struck.",
            plan => Has(plan, "arm.swept") ? Rides(plan, ridden: false).SelectMany(move => plan.Outside.Where(person => person != move.Rider && IsGrip(plan, plan.PlaceOf(person, move.Start))).Take(1)
                .Select(person => plan.InWorld(scenario => Through(scenario, move, new(plan.PlaceOf(person, move.Start)))))) : []),
        new("line in the arm's way", "An arm passes where somebody's line lies, in the world as played.", "tether.swept",
            "The arm catches the line.",
            plan => Has(plan, "tether.swept") ? Rides(plan, ridden: false).SelectMany(move => LinesAt(plan, move.Start).Take(1)
                .Select(line => plan.InWorld(scenario => Through(scenario, move, line.Grips[0])))) : []),
        new("released first", "In a change over, the hook that holds is released before the further one is on.", "tether.swap",
            "Nothing holds the person between.",
            plan => Has(plan, "tether.swap") ? plan.All<SwapReel>().Where(swap => swap.Hooks is not null)
                .Select(swap => plan.Instead(swap, swap with { Hooks = new(swap.Hooks!.Off, swap.Hooks.On) })) : []),
        new("lines across", "A person crosses somebody else's line and stays there while the rest waits, then comes back.", "tether.crossed",
            "Two lines lie across each other at a grip, coming and leaving by four spans.",
            Crosses) { IsCaution = true },
    ];

    private static bool Has(CleanPlan plan, string rule) => RuleBook.Find(rule)!.Missing(plan.Scenario) is null && plan.Scenario.LimitOf(rule) is not null;

    private static IEnumerable<Damaged> Otherwise(CleanPlan plan, FeatureId feature, ImmutableArray<string> safe) => plan.Scenario.Station.Features.Where(one => one.Id == feature)
        .SelectMany(one => one.States.Where(state => !safe.Contains(state)).Take(1))
        .Select(state => plan.WithStation(station => station with { Features = CleanPlan.Each(station.Features, one => one.Id == feature, one => one with { Start = state }) }));

    private static IEnumerable<Whereabouts> Everywhere(CleanPlan plan)
    {
        Case given = new(plan.Scenario, plan.Timeline, plan.Trace);
        return plan.Outside.SelectMany(person => given.WhereaboutsOf(person));
    }

    private static bool Touches(CleanPlan plan, ImmutableArray<GripId> grips) => Everywhere(plan).Any(where => where.Grips.Any(grips.Contains));

    private static bool ComesNear(CleanPlan plan, Emitter emitter, string rule) =>
        HazardZones.Clearance(plan.Scenario, rule) is { } keep && Everywhere(plan).Any(where => Closeness.Between(where.Line, emitter) < keep);

    private static bool Makes(CleanPlan plan, SendCommand send, Emitter beam) => plan.Scenario.Consoles.SelectMany(console => console.Commands).Single(command => command.Id == send.Command)
        .Makes.Any(state => state.Feature == beam.Feature && beam.Safe.Contains(state.State));

    private static IEnumerable<ArmMove> Rides(CleanPlan plan, bool ridden) => plan.All<ArmMove>().Where(move => !ridden || move.Rider is not null);

    private static RideTime? RideOf(CleanPlan plan, ArmMove move) => plan.Scenario.Arms.Single(arm => arm.Id == move.Arm).RideBetween(move.From, move.To);

    private static int SetSeconds(CleanPlan plan, ArmMove move) => plan.Scenario.Arms.Single(arm => arm.Id == move.Arm).Brakes?.Set.Seconds ?? 0;

    private static bool UsedNext(CleanPlan plan, ArmMove move) => plan.Timeline.Activities.Where(activity => activity.Start >= move.End).OrderBy(activity => activity.Start).FirstOrDefault(activity =>
        activity is ArmMove other ? other.Arm == move.Arm : activity is MountArm on ? on.Arm == move.Arm : activity is DismountArm off ? off.Arm == move.Arm
        : activity is DoStep step && move.Rider == step.Person) is not (null or ArmMove);

    private static bool IsGrip(CleanPlan plan, string place) => plan.Scenario.Station.Grips.Any(grip => grip.Id.Value == place);

    private static Scenario Through(Scenario scenario, ArmMove move, GripId grip) => scenario with
    {
        Arms = CleanPlan.Each(scenario.Arms, arm => arm.Id == move.Arm, arm => arm with
        {
            Rides = CleanPlan.Each(arm.Rides, ride => ride == arm.RideBetween(move.From, move.To), ride => ride with { Through = [grip] }),
        }),
    };

    private static IEnumerable<LineLaid> LinesAt(CleanPlan plan, Pet at) => plan.Trace.Lines.Where(line => line.At <= at).GroupBy(line => line.Person).Select(own => own.Last()).Where(line => !line.Grips.IsEmpty);

    private static IEnumerable<Damaged> Crosses(CleanPlan plan)
    {
        if (plan.Scenario.Tether.Protocol != TetherProtocol.Reel || plan.Judge(new(plan.Scenario, plan.Timeline)).Findings.Any(finding => finding.Rule.Value == "tether.crossed")) yield break;
        foreach (Translate walk in plan.All<Translate>())
        {
            LineLaid? own = LinesAt(plan, walk.Start).FirstOrDefault(line => line.Person == walk.Person);
            if (own is null) continue;
            // Whoever walks just then walks on while the rest waits, and takes the line along.
            foreach (LineLaid line in LinesAt(plan, walk.Start).Where(line => line.Person != walk.Person
                && !plan.Of(line.Person).Any(activity => activity is Translate && activity.Start < walk.Start && walk.Start < activity.End)))
                if (Across(plan.Scenario.Station, own.Grips, walk.Spans[0].From, line.Grips) is { } way)
                {
                    Duration time = Duration.FromMinutes(20);
                    List<GripId> there = [.. way, .. Enumerable.Reverse(way).Skip(1)];
                    Translate round = walk with
                    {
                        Id = new($"{walk.Id}-across"),
                        End = Pet.FromSeconds(walk.Start.Seconds + time.Seconds * (there.Count - 1)),
                        Spans = [.. there.Zip(there.Skip(1)).Select(pair => new SpanWalk(pair.First, pair.Second, time))],
                    };
                    yield return plan.Hold(walk.Start, round.Length.Seconds, round);
                    break;
                }
        }
    }

    /// <summary>From where a person stands across one grip of another's line, by two spans that line does not take; null where there is no such way.</summary>
    private static List<GripId>? Across(Station station, ImmutableArray<GripId> own, GripId start, ImmutableArray<GripId> line)
    {
        for (int i = 1; i + 1 < line.Length; i++)
        {
            GripId at = line[i];
            if (own.Contains(at) || line.Count(grip => grip == at) > 1) continue;
            GripId[] beside = [.. Beside(station, at).Where(grip => grip != line[i - 1] && grip != line[i + 1])];
            foreach (GripId from in beside)
                if (beside.FirstOrDefault(grip => grip != from) is { Value: not null } to && Way(station, start, from, at) is { } way && !way.Contains(to)) return [.. way, at, to];
        }
        return null;
    }

    private static List<GripId>? Way(Station station, GripId start, GripId target, GripId avoid)
    {
        Queue<List<GripId>> open = new([[start]]);
        HashSet<GripId> seen = [start, avoid];
        while (open.TryDequeue(out List<GripId>? way))
        {
            if (way[^1] == target) return way;
            foreach (GripId next in Beside(station, way[^1]))
                if (seen.Add(next)) open.Enqueue([.. way, next]);
        }
        return null;
    }

    private static IEnumerable<GripId> Beside(Station station, GripId grip) => station.Spans.Where(span => span.A == grip || span.B == grip).Select(span => span.A == grip ? span.B : span.A).Distinct();
}
