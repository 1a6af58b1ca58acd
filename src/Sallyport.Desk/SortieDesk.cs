using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Planning;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>A plan expanded, played and judged: everything that is shown comes from here.</summary>
/// <param name="Name">The outline's name.</param>
/// <param name="Outline">The outline; null when a timeline was judged as told.</param>
/// <param name="Played">Each branch with its trace, the likely one first.</param>
/// <param name="Verdict">What judging gave.</param>
/// <param name="Tight">Where the likely branch comes nearest to its return limits.</param>
public sealed record ProvenPlan(
    string Name, Outline? Outline, ImmutableArray<(Timeline Timeline, Trace Trace)> Played, Verdict Verdict, ImmutableArray<TightMoment> Tight)
{
    /// <summary>The likely branch.</summary>
    public Timeline Likely => Played[0].Timeline;

    /// <summary>When the last activity ends, over all branches.</summary>
    public Pet End => Played.Max(one => one.Trace.To);
}

/// <summary>What a check came to.</summary>
/// <param name="Plan">The plan judged; null with problems.</param>
/// <param name="Changes">What completion changed, a line each.</param>
/// <param name="Notes">Worth knowing: which outline was taken, and why.</param>
/// <param name="Problems">What kept it from being judged.</param>
public sealed record CheckOutcome(ProvenPlan? Plan, ImmutableArray<string> Changes, ImmutableArray<string> Notes, ImmutableArray<Problem> Problems);

/// <summary>What a search came to.</summary>
/// <param name="Plan">The best plan that played clean; null when none was found.</param>
/// <param name="Search">How the search went.</param>
/// <param name="Problems">What kept it from starting.</param>
public sealed record PlanOutcome(ProvenPlan? Plan, SearchResult? Search, ImmutableArray<Problem> Problems);

/// <summary>The user's desk over one scenario: one method for each thing a user does.</summary>
public sealed class SortieDesk
{
    private readonly Expander expander;
    private readonly Completion completion;
    private readonly ScenarioRead read;

    private SortieDesk(string folder, ScenarioRead read, ImmutableArray<string> notes)
    {
        Folder = folder;
        this.read = read;
        Notes = notes;
        expander = new(read.Scenario);
        completion = new(read.Scenario, expander);
    }

    /// <summary>The scenario's folder.</summary>
    public string Folder { get; }

    /// <summary>The scenario.</summary>
    public Scenario Scenario => read.Scenario;

    /// <summary>What reading it had to say.</summary>
    public ImmutableArray<string> Notes { get; }

    /// <summary>Its orbit; null where the sky was given by hand.</summary>
    internal ScenarioOrbit? Orbit => read.Orbit;

    private string OutlinesFolder => Path.Combine(Folder, "outlines");

    /// <summary>Reads a scenario folder.</summary>
    public static ReadResult<SortieDesk> Open(string folder) => Open(folder, held: null);

    /// <summary>The same, with its files as an editor holds them.</summary>
    internal static ReadResult<SortieDesk> Open(string folder, IReadOnlyDictionary<string, byte[]>? held)
    {
        ReadResult<ScenarioRead> read = ScenarioReader.ReadWhole(folder, held);
        if (read.Value is not { } whole) return new(null, read.Problems, read.Notes);
        ImmutableArray<string> notes = [.. read.Notes, .. DoubtfulLimits(whole.Scenario)];
        return new(new(folder, whole, notes), [], notes);
    }

    /// <summary>Limits of rules that nobody knows, but whose name is near a known one: misspelt, the rule meant would not be checked.</summary>
    private static IEnumerable<string> DoubtfulLimits(Scenario scenario)
    {
        string[] known = [.. RuleBook.All.Select(rule => rule.Card.Id.Value)];
        foreach (string rule in scenario.Limits.Select(limit => limit.Rule.Value))
            if (!known.Contains(rule) && Nearest.Of(rule, known) is { } nearest && !NotChecked.Always.Any(told => told.Contains(rule, StringComparison.Ordinal)))
                yield return $"Misspelt? The limit of '{rule}' is used by no rule; the nearest rule is {nearest}.";
    }

    /// <summary>Searches a plan that plays clean.</summary>
    /// <param name="name">The name it will have.</param>
    /// <param name="effort">Epochs of search.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="from">An outline to go on from, its pins kept; null to begin afresh.</param>
    /// <param name="progress">Told how far it has got.</param>
    /// <param name="cancel">Ends the search after the epoch under way and keeps the best.</param>
    public PlanOutcome Plan(string name, int effort, int seed, string? from, Action<SearchProgress> progress, CancellationToken cancel) => Plan(name, effort, seed, from, progress, cancel, _ => true);

    /// <summary>The same, of which only outlines are taken that <paramref name="wanted"/> says yes to.</summary>
    internal PlanOutcome Plan(string name, int effort, int seed, string? from, Action<SearchProgress> progress, CancellationToken cancel, Func<Outline, bool> wanted)
    {
        Outline? start = null;
        if (from is not null)
        {
            ReadResult<Outline> read = OutlineFile.Read(from, Scenario);
            if (read.Value is null) return new(null, null, read.Problems);
            start = read.Value;
        }
        SearchResult found = new Searcher(Scenario, expander).Run(new(effort, seed, start, Environment.ProcessorCount), outline => wanted(outline) && IsClean(outline), progress, cancel);
        return new(found.Outline is { } best ? Prove(name, best).Plan : null, found, []);
    }

    /// <summary>Answers a question by searching with what is wished for and without it.</summary>
    /// <param name="question">The question.</param>
    /// <param name="effort">Epochs of each search.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="cancel">Ends the search under way; the answer tells what was found until then.</param>
    public Answer Ask(Question question, int effort, int seed, CancellationToken cancel) => new Asking(this, effort, seed, cancel).Of(question);

    /// <summary>How late each leg of a plan can begin, one at a time.</summary>
    public ImmutableArray<LatestStart> LatestStarts(ProvenPlan plan, CancellationToken cancel) => new LatestStarts(this).Of(plan, cancel);

    /// <summary>Further plans, each clean and each different from the one given and from each other; fewer than asked when no more are found.</summary>
    public ImmutableArray<ProvenPlan> Alternatives(ProvenPlan plan, int count, int effort, int seed, Action<SearchProgress> progress, CancellationToken cancel) =>
        new Alternatives(this).Of(plan, count, effort, seed, progress, cancel);

    /// <summary>The desk over another form of the same scenario.</summary>
    internal SortieDesk Over(Scenario scenario) => new(Folder, read with { Scenario = scenario }, Notes);

    /// <summary>The likely timeline of an outline that plays clean; null when it does not.</summary>
    internal Timeline? ProveBriefly(Outline outline) => IsClean(outline) ? expander.Expand(outline, Branch.Likely, PlanIdOf(outline)).Timeline : null;

    /// <summary>What the proof says against the best of the plans that a search offered last and that it refused, a line each; nothing when it refused none.</summary>
    public ImmutableArray<string> WhyRefused(ImmutableArray<Outline> refused)
    {
        // Later ones are better; each is judged whole, in half a second or so.
        const int looked = 6;
        return RefusedText.Of(Scenario, refused.Reverse().Take(looked).Select(ProveShort).OfType<ProvenPlan>());
    }

    /// <summary>An outline expanded, played and judged, as search has it done; null when it cannot be expanded.</summary>
    internal ProvenPlan? ProveShort(Outline outline) => Prove("", outline, shown: false).Plan;

    /// <summary>An outline expanded, played and judged as people see it; null when it cannot be expanded.</summary>
    internal ProvenPlan? ProvePlan(string name, Outline outline) => Prove(name, outline).Plan;

    /// <summary>An outline played and judged as planned: nothing is followed that does not go as planned, so that an edit is answered at once.</summary>
    internal (ProvenPlan? Plan, OutlineProblem? Problem) ProveQuickly(string name, Outline outline)
    {
        string planId = PlanIdOf(outline);
        // Branches share nothing but what is read: they are expanded and played side by side.
        ImmutableArray<(Expansion Expansion, Trace? Trace)> branches = [.. BranchesOf(outline).AsParallel().AsOrdered().Select(branch =>
        {
            Expansion expansion = expander.Expand(outline, branch, planId);
            return (expansion, expansion.Timeline is { } timeline ? Player.Play(Scenario, timeline) : null);
        })];
        if (branches.FirstOrDefault(branch => branch.Trace is null).Expansion is { } stuck) return (null, stuck.Problem);
        return (Judged(name, outline, [.. branches.Select(branch => (branch.Expansion.Timeline!, branch.Trace!))], null, shown: false), null);
    }

    /// <summary>The whole verdict on a plan that was looked at quickly.</summary>
    /// <exception cref="OperationCanceledException">Cancelled; it looks after each expansion.</exception>
    internal ProvenPlan ProveWhole(ProvenPlan quick, CancellationToken cancel)
    {
        if (quick.Outline is not { } outline) return quick;
        GoOn goOn = new Detours(expander, outline).Expand;
        return quick with
        {
            Verdict = Judge.Of(Scenario, quick.Played, (planned, trouble) =>
            {
                cancel.ThrowIfCancellationRequested();
                return goOn(planned, trouble);
            }, stepTimes: true),
        };
    }

    /// <summary>An outline with what its legs need found anew where they lack it, or in any case.</summary>
    internal Completed Complete(Outline outline, bool anew) => completion.Complete(outline, anew);

    /// <summary>The likely timeline of an outline; null when it cannot be expanded.</summary>
    internal Timeline? ExpandLikely(Outline outline) => expander.Expand(outline, Branch.Likely, "").Timeline;

    /// <summary>Judges an outline as a person left it.</summary>
    /// <param name="outline">Its file; null for the one marked current, else the newest.</param>
    /// <param name="asIs">Whether nothing is re-derived first.</param>
    public CheckOutcome Check(string? outline, bool asIs)
    {
        (var (path, _, complete), ImmutableArray<string> notes, ImmutableArray<Problem> problems) = Take(outline, asIs);
        if (complete is null) return new(null, [], notes, problems);
        (ProvenPlan? plan, OutlineProblem? problem) = Prove(Path.GetFileNameWithoutExtension(path), complete.Outline);
        return new(plan, complete.Changes, notes, problem is null ? [] : [Unexpanded(path, problem)]);
    }

    /// <summary>Reckons what suits use over an outline as a person left it, completed as <see cref="Check"/> does.</summary>
    /// <param name="outline">Its file; null for the one marked current, else the newest.</param>
    public (SuitSheet? Sheet, ImmutableArray<string> Notes, ImmutableArray<Problem> Problems) Suits(string? outline)
    {
        if (Scenario.Suits.IsEmpty) return (null, [], [FileProblems.Whole(Folder, "suits.none", "no section 'suits'", "what suits use, and from when on", "add the sections 'body' and 'suits'; docs/scenario-format.md names their keys.")]);
        (var (path, _, complete), ImmutableArray<string> notes, ImmutableArray<Problem> problems) = Take(outline);
        if (complete is null) return (null, notes, problems);
        Expansion expansion = expander.Expand(complete.Outline, Branch.Likely, PlanIdOf(complete.Outline));
        if (expansion.Timeline is not { } timeline) return (null, notes, [Unexpanded(path, expansion.Problem!)]);
        if (!complete.Changes.IsEmpty) notes = notes.Add("Legs were moved; what follows from that was re-derived first, as check does.");
        return SuitSheet.Of(Scenario, Path.GetFileNameWithoutExtension(path), timeline, Player.Play(Scenario, timeline)) is { } sheet
            ? (sheet, notes, [])
            : (null, notes, [FileProblems.Whole(path, "suits.none", "nobody outside whose suit is described", "an outline in which somebody of 'suits' goes outside", "name the people under 'suits'.")]);
    }

    /// <summary>What the readings of a walk say of the people in a sheet.</summary>
    /// <param name="sheet">What suits use over the outline that was walked.</param>
    /// <param name="path">The file of readings.</param>
    public (ImmutableArray<Refit> Refits, ImmutableArray<Problem> Problems) Refit(SuitSheet sheet, string path)
    {
        ReadResult<SuitReadings> read = ReadingsFile.Read(path, Scenario);
        if (read.Value is not { } readings) return ([], read.Problems);
        ImmutableArray<Refit>.Builder refits = ImmutableArray.CreateBuilder<Refit>();
        ImmutableArray<Problem>.Builder problems = ImmutableArray.CreateBuilder<Problem>();
        foreach (SuitReading one in readings.People)
            try
            {
                refits.Add(Desk.Refit.Of(sheet.People.FirstOrDefault(walk => walk.Profile.Person == one.Person) ?? throw new ArgumentException($"{one.Person}: does not go out in this outline"), one.Oxygen));
            }
            catch (ArgumentException unfit)
            {
                problems.Add(ReadingProblems.Unfit(path, unfit.Message));
            }
        return problems.Count > 0 ? ([], problems.ToImmutable()) : (refits.ToImmutable(), []);
    }

    /// <summary>Writes the picture of what suits use, as SVG and PNG, and the sheet as text.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="outFolder">Where derived files go, a folder a scenario and name.</param>
    public (ImmutableArray<string> Written, Problem? Problem) WriteSuits(SuitSheet sheet, string outFolder)
    {
        Picture picture = SuitText.Picture(Scenario, sheet, Wording.English);
        string folder = OutputOf(sheet.Outline, outFolder);
        (string Name, byte[] Content)[] files =
        [
            ("suit.svg", Encoding.UTF8.GetBytes(SvgWriter.Write(picture))), ("suit.png", PngWriter.Write(picture)), ("suit.txt", Encoding.UTF8.GetBytes(SuitText.Screen(Scenario, sheet))),
        ];
        return PlanFiles.WriteAll(folder, files) is { } problem ? ([], problem) : ([.. files.Select(file => Path.Combine(folder, file.Name))], null);
    }

    internal static Problem Unexpanded(string path, OutlineProblem problem) =>
        FileProblems.Whole(path, problem.Code, problem.Found, "an outline in which everything can be done", problem.Fix + ".");

    /// <summary>Completes an outline whose legs a person moved.</summary>
    /// <param name="outline">Its file; null for the one marked current, else the newest.</param>
    /// <param name="write">Whether the file is changed: only the lines of what changed, so that comments stay.</param>
    public (ImmutableArray<string> Changes, ImmutableArray<string> Notes, ImmutableArray<Problem> Problems) Complete(string? outline, bool write)
    {
        (var (path, told, complete), ImmutableArray<string> notes, ImmutableArray<Problem> problems) = Take(outline);
        if (complete is null) return ([], notes, problems);
        if (!write || complete.Changes.IsEmpty) return (complete.Changes, notes, []);
        try
        {
            if (OutlineFile.Merge(File.ReadAllText(path), told, complete.Outline, Scenario) is not { } merged)
                return (complete.Changes, notes, [FileProblems.Whole(path, "outline.form", "entries that do not stand one on a line", "one entry a line, as plan writes them", "put each entry on a line of its own; nothing was written.")]);
            return (complete.Changes, notes, PlanFiles.WriteAll(Path.GetDirectoryName(Path.GetFullPath(path))!, [(Path.GetFileName(path), Encoding.UTF8.GetBytes(merged))]) is { } problem ? [problem] : []);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return (complete.Changes, notes, [FileProblems.CannotRead(path, e.Message)]);
        }
    }

    /// <summary>Judges a timeline as told, so that what honest expansion cannot break can still be seen.</summary>
    public CheckOutcome CheckTimeline(string path)
    {
        ReadResult<Timeline> read = PlanFiles.ReadTimeline(path, Scenario);
        return read.Value is { } timeline
            ? new(Prove(Path.GetFileNameWithoutExtension(path), null, [timeline]), [], [$"timeline {path}, as told", .. read.Notes], [])
            : new(null, [], [], read.Problems);
    }

    /// <summary>Writes a plan: its outline first, then what is derived from it, all under the name the outline got.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="outFolder">Where derived files go, a folder a scenario and name.</param>
    /// <param name="printed">A date printed on documents; null for none.</param>
    /// <param name="keepsOutline">Whether the outline's file is left as it is, and only what is derived is written.</param>
    public (ImmutableArray<string> Written, ImmutableArray<string> Notes, Problem? Problem) Write(ProvenPlan plan, string outFolder, DateOnly? printed, bool keepsOutline)
    {
        List<(string Folder, string Name, byte[] Content)> files = [];
        ImmutableArray<string> notes = [];
        if (!keepsOutline && plan.Outline is { } outline)
        {
            ReadResult<SavedOutline> place = OutlineFile.PlaceFor(OutlinesFolder, plan.Name);
            if (place.Value is not { } free) return ([], [], place.Problems[0]);
            if (free.Note is { } note) notes = [note];
            files.Add((OutlinesFolder, free.Name + ".yaml", OutlineFile.Marked(OutlineFile.Write(outline))));
            plan = plan with { Name = free.Name };
        }
        string folder = OutputOf(plan.Name, outFolder);
        files.AddRange(Documents.Of(Scenario, plan, printed, plan.Outline is { } known ? new Detours(expander, known).Expand : null).Select(file => (folder, file.Name, file.Content)));
        IEnumerable<string> gone = Documents.NotAlways.Except(files.Select(file => file.Name)).Select(name => Path.Combine(folder, name));
        // All in one: an outline without its derived files, or the other way round, would be a mix.
        return PlanFiles.WriteAll(files, gone) is { } problem ? ([], [], problem) : ([.. files.Select(file => Path.Combine(file.Folder, file.Name))], notes, null);
    }

    /// <summary>Writes the briefing of a plan into a folder <c>brief</c> beside its other derived files: all of it, or nothing.</summary>
    /// <param name="plan">The plan, clean or not: one that is not makes a draft.</param>
    /// <param name="outFolder">Where derived files go, a folder a scenario and name.</param>
    /// <param name="options">Paper, date, and what else it shall tell.</param>
    /// <returns>What was written, and what changed since the plan that the reader knows, for the screen: null when no such plan is given.</returns>
    public (ImmutableArray<string> Written, string? Changes, Problem? Problem) WriteBriefing(ProvenPlan plan, string outFolder, BriefingOptions options)
    {
        string folder = Path.Combine(OutputOf(plan.Name, outFolder), "brief");
        (ImmutableArray<(string Name, byte[] Content)> made, Booklet? changes) = Brief(plan, options);
        IEnumerable<string> gone = BriefingFiles.NotAlways.Except(made.Select(file => file.Name)).Select(name => Path.Combine(folder, name));
        return PlanFiles.WriteAll(made.Select(file => (folder, file.Name, file.Content)).ToArray(), gone) is { } problem ? ([], null, problem)
            : ([.. made.Select(file => Path.Combine(folder, file.Name))], changes is null ? null : BookletText.Write(changes), null);
    }

    /// <summary>The files of the briefing of a plan, none of them written.</summary>
    public ImmutableArray<(string Name, byte[] Content)> BriefingOf(ProvenPlan plan, BriefingOptions options) => Brief(plan, options).Files;

    private (ImmutableArray<(string Name, byte[] Content)> Files, Booklet? Changes) Brief(ProvenPlan plan, BriefingOptions options)
    {
        // Pages and walk-through share nothing but the plan: each takes about as long as the other.
        Task<ImmutableArray<(string Name, byte[] Content)>> walkthrough = Task.Run(() => WalkthroughOf(plan, options));
        Booklet? changes = BriefingFiles.Changes(Scenario, plan, options);
        return ([.. BriefingFiles.Of(Scenario, plan, options, changes), .. walkthrough.GetAwaiter().GetResult()], changes);
    }

    /// <summary>Writes a plan as domain, problem and plan of PDDL, for a referee who knows nothing of this program.</summary>
    /// <param name="plan">The plan; with a decision, its other branch goes into a folder of its own within.</param>
    /// <param name="folder">Where to; made when missing.</param>
    public (ImmutableArray<string> Written, Problem? Problem) WritePddl(ProvenPlan plan, string folder)
    {
        if (plan.Played.Any(one => one.Timeline.Trouble is not null))
            return ([], FileProblems.Whole(plan.Name, "pddl.contingency", "a timeline that follows a contingency", "a plan: steps that are left before they are done have no image", "write the image of the plan itself."));
        (string Folder, string Name, byte[] Content)[] files = [.. plan.Played.SelectMany(one => PddlImage.Of(Scenario, one.Timeline).Files.Select(file =>
            (one.Timeline.Branch == plan.Likely.Branch ? folder : Path.Combine(folder, "otherwise"), file.Name, file.Content)))];
        return PlanFiles.WriteAll(files) is { } problem ? ([], problem) : ([.. files.Select(file => Path.Combine(file.Folder, file.Name))], null);
    }

    /// <summary>The walk-through of a plan: a page that plays it, its captions and its script.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="options">The date printed on its chart, and the words.</param>
    internal ImmutableArray<(string Name, byte[] Content)> WalkthroughOf(ProvenPlan plan, BriefingOptions options) => Walkthrough.Files(Scenario, plan, read.Orbit, options, read.Model);

    /// <summary>What the page of this scenario shows of a plan first.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="isWhole">Whether its verdict is whole; one that is not is never called clean.</param>
    /// <param name="width">How wide the chart is drawn, at least 900.</param>
    /// <param name="stripHeight">How high the strip of a person is drawn, at least 80.</param>
    /// <param name="part">What the ids of the chart begin with.</param>
    public PlanView ViewOf(ProvenPlan plan, bool isWhole, double width, double stripHeight, string part) => new PlanViewBuilder(Scenario, plan).View(isWhole, width, stripHeight, part);

    /// <summary>What is so at each moment of a plan, which the page shows beside the chart.</summary>
    public PlanBeside BesideOf(ProvenPlan plan) => new PlanViewBuilder(Scenario, plan).Beside(read.Orbit);

    /// <summary>Day and night, links and radiation over the sortie.</summary>
    public SkyReport Sky() => new(Scenario, read.Orbit, read.Times);

    /// <summary>The same plan on another date: the outline as it stands, expanded and judged under both skies.</summary>
    /// <param name="by">How much later; negative for earlier.</param>
    /// <param name="outline">Its file; null for the one marked current, else the newest, else none.</param>
    public ReadResult<SlipReport> Slip(Duration by, string? outline)
    {
        if (read.Orbit is not { } orbit)
            return new(null, [FileProblems.Whole(Folder, "sky.given", "a sky given by hand", "a section 'orbit', from which another date can be computed", "add an orbit, or move the times by hand in a copy of the scenario.")], []);
        (Scenario? slipped, SkyTimes? times, Problem? problem) = orbit.At(Scenario, by);
        if (problem is not null) return new(null, [problem], []);
        (string? path, string note) = outline is null ? Choose() : (outline, $"outline {outline}");
        if (path is null || (outline is null && !File.Exists(path)))
            return new(SlipComparison.Of((Sky(), null), (new(slipped!, orbit, times), null), by, "No outline"), [], []);
        ReadResult<Outline> told = OutlineFile.Read(path, Scenario);
        if (told.Value is not { } plan) return new(null, told.Problems, [note]);
        string name = Path.GetFileNameWithoutExtension(path);
        SortieDesk other = new(Folder, new(slipped!, orbit, times), []);
        (ProvenPlan? now, OutlineProblem? nowProblem) = Prove(name, plan, shown: false);
        (ProvenPlan? then, OutlineProblem? thenProblem) = other.Prove(name, plan, shown: false);
        if ((nowProblem ?? thenProblem) is { } stuck)
            return new(null, [FileProblems.Whole(path, stuck.Code, stuck.Found, "an outline in which everything can be done on both dates", stuck.Fix + ".")], [note]);
        return new(SlipComparison.Of((Sky(), now), (other.Sky(), then), by, "O" + note[1..]), [], told.Notes);
    }

    private string OutputOf(string name, string outFolder) =>
        Path.Combine(outFolder, Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(Folder))), name);

    /// <summary>An outline as a person left it, and what completion makes of it.</summary>
    /// <param name="outline">Its file; null for the one marked current, else the newest.</param>
    /// <param name="asIs">Whether nothing is re-derived.</param>
    private ((string Path, Outline Told, Completed? Complete) Taken, ImmutableArray<string> Notes, ImmutableArray<Problem> Problems) Take(string? outline, bool asIs = false)
    {
        (string? path, string note) = outline is null ? Choose() : (outline, $"outline {outline}");
        if (path is null)
            return (default, [], [FileProblems.Whole(OutlinesFolder, "outline.none", "no outline", "an outline", "make one with plan, or name one with --outline.")]);
        ReadResult<Outline> read = OutlineFile.Read(path, Scenario);
        if (read.Value is not { } told) return (default, [note], read.Problems);
        Completed complete = asIs ? new(told, [], null) : completion.Complete(told);
        return ((path, told, complete), [note, .. read.Notes, .. complete.Notes], []);
    }

    private (string? Path, string Note) Choose()
    {
        if (Scenario.Sortie.Outline is { } current)
        {
            string marked = Path.Combine(OutlinesFolder, current + ".yaml");
            return (marked, $"outline {marked}, marked current in the scenario");
        }
        string? newest = Directory.Exists(OutlinesFolder)
            ? Directory.EnumerateFiles(OutlinesFolder, "*.yaml").OrderByDescending(File.GetLastWriteTimeUtc).ThenBy(path => path, StringComparer.Ordinal).FirstOrDefault()
            : null;
        return (newest, $"outline {newest}, the newest");
    }

    /// <param name="name">The outline's name.</param>
    /// <param name="outline">The outline.</param>
    /// <param name="shown">Whether people will see it, and not search alone.</param>
    private (ProvenPlan? Plan, OutlineProblem? Problem) Prove(string name, Outline outline, bool shown = true)
    {
        (List<Timeline> branches, OutlineProblem? problem) = Branches(outline);
        return problem is not null ? (null, problem) : (Prove(name, outline, branches, new Detours(expander, outline).Expand, shown), null);
    }

    /// <summary>Whether an outline can be expanded and its plan is clean, in the time that search has for it.</summary>
    private bool IsClean(Outline outline) => Branches(outline) is (var branches, null)
        && Judge.IsClean(Scenario, [.. branches.Select(timeline => (timeline, Player.Play(Scenario, timeline)))], new Detours(expander, outline).Expand);

    private static Branch[] BranchesOf(Outline outline) => outline.Decision is null ? [Branch.Likely] : Enum.GetValues<Branch>();

    private (List<Timeline> Timelines, OutlineProblem? Problem) Branches(Outline outline)
    {
        string planId = PlanIdOf(outline);
        List<Timeline> branches = [];
        foreach (Branch branch in BranchesOf(outline))
        {
            Expansion expansion = expander.Expand(outline, branch, planId);
            if (expansion.Timeline is not { } timeline) return (branches, expansion.Problem);
            branches.Add(timeline);
        }
        return (branches, null);
    }

    private ProvenPlan Prove(string name, Outline? outline, IReadOnlyList<Timeline> branches, GoOn? goOn = null, bool shown = false)
    {
        ImmutableArray<(Timeline Timeline, Trace Trace)> played = [.. branches.AsParallel().AsOrdered().Select(timeline => (timeline, Player.Play(Scenario, timeline)))];
        return Judged(name, outline, played, goOn, shown);
    }

    private ProvenPlan Judged(string name, Outline? outline, ImmutableArray<(Timeline Timeline, Trace Trace)> played, GoOn? goOn, bool shown) =>
        new(name, outline, played, Judge.Of(Scenario, played, goOn, stepTimes: shown), Tightest.Of(Scenario, played[0].Trace));

    /// <summary>The same for the same inputs and outline; every derived file carries it.</summary>
    private string PlanIdOf(Outline outline) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Scenario.Digest + "\n" + OutlineFile.Write(outline with { Digest = null }))))[..12];
}
