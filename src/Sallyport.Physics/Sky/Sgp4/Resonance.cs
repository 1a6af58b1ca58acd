namespace Sallyport.Physics;

/// <summary>Orbits of one or two turns a day, which the unevenness of the Earth pulls always at the same places: their longitude, integrated in steps from the epoch.</summary>
/// <remarks>After AIAA 2006-6753 (reference "sgp4-verification"); the step of 720 min is part of the model, so the result does not depend on what was asked before.</remarks>
internal sealed class Resonance
{
    private const double Step = 720, HalfStepSquared = Step * Step / 2;

    /// <summary>The turning of the Earth, rad/min.</summary>
    private const double EarthRate = 4.37526908801129966e-3;

    private readonly bool twice;
    private readonly double sidereal, longitude, rateBeyond, motion;
    private readonly Rotation longitudeTurn, perigee, perigeeStep;
    private readonly double del1, del2, del3;
    private readonly double d2201, d2211, d3210, d3222, d4410, d4422, d5220, d5232, d5421, d5433;

    private Resonance(SecularTerms terms, SunMoonTerms bodies, double siderealAtEpoch, bool twice)
    {
        this.twice = twice;
        (motion, perigee, perigeeStep) = (terms.MeanMotion, Rotation.Of(terms.Perigee), Rotation.Of(terms.PerigeeRate * Step));
        double n = motion, a = Math.Pow(n / Wgs72.Ke, 2.0 / 3), e = terms.Eccentricity, e2 = e * e, e3 = e * e2;
        double sin = terms.SinInclination, cos = terms.CosInclination, cos2 = cos * cos, sin2 = sin * sin;
        sidereal = siderealAtEpoch;
        if (!twice)
        {
            double f220 = 0.75 * (1 + cos) * (1 + cos), f311 = 0.9375 * sin2 * (1 + 3 * cos) - 0.75 * (1 + cos), f330 = 1.875 * (1 + cos) * (1 + cos) * (1 + cos);
            double g200 = 1 + e2 * (-2.5 + 0.8125 * e2), g310 = 1 + 2 * e2, g300 = 1 + e2 * (-6 + 6.60937 * e2);
            double one = 3 * n * n * a * a;
            del1 = one * f311 * g310 * 2.1460748e-6 * a;
            del2 = 2 * one * f220 * g200 * 1.7891679e-6;
            del3 = 3 * one * f330 * g300 * 2.2123015e-7 * a;
            longitude = terms.MeanAnomaly + terms.Node + terms.Perigee - sidereal;
            rateBeyond = terms.AnomalyRate + terms.PerigeeRate + terms.NodeRate - EarthRate
                + bodies.AnomalyRate + bodies.PerigeeRate + bodies.NodeRate - n;
        }
        else
        {
            Eccentric g = Eccentric.Of(e, e2, e3);
            double f220 = 0.75 * (1 + 2 * cos + cos2), f221 = 1.5 * sin2;
            double f321 = 1.875 * sin * (1 - 2 * cos - 3 * cos2), f322 = -1.875 * sin * (1 + 2 * cos - 3 * cos2);
            double f441 = 35 * sin2 * f220, f442 = 39.3750 * sin2 * sin2;
            double f522 = 9.84375 * sin * (sin2 * (1 - 2 * cos - 5 * cos2) + 0.33333333 * (-2 + 4 * cos + 6 * cos2));
            double f523 = sin * (4.92187512 * sin2 * (-2 - 4 * cos + 10 * cos2) + 6.56250012 * (1 + 2 * cos - 3 * cos2));
            double f542 = 29.53125 * sin * (2 - 8 * cos + cos2 * (-12 + 8 * cos + 10 * cos2));
            double f543 = 29.53125 * sin * (-2 - 8 * cos + cos2 * (12 + 8 * cos - 10 * cos2));
            double power = 3 * n * n * a * a;
            d2201 = power * 1.7891679e-6 * f220 * g.G201;
            d2211 = power * 1.7891679e-6 * f221 * g.G211;
            power *= a;
            d3210 = power * 3.7393792e-7 * f321 * g.G310;
            d3222 = power * 3.7393792e-7 * f322 * g.G322;
            power *= a;
            d4410 = 2 * power * 7.3636953e-9 * f441 * g.G410;
            d4422 = 2 * power * 7.3636953e-9 * f442 * g.G422;
            power *= a;
            d5220 = power * 1.1428639e-7 * f522 * g.G520;
            d5232 = power * 1.1428639e-7 * f523 * g.G532;
            d5421 = 2 * power * 2.1765803e-9 * f542 * g.G521;
            d5433 = 2 * power * 2.1765803e-9 * f543 * g.G533;
            longitude = terms.MeanAnomaly + 2 * terms.Node - 2 * sidereal;
            rateBeyond = terms.AnomalyRate + bodies.AnomalyRate + 2 * (terms.NodeRate + bodies.NodeRate - EarthRate) - n;
        }
        longitude = Math.IEEERemainder(longitude, Math.Tau);
        longitudeTurn = Rotation.Of(longitude);
    }

    /// <summary>The resonance of an orbit, or null when it has none.</summary>
    public static Resonance? Of(SecularTerms terms, SunMoonTerms bodies, double siderealAtEpoch)
    {
        bool twice = terms.MeanMotion is >= 8.26e-3 and <= 9.24e-3 && terms.Eccentricity >= 0.5;
        bool once = terms.MeanMotion is > 0.0034906585 and < 0.0052359877;
        return once || twice ? new(terms, bodies, siderealAtEpoch, twice) : null;
    }

    /// <summary>The mean anomaly, rad, and mean motion, rad/min, at a time, minutes, on an orbit whose node and perigee are then these.</summary>
    public (double Anomaly, double Motion) At(double minutes, double node, double argument)
    {
        double at = 0, l = longitude, n = motion, step = minutes >= 0 ? Step : -Step;
        Rotation turn = longitudeTurn, argumentThen = perigee;
        double pull, slope, rate;
        while (true)
        {
            (pull, slope) = twice ? Twice(turn, argumentThen) : Once(turn);
            rate = n + rateBeyond;
            slope *= rate;
            if (Math.Abs(minutes - at) < Step) break;
            double further = rate * step + pull * HalfStepSquared;
            l += further;
            n += pull * step + slope * HalfStepSquared;
            at += step;
            turn = turn.Plus(further);
            argumentThen = step > 0 ? argumentThen.Plus(perigeeStep) : argumentThen.Minus(perigeeStep);
        }
        double rest = minutes - at;
        n += pull * rest + slope * rest * rest * 0.5;
        l += rate * rest + pull * rest * rest * 0.5;
        double earth = Math.IEEERemainder(sidereal + minutes * EarthRate, Math.Tau);
        return (twice ? l - 2 * node + 2 * earth : l - node - argument + earth, n);
    }

    private static readonly Rotation F31 = Rotation.Of(0.13130908), F22 = Rotation.Of(2 * 2.8843198), F33 = Rotation.Of(3 * 0.37448087);

    private (double Pull, double Slope) Once(Rotation longitude)
    {
        Rotation doubled = longitude.Plus(longitude), one = longitude.Minus(F31), two = doubled.Minus(F22), three = doubled.Plus(longitude).Minus(F33);
        return (del1 * one.Sin + del2 * two.Sin + del3 * three.Sin, del1 * one.Cos + 2 * del2 * two.Cos + 3 * del3 * three.Cos);
    }

    private static readonly Rotation G22 = Rotation.Of(5.7686396), G32 = Rotation.Of(0.95240898), G44 = Rotation.Of(1.8014998), G52 = Rotation.Of(1.0508330), G54 = Rotation.Of(4.4108898);

    private (double Pull, double Slope) Twice(Rotation longitude, Rotation w)
    {
        Rotation l2 = longitude.Plus(longitude), w2 = w.Plus(w);
        Rotation a = longitude.Plus(w2).Minus(G22), b = longitude.Minus(G22), c = longitude.Plus(w), d = longitude.Minus(w);
        Rotation c32 = c.Minus(G32), d32 = d.Minus(G32), e = l2.Plus(w2).Minus(G44), f = l2.Minus(G44), c52 = c.Minus(G52), d52 = d.Minus(G52);
        Rotation g = l2.Plus(w).Minus(G54), h = l2.Minus(w).Minus(G54);
        double pull = d2201 * a.Sin + d2211 * b.Sin + d3210 * c32.Sin + d3222 * d32.Sin + d4410 * e.Sin + d4422 * f.Sin
            + d5220 * c52.Sin + d5232 * d52.Sin + d5421 * g.Sin + d5433 * h.Sin;
        double slope = d2201 * a.Cos + d2211 * b.Cos + d3210 * c32.Cos + d3222 * d32.Cos + d5220 * c52.Cos + d5232 * d52.Cos
            + 2 * (d4410 * e.Cos + d4422 * f.Cos + d5421 * g.Cos + d5433 * h.Cos);
        return (pull, slope);
    }

    /// <summary>The functions of eccentricity of the half-day resonance: fits over ranges, as the report gives them.</summary>
    private readonly record struct Eccentric(
        double G201, double G211, double G310, double G322, double G410, double G422, double G520, double G521, double G532, double G533)
    {
        public static Eccentric Of(double e, double e2, double e3)
        {
            double Fit(double c0, double c1, double c2, double c3) => c0 + c1 * e + c2 * e2 + c3 * e3;
            bool low = e <= 0.65, below7 = e < 0.7;
            return new(
                -0.306 - (e - 0.64) * 0.440,
                low ? Fit(3.616, -13.2470, 16.2900, 0) : Fit(-72.099, 331.819, -508.738, 266.724),
                low ? Fit(-19.302, 117.3900, -228.4190, 156.5910) : Fit(-346.844, 1582.851, -2415.925, 1246.113),
                low ? Fit(-18.9068, 109.7927, -214.6334, 146.5816) : Fit(-342.585, 1554.908, -2366.899, 1215.972),
                low ? Fit(-41.122, 242.6940, -471.0940, 313.9530) : Fit(-1052.797, 4758.686, -7193.992, 3651.957),
                low ? Fit(-146.407, 841.8800, -1629.014, 1083.4350) : Fit(-3581.690, 16178.110, -24462.770, 12422.520),
                low ? Fit(-532.114, 3017.977, -5740.032, 3708.2760) : e > 0.715 ? Fit(-5149.66, 29936.92, -54087.36, 31324.56) : Fit(1464.74, -4664.75, 3763.64, 0),
                below7 ? Fit(-822.71072, 4568.6173, -8491.4146, 5337.524) : Fit(-51752.104, 218913.95, -309468.16, 146349.42),
                below7 ? Fit(-853.66600, 4690.2500, -8624.7700, 5341.4) : Fit(-40023.880, 170470.89, -242699.48, 115605.82),
                below7 ? Fit(-919.22770, 4988.6100, -9064.7700, 5542.21) : Fit(-37995.780, 161616.52, -229838.20, 109377.94));
        }
    }
}
