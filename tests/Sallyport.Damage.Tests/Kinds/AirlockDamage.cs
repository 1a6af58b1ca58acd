using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Out, in, and the hatch.</summary>
internal static class AirlockDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("out in another order", "The first two go out the other way round.", "airlock.order",
            "The airlock states who goes first.",
            plan => Reordered(plan, AirlockPhaseKind.Out)),
        new("in in another order", "The last two come in the other way round.", "airlock.order",
            "The airlock states who comes in last.",
            plan => Reordered(plan, AirlockPhaseKind.In)),
        Without("mutual check left out", AirlockPhaseKind.Check, "wait instead of checking each other"),
        Without("bags not handed out", AirlockPhaseKind.BagsOut, "wait instead of handing the bags out"),
        Without("inventory left out", AirlockPhaseKind.Inventory, "wait instead of counting what is there"),
        Without("bags not handed in", AirlockPhaseKind.BagsIn, "wait instead of handing the bags in"),
        new("sequence swapped", "The bags are handed in before the inventory.", "airlock.order",
            "What is handed in before it is counted is not counted.",
            plan => plan.All<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Inventory).SelectMany(inventory => plan.All<AirlockPhase>()
                .Where(bags => bags.Phase == AirlockPhaseKind.BagsIn && bags.Airlock == inventory.Airlock).Select(bags => plan.With(one =>
                    one == inventory ? [bags with { Start = inventory.Start, End = inventory.Start.Plus(bags.Length) }]
                    : one == bags ? [inventory with { Start = inventory.Start.Plus(bags.Length), End = bags.End }] : [one])))),
        new("checked by one", "Only one of those who went out takes part in the mutual check.", "airlock.order",
            "Nobody can check the own back.",
            plan => plan.All<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Check && phase.Who.Length > 1)
                .Select(check => plan.Instead(check, [check with { Who = [check.Who[0]] }, .. check.Who.Skip(1).Select(person => CleanPlan.Wait(check, person))]))),
        new("hatch left open", "The hatch is not closed at the end.", "hatch.end",
            "The walk ends with the hatch closed.",
            plan => plan.All<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Close).Select(close => plan.Skip(close))),
        new("hatch closed early", "The hatch begins to be closed while the last one is still outside.", "hatch.end",
            "Somebody is outside.",
            plan => plan.All<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Close).SelectMany(close => plan.All<AirlockPhase>()
                .Where(phase => phase.Phase == AirlockPhaseKind.In).TakeLast(1).Select(last => plan.Move(close, last.Start)))),
        new("one not brought in", "Somebody waits at the hatch instead of coming in.", "hatch.end",
            "The walk ends with everybody inside.",
            plan => plan.All<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.In).Select(coming => plan.Skip(coming))),
        new("out when out", "Somebody goes out a second time without coming in.", "way.none",
            "Only who is inside can go out.",
            plan => plan.All<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Out)
                .Select(going => plan.Hold(going.End, going.Length.Seconds, going with { Id = new($"{going.Id}-again"), Start = going.End, End = going.End.Plus(going.Length) }))),
    ];

    private static Damage Without(string name, AirlockPhaseKind kind, string instead) => new(name, $"People {instead}.", "airlock.order",
        "The sequence of the airlock is part of every way out and in.",
        plan => plan.All<AirlockPhase>().Where(phase => phase.Phase == kind).Select(phase => plan.Skip(phase)));

    private static IEnumerable<Damaged> Reordered(CleanPlan plan, AirlockPhaseKind kind) => plan.Scenario.Station.Airlocks.Where(airlock => airlock.Order.Length > 1).SelectMany(airlock =>
    {
        ImmutableArray<AirlockPhase> phases = [.. plan.All<AirlockPhase>().Where(phase => phase.Phase == kind && phase.Airlock == airlock.Id && phase.Who.Length == 1)];
        return phases.Length < 2 ? [] : new[]
        {
            plan.With(one => one == phases[0] ? [phases[0] with { Who = phases[1].Who }] : one == phases[1] ? [phases[1] with { Who = phases[0].Who }] : [one]),
        };
    });
}
