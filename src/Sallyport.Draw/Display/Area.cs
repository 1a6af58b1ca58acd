namespace Sallyport.Draw;

/// <summary>An upright rectangle.</summary>
public readonly record struct Area(double Left, double Top, double Width, double Height)
{
    public double Right => Left + Width;

    public double Bottom => Top + Height;

    public Spot Centre => new(Left + Width / 2, Top + Height / 2);

    /// <summary>The same, larger by a margin on every side.</summary>
    public Area Grown(double by) => new(Left - by, Top - by, Width + 2 * by, Height + 2 * by);

    /// <summary>Whether the two share more than an edge.</summary>
    public bool Overlaps(Area other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    public bool Contains(Area other) => other.Left >= Left && other.Right <= Right && other.Top >= Top && other.Bottom <= Bottom;

    /// <summary>The point of the rectangle that lies nearest to another point.</summary>
    public Spot Nearest(Spot to) => new(Math.Clamp(to.X, Left, Right), Math.Clamp(to.Y, Top, Bottom));

    /// <summary>Whether a straight line has a point inside, its edge included.</summary>
    public bool Meets(Spot from, Spot to)
    {
        // Each side cuts the stretch [enter, leave] of the line's parameter; what is left at the end lies inside.
        double enter = 0, leave = 1;
        return Cut(from.X, to.X - from.X, Left, Right, ref enter, ref leave) && Cut(from.Y, to.Y - from.Y, Top, Bottom, ref enter, ref leave);

        static bool Cut(double start, double along, double low, double high, ref double enter, ref double leave)
        {
            if (along == 0) return start >= low && start <= high;
            double first = (low - start) / along, second = (high - start) / along;
            if (first > second) (first, second) = (second, first);
            enter = Math.Max(enter, first);
            leave = Math.Min(leave, second);
            return enter <= leave;
        }
    }
}
