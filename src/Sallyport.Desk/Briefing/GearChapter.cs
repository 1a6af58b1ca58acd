using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>Bag cards: for each bag what is in it and where it is, from before egress to the end, at each moment when either changes.</summary>
internal static class GearChapter
{
    public static Chapter Of(BriefedPlan plan)
    {
        BriefingWords words = plan.Words;
        Dictionary<GearId, Account> accounts = Accounts.Of(plan.Scenario, plan.Trace).ToDictionary(account => account.Gear.Id);
        ImmutableArray<Block>.Builder blocks = ImmutableArray.CreateBuilder<Block>();
        blocks.Add(new Paragraph(words["bags.about"]));
        foreach (Gear bag in plan.Scenario.Gear.Where(thing => thing.Kind == GearKind.Bag))
        {
            (Pet At, ActivityId? By)[] moments = [.. Moments(plan, bag)];
            blocks.Add(new Heading(words.Say("bags.card", bag.Title, Kilograms(bag.Mass))));
            blocks.Add(new Paragraph(End(plan, accounts[bag.Id])));
            blocks.Add(new Table([new(words["col.pet"], 9), new(words["col.whereis"], 24), new(words["col.inside"], 50), new(words["col.by"], 30)],
                [.. moments.Select((moment, index) => Row.Of(index == 0 ? words["bags.atstart"] : moment.At.ToString(), plan.Spot(bag.Id, moment.At), new Cell([.. Content(plan, bag.Id, moment.At)]), By(plan, moment.By)))]));
        }
        Gear[] loose = [.. plan.Scenario.Gear.Where(thing => thing.Kind != GearKind.Bag && IsLoose(plan, thing))];
        if (loose.Length > 0)
        {
            blocks.Add(new Heading(words["bags.loose"]));
            blocks.Add(new Table([new(words["col.thing"], 30), new(words["col.pet"], 9), new(words["col.whereis"], 34), new(words["col.by"], 34)],
            [
                .. loose.SelectMany(thing => plan.History.Changes(plan.History[$"gear {thing.Id} place"]).Select(change => Row.Of(thing.Title, change.At.ToString(), plan.Spot(thing.Id, change.At), By(plan, change.By)))
                    .Prepend(Row.Of(Phrase.Strong(words.Say("bags.thing", thing.Title, Kilograms(thing.Mass))), words["bags.atstart"], plan.SpotWords(StartOf(plan, thing)), ""))),
            ]));
        }
        blocks.Add(new Heading(words["bags.home"]));
        blocks.Add(new Table([new(words["col.thing"], 34), new(words["col.fate"], 20), new(words["col.whereis"], 34), new(words["col.remark"], 40)],
            [.. accounts.Values.Where(account => account.Fate != Fate.StayedInside).Select(account => Row.Of(
                account.Gear.Title, new Phrase(words["fate." + account.Fate.ToString().ToLowerInvariant()], account.Fate is Fate.LeftOutside or Fate.Elsewhere or Fate.Astray ? Face.Bold : Face.Regular),
                plan.SpotWords(account.Spot), account.Gear.Stays ?? ""))]));
        return new(words["bags.title"], blocks.ToImmutable());
    }

    private static string StartOf(BriefedPlan plan, Gear thing)
    {
        int variable = plan.History[$"gear {thing.Id} place"];
        return plan.Trace.Variables[variable].States[plan.Trace.Start[variable]];
    }

    /// <summary>The start, and every moment at which the bag or what is in it moves; of several in one moment the last deed is named.</summary>
    private static IEnumerable<(Pet At, ActivityId? By)> Moments(BriefedPlan plan, Gear bag)
    {
        History history = plan.History;
        IEnumerable<Change> changes = history.Changes(history[$"gear {bag.Id} place"]);
        foreach (Gear thing in plan.Scenario.Gear)
        {
            int variable = history[$"gear {thing.Id} place"];
            int inside = plan.Trace.Variables[variable].States.IndexOf($"bag {bag.Id}");
            int before = plan.Trace.Start[variable];
            foreach (Change change in history.Changes(variable))
            {
                if (inside >= 0 && (change.Value == inside || before == inside)) changes = changes.Append(change);
                before = change.Value;
            }
        }
        IEnumerable<(Pet At, ActivityId? By)> moments = changes.GroupBy(change => change.At).OrderBy(group => group.Key).Select(group => (group.Key, group.Last().By)).Where(one => one.Key > plan.Trace.From);
        return moments.Prepend((plan.Trace.From, null));
    }

    /// <summary>What lies in a bag from a moment on, stocks with their number.</summary>
    private static IEnumerable<Phrase> Content(BriefedPlan plan, GearId bag, Pet at)
    {
        string place = $"bag {bag}";
        return plan.Scenario.Gear.Where(thing => plan.State($"gear {thing.Id} place", at) == place)
            .Select(thing => new Phrase(thing.Kind == GearKind.Stock && plan.Count($"gear {thing.Id} count", at) is { } count ? plan.Words.Say("bags.stock", thing.Title, count) : thing.Title))
            .DefaultIfEmpty(plan.Words["bags.empty"]);
    }

    private static string By(BriefedPlan plan, ActivityId? by)
    {
        if (plan.FindOrNone(by) is not { } activity) return "";
        string who = string.Join(", ", activity.People);
        return activity is DoStep step ? $"{who} [{step.Leg}] {plan.Do(step, null)}" : $"{who}: {plan.Do(activity, null)}";
    }

    private static string End(BriefedPlan plan, Account account) =>
        plan.Words.Say("bags.end", plan.Words["fate." + account.Fate.ToString().ToLowerInvariant()], plan.SpotWords(account.Spot)) + (account.Gear.Stays is { } why ? " " + plan.Words.Say("bags.stays", why) : "");

    /// <summary>Whether a thing is ever moved without a bag.</summary>
    private static bool IsLoose(BriefedPlan plan, Gear thing)
    {
        int variable = plan.History[$"gear {thing.Id} place"];
        ImmutableArray<string> states = plan.Trace.Variables[variable].States;
        return plan.History.Changes(variable).Any(change => states[change.Value] is var state && (state.StartsWith("person ", StringComparison.Ordinal) || state.StartsWith("grip ", StringComparison.Ordinal) || state.StartsWith("socket ", StringComparison.Ordinal)));
    }

    private static string Kilograms(double mass) => mass.ToString("0.##", CultureInfo.InvariantCulture);
}
