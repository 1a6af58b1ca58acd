using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What is in which bag while a plan is decoded, as far as steps move things in and out. Stocks count as full, so that a bag is
/// never thought emptier than it is.</summary>
internal sealed class BagLoads
{
    private const double Forgiven = 1e-9;

    private readonly Gear[] gear;
    private readonly int[] start, now;
    private readonly (int Thing, int Bag)[][] moves;

    // By thing, whether anything is ever in it, and its own volume and mass, all of it together.
    private readonly bool[] mayHold;
    private readonly double[] volume, mass;

    public BagLoads(SearchCase all)
    {
        gear = [.. all.Scenario.Gear];
        Dictionary<GearId, int> index = gear.Select((thing, i) => (thing.Id, i)).ToDictionary(pair => pair.Id, pair => pair.i);
        start = [.. gear.Select(thing => thing.Start.Kind == LocationKind.Bag ? index[new(thing.Start.Name)] : -1)];
        now = [.. start];
        bool limited = gear.Any(thing => thing.Holds is not null);
        moves = [.. all.Legs.Select(leg => !limited ? [] : leg.Steps.SelectMany(step => step.Makes).OfType<MoveGear>()
            .Select(move => (index[move.Gear], move.To.Kind == LocationKind.Bag ? index[new(move.To.Name)] : -1)).ToArray())];
        mayHold = new bool[gear.Length];
        foreach (int bag in start.Concat(moves.SelectMany(leg => leg).Select(move => move.Bag)))
            if (bag >= 0) mayHold[bag] = true;
        (volume, mass) = ([.. gear.Select(thing => thing.Volume * thing.Count)], [.. gear.Select(thing => thing.Mass * thing.Count)]);
    }

    /// <summary>By thing, the bag that it is in; -1 for none.</summary>
    public int[] Now => now;

    /// <summary>Everything where it is at the start.</summary>
    public void Reset() => start.CopyTo(now, 0);

    /// <summary>Does what the steps of a leg do, and says whether every bag still holds what is in it.</summary>
    public bool Do(int leg)
    {
        bool holds = true;
        foreach ((int thing, int bag) in moves[leg])
        {
            now[thing] = bag;
            for (int outer = bag, depth = 0; outer >= 0 && depth < 2; outer = now[outer], depth++) holds &= Holds(outer);
        }
        return holds;
    }

    private bool Holds(int bag)
    {
        if (gear[bag].Holds is not { } most) return true;
        int items = 0;
        double bulk = 0, weight = 0;
        for (int thing = 0; thing < now.Length; thing++)
        {
            if (now[thing] != bag) continue;
            items++;
            bulk += Volume(thing);
            weight += Mass(thing);
        }
        return items <= most.Items && bulk <= most.Volume * (1 + Forgiven) && weight <= most.Mass * (1 + Forgiven);
    }

    // A bag in a bag holds no further bag: one level is all there is to add.
    private double Volume(int thing)
    {
        if (!mayHold[thing]) return volume[thing];
        double contents = 0;
        for (int inner = 0; inner < now.Length; inner++)
            if (now[inner] == thing) contents += volume[inner];
        return Math.Max(volume[thing], contents);
    }

    private double Mass(int thing)
    {
        if (!mayHold[thing]) return mass[thing];
        double all = mass[thing];
        for (int inner = 0; inner < now.Length; inner++)
            if (now[inner] == thing) all += mass[inner];
        return all;
    }
}
