using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class Vector3DTests
{
    // A record prints its properties, and the unit vector has a unit vector.
    [Fact]
    public void ToString_Any_IsTheThreeComponents() => Assert.Equal("(1.5, -2, 0)", new Vector3D(1.5, -2, 0).ToString());

    [Fact]
    public void AngleTo_NearlyParallel_KeepsItsDigits() => Assert.Equal(1e-9, new Vector3D(1, 0, 0).AngleTo(new(1, 1e-9, 0)), 1e-15);
}
