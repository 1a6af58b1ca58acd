using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>What a thing is.</summary>
public enum GearKind
{
    /// <summary>A bag or other container.</summary>
    Bag,
    /// <summary>A part that is fitted, removed or brought home.</summary>
    Part,
    /// <summary>A tool.</summary>
    Tool,
    /// <summary>A portable foot restraint.</summary>
    Restraint,
    /// <summary>Something that is used up, by count.</summary>
    Stock,
}

/// <summary>A thing that is always somewhere.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">As shown.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Size">Its size class.</param>
/// <param name="Mass">kg.</param>
/// <param name="Volume">m³.</param>
/// <param name="Start">Where it is at the start.</param>
/// <param name="End">Where it must be at the end; null when it does not matter, but it must still be accounted for.</param>
/// <param name="Count">Pieces at the start, for stock; otherwise 1.</param>
public sealed record Gear(
    GearId Id, string Title, GearKind Kind, SizeId Size, double Mass, double Volume, Location Start, Location? End, int Count)
{
    /// <summary>What a bag takes; null when the scenario does not say, and for what is no bag.</summary>
    public BagHolds? Holds { get; init; }

    /// <summary>The torques that a tool can be set to, N·m; null when the scenario does not say.</summary>
    public Band? Torque { get; init; }

    /// <summary>What a battery tool can do; null for a tool without a battery.</summary>
    public ToolCharge? Charge { get; init; }

    /// <summary>The tools that this one stands in for when they fail.</summary>
    public ImmutableArray<GearId> SpareFor { get; init; } = [];

    /// <summary>Why it may be left hanging outside when everybody goes in before the work is done, although it is wanted inside; null when that is not said.</summary>
    public string? MayBeLeft { get; init; }

    /// <summary>Why it stays outside on purpose; null when it is not meant to.</summary>
    public string? Stays { get; init; }
}

/// <summary>The kinds of place where a thing can be.</summary>
public enum LocationKind
{
    /// <summary>Inside the station. It can be taken at the airlock's grip once that airlock is in use.</summary>
    Inside,
    /// <summary>Hooked at a grip.</summary>
    Grip,
    /// <summary>In a bag.</summary>
    Bag,
    /// <summary>On a person's suit, at any carry point.</summary>
    Person,
    /// <summary>Plugged into a socket.</summary>
    Socket,
    /// <summary>Installed at a worksite.</summary>
    Site,
    /// <summary>Fitted on an arm.</summary>
    Arm,
    /// <summary>Used up.</summary>
    Spent,
}

/// <summary>A place where a thing can be, written <c>inside</c>, <c>grip G</c>, <c>bag B</c>, <c>person P</c>, <c>socket S</c>, <c>site W</c>, <c>arm A</c> or <c>spent</c>.</summary>
/// <param name="Kind">What kind of place.</param>
/// <param name="Name">Which one; empty for <c>inside</c> and <c>spent</c>.</param>
public readonly record struct Location(LocationKind Kind, string Name)
{
    /// <summary>Inside the station.</summary>
    public static Location Inside { get; } = new(LocationKind.Inside, "");

    /// <summary>As written in files.</summary>
    public override string ToString() => Name.Length == 0 ? Kind.ToString().ToLowerInvariant() : $"{Kind.ToString().ToLowerInvariant()} {Name}";
}

/// <summary>The times that handling gear and restraints takes, each with what it takes to break off.</summary>
/// <param name="Take">Take a thing from a grip or from inside onto the suit.</param>
/// <param name="Put">Hook a thing from the suit at a grip.</param>
/// <param name="Give">Hand a thing from one suit to another.</param>
/// <param name="Plug">Plug a restraint into a socket and set it.</param>
/// <param name="Unplug">Take a restraint out of a socket onto the suit.</param>
/// <param name="Enter">Get into a restraint.</param>
/// <param name="Leave">Get out of a restraint. Also what leaving it costs in a return.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record Handling(
    HandlingTime Take, HandlingTime Put, HandlingTime Give, HandlingTime Plug, HandlingTime Unplug, HandlingTime Enter, HandlingTime Leave, string Source)
{
    /// <summary>What hooking the second tie takes, before the first is let go: part of each time above in which a thing changes hands. Null
    /// when the scenario does not say that it is done.</summary>
    public Duration? Tie { get; init; }
}

/// <summary>The time for one handling, and to break it off at any moment in it.</summary>
/// <param name="Time">How long it takes.</param>
/// <param name="BreakOff">How long it takes at most to be clear of it, once begun; at least 1 s.</param>
public sealed record HandlingTime(Duration Time, Duration BreakOff);
