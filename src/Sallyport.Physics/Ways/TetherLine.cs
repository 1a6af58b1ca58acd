namespace Sallyport.Physics;

/// <summary>
/// Where a person is and how the tether got there: the grips from the airlock to here that the tether lies along, and where
/// further reels were hooked on. Walking on pays out; stepping back over the last span retracts.
/// </summary>
/// <remarks>Lines of one <see cref="LineBook"/> are shared: the same way gives the same object, so lines compare by reference.</remarks>
public sealed class TetherLine
{
    internal readonly Dictionary<int, TetherLine> Children = [];

    internal TetherLine(TetherLine? parent, int grip, bool hooked, int reel, int outMillimetres)
    {
        Parent = parent;
        Grip = grip;
        Hooked = hooked;
        Reel = reel;
        OutMillimetres = outMillimetres;
        Depth = parent is null ? 0 : parent.Depth + 1;
        Anchor = hooked ? grip : parent!.Anchor;
    }

    /// <summary>The line one grip, or one hook, shorter; null at the airlock.</summary>
    public TetherLine? Parent { get; }

    /// <summary>Index of the grip where the person is.</summary>
    public int Grip { get; }

    /// <summary>Whether a reel was hooked on here, so that this is where the reel in use begins.</summary>
    public bool Hooked { get; }

    /// <summary>Which reel is in use, from 0.</summary>
    public int Reel { get; }

    /// <summary>What the reel in use has paid out, mm.</summary>
    public int OutMillimetres { get; }

    /// <summary>Grips and hooks between the airlock and here.</summary>
    public int Depth { get; }

    /// <summary>Index of the grip where the reel in use hangs.</summary>
    public int Anchor { get; }

    /// <summary>The line that two lines have in common.</summary>
    public static TetherLine Common(TetherLine a, TetherLine b)
    {
        while (a.Depth > b.Depth) a = a.Parent!;
        while (b.Depth > a.Depth) b = b.Parent!;
        while (!ReferenceEquals(a, b))
        {
            a = a.Parent!;
            b = b.Parent!;
        }
        return a;
    }
}
