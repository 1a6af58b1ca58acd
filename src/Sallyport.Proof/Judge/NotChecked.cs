using System.Collections.Immutable;

namespace Sallyport.Proof;

/// <summary>What this version cannot check, in words. Nothing of it is ever counted as clean.</summary>
public static class NotChecked
{
    /// <summary>True of every scenario.</summary>
    public static ImmutableArray<string> Always { get; } =
    [
        "return times: zones on the way home are taken as open, and the hatch as ready",
        "return.help: with the arm stopped as well, or against what the two suits still hold",
        "fluid.carried: what a soiled person or thing touches afterwards",
        "work.rate: load on the body",
        "suit.reserve, carbon.dioxide, water.pressure: suit consumables; only the cut-off PET is held",
        "prebreathe.ratio, prebreathe.break, crew.day: the hours before the hatch",
        "job.late: latest starts only where the scenario writes them",
        "touch.temperature, edge.sharp: surfaces and edges that the scenario does not list",
    ];
}
