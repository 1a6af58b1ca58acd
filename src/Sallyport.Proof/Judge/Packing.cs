using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What lies in which bag, followed from change to change of a trace: what is asked of it is as it is after the last change followed.</summary>
internal sealed class Packing
{
    private const string InBag = "bag ";

    private readonly Case given;
    private readonly Dictionary<GearId, Gear> gear;
    private readonly Dictionary<int, Gear> places = [], counts = [];
    private readonly Dictionary<GearId, GearId> bagOf = [];
    private readonly Dictionary<GearId, SortedSet<string>> contents = [];
    private readonly Dictionary<GearId, int> pieces = [];

    public Packing(Case given)
    {
        this.given = given;
        gear = given.Scenario.Gear.ToDictionary(thing => thing.Id);
        foreach (Gear thing in given.Scenario.Gear)
        {
            int place = given.History[$"gear {thing.Id} place"];
            places[place] = thing;
            Put(thing.Id, given.Trace.Variables[place].States[given.Trace.Start[place]]);
            if (given.History.Find($"gear {thing.Id} count") is not { } count) continue;
            counts[count] = thing;
            pieces[thing.Id] = given.Trace.Start[count];
        }
    }

    /// <summary>Every bag at the start, and then each bag at each moment at which something in it has changed, bags in it included.</summary>
    public IEnumerable<(Pet At, ActivityId? By, Gear Bag)> Changed()
    {
        foreach (Gear bag in given.Scenario.Gear.Where(thing => thing.Kind == GearKind.Bag)) yield return (given.Trace.From, null, bag);
        HashSet<GearId> touched = [];
        for (int i = 0; i < given.Trace.Changes.Length; i++)
        {
            Change change = given.Trace.Changes[i];
            touched.UnionWith(Apply(change));
            if (touched.Count == 0 || (i + 1 < given.Trace.Changes.Length && given.Trace.Changes[i + 1].At == change.At)) continue;
            foreach (GearId bag in touched.OrderBy(id => id.Value, StringComparer.Ordinal)) yield return (change.At, change.By, gear[bag]);
            touched.Clear();
        }
    }

    /// <summary>Follows one change, and gives the bags in which something has changed by it.</summary>
    public IReadOnlyCollection<GearId> Apply(Change change)
    {
        if (!places.TryGetValue(change.Variable, out Gear? moved) & !counts.TryGetValue(change.Variable, out Gear? used)) return [];
        HashSet<GearId> touched = [];
        if (moved is not null)
        {
            Touch(moved.Id, touched);
            Put(moved.Id, given.Trace.Variables[change.Variable].States[change.Value]);
            Touch(moved.Id, touched);
        }
        else if (used is not null)
        {
            pieces[used.Id] = change.Value;
            Touch(used.Id, touched);
        }
        return touched;
    }

    /// <summary>What lies in a bag directly.</summary>
    public IEnumerable<Gear> In(GearId bag) => contents.TryGetValue(bag, out SortedSet<string>? inside) ? inside.Select(id => gear[new(id)]) : [];

    /// <summary>The bag that a thing lies in; null when it lies in none.</summary>
    public GearId? BagOf(GearId thing) => bagOf.TryGetValue(thing, out GearId bag) ? bag : null;

    /// <summary>The volume of a thing, m³: a stock by the piece; a bag's own, or that of its contents where that is more.</summary>
    public double VolumeOf(Gear thing) => VolumeOf(thing, 0);

    /// <summary>The mass of a thing with everything in it, kg: a stock by the piece.</summary>
    public double MassOf(Gear thing) => MassOf(thing, 0);

    private double VolumeOf(Gear thing, int depth) => thing.Kind == GearKind.Bag && depth < contents.Count
        ? Math.Max(thing.Volume, In(thing.Id).Sum(inner => VolumeOf(inner, depth + 1)))
        : thing.Volume * Pieces(thing);

    // Bags that hold each other in a circle end the sum after as many steps as there are bags; the circle is a finding of its own.
    private double MassOf(Gear thing, int depth) => thing.Mass * Pieces(thing) + (depth < contents.Count ? In(thing.Id).Sum(inner => MassOf(inner, depth + 1)) : 0);

    private int Pieces(Gear thing) => pieces.TryGetValue(thing.Id, out int left) ? Math.Max(1, left) : 1;

    private void Put(GearId thing, string place)
    {
        if (bagOf.Remove(thing, out GearId before)) contents[before].Remove(thing.Value);
        if (!place.StartsWith(InBag, StringComparison.Ordinal)) return;
        GearId bag = new(place[InBag.Length..]);
        bagOf[thing] = bag;
        if (!contents.TryGetValue(bag, out SortedSet<string>? inside)) contents[bag] = inside = new(StringComparer.Ordinal);
        inside.Add(thing.Value);
    }

    private void Touch(GearId thing, HashSet<GearId> touched)
    {
        for (GearId? bag = BagOf(thing); bag is { } holder && touched.Add(holder);) bag = BagOf(holder);
    }
}
