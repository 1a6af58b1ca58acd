using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Tests.Damage.TimeDamage;

namespace Sallyport.Tests.Damage;

/// <summary>Ways and places.</summary>
internal static class WayDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("way a second short", "A span is given a second less than it takes.", "way.short",
            "Expansion gives each span the least whole second that the person's pace with the load allows.",
            plan => plan.All<Translate>().Where(walk => walk.Spans[0].Time.Seconds > 1).Select(walk => plan.Instead(walk, walk with
            {
                End = Plus(walk.End, -1),
                Spans = walk.Spans.SetItem(0, walk.Spans[0] with { Time = Duration.FromSeconds(walk.Spans[0].Time.Seconds - 1) }),
            }))),
        new("arm hurried", "An arm's move is given a second less than its table says.", "way.short",
            "The table of the arm states the time.",
            plan => plan.All<ArmMove>().Select(move => Shorter(plan, move))),
        new("span left out", "A span in the middle of a way is left out, and the way after it goes on as if it had been walked.", "way.none",
            "Two spans that do not touch are no way.",
            plan => plan.All<Translate>().Where(walk => walk.Spans.Length > 2 && walk.Spans[0].To != walk.Spans[2].From).Select(walk => plan.Instead(walk, walk with { Spans = walk.Spans.RemoveAt(1) }))),
        new("leap", "A person goes at once to where the way ends, along a span that the station does not have.", "way.none",
            "No span joins the two.",
            plan => plan.All<Translate>().Where(walk => !Joined(plan, walk.Spans[0].From, walk.Spans[^1].To) && walk.Spans[0].From != walk.Spans[^1].To)
                .Select(walk => plan.Instead(walk, walk with { Spans = [new(walk.Spans[0].From, walk.Spans[^1].To, walk.Length)] }))),
        new("way forgotten", "A person waits instead of walking, and then goes on where the way would have ended.", "way.none",
            "What comes next is elsewhere.",
            plan => plan.All<Translate>().Where(walk => walk.Spans[0].From != walk.Spans[^1].To).Select(walk => plan.Skip(walk))),
        new("work from another grip", "The last span before a step is left out, so that the person works from the grip before.", "way.none",
            "The leg's site is the grip where the way ended.",
            plan => InARow(plan).Where(pair => pair.Later is DoStep).Select(pair => pair.Earlier).OfType<Translate>().Where(walk => walk.Spans.Length > 1)
                .Select(walk => plan.Instead(walk, walk with { Spans = walk.Spans.RemoveAt(walk.Spans.Length - 1) }))),
        new("span gone", "A span that is walked is no longer there in the world as played.", "way.none",
            "The way cannot be walked without it.",
            plan => plan.All<Translate>().Select(walk => plan.WithStation(station => station with { Spans = [.. station.Spans.Where(span => !Is(span, walk.Spans[0]))] }))),
        new("take at another grip", "A thing is taken at a grip where the person is not.", "way.none",
            "Nobody reaches from one grip to another.",
            plan => plan.All<Take>().Select(take => plan.Instead(take, take with { At = Other(plan, take.At) }))),
        new("put at another grip", "A thing is hooked at a grip where the person is not.", "way.none",
            "Nobody reaches from one grip to another.",
            plan => plan.All<Put>().Select(put => plan.Instead(put, put with { At = Other(plan, put.At) }))),
        new("hand-over at two places", "A thing is handed over at a grip where neither of the two is.", "way.none",
            "Both must be where it is handed over.",
            plan => plan.All<Give>().Select(give => plan.Instead(give, give with { At = Other(plan, give.At) }))),
        new("receiver elsewhere", "A thing is handed to somebody who is at another place.", "way.none",
            "Both must be where it is handed over.",
            plan => plan.All<Give>().SelectMany(give => plan.Outside.Where(other => other != give.From && other != give.To && plan.PlaceOf(other, give.Start) != give.At.Value)
                .Select(other => plan.Instead(give, give with { To = other })))),
        new("zone closed", "A zone in which somebody is, is closed from a second before the person is there.", "zone.entered",
            "The person is in it while it is closed.",
            plan => plan.Scenario.Station.Zones.SelectMany(zone => plan.Outside.Where(person => Within(plan, zone, person) is not null)
                .Select(person => CloseZone(plan, zone, Within(plan, zone, person)!.Value)))),
        new("zone across a way", "A new zone lies over the first grip of a way, and is closed while the way is walked.", "zone.entered",
            "The person is in it while it is closed.",
            plan => plan.All<Translate>().Select(walk => plan.WithStation(station => station with
            {
                Zones = station.Zones.Add(new(new("new-zone"), "closed for the test", [walk.Spans[0].To], [new(walk.Start, walk.End)], null, [])),
            }))),
    ];

    private static bool Is(Span span, SpanWalk walk) => (span.A == walk.From && span.B == walk.To) || (span.A == walk.To && span.B == walk.From);

    private static bool Joined(CleanPlan plan, GripId a, GripId b) => plan.Scenario.Station.Spans.Any(span => Is(span, new(a, b, default)));

    public static GripId Other(CleanPlan plan, GripId grip) => plan.Scenario.Station.Grips.First(other => other.Id != grip).Id;

    private static PetInterval? Within(CleanPlan plan, Zone zone, PersonId person)
    {
        ImmutableArray<PetInterval> within = plan.History.While(plan.History[$"person {person} place"], place => zone.Grips.Any(grip => grip.Value == place));
        return within.IsEmpty ? null : within[0];
    }

    private static Damaged CloseZone(CleanPlan plan, Zone zone, PetInterval when) => plan.WithStation(station => station with
    {
        Zones = CleanPlan.Each(station.Zones, one => one.Id == zone.Id, one => one with { Times = one.Times.Add(when) }),
    });
}
