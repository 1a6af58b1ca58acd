namespace Sallyport.Desk.Tests;

/// <summary>What shows only when parts are seen together.</summary>
public sealed class BadScenarioTests
{
    private const string Short = "skerry-short", Every = "every-key";

    public static TheoryData<BadInput> Cases =>
    [
        new BadInput("place malformed", Short, "gear.yaml", "start: inside", "start: in the bag",
            "gear.yaml:8:92: place.form | 'in the bag' for 'start' | inside, spent, or one of grip, bag, person, socket, site, arm and a name | write it like this: bag latch-bag."),
        new BadInput("no form of need", Short, "jobs.yaml", "{gear: driver, when: throughout}", "{when: throughout}",
            "jobs.yaml:23:9: key.missing | a need without any of: feature, gear, dead, go | exactly one of them | add the one that is meant."),
        new BadInput("two forms of need", Short, "jobs.yaml", "{gear: driver, when: throughout}", "{gear: driver, feature: latch, is: [sticky]}",
            "jobs.yaml:23:9: key.clash | a need with more than one of: feature, gear, dead, go | exactly one of them | keep the one that is meant."),
        new BadInput("restraint without its footing", Every, "jobs.yaml", "footing: restraint", "footing: free",
            "jobs.yaml:51:16: key.clash | a leg with 'restraint' | only the footing 'restraint' has one | delete 'restraint', or change what it clashes with."),
        new BadInput("switch without controller", Every, "station.yaml", ", controller: box-a", "",
            "station.yaml:37:5: key.missing | a power line without 'controller' | the key 'controller' | add 'controller: box-a'."),
        new BadInput("count of a tool", Short, "gear.yaml", "kind: stock", "kind: tool",
            "gear.yaml:10:125: key.clash | a thing with 'count' | only a stock is counted | delete 'count', or change what it clashes with.",
            "jobs.yaml:34:17: name.kind | 'grease', which is a known gear item but no stock | a stock | add a stock; there is none yet."),
        new BadInput("suit of somebody inside", Short, "people.yaml", "  role: inside", "  role: inside\n  reels: [26 m]",
            "people.yaml:41:10: key.clash | a person with 'reels' | only a person outside has it | delete 'reels', or change what it clashes with."),
        new BadInput("span shorter than straight", Short, "station.yaml", "length: 6 m", "length: 5.9 m",
            "station.yaml:13:3: span.short | 5.9 m from lock to quay-1 | at least the straight distance between the two, 6 m | measure the way along the structure, or mend the points of the grips."),
        new BadInput("span to itself", Short, "station.yaml", "{from: lock, to: quay-1", "{from: quay-1, to: quay-1",
            "station.yaml:13:3: span.loop | a span from quay-1 to itself | two different grips | name the other end."),
        new BadInput("site without a way", Short, "station.yaml", "- {from: quay-1, to: quay-2, length: 4.5 m, class: careful}\n", "",
            "station.yaml:16:3: site.unreachable | no way over spans to ring (grip quay-2) | a way from an airlock: lock | add the missing span, or move the site."),
        new BadInput("site without a ride", Every, "arm.yaml", "{from: park, to: lamp-high, time: 7 min,", "{from: park, to: park, time: 7 min,",
            "station.yaml:15:3: site.unreachable | no ride of boom to the pose lamp-high from a place where one can get on | rides that join its start, a mount that can be walked to, and this pose | add the missing ride or mount."),
        new BadInput("circle in the precedence", Short, "jobs.yaml", "site: ring", "site: ring\n    after: [{leg: look}]",
            "jobs.yaml:12:5: precedence.circle | a circle: latch/free waits for latch/look; latch/look waits for latch/free | an order in which each leg can come | take out one 'after' or one 'together' of the circle."),
        new BadInput("circle through legs together", Every, "jobs.yaml", "    may_wait: true", "    may_wait: true\n    after: [{leg: valve/turn}]",
            "jobs.yaml:47:5: precedence.circle | a circle: lamp/steady waits for valve/turn; valve/turn waits for lamp/swap, which starts together with lamp/steady | an order in which each leg can come | take out one 'after' or one 'together' of the circle."),
        new BadInput("lags crossed", Every, "jobs.yaml", "least: 10 min, most: 2 h", "least: 3 h, most: 2 h",
            "jobs.yaml:71:13: time.order | at least 180 min and at most 120 min | 'most' no less than 'least' | swap or mend the two."),
        new BadInput("an item in two places", Short, "gear.yaml", "- {id: grease", "- {id: driver, title: Driver, kind: tool, size: small, mass: 2 kg, volume: 2 L, start: inside}\n- {id: grease",
            "gear.yaml:10:8: name.twice | the gear item 'driver' again; the first stands at gear.yaml:9:8 | each gear item once | rename or delete one of the two."),
        new BadInput("bag in itself", Short, "gear.yaml", "start: inside", "start: bag latch-bag",
            "gear.yaml:8:3: bag.circle | a circle: latch-bag starts in latch-bag | bags that start somewhere | let one of them start elsewhere."),
        new BadInput("must-job, the only one allowed is untrained", Every, "jobs.yaml", "who: [EV1]", "who: [EV2]",
            "jobs.yaml:11:5: job.undoable | nobody who can do lamp/swap of the must-job 'Swap the lamp': EV1 is not among 'who'; EV2 is not trained for boom rider | at least one person outside who can | change what the leg asks for, or who is trained and equipped for it, or the worth of the job."),
        new BadInput("must-job, too much to carry", Short, "jobs.yaml", "with: [latch-bag]", "with: [latch-bag, driver, grease]",
            "jobs.yaml:12:5: job.undoable | nobody who can do latch/free of the must-job 'Sticky latch on Quay's ring': EV1 cannot carry latch-bag, driver, grease at once; EV2 is not trained for mechanisms | at least one person outside who can | change what the leg asks for, or who is trained and equipped for it, or the worth of the job."),
        new BadInput("must-job, too few people together", Every, "jobs.yaml", "    footing: restraint", "    who: [EV1]\n    footing: restraint",
            "jobs.yaml:11:5: job.undoable | too few people for the legs of the must-job 'Swap the lamp' that start together as 'both': lamp/swap, lamp/steady | a different person outside for each of them | take 'together' out, or change what the legs ask for."),
        new BadInput("left behind, never brought", Every, "jobs.yaml", "leaves_behind: [lamp-bag]", "leaves_behind: [spare]",
            "jobs.yaml:64:5: gear.uncarried | spare left behind by valve/turn, which has not brought it | gear named in 'with' | add it to 'with', or take it out of 'leaves_behind'."),
        new BadInput("person in no order", Every, "station.yaml", "order: [EV1, EV2]", "order: [EV1]",
            "people.yaml:13:3: person.shut-in | EV2, who is outside but in no airlock's order | everybody outside in the order of an airlock | add the name to 'order' of the airlock."),
        new BadInput("arm footing on a grip", Every, "jobs.yaml", "footing: body tether", "footing: arm",
            "jobs.yaml:64:5: footing.site | valve/turn on the arm at bench, which is on a grip | a site on an arm | change the footing or the site."),
        new BadInput("grip footing on an arm", Every, "jobs.yaml", "footing: arm", "footing: free",
            "jobs.yaml:11:5: footing.site | lamp/swap at lamp, which is on an arm, with another footing | footing: arm | change the footing or the site."),
        new BadInput("socket at another grip", Every, "station.yaml", "{id: socket-2, grip: rail-2}", "{id: socket-2, grip: rail-1}",
            "jobs.yaml:47:5: socket.elsewhere | lamp/steady at bench (grip rail-2) with the socket socket-2 at rail-1 | a socket at the grip of the site | name a socket there, or move the site."),
        new BadInput("gear that nobody can carry", Short, "gear.yaml", "size: bag, mass", "size: bulky, mass",
            "jobs.yaml:12:5: gear.uncarried | latch-bag (size bulky, 9 kg) to be carried for latch/free | a carry point of somebody outside that takes this size and mass | change the size class or mass, or add a carry point."),
        new BadInput("gear too heavy for everybody", Short, "gear.yaml", "mass: 9 kg", "mass: 31 kg",
            "jobs.yaml:12:5: gear.uncarried | latch-bag (size bag, 31 kg) to be carried for latch/free | a carry point of somebody outside that takes this size and mass | change the size class or mass, or add a carry point."),
    ];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Scenario_BadScenario_IsToldWithPlaceAndFix(BadInput bad) => bad.Check();
}
