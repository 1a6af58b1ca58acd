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

    /// <summary>Turned on by an angle, rad. Below an eighth by series, whose first term left out is below 1e-17.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Rotation Plus(double angle)
    {
        if (Math.Abs(angle) > 0.125) return Plus(Of(angle));
        double x = angle * angle;
        double sin = Fma(Fma(Fma(Fma(x, 1.0 / 362880, -1.0 / 5040), x, 1.0 / 120), x, -1.0 / 6), x * angle, angle);
        double less = x * Fma(Fma(Fma(Fma(x, 1.0 / 3628800, -1.0 / 40320), x, 1.0 / 720), x, -1.0 / 24), x, 0.5);
        return By(sin, less);
    }

    /// <summary>The same for corrections that are next to nothing: a shorter series serves below 0.002 rad.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Rotation PlusTiny(double angle)
    {
        if (Math.Abs(angle) > 0.002) return Plus(Of(angle));
        double x = angle * angle;
        return By(Fma(Fma(x, 1.0 / 120, -1.0 / 6), x * angle, angle), x * Fma(x, -1.0 / 24, 0.5));
    }

    public Rotation Plus(Rotation other) => new(Sin * other.Cos + Cos * other.Sin, Cos * other.Cos - Sin * other.Sin);

    public Rotation Minus(Rotation other) => new(Sin * other.Cos - Cos * other.Sin, Cos * other.Cos + Sin * other.Sin);

    /// <summary>Turned by an angle of which the sine is given, and what its cosine lacks of one: that keeps the last bits of a small turn.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Rotation By(double sin, double less) => new(Fma(Cos, sin, Fma(-Sin, less, Sin)), Fma(-Sin, sin, Fma(-Cos, less, Cos)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Fma(double x, double y, double z) => Math.FusedMultiplyAdd(x, y, z);
}
