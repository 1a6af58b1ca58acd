using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What stands first: the cover, the range chart, one page for who decides, the findings.</summary>
internal static class FrontChapters
{
    public static Chapter Cover(BriefedPlan plan, DateOnly? printed, IEnumerable<string> contents)
    {
        Wording words = plan.Words;
        Sortie sortie = plan.Scenario.Sortie;
        return new(words["cover.title"],
        [
            new Paragraph(sortie.Title, Setting.Large),
            new Paragraph(Caution.Text, Setting.Notice),
            .. plan.IsDraft ? [new Paragraph(words["cover.draft"], Setting.Notice)] : Array.Empty<Block>(),
            new Paragraph(Standing(plan), Setting.Strong),
            new Table([new("", 20), new("", 80)],
            [
                Row.Of(words["cover.revision"], words.Say("cover.revisionis", plan.Plan.Verdict.PlanId)),
                Row.Of(words["cover.scenario"], $"{plan.Scenario.Id} · {plan.Scenario.Digest[..Math.Min(12, plan.Scenario.Digest.Length)]}"),
                Row.Of(words["cover.outline"], plan.Plan.Name),
                Row.Of(words["cover.printed"], printed is { } date ? date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : words["cover.undated"]),
                Row.Of(words["cover.zero"], words.Say("cover.zerois", sortie.PetZero.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture), sortie.PetZeroIs)),
                Row.Of(words["cover.end"], End(plan)),
                .. plan.Scenario.People.Select(person => Row.Of(person.Id.Value, words.Say("cover.person", person.Name, words["role." + person.Role.ToString().ToLowerInvariant()]))),
            ]),
            new Heading(words["cover.contents"]),
            .. contents.Select(title => new Paragraph(title, Setting.Item)),
        ]);
    }

    public static string Standing(BriefedPlan plan)
    {
        Verdict verdict = plan.Plan.Verdict;
        int Count(Severity severity) => verdict.Findings.Count(finding => finding.Severity == severity);
        return verdict.Clean
            ? plan.Words.Say("standing.clean", verdict.Checked.Length, Count(Severity.Near), verdict.NotChecked.Length)
            : plan.Words.Say("standing.broken", Count(Severity.Broken), verdict.Checked.Length, Count(Severity.Near), verdict.NotChecked.Length);
    }

    private static string End(BriefedPlan plan)
    {
        Pet end = plan.Trace.To;
        if (plan.Scenario.LimitOf("pet.limit") is not { Value.Dimension: Dimension.Time } limit) return plan.Words.Say("end.nolimit", end, plan.Utc(end));
        int left = (int)Math.Floor(limit.Value.Value) - end.Seconds;
        return plan.Words.Say(left >= 0 ? "end.inside" : "end.over", end, plan.Utc(end), Pet.FromSeconds((int)Math.Floor(limit.Value.Value)), Duration.FromSeconds(Math.Abs(left)));
    }

    /// <summary>The range chart, as wide as keeps its words largest on one page.</summary>
    public static Chapter Chart(BriefedPlan plan, PaperSize paper)
    {
        ProvenPlan proven = plan.Plan;
        Picture Draw(double width) => RangeChart.Draw(plan.Scenario, proven.Played, proven.Verdict, new(proven.Name, null, width, proven.Outline?.Decision) { ListsBelow = false, Words = plan.Words });
        // The room of a page, upright and on its side, less margins, head, foot and title.
        double Scale(Picture picture, bool wide) => Math.Min(((wide ? paper.Height : paper.Width) - 68) / picture.Width, ((wide ? paper.Width : paper.Height) - 125) / picture.Height);
        // Drawing is what a briefing waits for most, so a further width is tried only where words would be small: with many people, whose strips make it high.
        const double legible = 0.5;
        (Picture Picture, bool IsWide) best = (Draw(900), false);
        if (Scale(best.Picture, false) < legible)
            best = new[] { best.Picture, Draw(1100), Draw(1400) }.SelectMany(picture => new[] { (picture, false), (picture, true) }).MaxBy(one => Scale(one.Item1, one.Item2));
        (Picture picture, bool isWide) = best;
        return new(plan.Words["chart.title"], [new Figure(picture, $"{plan.Words["chart.words"]} {Standing(plan)} {End(plan)}")]) { Wide = isWide };
    }

    public static Chapter Summary(BriefedPlan plan)
    {
        Wording words = plan.Words;
        HashSet<JobId> done = PlanText.Done(plan.Plan);
        ImmutableArray<Block>.Builder blocks = ImmutableArray.CreateBuilder<Block>();
        blocks.Add(new Paragraph(Standing(plan), Setting.Strong));
        blocks.Add(new Paragraph($"{End(plan)} {words.Say("summary.jobs", plan.Scenario.Jobs.Count(job => done.Contains(job.Id)), plan.Scenario.Jobs.Length, PlanText.ValueOf(plan.Scenario, plan.Plan), plan.Scenario.Jobs.Sum(job => job.Value))}"));
        if (plan.DecisionTaken is { } taken)
        {
            blocks.Add(new Heading(words["decision.title"]));
            blocks.AddRange(Decision(plan, taken.Decision, taken.At));
        }
        blocks.Add(new Heading(words["summary.jobstitle"]));
        blocks.Add(new Table(
            [new(words["col.job"], 34), new(words["col.worth"], 9), new(words["col.value"], 7, true), new(words["col.who"], 12), new(words["col.from"], 9), new(words["col.to"], 9), new(words["col.caution"], 34)],
            [.. plan.Scenario.Jobs.OrderBy(job => !done.Contains(job.Id)).ThenBy(job => Began(plan, job)).Select(job => JobRow(plan, job, done.Contains(job.Id)))]));
        blocks.Add(new Heading(words["summary.margins"]));
        blocks.Add(new Table([new(words["col.margin"], 34), new(words["col.pet"], 10), new(words["col.takes"], 12), new(words["col.held"], 12), new(words["col.left"], 12), new(words["col.during"], 34)],
            [
                .. plan.Tight.OrderBy(tight => tight.MarginSeconds).Select(tight => MarginRow(plan, tight)),
                // Of the other branch only what is nearer to its limit there.
                .. plan.Other is { } other && other.Tight.Where(tight => !plan.Tight.Any(one => one.Kind == tight.Kind && one.Person == tight.Person && one.MarginSeconds <= tight.MarginSeconds)).ToArray() is { Length: > 0 } nearer
                    ? nearer.OrderBy(tight => tight.MarginSeconds).Select(tight => MarginRow(other, tight)).Prepend(Row.Band(Phrase.Strong(OtherBranch.Title(other)), words["other.nearer"])) : [],
            ]));
        foreach (string line in SuitText.Margins(plan.Scenario, plan.Timeline, plan.Trace)) blocks.Add(new Paragraph(line, Setting.Item));
        return new(words["summary.title"], blocks.ToImmutable());
    }

    public static IEnumerable<Block> Decision(BriefedPlan plan, Decision decision, Pet at)
    {
        string Tail(IEnumerable<PersonOutline> lists) => string.Join("; ", lists.Select(list =>
            $"{list.Person}: {string.Join(", ", list.Entries.OfType<LegEntry>().Select(entry => plan.Leg(entry.Leg).Title).DefaultIfEmpty(plan.Words["decision.in"]))}"));
        yield return new Paragraph(plan.Words.Say("decision.when", plan.Leg(decision.After).Title, at), Setting.Item);
        yield return new Paragraph(plan.Words.Say("decision.then", decision.IfBefore, Tail(decision.Then)), Setting.Item);
        yield return new Paragraph(plan.Words.Say("decision.else", Tail(decision.Else))
            + (plan.Plan.Played.Length > 1 ? " " + plan.Words.Say("decision.ends", plan.Plan.Played[1].Trace.To) : ""), Setting.Item);
    }

    private static Pet Began(BriefedPlan plan, Job job) => plan.Timeline.Activities.OfType<DoStep>().Where(step => plan.Leg(step.Leg).Job == job.Id).Select(step => step.Start).Append(plan.Trace.To).Min();

    private static Row JobRow(BriefedPlan plan, Job job, bool isDone)
    {
        DoStep[] steps = [.. plan.Timeline.Activities.OfType<DoStep>().Where(step => plan.Leg(step.Leg).Job == job.Id)];
        string why = plan.Plan.Outline?.LeftOut.FirstOrDefault(one => one.Job == job.Id)?.Why ?? plan.Words["summary.noreason"];
        return Row.Of(
            new Phrase(job.Title, isDone ? Face.Regular : Face.Bold), plan.Words["worth." + job.Worth.ToString().ToLowerInvariant()], job.Value.ToString(CultureInfo.InvariantCulture),
            string.Join(", ", steps.Select(step => step.Person.Value).Distinct().Order(StringComparer.Ordinal)),
            isDone ? steps.Min(step => step.Start).ToString() : "–", isDone ? steps.Max(step => step.End).ToString() : "–",
            new Cell([isDone ? job.Hazard : plan.Words.Say("summary.leftout", why), plan.Other is { } other && other.IsDone(job.Id) != isDone ? Phrase.Strong(plan.Words[isDone ? "summary.onlylikely" : "summary.onlyother"]) : ""]));
    }

    private static Row MarginRow(BriefedPlan plan, Proof.TightMoment tight) => Row.Of(
        plan.MarginOf(tight), tight.At.ToString(), tight.IsNoWay ? Phrase.Strong(plan.Words["returns.none"]) : tight.Takes.ToString(), tight.Held.ToString(),
        Phrase.Strong(tight.IsNoWay ? "–" : tight.Left.ToString()), plan.During(tight));

    public static Chapter Findings(BriefedPlan plan)
    {
        Wording words = plan.Words;
        Verdict verdict = plan.Plan.Verdict;
        return new(words["findings.title"],
        [
            new Paragraph(Standing(plan), Setting.Strong),
            .. verdict.Findings.IsEmpty ? [new Paragraph(words["findings.none"])] : Array.Empty<Block>(),
            .. verdict.Findings.IsEmpty ? [] : new Block[]
            {
                new Table([new("", 5), new(words["col.finding"], 26), new(words["col.sentence"], 48), new(words["col.figures"], 22), new(words["col.source"], 26), new(words["col.mend"], 32)],
                [
                    .. verdict.Findings.Select((finding, index) => Row.Of(
                        string.Create(CultureInfo.InvariantCulture, $"{index + 1}"), new Cell([Phrase.Strong(words["severity." + finding.Severity.ToString().ToLowerInvariant()]), finding.Rule.Value, finding.Branch == Branch.Likely ? "" : words["branch.other"], string.Join(", ", finding.Who)]),
                        finding.Sentence,
                        new Cell(finding.Measured.Length == 0 ? [] : [words.Say("figures.measured", finding.Measured), finding.Limit.Length > 0 ? words.Say("figures.limit", finding.Limit) : "", finding.Margin.Length > 0 ? words.Say("figures.margin", finding.Margin) : ""]),
                        finding.Source, finding.Mend)),
                ]),
            },
        ])
        { OwnPage = plan.IsDraft };
    }

    public static Chapter NotChecked(BriefedPlan plan) => new(plan.Words["notchecked.title"],
        [new Paragraph(plan.Words["notchecked.about"], Setting.Strong), .. plan.Plan.Verdict.NotChecked.Select(one => new Paragraph(one, Setting.Item))])
    { OwnPage = false };

    /// <summary>Where the limits come from.</summary>
    public static Chapter Sources(BriefedPlan plan)
    {
        Wording words = plan.Words;
        Scenario scenario = plan.Scenario;
        string Mark(bool verified) => words[verified ? "sources.verified" : "sources.unverified"];
        return new(words["sources.title"],
        [
            new Table([new(words["col.rule"], 18), new(words["col.limit"], 20), new(words["col.near"], 12), new(words["col.source"], 50), new(words["col.verified"], 14)],
            [
                .. scenario.Limits.Select(limit => Row.Of(limit.Rule.Value,
                    new Cell([(limit.Least is { } least ? $"{least} … " : "") + limit.Value.Text, limit.Hour is { } hour ? words.Say("sources.hour", hour) : ""]), limit.Near?.Text ?? "–", limit.Source,
                    new Phrase(Mark(limit.Verified), limit.Verified ? Face.Regular : Face.Bold))),
            ]),
            new Heading(words["sources.others"]),
            new Table([new(words["col.what"], 30), new(words["col.source"], 84)],
            [
                Row.Of(words["sources.handling"], scenario.Handling.Source),
                Row.Of(words["sources.tether"], scenario.Tether.Source),
                Row.Of(words["sources.sky"], scenario.Sky.Source),
                .. plan.People.Where(person => person.Pace is not null).Select(person => Row.Of(words.Say("sources.pace", person.Id), person.Pace!.Source)),
                .. plan.Trace.CutOffs.Select(cut => Row.Of(words.Say("sources.cutoff", cut.Person), cut.Source)),
                .. scenario.Arms.Select(arm => Row.Of(words.Say("sources.arm", arm.Id), arm.Source)),
                .. scenario.Clocks.Select(clock => Row.Of(words.Say("sources.clock", clock.Id), clock.Source)),
                .. scenario.Consoles.SelectMany(console => console.Shutdowns).Where(one => one.Source.Length > 0).Select(one => Row.Of(words.Say("sources.shutdown", one.Id), one.Source)),
                .. scenario.Footings.Select(strength => Row.Of(words.Say("sources.footing", words["footingkind." + strength.Kind.ToString().ToLowerInvariant()]), $"{strength.Source} · {Mark(strength.Verified)}")),
                .. scenario.Bolts.Select(bolt => Row.Of(bolt.Title, $"{bolt.Source} · {Mark(bolt.Verified)}")),
                .. scenario.Station.BakeOut is { } bakeOut ? [Row.Of(words["sources.bakeout"], bakeOut.Source)] : Array.Empty<Row>(),
                .. scenario.Help is { } help ? [Row.Of(words["sources.help"], help.Source)] : Array.Empty<Row>(),
                .. scenario.Suits.Select(suit => Row.Of(words.Say("sources.suit", string.Join(", ", suit.People)), suit.Source)),
                .. StepSources(plan),
            ]),
        ])
        { OwnPage = false };
    }

    /// <summary>Where the times of steps come from: one row a source.</summary>
    private static IEnumerable<Row> StepSources(BriefedPlan plan) =>
        plan.Timeline.Activities.OfType<DoStep>().GroupBy(step => plan.Step(step).Time.Source).Where(group => group.Key.Length > 0)
            .Select(group => Row.Of(plan.Words.Say("sources.steps", string.Join(", ", group.Select(step => step.Leg.Value).Distinct())), group.Key));
}
