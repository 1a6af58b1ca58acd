namespace Sallyport.Desk.Tests;

/// <summary>What is told of bags, tools, bolts, footings and airlocks that contradict themselves.</summary>
public sealed class BadGearTests
{
    private const string Every = "every-key";

    public static TheoryData<BadInput> Cases =>
    [
        new BadInput("bag overfilled at the start", Every, "tools.yaml", "holds: {volume: 8 L", "holds: {volume: 0.9 L",
            "tools.yaml:15:3: bag.full | tool-bag, which holds 1 L at the start | at most 0.9 L | let something start elsewhere, or mend its figures."),
        new BadInput("bag too heavy at the start", Every, "tools.yaml", "mass: 20 kg, sizes", "mass: 0.9 kg, sizes",
            "tools.yaml:15:3: bag.full | tool-bag, which holds 1 kg at the start | at most 0.9 kg | let something start elsewhere, or mend its figures."),
        new BadInput("too many things in a bag", Every, "tools.yaml", "items: 5, bags: true}}", "items: 1, bags: true}}\n- {id: pen, title: Pen, kind: part, size: small, mass: 1 kg, volume: 1 L, start: bag tool-bag}",
            "tools.yaml:15:3: bag.full | tool-bag, which holds 2 things at the start | at most 1 thing | let something start elsewhere, or mend its figures."),
        new BadInput("size that a bag does not take", Every, "tools.yaml", "sizes: [small], items", "sizes: [bag], items",
            "tools.yaml:16:3: bag.size | wrench in tool-bag at the start, where wrench is small | one of what tool-bag takes: bag | use another bag, or say that this one takes it."),
        new BadInput("a bag in a bag that takes none", Every, "tools.yaml", "items: 5, bags: true}}", "items: 5}}\n- {id: pouch, title: Pouch, kind: bag, size: small, mass: 1 kg, volume: 1 L, start: bag tool-bag}",
            "tools.yaml:16:3: bag.nested | pouch in tool-bag in lamp-bag | no bag in a bag in a bag | let one of them start elsewhere.",
            "tools.yaml:16:3: bag.nested | pouch in tool-bag at the start | things that are no bags, since tool-bag does not say 'bags: true' | use another place, or say that this one takes bags."),
        new BadInput("a bag in a bag in a bag", Every, "tools.yaml", "- {id: second-wrench,", "- {id: pouch, title: Pouch, kind: bag, size: small, mass: 1 kg, volume: 1 L, start: bag tool-bag}\n- {id: second-wrench,",
            "tools.yaml:18:3: bag.nested | pouch in tool-bag in lamp-bag | no bag in a bag in a bag | let one of them start elsewhere."),
        new BadInput("holds of what is no bag", Every, "tools.yaml", "stays: it is handed over", "holds: {volume: 1 L, mass: 1 kg, sizes: [small], items: 1}, stays: it is handed over",
            "tools.yaml:17:84: key.clash | a thing with 'holds' | only a bag holds something | delete 'holds', or change what it clashes with."),
        new BadInput("torque of what is no tool", Every, "tools.yaml", "start: bag lamp-bag, holds", "start: bag lamp-bag, torque: {least: 1 N-m, most: 2 N-m}, holds",
            "tools.yaml:15:113: key.clash | a thing with 'torque' | only a tool has it | delete 'torque', or change what it clashes with."),
        new BadInput("stays, and ends inside", Every, "tools.yaml", "stays: it is handed over to the next walk", "end: inside, stays: it is handed over to the next walk",
            "tools.yaml:17:97: key.clash | a thing with 'stays' | it ends inside | delete 'stays', or change what it clashes with."),
        new BadInput("spare for itself", Every, "tools.yaml", "spare_for: [wrench]", "spare_for: [second-wrench]",
            "tools.yaml:18:3: spare.itself | second-wrench as its own spare | another tool | delete the name, or name the tool that it stands in for."),
        new BadInput("spare for what is no tool", Every, "tools.yaml", "spare_for: [wrench]", "spare_for: [tool-bag]",
            "tools.yaml:18:122: name.kind | 'tool-bag', which is a known gear item but no tool | a tool | use one of: camera, wrench, second-wrench."),
        new BadInput("more kept than there is", Every, "tools.yaml", "keep: 10 turns", "keep: 61 turns",
            "tools.yaml:17:11: charge.keep | 61 to keep of 60 | 'keep' no more than there is | mend one of the two."),
        new BadInput("charge of two kinds", Every, "tools.yaml", "{turns: 60 turns,", "{turns: 60 turns, uses: 3 pieces,",
            "tools.yaml:17:11: key.clash | a charge with more than one of: turns, uses | exactly one of them | keep the one that is meant."),
        new BadInput("band upside down", Every, "tools.yaml", "least: 12 ft-lbf, most: 16 ft-lbf", "least: 18 ft-lbf, most: 16 ft-lbf",
            "tools.yaml:2:133: band.order | from 18 ft-lbf to 16 ft-lbf | 'most' no less than 'least' | swap or mend the two."),
        new BadInput("band without its unit", Every, "tools.yaml", "most: 16 ft-lbf", "most: 16",
            "tools.yaml:2:158: unit.missing | '16' for 'most', without a unit | a torque with its unit | write the unit after the figure, such as '16 N-m'."),
        new BadInput("scatter wider than the preload", Every, "tools.yaml", "scatter: 0.25", "scatter: 0.5",
            "tools.yaml:3:3: bolt.scatter | foot-bolts, whose preload no torque keeps from 8000 N to 15000 N when it scatters by 0.5 either way | a band of preload wider than its scatter | widen the band, or state a better known scatter."),
        new BadInput("bolt too far in", Every, "tools.yaml", "start: 6 turns", "start: 7 turns",
            "tools.yaml:2:3: bolt.start | lamp-bolts, which is 7 turns in at the start | no more than it is in when closed, 5.5 turns to 6.5 turns | mend 'start' or 'closed'."),
        new BadInput("pitch as wide as the bolt", Every, "tools.yaml", "pitch: 1.25 mm", "pitch: 8 mm",
            "tools.yaml:8:83: bolt.pitch | a pitch as wide as the bolt | a pitch below the diameter | check both figures and their units."),
        new BadInput("torque and preload", Every, "tools.yaml", "torque: {least: 12 ft-lbf, most: 16 ft-lbf},", "torque: {least: 12 ft-lbf, most: 16 ft-lbf}, preload: {},",
            "tools.yaml:2:3: key.clash | a bolt with more than one of: torque, preload | exactly one of them | keep the one that is meant."),
        new BadInput("footing twice", Every, "tools.yaml", "{kind: arm,", "{kind: free,",
            "tools.yaml:12:10: name.twice | the footing 'free' again; the first stands at tools.yaml:11:10 | each footing once | rename or delete one of the two."),
        new BadInput("before people, but not through the hatch", Every, "station.yaml", "hatch: [small, bag]", "hatch: [small]",
            "station.yaml:45:3: hatch.size | bag before people into door | one of the sizes that pass its hatch | add it to 'hatch', or take it out of 'before_people'."),
        new BadInput("before people, with nothing to hang it at", Every, "station.yaml", "anchor: true, stow: true", "anchor: true",
            "station.yaml:45:3: hatch.stow | door with things that come in before people, at door, where nothing may be hung | a grip with 'stow: true' at the hatch | add 'stow: true' to the grip, or take 'before_people' out."),
        new BadInput("tie longer than the handling", Every, "scenario.yaml", "tie: 20 s", "tie: 130 s",
            "scenario.yaml:28:3: handling.tie | 2 min for 'take', and 2 min 10 s for the second tie in it | times that hold the tie | lengthen the one, or shorten the other.",
            "scenario.yaml:28:3: handling.tie | 2 min for 'put', and 2 min 10 s for the second tie in it | times that hold the tie | lengthen the one, or shorten the other.",
            "scenario.yaml:28:3: handling.tie | 2 min for 'give', and 2 min 10 s for the second tie in it | times that hold the tie | lengthen the one, or shorten the other."),
    ];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Scenario_BadGear_IsToldWithPlaceAndFix(BadInput bad) => bad.Check();
}
