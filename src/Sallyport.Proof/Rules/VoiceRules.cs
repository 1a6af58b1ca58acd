using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Whoever leads from inside leads one at a time.</summary>
internal sealed class VoiceCrowded : Rule
{
    public override RuleCard Card { get; } = new(new("voice.crowded"),
        "a line read to one person and heard by another, and a call for help that nobody inside has an ear for",
        "the led steps that go on at each moment; led steps of legs that start together in one second are one conversation",
        "the scenario's limit",
        Guard.Decoder("a led leg waits until whoever is inside has nobody else to lead; the outline keeps the order, and expansion keeps to it"));

    // Where nobody is led there is nothing to hold against a limit, and none is asked for.
    public override string? Missing(Scenario scenario) =>
        scenario.Legs.Any(leg => leg.Steps.Any(step => step.Led)) ? MissingLimit(scenario, Dimension.Count) : null;

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.Scenario.LimitOf(Card.Id.Value) is not { } limit) yield break;
        int most = (int)Math.Floor(limit.Value.Value);
        Queue<(DoStep Step, string Talk)> led = new(Led(given));
        List<(DoStep Step, string Talk)> now = [];
        bool over = false;
        foreach (Pet moment in led.SelectMany(one => new[] { one.Step.Start, one.Step.End }).Distinct().Order())
        {
            now.RemoveAll(one => one.Step.End <= moment);
            while (led.TryPeek(out (DoStep Step, string Talk) next) && next.Step.Start <= moment) now.Add(led.Dequeue());
            int talks = now.Select(one => one.Talk).Distinct().Count();
            if (talks > most && !over)
                yield return Broken(given, moment, [.. now.Select(one => one.Step.Person).Distinct()],
                    $"{string.Join(" and ", now.Select(one => $"{one.Step.Person} in {one.Step.Leg}"))} are led from inside at once; the limit is {most}.",
                    $"Let one of them wait until the other is no longer led, or do {now[^1].Step.Leg} after {now[0].Step.Leg}.", now[^1].Step.Id) with
                {
                    Measured = $"{talks}",
                    Limit = $"{most}",
                    Margin = $"{most - talks}",
                    Source = SourceOf(limit),
                };
            over = talks > most;
        }
    }

    /// <summary>The led steps in order of start, each with the conversation that it belongs to.</summary>
    private static IEnumerable<(DoStep Step, string Talk)> Led(Case given)
    {
        Dictionary<LegId, Leg> legs = given.Scenario.Legs.ToDictionary(leg => leg.Id);
        Dictionary<LegId, Pet> starts = given.Timeline.Activities.OfType<DoStep>().GroupBy(step => step.Leg).ToDictionary(own => own.Key, own => own.Min(step => step.Start));
        foreach (DoStep step in given.Timeline.Activities.OfType<DoStep>().OrderBy(step => step.Start).ThenBy(step => step.Id.Value, StringComparer.Ordinal))
        {
            Leg leg = legs[step.Leg];
            if (!leg.Steps.First(one => one.Id == step.Step).Led) continue;
            yield return (step, leg.Together.Length > 0 ? $"{leg.Job} {leg.Together} {starts[leg.Id]}" : $"{leg.Id}");
        }
    }
}
