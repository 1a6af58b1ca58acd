namespace Sallyport.Planning;

/// <summary>What a decoded plan is worth, compared in order and never blended.</summary>
/// <param name="Broken">Seconds by which limits are broken, added up; what is impossible counts as very much.</param>
/// <param name="Value">The value of the jobs in it.</param>
/// <param name="Closed">0 when a decision near the end is open as the scenario wishes, or none is wished; 1 when not.</param>
/// <param name="End">When the hatch is closed, s of PET.</param>
/// <param name="Dead">Seconds in which something is shut down, added up.</param>
/// <param name="Unbalance">Seconds that people wait for each other at the hatch, added up.</param>
internal readonly record struct PlanScore(long Broken, int Value, int Closed, int End, int Dead, int Unbalance) : IComparable<PlanScore>
{
    public static PlanScore Worst { get; } = new(long.MaxValue, 0, 1, int.MaxValue, int.MaxValue, int.MaxValue);

    /// <summary>Negative when this one is the better plan.</summary>
    public int CompareTo(PlanScore other)
    {
        int order = Broken.CompareTo(other.Broken);
        if (order == 0) order = other.Value.CompareTo(Value);
        if (order == 0) order = Closed.CompareTo(other.Closed);
        if (order == 0) order = End.CompareTo(other.End);
        if (order == 0) order = Dead.CompareTo(other.Dead);
        return order != 0 ? order : Unbalance.CompareTo(other.Unbalance);
    }
}
