using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Bags, second ties, and what goes through the airlock.</summary>
internal static class BagDamage
{
    private const double Litre = 0.001;

    public static ImmutableArray<Damage> All { get; } =
    [
        new("bag too small", "A bag holds a litre less in the world as played than lies in it at the start.", "gear.volume",
            "It does not close.",
            plan => Filled(plan).Where(one => one.Inside.Sum(Volume) > 0).Select(one => WithHolds(plan, one.Bag, holds => holds with { Volume = Math.Max(one.Inside.Sum(Volume) - Litre, 0) }))),
        new("bag too weak", "A bag holds less mass in the world as played than lies in it at the start.", "gear.volume",
            "It pulls loose what it hangs from.",
            plan => Filled(plan).Select(one => WithHolds(plan, one.Bag, holds => holds with { Mass = one.Inside.Sum(thing => thing.Mass) * 0.99 }))),
        new("part grown", "A thing that a step puts into a bag takes as much room in the world as played as the whole bag.", "gear.volume",
            "Nothing else fits in beside it.",
            plan => IntoBags(plan).Where(one => one.Bag.Holds is not null && Inside(plan, one.Bag).Length > 0)
                .Select(one => plan.WithGear(one.Thing, thing => thing with { Volume = one.Bag.Holds!.Volume + Litre }))),
        new("bag with a place too few", "A bag has one place less in the world as played than things lie in it at the start.", "gear.nested",
            "One thing has no place.",
            plan => Filled(plan).Select(one => WithHolds(plan, one.Bag, holds => holds with { Items = one.Inside.Length - 1 }))),
        new("bag for other sizes", "A bag does not take the size class of a thing in it in the world as played.", "gear.nested",
            "It is not made for it.",
            plan => Filled(plan).Select(one => WithHolds(plan, one.Bag, holds => holds with { Sizes = holds.Sizes.Remove(one.Inside[0].Size) }))),
        new("bag in a bag in a bag", "Two more bags, one in the other, lie in a bag in the world as played.", "gear.nested",
            "Nobody finds what is in the innermost.",
            plan => plan.Scenario.Gear.Where(gear => gear.Kind == GearKind.Bag).Select(bag => plan.InWorld(scenario => scenario with
            {
                Gear = scenario.Gear.Add(Pouch(bag, "damage-pouch", bag.Id)).Add(Pouch(bag, "damage-purse", new("damage-pouch"))),
            }))),
        new("nothing tied before it is freed", "No step of a leg ties what one of its steps moves, in the world as played.", "item.untied",
            "It floats off while it is let go.",
            plan => plan.Scenario.Handling.Tie is null ? [] : plan.Done.Where(leg => plan.Legs[leg].Steps.Any(step => step.Makes.OfType<MoveGear>().Any()))
                .Select(leg => plan.WithLeg(leg, one => one with { Steps = [.. one.Steps.Select(step => step with { Ties = [] })] }))),
        new("no time for the second tie", "A thing is taken or hooked a second faster than its second tie takes.", "item.untied",
            "The first tie is let go before the second holds.",
            plan => plan.Scenario.Handling.Tie is not { } tie ? [] : plan.All<Activity>().Where(one => one is Take or Put && tie.Seconds > 1)
                .Select(one => plan.Instead(one, one with { Start = TimeDamage.Plus(one.End, 1 - tie.Seconds) }))),
        new("kept in hand", "A thing is hung on a carry point that the person does not have, and stays in hand.", "item.untied",
            "Nothing ties it once its handling is over.",
            plan => plan.All<Take>().Where(take => !plan.Timeline.Activities.Any(next => next.Start == take.End && (next switch { Put put => put.Gear, Give give => give.Gear, Plug plug => plug.Gear, _ => (GearId?)null }) == take.Gear)).Select(take => plan.Instead(take, take with { Carry = new("no-such-point") }))),
        new("brought in though it stays", "A thing that is meant to stay outside is not hooked there, and comes in with the person.", "item.lost",
            "It is wanted outside.",
            plan => plan.Scenario.Gear.Where(gear => gear.Stays is not null).SelectMany(gear => plan.All<Put>().Where(put => put.Gear == gear.Id
                && !plan.Timeline.Activities.Any(later => later.Start >= put.End && later is Take take && take.Gear == gear.Id)).TakeLast(1).Select(put => plan.Skip(put)))),
        new("airlock too small", "An airlock has room for its people and nothing else in the world as played.", "airlock.volume",
            "What comes in with them does not fit.",
            plan => Crossed(plan).Select(airlock => WithRoom(plan, airlock, room => room with { Volume = room.PersonVolume * airlock.Order.Length }))),
        new("airlock for fewer things", "An airlock takes no things in the world as played.", "airlock.volume",
            "There is no place for what comes in.",
            plan => Crossed(plan).Select(airlock => WithRoom(plan, airlock, room => room with { Items = 0 }))),
        new("airlock for one person fewer", "An airlock holds one person fewer in the world as played than go out through it.", "airlock.volume",
            "The last one cannot come in before the hatch is closed.",
            plan => WithRooms(plan).Where(airlock => airlock.Order.Length > 0).Select(airlock => plan.WithStation(station => station with
            {
                Airlocks = CleanPlan.Each(station.Airlocks, one => one.Id == airlock.Id, one => one with { Holds = airlock.Order.Length - 1 }),
            }))),
        new("hatch too narrow", "The hatch lets nothing pass in the world as played.", "airlock.volume",
            "What was taken out cannot come back.",
            plan => Crossed(plan).Select(airlock => WithRoom(plan, airlock, room => room with { Hatch = [], BeforePeople = [] }))),
        new("bulky thing brought in on somebody", "A thing that must be in before people is not hung at the hatch, and comes in with the person.", "airlock.volume",
            "It shuts in whoever is behind it.",
            plan => WithRooms(plan).SelectMany(airlock => plan.All<Put>().Where(put => put.At == airlock.Grip && airlock.Room!.BeforePeople.Contains(GearDamage.GearOf(plan, put.Gear).Size)
                && !plan.Timeline.Activities.Any(later => later.Start >= put.End && later is Take take && take.Gear == put.Gear)).Select(put => plan.Skip(put)))),
    ];

    private static double Volume(Gear thing) => thing.Volume * thing.Count;

    private static ImmutableArray<Gear> Inside(CleanPlan plan, Gear bag) =>
        [.. plan.Scenario.Gear.Where(thing => thing.Start == new Location(LocationKind.Bag, bag.Id.Value) && thing.Kind != GearKind.Bag)];

    private static IEnumerable<(Gear Bag, ImmutableArray<Gear> Inside)> Filled(CleanPlan plan) =>
        plan.Scenario.Gear.Where(gear => gear.Holds is not null).Select(bag => (bag, Inside(plan, bag))).Where(one => one.Item2.Length > 0);

    private static IEnumerable<(GearId Thing, Gear Bag)> IntoBags(CleanPlan plan) => plan.Done.SelectMany(leg => plan.Legs[leg].Steps).SelectMany(step => step.Makes).OfType<MoveGear>()
        .Where(move => move.To.Kind == LocationKind.Bag).Select(move => (move.Gear, GearDamage.GearOf(plan, new(move.To.Name))));

    private static Gear Pouch(Gear like, string id, GearId within) => like with { Id = new(id), Start = new(LocationKind.Bag, within.Value), End = null, Holds = null, Stays = null };

    private static Damaged WithHolds(CleanPlan plan, Gear bag, Func<BagHolds, BagHolds> change) => plan.WithGear(bag.Id, one => one with { Holds = change(one.Holds!) });

    private static IEnumerable<Airlock> WithRooms(CleanPlan plan) => plan.Scenario.Station.Airlocks.Where(airlock => airlock.Room is not null);

    /// <summary>Airlocks out of which something is taken.</summary>
    private static IEnumerable<Airlock> Crossed(CleanPlan plan) => WithRooms(plan).Where(airlock => plan.All<Take>().Any(take => take.At == airlock.Grip
        && plan.History.StateAt(plan.History[$"gear {take.Gear} place"], TimeDamage.Plus(take.Start, -1)) == "inside"));

    private static Damaged WithRoom(CleanPlan plan, Airlock airlock, Func<AirlockRoom, AirlockRoom> change) => plan.WithStation(station => station with
    {
        Airlocks = CleanPlan.Each(station.Airlocks, one => one.Id == airlock.Id, one => one with { Room = change(one.Room!) }),
    });
}
