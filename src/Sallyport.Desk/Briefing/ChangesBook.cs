using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What changed since another plan of the same scenario, and for whom.</summary>
internal static partial class ChangesBook
{
    public static Booklet Of(BriefedPlan now, BriefedPlan before, DateOnly? printed)
    {
        Wording words = now.Words;
        ImmutableArray<Block>.Builder blocks = ImmutableArray.CreateBuilder<Block>();
        blocks.Add(new Paragraph(words.Say("changes.about", before.Plan.Name, before.Plan.Verdict.PlanId, now.Plan.Name, now.Plan.Verdict.PlanId), Setting.Strong));
        if (before.Plan.Verdict.PlanId == now.Plan.Verdict.PlanId) blocks.Add(new Paragraph(words["changes.same"], Setting.Strong));
        blocks.AddRange(Whole(now, before));
        blocks.AddRange(Findings(now, before));
        List<Chapter> chapters = [new(words["changes.title"], blocks.ToImmutable())];
        // A chapter each, so that the foot of a page says whose it is.
        foreach ((string title, Func<BriefedPlan, IEnumerable<Activity>> does, PersonId? person) in Sequences(now))
            chapters.Add(Sequence(words, title, [.. Lines(now, before, [.. does(now)], [.. does(before)], person)]));
        // Of the other branch only what is not told of the likely one too.
        if ((now.Other, before.Other) is ({ } other, { } was))
            foreach ((string title, Func<BriefedPlan, IEnumerable<Activity>> does, PersonId? person) in Sequences(now))
                chapters.Add(Sequence(words, words.Say("changes.other", title),
                    [.. OtherBranch.Only(Lines(now, before, [.. does(now)], [.. does(before)], person), Lines(other, was, [.. does(other)], [.. does(was)], person))]));
        return new(words.Say("changes.book", now.Scenario.Sortie.Title), BriefingBook.Running(now, printed), [.. chapters]);
    }

    /// <summary>For each person, each arm, and the ground: what it does in order on a branch.</summary>
    private static IEnumerable<(string Title, Func<BriefedPlan, IEnumerable<Activity>> Does, PersonId? Person)> Sequences(BriefedPlan plan) =>
    [
        .. plan.Scenario.Outside.Select(person => ($"{person.Id} · {person.Name}", (Func<BriefedPlan, IEnumerable<Activity>>)(branch => branch.Of(person.Id)), (PersonId?)person.Id)),
        .. plan.Scenario.Arms.Select(arm => (plan.Words.Say("changes.arm", arm.Id, arm.Operator), (Func<BriefedPlan, IEnumerable<Activity>>)(branch => branch.Timeline.Activities.OfType<ArmMove>().Where(move => move.Arm == arm.Id)), (PersonId?)null)),
        (plan.Words["col.ground"], branch => branch.Timeline.Activities.OfType<SendCommand>(), null),
    ];

    /// <summary>What changed for the plan as a whole.</summary>
    private static IEnumerable<Block> Whole(BriefedPlan now, BriefedPlan before)
    {
        Wording words = now.Words;
        List<Row> rows = [];
        void Compare(string what, string was, string isNow)
        {
            if (was != isNow) rows.Add(Row.Of(what, was, Phrase.Strong(isNow)));
        }
        Compare(words["changes.standing"], FrontChapters.Standing(before), FrontChapters.Standing(now));
        Compare(words["changes.end"], before.Trace.To.ToString(), now.Trace.To.ToString());
        Compare(words["col.value"], PlanText.ValueOf(before.Scenario, before.Plan).ToString(CultureInfo.InvariantCulture), PlanText.ValueOf(now.Scenario, now.Plan).ToString(CultureInfo.InvariantCulture));
        HashSet<JobId> done = PlanText.Done(now.Plan), did = PlanText.Done(before.Plan);
        foreach (Job job in now.Scenario.Jobs) Compare(job.Title, words[did.Contains(job.Id) ? "changes.in" : "changes.out"], words[done.Contains(job.Id) ? "changes.in" : "changes.out"]);
        Compare(words["decision.title"], Decision(before), Decision(now));
        foreach (CutOff cut in now.Trace.CutOffs)
            if (before.Trace.CutOffs.FirstOrDefault(one => one.Person == cut.Person) is { } was) Compare(words.Say("sources.cutoff", cut.Person), was.At.ToString(), cut.At.ToString());
        yield return new Heading(words["changes.whole"]);
        if (rows.Count == 0) yield return new Paragraph(words["changes.nothing"]);
        else yield return new Table([new(words["col.what"], 30), new(words["col.before"], 40), new(words["col.now"], 40)], [.. rows]);
    }

    private static string Decision(BriefedPlan plan) => plan.DecisionTaken is { } taken ? plan.Words.Say("iv.decide", taken.Decision.After, taken.Decision.IfBefore) : plan.Words["decision.none"];

    private static IEnumerable<Block> Findings(BriefedPlan now, BriefedPlan before)
    {
        Wording words = now.Words;
        List<Row> rows = [];
        List<(string Key, Finding Finding)> left = [.. before.Plan.Verdict.Findings.Select(finding => (KeyOf(finding), finding))];
        foreach (Finding finding in now.Plan.Verdict.Findings)
        {
            string key = KeyOf(finding);
            int found = left.FindIndex(one => one.Key == key);
            if (found < 0) rows.Add(FindingRow("changes.gained", finding));
            else left.RemoveAt(found);
        }
        rows.AddRange(left.Select(one => FindingRow("changes.lost", one.Finding)));
        yield return new Heading(words["findings.title"]);
        if (rows.Count == 0) yield return new Paragraph(words["changes.nothing"]);
        else yield return new Table([new(words["col.change"], 14), new(words["col.finding"], 22), new(words["col.who"], 10), new(words["col.sentence"], 70)], [.. rows]);

        Row FindingRow(string change, Finding finding) => Row.Of(
            Phrase.Strong(words[change]), new Cell([words["severity." + finding.Severity.ToString().ToLowerInvariant()], finding.Rule.Value, finding.Branch == Branch.Likely ? "" : words["branch.other"]]), string.Join(", ", finding.Who), finding.Sentence);
    }

    // A finding is the same one when it says the same, whatever its moments and figures.
    private static string KeyOf(Finding finding) => $"{finding.Rule} {finding.Severity} {finding.Branch} {string.Join(',', finding.Who)} {Figures().Replace(finding.Sentence, "#")}";

    [GeneratedRegex(@"-?\d+([:.]\d+)*( (min|s)\b( \d+ s\b)?)?")]
    private static partial Regex Figures();

    /// <summary>What one person or thing does, now and before, line by line.</summary>
    private static List<Row> Lines(BriefedPlan now, BriefedPlan before, ImmutableArray<Activity> after, ImmutableArray<Activity> was, PersonId? person)
    {
        Wording words = now.Words;
        List<Row> rows = [];
        (int Count, Activity First, Activity Last, Activity Before)? run = null;
        // What hangs on the suit is told where it becomes another difference, not again with each deed for as long as it stays the same.
        ImmutableArray<string> hanging = [];
        void EndRun()
        {
            if (run is { } same && same.First.Start != same.Before.Start)
                rows.Add(Row.Of(same.Before.Start.ToString(), Phrase.Strong(same.First.Start.ToString()),
                    same.Count == 1 ? now.Do(same.First, person) : words.Say("changes.run", same.Count, now.Do(same.First, person), now.Do(same.Last, person)), Shift(words, same.First.Start.Since(same.Before.Start))));
            run = null;
        }
        // A deed that is done once in both plans, but not in the same order, is told where it is now.
        Activity? Moved(Activity deed) => after.Count(one => KeyOf(one) == KeyOf(deed)) == 1 && was.Where(old => KeyOf(old) == KeyOf(deed)).ToArray() is [var own] ? own : null;
        foreach ((Activity? one, Activity? old) in Align(after, was))
        {
            if (one is not null && old is not null)
            {
                ImmutableArray<string> hangs = person is { } who ? OnSuit(now, before, one, old, who) : [];
                string[] details = [.. Details(now, before, one, old, person), .. hangs.SequenceEqual(hanging) ? [] : hangs.IsEmpty ? [words["changes.carriessame"]] : hangs];
                hanging = hangs;
                Duration shift = one.Start.Since(old.Start);
                if (details.Length == 0)
                {
                    if (run is { } same && same.First.Start.Since(same.Before.Start) == shift) run = same with { Count = same.Count + 1, Last = one };
                    else
                    {
                        EndRun();
                        run = (1, one, one, old);
                    }
                    continue;
                }
                EndRun();
                rows.Add(Row.Of(old.Start.ToString(), Phrase.Strong(one.Start.ToString()), now.Do(one, person), new Cell([.. shift.Seconds == 0 ? [] : new[] { new Phrase(Shift(words, shift)) }, .. details.Select(detail => new Phrase(detail))])));
                continue;
            }
            EndRun();
            if (one is not null) rows.Add(Row.Of("–", Phrase.Strong(one.Start.ToString()), now.Do(one, person), Phrase.Strong(Came(before, one, Moved(one), person))));
            else if (old is not null && Moved(old) is null) rows.Add(Row.Of(old.Start.ToString(), "–", before.Do(old, person), Phrase.Strong(Went(now, old, person))));
        }
        EndRun();
        return rows;
    }

    private static Chapter Sequence(Wording words, string title, ImmutableArray<Row> rows) => new(title,
    [
        rows.IsEmpty ? new Paragraph(words["changes.nothing"])
            : new Table([new(words["col.before"], 9), new(words["col.now"], 9), new(words["col.what"], 50), new(words["col.change"], 46)], rows),
    ])
    { OwnPage = false };

    private static string Shift(Wording words, Duration shift) => shift.Seconds >= 0 ? words.Say("changes.later", shift) : words.Say("changes.sooner", Duration.FromSeconds(-shift.Seconds));

    private static string Came(BriefedPlan before, Activity one, Activity? own, PersonId? person)
    {
        if (own is not null) return before.Words.Say("changes.moved", own.Start);
        return before.Timeline.Activities.FirstOrDefault(old => KeyOf(old) == KeyOf(one) && !old.People.Contains(person ?? default)) is { People: { IsEmpty: false } } others && one is DoStep
            ? before.Words.Say("changes.from", string.Join(", ", others.People), others.Start) : before.Words["changes.new"];
    }

    private static string Went(BriefedPlan now, Activity old, PersonId? person) =>
        now.Timeline.Activities.FirstOrDefault(one => KeyOf(one) == KeyOf(old) && !one.People.Contains(person ?? default)) is { People.IsEmpty: false } others && old is DoStep
            ? now.Words.Say("changes.to", string.Join(", ", others.People), others.Start) : now.Words["changes.gone"];

    /// <summary>What else is another for the same deed: length, words, place and tether.</summary>
    private static string[] Details(BriefedPlan now, BriefedPlan before, Activity one, Activity old, PersonId? person)
    {
        Wording words = now.Words;
        List<string> details = [];
        if (one.Length != old.Length) details.Add(words.Say("changes.length", one.Length, old.Length));
        string doing = now.Do(one, person), did = before.Do(old, person);
        if (doing != did) details.Add(words.Say("changes.was", did));
        if (person is not { } who) return [.. details];
        Pet shown = one is Translate ? one.End : one.Start, then = old is Translate ? old.End : old.Start;
        if (now.Place(who, shown) is var place && before.Place(who, then) is var where && place != where) details.Add(words.Say("changes.place", place, where));
        if (now.Tether(who, shown) is var tether && before.Tether(who, then) is var line && tether != line) details.Add(words.Say("changes.tether", tether, line));
        return [.. details];
    }

    /// <summary>What hangs on the suit as the deed begins and did not before, and the other way round.</summary>
    private static ImmutableArray<string> OnSuit(BriefedPlan now, BriefedPlan before, Activity one, Activity old, PersonId person)
    {
        string[] carried = [.. now.OnSuit(person, one.Start)], had = [.. before.OnSuit(person, old.Start)];
        string[] more = [.. carried.Except(had)], less = [.. had.Except(carried)];
        return
        [
            .. more.Length == 0 ? [] : new[] { now.Words.Say("changes.carriesnow", string.Join(", ", more)) },
            .. less.Length == 0 ? [] : new[] { now.Words.Say("changes.carriesnot", string.Join(", ", less)) },
        ];
    }

    /// <summary>What makes a deed the same one in another plan: what is done with what, not when, nor how it is said.</summary>
    private static string KeyOf(Activity activity) => activity switch
    {
        AirlockPhase phase => $"airlock {phase.Phase}",
        Translate walk => $"go {walk.Spans[^1].To}",
        SwapReel swap => $"swap {swap.At} {swap.Onto}",
        Take take => $"take {take.Gear}",
        Put put => $"put {put.Gear}",
        Give give => $"give {give.Gear}",
        Plug plug => $"plug {plug.Gear}",
        Unplug unplug => $"unplug {unplug.Gear}",
        EnterRestraint enter => $"enter {enter.Socket}",
        LeaveRestraint leave => $"leave {leave.Socket}",
        MountArm mount => $"mount {mount.Arm}",
        ArmMove move => $"move {move.Arm} {move.To}",
        DismountArm dismount => $"dismount {dismount.Arm}",
        DoStep step => $"step {step.Leg} {step.Step}",
        SendCommand command => $"command {command.Console} {command.Command}",
        Await wait => $"wait {wait.Until}",
        _ => activity.GetType().Name,
    };

    /// <summary>The two sequences side by side: the longest common one is kept in step, the rest stands alone (dynamic programming over their lengths).</summary>
    private static IEnumerable<(Activity? Now, Activity? Before)> Align(ImmutableArray<Activity> now, ImmutableArray<Activity> before)
    {
        string[] a = [.. now.Select(KeyOf)], b = [.. before.Select(KeyOf)];
        int[,] common = new int[a.Length + 1, b.Length + 1];
        for (int i = a.Length - 1; i >= 0; i--)
            for (int j = b.Length - 1; j >= 0; j--)
                common[i, j] = a[i] == b[j] ? common[i + 1, j + 1] + 1 : Math.Max(common[i + 1, j], common[i, j + 1]);
        for (int i = 0, j = 0; i < a.Length || j < b.Length;)
        {
            if (i < a.Length && j < b.Length && a[i] == b[j]) yield return (now[i++], before[j++]);
            else if (j < b.Length && (i == a.Length || common[i, j + 1] >= common[i + 1, j])) yield return (null, before[j++]);
            else yield return (now[i++], null);
        }
    }
}
