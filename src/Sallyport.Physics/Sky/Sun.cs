namespace Sallyport.Physics;

/// <summary>The Sun as seen from the centre of the Earth.</summary>
/// <param name="RightAscension">Apparent, true equator and equinox of date, degrees in [0, 360).</param>
/// <param name="Declination">Apparent, of date, degrees.</param>
/// <param name="Distance">Astronomical units.</param>
/// <param name="NutationInRightAscension">By how much its right ascension would be less from the mean equinox, degrees: the turn to TEME.</param>
public readonly record struct SunPlace(double RightAscension, double Declination, double Distance, double NutationInRightAscension)
{
    /// <summary>Its direction in TEME, length one.</summary>
    public Vector3D Direction
    {
        get
        {
            (double sinA, double cosA) = Math.SinCos((RightAscension - NutationInRightAscension) * Math.PI / 180);
            (double sinD, double cosD) = Math.SinCos(Declination * Math.PI / 180);
            return new(cosD * cosA, cosD * sinA, sinD);
        }
    }
}

/// <summary>Where the Sun is.</summary>
/// <remarks>
/// J. Meeus, Astronomical Algorithms, 2nd edition, chapter 25, low precision: 0.01° of direction from 1900 to 2100
/// (reference "meeus-25a"). Aberration is in it as the chapter has it, a constant 0.00569°, and so is the time that the light takes.
/// </remarks>
public static class Sun
{
    /// <summary>The astronomical unit, km (by definition since 2012).</summary>
    public const double AstronomicalUnit = 149597870.7;

    /// <summary>Radius of the Sun, km: the nominal one of 2015, from memory, unverified; 300 km more or less move a penumbra by a tenth of a second.</summary>
    public const double Radius = 695700;

    /// <summary>The place at an instant, UTC.</summary>
    public static SunPlace At(DateTime utc) => AtTerrestrial(SkyTime.DaysFromJ2000(utc) + SkyTime.TerrestrialLessUtc(utc) / 86400);

    /// <summary>The place at days from J2000, Terrestrial Time.</summary>
    public static SunPlace AtTerrestrial(double days)
    {
        const double degree = Math.PI / 180;
        double t = days / 36525;
        double mean = 280.46646 + t * (36000.76983 + t * 0.0003032);
        double anomaly = (357.52911 + t * (35999.05029 - t * 0.0001537)) * degree;
        double e = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
        double centre = (1.914602 - t * (0.004817 + t * 0.000014)) * Math.Sin(anomaly)
            + (0.019993 - t * 0.000101) * Math.Sin(2 * anomaly) + 0.000289 * Math.Sin(3 * anomaly);
        double distance = 1.000001018 * (1 - e * e) / (1 + e * Math.Cos(anomaly + centre * degree));

        (double sinNode, double cosNode) = Math.SinCos((125.04 - 1934.136 * t) * degree);
        double nutation = -0.00478 * sinNode;
        (double sinL, double cosL) = Math.SinCos((mean + centre - 0.00569 + nutation) * degree);
        double obliquity = 23 + (26 + (21.448 - t * (46.8150 + t * (0.00059 - t * 0.001813))) / 60) / 60 + 0.00256 * cosNode;
        (double sinE, double cosE) = Math.SinCos(obliquity * degree);
        double ascension = Math.Atan2(cosE * sinL, cosL) / degree;
        return new(ascension < 0 ? ascension + 360 : ascension, Math.Asin(sinE * sinL) / degree, distance, nutation * cosE);
    }
}
