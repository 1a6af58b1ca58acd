using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>How one person stands for a while, seen by whoever thinks of helping: what it takes to be clear, and from where one goes on.</summary>
/// <param name="From">From when.</param>
/// <param name="To">Until when.</param>
/// <param name="Activity">What goes on.</param>
/// <param name="Slower">What the load multiplies span times by.</param>
/// <param name="Where">Where one is meanwhile.</param>
/// <param name="Until">When what goes on is ended, if that comes first; null where it is broken off.</param>
/// <param name="Off">What it takes then to be clear of it and on the structure: broken off, out of the restraint, off the arm.</param>
/// <param name="Places">Where one stands then; for somebody between two grips, who is found at either, the one ahead first.</param>
internal sealed record Stand(
    Pet From, Pet To, ActivityId Activity, double Slower, Passage Where, Pet? Until, ImmutableArray<WayLeg> Off, ImmutableArray<Standpoint> Places)
{
    /// <summary>How one stands with the arm stopped, which one can then only climb down from; null for who is on none.</summary>
    public Stand? Stopped { get; init; }

    /// <summary>Seconds until clear at a moment in it.</summary>
    public int Clear(Pet now)
    {
        int seconds = Until is { } end ? end.Since(now).Seconds : 0;
        foreach (WayLeg leg in Off) seconds += leg.Seconds;
        return seconds;
    }
}

/// <summary>Where somebody can be found: a grip, the tether line that leads there, none with short tethers, and the climb down to the grip from an arm
/// that has stopped, null on the structure. A book has one of each.</summary>
internal sealed class Standpoint(GripId grip, Lay line, WayLeg? climb)
{
    public GripId Grip { get; } = grip;

    public Lay Line { get; } = line;

    public WayLeg? Climb { get; } = climb;
}
