namespace Sallyport.Desk.Tests;

/// <summary>Names given twice, malformed, unknown or of another kind.</summary>
public sealed class BadNameTests
{
    private const string Short = "skerry-short", Every = "every-key";

    public static TheoryData<BadInput> Cases =>
    [
        new BadInput("name with a slash", Short, "jobs.yaml", "id: look\n    title", "id: lo/ok\n    title",
            "jobs.yaml:38:9: name.form | 'lo/ok' | a name for a leg: letters, digits, '-', '_', '.' | write it with these characters only."),
        new BadInput("name twice", Short, "station.yaml", "id: rim,", "id: ring,",
            "jobs.yaml:40:11: name.unknown | 'rim' | a known site | write 'ring' if that is meant, or add the site 'rim'.",
            "station.yaml:18:8: name.twice | the site 'ring' again; the first stands at station.yaml:17:8 | each site once | rename or delete one of the two."),
        new BadInput("leg twice", Short, "jobs.yaml", "id: look\n    title", "id: free\n    title",
            "jobs.yaml:38:9: name.twice | the leg 'latch/free' again; the first stands at jobs.yaml:12:9 | each leg once | rename or delete one of the two."),
        new BadInput("step twice", Short, "jobs.yaml", "id: grease\n      do", "id: loosen\n      do",
            "jobs.yaml:29:11: name.twice | the step of latch/free 'loosen' again; the first stands at jobs.yaml:19:11 | each step of latch/free once | rename or delete one of the two."),
        new BadInput("command twice", Every, "arm.yaml", "id: branch-a on,", "id: branch-a off,",
            "arm.yaml:19:10: name.twice | the command 'branch-a off' again; the first stands at arm.yaml:18:10 | each command once | rename or delete one of the two.",
            "arm.yaml:21:43: name.unknown | 'branch-a on' | a known command | write 'branch-a off' if that is meant, or add the command 'branch-a on'."),
        new BadInput("unknown grip", Short, "station.yaml", "grip: quay-2", "grip: quay-3",
            "station.yaml:17:40: name.unknown | 'quay-3' | a known grip | write 'quay-1' if that is meant, or add the grip 'quay-3'."),
        new BadInput("unknown site", Short, "jobs.yaml", "site: ring", "site: rng",
            "jobs.yaml:14:11: name.unknown | 'rng' | a known site | write 'ring' if that is meant, or add the site 'rng'."),
        new BadInput("unknown socket", Every, "jobs.yaml", "socket: socket-2", "socket: socket-9",
            "jobs.yaml:51:43: name.unknown | 'socket-9' | a known socket | write 'socket-2' if that is meant, or add the socket 'socket-9'."),
        new BadInput("unknown gear", Short, "jobs.yaml", "gear: driver", "gear: drivr",
            "jobs.yaml:23:16: name.unknown | 'drivr' | a known gear item | write 'driver' if that is meant, or add the gear item 'drivr'."),
        new BadInput("unknown bag", Short, "gear.yaml", "start: bag latch-bag", "start: bag latch-bga",
            "gear.yaml:9:88: name.unknown | 'latch-bga' | a known bag | write 'latch-bag' if that is meant, or add the bag 'latch-bga'."),
        new BadInput("bag that is none", Short, "gear.yaml", "start: bag latch-bag, count", "start: bag driver, count",
            "gear.yaml:10:104: name.kind | 'driver', which is a known gear item but no bag | a bag | use one of: latch-bag."),
        new BadInput("unknown person", Every, "jobs.yaml", "who: [EV1]", "who: [EV3]",
            "jobs.yaml:14:11: name.unknown | 'EV3' | a known person outside | write 'EV1' if that is meant, or add the person outside 'EV3'."),
        new BadInput("person inside", Every, "jobs.yaml", "who: [EV1]", "who: [IV]",
            "jobs.yaml:14:11: name.kind | 'IV', which is a known person but no person outside | a person outside | use one of: EV1, EV2."),
        new BadInput("unknown leg", Short, "jobs.yaml", "leg: latch/free", "leg: latch/fre",
            "jobs.yaml:42:19: name.unknown | 'latch/fre' | a known leg | write 'latch/free' if that is meant, or add the leg 'latch/fre'."),
        new BadInput("unknown feature", Short, "jobs.yaml", "feature: latch, is: [sticky]", "feature: latsch, is: [sticky]",
            "jobs.yaml:24:19: name.unknown | 'latsch' | a known feature | write 'latch' if that is meant, or add the feature 'latsch'."),
        new BadInput("unknown state", Short, "jobs.yaml", "is: [sticky]", "is: [stiky]",
            "jobs.yaml:24:31: name.unknown | 'stiky' | a known state of latch | write 'sticky' if that is meant, or add the state of latch 'stiky'."),
        new BadInput("unknown state left behind", Every, "jobs.yaml", "leaves: {lid: open}", "leaves: {lid: ajar}",
            "jobs.yaml:34:41: name.unknown | 'ajar' | a known state of lid | use one of: shut, open."),
        new BadInput("unknown command", Every, "arm.yaml", "on: branch-a on", "on: branch-b on",
            "arm.yaml:21:43: name.unknown | 'branch-b on' | a known command | write 'branch-a on' if that is meant, or add the command 'branch-b on'."),
        new BadInput("unknown shutdown", Every, "jobs.yaml", "shutdowns: [branch-a]", "shutdowns: [branch-b]",
            "jobs.yaml:19:17: name.unknown | 'branch-b' | a known shutdown | write 'branch-a' if that is meant, or add the shutdown 'branch-b'."),
        new BadInput("unknown power node", Every, "jobs.yaml", "dead: lamp-plug", "dead: lamp-plg",
            "jobs.yaml:29:16: name.unknown | 'lamp-plg' | a known power node | write 'lamp-plug' if that is meant, or add the power node 'lamp-plg'."),
        new BadInput("unknown source of power", Every, "station.yaml", "sources: [battery-a]", "sources: [batery-a]",
            "station.yaml:35:13: name.unknown | 'batery-a' | a known power node | write 'battery-a' if that is meant, or add the power node 'batery-a'."),
        new BadInput("unknown fluid line", Every, "jobs.yaml", "line: cooling line", "line: cooling",
            "jobs.yaml:81:21: name.unknown | 'cooling' | a known fluid line | use one of: pump loop, cooling line, lamp coil."),
        new BadInput("unknown size", Short, "gear.yaml", "size: bag", "size: bagg",
            "gear.yaml:8:54: name.unknown | 'bagg' | a known size | write 'bag' if that is meant, or add the size 'bagg'."),
        new BadInput("unknown training", Short, "people.yaml", "trained_for: [mechanisms]", "trained_for: [mechanics]",
            "jobs.yaml:16:16: name.unknown | 'mechanisms' | a known training | write 'mechanics' if that is meant, or add the training 'mechanisms'."),
        new BadInput("unknown arm", Every, "station.yaml", "arm: boom", "arm: bom",
            "station.yaml:15:36: name.unknown | 'bom' | a known arm | write 'boom' if that is meant, or add the arm 'bom'."),
        new BadInput("unknown pose", Every, "station.yaml", "pose: lamp-high", "pose: lamp-hgh",
            "station.yaml:15:48: name.unknown | 'lamp-hgh' | a known pose of boom | write 'lamp-high' if that is meant, or add the pose of boom 'lamp-hgh'."),
        new BadInput("unknown step of a contingency", Every, "jobs.yaml", "step: out", "step: oot",
            "jobs.yaml:57:23: name.unknown | 'oot' | a known step of lamp/swap | write 'out' if that is meant, or add the step of lamp/swap 'oot'."),
        new BadInput("unknown operator", Every, "arm.yaml", "operator: OP", "operator: OPP",
            "arm.yaml:3:13: name.unknown | 'OPP' | a known person | write 'OP' if that is meant, or add the person 'OPP'."),
    ];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Scenario_BadName_IsToldWithPlaceAndFix(BadInput bad) => bad.Check();
}
