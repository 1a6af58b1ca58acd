using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>Where a range chart has its time axis, so that a cursor can be laid over it. In the units of the picture.</summary>
/// <param name="Left">Where the axis begins.</param>
/// <param name="Right">Where it ends.</param>
/// <param name="From">The moment at its beginning.</param>
/// <param name="To">The moment at its end; straight in between.</param>
/// <param name="Top">Where the axis begins, below the title.</param>
public sealed record ChartFrame(double Left, double Right, Pet From, Pet To, double Top);
