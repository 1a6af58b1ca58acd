using System.Collections.Immutable;

namespace Sallyport.Proof;

/// <summary>What this version cannot check, in words. Nothing of it is ever counted as clean.</summary>
public static class NotChecked
{
    /// <summary>True of every scenario.</summary>
    public static ImmutableArray<string> Always { get; } =
    [
        "return times: zones on the way home are taken as open, and the hatch as ready",
        "contingency branches: what is done when a step does not go",
        "step times: the likely figure only; low and high are not tried",
        "return.help: helping the other one home",
        "edge.sharp: listed edges within reach at a worksite",
        "gear.nested, gear.volume: what may be in which bag, and how much",
        "footing.load: torque and force against the footing",
        "line.pressure, line.trapped, fluid.carried, bakeout.budget: fluid lines and contamination",
        "work.rate, work.rest, glove.check: load on the body, rests, glove checks",
        "suit.reserve, carbon.dioxide, water.pressure: suit consumables; only the cut-off PET is held",
        "airlock.volume: people, bags and items that fit at once",
        "prebreathe.ratio, prebreathe.break, crew.day: the hours before the hatch",
        "radiation.high: passes through the high region",
        "job.late, job.halfway: latest starts, and what is unsafe when cut off halfway",
        "voice.crowded: steps led from inside at once",
        "touch.temperature: surfaces against the glove",
        "bolt.turns, tool.battery, tool.spare: fasteners, tool charge, spares",
    ];
}
