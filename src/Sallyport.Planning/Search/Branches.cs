using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>An outline with a decision as whole lists, one set a branch, and back.</summary>
internal static class Branches
{
    /// <summary>Everybody's whole list, for the branch taken before the threshold and then for the other; one set without a decision.</summary>
    public static ImmutableArray<ImmutableArray<PersonOutline>> Of(Outline outline) => outline.Decision is { } decision
        ? [Whole(outline, decision.Then), Whole(outline, decision.Else)]
        : [outline.People];

    /// <summary>The entries of one person; empty when there is no list of that person.</summary>
    public static ImmutableArray<Entry> EntriesOf(ImmutableArray<PersonOutline> lists, PersonId person) =>
        lists.FirstOrDefault(list => list.Person == person)?.Entries ?? [];

    /// <summary>Whether two outlines give everybody the same legs in the same order, before a decision and in each branch of it.</summary>
    public static bool SameLegs(Outline a, Outline b) =>
        SameLegs(a.People, b.People) && SameLegs(a.Decision?.Then ?? [], b.Decision?.Then ?? []) && SameLegs(a.Decision?.Else ?? [], b.Decision?.Else ?? []);

    /// <summary>One outline of two, one a branch, with the decision that was told: what serves it, and what follows, stands after it. Null
    /// when anybody does not do the same before it, or somebody else than those who decide does not do the same after it.</summary>
    public static Outline? Join(Outline then, Outline otherwise, Decision told)
    {
        if (!Fits(otherwise, then)) return null;
        HashSet<LegId> late = [.. told.Then.Concat(told.Else).SelectMany(list => list.Entries.OfType<LegEntry>()).Select(entry => entry.Leg)];
        List<PersonOutline> shared = [], before = [], after = [];
        foreach (PersonOutline list in then.People)
        {
            ImmutableArray<Entry> a = list.Entries, b = EntriesOf(otherwise.People, list.Person);
            if (!told.Then.Concat(told.Else).Any(tail => tail.Person == list.Person))
            {
                if (CountCommon(a, b) < Math.Max(a.Length, b.Length)) return null;
                shared.Add(list);
                continue;
            }
            int cut = a.TakeWhile(entry => entry is not IngressEntry && !(entry.For is { } leg && late.Contains(leg))).Count();
            // What is fetched on the way in stands after the decision too.
            while (cut > 0 && a[cut - 1] is not LegEntry && a[cut - 1].For is null && a[cut - 1] is not EgressEntry) cut--;
            if (CountCommon(a, b) < cut) return null;
            shared.Add(list with { Entries = a[..cut] });
            before.Add(list with { Entries = a[cut..] });
            after.Add(list with { Entries = b[cut..] });
        }
        return then with { People = [.. shared], Decision = told with { Then = [.. before], Else = [.. after] } };
    }

    /// <summary>Whether the commands, hand-overs, conversations and arm sessions of one outline are part of those of another, as a branch needs it.</summary>
    public static bool Fits(Outline part, Outline whole) =>
        part.Ground.All(whole.Ground.Contains)
        && part.Voice.All(voice => whole.Voice.Any(known => voice.Legs.SequenceEqual(known.Legs.Where(voice.Legs.Contains))))
        && part.Hands.All(hands => IsPartOf(hands, whole.Hands))
        && part.Arms.All(arm => whole.Arms.Any(known => known.Arm == arm.Arm && arm.Sessions.All(session =>
            known.Sessions.Any(one => one.Rider == session.Rider && one.Mount == session.Mount))));

    /// <summary>How many entries two lists have in common from the start.</summary>
    public static int CountCommon(ImmutableArray<Entry> a, ImmutableArray<Entry> b)
    {
        int same = 0;
        while (same < a.Length && same < b.Length && SameEntry(a[same], b[same])) same++;
        return same;
    }

    /// <summary>Whether two entries are the same, the way walked to them included.</summary>
    public static bool SameEntry(Entry a, Entry b) => SameDeed(a, b) && a.Way.Anchor == b.Way.Anchor && a.Way.Grips.SequenceEqual(b.Way.Grips);

    /// <summary>Whether two entries do the same, however one comes there.</summary>
    public static bool SameDeed(Entry a, Entry b) => a is MeetEntry x && b is MeetEntry y
        ? x.At == y.At && x.For == y.For && x.With.SequenceEqual(y.With) && x.Gives.SequenceEqual(y.Gives)
        : a with { Way = Way.Auto } == b with { Way = Way.Auto };

    private static ImmutableArray<PersonOutline> Whole(Outline outline, ImmutableArray<PersonOutline> tails) =>
    [
        .. outline.People.Select(list => list with { Entries = [.. list.Entries, .. EntriesOf(tails, list.Person)] }),
        .. tails.Where(tail => outline.People.All(list => list.Person != tail.Person)),
    ];

    private static bool SameLegs(ImmutableArray<PersonOutline> a, ImmutableArray<PersonOutline> b)
    {
        IEnumerable<LegId> LegsOf(ImmutableArray<PersonOutline> lists, PersonId person) => EntriesOf(lists, person).OfType<LegEntry>().Select(entry => entry.Leg);
        return a.Concat(b).Select(list => list.Person).Distinct().All(person => LegsOf(a, person).SequenceEqual(LegsOf(b, person)));
    }

    private static bool IsPartOf(HandsOutline hands, ImmutableArray<HandsOutline> of)
    {
        ImmutableArray<PersonId> whole = of.FirstOrDefault(known => known.Gear == hands.Gear)?.Holders ?? [];
        int at = 0;
        foreach (PersonId holder in hands.Holders)
        {
            while (at < whole.Length && whole[at] != holder) at++;
            if (at++ == whole.Length) return false;
        }
        return true;
    }
}
