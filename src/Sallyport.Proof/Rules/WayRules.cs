using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Everybody gets everywhere over spans that exist.</summary>
internal sealed class WayNone : FactRule
{
    public override RuleCard Card { get; } = new(new("way.none"),
        "a person who is planned where nobody took that person, or who goes where nothing can be held on to",
        "each activity's place against where the person is; each span walked and each move of an arm against those that the scenario has",
        RuleCard.NoFigure,
        Guard.Expansion("a way is found or the outline is refused"));
}

/// <summary>Every way is given the time it takes.</summary>
internal sealed class WayShort : FactRule
{
    public override RuleCard Card { get; } = new(new("way.short"),
        "hurrying hand over hand, or a plan that falls behind on every way",
        "the time given to each span against the person's own pace with what is carried then, rounded up a span; each move of an arm against its table",
        "the person's pace and the arm's table, as the scenario states them",
        Guard.Expansion("each span gets the person's own pace with what is carried then"));
}

/// <summary>Closed places are not entered or stayed at.</summary>
internal sealed class ZoneEntered : Rule
{
    public override RuleCard Card { get; } = new(new("zone.entered"),
        "jets, beams, hot or sharp places, each as the scenario says",
        "each person's place, and both ends of the span under way, against the zones closed at that moment",
        "the scenario's zones",
        Guard.Decoder("ways and legs wait until the zones are open; a wait that outlasts an open zone is left to the proof"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Zone zone in given.Scenario.Station.Zones)
        {
            ImmutableArray<PetInterval> closed = given.History.While(given.History[$"zone {zone.Id} state"], state => state == "closed");
            if (closed.IsEmpty) continue;
            HashSet<string> within = [.. zone.Grips.Select(Places.At)];
            foreach (PersonId person in given.People)
            {
                IEnumerable<PetInterval> standing = given.History.While(given.History[$"person {person} place"], within.Contains);
                IEnumerable<PetInterval> walking = given.Timeline.Activities.OfType<Translate>().Where(walk => walk.Person == person)
                    .SelectMany(walk => SpansWithin(walk, within));
                foreach (PetInterval both in Intervals.Common(Intervals.Join(standing.Concat(walking)), closed))
                    yield return Broken(given, both.From, [person],
                        $"{person} is in {zone.Id} until {both.To}, which is closed then: {zone.Why}.",
                        $"Bring {person} there while {zone.Id} is open, or go round it.");
            }
        }
    }

    private static IEnumerable<PetInterval> SpansWithin(Translate walk, HashSet<string> within)
    {
        Pet at = walk.Start;
        for (int i = 0; i < walk.Spans.Length; i++)
        {
            SpanWalk span = walk.Spans[i];
            Pet end = i == walk.Spans.Length - 1 ? walk.End : at.Plus(span.Time);
            if (within.Contains(Places.At(span.From)) || within.Contains(Places.At(span.To))) yield return new PetInterval(at, end);
            at = end;
        }
    }
}
