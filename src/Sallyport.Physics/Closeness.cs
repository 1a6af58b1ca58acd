using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>A straight line between two points; a point when both are the same.</summary>
/// <param name="From">One end, station axes, m.</param>
/// <param name="To">The other end.</param>
public readonly record struct Stretch(Point From, Point To)
{
    /// <summary>A single point.</summary>
    public static Stretch Of(Point point) => new(point, point);

    /// <summary>The point a share of the way along, from 0 to 1.</summary>
    public Point At(double share) =>
        new(From.X + (To.X - From.X) * share, From.Y + (To.Y - From.Y) * share, From.Z + (To.Z - From.Z) * share);
}

/// <summary>How near things come to each other, m.</summary>
/// <remarks>
/// A point, a straight line, a ball and a cone with a round end (of at most a right angle a side) are convex, so that the distance from a
/// point that moves along a straight line is a convex function of how far it has moved: one interval that holds its least value is made
/// smaller until nothing is left of it. The figures are good to a thousandth of a millimetre over the 10 km that a scenario may span.
/// </remarks>
public static class Closeness
{
    private const double GoldenShare = 0.6180339887498949;

    /// <summary>Least distance between two straight lines.</summary>
    public static double Between(Stretch one, Stretch other) => Least(one, point => Between(point, other));

    /// <summary>Least distance from a point to a straight line.</summary>
    public static double Between(Point point, Stretch line)
    {
        double x = line.To.X - line.From.X, y = line.To.Y - line.From.Y, z = line.To.Z - line.From.Z;
        double square = x * x + y * y + z * z;
        if (square == 0) return point.DistanceTo(line.From);
        double share = ((point.X - line.From.X) * x + (point.Y - line.From.Y) * y + (point.Z - line.From.Z) * z) / square;
        return point.DistanceTo(line.At(Math.Clamp(share, 0, 1)));
    }

    /// <summary>Least distance from a straight line to what an emitter sends from and into; zero inside.</summary>
    public static double Between(Stretch line, Emitter emitter)
    {
        double self = Math.Max(0, Between(emitter.At, line) - emitter.Around);
        return emitter.Cone is { } cone ? Math.Min(self, Least(line, point => Between(point, emitter.At, cone))) : self;
    }

    /// <summary>Whether an emitter is surely farther from a straight line than so many metres: at half way it is, by more than half the line. Quickly found
    /// out; where it says no, <see cref="Between(Stretch, Emitter)"/> has to be asked.</summary>
    public static bool IsBeyond(double metres, Stretch line, Emitter emitter) =>
        Between(Stretch.Of(line.At(0.5)), emitter) - line.From.DistanceTo(line.To) / 2 > metres + 1e-6;

    /// <summary>Least distance from a point to a cone with its tip at another point; zero inside.</summary>
    public static double Between(Point point, Point tip, Cone cone)
    {
        double length = cone.Along.DistanceTo(default);
        double x = point.X - tip.X, y = point.Y - tip.Y, z = point.Z - tip.Z;
        // In the plane of axis and point: how far along the axis, and how far from it.
        double along = (x * cone.Along.X + y * cone.Along.Y + z * cone.Along.Z) / length;
        double away = point.DistanceTo(tip);
        double beside = Math.Sqrt(Math.Max(0, away * away - along * along));
        if (Math.Atan2(beside, along) <= cone.HalfAngle) return Math.Max(0, away - cone.Reach);
        double cosine = Math.Cos(cone.HalfAngle), sine = Math.Sin(cone.HalfAngle);
        double up = Math.Clamp(along * cosine + beside * sine, 0, cone.Reach);
        double a = along - up * cosine, b = beside - up * sine;
        return Math.Sqrt(a * a + b * b);
    }

    /// <summary>The least value of a convex function along a straight line.</summary>
    private static double Least(Stretch line, Func<Point, double> value)
    {
        if (line.From == line.To) return value(line.From);
        double low = 0, high = 1;
        double a = high - GoldenShare * (high - low), b = low + GoldenShare * (high - low);
        double atA = value(line.At(a)), atB = value(line.At(b));
        while (high - low > 1e-11)
        {
            if (atA <= atB)
            {
                (high, b, atB) = (b, a, atA);
                a = high - GoldenShare * (high - low);
                atA = value(line.At(a));
            }
            else
            {
                (low, a, atA) = (a, b, atB);
                b = low + GoldenShare * (high - low);
                atB = value(line.At(b));
            }
        }
        return Math.Min(Math.Min(atA, atB), Math.Min(value(line.From), value(line.To)));
    }
}
