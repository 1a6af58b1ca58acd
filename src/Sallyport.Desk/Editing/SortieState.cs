using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>How far a plan was looked at.</summary>
public enum Proving
{
    /// <summary>There is nothing that could be played.</summary>
    Nothing,
    /// <summary>Played and judged as planned; what follows when a step does not go was not looked at, so that it is never called clean.</summary>
    Quick,
    /// <summary>Contingencies and step times too.</summary>
    Whole,
}

/// <summary>One file of a scenario, as it stands.</summary>
/// <param name="Name">Its name in the folder: <c>jobs.yaml</c>, or <c>outlines/first.yaml</c>.</param>
/// <param name="Text">Its text, line ends as in the file.</param>
public sealed record SortieFile(string Name, string Text)
{
    /// <summary>Whether it is an outline.</summary>
    public bool IsOutline => SortieFiles.IsOutline(Name);
}

/// <summary>An outline that can be chosen.</summary>
/// <param name="Name">Without folder and ending.</param>
/// <param name="Written">When its file was written last, UTC.</param>
/// <param name="MarkedCurrent">Whether the scenario names it as the current one.</param>
public sealed record OutlineCard(string Name, DateTime Written, bool MarkedCurrent);

/// <summary>A file that changed on disk where somebody changed it here: both texts, and nothing is written until one is chosen.</summary>
/// <param name="File">The file.</param>
/// <param name="Before">What both began from.</param>
/// <param name="Mine">What was changed here; null when the file was to be taken away.</param>
/// <param name="Theirs">What stands on the disk; null when the file is gone.</param>
/// <param name="By">Who changed it here.</param>
public sealed record DiskConflict(string File, string? Before, string? Mine, string? Theirs, string By);

/// <summary>What the last change made of the plan: how it differs from the plan before.</summary>
/// <param name="EndBefore">When the walk ended before.</param>
/// <param name="End">When it ends now.</param>
/// <param name="ValueBefore">What the jobs in it were worth.</param>
/// <param name="Value">What they are worth now.</param>
/// <param name="MarginBefore">The least that was left of any return limit, rounded down; null where none is held.</param>
/// <param name="Margin">The least that is left now.</param>
/// <param name="Gained">Findings that were not there before, gravest first.</param>
/// <param name="Lost">Findings that are gone.</param>
public sealed record StateDifference(
    Pet EndBefore, Pet End, int ValueBefore, int Value, Duration? MarginBefore, Duration? Margin, ImmutableArray<Finding> Gained, ImmutableArray<Finding> Lost)
{
    /// <summary>Whether anything differs.</summary>
    public bool Any => EndBefore != End || ValueBefore != Value || MarginBefore != Margin || Gained.Length > 0 || Lost.Length > 0;

    /// <summary>How one plan differs from another of the same people.</summary>
    public static StateDifference Of(Scenario scenarioBefore, ProvenPlan before, Scenario scenario, ProvenPlan plan)
    {
        // What a whole verdict adds to a quick one is no change of the plan, so only what both looked at is compared.
        HashSet<RuleId> both = [.. before.Verdict.Checked.Intersect(plan.Verdict.Checked)];
        ImmutableArray<Finding> old = [.. before.Verdict.Findings.Where(one => both.Contains(one.Rule))], now = [.. plan.Verdict.Findings.Where(one => both.Contains(one.Rule))];
        // A finding that only moved in time, and whose figures moved with it, is told as gone and come: its sentence is another one.
        HashSet<(RuleId, Severity, string)> had = [.. old.Select(Key)], has = [.. now.Select(Key)];
        return new(
            before.End, plan.End, PlanText.ValueOf(scenarioBefore, before), PlanText.ValueOf(scenario, plan), LeastMargin(before), LeastMargin(plan),
            [.. now.Where(one => !had.Contains(Key(one)))], [.. old.Where(one => !has.Contains(Key(one)))]);
    }

    /// <summary>The least that is left of any return limit, in whole seconds, rounded down: never towards danger. Null where none is held.</summary>
    public static Duration? LeastMargin(ProvenPlan plan) => plan.Tight.IsEmpty ? null : plan.Tight.Min(one => one.Left);

    private static (RuleId, Severity, string) Key(Finding finding) => (finding.Rule, finding.Severity, finding.Sentence);
}

/// <summary>Everything that is known of an open scenario at one moment. It never changes: a change makes another one with a higher revision.</summary>
public sealed record SortieState
{
    /// <summary>The scenario's folder name.</summary>
    public required string Name { get; init; }

    /// <summary>Counts up with every state; a later proof of the same texts counts too.</summary>
    public required long Revision { get; init; }

    /// <summary>The revision at which any text or the choice of outline changed last: edits made since are edits of these texts.</summary>
    public required long TextRevision { get; init; }

    /// <summary>The files, the scenario's first, each group in ordinal order.</summary>
    public required ImmutableArray<SortieFile> Files { get; init; }

    /// <summary>The desk over the scenario, from which everything is drawn; null when it could not be read.</summary>
    public SortieDesk? Desk { get; init; }

    /// <summary>The scenario; null when it could not be read.</summary>
    public Scenario? Scenario => Desk?.Scenario;

    /// <summary>What keeps the scenario or the chosen outline from being used; empty when nothing does.</summary>
    public ImmutableArray<Problem> Problems { get; init; } = [];

    /// <summary>What reading had to say.</summary>
    public ImmutableArray<string> Notes { get; init; } = [];

    /// <summary>The outlines, the newest first.</summary>
    public ImmutableArray<OutlineCard> Outlines { get; init; } = [];

    /// <summary>The chosen outline; null when there is none.</summary>
    public string? Chosen { get; init; }

    /// <summary>The chosen outline, played and judged; null when it could not be.</summary>
    public ProvenPlan? Plan { get; init; }

    /// <summary>How far the plan was looked at.</summary>
    public Proving Proving { get; init; }

    /// <summary>What of the verdict is not looked at yet, in words; empty once it is whole.</summary>
    public ImmutableArray<string> NotYet { get; init; } = [];

    /// <summary>Whether the plan is clean: true only after everything was looked at, false as soon as anything is broken, null while nobody knows.</summary>
    public bool? IsClean => Plan is null ? null : !Plan.Verdict.Clean ? false : Proving == Proving.Whole ? true : null;

    /// <summary>How the plan differs from the one before the last change; null when there was none before.</summary>
    public StateDifference? Difference { get; init; }

    /// <summary>What else the last change brought with it, such as bag moves, a line each.</summary>
    public ImmutableArray<string> Changes { get; init; } = [];

    /// <summary>What the last change was, in words, and by whom; empty for none.</summary>
    public string LastChange { get; init; } = "";

    /// <summary>Files that changed on disk under a change made here.</summary>
    public ImmutableArray<DiskConflict> DiskConflicts { get; init; } = [];

    /// <summary>Whether its folder cannot be found on the disk any more.</summary>
    public bool IsGone => Files.IsEmpty && Problems.Any(problem => problem.Code == "folder.missing");

    /// <summary>The text of a file; null when there is none of this name.</summary>
    public string? TextOf(string file) => Files.FirstOrDefault(one => one.Name == file)?.Text;

    /// <summary>The file of the chosen outline; null when there is none.</summary>
    public string? ChosenFile => Chosen is { } name ? SortieFiles.OutlinePath(name) : null;
}
