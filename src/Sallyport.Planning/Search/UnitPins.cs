namespace Sallyport.Planning;

/// <summary>What was pinned by hand on a unit, as search honours it.</summary>
/// <param name="NotBefore">No start before this, s of PET.</param>
/// <param name="NotAfter">No start after this, s of PET.</param>
/// <param name="KeepsWho">Whether it stays with whom it is given to.</param>
/// <param name="Keeps">Whether its job is never left out.</param>
internal readonly record struct UnitPins(int NotBefore, int NotAfter, bool KeepsWho, bool Keeps)
{
    public static UnitPins None { get; } = new(int.MinValue, int.MaxValue, false, false);
}
