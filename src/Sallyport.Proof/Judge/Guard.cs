namespace Sallyport.Proof;

/// <summary>Where a plan is kept clear of a rule before the proof judges it.</summary>
public enum GuardPlace
{
    /// <summary>The decoder of search makes no plan that breaks it, or counts what it breaks by.</summary>
    Decoder,
    /// <summary>Expansion keeps it, whatever the outline says, or refuses the outline.</summary>
    Expansion,
    /// <summary>Nothing before the proof looks at it: search offers a plan, and the proof refuses it.</summary>
    Proof,
}

/// <summary>What keeps an honest plan clear of a rule. The proof judges it in any case, and leans on none of this.</summary>
/// <param name="Place">Where.</param>
/// <param name="How">How, in words; for the proof, why nothing before it looks.</param>
public sealed record Guard(GuardPlace Place, string How)
{
    /// <summary>The decoder keeps clear of it.</summary>
    public static Guard Decoder(string how) => new(GuardPlace.Decoder, how);

    /// <summary>Expansion keeps it.</summary>
    public static Guard Expansion(string how) => new(GuardPlace.Expansion, how);

    /// <summary>The proof alone, as referee.</summary>
    public static Guard Proof(string how) => new(GuardPlace.Proof, how);

    /// <summary>As people read it.</summary>
    public override string ToString() => (Place == GuardPlace.Proof ? "the proof alone: " : $"{Place.ToString().ToLowerInvariant()}: ") + How;
}
