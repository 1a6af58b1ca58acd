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

    public BagLoads(SearchCase all)
    {
        gear = [.. all.Scenario.Gear];
        Dictionary<GearId, int> index = gear.Select((thing, i) => (thing.Id, i)).ToDictionary(pair => pair.Id, pair => pair.i);
        start = [.. gear.Select(thing => thing.Start.Kind == LocationKind.Bag ? index[new(thing.Start.Name)] : -1)];
        now = [.. start];
        bool limited = gear.Any(thing => thing.Holds is not null);
        moves = [.. all.Legs.Select(leg => !limited ? [] : leg.Steps.SelectMany(step => step.Makes).OfType<MoveGear>()
            .Select(move => (index[move.Gear], move.To.Kind == LocationKind.Bag ? index[new(move.To.Name)] : -1)).ToArray())];
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
        double volume = 0, mass = 0;
        for (int thing = 0; thing < now.Length; thing++)
        {
            if (now[thing] != bag) continue;
            items++;
            volume += Volume(thing);
            mass += Mass(thing);
        }
        return items <= most.Items && volume <= most.Volume * (1 + Forgiven) && mass <= most.Mass * (1 + Forgiven);
    }

    // A bag in a bag holds no further bag: one level is all there is to add.
    private double Volume(int thing)
    {
        double contents = 0;
        for (int inner = 0; inner < now.Length; inner++)
            if (now[inner] == thing) contents += gear[inner].Volume * gear[inner].Count;
        return Math.Max(gear[thing].Volume * gear[thing].Count, contents);
    }

    private double Mass(int thing)
    {
        double mass = gear[thing].Mass * gear[thing].Count;
        for (int inner = 0; inner < now.Length; inner++)
            if (now[inner] == thing) mass += gear[inner].Mass * gear[inner].Count;
        return mass;
    }
}
