namespace Sallyport.Physics;

/// <summary>Where an object is and how it moves: true equator, mean equinox of date (TEME), centre of the Earth.</summary>
/// <param name="Position">km.</param>
/// <param name="Velocity">km/s.</param>
public readonly record struct TemeState(Vector3D Position, Vector3D Velocity);

/// <summary>Why SGP4 gives no state at a moment. The figures are the model's own error codes (reference "sgp4-verification").</summary>
public enum Sgp4Fault
{
    /// <summary>None: there is a state.</summary>
    None = 0,
    /// <summary>The mean eccentricity left the range 0 to 1: drag over so long a time is beyond the theory.</summary>
    MeanEccentricity = 1,
    /// <summary>The mean motion is zero or less.</summary>
    MeanMotion = 2,
    /// <summary>The eccentricity left the range 0 to 1 under Sun and Moon.</summary>
    PerturbedEccentricity = 3,
    /// <summary>The semi-latus rectum is negative.</summary>
    SemiLatusRectum = 4,
    /// <summary>The orbit of the epoch meets the ground. Kept for the code's sake: this version of the model goes on and tells <see cref="Decayed"/>.</summary>
    SubOrbital = 5,
    /// <summary>The object is below the surface: it has decayed.</summary>
    Decayed = 6,
}
