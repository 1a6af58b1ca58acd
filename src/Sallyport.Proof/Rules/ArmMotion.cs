using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>An arm stands with its brakes on while somebody gets on, gets off or works.</summary>
internal sealed class ArmBrakesOn : FactRule
{
    public override RuleCard Card { get; } = new(new("arm.brakes"),
        "an arm that gives way under a person",
        "the brakes of the arm, from start to end of getting on, getting off and each step worked from it: off from the start of a move, "
            + "on again only where the move is told to set them, and given the time for it",
        RuleCard.NoFigure,
        Guard.Expansion("every move is given the time to release and to set the brakes, and sets them"));

    public override string? Missing(Scenario scenario) =>
        scenario.Arms.FirstOrDefault(arm => arm.Brakes is null) is { } arm ? $"the scenario does not say how long the brakes of {arm.Id} take" : null;
}

/// <summary>Nobody else is in the way of an arm that moves.</summary>
internal sealed class ArmSwept : Rule
{
    public override RuleCard Card { get; } = new(new("arm.swept"),
        "a person struck by a moving arm or its rider",
        "while an arm moves, everybody but its rider: the distance of that person's grip, span, pose or ride from the straight line between the "
            + "two poses, and whether it touches a grip that the ride is told to pass",
        "the scenario's limit; the grips of each ride",
        Guard.Decoder("a plan in which somebody else is near what a ride sweeps counts as broken by the time that lasts"));

    public override string? Missing(Scenario scenario) => scenario.Arms.IsEmpty ? null : MissingLimit(scenario, Dimension.Length);

    public override IEnumerable<string> Unseen(Scenario scenario) => Whereabouts.UntoldRides(scenario);

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.Scenario.LimitOf(Card.Id.Value) is not { } limit) yield break;
        double keep = limit.Value.Value;
        Dictionary<PersonId, Overlaps<Whereabouts>> inTime = given.People.ToDictionary(person => person, person => new Overlaps<Whereabouts>(given.WhereaboutsOf(person), where => where.While));
        foreach (ArmMove move in given.Timeline.Activities.OfType<ArmMove>())
        {
            Whereabouts swept = Whereabouts.RideOf(given.Scenario, move);
            foreach (PersonId person in given.People.Where(person => person != move.Rider))
            {
                List<(Whereabouts Where, PetInterval Both, double Distance)> near = [];
                foreach (Whereabouts where in inTime[person].Between(move.Start, move.End))
                {
                    double distance = where.Grips.Any(swept.Grips.Contains) ? 0 : Closeness.Between(where.Line, swept.Line);
                    if (distance < keep) near.AddRange(Intervals.Common([where.While], [swept.While]).Select(both => (where, both, distance)));
                }
                foreach (PetInterval stretch in Intervals.Join(near.Select(one => one.Both)))
                {
                    (Whereabouts where, _, double distance) = near.Where(one => stretch.From <= one.Both.From && one.Both.To <= stretch.To).MinBy(one => one.Distance);
                    yield return Broken(given, stretch.From, [person],
                        $"{person}, {where.Words}, is {distance:0.00} m from where {move.Arm} moves from {move.From} to {move.To} until {stretch.To}; {limit.Value} must be kept.",
                        $"Keep {person} away from there until {move.End}, or let {move.Arm} move at another time.", move.Id) with
                    {
                        Measured = $"{Math.Floor(distance * 100) / 100:0.00} m",
                        Limit = limit.Value.ToString(),
                        Margin = $"{Math.Floor((distance - keep) * 100) / 100:0.00} m",
                        Source = SourceOf(limit),
                    };
                }
            }
        }
    }
}

/// <summary>A rider who guides the arm is heard.</summary>
internal sealed class ArmVoice : Rule
{
    public override RuleCard Card { get; } = new(new("arm.voice"),
        "an arm that moves on while its rider calls \"stop\"",
        "the voices of those outside, inside and at the arm, throughout the part of each ride with a rider that is guided by voice: the last part, "
            + "before the brakes are set; the link to the ground is another thing",
        RuleCard.NoFigure,
        Guard.Decoder("a ride is begun only when its guided part meets no time without voice; voice lost by a state is left to the proof"));

    public override IEnumerable<Finding> Find(Case given)
    {
        ImmutableArray<PetInterval> mute = given.History.While(given.History["sky voice"], state => state == "none");
        if (mute.IsEmpty) yield break;
        foreach (ArmMove move in given.Timeline.Activities.OfType<ArmMove>())
        {
            Arm arm = given.Scenario.Arms.First(one => one.Id == move.Arm);
            if (move.Rider is not { } rider || arm.RideBetween(move.From, move.To) is not { Guided.Seconds: > 0 } ride) continue;
            // A ride that takes longer than it must may be guided for longer: the whole of the time beyond the unguided part counts.
            int before = arm.TimeOf(ride, brakesSet: false).Seconds - ride.Guided.Seconds, after = move.BrakesSet && arm.Brakes is { } brakes ? brakes.Set.Seconds : 0;
            PetInterval guided = new(move.Start.Plus(Duration.FromSeconds(Math.Min(before, Math.Max(0, move.Length.Seconds - 1)))), Pet.FromSeconds(move.End.Seconds - after));
            foreach (PetInterval lost in Intervals.Common([guided], mute))
                yield return Broken(given, lost.From, [rider],
                    $"{rider} guides {move.Arm} to {move.To} by voice from {guided.From} to {guided.To}, and nobody hears it from {lost.From} to {lost.To}.",
                    $"Let the ride begin so that {guided.To.Since(guided.From)} with voice are left for its last part.", move.Id) with
                {
                    Measured = $"{lost.To.Since(lost.From)} without voice",
                    Limit = "0 s",
                    Margin = Duration.FromSeconds(-lost.To.Since(lost.From).Seconds).ToString(),
                };
        }
    }
}
