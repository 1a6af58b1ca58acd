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
        "zone.entered: a rider whom an arm carries through a zone",
        "return.help: helping the other one home",
        "tether.swap: hook by hook, that the second hook is on before the first is off",
        "tether.crossed: two lines crossing",
        "tether.swept: a moving part through a line",
        "gear.nested, gear.volume: what may be in which bag, and how much",
        "footing.load: torque and force against the footing",
        "arm.brakes, arm.swept, arm.voice: brakes, people in the arm's path, voice link in guided moves",
        "structure.moving, jets.armed, beam.live: beyond the zones that the scenario closes",
        "fluid.carried: what a soiled person or thing touches afterwards",
        "work.rate, work.rest, glove.check: load on the body, rests, glove checks",
        "suit.reserve, carbon.dioxide, water.pressure: suit consumables; only the cut-off PET is held",
        "airlock.volume: people, bags and items that fit at once",
        "prebreathe.ratio, prebreathe.break, crew.day: the hours before the hatch",
        "radiation.high: passes through the high region",
        "job.late, job.halfway: latest starts, and what is unsafe when cut off halfway",
        "voice.crowded: steps led from inside at once",
        "touch.temperature, edge.sharp: surfaces and edges that the scenario does not list",
        "bolt.turns, tool.battery, tool.spare: fasteners, tool charge, spares",
    ];
}
