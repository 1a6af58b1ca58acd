namespace Sallyport.Model;

/// <summary>Something in the power net that keeps its charge for a while after it is cut off. Until it has bled down it is a source;
/// batteries and arrays always are.</summary>
/// <param name="Node">The node that it hangs on.</param>
/// <param name="Bleeds">How long it takes to bleed down once nothing feeds it any more.</param>
/// <param name="Source">Where that figure comes from.</param>
public sealed record Capacitor(NodeId Node, Duration Bleeds, string Source);

/// <summary>What is known of a controller of switches.</summary>
/// <param name="Id">The controller, as lines name it.</param>
/// <param name="Common">What would make it fail together with every other controller that has the same word here, such as a converter that
/// feeds them; null when it fails alone.</param>
public sealed record SwitchController(string Id, string? Common);
