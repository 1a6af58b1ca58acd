namespace Sallyport.Model;

/// <summary>What it takes to bring in somebody who cannot come in alone.</summary>
/// <param name="Secure">To make that person ready to be moved, once reached.</param>
/// <param name="Slower">What the time of every span home is multiplied by; at least 1.</param>
/// <param name="Enter">For both to come in through the hatch.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record HelpTimes(Duration Secure, double Slower, Duration Enter, string Source);
