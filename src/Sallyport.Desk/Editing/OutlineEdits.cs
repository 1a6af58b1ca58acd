using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Changes of an outline as a person would write them: the leg's line, and nothing that serves it. What serves it is found anew afterwards.</summary>
internal static class OutlineEdits
{
    /// <summary>Whether an edit is one of an outline, and whether what serves the legs must be found anew after it.</summary>
    public static (bool IsOne, bool MovesLegs) Kind(SortieEdit edit) => edit switch
    {
        MoveLeg or MoveLegTo or LeaveOut or BringBack => (true, true),
        Pin or Unpin or PinPerson => (true, false),
        _ => (false, false),
    };

    /// <summary>The outline with an edit done, and what is worth telling of it, a line each.</summary>
    /// <param name="edit">The edit.</param>
    /// <param name="outline">The outline that it was made on.</param>
    /// <param name="desk">The desk over its scenario.</param>
    /// <param name="plan">The outline's plan; null when it could not be expanded.</param>
    /// <param name="lastWith">The outline in which a job was last; null when that is not known.</param>
    /// <exception cref="CannotEdit">It cannot be done.</exception>
    public static (Outline Outline, ImmutableArray<string> Told) Do(SortieEdit edit, Outline outline, SortieDesk desk, ProvenPlan? plan, Func<JobId, Outline?> lastWith) =>
        edit is BringBack back ? Bring(outline, desk.Scenario, plan, back.Job, lastWith(back.Job)) : (Do(edit, outline, desk, plan), []);

    private static Outline Do(SortieEdit edit, Outline outline, SortieDesk desk, ProvenPlan? plan) => edit switch
    {
        MoveLeg move => Move(outline, desk.Scenario, move.Leg, move.Person, move.Before),
        MoveLegTo move => MoveTo(outline, desk, plan, move),
        Pin pin => WithPins(outline, pin.Leg, pins => pins with { At = pin.Moment ?? StartOf(plan?.Likely, pin.Leg) ?? throw new CannotEdit($"{pin.Leg} has no time to be pinned to: the plan cannot be played."), NotBefore = null, NotAfter = null }),
        Unpin unpin => WithPins(outline, unpin.Leg, _ => Pins.None),
        PinPerson pin => WithPins(outline, pin.Leg, pins => pins with { Who = true }),
        LeaveOut leave => Leave(outline, desk.Scenario, leave),
        _ => throw new ArgumentOutOfRangeException(nameof(edit), edit.GetType().Name, "expected an edit of an outline"),
    };

    /// <summary>When a leg begins; null when it is not in the timeline.</summary>
    public static Pet? StartOf(Timeline? timeline, LegId leg) =>
        timeline?.Activities.OfType<DoStep>().Where(step => step.Leg == leg).Select(step => (Pet?)step.Start).Min();

    private static Outline Move(Outline outline, Scenario scenario, LegId id, PersonId person, LegId? before)
    {
        LegEntry entry = EntryOf(outline, id);
        if (id == before) throw new CannotEdit($"{id} cannot go before itself.");
        if (scenario.Outside.All(one => one.Id != person)) throw new CannotEdit($"{person} does not go outside in this scenario.");
        if (before is { } named && !ListsOf(outline).Any(list => list.Person == person && Has(list, named))) throw new CannotEdit($"{named} is not in the list of {person}, so nothing can go before it there.");
        // Legs that start together are done by different people: whoever has the other one gets this one's place.
        Leg leg = scenario.Legs.First(one => one.Id == id);
        LegEntry? partner = leg.Together.Length == 0 ? null
            : ListsOf(outline).Where(list => list.Person == person).SelectMany(list => list.Entries).OfType<LegEntry>()
                .FirstOrDefault(other => other.Leg != id && scenario.Legs.First(one => one.Id == other.Leg) is var with && with.Job == leg.Job && with.Together == leg.Together);
        if (partner is not null)
        {
            Outline swapped = EachList(outline, list => list with { Entries = [.. list.Entries.Select(one => one == (Entry)entry ? Bare(partner) : one == (Entry)partner ? Bare(entry) : one)] });
            return before is null || before == partner.Leg ? swapped : Move(swapped, id, person, before);
        }
        return Move(outline, id, person, before);
    }

    private static Outline Move(Outline outline, LegId id, PersonId person, LegId? before)
    {
        LegEntry entry = EntryOf(outline, id);
        if (outline.Decision is { } decision && decision.After == id && before is { } behind && !outline.People.Any(list => Has(list, behind)))
        {
            // Right before what follows the decision is the end of what comes before it.
            if (!decision.Then.Concat(decision.Else).Any(list => list.Person == person && list.Entries.OfType<LegEntry>().FirstOrDefault()?.Leg == behind))
                throw new CannotEdit($"The decision is taken when {id} ends, so it cannot go behind it.");
            before = null;
        }
        Outline without = EachList(outline, list => list with { Entries = [.. list.Entries.Where(one => one is not LegEntry own || own.Leg != id)] });
        return Insert(without, person, Bare(entry), before);
    }

    /// <summary>The order in which a leg begins nearest to a moment: the likeliest place by the times of now, and those beside it, each tried.</summary>
    private static Outline MoveTo(Outline outline, SortieDesk desk, ProvenPlan? plan, MoveLegTo move)
    {
        EntryOf(outline, move.Leg);
        LegId[] others = [.. outline.People.Concat(outline.Decision?.Then ?? []).Where(list => list.Person == move.Person).SelectMany(list => list.Entries).OfType<LegEntry>().Select(entry => entry.Leg).Where(leg => leg != move.Leg)];
        int likely = others.TakeWhile(leg => StartOf(plan?.Likely, leg) is not { } start || start < move.Moment).Count();
        (Outline Outline, int Away)? best = null;
        CannotEdit? why = null;
        foreach (int place in new[] { likely, likely - 1, likely + 1 })
        {
            if (place < 0 || place > others.Length) continue;
            try
            {
                Outline moved = Move(outline, desk.Scenario, move.Leg, move.Person, place < others.Length ? others[place] : null);
                Timeline? timeline = desk.ExpandLikely(desk.Complete(moved, anew: true).Outline);
                if (StartOf(timeline, move.Leg) is not { } start) continue;
                int away = Math.Abs(start.Seconds - move.Moment.Seconds);
                if (best is null || away < best.Value.Away) best = (moved, away);
            }
            catch (CannotEdit e)
            {
                why = e;
            }
        }
        return best?.Outline ?? throw why ?? new CannotEdit($"{move.Leg} cannot be done by {move.Person} near PET {move.Moment}: in every order near it somebody would wait for ever for what the other does only later.");
    }

    private static Outline WithPins(Outline outline, LegId leg, Func<Pins, Pins> change)
    {
        EntryOf(outline, leg);
        return EachList(outline, list => list with { Entries = [.. list.Entries.Select(entry => entry is LegEntry own && own.Leg == leg ? own with { Pins = change(own.Pins) } : entry)] });
    }

    private static Outline Leave(Outline outline, Scenario scenario, LeaveOut leave)
    {
        Job job = scenario.Jobs.FirstOrDefault(one => one.Id == leave.Job) ?? throw new CannotEdit($"There is no job '{leave.Job}'.");
        HashSet<LegId> legs = [.. job.Legs.Select(leg => leg.Id)];
        if (!ListsOf(outline).Any(list => list.Entries.OfType<LegEntry>().Any(entry => legs.Contains(entry.Leg)))) throw new CannotEdit($"{leave.Job} is not in this outline.");
        if (outline.Decision is { } decision && legs.Contains(decision.After))
            outline = outline with { People = [.. outline.People.Select(list => list with { Entries = [.. list.Entries, .. decision.Then.FirstOrDefault(tail => tail.Person == list.Person)?.Entries ?? []] })], Decision = null };
        return EachList(outline, list => list with { Entries = [.. list.Entries.Where(entry => entry is not LegEntry own || !legs.Contains(own.Leg))] }) with
        {
            Ground = [.. outline.Ground.Where(entry => !(entry.Before is { } before && legs.Contains(before)) && !(entry.After is { } after && legs.Contains(after)))],
            Voice = [.. outline.Voice.Select(voice => new VoiceOutline([.. voice.Legs.Where(leg => !legs.Contains(leg))])).Where(voice => voice.Legs.Length > 0)],
            LeftOut = [.. outline.LeftOut.Where(left => left.Job != leave.Job), new(leave.Job, leave.Why)],
        };
    }

    /// <summary>Puts a left-out job into the outline again: each leg before the leg that followed it when it was in last, where the same person still has both; otherwise last of its doer's.</summary>
    /// <param name="outline">The outline.</param>
    /// <param name="scenario">Its scenario.</param>
    /// <param name="plan">Its plan; null when it could not be expanded.</param>
    /// <param name="id">The job.</param>
    /// <param name="asItWas">The outline in which it was last; null when that is not known.</param>
    /// <returns>The outline, and where each leg went, a line each.</returns>
    private static (Outline Outline, ImmutableArray<string> Told) Bring(Outline outline, Scenario scenario, ProvenPlan? plan, JobId id, Outline? asItWas)
    {
        Job job = scenario.Jobs.FirstOrDefault(one => one.Id == id) ?? throw new CannotEdit($"There is no job '{id}'.");
        if (ListsOf(outline).Any(list => list.Entries.OfType<LegEntry>().Any(entry => job.Legs.Any(leg => leg.Id == entry.Leg)))) throw new CannotEdit($"{id} is in this outline already.");
        Outline result = outline with { LeftOut = [.. outline.LeftOut.Where(left => left.Job != id)] };
        // Who is done first takes on more; legs that start together need different people.
        Dictionary<PersonId, int> busy = scenario.Outside.ToDictionary(person => person.Id, person => (plan?.Likely.Activities.OfType<DoStep>().Where(step => step.Person == person.Id).Sum(step => step.End.Since(step.Start).Seconds)) ?? 0);
        Dictionary<string, HashSet<PersonId>> together = [];
        ImmutableArray<string>.Builder told = ImmutableArray.CreateBuilder<string>();
        foreach (Leg leg in InOrder(job))
        {
            HashSet<PersonId> taken = leg.Together.Length == 0 ? [] : together.TryGetValue(leg.Together, out HashSet<PersonId>? known) ? known : together[leg.Together] = [];
            PersonOutline? had = asItWas is null ? null : ListsOf(asItWas).FirstOrDefault(list => Has(list, leg.Id));
            Person? doer = scenario.Outside.Where(person => (leg.Who.IsEmpty || leg.Who.Contains(person.Id)) && leg.Training.All(person.TrainedFor.Contains) && !taken.Contains(person.Id))
                .OrderBy(person => had?.Person == person.Id ? 0 : 1).ThenBy(person => busy[person.Id]).FirstOrDefault()
                ?? throw new CannotEdit($"Nobody who goes outside may do {leg.Id}.");
            taken.Add(doer.Id);
            busy[doer.Id] += leg.Steps.Sum(step => step.Time.Likely.Seconds);
            LegId? before = had?.Person == doer.Id ? Follower(had, leg.Id, [.. job.Legs.Select(one => one.Id)], result) : null;
            result = Insert(result, doer.Id, new(leg.Id, Pins.None, Way.Auto, false), before);
            told.Add(before is { } next ? $"{doer.Id}: + {leg.Id} before {next}, as it stood before it was left out" : $"{doer.Id}: + {leg.Id}, last of what is done before going in");
        }
        return (result, told.ToImmutable());
    }

    /// <summary>The first leg behind one in a list as it was that the same person still has; null for none.</summary>
    private static LegId? Follower(PersonOutline had, LegId leg, IReadOnlyCollection<LegId> job, Outline now) =>
        had.Entries.OfType<LegEntry>().Select(entry => entry.Leg).SkipWhile(one => one != leg).Where(one => !job.Contains(one) && ListsOf(now).Any(list => list.Person == had.Person && Has(list, one)))
            .Select(one => (LegId?)one).FirstOrDefault();

    /// <summary>The legs of a job, each after those that must come before it.</summary>
    private static IEnumerable<Leg> InOrder(Job job)
    {
        List<Leg> left = [.. job.Legs];
        while (left.Count > 0)
        {
            Leg next = left.FirstOrDefault(leg => !leg.After.Any(after => left.Any(other => other.Id == after.Leg))) ?? left[0];
            left.Remove(next);
            yield return next;
        }
    }

    /// <summary>Puts a leg into somebody's list: before a leg and what was fetched for it, or at the end, before the bags go in.</summary>
    private static Outline Insert(Outline outline, PersonId person, LegEntry entry, LegId? before)
    {
        if (before is null)
        {
            ImmutableArray<PersonOutline> lists = outline.People.Any(list => list.Person == person) ? outline.People : throw new CannotEdit($"{person} has no list in this outline.");
            return outline with
            {
                People = [.. lists.Select(list =>
                {
                    if (list.Person != person) return list;
                    int last = list.Entries.Select((one, i) => one is LegEntry or EgressEntry ? i : -1).Append(-1).Max();
                    // Whoever rides at the end gets off first.
                    while (last + 1 < list.Entries.Length && list.Entries[last + 1] is DismountEntry) last++;
                    return list with { Entries = list.Entries.Insert(last + 1, entry) };
                })],
            };
        }
        bool done = false;
        PersonOutline Into(PersonOutline list)
        {
            if (list.Person != person || !Has(list, before.Value)) return list;
            int at = list.Entries.Select((one, i) => one is LegEntry leg && leg.Leg == before ? i : -1).Max();
            while (at > 0 && list.Entries[at - 1] is not (LegEntry or EgressEntry or MeetEntry or DismountEntry) && list.Entries[at - 1].For == before) at--;
            done = true;
            return list with { Entries = list.Entries.Insert(at, entry) };
        }
        Outline result = EachList(outline, Into);
        return done ? result : throw new CannotEdit($"{before} is not in the list of {person}, so nothing can go before it there.");
    }

    // The way was one from another place, and the anchor goes with it.
    private static LegEntry Bare(LegEntry entry) => entry with { Way = Way.Auto };

    private static LegEntry EntryOf(Outline outline, LegId leg) =>
        ListsOf(outline).SelectMany(list => list.Entries).OfType<LegEntry>().FirstOrDefault(entry => entry.Leg == leg) ?? throw new CannotEdit($"{leg} is not in this outline.");

    public static bool Has(PersonOutline list, LegId leg) => list.Entries.OfType<LegEntry>().Any(entry => entry.Leg == leg);

    public static IEnumerable<PersonOutline> ListsOf(Outline outline) => outline.People.Concat(outline.Decision?.Then ?? []).Concat(outline.Decision?.Else ?? []);

    private static Outline EachList(Outline outline, Func<PersonOutline, PersonOutline> change) => outline with
    {
        People = [.. outline.People.Select(change)],
        Decision = outline.Decision is { } decision ? decision with { Then = [.. decision.Then.Select(change)], Else = [.. decision.Else.Select(change)] } : null,
    };
}
