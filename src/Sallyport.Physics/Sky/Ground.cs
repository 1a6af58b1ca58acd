using System.Collections.Immutable;

namespace Sallyport.Physics;

/// <summary>A place on the ground or the map: geodetic (WGS-84).</summary>
/// <param name="Latitude">Degrees, north above zero, −90 to 90.</param>
/// <param name="Longitude">Degrees, east above zero, −360 to 360.</param>
public readonly record struct GroundPoint(double Latitude, double Longitude);

/// <summary>A point of a skyline: how high it stands in one direction.</summary>
/// <param name="Azimuth">Degrees from north by east, 0 to 360.</param>
/// <param name="Elevation">Degrees above the horizontal, at most 60.</param>
public readonly record struct SkylinePoint(double Azimuth, double Elevation);

/// <summary>A ground station. It sees what stands above its mask, and above its skyline where that is higher.</summary>
/// <remarks>Refraction, which shows an object some seconds before it has risen, is left out: a link is never told too long by it.</remarks>
/// <param name="Name">As people call it.</param>
/// <param name="At">Where it is.</param>
/// <param name="Height">Above the ellipsoid, m.</param>
/// <param name="Mask">Lowest elevation, degrees, −5 to 60.</param>
/// <param name="Skyline">In order of azimuth, straight between points; empty for none.</param>
public sealed record GroundStation(string Name, GroundPoint At, double Height, double Mask, ImmutableArray<SkylinePoint> Skyline);

/// <summary>A relay in geostationary orbit, as a fixed point over the equator. It sees what the Earth and its air do not hide.</summary>
/// <param name="Name">As people call it.</param>
/// <param name="Longitude">Degrees, east above zero.</param>
/// <param name="GrazingHeight">The least height, km, at which the line to it may pass the Earth: at least 0.</param>
public sealed record Relay(string Name, double Longitude, double GrazingHeight)
{
    /// <summary>Distance of a geostationary orbit from the centre of the Earth, km: where a turn takes 86164.0905 s.</summary>
    public const double Distance = 42164.17;
}

/// <summary>A region on the map over which radiation is high.</summary>
/// <param name="Name">As people call it.</param>
/// <param name="Corners">At least three, in order around it, straight on a map of latitude and longitude; each the shorter way round from the one before.</param>
public sealed record RadiationRegion(string Name, ImmutableArray<GroundPoint> Corners);

/// <summary>Earth-fixed places.</summary>
public static class EarthFixed
{
    /// <summary>The turning of the Earth, rad/s (WGS-84).</summary>
    public const double TurningRate = 7.292115e-5;

    private const double Flattening = 1 / 298.257223563, EccentricitySquared = Flattening * (2 - Flattening);

    /// <summary>From TEME to Earth-fixed axes (x to Greenwich, z to the pole), km.</summary>
    /// <remarks>By the mean sidereal time alone; the motion of the pole, at most 20 m on the ground, is left out.</remarks>
    /// <param name="place">TEME, km.</param>
    /// <param name="daysFromJ2000">UTC.</param>
    public static Vector3D FromTeme(Vector3D place, double daysFromJ2000) => place.InFrameTurnedAboutZ(SkyTime.GreenwichSidereal(daysFromJ2000));

    /// <summary>The place of a point on the map at a height, km.</summary>
    /// <param name="point">Geodetic.</param>
    /// <param name="height">Above the ellipsoid, m.</param>
    public static Vector3D Of(GroundPoint point, double height)
    {
        double sin = Math.Sin(point.Latitude * Math.PI / 180), n = EarthShadow.EarthRadius / Math.Sqrt(1 - EccentricitySquared * sin * sin), h = height / 1000;
        Vector3D up = Up(point);
        return new((n + h) * up.X, (n + h) * up.Y, (n * (1 - EccentricitySquared) + h) * up.Z);
    }

    /// <summary>The direction straight up from the ellipsoid, length one.</summary>
    public static Vector3D Up(GroundPoint point)
    {
        (double sin, double cos) = Math.SinCos(point.Latitude * Math.PI / 180);
        (double sinL, double cosL) = Math.SinCos(point.Longitude * Math.PI / 180);
        return new(cos * cosL, cos * sinL, sin);
    }

    /// <summary>The point of the map below a place; longitude from −180 to 180. Good to a millionth of a degree up to geostationary height.</summary>
    /// <param name="place">Earth-fixed, km, above the surface.</param>
    public static GroundPoint Below(Vector3D place)
    {
        double around = Math.Sqrt(place.X * place.X + place.Y * place.Y);
        double latitude = Math.Atan2(place.Z, around * (1 - EccentricitySquared));
        for (int i = 0; i < 6; i++)
        {
            double sin = Math.Sin(latitude), n = EarthShadow.EarthRadius / Math.Sqrt(1 - EccentricitySquared * sin * sin);
            latitude = Math.Atan2(place.Z + n * EccentricitySquared * sin, around);
        }
        return new(latitude * 180 / Math.PI, Math.Atan2(place.Y, place.X) * 180 / Math.PI);
    }
}
