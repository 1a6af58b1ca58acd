using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Nobody is outside alone.</summary>
internal sealed class PersonAlone : Rule
{
    public override RuleCard Card { get; } = new(new("person.alone"),
        "nobody there to help",
        "how many are outside; one alone only at the hatch, while the sequence of the airlock goes on",
        RuleCard.NoFigure,
        Guard.Expansion("all go out before anybody begins, and nobody comes in before all are back"));

    public override IEnumerable<Finding> Find(Case given)
    {
        Dictionary<PersonId, ImmutableArray<PetInterval>> outside = given.People.ToDictionary(person => person, given.Outside);
        ImmutableArray<PetInterval> sequence = Intervals.Join(given.Timeline.Activities.OfType<AirlockPhase>()
            .Where(phase => phase.Phase is not (AirlockPhaseKind.WaitInside or AirlockPhaseKind.SafeInside or AirlockPhaseKind.Close))
            .Select(phase => new PetInterval(phase.Start, phase.End)));
        HashSet<string> hatches = [.. given.Scenario.Station.Airlocks.Select(airlock => Places.At(airlock.Grip))];
        foreach (PersonId person in given.People)
        {
            ImmutableArray<PetInterval> others = Intervals.Join(given.People.Where(other => other != person).SelectMany(other => outside[other]));
            ImmutableArray<PetInterval> atHatch = given.History.While(given.History[$"person {person} place"], hatches.Contains);
            // A walk away from the hatch begins while the place still says hatch.
            ImmutableArray<PetInterval> walking = Intervals.Join(given.Timeline.Activities.OfType<Translate>()
                .Where(walk => walk.Person == person).Select(walk => new PetInterval(walk.Start, walk.End)));
            ImmutableArray<PetInterval> allowed = [.. Intervals.Without([.. Intervals.Common(atHatch, sequence)], walking)];
            foreach (PetInterval alone in Intervals.Without([.. Intervals.Without(outside[person], others)], allowed))
                yield return Broken(given, alone.From, [person], $"{person} is outside alone until {alone.To}, {alone.To.Since(alone.From)}.",
                    $"Keep somebody out with {person}, or bring {person} in.");
        }
    }
}

/// <summary>Everybody can do what is planned for them.</summary>
internal sealed class PersonUntrained : FactRule
{
    public override RuleCard Card { get; } = new(new("person.untrained"),
        "a step done by somebody who has not learnt it",
        "who does each leg, against the people and the trainings that it names",
        "the legs and the people, as the scenario states them",
        Guard.Decoder("a leg is given only to those who may do it"));
}

/// <summary>What comes first comes first.</summary>
internal sealed class JobOrder : FactRule
{
    public override RuleCard Card { get; } = new(new("job.order"),
        "a step done before what it rests on, a leg cut in two, and a job left half done",
        "what each leg waits for and for how long; its steps in order, by one person, without a gap; legs that start together; all legs of a job or none",
        "the jobs, as the scenario states them",
        Guard.Decoder("legs are done in an order that keeps what they wait for, whole jobs only; a gap too long counts against a plan"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        if (given.EndsEarly) yield break;
        foreach (Job job in given.Scenario.Jobs)
        {
            List<string> left = [.. job.Legs.Where(leg => Progress(given, leg) != "done").Select(leg => $"{leg.Id} {Progress(given, leg)}")];
            if (left.Count == 0 || job.Legs.All(leg => Progress(given, leg) == "not begun")) continue;
            yield return Broken(given, given.Trace.To, [], $"Job {job.Id} is left half done: {string.Join(", ", left)}.", $"Do all legs of {job.Id}, or none.");
        }
    }

    private static string Progress(Case given, Leg leg) => given.History.LastState(given.History[$"leg {leg.Id} progress"]);
}

/// <summary>What was pinned by hand is kept.</summary>
internal sealed class PinMissed : Rule
{
    public override RuleCard Card { get; } = new(new("pin.missed"),
        "a wish of the planner that is silently not met",
        "each pin that expansion could not keep, as the timeline tells",
        "the pins in the outline",
        Guard.Decoder("a pin missed counts against a plan"));

    public override IEnumerable<Finding> Find(Case given) => given.Timeline.Notes.Select(missed =>
        Broken(given, missed.Got, [], $"{missed.Leg} starts at {missed.Got}, although it is pinned: {missed.Pin}.",
            $"Move the pin of {missed.Leg}, or clear the way for it.",
            given.Timeline.Activities.OfType<DoStep>().FirstOrDefault(step => step.Leg == missed.Leg)?.Id) with
        {
            Measured = $"PET {missed.Got}",
            Limit = $"PET {missed.Wanted}",
            Margin = Duration.FromSeconds(-Math.Abs(missed.Got.Since(missed.Wanted).Seconds)).ToString(),
        });
}
