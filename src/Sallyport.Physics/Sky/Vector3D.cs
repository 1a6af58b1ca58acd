using System.Globalization;

namespace Sallyport.Physics;

/// <summary>Three components along the axes of a frame; the member that returns it says which frame and which unit.</summary>
/// <remarks><c>default</c> is the zero vector.</remarks>
/// <param name="X">Along the first axis.</param>
/// <param name="Y">Along the second axis.</param>
/// <param name="Z">Along the third axis.</param>
public readonly record struct Vector3D(double X, double Y, double Z)
{
    /// <summary>Its length, in the unit of its components.</summary>
    public double Length => Math.Sqrt(Dot(this));

    /// <summary>The vector of length one along this one; not a number for the zero vector.</summary>
    public Vector3D Unit => this * (1 / Length);

    /// <summary>The scalar product.</summary>
    public double Dot(Vector3D other) => X * other.X + Y * other.Y + Z * other.Z;

    /// <summary>The vector product, right-handed.</summary>
    public Vector3D Cross(Vector3D other) =>
        new(Y * other.Z - Z * other.Y, Z * other.X - X * other.Z, X * other.Y - Y * other.X);

    /// <summary>The angle to another vector, 0 to π rad; exact for small angles too.</summary>
    public double AngleTo(Vector3D other) => Math.Atan2(Cross(other).Length, Dot(other));

    /// <summary>The components of the same vector in a frame turned about the third axis by an angle, rad, from the first axis to the second.</summary>
    public Vector3D InFrameTurnedAboutZ(double angle)
    {
        (double sin, double cos) = Math.SinCos(angle);
        return new(cos * X + sin * Y, cos * Y - sin * X, Z);
    }

    /// <summary>The sum of two vectors of one frame.</summary>
    public static Vector3D operator +(Vector3D left, Vector3D right) => new(left.X + right.X, left.Y + right.Y, left.Z + right.Z);

    /// <summary>The difference of two vectors of one frame.</summary>
    public static Vector3D operator -(Vector3D left, Vector3D right) => new(left.X - right.X, left.Y - right.Y, left.Z - right.Z);

    /// <summary>The opposite vector.</summary>
    public static Vector3D operator -(Vector3D vector) => new(-vector.X, -vector.Y, -vector.Z);

    /// <summary>The vector made longer by a factor.</summary>
    public static Vector3D operator *(Vector3D vector, double factor) => new(vector.X * factor, vector.Y * factor, vector.Z * factor);

    /// <summary>The three components.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"({X}, {Y}, {Z})");
}
