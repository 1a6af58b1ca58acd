using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Where the Sun stands at a moment, seen from the station.</summary>
/// <param name="At">The moment.</param>
/// <param name="Toward">The direction to the Sun in station axes, length one. By night the Earth stands between.</param>
public readonly record struct SunSight(Pet At, Vector3D Toward);

/// <summary>The Sun and the Earth as the station sees them along an orbit, for pictures.</summary>
public static class SunTrack
{
    /// <summary>Half the angle that the Earth fills at a moment, degrees, as a ball of its equatorial radius.</summary>
    /// <param name="elements">An orbit that can be followed to the moment.</param>
    /// <param name="petZero">PET 0:00, UTC.</param>
    /// <param name="at">The moment.</param>
    public static double EarthHalfAngle(OrbitElements elements, DateTime petZero, Pet at) =>
        Math.Asin(EarthShadow.EarthRadius / new OrbitTrack(elements, petZero).At(at.Seconds).Position.Length) * 180 / Math.PI;

    /// <summary>Looks for the Sun at even steps and at the last moment.</summary>
    /// <param name="elements">An orbit that can be followed through the time looked at.</param>
    /// <param name="attitude">How the station flies, all the time.</param>
    /// <param name="petZero">PET 0:00, UTC.</param>
    /// <param name="from">The first moment.</param>
    /// <param name="to">The last moment, not before the first.</param>
    /// <param name="step">From one look to the next, s; at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A step below 1 s, or a last moment before the first.</exception>
    public static ImmutableArray<SunSight> Of(OrbitElements elements, Attitude attitude, DateTime petZero, Pet from, Pet to, int step)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(step, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(to, from);
        OrbitTrack track = new(elements, petZero);
        ImmutableArray<SunSight>.Builder sights = ImmutableArray.CreateBuilder<SunSight>();
        for (int second = from.Seconds; second < to.Seconds; second += step) sights.Add(At(second));
        sights.Add(At(to.Seconds));
        return sights.ToImmutable();

        SunSight At(int second) => new(Pet.FromSeconds(second), attitude.ToStation(track.SunAt(second).Direction, track.At(second)).Unit);
    }
}
