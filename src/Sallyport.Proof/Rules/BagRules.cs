using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Bags hold what they are made for.</summary>
internal sealed class GearNested : Rule
{
    public override RuleCard Card { get; } = new(new("gear.nested"),
        "a thing that nobody finds again or gets out with gloves on, and a bag that tears or does not close",
        "at every moment, what lies in each bag: a bag in a bag in a bag, a bag that lies in itself, a bag where none may lie, a size class that it does not take, "
            + "more things than it has places for; a stock counts as one thing",
        "what the scenario says each bag holds; no bag in a bag in a bag (common practice, no source)",
        Guard.Decoder("legs that would put more into a bag than it has places for are not planned; the reader refuses a start and a step that no plan could mend"));

    public override IEnumerable<string> Unseen(Scenario scenario) => BagsWithoutHolds(scenario);

    public override IEnumerable<Finding> Find(Case given)
    {
        Packing packing = new(given);
        HashSet<string> told = [];
        foreach ((Pet at, ActivityId? by, Gear bag) in packing.Changed())
        {
            HashSet<string> now = [];
            foreach ((string sentence, string mend, string measured, string limit, string margin) in Faults(packing, bag))
            {
                now.Add(sentence);
                if (told.Add(sentence)) yield return Broken(given, at, [], sentence, mend, by) with { Measured = measured, Limit = limit, Margin = margin };
            }
            told.RemoveWhere(sentence => sentence.StartsWith($"{bag.Id} ", StringComparison.Ordinal) && !now.Contains(sentence));
        }
    }

    // Each sentence begins with the bag, so that what has ended can be told again when it comes back.
    private static IEnumerable<(string Sentence, string Mend, string Measured, string Limit, string Margin)> Faults(Packing packing, Gear bag)
    {
        if (Chain(packing, bag.Id) is { Count: > 1 } around)
            yield return ($"{bag.Id} lies in itself, by way of {string.Join(", ", around)}.", $"Put {bag.Id} somewhere else.", "", "", "");
        foreach (Gear inner in packing.In(bag.Id).Where(inner => inner.Kind == GearKind.Bag))
            foreach (Gear innermost in packing.In(inner.Id).Where(one => one.Kind == GearKind.Bag))
                if (innermost.Id != bag.Id && innermost.Id != inner.Id)
                    yield return ($"{bag.Id} holds {inner.Id}, which holds {innermost.Id}: a bag in a bag in a bag.", $"Take {innermost.Id} out of {inner.Id}.", "3 bags", "2 bags", "-1 bag");
        if (bag.Holds is not { } holds) yield break;
        int items = 0;
        foreach (Gear thing in packing.In(bag.Id))
        {
            items++;
            if (!holds.Sizes.Contains(thing.Size))
                yield return ($"{bag.Id} holds {thing.Id}, which is {thing.Size}; it takes {string.Join(", ", holds.Sizes)}.", $"Put {thing.Id} into a bag that takes {thing.Size}.", "", "", "");
            if (thing.Kind == GearKind.Bag && !holds.Bags)
                yield return ($"{bag.Id} holds {thing.Id}, and takes no bags.", $"Carry {thing.Id} by itself.", "", "", "");
        }
        if (items > holds.Items)
            yield return ($"{bag.Id} holds {Things(items)}, and has places for {holds.Items}.", $"Put something into another bag before {bag.Id} gets more.",
                Things(items), Things(holds.Items), Things(holds.Items - items));
    }

    private static string Things(int count) => $"{count} thing{(Math.Abs(count) == 1 ? "" : "s")}";

    /// <summary>The bags from one outward until it comes round to itself; one alone when it does not.</summary>
    private static List<GearId> Chain(Packing packing, GearId bag)
    {
        List<GearId> chain = [bag];
        for (GearId? outer = packing.BagOf(bag); outer is { } here; outer = packing.BagOf(here))
        {
            if (here == bag) return chain.Count == 1 ? [bag, bag] : chain;
            if (chain.Contains(here)) break;
            chain.Add(here);
        }
        return [bag];
    }

    /// <summary>Bags of which nothing is said, in words; null when all say what they hold.</summary>
    public static IEnumerable<string> BagsWithoutHolds(Scenario scenario)
    {
        GearId[] without = [.. scenario.Gear.Where(thing => thing.Kind == GearKind.Bag && thing.Holds is null).Select(thing => thing.Id)];
        return without.Length == 0 ? [] : [$"bags that do not say what they hold: {string.Join(", ", without)}"];
    }
}

/// <summary>Bags are not overfilled.</summary>
internal sealed class GearVolume : Rule
{
    // Far below any figure of a file, far above the last bit of a sum.
    private const double Forgiven = 1e-9;

    public override RuleCard Card { get; } = new(new("gear.volume"),
        "a bag that does not close, or pulls loose what it hangs from",
        "at every moment, volume and mass of everything in each bag, stocks by the piece; a bag in it counts with its own volume, or with that of its contents where "
            + "that is more, and with its mass and theirs",
        "what the scenario says each bag holds",
        Guard.Decoder("legs that would overfill a bag are not planned, stocks reckoned full; the reader refuses a bag that is overfilled at the start"));

    public override string? Missing(Scenario scenario) =>
        scenario.Gear.Any(thing => thing.Kind == GearKind.Bag) && !scenario.Gear.Any(thing => thing.Holds is not null) ? "no bag says what it holds" : null;

    public override IEnumerable<string> Unseen(Scenario scenario) => GearNested.BagsWithoutHolds(scenario);

    public override IEnumerable<Finding> Find(Case given)
    {
        Packing packing = new(given);
        HashSet<(GearId, string)> over = [];
        foreach ((Pet at, ActivityId? by, Gear bag) in packing.Changed())
        {
            if (bag.Holds is not { } holds) continue;
            double volume = packing.In(bag.Id).Sum(packing.VolumeOf) * 1000, mass = packing.In(bag.Id).Sum(packing.MassOf);
            if (Crosses(over, bag.Id, "L", volume, holds.Volume * 1000)) yield return Over(given, at, by, bag, "L", volume, holds.Volume * 1000);
            if (Crosses(over, bag.Id, "kg", mass, holds.Mass)) yield return Over(given, at, by, bag, "kg", mass, holds.Mass);
        }
    }

    /// <summary>Whether a bag is overfilled now and was not just before.</summary>
    private static bool Crosses(HashSet<(GearId, string)> over, GearId bag, string unit, double measured, double limit)
    {
        if (measured > limit * (1 + Forgiven)) return over.Add((bag, unit));
        over.Remove((bag, unit));
        return false;
    }

    private Finding Over(Case given, Pet at, ActivityId? by, Gear bag, string unit, double measured, double limit) =>
        Broken(given, at, [], $"{bag.Id} holds {Figure(measured)} {unit}, and takes {Figure(limit)} {unit}.", $"Take something out of {bag.Id} before more goes in.", by) with
        {
            Measured = $"{Figure(measured)} {unit}",
            Limit = $"{Figure(limit)} {unit}",
            Margin = $"{Figure(limit - measured)} {unit}",
        };

    private static string Figure(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
