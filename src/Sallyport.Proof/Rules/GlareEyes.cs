using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Nobody does with the Sun in the eyes what asks for seeing well.</summary>
internal sealed class GlareEyes : Rule
{
    public override RuleCard Card { get; } = new(new("glare.eyes"),
        "a mark misread or a hand put wrong by somebody whom the Sun blinds",
        "each step that must not be done with the Sun in the eyes: how long the Sun stands nearer to where somebody at that worksite looks than the attitude says, the Earth and the bodies of the station not being "
            + "between; to half a minute and as rough as the bodies are, so the half minute before and after counts as well. A caution, since a visor, a turned head or a minute's wait may mend it",
        "the scenario's limit: the most that is borne in one step; the angle at which it begins, with the attitude",
        Guard.Proof("the Sun moves on within minutes; to wait for that is for whoever leads the work"));

    /// <summary>How far off a change of the Sun at a worksite may be told, s.</summary>
    private const int Told = 30;

    public override string? Missing(Scenario scenario) => Asking(scenario).Any() ? MissingLimit(scenario, Dimension.Time) : null;

    public override IEnumerable<string> Unseen(Scenario scenario) => Asking(scenario).Select(leg => leg.Site).Distinct()
        .Where(site => !scenario.Sky.Sites.Any(told => told.Site == site) || scenario.Station.Sites.First(one => one.Id == site).Looks is null)
        .Select(site => $"how the Sun stands to whoever works at {site} is not told (orbit, attitude, looks)");

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.Scenario.LimitOf(Card.Id.Value) is not { } limit) yield break;
        Dictionary<LegId, Leg> legs = Asking(given.Scenario).ToDictionary(leg => leg.Id);
        foreach (DoStep act in given.Timeline.Activities.OfType<DoStep>().Where(act => legs.ContainsKey(act.Leg)))
        {
            Leg leg = legs[act.Leg];
            if (!leg.Steps.First(step => step.Id == act.Step).NoGlare || given.History.Find($"site {leg.Site} light") is not { } light) continue;
            ImmutableArray<PetInterval> glare = Intervals.Join(given.History.While(light, state => state == "glare")
                .Select(time => new PetInterval(time.From.Plus(Duration.FromSeconds(-Told)), time.To.Plus(Duration.FromSeconds(Told)))));
            PetInterval[] meanwhile = [.. Intervals.Within(glare, new(act.Start, act.End))];
            int seconds = meanwhile.Sum(time => time.To.Since(time.From).Seconds);
            if (seconds <= limit.Value.Value) continue;
            yield return Broken(given, meanwhile[0].From, [act.Person],
                $"{act.Person} has the Sun in the eyes for {Duration.FromSeconds(seconds)} of step {act.Step} of {act.Leg}, until {meanwhile[^1].To}; the limit is {limit.Value}.",
                $"Do step {act.Step} before {meanwhile[0].From} or after {meanwhile[^1].To}, or see that the visor is down and say so.", act.Id) with
            {
                Severity = Severity.Near,
                Measured = Duration.FromSeconds(seconds).ToString(),
                Limit = limit.Value.ToString(),
                Margin = Duration.FromSeconds((int)Math.Floor(limit.Value.Value) - seconds).ToString(),
                Source = SourceOf(limit),
            };
        }
    }

    private static IEnumerable<Leg> Asking(Scenario scenario) => scenario.Legs.Where(leg => leg.Steps.Any(step => step.NoGlare));
}
