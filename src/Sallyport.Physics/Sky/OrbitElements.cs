namespace Sallyport.Physics;

/// <summary>Mean elements of an orbit for SGP4, as element sets (TLE, OMM) give them: frame TEME, time UTC, centre Earth.</summary>
/// <remarks>They mean nothing to another theory: the mean motion is the one of Kozai, and all are averaged as SGP4 wants them.</remarks>
/// <param name="Name">As people call the object.</param>
/// <param name="Epoch">The instant of the elements, UTC.</param>
/// <param name="MeanMotion">Revolutions a day, above 0.</param>
/// <param name="Eccentricity">At least 0, below 1.</param>
/// <param name="Inclination">Degrees, 0 to 180.</param>
/// <param name="Node">Right ascension of the ascending node, degrees.</param>
/// <param name="Perigee">Argument of perigee, degrees.</param>
/// <param name="MeanAnomaly">Degrees.</param>
/// <param name="Drag">The drag term B*, 1 / Earth radii; may be negative, and zero switches drag off.</param>
public sealed record OrbitElements(
    string Name, DateTime Epoch, double MeanMotion, double Eccentricity, double Inclination, double Node, double Perigee, double MeanAnomaly, double Drag)
{
    /// <summary>Minutes from the epoch to an instant, UTC; negative before it.</summary>
    public double MinutesTo(DateTime instant) => (instant - Epoch).Ticks / (double)TimeSpan.TicksPerMinute;

    /// <summary>The age of the elements at an instant, in days either way: SGP4 loses some kilometres a day along the track, before the epoch as after.</summary>
    public double AgeInDays(DateTime instant) => Math.Abs(MinutesTo(instant)) / 1440;
}
