using System.Collections.Immutable;

namespace Sallyport.Proof;

/// <summary>What this version cannot check, in words. Nothing of it is ever counted as clean.</summary>
public static class NotChecked
{
    /// <summary>True of every scenario.</summary>
    public static ImmutableArray<string> Always { get; } =
    [
        "return times: pressure and umbilicals behind a hatch that is open",
        "fluid.carried: what is soiled by handrails, restraints and arms that somebody soiled has held, and what shades a person or thing that bakes out",
        "job.late: latest starts only where the scenario writes them",
        "touch.temperature, edge.sharp: surfaces and edges that the scenario does not list",
    ];
}
