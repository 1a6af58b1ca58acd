using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof.Tests;

/// <summary>
/// A small station in code. Its first part is the scenario of <c>scenarios/skerry-short</c>; beyond it lie a third grip with a way round,
/// a socket, an arm and two switches, for the rules that need them. All of it is invented for the tests.
/// </summary>
internal static class TestWorld
{
    public static Duration Seconds(int seconds) => Duration.FromSeconds(seconds);

    public static Duration Minutes(int minutes) => Duration.FromMinutes(minutes);

    public static Pet At(string text) => Pet.TryParse(text, out Pet pet) ? pet : throw new ArgumentException(text);

    public static Scenario Skerry { get; } = new(
        "skerry/short", "0", new Sortie("Skerry · Short Walk", new DateTime(2031, 5, 14, 13, 40, 0, DateTimeKind.Utc), "hatch open", null, null),
        Station(), [Outsider("EV1", ["mechanisms"]), Outsider("EV2", []), Insider("IV")],
        [new(new("small"), 1), new(new("bag"), 1), new(new("bulky"), 1.8)],
        [
            Thing("latch-bag", GearKind.Bag, "bag", 9, Location.Inside, Location.Inside) with { MayBeLeft = "it keeps" },
            Thing("driver", GearKind.Tool, "small", 2, In("latch-bag"), In("latch-bag")),
            Thing("grease", GearKind.Stock, "small", 0.2, In("latch-bag"), null) with { Count = 2 },
            Thing("frame", GearKind.Restraint, "bag", 12, Hooked("lock"), null),
            Thing("tray", GearKind.Part, "bulky", 20, Hooked("lock"), null),
        ],
        new Handling(
            new(Minutes(2), Seconds(30)), new(Minutes(2), Seconds(30)), new(Minutes(2), Seconds(30)), new(Minutes(5), Minutes(1)), new(Minutes(3), Minutes(1)),
            new(Minutes(3), Minutes(2)), new(Minutes(2), Minutes(2)), "common practice, no source"),
        new TetherRules(TetherProtocol.Reel, Minutes(2), Seconds(20), "common practice, no source"),
        [Crane()], [Power()],
        new Sky([new(At("0:12"), At("0:48"))], [new(At("0:06"), At("0:11"))], "invented for the demo"),
        [Latch(), Head(), Box(), Pair()],
        [
            TimeLimit("return.one", 30, 3), TimeLimit("return.both", 40, 3), TimeLimit("return.armless", 30, 3), TimeLimit("pet.limit", 390, 10),
        ])
    {
        MayBeLeft = [new(new("latch"), ["sticky", "free"], [], "it swings")],
    };

    public static Limit TimeLimit(string rule, int minutes, int near) => new(
        new(rule), new(Dimension.Time, minutes * 60, $"{minutes} min"), new(Dimension.Time, near * 60, $"{near} min"), "invented for the demo", false);

    private static Station Station() => new(
        "Skerry",
        [
            new(new("lock"), new(0, 0, 1.5), true, true),
            new(new("quay-1"), new(6, 0, 1.5), false, false),
            new(new("quay-2"), new(10, 0, 1.5), true, false),
            new(new("quay-3"), new(10, 12, 1.5), true, true),
        ],
        [
            new(new("lock"), new("quay-1"), 6, SpanClass.Easy),
            new(new("quay-1"), new("quay-2"), 4.5, SpanClass.Careful),
            new(new("quay-2"), new("quay-3"), 12, SpanClass.Easy),
            new(new("quay-3"), new("lock"), 18, SpanClass.Gap),
        ],
        [
            new(new("ring"), "Quay's ring", new("quay-2"), null, null),
            new(new("rim"), "Quay's rim", new("quay-1"), null, null),
            new(new("top"), "Top of the mast", null, new("crane"), new("high")),
        ],
        [new(new("socket-1"), new("quay-2"))], [],
        [
            new(new("latch"), ["sticky", "free"], "sticky", null, null),
            new(new("jets"), ["armed", "held"], "held", "held", "held"),
            new(new("switch-1"), ["closed", "open"], "closed", null, "closed"),
            new(new("switch-2"), ["closed", "open"], "closed", null, "closed"),
        ],
        [
            new(new("battery"), new("bus"), new(new("switch-1"), ["closed"]), "box-1"),
            new(new("bus"), new("plug"), new(new("switch-2"), ["closed"]), "box-2"),
        ],
        [new("battery")], [],
        [
            new(new("lock"), new("lock"), [new("EV1"), new("EV2")], Minutes(5), Minutes(3), Minutes(4), Minutes(8), Minutes(3), Minutes(3), Minutes(4), 2),
        ], [])
    {
        Capacitors = [],
        Controllers = [new("box-1", null), new("box-2", null)],
    };

    private static Person Outsider(string id, ImmutableArray<string> training) => new(
        new(id), id, Role.Outside, training, new Pace(0.1, 0.05, Minutes(2), "from memory, unverified"),
        [new(new("waist"), [new("small"), new("bag")], 30), new(new("chest"), [new("small")], 10), new(new("stiff"), [new("bag"), new("bulky")], 60)],
        [26, 26], new Suit(At("7:00"), "invented for the demo", 29_647, 0.55, Minutes(30), 4, 1_800_000, 0.75));

    private static Person Insider(string id) => new(new(id), id, Role.Inside, [], null, [], [], null);

    private static Gear Thing(string id, GearKind kind, string size, double mass, Location start, Location? end) =>
        new(new(id), id, kind, new(size), mass, 0.01, start, end, 1);

    public static Location In(string bag) => new(LocationKind.Bag, bag);

    public static Location Hooked(string grip) => new(LocationKind.Grip, grip);

    private static Arm Crane() => new(
        new("crane"), new("IV"), new("low"),
        [new(new("low"), new(10, 0, 4), null, Seconds(0)), new(new("high"), new(10, 12, 9), new("quay-3"), Minutes(8)), new(new("off"), new(30, 0, 9), null, Seconds(0))],
        [new(new("low"), new("high"), Minutes(5)), new(new("high"), new("off"), Minutes(6))],
        [new(new("quay-2"), new("low"))], new(Minutes(10), Minutes(4)), new(Minutes(5), Minutes(5)), "invented for the demo");

    private static GroundConsole Power() => new(
        new("power"),
        [
            new(new("bus off"), Minutes(3), true, [new(new("switch-1"), "open"), new(new("switch-2"), "open")]) { Go = Minutes(1) },
            new(new("bus on"), Minutes(3), true, [new(new("switch-1"), "closed"), new(new("switch-2"), "closed")]) { Go = Minutes(1) },
        ],
        [new(new("bus"), new("bus off"), new("bus on"), Minutes(75), false, "invented for the demo")]);

    // Get-aheads: a test does the jobs it is about, and leaves the others.
    private static Job JobOf(string id, params Leg[] legs) => new(new(id), id, "", Worth.GetAhead, 10, 4, "", [.. legs], []);

    private static Leg LegOf(string id, string site, Footing footing, params Step[] steps) => new(
        new(id), id, new(site), [], [], footing, null, null, null, [], [], [], "", [], [], null, false, false, [.. steps]);

    public static Step StepOf(string id, int minutes, int abortSeconds, ImmutableArray<Need> needs, ImmutableArray<Effect> makes) => new(
        new(id), id, "", new(Minutes(minutes), Minutes(minutes), Minutes(minutes), "common practice, no source"), needs, makes,
        new(Seconds(abortSeconds), []), new(Minutes(2), []), WorkClass.Moderate, null, null);

    private static NeedFeature LatchIs(string state) => new(NeedTime.Start, new(new("latch"), [state]));

    private static Job Latch() => JobOf("latch",
        LegOf("latch/free", "ring", Footing.BodyTether,
            StepOf("loosen", 4, 30, [new NeedGear(NeedTime.Throughout, new("driver")), LatchIs("sticky")], []),
            StepOf("grease", 6, 30, [], [new MakeFeature(new(new("latch"), "free")), new UseStock(new("grease"), 1)])) with
        {
            Training = ["mechanisms"],
            With = [new("latch-bag")],
        },
        LegOf("latch/look", "rim", Footing.Free, StepOf("look", 3, 10, [LatchIs("free")], [])) with
        {
            After = [new(new("latch/free"), Seconds(0), null)],
        });

    private static Job Head() => JobOf("head", LegOf("head/fit", "top", Footing.Arm, StepOf("fit", 10, 60, [], [])));

    private static Job Box() => JobOf("box",
        LegOf("box/open", "ring", Footing.Restraint, StepOf("open", 5, 45, [new NeedDead(NeedTime.Throughout, new("plug"), 2)], [])) with
        {
            Restraint = new("frame"),
            Socket = new("socket-1"),
            Setting = "B6",
            Shutdowns = [new("bus")],
        });

    private static Job Pair() => JobOf("pair",
        LegOf("pair/near", "rim", Footing.Free, StepOf("hold", 2, 20, [], [])) with { Together = "both" },
        LegOf("pair/far", "ring", Footing.Free, StepOf("turn", 2, 20, [], [])) with { Together = "both" });

    /// <summary>The same scenario with one leg changed.</summary>
    public static Scenario WithLeg(this Scenario scenario, string leg, Func<Leg, Leg> change) => scenario with
    {
        Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(one => one.Id.Value == leg ? change(one) : one)] })],
    };

    /// <summary>The same scenario with one limit changed; null takes it out.</summary>
    public static Scenario WithLimit(this Scenario scenario, string rule, double? seconds, double near = 0) => scenario with
    {
        Limits =
        [
            .. scenario.Limits.Where(limit => limit.Rule.Value != rule),
            .. seconds is { } value
                ? new[] { new Limit(new(rule), new(Dimension.Time, value, $"{value} s"), new(Dimension.Time, near, $"{near} s"), "a test", true) }
                : [],
        ],
    };

    public static Scenario WithGear(this Scenario scenario, string gear, Func<Gear, Gear> change) => scenario with
    {
        Gear = [.. scenario.Gear.Select(one => one.Id.Value == gear ? change(one) : one)],
    };

    public static Scenario WithStation(this Scenario scenario, Func<Station, Station> change) => scenario with { Station = change(scenario.Station) };

    public static Scenario WithPeople(this Scenario scenario, Func<Person, Person> change) => scenario with
    {
        People = [.. scenario.People.Select(person => person.Role == Role.Outside ? change(person) : person)],
    };
}
