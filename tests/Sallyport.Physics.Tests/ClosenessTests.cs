using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

/// <summary>Nearest approaches, by hand and against trying many points.</summary>
public sealed class ClosenessTests
{
    private const double Degree = Math.PI / 180;

    private static readonly Gen<double> Metres = Gen.Double[-20, 20];

    private static readonly Gen<Point> Points = Gen.Select(Metres, Metres, Metres).Select((x, y, z) => new Point(x, y, z));

    private static readonly Gen<Stretch> Lines = Gen.Select(Points, Points).Select((from, to) => new Stretch(from, to));

    private static readonly Gen<Cone> Cones = Gen.Select(Points.Where(along => along.DistanceTo(default) > 0.1), Gen.Double[1, 90], Gen.Double[0.5, 25])
        .Select((along, angle, reach) => new Cone(along, angle * Degree, reach));

    [Fact]
    public void Between_PointsAndLines_IsTheDistanceByHand()
    {
        Stretch along = new(new(0, 0, 0), new(10, 0, 0));
        Assert.Equal(3, Closeness.Between(new Point(5, 3, 0), along), 1e-12);
        Assert.Equal(5, Closeness.Between(new Point(13, 4, 0), along), 1e-12);
        Assert.Equal(5, Closeness.Between(new Point(-3, 4, 0), along), 1e-12);
        // Two lines at a right angle, 2 m apart.
        Assert.Equal(2, Closeness.Between(along, new Stretch(new(4, -5, 2), new(4, 5, 2))), 1e-9);
        // Parallel, side by side and end to end.
        Assert.Equal(1, Closeness.Between(along, new Stretch(new(0, 1, 0), new(10, 1, 0))), 1e-9);
        Assert.Equal(2, Closeness.Between(along, new Stretch(new(12, 0, 0), new(20, 0, 0))), 1e-9);
    }

    [Fact]
    public void Between_APointAndACone_IsTheDistanceByHand()
    {
        Cone cone = new(new(5, 0, 0), 30 * Degree, 10);
        Assert.Equal(0, Closeness.Between(new Point(4, 1, 0), default, cone), 1e-12);
        Assert.Equal(2, Closeness.Between(new Point(12, 0, 0), default, cone), 1e-12);
        // Behind the tip the tip itself is nearest.
        Assert.Equal(3, Closeness.Between(new Point(-3, 0, 0), default, cone), 1e-12);
        // Square to the axis at 4 m: 4 × cos 30° from the side.
        Assert.Equal(4 * Math.Cos(30 * Degree), Closeness.Between(new Point(0, 4, 0), default, cone), 1e-12);
    }

    [Fact]
    public void Between_ALineThroughACone_IsZeroAndPastItIsNot()
    {
        Emitter jets = new(new("jets"), new("jets"), ["held"], default, 0.5, new(new(1, 0, 0), 20 * Degree, 10));
        Assert.Equal(0, Closeness.Between(new Stretch(new(6, -30, 0), new(6, 30, 0)), jets), 1e-9);
        // 12 m out, square to the axis: 2 m beyond the end.
        Assert.Equal(2, Closeness.Between(new Stretch(new(12, -30, 0), new(12, 30, 0)), jets), 1e-6);
        // Behind: half a metre of radius.
        Assert.Equal(1.5, Closeness.Between(new Stretch(new(-2, -30, 0), new(-2, 30, 0)), jets), 1e-6);
    }

    // The referee lays 401 points on the line and tries 401 rays of the cone for each: between two of either nothing is nearer by more
    // than half a step of the one and half a step of the other.
    [Fact]
    public void Between_RandomLinesAndCones_IsTheLeastOfManyPointsAndRays() => Gen.Select(Lines, Points, Cones).Sample((line, tip, cone) =>
    {
        Emitter emitter = new(new("jets"), new("jets"), ["held"], tip, 0, cone);
        double least = double.MaxValue, step = line.From.DistanceTo(line.To) / 400, fan = cone.Reach * cone.HalfAngle / 400;
        for (int i = 0; i <= 400; i++)
            for (int ray = 0; ray <= 400; ray++) least = Math.Min(least, ToRay(line.At(i / 400.0), tip, cone, cone.HalfAngle * ray / 400));
        Assert.InRange(Closeness.Between(line, emitter), least - step - fan - 1e-9, least + 1e-9);
    }, iter: 60);

    // What is quickly put aside is put aside rightly; and enough of it is, for the quick way to be worth having.
    [Fact]
    public void IsBeyond_RandomLinesAndEmitters_OnlyWhatIsFartherAway()
    {
        int beyond = 0, farther = 0;
        Gen.Select(Lines, Points, Cones, Gen.Double[0, 3], Gen.Double[0, 15]).Sample((line, at, cone, around, metres) =>
        {
            Emitter emitter = new(new("jets"), new("jets"), ["held"], at, around, around < 1 ? null : cone);
            bool isFarther = Closeness.Between(line, emitter) > metres;
            if (isFarther) Interlocked.Increment(ref farther);
            if (!Closeness.IsBeyond(metres, line, emitter)) return;
            Interlocked.Increment(ref beyond);
            Assert.True(isFarther);
        }, iter: 2_000);
        Assert.InRange(beyond, farther / 20, farther);
    }

    [Fact]
    public void Between_RandomLines_IsTheLeastOfManyPoints() => Gen.Select(Lines, Lines).Sample((one, other) =>
    {
        double least = double.MaxValue, step = one.From.DistanceTo(one.To) / 5_000;
        for (int i = 0; i <= 5_000; i++) least = Math.Min(least, Closeness.Between(one.At(i / 5_000.0), other));
        Assert.InRange(Closeness.Between(one, other), least - step - 1e-9, least + 1e-9);
        Assert.Equal(Closeness.Between(one, other), Closeness.Between(other, one), 1e-6);
    }, iter: 300);

    /// <summary>From a point to one ray of a cone, the one turned towards the point by an angle from the axis.</summary>
    private static double ToRay(Point point, Point tip, Cone cone, double angle)
    {
        double along = ((point.X - tip.X) * cone.Along.X + (point.Y - tip.Y) * cone.Along.Y + (point.Z - tip.Z) * cone.Along.Z) / cone.Along.DistanceTo(default);
        double away = point.DistanceTo(tip), beside = Math.Sqrt(Math.Max(0, away * away - along * along));
        (double sine, double cosine) = Math.SinCos(angle);
        double onRay = Math.Clamp(along * cosine + beside * sine, 0, cone.Reach);
        return Math.Sqrt(Math.Pow(along - onRay * cosine, 2) + Math.Pow(beside - onRay * sine, 2));
    }
}
