using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class ShadeTests
{
    private static readonly Solid Hull = new(new(0, 0, 0), new(10, 0, 0), 4, SolidShape.Cylinder);

    [Theory]
    // On the skin above: the Sun above is seen, below it is hidden by the hull.
    [InlineData(5, 0, -2, 0, 0, -1, false)]
    [InlineData(5, 0, -2, 0, 0, 1, true)]
    // A grip a little under the rough skin counts as on it.
    [InlineData(5, 0, -1.7, 0, 0, -1, false)]
    // On the end, the Sun ahead and astern.
    [InlineData(10, 0.5, 0, 1, 0, 0, false)]
    [InlineData(10, 0.5, 0, -1, 0, 0, true)]
    // Far below, straight under it, beside it, and past its end.
    [InlineData(5, 0, 30, 0, 0, -1, true)]
    [InlineData(5, 2.1, 30, 0, 0, -1, false)]
    [InlineData(10.1, 0, 30, 0, 0, -1, false)]
    // Along the axis from behind.
    [InlineData(-5, 1, 1, 1, 0, 0, true)]
    [InlineData(-5, 1.9, 1.9, 1, 0, 0, false)]
    // The hull is behind.
    [InlineData(5, 0, 30, 0, 0, 1, false)]
    public void IsShaded_ByACylinder_IsAsSeen(double x, double y, double z, double sunX, double sunY, double sunZ, bool shaded) =>
        Assert.Equal(shaded, Shade.IsShaded(new(x, y, z), new(sunX, sunY, sunZ), [Hull]));

    [Fact]
    public void IsShaded_CornerOfABox_IsShadedWhereTheCylinderIsNot()
    {
        Assert.True(Shade.IsShaded(new(-5, 1.9, 1.9), new(1, 0, 0), [Hull with { Shape = SolidShape.Box }]));
        Assert.False(Shade.IsShaded(new(-5, 2.3, 0), new(1, 0, 0), [Hull with { Shape = SolidShape.Box }]));
    }

    // Walking along the ray in small steps: inside a body a hand thinner it must be shaded, never inside one a hand thicker it must not.
    [Theory]
    [InlineData(SolidShape.Cylinder)]
    [InlineData(SolidShape.Box)]
    public void IsShaded_AnyRay_IsWhatWalkingAlongItFinds(SolidShape shape)
    {
        Random random = new(11);
        double Any(double size) => (2 * random.NextDouble() - 1) * size;
        int lit = 0, dark = 0;
        for (int i = 0; i < 3000; i++)
        {
            Solid body = new(new(Any(8), Any(8), Any(8)), new(Any(8), Any(8), Any(8)), 1 + 4 * random.NextDouble(), shape);
            Point point = new(Any(25), Any(25), Any(25));
            Vector3D ray = (new Vector3D(Any(8), Any(8), Any(8)) - new Vector3D(point.X, point.Y, point.Z)).Unit;
            if (IsInside(body, 0.2, point, ray, 0)) continue;
            bool through = false, near = false;
            for (double along = 0; along < 80; along += 0.05)
            {
                through |= IsInside(body, -0.05, point, ray, along);
                near |= IsInside(body, 0.05, point, ray, along);
            }
            bool shaded = Shade.IsShaded(point, ray, [body]);
            if (through) Assert.True(shaded);
            if (!near) Assert.False(shaded);
            if (through) dark++;
            else if (!near) lit++;
        }
        Assert.True(lit > 300 && dark > 300, $"{lit} lit, {dark} dark");
    }

    [Theory]
    [InlineData(0, 0, 1, 0)]
    [InlineData(0, 0, -1, 180)]
    [InlineData(1, 0, 0, 90)]
    [InlineData(1, 0, 1, 45)]
    public void FromGaze_SunSomewhere_IsMeasuredFromWhereThePersonLooks(double x, double y, double z, double degrees) =>
        Assert.Equal(degrees, Shade.FromGaze(new(0, 0, -1), new(x, y, z)), 1e-9);

    private static bool IsInside(Solid body, double thicker, Point point, Vector3D ray, double along)
    {
        Vector3D at = new Vector3D(point.X - body.From.X, point.Y - body.From.Y, point.Z - body.From.Z) + ray * along;
        Vector3D axis = new(body.To.X - body.From.X, body.To.Y - body.From.Y, body.To.Z - body.From.Z), unit = axis.Unit;
        double a = at.Dot(unit), reach = body.Width / 2 + thicker;
        if (a < -thicker || a > axis.Length + thicker) return false;
        Vector3D across = at - unit * a;
        if (body.Shape == SolidShape.Cylinder) return across.Length <= reach;
        Vector3D level = new Vector3D(unit.Y, -unit.X, 0).Unit;
        return Math.Abs(across.Dot(level)) <= reach && Math.Abs(across.Dot(level.Cross(unit))) <= reach;
    }
}
