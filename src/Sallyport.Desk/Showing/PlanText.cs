using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>A plan in plain text, for the screen and for <c>plan.txt</c>: everything from the timeline and the trace.</summary>
public static class PlanText
{
    /// <summary>What a screen shows: who does what when, and all that must be known before going on.</summary>
    public static string Screen(Scenario scenario, ProvenPlan plan, DateOnly? printed) => Make(scenario, plan, printed, runningSheet: false);

    /// <summary>The whole plan: head, running sheet, sheets, ground, what was left out, margins, findings and what was not checked.</summary>
    public static string Whole(Scenario scenario, ProvenPlan plan, DateOnly? printed) => Make(scenario, plan, printed, runningSheet: true);

    private static string Make(Scenario scenario, ProvenPlan plan, DateOnly? printed, bool runningSheet)
    {
        StringBuilder text = new();
        Head(text, scenario, plan, printed);
        if (runningSheet) RunningSheet.Write(text, scenario, plan);
        foreach (Person person in scenario.Outside) Sheet(text, scenario, plan.Likely, person);
        Arms(text, plan.Likely);
        Ground(text, plan.Likely);
        Decision(text, scenario, plan);
        LeftOut(text, scenario, plan);
        if (runningSheet) SunText.Write(text, scenario, plan);
        GearAccounts.Write(text, scenario, plan);
        ContingencyText.Write(text, plan.Verdict.Contingencies);
        LadderText.StepTimes(text, plan.Verdict);
        if (runningSheet) LadderText.Write(text, plan.Verdict);
        Margins(text, scenario, plan);
        Findings(text, plan.Verdict);
        NotChecked(text, plan.Verdict);
        return text.ToString().ReplaceLineEndings("\n");
    }

    /// <summary>The title, the caution, and in one line whether it is clean.</summary>
    private static void Head(StringBuilder text, Scenario scenario, ProvenPlan plan, DateOnly? printed)
    {
        Sortie sortie = scenario.Sortie;
        text.AppendLine($"{sortie.Title} · outline {plan.Name} · plan {plan.Verdict.PlanId}" + (printed is { } date ? $" · printed {date:yyyy-MM-dd}" : ""));
        text.AppendLine(Caution.Text);
        text.AppendLine(string.Create(CultureInfo.InvariantCulture, $"PET 0:00 is {sortie.PetZero:yyyy-MM-dd HH:mm} UTC: {sortie.PetZeroIs}."));
        text.AppendLine();
        text.AppendLine(Standing(plan.Verdict));
        text.AppendLine(Ends(scenario, plan));
    }

    /// <summary>Whether the plan is clean, with counts; what was not checked is said in the same breath.</summary>
    public static string Standing(Verdict verdict)
    {
        int broken = verdict.Findings.Count(finding => finding.Severity == Severity.Broken), near = verdict.Findings.Count(finding => finding.Severity == Severity.Near);
        string standing = verdict.Clean ? $"Clean under the {verdict.Checked.Length} rules checked" : $"NOT CLEAN: {broken} broken under the {verdict.Checked.Length} rules checked";
        return $"{standing}, {near} near. Not checked: {verdict.NotChecked.Length} things, listed at the end.";
    }

    internal static string Ends(Scenario scenario, ProvenPlan plan)
    {
        Pet end = plan.Played[0].Trace.To;
        string margin = scenario.LimitOf("pet.limit") is { Value.Dimension: Dimension.Time } limit
            ? $"; the limit is {Pet.FromSeconds((int)limit.Value.Value)}, margin {Duration.FromSeconds((int)limit.Value.Value - end.Seconds)}" : "";
        string jobs = "";
        if (plan.Outline is not null)
        {
            HashSet<JobId> done = Done(plan);
            string[] missing = [.. scenario.Jobs.Where(job => job.Worth == Worth.Must && !done.Contains(job.Id)).Select(job => job.Id.Value)];
            if (missing.Length > 0) margin += $". A must-job is not in it: {string.Join(", ", missing)}";
            jobs = $" {scenario.Jobs.Count(job => done.Contains(job.Id))} of {scenario.Jobs.Length} jobs, value {ValueOf(scenario, plan)} of {scenario.Jobs.Sum(job => job.Value)}.";
        }
        return $"Ends at PET {end}{margin}.{jobs}";
    }

    /// <summary>What the jobs in a plan are worth.</summary>
    public static int ValueOf(Scenario scenario, ProvenPlan plan)
    {
        HashSet<JobId> done = Done(plan);
        return scenario.Jobs.Where(job => done.Contains(job.Id)).Sum(job => job.Value);
    }

    /// <summary>How many jobs a plan does, what it is worth and when it ends, in a few words.</summary>
    internal static string InShort(Scenario scenario, ProvenPlan plan) =>
        string.Create(CultureInfo.InvariantCulture, $"{Done(plan).Count} of {scenario.Jobs.Length} jobs, value {ValueOf(scenario, plan)}, ends at PET {plan.End}");

    /// <summary>What consoles shut down and when it is off, from the end of the command that turns it off to the end of the one that turns it on.</summary>
    internal static IEnumerable<(Shutdown Shutdown, PetInterval Off)> Off(Scenario scenario, History history) => scenario.Consoles.SelectMany(console => console.Shutdowns)
        .SelectMany(shutdown => history.Find($"shutdown {shutdown.Id} known") is { } variable ? history.While(variable, state => state == "off").Select(off => (shutdown, off)) : []);

    internal static HashSet<JobId> Done(ProvenPlan plan) => [.. plan.Likely.Activities.OfType<DoStep>().Select(step => JobOf(step.Leg))];

    private static JobId JobOf(LegId leg) => new(leg.Value[..leg.Value.IndexOf('/')]);

    private static void Sheet(StringBuilder text, Scenario scenario, Timeline timeline, Person person)
    {
        text.AppendLine();
        text.AppendLine($"{person.Id}, {person.Name}");
        foreach (Activity activity in timeline.Activities.Where(activity => activity.People.Contains(person.Id)))
            text.AppendLine($"  {activity.Start,8}  {Short(activity.Length),7}  {ActivityText.Of(scenario, activity, person.Id)}");
    }

    private static string Short(Duration length) =>
        string.Create(CultureInfo.InvariantCulture, $"{length.Seconds / 60}:{length.Seconds % 60:00}");

    private static void Arms(StringBuilder text, Timeline timeline)
    {
        IEnumerable<ArmMove> empty = timeline.Activities.OfType<ArmMove>().Where(move => move.Rider is null);
        if (!empty.Any()) return;
        text.AppendLine();
        text.AppendLine("Arm, empty moves (moves with a rider stand in the rider's sheet)");
        foreach (ArmMove move in empty) text.AppendLine($"  {move.Start,8}  {Short(move.Length),7}  {move.Arm}: {move.From} to {move.To}");
    }

    private static void Ground(StringBuilder text, Timeline timeline)
    {
        ImmutableArray<SendCommand> commands = [.. timeline.Activities.OfType<SendCommand>()];
        if (commands.IsEmpty) return;
        text.AppendLine();
        text.AppendLine("Ground commands (sent, seen and GO given by the end)");
        foreach (SendCommand command in commands) text.AppendLine($"  {command.Start,8}  {Short(command.Length),7}  {command.Console}: {command.Command}, for {command.For}");
    }

    private static void Decision(StringBuilder text, Scenario scenario, ProvenPlan plan)
    {
        if (plan.Outline?.Decision is not { } decision) return;
        string Tail(IEnumerable<PersonOutline> lists) => string.Join("; ", lists.Select(list =>
            $"{list.Person} {string.Join(", ", list.Entries.OfType<LegEntry>().Select(entry => scenario.Legs.First(leg => leg.Id == entry.Leg).Title.ToLowerInvariant()).DefaultIfEmpty("goes in"))}"));
        text.AppendLine();
        text.AppendLine($"Decision when {decision.After} ends");
        text.AppendLine($"  before PET {decision.IfBefore}: {Tail(decision.Then)}");
        text.AppendLine($"  otherwise: {Tail(decision.Else)}");
        if (plan.Played.Length > 1)
            text.AppendLine($"  likely at PET {plan.Likely.Activities.OfType<DoStep>().Where(step => step.Leg == decision.After).Max(step => step.End)}; the other branch, taken at the threshold, ends at PET {plan.Played[1].Trace.To}");
    }

    private static void LeftOut(StringBuilder text, Scenario scenario, ProvenPlan plan)
    {
        if (plan.Outline is null) return;
        HashSet<JobId> done = Done(plan);
        Job[] left = [.. scenario.Jobs.Where(job => !done.Contains(job.Id))];
        if (left.Length == 0) return;
        text.AppendLine();
        text.AppendLine("Left out");
        foreach (Job job in left)
            text.AppendLine($"  {job.Title} ({job.Id}{(job.Worth == Worth.Must ? ", a must-job" : "")}): {plan.Outline.LeftOut.FirstOrDefault(one => one.Job == job.Id)?.Why ?? "no reason given in the outline"}");
    }

    private static void Margins(StringBuilder text, Scenario scenario, ProvenPlan plan)
    {
        text.AppendLine();
        text.AppendLine("Margins, each where it is least (likely branch)");
        foreach (TightMoment tight in plan.Tight)
        {
            string what = tight.Kind switch
            {
                ReturnKind.One => $"{tight.Person} safe inside",
                ReturnKind.Both => "everybody in, hatch closed",
                ReturnKind.Help => $"{tight.Person} brought in by somebody else",
                ReturnKind.HelpArmless => $"{tight.Person} brought in by somebody else with the arm stopped",
                _ => $"{tight.Person} safe inside, arm stopped",
            };
            Activity? during = plan.Likely.Activities.FirstOrDefault(activity => activity.Id == tight.Activity);
            text.AppendLine($"  {what}: {(tight.IsNoWay ? "no way at all" : tight.Takes)} at PET {tight.At}"
                + (during is null ? "" : $" ({ActivityText.Of(scenario, during, tight.Person)})") + $"; held against {tight.Held}{(tight.IsNoWay ? "" : $"; margin {tight.Left}")}");
        }
        foreach (string line in SuitText.Margins(scenario, plan.Likely, plan.Played[0].Trace)) text.AppendLine($"  {line}");
    }

    /// <summary>The findings, each a sentence with its figures and a mend.</summary>
    public static void Findings(StringBuilder text, Verdict verdict)
    {
        text.AppendLine();
        if (verdict.Findings.IsEmpty)
        {
            text.AppendLine("No findings.");
            return;
        }
        text.AppendLine("Findings");
        foreach (Finding finding in verdict.Findings)
        {
            text.AppendLine($"  {finding.Severity.ToString().ToUpperInvariant()} {finding.Rule}{(finding.Branch == Branch.Likely ? "" : " (other branch)")}");
            text.AppendLine($"    {finding.Sentence}");
            if (finding.Measured.Length > 0) text.AppendLine($"    measured {finding.Measured}{(finding.Limit.Length > 0 ? $", limit {finding.Limit}" : "")}{(finding.Margin.Length > 0 ? $", margin {finding.Margin}" : "")}");
            if (finding.Source.Length > 0) text.AppendLine($"    limit from: {finding.Source}");
            if (finding.Mend.Length > 0) text.AppendLine($"    Mend: {finding.Mend}");
        }
    }

    private static void NotChecked(StringBuilder text, Verdict verdict)
    {
        text.AppendLine();
        text.AppendLine("Not checked by this version, and so not proven");
        foreach (string one in verdict.NotChecked) text.AppendLine($"  {one}");
    }
}
