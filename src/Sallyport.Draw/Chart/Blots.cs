namespace Sallyport.Draw;

/// <summary>Points that something was drawn on, counted so that one sees in four looks whether a rectangle has any of them inside.</summary>
internal sealed class Blots
{
    private readonly Area region;
    private readonly int across;
    private readonly int down;
    private readonly int[] sums;

    /// <param name="region">Where it is looked; points outside are left out.</param>
    /// <param name="points">The points.</param>
    public Blots(Area region, IEnumerable<Spot> points)
    {
        this.region = region;
        (across, down) = ((int)Math.Ceiling(region.Width) + 1, (int)Math.Ceiling(region.Height) + 1);
        sums = new int[across * down];
        foreach (Spot point in points)
        {
            int column = (int)Math.Floor(point.X - region.Left) + 1, row = (int)Math.Floor(point.Y - region.Top) + 1;
            if (column >= 1 && column < across && row >= 1 && row < down) sums[row * across + column]++;
        }
        for (int row = 1; row < down; row++)
            for (int column = 1; column < across; column++)
                sums[row * across + column] += sums[(row - 1) * across + column] + sums[row * across + column - 1] - sums[(row - 1) * across + column - 1];
    }

    /// <summary>Whether a point surely lies within. No is no promise that none does: points near the edge are not seen.</summary>
    public bool AnyIn(Area area)
    {
        int left = Math.Clamp((int)Math.Floor(area.Left - region.Left) + 1, 0, across - 1), right = Math.Clamp((int)Math.Floor(area.Right - region.Left), 0, across - 1);
        int top = Math.Clamp((int)Math.Floor(area.Top - region.Top) + 1, 0, down - 1), bottom = Math.Clamp((int)Math.Floor(area.Bottom - region.Top), 0, down - 1);
        return left < right && top < bottom && sums[bottom * across + right] - sums[top * across + right] - sums[bottom * across + left] + sums[top * across + left] > 0;
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
