using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What has become of a thing at the end.</summary>
public enum Fate
{
    /// <summary>Used up.</summary>
    UsedUp,
    /// <summary>Inside, and never out.</summary>
    StayedInside,
    /// <summary>Inside, after it was out.</summary>
    CameHome,
    /// <summary>Where the scenario wants it, outside.</summary>
    InPlace,
    /// <summary>Outside on purpose, with a reason.</summary>
    Stays,
    /// <summary>Outside, as it was before, with nothing said of it.</summary>
    WasThere,
    /// <summary>Outside, in a bag, with nothing said of it: the bag has its own account.</summary>
    WithItsBag,
    /// <summary>Taken out and left outside, with nothing said of it.</summary>
    LeftOutside,
    /// <summary>Somewhere, but not where it must be.</summary>
    Elsewhere,
    /// <summary>Nowhere that it may stay: on somebody, in hand, or used up without being a stock.</summary>
    Astray,
}

/// <summary>Where a thing is at the end, and whether it belongs there.</summary>
/// <param name="Gear">The thing.</param>
/// <param name="Fate">What has become of it.</param>
/// <param name="Spot">Where it is, such as <c>bag latch-bag</c>.</param>
/// <param name="Outermost">Where the outermost bag is that it lies in; the same as <paramref name="Spot"/> when it lies in none.</param>
public sealed record Account(Gear Gear, Fate Fate, string Spot, string Outermost)
{
    /// <summary>Where it is, as a sentence says it.</summary>
    public string Words => Spot == Outermost ? $"'{Spot}'" : $"'{Spot}' ('{Outermost}')";
}

/// <summary>Accounts for everything at the end of a trace.</summary>
public static class Accounts
{
    /// <summary>One account a thing, in the order of the scenario.</summary>
    public static ImmutableArray<Account> Of(Scenario scenario, Trace trace)
    {
        Dictionary<string, Stay> stays = Stays(trace);
        return [.. scenario.Gear.Select(gear => Of(gear, stays))];
    }

    private static Account Of(Gear gear, Dictionary<string, Stay> stays)
    {
        (string began, bool startMoved) = Outermost(stays, gear.Id.Value, stay => stay.Start);
        (string outermost, bool endMoved) = Outermost(stays, gear.Id.Value, stay => stay.End);
        string spot = stays[gear.Id.Value].End;
        return new(gear, FateOf(gear, spot, outermost, began, startMoved || endMoved), spot, outermost);
    }

    private static Fate FateOf(Gear gear, string spot, string outermost, string began, bool moved)
    {
        if (gear.Kind == GearKind.Stock && spot == "spent") return Fate.UsedUp;
        // Whoever is meant to have it has it, hanging or in hand.
        if (gear.End is { Kind: LocationKind.Person } person)
            return outermost.StartsWith($"person {person.Name} ", StringComparison.Ordinal) || outermost == $"hands {person.Name}" ? Fate.InPlace : Fate.Elsewhere;
        if (spot == "spent" || new[] { "person ", "hands ", "bag " }.Any(prefix => outermost.StartsWith(prefix, StringComparison.Ordinal))) return Fate.Astray;
        bool inside = outermost == "inside";
        if (gear.End is { } wanted && !(wanted == Location.Inside ? inside : spot == wanted.ToString())) return Fate.Elsewhere;
        if (gear.Stays is not null && inside && moved) return Fate.Elsewhere;
        if (inside) return moved ? Fate.CameHome : Fate.StayedInside;
        if (gear.Stays is not null) return Fate.Stays;
        if (gear.End is not null) return Fate.InPlace;
        if (spot != outermost) return Fate.WithItsBag;
        return began == "inside" ? Fate.LeftOutside : Fate.WasThere;
    }

    /// <summary>Where a thing is at the start and at the end, and whether it was moved between.</summary>
    private sealed record Stay(string Start, string End, bool Moved);

    private static Dictionary<string, Stay> Stays(Trace trace)
    {
        int[] last = [.. trace.Start];
        bool[] moved = new bool[last.Length];
        foreach (Change change in trace.Changes) (last[change.Variable], moved[change.Variable]) = (change.Value, true);
        return trace.Variables.Select((variable, index) => (variable, index)).Where(one => one.variable.Aspect == "place" && one.variable.Name.StartsWith("gear ", StringComparison.Ordinal))
            .ToDictionary(one => one.variable.Subject, one => new Stay(one.variable.States[trace.Start[one.index]], one.variable.States[last[one.index]], moved[one.index]));
    }

    /// <summary>Where the outermost bag is, and whether any on the way there was moved. Bags that hold each other in a circle are nowhere: a bag spot.</summary>
    private static (string Spot, bool Moved) Outermost(Dictionary<string, Stay> stays, string gear, Func<Stay, string> when)
    {
        string spot = when(stays[gear]);
        bool moved = stays[gear].Moved;
        for (int depth = 0; spot.StartsWith("bag ", StringComparison.Ordinal) && depth < stays.Count; depth++)
        {
            Stay bag = stays[spot["bag ".Length..]];
            (spot, moved) = (when(bag), moved || bag.Moved);
        }
        return (spot, moved);
    }
}
