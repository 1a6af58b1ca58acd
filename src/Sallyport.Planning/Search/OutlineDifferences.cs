using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What one outline has that another has not, in lines for the person who wrote the first.</summary>
internal static class OutlineDifferences
{
    /// <summary>One line a change: taken out (−), put in or moved (+, with the leg it stands before), or reached another way (~).</summary>
    public static ImmutableArray<string> Of(Outline before, Outline after)
    {
        ImmutableArray<string>.Builder changes = ImmutableArray.CreateBuilder<string>();
        AddLists(changes, before.People, after.People, "");
        if (before.Decision is { } told && after.Decision is { } now)
        {
            AddLists(changes, told.Then, now.Then, $" before PET {told.IfBefore}");
            AddLists(changes, told.Else, now.Else, " otherwise");
        }
        foreach (GroundEntry gone in before.Ground.Except(after.Ground)) changes.Add($"ground: − {Describe(gone)}");
        foreach (GroundEntry come in after.Ground.Except(before.Ground)) changes.Add($"ground: + {Describe(come)}");
        if (!before.Voice.Select(Describe).SequenceEqual(after.Voice.Select(Describe)))
            changes.Add($"voice: ~ {(after.Voice.IsEmpty ? "nobody is led" : string.Join("; ", after.Voice.Select(Describe)))}");
        return changes.ToImmutable();
    }

    private static string Describe(VoiceOutline voice) => string.Join(", then ", voice.Legs);

    private static void AddLists(ImmutableArray<string>.Builder changes, ImmutableArray<PersonOutline> before, ImmutableArray<PersonOutline> after, string when)
    {
        foreach (PersonId person in before.Concat(after).Select(list => list.Person).Distinct())
            foreach (string change in Compare(Branches.EntriesOf(before, person), Branches.EntriesOf(after, person))) changes.Add($"{person}{when}: {change}");
    }

    /// <summary>Keeps the longest run of entries that both lists have in order, legs above all; the rest went or came.</summary>
    private static IEnumerable<string> Compare(ImmutableArray<Entry> a, ImmutableArray<Entry> b)
    {
        int[,] common = new int[a.Length + 1, b.Length + 1];
        for (int i = a.Length - 1; i >= 0; i--)
            for (int j = b.Length - 1; j >= 0; j--)
                common[i, j] = Branches.SameDeed(a[i], b[j]) && Weight(a[i]) + common[i + 1, j + 1] is var kept && kept > Math.Max(common[i + 1, j], common[i, j + 1])
                    ? kept : Math.Max(common[i + 1, j], common[i, j + 1]);
        for (int i = 0, j = 0; i < a.Length || j < b.Length;)
        {
            if (i < a.Length && j < b.Length && Branches.SameDeed(a[i], b[j]) && common[i, j] == Weight(a[i]) + common[i + 1, j + 1])
            {
                // A way left open by hand is no other way.
                if (a[i].Way != Way.Auto && !Branches.SameEntry(a[i], b[j])) yield return $"~ {Describe(a[i])}, by another way";
                (i, j) = (i + 1, j + 1);
            }
            else if (i < a.Length && (j == b.Length || common[i + 1, j] >= common[i, j + 1])) yield return $"− {Describe(a[i++])}";
            else
            {
                LegId? next = b.Skip(j + 1).OfType<LegEntry>().FirstOrDefault()?.Leg;
                yield return $"+ {Describe(b[j++])}, {(next is null ? "at the end" : $"before leg {next}")}";
            }
        }
    }

    private static int Weight(Entry entry) => entry is LegEntry ? 1000 : 1;

    private static string Describe(Entry entry) => Expander.Describe(entry) + entry switch
    {
        TakeEntry take => $" onto {take.Carry}",
        UnplugEntry unplug => $" onto {unplug.Carry}",
        _ => "",
    };

    private static string Describe(GroundEntry entry) =>
        $"{entry.Do}{(entry.After is { } after ? $", after {after}" : "")}{(entry.Before is { } before ? $", before {before}" : "")}";
}
