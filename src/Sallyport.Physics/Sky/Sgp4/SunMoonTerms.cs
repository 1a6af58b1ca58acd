using System.Runtime.Intrinsics;

namespace Sallyport.Physics;

/// <summary>Sun and Moon in SDP4: secular rates and the long-period terms, worked out once an element set.</summary>
/// <remarks>After AIAA 2006-6753 (reference "sgp4-verification"); its two bodies are treated alike, each with its own constants.</remarks>
internal sealed class SunMoonTerms
{
    /// <summary>Mean motion and eccentricity of the orbit of the Sun, as seen from the Earth: rad/min.</summary>
    private const double SunMotion = 1.19459e-5, SunEccentricity = 0.01675;

    /// <summary>The same of the Moon.</summary>
    private const double MoonMotion = 1.5835218e-4, MoonEccentricity = 0.05490;

    private readonly Periodic sun, moon;
    private readonly double sunAnomaly, moonAnomaly;

    /// <summary>Secular rates, a minute.</summary>
    public readonly double EccentricityRate, InclinationRate, AnomalyRate, PerigeeRate, NodeRate;

    /// <param name="terms">The elements.</param>
    /// <param name="days">From J2000 to the epoch, UTC.</param>
    public SunMoonTerms(SecularTerms terms, double days)
    {
        // Days from 1899 December 31, 12 h, which the constants count from.
        double day = days + 36525;
        Rotation node = Rotation.Of(terms.Node);

        // The Moon's orbit, from its node on the ecliptic to the equator.
        double moonNode = Whole(4.5236020 - 9.2422029e-4 * day);
        (double stem, double ctem) = Math.SinCos(moonNode);
        double cosI = 0.91375164 - 0.03568096 * ctem, sinI = Math.Sqrt(1 - cosI * cosI);
        double sinH = 0.089683511 * stem / sinI, cosH = Math.Sqrt(1 - sinH * sinH);
        double perigee = 5.8351514 + 0.0019443680 * day;
        double turned = Math.Atan2(0.39785416 * stem / sinI, cosH * ctem + 0.91744867 * sinH * stem);
        Rotation moonPerigee = Rotation.Of(perigee + turned - moonNode);

        sunAnomaly = Whole(6.2565837 + 0.017201977 * day);
        moonAnomaly = Whole(4.7199672 + 0.22997150 * day - perigee);
        Body ofSun = new(terms, new(-0.98088458, 0.1945905), new(0.39785416, 0.91744867), node, 2.9864797e-6);
        Body ofMoon = new(terms, moonPerigee, new(sinI, cosI), node.Minus(new(sinH, cosH)), 4.7968065e-7);
        sun = ofSun.Long(terms, SunEccentricity);
        moon = ofMoon.Long(terms, MoonEccentricity);

        Secular s = ofSun.Rates(terms, SunMotion), m = ofMoon.Rates(terms, MoonMotion);
        EccentricityRate = s.Eccentricity + m.Eccentricity;
        InclinationRate = s.Inclination + m.Inclination;
        AnomalyRate = s.Anomaly + m.Anomaly;
        PerigeeRate = s.Perigee + m.Perigee;
        NodeRate = s.Node + m.Node;
    }

    /// <summary>The long-period terms of both bodies at a time, minutes.</summary>
    public Periods At(double minutes)
    {
        (Vector128<double> sin, Vector128<double> cos) =
            Vector128.SinCos(Vector128.Create(sunAnomaly + SunMotion * minutes, moonAnomaly + MoonMotion * minutes));
        Periods a = sun.At(new(sin[0], cos[0]), SunEccentricity), b = moon.At(new(sin[1], cos[1]), MoonEccentricity);
        return new(a.Eccentricity + b.Eccentricity, a.Inclination + b.Inclination, a.Anomaly + b.Anomaly, a.Perigee + b.Perigee, a.Node + b.Node);
    }

    private static double Whole(double angle) => Math.IEEERemainder(angle, Math.Tau);

    /// <summary>Long-period terms: of eccentricity, inclination, mean anomaly, perigee with node, node times sine of inclination.</summary>
    public readonly record struct Periods(double Eccentricity, double Inclination, double Anomaly, double Perigee, double Node);

    private readonly record struct Secular(double Eccentricity, double Inclination, double Anomaly, double Perigee, double Node);

    private sealed record Periodic(
        double E2, double E3, double I2, double I3, double L2, double L3, double L4, double G2, double G3, double G4, double H2, double H3)
    {
        public Periods At(Rotation mean, double eccentricity)
        {
            Rotation actual = mean.Plus(2 * eccentricity * mean.Sin);
            double f2 = 0.5 * actual.Sin * actual.Sin - 0.25, f3 = -0.5 * actual.Sin * actual.Cos;
            return new(E2 * f2 + E3 * f3, I2 * f2 + I3 * f3, L2 * f2 + L3 * f3 + L4 * actual.Sin, G2 * f2 + G3 * f3 + G4 * actual.Sin, H2 * f2 + H3 * f3);
        }
    }

    /// <summary>The geometry of one body against the orbit; letters as in the report.</summary>
    private sealed class Body
    {
        private readonly double s1, s2, s3, s4, s5, s6, s7;
        private readonly double z1, z2, z3, z11, z12, z13, z21, z22, z23, z31, z32, z33;

        public Body(SecularTerms terms, Rotation g, Rotation i, Rotation h, double strength)
        {
            double sin = terms.SinInclination, cos = terms.CosInclination, e = terms.Eccentricity, e2 = e * e, beta2 = 1 - e2, beta = Math.Sqrt(beta2);
            (double sinW, double cosW) = Math.SinCos(terms.Perigee);
            double a1 = g.Cos * h.Cos + g.Sin * i.Cos * h.Sin, a3 = -g.Sin * h.Cos + g.Cos * i.Cos * h.Sin;
            double a7 = -g.Cos * h.Sin + g.Sin * i.Cos * h.Cos, a8 = g.Sin * i.Sin;
            double a9 = g.Sin * h.Sin + g.Cos * i.Cos * h.Cos, a10 = g.Cos * i.Sin;
            double a2 = cos * a7 + sin * a8, a4 = cos * a9 + sin * a10, a5 = -sin * a7 + cos * a8, a6 = -sin * a9 + cos * a10;
            double x1 = a1 * cosW + a2 * sinW, x2 = a3 * cosW + a4 * sinW, x3 = -a1 * sinW + a2 * cosW, x4 = -a3 * sinW + a4 * cosW;
            double x5 = a5 * sinW, x6 = a6 * sinW, x7 = a5 * cosW, x8 = a6 * cosW;

            z31 = 12 * x1 * x1 - 3 * x3 * x3;
            z32 = 24 * x1 * x2 - 6 * x3 * x4;
            z33 = 12 * x2 * x2 - 3 * x4 * x4;
            z1 = 2 * (3 * (a1 * a1 + a2 * a2) + z31 * e2) + beta2 * z31;
            z2 = 2 * (6 * (a1 * a3 + a2 * a4) + z32 * e2) + beta2 * z32;
            z3 = 2 * (3 * (a3 * a3 + a4 * a4) + z33 * e2) + beta2 * z33;
            z11 = -6 * a1 * a5 + e2 * (-24 * x1 * x7 - 6 * x3 * x5);
            z12 = -6 * (a1 * a6 + a3 * a5) + e2 * (-24 * (x2 * x7 + x1 * x8) - 6 * (x3 * x6 + x4 * x5));
            z13 = -6 * a3 * a6 + e2 * (-24 * x2 * x8 - 6 * x4 * x6);
            z21 = 6 * a2 * a5 + e2 * (24 * x1 * x5 - 6 * x3 * x7);
            z22 = 6 * (a4 * a5 + a2 * a6) + e2 * (24 * (x2 * x5 + x1 * x6) - 6 * (x4 * x7 + x3 * x8));
            z23 = 6 * a4 * a6 + e2 * (24 * x2 * x6 - 6 * x4 * x8);
            s3 = strength / terms.MeanMotion;
            s2 = -0.5 * s3 / beta;
            s4 = s3 * beta;
            s1 = -15 * e * s4;
            s5 = x1 * x3 + x2 * x4;
            s6 = x2 * x3 + x1 * x4;
            s7 = x2 * x4 - x1 * x3;
        }

        public Periodic Long(SecularTerms terms, double eccentricity)
        {
            double e2 = terms.Eccentricity * terms.Eccentricity;
            return new(
                2 * s1 * s6, 2 * s1 * s7, 2 * s2 * z12, 2 * s2 * (z13 - z11), -2 * s3 * z2, -2 * s3 * (z3 - z1), -2 * s3 * (-21 - 9 * e2) * eccentricity,
                2 * s4 * z32, 2 * s4 * (z33 - z31), -18 * s4 * eccentricity, -2 * s2 * z22, -2 * s2 * (z23 - z21));
        }

        public Secular Rates(SecularTerms terms, double motion)
        {
            double e2 = terms.Eccentricity * terms.Eccentricity;
            // Within three degrees of the equator the node has no rate of its own: it is next to undefined there.
            bool flat = terms.Inclination is < 5.2359877e-2 or > Math.PI - 5.2359877e-2 || terms.SinInclination == 0;
            double node = flat ? 0 : -motion * s2 * (z21 + z23) / terms.SinInclination;
            return new(
                s1 * motion * s5, s2 * motion * (z11 + z13), -motion * s3 * (z1 + z3 - 14 - 6 * e2),
                s4 * motion * (z31 + z33 - 6) - terms.CosInclination * node, node);
        }
    }
}
