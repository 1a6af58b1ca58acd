using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>A person's day: from waking to the suit being off.</summary>
/// <param name="Person">Who.</param>
/// <param name="Waking">When the person wakes, in PET: before the walk, so below zero as a rule.</param>
/// <param name="SuitOff">When the suit is off.</param>
public sealed record CrewDay(PersonId Person, Pet Waking, Pet SuitOff)
{
    /// <summary>How long the day is.</summary>
    /// <exception cref="InvalidOperationException">The suit is off before the person wakes.</exception>
    public Duration Length => SuitOff >= Waking
        ? SuitOff.Since(Waking)
        : throw new InvalidOperationException($"{Person}: the suit is off at {SuitOff}, before waking at {Waking}");

    /// <summary>What is left of a limit; below zero when the day is longer.</summary>
    public Duration LeftOf(Duration limit) => Duration.FromSeconds(limit.Seconds - Length.Seconds);
}
