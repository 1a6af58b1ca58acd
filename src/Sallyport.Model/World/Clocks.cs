using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>A thermal clock.</summary>
/// <param name="Value">As written in the files.</param>
public readonly record struct ClockId(string Value)
{
    /// <inheritdoc/>
    public override string ToString() => Value ?? "";
}

/// <summary>What happens when a thermal clock runs out.</summary>
public enum ClockKind
{
    /// <summary>Something freezes.</summary>
    Cold,
    /// <summary>Something gets too hot.</summary>
    Hot,
}

/// <summary>Something that may stay without its heating or cooling for a time only. How long depends on its state; what is used up in one
/// state counts in the next, as a share of how long it would have lasted from fresh.</summary>
/// <param name="Id">Its name, such as <c>gyro heaters</c>.</param>
/// <param name="Kind">Whether it gets too cold or too hot.</param>
/// <param name="While">It runs while all of these are so, and is fresh again once one is not. At least one.</param>
/// <param name="Lasts">How long it lasts from fresh: the first whose conditions are all so. The last one has none, so that one always is.</param>
/// <param name="MayRunOn">Whether it may still run at the end of the plan.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record HeatClock(ClockId Id, ClockKind Kind, ImmutableArray<WorldCondition> While, ImmutableArray<ClockRate> Lasts, bool MayRunOn, string Source);

/// <summary>How long a clock lasts in one state.</summary>
/// <param name="When">The state: all of these.</param>
/// <param name="Time">How long from fresh.</param>
public sealed record ClockRate(ImmutableArray<WorldCondition> When, Duration Time);

/// <summary>Something that is so or not.</summary>
public abstract record WorldCondition;

/// <summary>A feature is in one of some states.</summary>
/// <param name="Condition">Which.</param>
public sealed record FeatureIs(FeatureCondition Condition) : WorldCondition;

/// <summary>A thing is somewhere; on a person means on any carry point.</summary>
/// <param name="Gear">Which thing.</param>
/// <param name="Place">Where.</param>
public sealed record GearIsIn(GearId Gear, Location Place) : WorldCondition;

/// <summary>It is day, or night.</summary>
/// <param name="Light">Which.</param>
public sealed record LightIs(LightCondition Light) : WorldCondition;

/// <summary>Something is shut down: from the end of the command that turns it off until it is seen to be on again.</summary>
/// <param name="Shutdown">Which.</param>
public sealed record IsShutDown(ShutdownId Shutdown) : WorldCondition;
