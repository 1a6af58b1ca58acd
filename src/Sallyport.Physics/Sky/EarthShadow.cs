namespace Sallyport.Physics;

/// <summary>The shadow of the Earth: two cones that touch Sun and Earth, the umbra narrowing, the penumbra widening.</summary>
/// <remarks>
/// The Earth is a sphere without air. Of the equatorial radius it makes night up to some 8 s too long at each end for a low orbit (more for one
/// that only grazes the shadow), of the polar radius as much too short: who must not tell day too long takes the one, who must not tell
/// night too long the other. Refraction and dust, which redden and dim the last seconds of day, are left out.
/// </remarks>
public static class EarthShadow
{
    /// <summary>Equatorial radius of the Earth, km (WGS-84).</summary>
    public const double EarthRadius = 6378.137;

    /// <summary>Polar radius of the Earth, km (WGS-84).</summary>
    public const double PolarRadius = 6356.7523;

    /// <summary>How far outside the penumbra a place is, km across its cone; below zero some of the Sun is covered.</summary>
    /// <param name="place">From the centre of the Earth, km, above its surface.</param>
    /// <param name="towardSun">Unit vector in the same frame.</param>
    /// <param name="distance">To the Sun, km.</param>
    /// <param name="radius">Of the Earth, km.</param>
    public static double OutsidePenumbra(Vector3D place, Vector3D towardSun, double distance, double radius = EarthRadius)
    {
        double sin = (Sun.Radius + radius) / distance, cos = Math.Sqrt(1 - sin * sin);
        (double behind, double across) = Split(place, towardSun);
        // On the day side the cone goes on as a circle that is no shadow.
        return Math.Max(across - (radius + behind * sin) / cos, -behind);
    }

    /// <summary>How far outside the umbra a place is, km across its cone; below zero all of the Sun is covered.</summary>
    /// <inheritdoc cref="OutsidePenumbra"/>
    public static double OutsideUmbra(Vector3D place, Vector3D towardSun, double distance, double radius = EarthRadius)
    {
        double sin = (Sun.Radius - radius) / distance, cos = Math.Sqrt(1 - sin * sin);
        (double behind, double across) = Split(place, towardSun);
        return Math.Max(across - (radius - behind * sin) / cos, -behind);
    }

    /// <summary>The angle from the plane of the orbit to the Sun, degrees; above zero on the side from which the orbit is seen to run against the clock.</summary>
    public static double Beta(TemeState state, Vector3D towardSun) =>
        Math.Asin(state.Position.Cross(state.Velocity).Unit.Dot(towardSun)) * 180 / Math.PI;

    private static (double Behind, double Across) Split(Vector3D place, Vector3D towardSun)
    {
        double behind = -place.Dot(towardSun);
        return (behind, (place + towardSun * behind).Length);
    }
}
