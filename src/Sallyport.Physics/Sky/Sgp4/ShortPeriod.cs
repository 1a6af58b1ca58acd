using System.Runtime.CompilerServices;

namespace Sallyport.Physics;

/// <summary>The last part of SGP4: Kepler's equation, the short-period terms of J2, the vectors.</summary>
internal static class ShortPeriod
{
    /// <summary>The state on an orbit with these mean elements.</summary>
    /// <param name="a">Semi-major axis, Earth radii.</param>
    /// <param name="rootA">Its square root.</param>
    /// <param name="ex">Eccentricity along the node.</param>
    /// <param name="ey">Eccentricity across it.</param>
    /// <param name="latitude">Mean argument of latitude.</param>
    /// <param name="node">Right ascension of the node.</param>
    /// <param name="tilt">Inclination.</param>
    /// <param name="theta3Less1">3 cos² of the inclination, less 1.</param>
    /// <param name="oneLessTheta2">1 less its cos².</param>
    /// <param name="theta7Less1">7 cos² less 1.</param>
    /// <param name="state">TEME, km and km/s.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Sgp4Fault State(
        double a, double rootA, double ex, double ey, Rotation latitude, Rotation node, Rotation tilt,
        double theta3Less1, double oneLessTheta2, double theta7Less1, out TemeState state)
    {
        // Newton with the bound and the ten steps of the model, so that nearly parabolic orbits fail where it fails.
        Rotation eccentric = latitude;
        double beyond = 0, size = Math.Abs(ex) + Math.Abs(ey);
        for (int i = 1; ; i++)
        {
            double pull = ex * eccentric.Sin - ey * eccentric.Cos, draw = ex * eccentric.Cos + ey * eccentric.Sin, perSlope = 1 / (1 - draw);
            double step = (pull - beyond) * perSlope, bend = pull * perSlope;
            if (Math.Abs(step) >= 0.95) step = Math.CopySign(0.95, step);
            // The model goes on to 1e-12 and leaves the last step out. One step with the next two terms of its series comes as near, once what follows them is so small.
            double square = step * step, slant = Math.Abs(bend);
            bool last = square * square * (slant * (bend * bend + size * perSlope + 1.0 / 24) + Math.Abs(step) * perSlope * size / 120) < 1e-13;
            if (last) step += square * (step * (0.5 * bend * bend - draw * perSlope * (1.0 / 6)) - 0.5 * bend);
            if (i == 10 || double.IsNaN(step)) break;
            beyond += step;
            eccentric = eccentric.Plus(step);
            if (last) break;
        }

        double eCos = ex * eccentric.Cos + ey * eccentric.Sin, eSin = ex * eccentric.Sin - ey * eccentric.Cos;
        double e2 = ex * ex + ey * ey, p = a * (1 - e2);
        if (p < 0) return Refuse(Sgp4Fault.SemiLatusRectum, out state);
        double r = a * (1 - eCos), perR = 1 / r, beta = Math.Sqrt(1 - e2);
        double rate = rootA * eSin * perR, across = rootA * beta * perR, term = eSin / (1 + beta);
        double sinU = a * perR * (eccentric.Sin - ey - ex * term), cosU = a * perR * (eccentric.Cos - ex + ey * term);
        // One but for what Kepler's equation lacks.
        double one = sinU * sinU + cosU * cosU, norm = Math.Abs(one - 1) < 1e-8 ? 1.5 - 0.5 * one : 1 / Math.Sqrt(one);
        double sin2U = 2 * cosU * sinU, cos2U = 1 - 2 * sinU * sinU;
        // One division for two: they cost most here.
        double power = a * rootA, perBoth = 1 / (p * power), perP = perBoth * power, once = 0.5 * Wgs72.J2 * perP, twice = once * perP;

        double mr = r * (1 - 1.5 * twice * beta * theta3Less1) + 0.5 * once * oneLessTheta2 * cos2U;
        if (!(mr >= 1)) return Refuse(Sgp4Fault.Decayed, out state);
        Rotation u = new Rotation(sinU * norm, cosU * norm).PlusTiny(-0.25 * twice * theta7Less1 * sin2U);
        node = node.PlusTiny(1.5 * twice * tilt.Cos * sin2U);
        Rotation i2 = tilt.PlusTiny(1.5 * twice * tilt.Cos * tilt.Sin * cos2U);
        double speed = once * (perBoth * p);
        double mv = rate - speed * oneLessTheta2 * sin2U, mrv = across + speed * (oneLessTheta2 * cos2U + 1.5 * theta3Less1);

        double mx = -node.Sin * i2.Cos, my = node.Cos * i2.Cos;
        Vector3D up = new(mx * u.Sin + node.Cos * u.Cos, my * u.Sin + node.Sin * u.Cos, i2.Sin * u.Sin);
        Vector3D along = new(mx * u.Cos - node.Cos * u.Sin, my * u.Cos - node.Sin * u.Sin, i2.Sin * u.Cos);
        state = new(up * (mr * Wgs72.Radius), up * (mv * Wgs72.KmPerSecond) + along * (mrv * Wgs72.KmPerSecond));
        return Sgp4Fault.None;
    }

    /// <summary>A fault, and no state.</summary>
    public static Sgp4Fault Refuse(Sgp4Fault fault, out TemeState state)
    {
        state = default;
        return fault;
    }
}
