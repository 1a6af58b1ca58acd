namespace Sallyport.Model;

/// <summary>What people outside do for themselves between legs. How often is a limit of the rules <c>glove.check</c> and <c>work.rest</c>.</summary>
/// <param name="Gloves">The check of gloves and helmet; null when the sortie has none of its own.</param>
/// <param name="Rest">Rests; null when the sortie has none of its own.</param>
public sealed record Checks(GloveCheck? Gloves, RestTime? Rest);

/// <summary>A check of gloves and helmet where one is.</summary>
/// <param name="Time">How long it takes, and to break it off.</param>
/// <param name="AfterRough">Whether one is due between a leg with a rough step and the next leg.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record GloveCheck(HandlingTime Time, bool AfterRough, string Source);

/// <summary>What counts as a rest.</summary>
/// <param name="Least">The shortest rest that counts; a wait as long is one too.</param>
/// <param name="Source">Where the figure comes from.</param>
public sealed record RestTime(Duration Least, string Source);
