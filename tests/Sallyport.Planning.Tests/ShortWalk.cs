using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Planning;

/// <summary>The scenario and the outline of <c>scenarios/skerry-short</c> in code, with the same figures.</summary>
internal static class ShortWalk
{
    public static LegId Free { get; } = new("latch/free");

    public static LegId Look { get; } = new("latch/look");

    private static Way ByLock { get; } = new([], new("lock"));

    private static Location InBag { get; } = new(LocationKind.Bag, "latch-bag");

    public static Scenario Skerry { get; } = new(
        "skerry/short", "", new("Skerry · Short Walk", new(2031, 5, 14, 13, 40, 0, DateTimeKind.Utc), "suits on their own power, hatch open", "by-hand", null),
        Station(), [Outside("EV1", "mechanisms"), Outside("EV2"), new(new("IV"), "Tomas Reed", Role.Inside, [], null, [], [], null)],
        [new(new("small"), 1), new(new("bag"), 1), new(new("bulky"), 1.8)],
        [
            new(new("latch-bag"), "Latch bag", GearKind.Bag, new("bag"), 9, 0.04, Location.Inside, Location.Inside, 1),
            new(new("driver"), "Driver", GearKind.Tool, new("small"), 2, 0.002, InBag, InBag, 1),
            new(new("grease"), "Grease cartridges", GearKind.Stock, new("small"), 0.2, 0.0002, InBag, null, 2),
        ],
        new(Time(2, 30), Time(2, 30), Time(2, 30), Time(5, 60), Time(3, 60), Time(3, 120), Time(2, 120), "common practice, no source"),
        new(TetherProtocol.Reel, Duration.FromMinutes(2), Duration.FromSeconds(20), "common practice, no source"), [], [],
        new([new(At("0:12"), At("0:48"))], [new(At("0:06"), At("0:11"))], "invented for the demo"), [Latch()],
        [LimitOf("return.one", 30), LimitOf("return.both", 40), LimitOf("return.armless", 30), LimitOf("pet.limit", 390)]);

    public static Outline ByHand { get; } = new("skerry/short", null, null,
        [
            new(new("EV1"), [Egress, new TakeEntry(new("latch-bag"), new("lock"), new("waist"), Way.Auto, Free, false), Do(Free), Ingress]),
            new(new("EV2"), [Egress, Do(Look), Ingress]),
        ], [], [], [], null, []);

    public static Entry Egress => new EgressEntry(new("lock"));

    public static Entry Ingress => new IngressEntry(new("lock"), ByLock);

    public static Entry Do(LegId leg, Pins? pins = null) => new LegEntry(leg, pins ?? Pins.None, ByLock, false);

    public static Pet At(string text) => Pet.TryParse(text, out Pet pet) ? pet : throw new ArgumentException(text, nameof(text));

    private static HandlingTime Time(int minutes, int breakOff) => new(Duration.FromMinutes(minutes), Duration.FromSeconds(breakOff));

    private static Limit LimitOf(string rule, int minutes) => new(new(rule), new(Dimension.Time, minutes * 60, $"{minutes} min"), null, "invented for the demo", false);

    private static Person Outside(string id, params ImmutableArray<string> training) => new(
        new(id), id == "EV1" ? "Ada Marsh" : "Noor Halden", Role.Outside, training, new(6.0 / 60, 3.0 / 60, Duration.FromMinutes(2), "from memory, unverified"),
        [new(new("waist"), [new("small"), new("bag")], 30), new(new("chest"), [new("small")], 10)], [26, 26],
        new(At("7:00"), "invented for the demo", 29647, 0.55, Duration.FromMinutes(30), 4, 1_800_000, 0.75));

    private static Station Station() => new("Skerry",
        [
            new(new("lock"), new(0, 0, 1.5), Anchor: true, Stow: true), new(new("quay-1"), new(6, 0, 1.5), false, false), new(new("quay-2"), new(10, 0, 1.5), Anchor: true, false),
        ],
        [new(new("lock"), new("quay-1"), 6, SpanClass.Easy), new(new("quay-1"), new("quay-2"), 4.5, SpanClass.Careful)],
        [new(new("ring"), "Quay's ring", new("quay-2"), null, null), new(new("rim"), "Quay's rim", new("quay-1"), null, null)], [], [],
        [new(new("latch"), ["sticky", "free"], "sticky", null, null), new(new("jets"), ["armed", "held"], "held", "held", "held")], [], [], [],
        [
            new(new("lock"), new("lock"), [new("EV1"), new("EV2")], Duration.FromMinutes(5), Duration.FromMinutes(3), Duration.FromMinutes(4),
                Duration.FromMinutes(8), Duration.FromMinutes(3), Duration.FromMinutes(3), Duration.FromMinutes(4), 2),
        ], []);

    private static Job Latch() => new(new("latch"), "Sticky latch on Quay's ring", "so that the next ship can be held at the ring", Worth.Must, 10, 4, "pinched glove at the latch",
        [
            Leg(Free, "ring", Footing.BodyTether,
                StepOf("loosen", 4, 30, [new NeedGear(NeedTime.Throughout, new("driver")), new NeedFeature(NeedTime.Start, new(new("latch"), ["sticky"]))], []),
                StepOf("grease", 6, 30, [], [new MakeFeature(new(new("latch"), "free")), new UseStock(new("grease"), 1)])) with { Training = ["mechanisms"], With = [new("latch-bag")] },
            Leg(Look, "rim", Footing.Free, StepOf("look", 3, 10, [new NeedFeature(NeedTime.Start, new(new("latch"), ["free"]))], [])) with { After = [new(Free, default, null)] },
        ], []);

    private static Leg Leg(LegId id, string site, Footing footing, params ImmutableArray<Step> steps) =>
        new(id, id.Value, new(site), [], [], footing, null, null, null, [], [], [], "", [], [], null, false, false, steps);

    private static Step StepOf(string id, int minutes, int abort, ImmutableArray<Need> needs, ImmutableArray<Effect> makes) => new(
        new(id), id, "", new(Duration.FromMinutes(minutes - 1), Duration.FromMinutes(minutes), Duration.FromMinutes(minutes * 2), "common practice, no source"), needs, makes,
        new(Duration.FromSeconds(abort), []), new(Duration.FromMinutes(1), []), WorkClass.Moderate, null, null);
}
