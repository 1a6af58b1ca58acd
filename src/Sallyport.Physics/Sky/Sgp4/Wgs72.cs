namespace Sallyport.Physics;

/// <summary>The Earth as SGP4 knows it: WGS-72, in Earth radii and minutes. Element sets are fitted with these, so newer ones would be wrong (reference "sgp4-verification").</summary>
internal static class Wgs72
{
    /// <summary>Equatorial radius, km.</summary>
    public const double Radius = 6378.135;

    /// <summary>Gravitational parameter, km³/s².</summary>
    public const double Mu = 398600.8;

    public const double J2 = 0.001082616;
    public const double J3 = -0.00000253881;
    public const double J4 = -0.00000165597;

    /// <summary>Square root of the gravitational parameter in Earth radii and minutes.</summary>
    public static readonly double Ke = 60 / Math.Sqrt(Radius * Radius * Radius / Mu);

    /// <summary>Earth radii a minute as km/s.</summary>
    public static readonly double KmPerSecond = Radius * Ke / 60;
}
