using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>The way home of somebody whose own tether line does not lead there: from where one climbed off a stopped arm.</summary>
public static class WayHome
{
    /// <summary>Seconds from a grip to the airlock: the standard line back, changes of reels included.</summary>
    /// <param name="lines">The person's standard lines.</param>
    /// <param name="grip">Where from.</param>
    /// <param name="slower">What the load multiplies span times by.</param>
    /// <returns>Seconds; a quarter of <see cref="int.MaxValue"/> when no line leads there.</returns>
    public static int Seconds(StandardLines lines, GripId grip, double slower)
    {
        if (lines.To(lines.Book.Graph.IndexOf(grip), null) is not { } line) return int.MaxValue / 4;
        ImmutableArray<WayPiece> way = lines.Book.Between(line, lines.Book.Root, slower);
        return way.Sum(piece => piece.Seconds);
    }
}
