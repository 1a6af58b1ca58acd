using System.Runtime.CompilerServices;

namespace Sallyport.Physics;

/// <summary>Sine and cosine of an angle, which small corrections turn on without a new sine: most of the time of a propagation would be sines.</summary>
internal readonly struct Rotation(double sin, double cos)
{
    public readonly double Sin = sin;
    public readonly double Cos = cos;

    public static Rotation Of(double angle)
    {
        (double sin, double cos) = Math.SinCos(angle);
        return new(sin, cos);
    }

    /// <summary>Turned on by an angle, rad.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Rotation Plus(double angle)
    {
        (double sin, double less) = Math.Abs(angle) > 0.125 ? Large(angle) : Small(angle);
        return Plus(sin, less);
    }

    /// <summary>The same for corrections that are next to nothing.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Rotation PlusTiny(double angle)
    {
        (double sin, double less) = Tiny(angle);
        return Plus(sin, less);
    }

    /// <summary>Turned by an angle of which the sine is given, and what its cosine lacks of one: that keeps the last bits of a small turn.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Rotation Plus(double sin, double less) => new(Fma(Cos, sin, Fma(-Sin, less, Sin)), Fma(-Sin, sin, Fma(-Cos, less, Cos)));

    /// <summary>The sine of an angle that is most often next to nothing, and what its cosine lacks of one; below 0.002 rad by a series whose first term left out is below 3e-16.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (double Sin, double Less) Tiny(double angle)
    {
        if (Math.Abs(angle) > 0.002) return Large(angle);
        double x = angle * angle;
        return (Fma(x * angle, -1.0 / 6, angle), x * Fma(x, -1.0 / 24, 0.5));
    }

    // Below an eighth, by a series whose first term left out is below 1e-17.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (double Sin, double Less) Small(double angle)
    {
        double x = angle * angle;
        double sin = Fma(Fma(Fma(Fma(x, 1.0 / 362880, -1.0 / 5040), x, 1.0 / 120), x, -1.0 / 6), x * angle, angle);
        return (sin, x * Fma(Fma(Fma(Fma(x, 1.0 / 3628800, -1.0 / 40320), x, 1.0 / 720), x, -1.0 / 24), x, 0.5));
    }

    // Out of line: what is seldom called would crowd out what always is.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static (double Sin, double Less) Large(double angle)
    {
        if (Math.Abs(angle) <= 0.125) return Small(angle);
        (double sin, double cos) = Math.SinCos(angle);
        return (sin, 1 - cos);
    }

    public Rotation Plus(Rotation other) => new(Sin * other.Cos + Cos * other.Sin, Cos * other.Cos - Sin * other.Sin);

    public Rotation Minus(Rotation other) => new(Sin * other.Cos - Cos * other.Sin, Cos * other.Cos + Sin * other.Sin);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Fma(double x, double y, double z) => Math.FusedMultiplyAdd(x, y, z);
}
