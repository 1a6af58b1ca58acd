using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>How a station flies: its axes (x forward, y starboard, z down) against local vertical and local horizontal (LVLH).</summary>
/// <remarks>
/// LVLH here: z to the centre of the Earth, y against the momentum of the orbit, x completes them and points along the flight in a circular orbit.
/// From LVLH the axes are turned by yaw about z, then by pitch about the new y, then by roll about the new x, all right-handed:
/// a yaw above zero turns the bow to starboard, a pitch lifts it, a roll lowers the starboard side. All zero is flight along the x axis.
/// </remarks>
/// <param name="Yaw">Degrees.</param>
/// <param name="Pitch">Degrees.</param>
/// <param name="Roll">Degrees.</param>
public readonly record struct Attitude(double Yaw, double Pitch, double Roll)
{
    /// <summary>A direction given in TEME, as components along the axes of the station.</summary>
    /// <param name="direction">TEME; its length is kept.</param>
    /// <param name="state">Where the station is; position and velocity not along one line.</param>
    public Vector3D ToStation(Vector3D direction, TemeState state)
    {
        Vector3D down = -state.Position.Unit, starboard = -state.Position.Cross(state.Velocity).Unit, forward = starboard.Cross(down);
        return Turned(new(direction.Dot(forward), direction.Dot(starboard), direction.Dot(down)));
    }

    /// <summary>A direction in LVLH, as components along the axes of the station.</summary>
    public Vector3D Turned(Vector3D inLvlh)
    {
        const double degree = Math.PI / 180;
        (double sin, double cos) = Math.SinCos(Yaw * degree);
        (double x, double y, double z) = (cos * inLvlh.X + sin * inLvlh.Y, cos * inLvlh.Y - sin * inLvlh.X, inLvlh.Z);
        (sin, cos) = Math.SinCos(Pitch * degree);
        (x, z) = (cos * x - sin * z, cos * z + sin * x);
        (sin, cos) = Math.SinCos(Roll * degree);
        return new(x, cos * y + sin * z, cos * z - sin * y);
    }

    /// <summary>The direction of the Sun in the axes of the station, length one, at an instant.</summary>
    /// <remarks>From the centre of the Earth: a low orbit sees the Sun within 0.003° of it.</remarks>
    /// <param name="state">Where the station is at the instant.</param>
    /// <param name="utc">The instant.</param>
    public Vector3D SunInStation(TemeState state, DateTime utc) => ToStation(Sun.At(utc).Direction, state);
}

/// <summary>A body that casts a shadow: a cylinder or a square box about an axis, closed at both ends. Station axes, metres.</summary>
/// <param name="From">One end of its axis.</param>
/// <param name="To">The other end; not the same point.</param>
/// <param name="Width">Its diameter or width, m.</param>
/// <param name="Shape">Round or square.</param>
public sealed record Solid(Point From, Point To, double Width, SolidShape Shape)
{
    /// <summary>A module as a body of one shape.</summary>
    public static Solid Of(Module module, SolidShape shape) => new(module.From, module.To, module.Width, shape);
}
