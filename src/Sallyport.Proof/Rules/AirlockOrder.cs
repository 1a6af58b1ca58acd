using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Out and in in the airlock's own order, with nothing of its sequence left out.</summary>
internal sealed class AirlockOrder : FactRule
{
    public override RuleCard Card { get; } = new(new("airlock.order"),
        "people and umbilicals crossed in the hatch, a suit that nobody looked over, and a thing that nobody counted",
        "who goes out after whom, against the order of the airlock, and who comes in, against its reverse; bags out and one check by all who went out "
            + "before anybody does anything else; after the last of it the inventory by all who come in, then bags in, before anybody comes in",
        "the order and the sequence written at the airlock",
        Guard.Expansion("out and in are made from the airlock's own sequence"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        foreach (Airlock airlock in given.Scenario.Station.Airlocks)
        {
            ImmutableArray<AirlockPhase> phases = [.. given.Timeline.Activities.OfType<AirlockPhase>().Where(phase => phase.Airlock == airlock.Id)];
            foreach (Finding finding in WayOut(given, airlock, phases).Concat(WayIn(given, airlock, phases))) yield return finding;
        }
    }

    private IEnumerable<Finding> WayOut(Case given, Airlock airlock, ImmutableArray<AirlockPhase> phases)
    {
        ImmutableArray<AirlockPhase> outs = [.. phases.Where(phase => phase.Phase == AirlockPhaseKind.Out)];
        ImmutableArray<PersonId> everybody = [.. outs.SelectMany(phase => phase.Who).Distinct()];
        if (outs.IsEmpty) yield break;
        AirlockPhase? bags = phases.FirstOrDefault(phase => phase.Phase == AirlockPhaseKind.BagsOut && phase.Start >= outs.Min(one => one.End));
        AirlockPhase? check = phases.FirstOrDefault(phase => phase.Phase == AirlockPhaseKind.Check && phase.Start >= outs.Max(one => one.End)
            && everybody.All(phase.Who.Contains));
        Pet begin = Doings(given, everybody).Select(doing => doing.Start).DefaultIfEmpty(given.Trace.To).Min();
        if (bags is null || bags.End > begin || (check is not null && bags.End > check.Start))
            yield return Broken(given, outs[0].End, everybody, $"The bags are not handed out through {airlock.Id} after the first one is out and before the check.",
                $"Hand the bags out through {airlock.Id} before the check.");
        if (check is null || check.End > begin)
            yield return Broken(given, outs[^1].End, everybody, $"{string.Join(" and ", everybody)} leave {airlock.Id} without a check in which all of them take part.",
                "Let everybody who went out take part in one check, before anything else is begun.");
    }

    private IEnumerable<Finding> WayIn(Case given, Airlock airlock, ImmutableArray<AirlockPhase> phases)
    {
        ImmutableArray<AirlockPhase> ins = [.. phases.Where(phase => phase.Phase == AirlockPhaseKind.In)];
        ImmutableArray<PersonId> everybody = [.. ins.SelectMany(phase => phase.Who).Distinct()];
        if (ins.IsEmpty) yield break;
        Pet done = Doings(given, everybody).Select(doing => doing.End).DefaultIfEmpty(given.Trace.From).Max();
        AirlockPhase? inventory = phases.FirstOrDefault(phase => phase.Phase == AirlockPhaseKind.Inventory && phase.Start >= done && everybody.All(phase.Who.Contains));
        AirlockPhase? bags = phases.FirstOrDefault(phase => phase.Phase == AirlockPhaseKind.BagsIn && phase.End <= ins.Min(one => one.Start));
        if (inventory is null || inventory.End > ins.Min(one => one.Start))
            yield return Broken(given, ins[0].Start, everybody, $"Nobody comes in through {airlock.Id} before the inventory by {string.Join(" and ", everybody)}, but it is left out.",
                "Let everybody who comes in take part in the inventory first, after all else is done.");
        if (bags is null || (inventory is not null && bags.Start < inventory.End))
            yield return Broken(given, ins[0].Start, everybody, $"The bags are not handed in through {airlock.Id} after the inventory and before the first one comes in.",
                $"Hand the bags in through {airlock.Id} after the inventory.");
    }

    /// <summary>What people do outside that is neither the airlock's sequence nor a wait or rest.</summary>
    private static IEnumerable<Activity> Doings(Case given, ImmutableArray<PersonId> people) =>
        given.Timeline.Activities.Where(activity => activity is not (AirlockPhase or Await or Rest) && activity.People.Any(people.Contains));
}
