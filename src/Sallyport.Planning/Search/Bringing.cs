namespace Sallyport.Planning;

/// <summary>How the gear of a unit is brought, where there is more than one good way. Search chooses; all 0 is the usual way.</summary>
/// <param name="Ahead">Before how many of their own units earlier, at most, its gear is taken along already, where it hangs ready and carry points are free.</param>
/// <param name="HandOver">Where it changes hands when somebody carries it: where that person is, <see cref="AtLeg"/>, <see cref="PutDown"/> or <see cref="AtStow"/>.</param>
/// <param name="Down">Which thing is put down for want of a carry point: 0 for that which is needed last, 1 for that which is needed first.</param>
/// <param name="Stow">At which stow point: 0 for the least way round, 1 for the least way round with the way from there to where the thing is needed next.</param>
internal readonly record struct Bringing(byte Ahead, byte HandOver, byte Down, byte Stow)
{
    /// <summary>It is handed over where the leg is done that needs it, or where one gets onto the arm for that.</summary>
    public const byte AtLeg = 1;

    /// <summary>Who carries it puts it down at a stow point, and need not wait there.</summary>
    public const byte PutDown = 2;

    /// <summary>It is handed over at a stow point.</summary>
    public const byte AtStow = 3;

    /// <summary>How far ahead gear is taken along at most, units.</summary>
    public const byte MostAhead = 2;

    /// <summary>By field, the greatest value that there is a use for in a unit: 0 where nothing hangs on it.</summary>
    public static Bringing MostOf(SearchCase all, SearchCase.Unit unit)
    {
        ulong gear = 0, shared = 0, carried = 0;
        foreach (int l in unit.Legs) gear |= all.Data[l].With;
        int loads = 0;
        foreach (LegData leg in all.Data)
        {
            ulong needs = leg.With | leg.PicksUp | (leg.Restraint >= 0 ? 1UL << leg.Restraint : 0);
            if (!unit.Legs.Contains(all.LegIndex[leg.Leg.Id])) shared |= needs & gear;
            carried |= needs;
        }
        for (; carried != 0; carried &= carried - 1) loads++;
        bool isFull = loads > all.People.Min(person => person.CarryPoints.Length) && unit.Legs.Any(l => (all.Data[l].With | all.Data[l].PicksUp) != 0 || all.Data[l].Restraint >= 0);
        return new(gear != 0 ? MostAhead : (byte)0, shared != 0 && all.People.Length > 1 ? AtStow : (byte)0, isFull ? (byte)1 : (byte)0, isFull && all.Stows.Length > 1 ? (byte)1 : (byte)0);
    }

    /// <summary>Another value of one field; the same when there is none.</summary>
    /// <param name="most">See <see cref="MostOf"/>.</param>
    /// <param name="field">Which field, 0 to 3.</param>
    /// <param name="draw">At least 0 and below 1.</param>
    public Bringing Otherwise(Bringing most, int field, double draw) => field switch
    {
        0 => this with { Ahead = Another(Ahead, most.Ahead, draw) },
        1 => this with { HandOver = Another(HandOver, most.HandOver, draw) },
        2 => this with { Down = Another(Down, most.Down, draw) },
        _ => this with { Stow = Another(Stow, most.Stow, draw) },
    };

    private static byte Another(byte was, byte most, double draw) => most == 0 ? was : (byte)((was + 1 + (int)(draw * most)) % (most + 1));
}
