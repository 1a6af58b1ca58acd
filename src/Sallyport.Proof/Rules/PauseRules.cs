using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Something that each person outside must do again before a time is up.</summary>
internal abstract class PauseRule : Rule
{
    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Time);

    /// <summary>When a person does it, in order: it must have begun, or ended, by <c>Due</c>; the time begins anew at <c>Again</c>.</summary>
    protected abstract IEnumerable<(Pet Due, Pet Again)> Done(Case given, PersonId person, Limit limit);

    /// <summary>What is found, as a sentence says it.</summary>
    protected abstract string Says(PersonId person, Pet since, Pet until);

    protected abstract string Mend(PersonId person, Pet latest);

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.Scenario.LimitOf(Card.Id.Value) is not { } limit) yield break;
        int most = (int)Math.Floor(limit.Value.Value);
        double near = limit.NearMargin;
        foreach (PersonId person in given.People)
        {
            ImmutableArray<(Pet Due, Pet Again)> done = [.. Done(given, person, limit)];
            Finding? closest = null;
            int least = int.MaxValue;
            foreach (PetInterval outside in given.Outside(person))
            {
                Pet since = outside.From;
                // Once everybody goes in, nobody stops for it any more.
                Pet last = given.Called is { } called && called < outside.To ? called : outside.To;
                foreach ((Pet due, Pet again) in done.Where(one => one.Due > outside.From && one.Due < last).Append((last, last)))
                {
                    Pet until = due;
                    int margin = most - until.Since(since).Seconds;
                    Finding finding = Broken(given, since.Plus(Duration.FromSeconds(most)), [person], $"{Says(person, since, until)}; the limit is {Duration.FromSeconds(most)}.",
                        Mend(person, since.Plus(Duration.FromSeconds(most)))) with
                    {
                        Measured = until.Since(since).ToString(),
                        Limit = Duration.FromSeconds(most).ToString(),
                        Margin = Duration.FromSeconds(margin).ToString(),
                        Source = SourceOf(limit),
                    };
                    if (margin < 0) yield return finding;
                    else if (margin < near && margin < least) (least, closest) = (margin, finding with { Severity = Severity.Near, At = until, Sentence = $"PET {until}: {Says(person, since, until)}; the limit is {Duration.FromSeconds(most)}." });
                    since = again;
                }
            }
            if (closest is not null) yield return closest;
        }
    }
}

/// <summary>Gloves and helmets are looked over often enough, and after rough work.</summary>
internal sealed class GloveChecks : PauseRule
{
    public override RuleCard Card { get; } = new(new("glove.check"),
        "a cut in a glove, or water in a helmet, that nobody has seen",
        "the time from leaving the hatch, or from the end of a check, to the end of the next check or to being in; a check is one by itself or a step that is one. "
            + "Where the sortie wants it: after the rough steps of a leg a check before the next leg begins. Once everybody goes in early, nobody stops for it any more",
        "the scenario's limit; for rough work what 'checks' says",
        Guard.Decoder("a check is put in where one would come due, before something is fetched or before a leg, and after rough work; it costs no time where one waits anyway"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        if (given.Scenario.Checks?.Gloves is not { AfterRough: true } wanted) yield break;
        Dictionary<LegId, Leg> legs = given.Scenario.Legs.ToDictionary(leg => leg.Id);
        Dictionary<PersonId, DoStep> rough = [];
        foreach (PersonActivity done in given.Timeline.Activities.OfType<PersonActivity>().OrderBy(one => one.Start).ThenBy(one => one.Id.Value, StringComparer.Ordinal))
        {
            Step? step = done is DoStep act ? legs[act.Leg].Steps.First(one => one.Id == act.Step) : null;
            if (done is CheckGloves || step is { ChecksGloves: true }) rough.Remove(done.Person);
            else if (done is DoStep next)
            {
                if (rough.TryGetValue(done.Person, out DoStep? before) && before.Leg != next.Leg)
                {
                    yield return Broken(given, next.Start, [done.Person],
                        $"{done.Person} begins {next.Leg} with gloves not looked over since the rough step {before.Step} of {before.Leg}, which ended at {before.End}.",
                        $"Let {done.Person} look over gloves and helmet before {next.Leg}.", next.Id) with
                    { Source = wanted.Source };
                    rough.Remove(done.Person);
                }
                if (step is { Rough: true }) rough[done.Person] = next;
            }
        }
    }

    protected override IEnumerable<(Pet Due, Pet Again)> Done(Case given, PersonId person, Limit limit)
    {
        Dictionary<LegId, Leg> legs = given.Scenario.Legs.ToDictionary(leg => leg.Id);
        return given.Timeline.Activities.OfType<PersonActivity>().Where(one => one.Person == person && (one is CheckGloves
                || (one is DoStep act && legs[act.Leg].Steps.Any(step => step.Id == act.Step && step.ChecksGloves))))
            .Select(one => one.End).Order().Select(end => (end, end));
    }

    protected override string Says(PersonId person, Pet since, Pet until) => $"{person}'s gloves and helmet are not looked over from {since} to {until}, {until.Since(since)}";

    protected override string Mend(PersonId person, Pet latest) => $"Let {person} look over gloves and helmet so that it is done by {latest}.";
}

/// <summary>Nobody works on and on without a rest.</summary>
internal sealed class WorkRest : PauseRule
{
    public override RuleCard Card { get; } = new(new("work.rest"),
        "tired hands and slow thinking",
        "the time from leaving the hatch, or from the end of a rest, to the beginning of the next rest or to being in; a wait as long as a rest is one, and rests and waits that follow each other are one. "
            + "Once everybody goes in early, nobody stops for it any more",
        "the scenario's limit; how long a rest is, 'checks' says",
        Guard.Decoder("a rest is put in where one would come due, before something is fetched or before a leg; a wait that is long enough counts"));

    public override string? Missing(Scenario scenario) => base.Missing(scenario) ?? (scenario.Checks?.Rest is null ? "the scenario does not say how long a rest is" : null);

    protected override IEnumerable<(Pet Due, Pet Again)> Done(Case given, PersonId person, Limit limit)
    {
        int least = given.Scenario.Checks!.Rest!.Least.Seconds;
        return Intervals.Join(given.Timeline.Activities.Where(one => one is Await or Rest && one.Has(person)).Select(one => new PetInterval(one.Start, one.End)))
            .Where(rest => rest.To.Since(rest.From).Seconds >= least).Select(rest => (rest.From, rest.To));
    }

    protected override string Says(PersonId person, Pet since, Pet until) => $"{person} works from {since} to {until}, {until.Since(since)}, without a rest";

    protected override string Mend(PersonId person, Pet latest) => $"Let {person} rest, beginning by {latest}.";
}
