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
        Wording words = plan.Words;
        Dictionary<GearId, Account> accounts = Accounts.Of(plan.Scenario, plan.Trace).ToDictionary(account => account.Gear.Id);
        ImmutableArray<Block>.Builder blocks = ImmutableArray.CreateBuilder<Block>();
        blocks.Add(new Paragraph(words["bags.about"]));
        foreach (Gear bag in plan.Scenario.Gear.Where(thing => thing.Kind == GearKind.Bag))
        {
            blocks.Add(new Heading(words.Say("bags.card", bag.Title, Kilograms(bag.Mass))));
            blocks.Add(new Paragraph(End(plan, accounts[bag.Id])));
            blocks.Add(new Table([new(words["col.pet"], 9), new(words["col.whereis"], 24), new(words["col.inside"], 50), new(words["col.by"], 30)],
                [.. Card(plan, bag), .. OtherBranch.Band(plan, branch => [.. Card(branch, bag)])]));
        }
        Gear[] loose = [.. plan.Scenario.Gear.Where(thing => thing.Kind != GearKind.Bag && (IsLoose(plan, thing) || (plan.Other is { } other && IsLoose(other, thing))))];
        if (loose.Length > 0)
        {
            blocks.Add(new Heading(words["bags.loose"]));
            blocks.Add(new Table([new(words["col.thing"], 30), new(words["col.pet"], 9), new(words["col.whereis"], 34), new(words["col.by"], 34)],
            [
                .. loose.SelectMany(thing => Loose(plan, thing)),
                .. OtherwiseLoose(plan, loose),
            ]));
        }
        blocks.Add(new Heading(words["bags.home"]));
        blocks.Add(new Table([new(words["col.thing"], 34), new(words["col.fate"], 20), new(words["col.whereis"], 34), new(words["col.remark"], 40)],
                [.. accounts.Values.Where(account => account.Fate != Fate.StayedInside).Select(account => AtTheEnd(plan, account)), .. OtherwiseAtTheEnd(plan, accounts)]));
        return new(words["bags.title"], blocks.ToImmutable());
    }

    private static IEnumerable<Row> Card(BriefedPlan plan, Gear bag) => Moments(plan, bag).Select((moment, index) => Row.Of(
        index == 0 ? plan.Words["bags.atstart"] : moment.At.ToString(), plan.Spot(bag.Id, moment.At), new Cell([.. Content(plan, bag.Id, moment.At)]), By(plan, moment.By)));

    private static IEnumerable<Row> Loose(BriefedPlan plan, Gear thing) =>
        plan.History.Changes(plan.History[$"gear {thing.Id} place"]).Select(change => Row.Of(thing.Title, change.At.ToString(), plan.Spot(thing.Id, change.At), By(plan, change.By)))
            .Prepend(Row.Of(Phrase.Strong(plan.Words.Say("bags.thing", thing.Title, Kilograms(thing.Mass))), plan.Words["bags.atstart"], plan.SpotWords(StartOf(plan, thing)), ""));

    /// <summary>Things that do not travel the same way on the other branch, each with its whole way there.</summary>
    private static Row[] OtherwiseLoose(BriefedPlan plan, Gear[] loose)
    {
        if (plan.Other is not { } other) return [];
        Row[] rows = [.. loose.Where(thing => OtherBranch.Differ([.. Loose(plan, thing)], [.. Loose(other, thing)])).SelectMany(thing => Loose(other, thing))];
        return rows.Length == 0 ? [] : [Row.Band(Phrase.Strong(OtherBranch.Title(other)), plan.Words["other.only"]), .. rows];
    }

    private static Row AtTheEnd(BriefedPlan plan, Account account) => Row.Of(
        account.Gear.Title, new Phrase(plan.Words["fate." + account.Fate.ToString().ToLowerInvariant()], account.Fate is Fate.LeftOutside or Fate.Elsewhere or Fate.Astray ? Face.Bold : Face.Regular),
        plan.SpotWords(account.Spot), account.Gear.Stays ?? "");

    /// <summary>Things that end otherwise on the other branch, those too that then never leave the inside.</summary>
    private static Row[] OtherwiseAtTheEnd(BriefedPlan plan, Dictionary<GearId, Account> likely)
    {
        if (plan.Other is not { } other) return [];
        Row[] rows = [.. Accounts.Of(other.Scenario, other.Trace).Where(account => likely[account.Gear.Id] is var one && (one.Fate != account.Fate || one.Spot != account.Spot)).Select(account => AtTheEnd(other, account))];
        return rows.Length == 0 ? [] : [Row.Band(Phrase.Strong(OtherBranch.Title(other)), plan.Words["other.only"]), .. rows];
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
