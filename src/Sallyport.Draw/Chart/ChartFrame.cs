using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>Where a range chart has its time axis, so that a cursor can be laid over it. In the units of the picture.</summary>
/// <param name="Left">Where the axis begins.</param>
/// <param name="Right">Where it ends.</param>
/// <param name="From">The moment at its beginning.</param>
/// <param name="To">The moment at its end; straight in between.</param>
/// <param name="Top">Where the axis begins, below the title.</param>
public sealed record ChartFrame(double Left, double Right, Pet From, Pet To, double Top)
{
    /// <summary>The strips, from above.</summary>
    public ImmutableArray<ChartStrip> Strips { get; init; } = [];
}

/// <summary>Where the strip of a person is, in the units of the picture.</summary>
/// <param name="Person">Whose.</param>
/// <param name="Top">Its upper edge: the most minutes that it shows.</param>
/// <param name="Bottom">Its foot: safe inside.</param>
public sealed record ChartStrip(PersonId Person, double Top, double Bottom);
