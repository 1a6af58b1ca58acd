namespace Sallyport.Draw;

/// <summary>Points that something was drawn on, counted in cells so that one sees in four looks whether a rectangle has any of them inside.</summary>
internal sealed class Blots
{
    /// <summary>How wide and high a cell is: so large that the counts of a strip stay small in memory, so small that a line of letters covers some.</summary>
    private const double Cell = 2;

    private readonly Area region;
    private readonly int across;
    private readonly int down;
    private readonly int[] sums;

    /// <param name="region">Where it is looked; points outside are left out.</param>
    /// <param name="points">The points.</param>
    public Blots(Area region, IEnumerable<Spot> points)
    {
        this.region = region;
        (across, down) = ((int)Math.Ceiling(region.Width / Cell) + 1, (int)Math.Ceiling(region.Height / Cell) + 1);
        sums = new int[across * down];
        foreach (Spot point in points)
        {
            int column = (int)Math.Floor((point.X - region.Left) / Cell) + 1, row = (int)Math.Floor((point.Y - region.Top) / Cell) + 1;
            if (column >= 1 && column < across && row >= 1 && row < down) sums[row * across + column]++;
        }
        for (int row = 1; row < down; row++)
            for (int column = 1; column < across; column++)
                sums[row * across + column] += sums[(row - 1) * across + column] + sums[row * across + column - 1] - sums[(row - 1) * across + column - 1];
    }

    /// <summary>What lies between two heights, to look at several rectangles there.</summary>
    public Band Between(double top, double bottom)
    {
        int first = Math.Clamp((int)Math.Floor((top - region.Top) / Cell) + 1, 0, down - 1), last = Math.Clamp((int)Math.Floor((bottom - region.Top) / Cell), 0, down - 1);
        return first < last ? new(sums.AsSpan(first * across, across), sums.AsSpan(last * across, across), region.Left) : default;
    }

    /// <summary>A part of the height: the counts down to its top and to its foot.</summary>
    public readonly ref struct Band(ReadOnlySpan<int> above, ReadOnlySpan<int> within, double from)
    {
        private readonly ReadOnlySpan<int> above = above, within = within;

        /// <summary>Whether a point surely lies between. No is no promise that none does: points near the edge are not seen.</summary>
        public bool AnyIn(double left, double right)
        {
            if (within.IsEmpty) return false;
            int first = Math.Clamp((int)Math.Floor((left - from) / Cell) + 1, 0, within.Length - 1), last = Math.Clamp((int)Math.Floor((right - from) / Cell), 0, within.Length - 1);
            return first < last && within[last] - within[first] > above[last] - above[first];
        }
    }

    /// <summary>Points along a line, both ends with it.</summary>
    public static IEnumerable<Spot> Along(Spot from, Spot to)
    {
        int parts = Math.Max(1, (int)Math.Ceiling(Math.Max(Math.Abs(to.X - from.X), Math.Abs(to.Y - from.Y)) / 3));
        for (int i = 0; i <= parts; i++) yield return new(from.X + (to.X - from.X) * i / parts, from.Y + (to.Y - from.Y) * i / parts);
    }

    /// <summary>Points all over a rectangle.</summary>
    public static IEnumerable<Spot> Over(Area area) =>
        Along(new(area.Left, area.Top), new(area.Left, area.Bottom)).SelectMany(spot => Along(spot, spot with { X = area.Right }));
}
