namespace Sallyport.Desk.Tests;

/// <summary>The power net against itself, commands with their GOs, thermal clocks.</summary>
public sealed class BadPowerTests
{
    private const string Every = "every-key";

    public static TheoryData<BadInput> Cases =>
    [
        new BadInput("no rate that always holds", Every, "clocks.yaml", "  - {time: 40 min}\n", "",
            "clocks.yaml:6:5: clock.rates | 'when' at the last of 'lasts' of lamp heater | one that always holds, without 'when' | add a last one without 'when': how long it lasts in any other state."),
        new BadInput("rate that is never come to", Every, "clocks.yaml", "  - {when: [", "  - {time: 30 min}\n  - {when: [",
            "clocks.yaml:6:5: clock.rates | one of 'lasts' of lamp heater without 'when', and others after it | only the last one without 'when' | move it to the end, or say when it holds."),
        new BadInput("condition of no kind", Every, "clocks.yaml", "{shutdown: branch-a}", "{is: [open]}",
            "clocks.yaml:4:11: key.missing | a condition without any of: feature, gear, light, shutdown | exactly one of them | add the one that is meant."),
        new BadInput("clock on an unknown shutdown", Every, "clocks.yaml", "{shutdown: branch-a}", "{shutdown: branch-b}",
            "clocks.yaml:4:22: name.unknown | 'branch-b' | a known shutdown | write 'branch-a' if that is meant, or add the shutdown 'branch-b'."),
        new BadInput("capacitor that is a source", Every, "station.yaml", "sources: [battery-a]", "sources: [battery-a, lamp-load]",
            "station.yaml:41:5: power.twice | lamp-load both as a source and as a capacitor | a source that always feeds, or a capacitor that bleeds down | take it out of one of the two."),
        new BadInput("capacitor twice", Every, "station.yaml", "  controllers:", "  - {node: lamp-load, bleeds: 9 s, source: again}\n  controllers:",
            "station.yaml:42:12: name.twice | the capacitor 'lamp-load' again; the first stands at station.yaml:41:12 | each capacitor once | rename or delete one of the two."),
        new BadInput("capacitor on no line", Every, "station.yaml", "node: lamp-load", "node: lamp-lead",
            "station.yaml:41:12: name.unknown | 'lamp-lead' | a known power node | write 'lamp-load' if that is meant, or add the power node 'lamp-lead'."),
        new BadInput("controller of no switch", Every, "station.yaml", "{id: box-a, common", "{id: box-b, common",
            "station.yaml:43:5: name.unknown | 'box-b' | a known controller | write 'box-a' if that is meant, or add the controller 'box-b'."),
        new BadInput("controller told twice", Every, "station.yaml", "common: converter}", "common: converter}\n  - {id: box-a}",
            "station.yaml:44:5: name.twice | the controller 'box-a' again; the first stands at station.yaml:43:5 | each controller once | rename or delete one of the two."),
        new BadInput("pins bare while they conduct", Every, "station.yaml", "exposed: [apart]", "exposed: [mated, apart]",
            "station.yaml:38:5: connector.states | plug-a 'mated' both as closed and as exposed | pins that are bare only where the connector does not conduct | take it out of 'exposed'."),
        new BadInput("pins of a switch", Every, "station.yaml", "closed: closed}", "closed: closed, exposed: [open]}",
            "station.yaml:37:74: key.unknown | the key 'exposed' | a key of a switch: feature, closed | delete it, or move it to where it belongs."),
        new BadInput("GO longer than its command", Every, "clocks.yaml", "go: 30 s", "go: 3 min",
            "clocks.yaml:13:5: time.order | 'go' of go lamp as 3 min, within a 'time' of 2 min | a GO that is read in the last part of the command | make 'time' longer, or 'go' shorter."),
        new BadInput("GO that nobody reads", Every, "clocks.yaml", "go: 30 s, ", "",
            "jobs.yaml:55:7: go.none | lamp/steady, step hold, which needs the GO of go lamp, for which none is read | a command with 'go' | add 'go: 1 min' to the command, or name another one."),
        new BadInput("GO made void by the leg itself", Every, "jobs.yaml", "      time: 50 s / 2 min / 0.1 h\n", "      time: 50 s / 2 min / 0.1 h\n      needs: [{go: go lamp}]\n",
            "jobs.yaml:37:7: go.void | lamp/swap, step in, which needs the GO of go lamp after an earlier step of the leg has changed plug-a, which that covers | a GO that can be read before the leg | put the step into a leg of its own, or take the feature out of 'covers'."),
        new BadInput("GO of an unknown command", Every, "jobs.yaml", "{go: go lamp}", "{go: go lump}",
            "jobs.yaml:55:79: name.unknown | 'go lump' | a known command | write 'go lamp' if that is meant, or add the command 'go lump'."),
    ];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Scenario_BadPower_IsToldWithPlaceAndFix(BadInput bad) => bad.Check();
}
