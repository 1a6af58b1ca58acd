using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

// What the texts say, and how far their plan was looked at.
public sealed partial class OpenSortie
{
    private static readonly ImmutableArray<string> NotFollowed =
        ["what follows when a step does not go as planned", "each step at its low and at its high time", "so this plan is not yet known to be clean"];

    /// <summary>So long nobody has changed anything before the whole verdict begins: it takes every core, and the next edit is to be answered at once.</summary>
    private static readonly TimeSpan Lull = TimeSpan.FromSeconds(1.5);

    private readonly SemaphoreSlim proving = new(1);
    private (Scenario Scenario, ProvenPlan Plan)? compared;
    private CancellationTokenSource proofUnderWay = new();
    private TaskCompletionSource proofTold = new(TaskCreationOptions.RunContinuationsAsynchronously), proofCalled = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private bool proofFailed;

    /// <summary>Ends when the verdict on the present plan is whole, or there is none to be had.</summary>
    public async Task<SortieState> Whole(CancellationToken cancel)
    {
        while (true)
        {
            Task told;
            lock (gate)
            {
                if (disposed || state.Plan is null || state.Proving == Proving.Whole || proofFailed) return state;
                told = proofTold.Task;
                // Somebody waits for it.
                proofCalled.TrySetResult();
            }
            await told.WaitAsync(cancel).ConfigureAwait(false);
        }
    }

    /// <summary>What texts come to, with as much as can be taken over from what is known of others.</summary>
    private Evaluated Evaluate(Texts texts, Evaluated? known)
    {
        ReadResult<SortieDesk> read = known is not null && known.Texts.SameScenario(texts) ? known.Read
            : texts.Unfit is { } unfit ? new(null, [unfit], []) : SortieDesk.Open(folder, texts.Files.Where(file => !SortieFiles.IsOutline(file.Key)).ToDictionary(file => file.Key, file => file.Value.Bytes));
        if (read.Value is not { } desk) return new(texts with { Chosen = texts.Chosen ?? Taken(texts, null) }, read);
        string? chosen = texts.Chosen is { } wanted && texts.Files.ContainsKey(SortieFiles.OutlinePath(wanted)) ? wanted : Taken(texts, desk.Scenario.Sortie.Outline);
        texts = texts with { Chosen = chosen };
        if (chosen is null) return new(texts, read);
        // Taken back, or done again: what was seen of the same texts holds. The whole verdict is proven anew.
        if (recent.FirstOrDefault(one => one.Read == read && one.Texts.Same(texts)) is { } seen) return seen with { Texts = texts };
        string path = SortieFiles.OutlinePath(chosen);
        HeldFile file = texts.Files[path];
        if (known is not null && known.Read == read && known.Texts.Chosen == chosen && known.Texts.Files.GetValueOrDefault(path) == file) return known with { Texts = texts };
        ReadResult<Outline> outline = OutlineFile.Read(file.Bytes, Path.Combine(folder, path), desk.Scenario);
        if (outline.Value is not { } told) return new(texts, read) { OutlineProblems = outline.Problems, OutlineNotes = outline.Notes };
        Planning.Completed complete = desk.Complete(told, anew: false);
        (ProvenPlan? plan, Planning.OutlineProblem? problem) = desk.ProveQuickly(chosen, complete.Outline);
        return new(texts, read)
        {
            Outline = told,
            Plan = plan,
            OutlineProblems = problem is null ? [] : [SortieDesk.Unexpanded(Path.Combine(folder, path), problem)],
            OutlineNotes = [.. outline.Notes, .. complete.Changes.IsEmpty ? [] : new[] { "Legs were moved in the file; what follows from that is shown here and not yet written." }, .. complete.Notes],
            Completed = complete.Changes,
        };
    }

    private string? Taken(Texts texts, string? marked) => SortieFiles.Taken([.. texts.Files.Keys], marked, WrittenAt) is { } file ? SortieFiles.OutlineName(file) : null;

    private DateTime WrittenAt(string file) => stamps.TryGetValue(file, out Stamp stamp) ? stamp.Written : DateTime.UtcNow;

    private SortieState Describe(Evaluated seen, long revision, long textRevision, (Scenario Scenario, ProvenPlan Plan)? before) => new()
    {
        Name = Name,
        Revision = revision,
        TextRevision = textRevision,
        Files = [.. seen.Texts.Files.OrderBy(file => SortieFiles.IsOutline(file.Key)).Select(file => new SortieFile(file.Key, file.Value.Text))],
        Desk = seen.Desk,
        Problems = [.. seen.Problems.Select(Short)],
        Notes = [.. seen.Read.Notes, .. seen.OutlineNotes],
        Outlines = [.. SortieFiles.Outlines(seen.Texts.Files.Keys, WrittenAt)
            .Select(file => new OutlineCard(SortieFiles.OutlineName(file), WrittenAt(file), SortieFiles.OutlineName(file) == seen.Desk?.Scenario.Sortie.Outline))],
        Chosen = seen.Texts.Chosen,
        Plan = seen.Plan,
        Proving = seen.Plan is null ? Proving.Nothing : Proving.Quick,
        NotYet = seen.Plan is null ? [] : NotFollowed,
        Difference = seen.Plan is { } plan && before is { } old ? StateDifference.Of(old.Scenario, old.Plan, seen.Desk!.Scenario, plan) : null,
        Changes = seen.Completed,
    };

    private Problem Short(Problem problem) => SortieFiles.Short(problem, folder);

    /// <summary>Told that somebody is about to edit, such as when a stretch is taken hold of: the whole verdict waits until after it.</summary>
    public void HoldBack()
    {
        proofUnderWay.Cancel();
        Volatile.Write(ref touched, Environment.TickCount64);
        lock (gate) GoOnProving();
    }

    /// <summary>Begins the whole verdict again when it was given up and nothing was changed after all.</summary>
    private void GoOnProving()
    {
        if (proofUnderWay.IsCancellationRequested && !disposed && !proofFailed && state.Proving == Proving.Quick) StartProving();
    }

    /// <summary>Begins the whole verdict on what stands, after a lull or when somebody waits for it; one that is under way is given up.</summary>
    private void StartProving()
    {
        proofUnderWay.Cancel();
        proofFailed = false;
        if (now.Plan is not { } quick)
        {
            EndWaits();
            return;
        }
        CancellationTokenSource mine = proofUnderWay = new();
        (SortieDesk desk, (Scenario, ProvenPlan)? before) = (now.Desk!, compared);
        Task called = (proofCalled = new(TaskCreationOptions.RunContinuationsAsynchronously)).Task;
        _ = Task.Run(() => Prove(quick, desk, desk.Scenario, before, called, mine.Token), CancellationToken.None);
    }

    private async Task Prove(ProvenPlan quick, SortieDesk desk, Scenario scenario, (Scenario Scenario, ProvenPlan Plan)? before, Task called, CancellationToken cancel)
    {
        SortieState Seen(SortieState of, ProvenPlan whole) => of with
        {
            Revision = of.Revision + 1,
            Plan = whole,
            Proving = Proving.Whole,
            NotYet = [],
            Difference = before is { } old ? StateDifference.Of(old.Scenario, old.Plan, scenario, whole) : null,
        };
        string? failed = null;
        ProvenPlan? whole = null;
        try
        {
            await Task.WhenAny(called, Settled(cancel)).ConfigureAwait(false);
            await proving.WaitAsync(cancel).ConfigureAwait(false);
            try
            {
                whole = desk.ProveWhole(quick, cancel);
            }
            finally
            {
                proving.Release();
            }
        }
        catch (OperationCanceledException)
        {
            return;
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or ArithmeticException or KeyNotFoundException)
        {
            failed = $"the whole verdict, which failed by a fault of this program: {e.Message}";
        }
        lock (gate)
        {
            if (cancel.IsCancellationRequested || disposed) return;
            if (whole is not null) Publish(Seen(state, whole));
            else
            {
                proofFailed = true;
                Publish(state with { Revision = state.Revision + 1, NotYet = [failed!, .. NotFollowed] });
            }
            EndWaits();
        }
        TidyUp();
    }

    /// <summary>
    /// Told when nobody waits: what the last edit, or the whole verdict, left behind is collected then, away from whoever calls. Left to itself the runtime does it in the middle of one edit in
    /// ten, which then waits for it.
    /// </summary>
    public static void TidyUp() => _ = Task.Run(() => GC.Collect(0));

    /// <summary>Ends after a lull in which nobody opened it either: a page is drawn, then comes to life, and both come first. Those who open it one after another hold nothing up for ever.</summary>
    private async Task Settled(CancellationToken cancel)
    {
        TimeSpan wait = Lull;
        for (int turn = 0; turn < 4 && wait > TimeSpan.Zero; turn++)
        {
            await Task.Delay(wait, cancel).ConfigureAwait(false);
            wait = Lull - TimeSpan.FromMilliseconds(Environment.TickCount64 - Volatile.Read(ref joined));
        }
    }

    private void EndWaits()
    {
        proofTold.TrySetResult();
        proofTold = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }

    /// <summary>The files as texts, and which outline is chosen.</summary>
    /// <param name="Files">By name.</param>
    /// <param name="Chosen">The outline; null for none yet.</param>
    /// <param name="Beside">What tells of the files that are no text of the scenario and still part of it: elements, a model.</param>
    /// <param name="Unfit">What keeps the folder from being read at all; null for nothing.</param>
    private sealed record Texts(ImmutableSortedDictionary<string, HeldFile> Files, string? Chosen, string Beside, Problem? Unfit)
    {
        public Texts With(string file, HeldFile? held) => this with { Files = held is null ? Files.Remove(file) : Files.SetItem(file, held) };

        public bool Same(Texts other) => Chosen == other.Chosen && Beside == other.Beside && Unfit == other.Unfit && !Different(this, other).Any();

        public bool SameScenario(Texts other) => Beside == other.Beside && Unfit == other.Unfit && Different(this, other).All(SortieFiles.IsOutline);
    }

    /// <summary>The files that differ between two sets of texts.</summary>
    private static IEnumerable<string> Different(Texts one, Texts other)
    {
        if (ReferenceEquals(one.Files, other.Files)) return [];
        return one.Files.Keys.Union(other.Files.Keys).Where(file => !ReferenceEquals(one.Files.GetValueOrDefault(file), other.Files.GetValueOrDefault(file))
            && !(one.Files.TryGetValue(file, out HeldFile? a) && other.Files.TryGetValue(file, out HeldFile? b) && a.Bytes.AsSpan().SequenceEqual(b.Bytes)));
    }

    /// <summary>What texts come to.</summary>
    private sealed record Evaluated(Texts Texts, ReadResult<SortieDesk> Read)
    {
        public SortieDesk? Desk => Read.Value;

        public Outline? Outline { get; init; }

        /// <summary>Played and judged as planned.</summary>
        public ProvenPlan? Plan { get; init; }

        public ImmutableArray<Problem> OutlineProblems { get; init; } = [];

        public ImmutableArray<string> OutlineNotes { get; init; } = [];

        public ImmutableArray<string> Completed { get; init; } = [];

        public ImmutableArray<Problem> Problems => [.. Read.Problems, .. OutlineProblems];
    }
}
