using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>A stretch of fluid line between valves and disconnects. A valve or disconnect that two stretches name joins them.</summary>
/// <param name="Name">As people call it.</param>
/// <param name="Ends">The features that shut it off: each a valve or a disconnect of the station.</param>
/// <param name="Pressure">Working pressure, Pa.</param>
public sealed record FluidLine(string Name, ImmutableArray<FeatureId> Ends, double Pressure)
{
    /// <summary>What flows in it, in words.</summary>
    public string Holds { get; init; } = "";

    /// <summary>Whether that is a liquid, which bursts what it is shut into when it is warmed.</summary>
    public bool Liquid { get; init; }

    /// <summary>Whether it keeps itself under pressure, by a pump or a tank: what is joined to it is not shut off.</summary>
    public bool Feeds { get; init; }

    /// <summary>Whether what is spilled from it does no harm inside.</summary>
    public bool Harmless { get; init; }

    /// <summary>The longest time in the sun while full and shut off; null when it holds no liquid.</summary>
    public Duration? Trapped { get; init; }

    /// <summary>Where that figure comes from.</summary>
    public string Source { get; init; } = "";

    /// <summary>Why it may be left full and shut off when everybody goes in before the work is done; null when it may not.</summary>
    public string? MayBeLeft { get; init; }

    /// <summary>Whether it lies in shade at night. Otherwise it counts as sunlit always.</summary>
    public bool ShadedAtNight { get; init; }
}

/// <summary>A valve: open in every state that is not named as shut.</summary>
/// <param name="Feature">The feature that it is.</param>
/// <param name="Shut">The states in which nothing passes.</param>
public sealed record Valve(FeatureId Feature, ImmutableArray<string> Shut);

/// <summary>A quick disconnect (QD): open to vacuum in every state that is named neither as mated nor as capped.</summary>
/// <param name="Feature">The feature that it is.</param>
/// <param name="Mated">The states in which it is mated and its lock was checked, so that fluid may pass.</param>
/// <param name="Capped">The states in which its ends are apart and capped.</param>
public sealed record Disconnect(FeatureId Feature, ImmutableArray<string> Mated, ImmutableArray<string> Capped);

/// <summary>What makes a soiled person or thing clean enough to come in.</summary>
/// <param name="Sunlit">Time outside in sunlight since last soiled.</param>
/// <param name="Test">How long the test after it takes.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record BakeOut(Duration Sunlit, Duration Test, string Source);

/// <summary>Who and what a spill reaches, or a test is made on.</summary>
public enum Soiled
{
    /// <summary>Whoever does the step.</summary>
    Person,
    /// <summary>What the step needs and what the person carries, bags apart.</summary>
    Tool,
    /// <summary>The bags at hand.</summary>
    Bag,
}
