using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Sallyport.Physics;

/// <summary>Sines and cosines of four angles at once. The platform's own does the same for any angle; here most of the time would be its care for the large ones.</summary>
internal static class FourAngles
{
    /// <summary>Up to here two parts of π/2 leave no error that shows; larger angles go to the platform.</summary>
    private const double Largest = 1e5;

    private const double RoundingShift = 6755399441055744.0;

    /// <summary>Sines and cosines, each within two units of the last place of one.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> Sin, Vector256<double> Cos) SinCos(Vector256<double> angles)
    {
        if (!Vector256.LessThanAll(Vector256.Abs(angles), Vector256.Create(Largest))) return Vector256.SinCos(angles);
        // The nearest quarter turn, whose number stands in the last bits after a large number is added.
        Vector256<double> shifted = Fma(angles, 2 / Math.PI, Vector256.Create(RoundingShift)), quarters = shifted - Vector256.Create(RoundingShift);
        Vector256<long> number = shifted.AsInt64();
        Vector256<double> x = Fma(quarters, -6.123233995736766e-17, Fma(quarters, -Math.PI / 2, angles)), z = x * x;

        // The polynomials of least error on a quarter turn that mathematical libraries have used since 1993 (fdlibm).
        Vector256<double> s = Fma(z, 1.58969099521155010221e-10, Vector256.Create(-2.50507602534068634195e-08));
        s = Vector256.FusedMultiplyAdd(z, s, Vector256.Create(2.75573137070700676789e-06));
        s = Vector256.FusedMultiplyAdd(z, s, Vector256.Create(-1.98412698298579493134e-04));
        s = Vector256.FusedMultiplyAdd(z, s, Vector256.Create(8.33333333332248946124e-03));
        s = Vector256.FusedMultiplyAdd(z, s, Vector256.Create(-1.66666666666666324348e-01));
        s = Vector256.FusedMultiplyAdd(z * x, s, x);
        Vector256<double> c = Fma(z, -1.13596475577881948265e-11, Vector256.Create(2.08757232129817482790e-09));
        c = Vector256.FusedMultiplyAdd(z, c, Vector256.Create(-2.75573143513906633035e-07));
        c = Vector256.FusedMultiplyAdd(z, c, Vector256.Create(2.48015872894767294178e-05));
        c = Vector256.FusedMultiplyAdd(z, c, Vector256.Create(-1.38888888888741095749e-03));
        c = Vector256.FusedMultiplyAdd(z, c, Vector256.Create(4.16666666666666019037e-02));
        c = Vector256.FusedMultiplyAdd(z * z, c, Fma(z, -0.5, Vector256<double>.One));

        Vector256<double> odd = Vector256.Equals(number & Vector256<long>.One, Vector256<long>.One).AsDouble();
        Vector256<double> sinSign = ((number & Vector256.Create(2L)) << 62).AsDouble();
        Vector256<double> cosSign = (((number + Vector256<long>.One) & Vector256.Create(2L)) << 62).AsDouble();
        return (Vector256.ConditionalSelect(odd, c, s) ^ sinSign, Vector256.ConditionalSelect(odd, s, c) ^ cosSign);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Fma(Vector256<double> a, double b, Vector256<double> c) => Vector256.FusedMultiplyAdd(a, Vector256.Create(b), c);
}
