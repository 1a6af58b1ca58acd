using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>Closed places are not entered or stayed at.</summary>
internal sealed class ZoneEntered : Rule
{
    public override RuleCard Card { get; } = new(new("zone.entered"),
        "hot, cold or sharp places, each as the scenario says",
        "each person's place, both ends of the span under way, and the grips that a ride passes, against the zones closed at that moment",
        "the scenario's zones",
        Guard.Decoder("ways keep out of zones where they can, and are walked, and rides begun, only when the zones on them are open"));

    public override IEnumerable<string> Unseen(Scenario scenario) => scenario.Station.Zones.IsEmpty ? [] : Whereabouts.UntoldRides(scenario);

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Zone zone in given.Scenario.Station.Zones)
        {
            ImmutableArray<PetInterval> closed = given.History.While(given.History[$"zone {zone.Id} state"], state => state == "closed");
            if (closed.IsEmpty) continue;
            foreach (PersonId person in given.People)
            {
                ImmutableArray<PetInterval> within = Intervals.Join(given.WhereaboutsOf(person).Where(one => one.Grips.Any(zone.Grips.Contains)).Select(one => one.While));
                foreach (PetInterval both in Intervals.Common(within, closed))
                    yield return Broken(given, both.From, [person],
                        $"{person} is in {zone.Id} until {both.To}, which is closed then: {zone.Why}.",
                        $"Bring {person} there while {zone.Id} is open, or go round it.");
            }
        }
    }
}

/// <summary>Nobody is near a joint that may move.</summary>
internal sealed class StructureMoving : Rule
{
    public override RuleCard Card { get; } = new(new("structure.moving"),
        "being struck, caught or carried off by a part of the station that turns",
        "each person's place, both ends of the span under way, and the grips that a ride passes, against the grips that move with a joint "
            + "or lie within its reach, while the joint is in any state but locked",
        "the scenario's joints",
        Guard.Decoder("ways keep out of what moves with a joint that is not locked from beginning to end"));

    public override IEnumerable<string> Unseen(Scenario scenario) => scenario.Station.Joints.IsEmpty ? [] : Whereabouts.UntoldRides(scenario);

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Joint joint in given.Scenario.Station.Joints)
        {
            ImmutableArray<PetInterval> loose = given.History.While(given.History[$"feature {joint.Feature} state"], state => !joint.Locked.Contains(state));
            if (loose.IsEmpty) continue;
            foreach (PersonId person in given.People)
            {
                ImmutableArray<PetInterval> near = Intervals.Join(given.WhereaboutsOf(person).Where(one => one.Grips.Any(joint.Moves.Contains)).Select(one => one.While));
                foreach (PetInterval both in Intervals.Common(near, loose))
                    yield return Broken(given, both.From, [person],
                        $"{person} is within reach of {joint.Id} until {both.To}, while {joint.Feature} is {given.History.StateAt(given.History[$"feature {joint.Feature} state"], both.From)} and may move.",
                        $"Lock {joint.Feature} before {both.From}, and keep it locked until {both.To}.");
            }
        }
    }
}

/// <summary>Nobody is too near something that sends out gas or radio power.</summary>
internal abstract class EmitterRule : Rule
{
    public override string? Missing(Scenario scenario) => EmittersOf(scenario).IsEmpty ? null : MissingLimit(scenario, Dimension.Length);

    protected abstract ImmutableArray<Emitter> EmittersOf(Scenario scenario);

    /// <summary>What it does while it is not safe, in words.</summary>
    protected abstract string Does { get; }

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.Scenario.LimitOf(Card.Id.Value) is not { } limit) yield break;
        foreach (Emitter emitter in EmittersOf(given.Scenario))
        {
            int variable = given.History[$"feature {emitter.Feature} state"];
            ImmutableArray<PetInterval> live = given.History.While(variable, state => !emitter.Safe.Contains(state));
            if (live.IsEmpty) continue;
            foreach (PersonId person in given.People)
                foreach (Finding finding in Against(given, limit, emitter, live, person)) yield return finding;
        }
    }

    /// <summary>One finding for each stretch in which a person is too near, with the nearest approach in it; one for the nearest of those
    /// within the margin to hear of.</summary>
    private IEnumerable<Finding> Against(Case given, Limit limit, Emitter emitter, ImmutableArray<PetInterval> live, PersonId person)
    {
        double keep = limit.Value.Value, near = limit.NearMargin;
        List<(Whereabouts Where, Pet From, Pet To, double Distance)> close = [];
        foreach (Whereabouts where in given.WhereaboutsOf(person))
        {
            // The times first: how near something comes takes longer to find out.
            if (!Intervals.Meets(live, where.While) || Closeness.IsBeyond(keep + near, where.Line, emitter)) continue;
            double distance = Closeness.Between(where.Line, emitter);
            if (distance >= keep + near) continue;
            close.AddRange(Intervals.Within(live, where.While).Select(both => (where, both.From, both.To, distance)));
        }
        foreach (PetInterval stretch in Intervals.Join(close.Where(one => one.Distance < keep).Select(one => new PetInterval(one.From, one.To))))
            yield return Says(close.Where(one => stretch.From <= one.From && one.To <= stretch.To).MinBy(one => one.Distance), stretch, Severity.Broken);
        if (close.Count > 0 && close.All(one => one.Distance >= keep))
        {
            var nearest = close.MinBy(one => one.Distance);
            yield return Says(nearest, new(nearest.From, nearest.To), Severity.Near);
        }

        Finding Says((Whereabouts Where, Pet From, Pet To, double Distance) worst, PetInterval stretch, Severity severity) => Broken(given, stretch.From, [person],
            $"{person}, {worst.Where.Words}, is {worst.Distance:0.00} m from {emitter.Id} until {stretch.To}, which {Does}; {limit.Value} must be kept.",
            $"Bring {emitter.Feature} to {string.Join(" or ", emitter.Safe)} before {stretch.From}, and keep it so until {stretch.To}.") with
        {
            Severity = severity,
            Measured = $"{Math.Floor(worst.Distance * 100) / 100:0.00} m",
            Limit = limit.Value.ToString(),
            Margin = $"{Math.Floor((worst.Distance - keep) * 100) / 100:0.00} m",
            Source = SourceOf(limit),
        };
    }
}

/// <summary>Nobody is where jets may blow.</summary>
internal sealed class JetsArmed : EmitterRule
{
    public override RuleCard Card { get; } = new(new("jets.armed"),
        "hot gas on a suit, and being blown off",
        "the nearest approach of each grip, span, pose and ride to the jets and to the cone that they blow into, while they are in any state "
            + "but safe; from the point that a person holds, so that the limit takes in what a body sticks out",
        "the scenario's limit; the jets' place and cone",
        Guard.Decoder("ways keep out of the cone of jets that are not safe from beginning to end"));

    protected override string Does => "may fire";

    protected override ImmutableArray<Emitter> EmittersOf(Scenario scenario) => scenario.Station.Jets;
}

/// <summary>Nobody is near an antenna that sends.</summary>
internal sealed class BeamLive : EmitterRule
{
    public override RuleCard Card { get; } = new(new("beam.live"),
        "burns, and a suit's electronics failing in a beam",
        "the nearest approach of each grip, span, pose and ride to the antenna and to the cone that it sends into, while it is in any state "
            + "but safe; the radius given round the antenna takes in what a body sticks out from where it holds on",
        "the scenario's limit; the antenna's place, radius and cone",
        Guard.Expansion("a command that must come before a leg comes before the ride to it too; and ways keep out of beams that can be live"));

    protected override string Does => "sends";

    protected override ImmutableArray<Emitter> EmittersOf(Scenario scenario) => scenario.Station.Beams;
}
