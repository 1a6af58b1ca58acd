namespace Sallyport.Physics;

/// <summary>What SGP4 works out once an element set: the unaveraged mean motion, the rates of the zonal terms, the drag coefficients.</summary>
/// <remarks>
/// After Vallado, Crawford, Hujsak and Kelso, AIAA 2006-6753, equations of Hoots and Roehrich (reference "sgp4-verification").
/// Lengths in Earth radii, times in minutes, angles in rad.
/// </remarks>
internal sealed class SecularTerms
{
    public readonly double Eccentricity, Inclination, Node, Perigee, MeanAnomaly, Drag;
    public readonly double MeanMotion, SemiMajorAxis, RootAxis, SinInclination, CosInclination;
    public readonly double AnomalyRate, PerigeeRate, NodeRate, NodeDrag;
    public readonly bool Simple, Deep;
    public readonly double C1, C4, C5, D2, D3, D4, T2, T3, T4, T5;
    public readonly double PerigeeDrag, AnomalyDrag, Eta, AnomalyCube, SinAnomaly;
    public readonly double Theta3Less1, OneLessTheta2, Theta7Less1, LongPeriodL, LongPeriodY;

    public SecularTerms(OrbitElements elements)
    {
        const double degree = Math.PI / 180;
        (Eccentricity, Inclination, Node) = (elements.Eccentricity, elements.Inclination * degree, elements.Node * degree);
        (Perigee, MeanAnomaly, Drag) = (elements.Perigee * degree, elements.MeanAnomaly * degree, elements.Drag);
        (SinInclination, CosInclination) = Math.SinCos(Inclination);
        double e = Eccentricity, sin = SinInclination, theta = CosInclination, theta2 = theta * theta, theta4 = theta2 * theta2;
        double beta2 = 1 - e * e, beta = Math.Sqrt(beta2);

        // From the mean motion of Kozai to that of Brouwer.
        double kozai = elements.MeanMotion * Math.Tau / 1440;
        double first = Math.Pow(Wgs72.Ke / kozai, 2.0 / 3), d1 = 0.75 * Wgs72.J2 * (3 * theta2 - 1) / (beta * beta2);
        double delta = d1 / (first * first);
        double second = first * (1 - delta * delta - delta * (1.0 / 3 + 134 * delta * delta / 81));
        MeanMotion = kozai / (1 + d1 / (second * second));
        double n = MeanMotion, a = SemiMajorAxis = Math.Pow(Wgs72.Ke / n, 2.0 / 3);
        RootAxis = Math.Sqrt(a);
        Deep = Math.Tau / n >= 225;

        Theta3Less1 = 3 * theta2 - 1;
        OneLessTheta2 = 1 - theta2;
        Theta7Less1 = 7 * theta2 - 1;
        (LongPeriodL, LongPeriodY) = LongPeriod(sin, theta);

        // Drag: the power law of density, with its lower end moved down for low perigees.
        double perigee = a * (1 - e), perigeeKm = (perigee - 1) * Wgs72.Radius;
        double s = 78;
        if (perigeeKm < 156) s = perigeeKm < 98 ? 20 : perigeeKm - 78;
        double density = Power4((120 - s) / Wgs72.Radius);
        s = s / Wgs72.Radius + 1;
        Simple = Deep || perigee < 220 / Wgs72.Radius + 1;

        double p = a * beta2, p2 = 1 / (p * p), xi = 1 / (a - s);
        double eta = Eta = a * e * xi, eta2 = eta * eta, eEta = e * eta, psi2 = Math.Abs(1 - eta2);
        double coef = density * Power4(xi), coef1 = coef / Math.Pow(psi2, 3.5);
        double j3ByJ2 = Wgs72.J3 / Wgs72.J2;
        double c2 = coef1 * n * (a * (1 + 1.5 * eta2 + eEta * (4 + eta2)) + 0.375 * Wgs72.J2 * xi / psi2 * Theta3Less1 * (8 + 3 * eta2 * (8 + eta2)));
        double c3 = e > 1e-4 ? -2 * coef * xi * j3ByJ2 * n * sin / e : 0;
        C1 = Drag * c2;
        C4 = 2 * n * coef1 * a * beta2 * (eta * (2 + 0.5 * eta2) + e * (0.5 + 2 * eta2)
            - Wgs72.J2 * xi / (a * psi2) * (-3 * Theta3Less1 * (1 - 2 * eEta + eta2 * (1.5 - 0.5 * eEta))
                + 0.75 * OneLessTheta2 * (2 * eta2 - eEta * (1 + eta2)) * Math.Cos(2 * Perigee)));
        C5 = 2 * coef1 * a * beta2 * (1 + 2.75 * (eta2 + eEta) + eEta * eta2);

        double j2Once = 1.5 * Wgs72.J2 * p2 * n, j2Twice = 0.5 * j2Once * Wgs72.J2 * p2, j4 = -0.46875 * Wgs72.J4 * p2 * p2 * n;
        AnomalyRate = n + 0.5 * j2Once * beta * Theta3Less1 + 0.0625 * j2Twice * beta * (13 - 78 * theta2 + 137 * theta4);
        PerigeeRate = -0.5 * j2Once * (1 - 5 * theta2) + 0.0625 * j2Twice * (7 - 114 * theta2 + 395 * theta4) + j4 * (3 - 36 * theta2 + 49 * theta4);
        double nodeFirst = -j2Once * theta;
        NodeRate = nodeFirst + (0.5 * j2Twice * (4 - 19 * theta2) + 2 * j4 * (3 - 7 * theta2)) * theta;
        NodeDrag = 3.5 * beta2 * nodeFirst * C1;
        PerigeeDrag = Drag * c3 * Math.Cos(Perigee);
        AnomalyDrag = e > 1e-4 ? -2.0 / 3 * coef * Drag / eEta : 0;
        AnomalyCube = Cube(1 + eta * Math.Cos(MeanAnomaly));
        SinAnomaly = Math.Sin(MeanAnomaly);
        T2 = 1.5 * C1;
        if (Simple) return;
        D2 = 4 * a * xi * C1 * C1;
        D3 = (17 * a + s) * D2 * xi * C1 / 3;
        D4 = 0.5 * D2 * xi * C1 / 3 * a * xi * (221 * a + 31 * s) * C1;
        T3 = D2 + 2 * C1 * C1;
        T4 = 0.25 * (3 * D3 + C1 * (12 * D2 + 10 * C1 * C1));
        T5 = 0.2 * (3 * D4 + 12 * C1 * D3 + 6 * D2 * D2 + 15 * C1 * C1 * (2 * D2 + C1 * C1));
    }

    /// <summary>The long-period terms of J3, in longitude and across it. The bound keeps off the division by zero of a retrograde equatorial orbit.</summary>
    public static (double L, double Y) LongPeriod(double sin, double cos)
    {
        double j3ByJ2 = Wgs72.J3 / Wgs72.J2, divisor = Math.Abs(cos + 1) > 1.5e-12 ? 1 + cos : 1.5e-12;
        return (-0.25 * j3ByJ2 * sin * (3 + 5 * cos) / divisor, -0.5 * j3ByJ2 * sin);
    }

    private static double Cube(double x) => x * x * x;

    private static double Power4(double x) => x * x * (x * x);
}
