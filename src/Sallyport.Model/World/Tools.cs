namespace Sallyport.Model;

/// <summary>What a battery tool can do before it is recharged.</summary>
/// <param name="ByTurns">Whether it is counted in turns of a fastener; otherwise in uses, one a step that needs the tool.</param>
/// <param name="Full">Turns or uses at the start.</param>
/// <param name="Keep">What must be left, as the scenario's reserve.</param>
/// <param name="Source">Where both figures come from.</param>
public sealed record ToolCharge(bool ByTurns, double Full, double Keep, string Source)
{
    /// <summary>The word that figures are shown with.</summary>
    public string Unit => ByTurns ? "turns" : "uses";
}

/// <summary>What one way of being held takes.</summary>
/// <param name="Kind">How the person is held.</param>
/// <param name="Torque">The most torque worked against it, N·m.</param>
/// <param name="Force">The most force worked against it, N.</param>
/// <param name="Source">Where both figures come from.</param>
/// <param name="Verified">Whether that source was looked up.</param>
public sealed record FootingStrength(Footing Kind, double Torque, double Force, string Source, bool Verified);
