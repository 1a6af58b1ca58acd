using System.Collections.Immutable;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>What is done when the clock or a step does not go as planned: latest starts, decision points, contingencies; what suits hold; the station before and after.</summary>
internal static class LateChapters
{
    /// <param name="plan">The plan.</param>
    /// <param name="latest">How late each leg may begin; null when that was not reckoned.</param>
    public static Chapter Starts(BriefedPlan plan, ImmutableArray<LatestStart>? latest)
    {
        Wording words = plan.Words;
        ImmutableArray<Block>.Builder blocks = ImmutableArray.CreateBuilder<Block>();
        blocks.Add(new Heading(words["decision.title"]));
        if (plan.DecisionTaken is { } taken) blocks.AddRange(FrontChapters.Decision(plan, taken.Decision, taken.At));
        else blocks.Add(new Paragraph(words["decision.none"]));
        blocks.Add(new Heading(words["latest.title"]));
        if (latest is not { } known) blocks.Add(new Paragraph(words["latest.notreckoned"], Setting.Strong));
        else
        {
            blocks.Add(new Paragraph(words["latest.about"], Setting.Small));
            if (plan.Other is not null) blocks.Add(new Paragraph(words["latest.branch"], Setting.Small));
            blocks.Add(new Table([new(words["col.leg"], 30), new(words["col.planned"], 10), new(words["col.latest"], 10), new(words["col.slack"], 10), new(words["col.then"], 54)],
                [.. known.Select(start => Row.Of($"[{start.Leg}] {plan.Leg(start.Leg).Title}", start.Planned.ToString(), Phrase.Strong(start.Latest?.ToString() ?? "–"),
                    start.Latest is { } late ? late.Since(start.Planned).ToString() : words["latest.noslack"], start.Then))]));
        }
        (string Title, Pet Latest)[] told =
        [
            .. plan.Scenario.Jobs.Where(job => job.Latest is not null).Select(job => (job.Title, job.Latest!.Value)),
            .. plan.Scenario.Legs.Where(leg => leg.Latest is not null).Select(leg => (leg.Title, leg.Latest!.Value)),
        ];
        if (told.Length > 0)
        {
            blocks.Add(new Heading(words["latest.told"]));
            blocks.AddRange(told.Select(one => new Paragraph(words.Say("latest.one", one.Title, one.Latest), Setting.Item)));
        }
        if (plan.Plan.Verdict.StepTimes is { } tries)
        {
            StepTry[] broken = [.. tries.Where(one => !one.Clean)];
            blocks.Add(new Heading(words["steptimes.title"]));
            blocks.Add(new Paragraph(words.Say("steptimes.about", tries.Length, broken.Length)));
            if (plan.Other is not null) blocks.Add(new Paragraph(words["steptimes.branch"], Setting.Strong));
            if (broken.Length > 0)
                blocks.Add(new Table([new(words["col.pet"], 9), new(words["col.step"], 44), new(words["col.timechange"], 16), new(words["col.breaks"], 60)],
                    [.. broken.Select(one => Row.Of(one.From.ToString(), $"[{one.Leg}] {plan.Leg(one.Leg).Steps.First(step => step.Id == one.Step).Title}",
                        one.Extra.Seconds < 0 ? words.Say("steptimes.less", Duration.FromSeconds(-one.Extra.Seconds)) : words.Say("steptimes.more", one.Extra), one.Breaks))]));
        }
        return new(words["starts.title"], blocks.ToImmutable());
    }

    public static Chapter Contingencies(BriefedPlan plan)
    {
        Wording words = plan.Words;
        ImmutableArray<ContingencyProof> proofs = plan.Plan.Verdict.Contingencies;
        return new(words["contingencies.title"],
        [
            new Paragraph(words[proofs.IsEmpty ? "contingencies.none" : "contingencies.about"]),
            .. proofs.IsEmpty ? Array.Empty<Block>() :
            [
                new Table([new(words["col.pet"], 9), new(words["col.who"], 8), new(words["col.happened"], 34), new(words["col.dothen"], 40), new(words["col.timechange"], 13), new(words["col.goon"], 34), new(words["col.ends"], 10), new(words["col.leastmargin"], 30)],
                    [.. proofs.OrderBy(proof => proof.Branch).ThenBy(proof => proof.Trouble.From).Select(proof => ContingencyRow(plan, proof))]),
            ],
        ])
        { Wide = true };
    }

    private static Row ContingencyRow(BriefedPlan plan, ContingencyProof proof)
    {
        Wording words = plan.Words;
        string left = string.Join(", ", proof.LeftOut);
        string way = proof.Trouble.GoesOn == GoingOn.EndsInOrder ? words.Say("goon.end", left) : left.Length == 0 ? words["goon.on"] : words.Say("goon.without", left);
        return Row.Of(
            new Cell([proof.Trouble.From.ToString(), proof.Branch == Branch.Likely ? "" : words["branch.other"]]), proof.Who.Value,
            new Cell([Phrase.Strong(proof.Trouble.Title), $"[{proof.Trouble.Leg}, {proof.Trouble.Step}]"]),
            new Cell([proof.Do, proof.Tools.IsEmpty ? "" : words.Say("contingencies.with", string.Join(", ", proof.Tools.Select(plan.Gear))), proof.Absent.IsEmpty ? "" : Phrase.Strong(words.Say("contingencies.absent", string.Join(", ", proof.Absent.Select(plan.Gear))))]),
            words.Say("steptimes.more", proof.Trouble.Extra),
            proof.Proven ? way : new Cell([Phrase.Strong(words["goon.unproven"]), .. proof.Broken.Select(sentence => new Phrase(sentence))]),
            proof.End?.ToString() ?? "–", proof.Margin is { } margin ? $"{margin} ({proof.MarginOf})" : "–");
    }

    public static Chapter Suits(BriefedPlan plan)
    {
        Wording words = plan.Words;
        List<Block> blocks = [new Table([new(words["col.who"], 12), new(words["col.cutoff"], 16), new(words["col.binds"], 50), new(words["col.source"], 50)],
            [.. CutOffs(plan), .. OtherBranch.Apart(plan, branch => [.. CutOffs(branch)])])];
        if (SheetOf(plan) is not { } sheet) blocks.Add(new Paragraph(words["suits.none"], Setting.Strong));
        else
        {
            blocks.AddRange(SuitText.Margins(plan.Scenario, plan.Timeline, plan.Trace).Select(line => new Paragraph(line, Setting.Item)));
            if (plan.Other is { } other && SuitText.Margins(other.Scenario, other.Timeline, other.Trace).ToArray() is var otherwise && !otherwise.SequenceEqual(SuitText.Margins(plan.Scenario, plan.Timeline, plan.Trace)))
                blocks.AddRange(otherwise.Select(line => new Paragraph(words.Say("other.line", line), Setting.Item)));
            blocks.AddRange(sheet.NotReckoned.Select(line => new Paragraph(words.Say("suits.notreckoned", line), Setting.Item)));
            blocks.AddRange(Curves(plan, sheet, plan.Other is null ? null : words["suits.likely"]));
            if (plan.Other is { } branch && SheetOf(branch) is { } told) blocks.AddRange(Curves(branch, told, OtherBranch.Title(branch)));
        }
        return new(words["suits.title"], [.. blocks]) { Wide = true };
    }

    private static SuitSheet? SheetOf(BriefedPlan plan) => SuitSheet.Of(plan.Scenario, plan.Plan.Name, plan.Timeline, plan.Trace);

    /// <summary>The curves of each suit, each with the branch that they are of where there are two.</summary>
    private static IEnumerable<Block> Curves(BriefedPlan plan, SuitSheet sheet, string? branch)
    {
        foreach (SuitWalk walk in sheet.People)
        {
            if (branch is not null) yield return new Heading($"{walk.Profile.Person} · {branch}");
            yield return new Figure(SuitText.Picture(plan.Scenario, sheet with { People = [walk], NotReckoned = [] }, plan.Words), plan.Words.Say("suits.words", walk.Profile.Person));
        }
    }

    private static IEnumerable<Row> CutOffs(BriefedPlan plan) => plan.Trace.CutOffs.Select(cut => Row.Of(cut.Person.Value, Phrase.Strong(cut.At.ToString()), cut.Binds, cut.Source));

    public static Chapter Station(BriefedPlan plan)
    {
        Wording words = plan.Words;
        Feature[] told = [.. plan.Scenario.Station.Features.Where(feature => feature.Ready is not null || feature.Back is not null || LastState(plan, feature) != feature.Start || (plan.Other is { } other && LastState(other, feature) != feature.Start))];
        Row[] rows = [.. told.Select(feature => FeatureRow(plan, feature))];
        rows = [.. rows, .. OtherBranch.Apart(plan, branch => [.. told.Select(feature => FeatureRow(branch, feature))])];
        return new(words["station.title"],
        [
            new Paragraph(words["station.about"]),
            new Table([new(words["col.feature"], 24), new(words["col.ready"], 18), new(words["col.start"], 16), new(words["col.back"], 18), new(words["col.end"], 16), new(words["col.changes"], 50)], [.. rows]),
        ])
        { OwnPage = false };
    }

    private static string LastState(BriefedPlan plan, Feature feature) => plan.History.Find($"feature {feature.Id} state") is { } variable ? plan.History.LastState(variable) : feature.Start;

    private static Row FeatureRow(BriefedPlan plan, Feature feature) => Row.Of(
        feature.Id.Value, feature.Ready is { } ready ? Phrase.Strong(ready) : "–", feature.Start, feature.Back ?? "–", Phrase.Strong(LastState(plan, feature)), new Cell([.. Changes(plan, feature)]));

    private static IEnumerable<Phrase> Changes(BriefedPlan plan, Feature feature)
    {
        if (plan.History.Find($"feature {feature.Id} state") is not { } variable) yield break;
        foreach (Change change in plan.History.Changes(variable))
            yield return $"{change.At} {plan.Trace.Variables[variable].States[change.Value]}" + (plan.FindOrNone(change.By) switch
            {
                SendCommand command => $" ({command.Console}: {command.Command})",
                DoStep step => $" ({step.Person} [{step.Leg}])",
                _ => "",
            });
    }
}
