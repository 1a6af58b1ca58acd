using System.Runtime.Intrinsics;

namespace Sallyport.Physics;

/// <summary>The orbit of one element set by SGP4, near-Earth and deep space, with WGS-72 constants.</summary>
/// <remarks>
/// <para>After Vallado, Crawford, Hujsak and Kelso, <i>Revisiting Spacetrack Report #3</i>, AIAA 2006-6753, with its improved choice of quadrants
/// (reference "sgp4-verification"). Immutable: one object serves any number of threads, and a call allocates nothing.</para>
/// <para>Valid as far as element sets are: about 1 km at the epoch and some kilometres a day away from it, more in low orbits and in both directions.</para>
/// </remarks>
public sealed class Sgp4
{
    private readonly SecularTerms terms;
    private readonly SunMoonTerms? bodies;
    private readonly Resonance? resonance;

    /// <summary>Works out what does not change with time.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The mean motion is not above 0, the eccentricity not at least 0 and below 1, or a figure is no number.</exception>
    public Sgp4(OrbitElements elements)
    {
        if (!(elements.MeanMotion is > 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(elements), elements.MeanMotion, "expected a mean motion above 0 revolutions a day");
        if (!(elements.Eccentricity is >= 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(elements), elements.Eccentricity, "expected an eccentricity of at least 0 and below 1");
        foreach (double figure in (ReadOnlySpan<double>)[elements.Inclination, elements.Node, elements.Perigee, elements.MeanAnomaly, elements.Drag])
            if (!double.IsFinite(figure)) throw new ArgumentOutOfRangeException(nameof(elements), figure, "expected finite elements");
        Elements = elements;
        terms = new(elements);
        if (!terms.Deep) return;
        // The model keeps its epoch as one Julian date, which rounds it to 40 microseconds: far enough out the last printed figure shows it.
        double days = SkyTime.J2000 + SkyTime.DaysFromJ2000(elements.Epoch) - SkyTime.J2000;
        bodies = new(terms, days);
        resonance = Resonance.Of(terms, bodies, SkyTime.GreenwichSidereal(days));
    }

    /// <summary>The elements it was made from.</summary>
    public OrbitElements Elements { get; }

    /// <summary>Whether the deep-space part, Sun, Moon and resonance, is at work: periods of 225 min and more.</summary>
    public bool DeepSpace => terms.Deep;

    /// <summary>Position and velocity at a time from the epoch.</summary>
    /// <param name="minutes">From the epoch of the elements; negative before it.</param>
    /// <param name="state">TEME, km and km/s; zero when there is a fault.</param>
    /// <returns><see cref="Sgp4Fault.None"/>, or why there is no state.</returns>
    public Sgp4Fault Propagate(double minutes, out TemeState state) =>
        bodies is null ? NearEarth(minutes, out state) : FarOut(minutes, bodies, out state);

    private Sgp4Fault NearEarth(double t, out TemeState state)
    {
        SecularTerms k = terms;
        double t2 = t * t;
        double anomaly = k.MeanAnomaly + k.AnomalyRate * t, perigee = k.Perigee + k.PerigeeRate * t;
        double shrink = 1 - k.C1 * t, round = k.Drag * k.C4 * t, ahead = k.T2 * t2;
        if (!k.Simple)
        {
            shrink -= t2 * (k.D2 + t * (k.D3 + t * k.D4));
            ahead += t2 * t * (k.T3 + t * (k.T4 + t * k.T5));
        }
        // What drag adds to the anomaly it takes from the perigee, so that the mean argument of latitude lacks it.
        double argument = anomaly + perigee + k.MeanMotion * ahead;
        (Vector256<double> sin, Vector256<double> cos) =
            FourAngles.SinCos(Vector256.Create(anomaly, perigee, k.Node + k.NodeRate * t + k.NodeDrag * t2, argument));
        Rotation perigeeTurn = new(sin[1], cos[1]);
        if (!k.Simple)
        {
            double swing = 1 + k.Eta * cos[0], drift = k.PerigeeDrag * t + k.AnomalyDrag * (swing * swing * swing - k.AnomalyCube);
            (double turn, double less) = Rotation.Tiny(drift);
            perigeeTurn = perigeeTurn.Plus(-turn, less);
            round += k.Drag * k.C5 * (new Rotation(sin[0], cos[0]).Plus(turn, less).Sin - k.SinAnomaly);
        }
        double e = k.Eccentricity - round;
        if (!(e is >= -0.001 and < 1)) return ShortPeriod.Refuse(Sgp4Fault.MeanEccentricity, out state);
        if (e < 1e-6) e = 1e-6;
        double a = k.SemiMajorAxis * shrink * shrink, perP = 1 / (a * (1 - e * e));
        double ex = e * perigeeTurn.Cos, ey = e * perigeeTurn.Sin + perP * k.LongPeriodY;
        Rotation latitude = new Rotation(sin[3], cos[3]).PlusTiny(perP * k.LongPeriodL * ex);
        return ShortPeriod.State(
            a, k.RootAxis * Math.Abs(shrink), ex, ey, latitude, new(sin[2], cos[2]), new(k.SinInclination, k.CosInclination),
            k.Theta3Less1, k.OneLessTheta2, k.Theta7Less1, out state);
    }

    private Sgp4Fault FarOut(double t, SunMoonTerms bodies, out TemeState state)
    {
        SecularTerms k = terms;
        double shrink = 1 - k.C1 * t, n = k.MeanMotion;
        double anomaly = k.MeanAnomaly + (k.AnomalyRate + bodies.AnomalyRate) * t;
        double perigee = k.Perigee + (k.PerigeeRate + bodies.PerigeeRate) * t;
        double node = k.Node + (k.NodeRate + bodies.NodeRate) * t + k.NodeDrag * t * t;
        double e = k.Eccentricity + bodies.EccentricityRate * t, tilting = bodies.InclinationRate * t;
        if (resonance is not null) (anomaly, n) = resonance.At(t, node, perigee);
        if (!(n > 0)) return ShortPeriod.Refuse(Sgp4Fault.MeanMotion, out state);

        // Most orbits out here have lost little; a cube root each call is spared those without resonance.
        double a = (resonance is null ? k.SemiMajorAxis : Math.Pow(Wgs72.Ke / n, 2.0 / 3)) * shrink * shrink;
        e -= k.Drag * k.C4 * t;
        if (!(e is >= -0.001 and < 1)) return ShortPeriod.Refuse(Sgp4Fault.MeanEccentricity, out state);
        if (e < 1e-6) e = 1e-6;
        anomaly += k.MeanMotion * (k.T2 * t * t);

        SunMoonTerms.Periods periods = bodies.At(t);
        tilting += periods.Inclination;
        e += periods.Eccentricity;
        double inclination = k.Inclination + tilting;
        Rotation tilt = new Rotation(k.SinInclination, k.CosInclination).Plus(tilting);
        if (inclination >= 0.2)
        {
            double turn = periods.Node / tilt.Sin;
            perigee += periods.Perigee - tilt.Cos * turn;
            node += turn;
            anomaly += periods.Anomaly;
        }
        else
        {
            // Near the equator the node is next to undefined: its pole is moved instead (Lyddane).
            // The branch of the node shows in the result, so it is the one of the model.
            node %= Math.Tau;
            (double sinNode, double cosNode) = Math.SinCos(node);
            double x = tilt.Sin * sinNode + periods.Node * cosNode + periods.Inclination * tilt.Cos * sinNode;
            double y = tilt.Sin * cosNode - periods.Node * sinNode + periods.Inclination * tilt.Cos * cosNode;
            double moved = Math.Atan2(x, y);
            double sum = anomaly + perigee + tilt.Cos * node + periods.Anomaly + periods.Perigee - periods.Inclination * node * tilt.Sin;
            if (Math.Abs(node - moved) > Math.PI) moved += moved < node ? Math.Tau : -Math.Tau;
            anomaly += periods.Anomaly;
            perigee = sum - anomaly - tilt.Cos * moved;
            node = moved;
        }
        if (inclination < 0)
        {
            tilt = new(-tilt.Sin, tilt.Cos);
            node += Math.PI;
            perigee -= Math.PI;
        }
        if (!(e is >= 0 and <= 1)) return ShortPeriod.Refuse(Sgp4Fault.PerturbedEccentricity, out state);

        (double longL, double longY) = SecularTerms.LongPeriod(tilt.Sin, tilt.Cos);
        (Vector256<double> sin, Vector256<double> cos) = FourAngles.SinCos(Vector256.Create(perigee, node, anomaly + perigee, 0));
        Rotation perigeeTurn = new(sin[0], cos[0]);
        double perP = 1 / (a * (1 - e * e)), ex = e * perigeeTurn.Cos, ey = e * perigeeTurn.Sin + perP * longY;
        double cos2 = tilt.Cos * tilt.Cos;
        Rotation latitude = new Rotation(sin[2], cos[2]).PlusTiny(perP * longL * ex);
        return ShortPeriod.State(a, Math.Sqrt(a), ex, ey, latitude, new(sin[1], cos[1]), tilt, 3 * cos2 - 1, 1 - cos2, 7 * cos2 - 1, out state);
    }
}
