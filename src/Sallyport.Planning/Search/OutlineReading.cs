using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Reads an outline back into what search changes: an order, who does what, which jobs are in, and the pins.</summary>
internal sealed class OutlineReading(SearchCase all, Expander expander)
{
    /// <summary>Reads an outline.</summary>
    /// <param name="outline">The outline.</param>
    /// <param name="asTold">Whether who does what is taken as told even where that person may not: the proof will say so. The case read into
    /// is then this outline's own.</param>
    public (Candidate Candidate, UnitPins[] Pins) Read(Outline outline, bool asTold)
    {
        Candidate candidate = Starts.First(all);
        UnitPins[] pins = [.. all.Units.Select(_ => UnitPins.None)];
        int people = all.People.Length;
        Queue<LegEntry>[] lists = [.. all.People.Select(person => new Queue<LegEntry>(LegsOf(outline, person.Id)))];
        Dictionary<LegId, int> doer = [];
        for (int p = 0; p < people; p++)
            foreach (LegEntry entry in lists[p]) doer[entry.Leg] = p;

        for (int u = 0; u < all.Units.Length; u++)
        {
            int[] who = [.. all.Units[u].Legs.Select(leg => doer.GetValueOrDefault(all.Legs[leg].Id, -1))];
            int option = Array.FindIndex(all.Units[u].Options, assignment => assignment.SequenceEqual(who));
            if (option < 0 && asTold && !who.Contains(-1))
            {
                option = all.Units[u].Options.Length;
                all.Units[u] = all.Units[u] with { Options = [.. all.Units[u].Options, who] };
            }
            if (option >= 0) candidate.Options[u] = option;
        }
        for (int j = 0; j < candidate.JobIn.Length; j++)
            candidate.JobIn[j] = all.Scenario.Jobs[j].Legs.Any(leg => doer.ContainsKey(leg.Id)) || all.Scenario.Jobs[j].Worth == Worth.Must;

        // The lists merge into one order: what starts first goes next, as far as precedence lets it.
        List<int> order = [];
        Dictionary<LegId, int> starts = StartsOf(outline);
        while (true)
        {
            int next = -1;
            for (int p = 0; p < people; p++)
                if (lists[p].TryPeek(out LegEntry? head) && (next < 0 || StartOf(head) < StartOf(lists[next].Peek())) && MayGoNext(UnitOf(head), order, doer, lists)) next = p;
            if (next < 0) next = Array.FindIndex(lists, list => list.Count > 0);
            if (next < 0) break;
            LegEntry entry = lists[next].Dequeue();
            int unit = UnitOf(entry);
            pins[unit] = Join(pins[unit], entry.Pins);
            if (!order.Contains(unit)) order.Add(unit);
        }
        ReadBringing(outline, doer, candidate);
        order.AddRange(candidate.Order.Where(unit => !order.Contains(unit)));
        Array.Copy(Sorted(order), candidate.Order, order.Count);
        return (candidate, pins);

        int StartOf(LegEntry entry) => starts.GetValueOrDefault(entry.Leg, SearchCase.Never);
    }

    /// <summary>When each leg would start if nothing were changed, bag moves missing or not; empty for an outline that cannot be expanded.</summary>
    private Dictionary<LegId, int> StartsOf(Outline outline) =>
        expander.Expand(outline, Branch.Likely, "").Timeline is not { } timeline ? []
        : timeline.Activities.OfType<DoStep>().GroupBy(step => step.Leg).ToDictionary(leg => leg.Key, leg => leg.Min(step => step.Start).Seconds);

    /// <summary>The legs of an outline that a person wrote or pinned.</summary>
    public static IReadOnlyDictionary<LegId, LegEntry> ByHand(Outline? outline) =>
        outline is null ? new Dictionary<LegId, LegEntry>()
        : outline.People.Concat(outline.Decision?.Then ?? []).SelectMany(list => list.Entries).OfType<LegEntry>()
            .Where(entry => entry.ByHand || entry.Pins != Pins.None).DistinctBy(entry => entry.Leg).ToDictionary(entry => entry.Leg);

    private static IEnumerable<LegEntry> LegsOf(Outline outline, PersonId person) => EntriesOf(outline, person).OfType<LegEntry>();

    private static IEnumerable<Entry> EntriesOf(Outline outline, PersonId person) =>
        outline.People.Concat(outline.Decision?.Then ?? []).Where(list => list.Person == person).SelectMany(list => list.Entries);

    /// <summary>How the gear of each unit is brought, as far as entries that serve its legs tell: taken along before legs of other units, or changing hands elsewhere than where
    /// it is. What was put down for it they do not tell.</summary>
    private void ReadBringing(Outline outline, Dictionary<LegId, int> doer, Candidate candidate)
    {
        for (int p = 0; p < all.People.Length; p++)
        {
            int legs = 0;
            Dictionary<LegId, int> taken = [];
            foreach (Entry entry in EntriesOf(outline, all.People[p].Id))
            {
                if (entry is LegEntry done)
                {
                    if (taken.TryGetValue(done.Leg, out int before)) Change(done.Leg, was => was with { Ahead = (byte)Math.Min(legs - before, Bringing.MostAhead) });
                    legs++;
                }
                if (entry.For is not { } serves || !doer.TryGetValue(serves, out int user)) continue;
                if (entry is TakeEntry && user == p) taken.TryAdd(serves, legs);
                else if (entry is PutEntry && user != p) Change(serves, was => was with { HandOver = Bringing.PutDown });
                else if (entry is MeetEntry meet)
                {
                    LegData leg = all.Data[all.LegIndex[serves]];
                    int at = all.PlaceIndex.GetValueOrDefault(meet.At, -1);
                    if (at >= 0 && leg.Place == at) Change(serves, was => was with { HandOver = Bringing.AtLeg });
                    else if (all.Stows.Contains(at)) Change(serves, was => was with { HandOver = Bringing.AtStow });
                }
            }
        }

        void Change(LegId leg, Func<Bringing, Bringing> change)
        {
            ref Bringing one = ref candidate.Bringing[all.UnitOfLeg[all.LegIndex[leg]]];
            one = change(one);
        }
    }

    private int UnitOf(LegEntry entry) => all.UnitOfLeg[all.LegIndex[entry.Leg]];

    /// <summary>Whether all that must stand before a unit does, and everybody who takes part has come to it.</summary>
    private bool MayGoNext(int unit, List<int> order, Dictionary<LegId, int> doer, Queue<LegEntry>[] lists)
    {
        if (order.Contains(unit)) return true;
        foreach (int leg in all.Units[unit].Legs)
            if (doer.TryGetValue(all.Legs[leg].Id, out int p) && (!lists[p].TryPeek(out LegEntry? head) || UnitOf(head) != unit)) return false;
        for (int other = 0; other < all.Units.Length; other++)
            if (all.Before[other][unit] && !order.Contains(other) && all.Units[other].Legs.Any(leg => doer.ContainsKey(all.Legs[leg].Id))) return false;
        return true;
    }

    /// <summary>The order given, with only what precedence asks changed.</summary>
    private int[] Sorted(List<int> order)
    {
        List<int> left = [.. order], sorted = [];
        while (left.Count > 0)
        {
            int next = left.FindIndex(unit => !left.Exists(other => all.Before[other][unit]));
            sorted.Add(left[next]);
            left.RemoveAt(next);
        }
        return [.. sorted];
    }

    private static UnitPins Join(UnitPins known, Pins pins) => new(
        Math.Max(known.NotBefore, Math.Max(pins.At?.Seconds ?? int.MinValue, pins.NotBefore?.Seconds ?? int.MinValue)),
        Math.Min(known.NotAfter, Math.Min(pins.At?.Seconds ?? int.MaxValue, pins.NotAfter?.Seconds ?? int.MaxValue)),
        known.KeepsWho || pins.Who, known.Keeps || pins.Keep);
}
