namespace Sallyport.Model;

/// <summary>A fastener, or several alike that are driven one after another in one step.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct BoltId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>A fastener whose turns are counted over the plan.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">As shown.</param>
/// <param name="Number">How many alike a step drives.</param>
/// <param name="Start">Turns that each of them is in at the start.</param>
/// <param name="Closed">Turns that each is in when it is closed.</param>
/// <param name="Torque">The torque to close it with, N·m; null when it follows from <paramref name="Preload"/>.</param>
/// <param name="Preload">What the torque is to bring about; null when the torque is given.</param>
/// <param name="Source">Where the figures come from.</param>
/// <param name="Verified">Whether that source was looked up.</param>
public sealed record Bolt(BoltId Id, string Title, int Number, double Start, Band Closed, Band? Torque, Preload? Preload, string Source, bool Verified);

/// <summary>The force that a fastener is to be drawn with, and what joins it to a torque.</summary>
/// <param name="Force">The preload wanted, N.</param>
/// <param name="Diameter">Nominal diameter, m.</param>
/// <param name="NutFactor">K in torque = K × diameter × force; depends on finish and grease.</param>
/// <param name="Scatter">How far the preload strays from that at one torque, either way, as a share of it; from 0 to below 1.</param>
public sealed record Preload(Band Force, double Diameter, double NutFactor, double Scatter);
