using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Shade and glare at a point of the station, by a ray to the middle of the Sun against simple bodies.</summary>
/// <remarks>
/// The bodies are as rough as the picture of the station, and the Sun is 0.5° wide: an edge is good to a width of the Sun at best. What is not
/// in the list of bodies (arrays that turn, people, gear) casts no shadow here. Whether it is night is another question, see <see cref="SkyTimes"/>.
/// </remarks>
public static class Shade
{
    /// <summary>Whether a body stands between a point and the Sun.</summary>
    /// <remarks>A point on or inside a body, such as a grip on its skin, is taken as on the skin nearest to it: the body then shades it from behind only.</remarks>
    /// <param name="point">Station axes, m.</param>
    /// <param name="towardSun">Station axes; not the zero vector.</param>
    /// <param name="bodies">What may stand between.</param>
    public static bool IsShaded(Point point, Vector3D towardSun, ImmutableArray<Solid> bodies)
    {
        foreach (Solid body in bodies)
            if (Blocks(body, point, towardSun.Unit)) return true;
        return false;
    }

    /// <summary>The angle, degrees, between where a person at a worksite looks and the Sun: 0 is straight in the eyes, above 90 is behind.</summary>
    /// <param name="outward">The direction away from the structure at the worksite, station axes: the person faces against it.</param>
    /// <param name="towardSun">Station axes.</param>
    public static double FromGaze(Vector3D outward, Vector3D towardSun) => (-outward).AngleTo(towardSun) * 180 / Math.PI;

    private static bool Blocks(Solid body, Point point, Vector3D ray)
    {
        Vector3D axis = Between(body.From, body.To);
        double half = axis.Length / 2, reach = body.Width / 2;
        Vector3D along = axis.Unit;
        // Level means across the z axis; for an axis that stands up, across the x axis.
        Vector3D level = along.Cross(Math.Abs(along.Z) > 0.999 ? new(1, 0, 0) : new(0, 0, 1)).Unit, third = along.Cross(level);
        Vector3D from = Between(body.From, point) - along * half;
        double a = from.Dot(along), b = from.Dot(level), c = from.Dot(third), da = ray.Dot(along), db = ray.Dot(level), dc = ray.Dot(third);
        double across = body.Shape == SolidShape.Box ? Math.Max(Math.Abs(b), Math.Abs(c)) : Math.Sqrt(b * b + c * c);
        double depth = Math.Min(half - Math.Abs(a), reach - across);
        // On the skin or under it: only what goes on inward is blocked.
        if (depth >= -Skin)
        {
            if (half - Math.Abs(a) < reach - across) return a * da < 0;
            if (body.Shape == SolidShape.Box) return Math.Abs(b) >= Math.Abs(c) ? b * db < 0 : c * dc < 0;
            return b * db + c * dc < 0;
        }
        double enter = 0, leave = double.PositiveInfinity;
        if (!Slab(a, da, half, ref enter, ref leave)) return false;
        return body.Shape == SolidShape.Box
            ? Slab(b, db, reach, ref enter, ref leave) && Slab(c, dc, reach, ref enter, ref leave)
            : Round(b, c, db, dc, reach, ref enter, ref leave);
    }

    /// <summary>So near to a body a point is on its skin, m: a hand's width, since a grip stands that far off.</summary>
    private const double Skin = 0.1;

    private static Vector3D Between(Point from, Point to) => new(to.X - from.X, to.Y - from.Y, to.Z - from.Z);

    private static bool Slab(double at, double change, double half, ref double enter, ref double leave)
    {
        if (change == 0) return Math.Abs(at) < half;
        double near = (-Math.CopySign(half, change) - at) / change, far = (Math.CopySign(half, change) - at) / change;
        enter = Math.Max(enter, near);
        leave = Math.Min(leave, far);
        return enter < leave;
    }

    private static bool Round(double b, double c, double db, double dc, double reach, ref double enter, ref double leave)
    {
        double square = db * db + dc * dc, mixed = b * db + c * dc, rest = b * b + c * c - reach * reach;
        if (square == 0) return rest < 0;
        double root = mixed * mixed - square * rest;
        if (root <= 0) return false;
        enter = Math.Max(enter, (-mixed - Math.Sqrt(root)) / square);
        leave = Math.Min(leave, (-mixed + Math.Sqrt(root)) / square);
        return enter < leave;
    }
}
