using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>The outline edited, and expanded again. Where expansion refuses the edit, the plan offers no place for it.</summary>
internal static class OutlineDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("pin before its time", "A leg is pinned to begin no later than a second before it can.", "pin.missed",
            "The plan does not move, and the pin is not kept.",
            plan => Edited(plan, (person, i) => person.Entries[i] is LegEntry leg
                ? person with { Entries = person.Entries.SetItem(i, leg with { Pins = Pins.None with { NotAfter = TimeDamage.Plus(plan.StepsOf(leg.Leg)[0].Start, -3600) } }) } : null)),
        new("take out of the outline", "The line that takes a thing which a leg of the same person needs is taken out of the outline.", "gear.absent",
            "The leg is begun without it.",
            plan => Edited(plan, (person, i) => person.Entries[i] is TakeEntry take && person.Entries.Skip(i).TakeWhile(entry => entry is not PutEntry put || put.Gear != take.Gear)
                .OfType<LegEntry>().Any(leg => plan.Legs[leg.Leg].With.Contains(take.Gear)) ? person with { Entries = person.Entries.RemoveAt(i) } : null)),
        new("command out of the outline", "A command that turns off what a leg needs off is taken out of the outline.", "feature.wrong",
            "The leg is begun with it on.",
            plan => plan.Outline.Ground.Where(entry => entry.Before is { } leg && plan.Done.Contains(leg) && plan.Legs[leg].Shutdowns.Any(id => plan.Scenario.Consoles
                .SelectMany(console => console.Shutdowns).Any(shutdown => shutdown.Id == id && shutdown.Off == entry.Do)))
                .SelectMany(entry => Again(plan, plan.Outline with { Ground = plan.Outline.Ground.Remove(entry) }))),
        new("leg out of the outline", "A leg of a job with more than one is taken out of the outline.", "job.order",
            "All legs of a job are done, or none.",
            plan => Edited(plan, (person, i) => person.Entries[i] is LegEntry leg && plan.Outline.Decision?.After != leg.Leg && plan.Scenario.Jobs.Single(job => job.Id == plan.Legs[leg.Leg].Job).Legs.Length > 1
                ? person with { Entries = person.Entries.RemoveAt(i) } : null)),
        new("another setting in the outline", "A restraint is plugged with another setting than its leg asks for.", "restraint.absent",
            "The leg names its setting.",
            plan => Edited(plan, (person, i) => person.Entries[i] is PlugEntry { For: { } leg } plug && plan.Legs[leg].Setting is not null
                ? person with { Entries = person.Entries.SetItem(i, plug with { Setting = "other" }) } : null)),
    ];

    private static IEnumerable<Damaged> Edited(CleanPlan plan, Func<PersonOutline, int, PersonOutline?> edit) =>
        plan.Outline.People.SelectMany(person => Enumerable.Range(0, person.Entries.Length).SelectMany(i => edit(person, i) is { } edited
            ? Again(plan, plan.Outline with { People = plan.Outline.People.Replace(person, edited) }) : []));

    private static IEnumerable<Damaged> Again(CleanPlan plan, Outline outline)
    {
        if (plan.Expand(outline) is { } timeline) yield return new(plan.Scenario, timeline);
    }
}
