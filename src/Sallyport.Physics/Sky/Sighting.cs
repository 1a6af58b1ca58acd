using System.Collections.Immutable;

namespace Sallyport.Physics;

/// <summary>What a ground station, a relay or a region has of an orbit: each as a measure that is below zero while it has it, and how fast that may change.</summary>
internal static class Sighting
{
    /// <summary>Steepest look at which a skyline, at most 60° high, can matter: the bound on its change holds below it.</summary>
    private const double SteepestSlant = 5.76;

    /// <summary>Below zero while the station sees the place: km under the line of the mask.</summary>
    public static Func<Vector3D, double, Crossings.Reading> Of(GroundStation station)
    {
        Vector3D site = EarthFixed.Of(station.At, station.Height), up = EarthFixed.Up(station.At);
        Vector3D east = new Vector3D(-site.Y, site.X, 0).Unit, north = up.Cross(east);
        double highest = station.Mask, steepest = 0;
        for (int i = 0; i < station.Skyline.Length; i++)
        {
            (SkylinePoint a, SkylinePoint b, double width) = Piece(station.Skyline, i);
            highest = Math.Max(highest, a.Elevation);
            if (width > 0) steepest = Math.Max(steepest, Math.Abs(b.Elevation - a.Elevation) / width);
        }
        double change = 1 + Math.Sin(Math.Max(0, highest) * Math.PI / 180) + steepest * SteepestSlant;
        return (place, speed) =>
        {
            Vector3D look = place - site;
            double mask = station.Mask;
            if (!station.Skyline.IsEmpty) mask = Math.Max(mask, Height(station.Skyline, Math.Atan2(look.Dot(east), look.Dot(north)) * 180 / Math.PI));
            return new(look.Length * Math.Sin(mask * Math.PI / 180) - look.Dot(up), change * speed);
        };
    }

    /// <summary>Below zero while the relay sees the place: km by which the line between clears the height that it must.</summary>
    public static Func<Vector3D, double, Crossings.Reading> Of(Relay relay)
    {
        (double sin, double cos) = Math.SinCos(relay.Longitude * Math.PI / 180);
        Vector3D there = new Vector3D(cos, sin, 0) * Relay.Distance;
        double least = EarthShadow.EarthRadius + relay.GrazingHeight;
        return (place, speed) =>
        {
            Vector3D line = there - place;
            double part = Math.Clamp(-place.Dot(line) / line.Dot(line), 0, 1);
            return new(least - (place + line * part).Length, speed);
        };
    }

    /// <summary>Below zero while the place is over the region: degrees on the map to its edge.</summary>
    public static Func<Vector3D, double, Crossings.Reading> Of(RadiationRegion region)
    {
        List<GroundPoint> corners = [region.Corners[0]];
        foreach (GroundPoint corner in region.Corners.Skip(1))
            corners.Add(corner with { Longitude = corners[^1].Longitude + Math.IEEERemainder(corner.Longitude - corners[^1].Longitude, 360) });
        double middle = (corners.Min(corner => corner.Longitude) + corners.Max(corner => corner.Longitude)) / 2;
        return (place, speed) =>
        {
            GroundPoint below = EarthFixed.Below(place);
            double east = middle + Math.IEEERemainder(below.Longitude - middle, 360);
            // A region nearly as wide as the map may be nearer the other way round.
            double outside = Math.Min(Outside(corners, below.Latitude, east), Math.Min(Outside(corners, below.Latitude, east - 360), Outside(corners, below.Latitude, east + 360)));
            // A hundredth more, since a degree of geodetic latitude is not quite one of the angle at the centre.
            double rate = speed / place.Length * 1.01 * 180 / Math.PI, nearest = Math.Abs(below.Latitude) + rate * Crossings.Step;
            return new(outside, nearest < 89 ? rate + rate / Math.Cos(nearest * Math.PI / 180) : double.PositiveInfinity);
        };
    }

    private static double Outside(List<GroundPoint> corners, double north, double east)
    {
        double nearest = double.PositiveInfinity;
        bool inside = false;
        GroundPoint a = corners[^1];
        foreach (GroundPoint b in corners)
        {
            double x = b.Longitude - a.Longitude, y = b.Latitude - a.Latitude, dx = east - a.Longitude, dy = north - a.Latitude;
            double square = x * x + y * y, part = square > 0 ? Math.Clamp((dx * x + dy * y) / square, 0, 1) : 0;
            nearest = Math.Min(nearest, Math.Sqrt((dx - part * x) * (dx - part * x) + (dy - part * y) * (dy - part * y)));
            if (a.Latitude > north != b.Latitude > north && dx < x * dy / y) inside = !inside;
            a = b;
        }
        return inside ? -nearest : nearest;
    }

    private static double Height(ImmutableArray<SkylinePoint> skyline, double azimuth)
    {
        for (int i = 0; i < skyline.Length; i++)
        {
            (SkylinePoint a, SkylinePoint b, double width) = Piece(skyline, i);
            double beyond = (azimuth - a.Azimuth) % 360;
            if (beyond < 0) beyond += 360;
            if (beyond <= width) return width > 0 ? a.Elevation + (b.Elevation - a.Elevation) * beyond / width : Math.Max(a.Elevation, b.Elevation);
        }
        return skyline[0].Elevation;
    }

    /// <summary>A piece of a skyline and its width, degrees; the last one closes the circle.</summary>
    private static (SkylinePoint From, SkylinePoint To, double Width) Piece(ImmutableArray<SkylinePoint> skyline, int i)
    {
        SkylinePoint a = skyline[i], b = skyline[(i + 1) % skyline.Length];
        double width = i + 1 < skyline.Length ? b.Azimuth - a.Azimuth : b.Azimuth + 360 - a.Azimuth;
        return (a, b, width);
    }
}
