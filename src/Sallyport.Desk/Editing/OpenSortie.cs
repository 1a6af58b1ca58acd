using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>
/// A scenario that is open: one for all who look at it. Every member may be called from any thread. Its files stay the truth: an edit is a change of their text,
/// and is saved before it is told.
/// </summary>
public sealed partial class OpenSortie : IDisposable
{
    /// <summary>So many states and changes back an edit may have been made, and may be undone.</summary>
    private const int MostHistory = 300;

    /// <summary>So many states back what was seen of the texts is kept, so that a change is taken back at once.</summary>
    private const int MostSeen = 6;

    private static readonly TimeSpan BetweenRehearsals = TimeSpan.FromMilliseconds(50);

    private readonly string folder, outFolder;
    private readonly Action<OpenSortie> closed;
    private readonly Lock gate = new(), doors = new();
    private readonly List<Change> changes = [];
    private readonly SortedList<long, Texts> history = [];
    private readonly Dictionary<string, (long Revision, string By)> lastBy = [];
    private Evaluated now;
    private ImmutableArray<Evaluated> recent = [];
    private SortieState state;
    private readonly TimeSpan kept;
    private int users;
    private long left = Environment.TickCount64, joined = long.MinValue / 2, touched = long.MinValue / 2;
    private bool begun, disposed;
    private Task telling = Task.CompletedTask;

    /// <summary>Reads a folder that was found to be one of the scenarios. Nothing is watched and nothing proven until somebody joins.</summary>
    /// <param name="name">The scenario's folder name.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="outFolder">Where derived files go.</param>
    /// <param name="kept">For how long it stays open when nobody has it open: pages are left and come back.</param>
    /// <param name="closed">Told when it was closed.</param>
    internal OpenSortie(string name, string folder, string outFolder, TimeSpan kept, Action<OpenSortie> closed)
    {
        (Name, this.folder, this.outFolder, this.kept, this.closed) = (name, folder, outFolder, kept, closed);
        SortieFiles.SweepUp(folder);
        now = Evaluate(ReadDisk(), null);
        recent = [now];
        state = Describe(now, 1, 1, null) with { LastChange = "" };
        history[1] = now.Texts;
        Leave();
    }

    /// <summary>Told after every change of the state, in order, one listener after the other, on a thread of the pool: a handler hands on and returns.</summary>
    public event Action<SortieState>? Changed;

    /// <summary>Told of the plan that a change comes to, before the change is saved: whoever will show it may begin to draw, and shows nothing of it
    /// before <see cref="Changed"/> tells of it.</summary>
    public event Action<SortieDesk, ProvenPlan>? Coming;

    /// <summary>The scenario's folder name.</summary>
    public string Name { get; }

    /// <summary>Whether somebody has opened it: before, nothing of it is watched.</summary>
    internal bool IsBegun => Volatile.Read(ref begun);

    /// <summary>What stands now.</summary>
    public SortieState State => Volatile.Read(ref state);

    /// <summary>Does an edit and saves it.</summary>
    /// <param name="edit">What is changed.</param>
    /// <param name="by">Who changes it.</param>
    /// <param name="revision">The revision of the state that the edit was made on.</param>
    public EditOutcome Apply(SortieEdit edit, string by, long revision) => Editing(() => Done(edit, by, revision));

    /// <summary>Does an edit with every core for itself: a whole verdict that is under way is given up, and begun again when nothing was changed.</summary>
    private EditOutcome Editing(Func<EditOutcome> edit)
    {
        proofUnderWay.Cancel();
        Volatile.Write(ref touched, Environment.TickCount64);
        lock (gate)
        {
            EditOutcome outcome = Trying(edit);
            GoOnProving();
            return outcome;
        }
    }

    private EditOutcome Done(SortieEdit edit, string by, long revision)
    {
        Absorb();
        if (disposed) return new Refused("This scenario was closed.", []);
        Texts? made = history.LastOrDefault(one => one.Key <= revision).Value;
        if (made is null || revision > state.Revision) return new Refused("The edit was made on a state that is not known any more. Look at what stands now, and make it again.", []);
        bool isLate = !made.Same(now.Texts);
        (Texts mine, ImmutableArray<string> changed) = Do(edit, isLate ? Evaluate(made, now) : now, complete: !isLate);
        if (FilesIn(edit).Concat(Different(made, mine)).FirstOrDefault(file => state.DiskConflicts.Any(one => one.File == file)) is { } unsettled)
            return new Refused($"{unsettled} changed on disk under a change made here: choose first which of the two stands.", []);
        if (Join(made, mine, now.Texts, by, out Conflict? conflict) is not { } wanted)
        {
            if (lastBy.TryGetValue(conflict!.File, out (long, string By) last) && last.By == OnDisk) AddDiskConflict(conflict, by);
            return conflict;
        }
        if (isLate && OutlineEdits.Kind(edit) is { IsOne: true, MovesLegs: var anew } && Evaluate(wanted, now) is { Outline: { } joined } merged) (wanted, changed) = Complete(merged, joined, joined, anew);
        return Take(wanted, edit, Told(edit), by, changed);
    }

    /// <summary>Does something that saves; again, when a file changed on disk meanwhile.</summary>
    private EditOutcome Trying(Func<EditOutcome> edit)
    {
        for (int turn = 1; ; turn++)
            try
            {
                return edit();
            }
            catch (CannotEdit why)
            {
                return new Refused(why.Message, [.. why.Problems.Select(Short)]);
            }
            catch (DiskMoved)
            {
                if (turn == 3) return new Refused("The files are being changed on disk all the time; nothing was changed here. Try again.", []);
            }
    }

    /// <summary>Takes back the last edit of this person that was not taken back yet, and leaves what others did since.</summary>
    public EditOutcome Undo(string by) => Again(by, undo: true);

    /// <summary>Does again what this person took back last.</summary>
    public EditOutcome Redo(string by) => Again(by, undo: false);

    /// <summary>What <see cref="Undo"/> would take back, in words; null when there is nothing.</summary>
    public string? UndoOf(string by)
    {
        lock (gate) return ToUndo(by)?.What;
    }

    /// <summary>What <see cref="Redo"/> would do again, in words; null when there is nothing.</summary>
    public string? RedoOf(string by)
    {
        lock (gate) return ToRedo(by)?.What;
    }

    /// <summary>Takes another outline as the one that is shown and edited, for all.</summary>
    public EditOutcome Choose(string outline)
    {
        lock (gate)
        {
            Absorb();
            if (!now.Texts.Files.ContainsKey(SortieFiles.OutlinePath(outline))) return new Refused($"There is no outline '{outline}'.", []);
            if (now.Texts.Chosen == outline) return new Accepted(state);
            Become(Evaluate(now.Texts with { Chosen = outline }, now), $"outline {outline} is shown", null, []);
            return new Accepted(state);
        }
    }

    /// <summary>Says that one who opened it has closed it; some time after the last one its watching and proving end.</summary>
    public void Dispose()
    {
        lock (doors)
        {
            if (disposed || --users > 0) return;
            left = Environment.TickCount64;
        }
        Leave();
    }

    /// <summary>One more has opened it; false when it was closed meanwhile.</summary>
    internal bool Join()
    {
        lock (doors)
        {
            if (disposed) return false;
            users++;
            Volatile.Write(ref joined, Environment.TickCount64);
            if (begun) return true;
            begun = true;
        }
        lock (gate)
        {
            Absorb();
            StartProving();
            MakeReady();
            Watch();
        }
        return true;
    }

    /// <summary>What stands on the disk, for one who only looks.</summary>
    internal SortieState Glance()
    {
        lock (gate)
        {
            // Also what the watcher has not seen yet: what is drawn of this is kept under the name of the files as they are.
            Absorb();
            return state;
        }
    }

    /// <summary>Closes it.</summary>
    /// <param name="whoeverHasItOpen">Whether also when somebody has it open, or had just now: the program ends.</param>
    internal void Close(bool whoeverHasItOpen)
    {
        lock (doors)
        {
            if (disposed || (!whoeverHasItOpen && (users > 0 || Environment.TickCount64 - left < kept.TotalMilliseconds))) return;
            disposed = true;
        }
        closed(this);
        End();
    }

    private void Leave()
    {
        if (kept > TimeSpan.Zero) _ = Task.Delay(kept).ContinueWith(_ => Close(false), CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        else if (begun) Close(false);
    }

    private Change? ToUndo(string by) => changes.FindLast(change => change.By == by && !change.Undone);

    // What was taken back can be done again until something else is done.
    private Change? ToRedo(string by)
    {
        int last = changes.FindLastIndex(change => change.By == by && !change.Undone);
        return changes.Find(change => change.By == by && change.Undone && changes.IndexOf(change) > last);
    }

    private EditOutcome Again(string by, bool undo) => Editing(() => Done(by, undo));

    private EditOutcome Done(string by, bool undo)
    {
        Absorb();
        if ((undo ? ToUndo(by) : ToRedo(by)) is not { } change) return new Refused(undo ? "Nothing to undo." : "Nothing to redo.", []);
        Texts from = change.Put(now.Texts, after: undo), to = change.Put(from, after: !undo);
        if (Join(from, to, now.Texts, by, out Conflict? conflict) is not { } joined)
            return new Refused($"{conflict!.File} was changed since in the same lines, by {conflict.By}: {change.What} cannot be {(undo ? "taken back" : "done again")} alone.", []);
        string? chosen = undo ? change.ChosenBefore : change.ChosenAfter;
        if (now.Texts.Chosen == (undo ? change.ChosenAfter : change.ChosenBefore) && (chosen is null || joined.Files.ContainsKey(SortieFiles.OutlinePath(chosen)))) joined = joined with { Chosen = chosen };
        EditOutcome outcome = Take(joined, null, (undo ? "taken back: " : "done again: ") + change.What, by, [], keep: false);
        if (outcome is Accepted) change.Undone = undo;
        return outcome;
    }

    /// <summary>Saves texts and makes them what stands; nothing changes when they cannot be used.</summary>
    /// <param name="wanted">The texts.</param>
    /// <param name="edit">The edit that made them; null when they are texts that stood before.</param>
    /// <param name="what">What was done, in words.</param>
    /// <param name="by">By whom.</param>
    /// <param name="changed">What else that brought with it, a line each.</param>
    /// <param name="keep">Whether it can be undone as one more change.</param>
    private EditOutcome Take(Texts wanted, SortieEdit? edit, string what, string by, ImmutableArray<string> changed, bool keep = true)
    {
        if (wanted.Same(now.Texts)) return new Accepted(state);
        if (wanted.Files.Count > SortieFiles.MostFiles) return new Refused($"A scenario holds at most {SortieFiles.MostFiles} files here.", []);
        Evaluated next = Evaluate(wanted, now);
        bool isOutline = edit is not null && OutlineEdits.Kind(edit).IsOne;
        // Nobody's scenario is made unreadable; one that is so already may be mended in steps.
        if (now.Desk is not null && next.Desk is null) return new Refused("The scenario could not be read with it, so nothing was changed.", [.. next.Problems.Select(Short)]);
        if (isOutline && now.Plan is not null && next.Plan is null) return new Refused("The outline could not be followed with it, so nothing was changed.", [.. next.Problems.Select(Short)]);
        if (edit is TakeOutline && next.Outline is null) return new Refused("This outline cannot be used, so nothing was changed.", [.. next.Problems.Select(Short)]);
        Texts before = now.Texts;
        // It can be drawn while it is being saved.
        if (next is { Desk: { } desk, Plan: { } coming } && Coming is { } draw) _ = Task.Run(() => draw(desk, coming));
        if (Save(before, wanted) is { } problem) return new Refused("It could not be saved, so nothing was changed.", [Short(problem)]);
        if (keep)
        {
            changes.RemoveAll(change => change.By == by && change.Undone);
            changes.Add(Change.Of(by, what, before, wanted));
            if (changes.Count > MostHistory) changes.RemoveAt(0);
        }
        Become(next, what, by, changed);
        return new Accepted(state);
    }

    /// <summary>Makes what was evaluated what stands, and tells everybody.</summary>
    private void Become(Evaluated next, string what, string? by, ImmutableArray<string> changed)
    {
        long revision = state.Revision + 1;
        foreach (string file in Different(now.Texts, next.Texts)) lastBy[file] = (revision, by ?? OnDisk);
        Evaluated before = now;
        now = next;
        recent = [next, .. recent.Where(one => !one.Texts.Same(next.Texts)).Take(MostSeen - 1)];
        history[revision] = next.Texts;
        if (history.Count > MostHistory) history.RemoveAt(0);
        // What there was to compare with is the last plan that could be played.
        if (before.Plan is not null) compared = (before.Desk!.Scenario, state.Plan ?? before.Plan);
        Publish(Describe(next, revision, revision, compared) with
        {
            LastChange = by is null ? what : $"{what}, by {by}",
            Changes = [.. changed, .. next.Completed],
            DiskConflicts = [.. state.DiskConflicts.Select(one => one with { Theirs = next.Texts.Files.GetValueOrDefault(one.File)?.Text })],
        });
        if (!begun) return;
        StartProving();
        if (before.Desk != next.Desk) MakeReady();
    }

    /// <summary>
    /// Makes what the first move of a leg needs, and rehearses some moves without doing them, so that the first edit need not wait for what is made or compiled once; one that comes
    /// sooner does.
    /// </summary>
    private void MakeReady()
    {
        if (now is not { Desk: { } desk, Outline: { } outline } held) return;
        _ = Task.Run(async () =>
        {
            await Settled(CancellationToken.None).ConfigureAwait(false);
            if (disposed || now != held) return;
            desk.Complete(outline, anew: true);
            foreach (MoveLeg move in Swaps(outline, 3))
            {
                if (disposed || now != held) return;
                if (Rehearsed(move, held) is { Plan: { } moved }) desk.ViewOf(moved, false, 950, 80, "");
            }
        });
    }

    /// <summary>
    /// Rehearses moves without doing them, so that what answers an edit is compiled for speed before somebody waits for it: the runtime does that for what was called thirty times, and takes a core
    /// for seconds meanwhile. It keeps still while somebody edits.
    /// </summary>
    /// <param name="turns">So many moves.</param>
    /// <param name="show">Given the state that each would come to.</param>
    public async Task Rehearse(int turns, Action<SortieState> show)
    {
        for (int turn = 0; turn < turns && !disposed; turn++)
        {
            do await Task.Delay(BetweenRehearsals).ConfigureAwait(false);
            while (Environment.TickCount64 - Volatile.Read(ref touched) < Lull.TotalMilliseconds);
            if (now is not { Desk: { } desk, Outline: { } outline, Plan: { } plan } held || Swaps(outline, int.MaxValue).ToArray() is not { Length: > 0 } moves) return;
            if (Rehearsed(moves[turn % moves.Length], held) is { Plan: not null } moved) show(Describe(moved, 0, 0, (desk.Scenario, plan)));
        }
    }

    private static IEnumerable<MoveLeg> Swaps(Outline outline, int most) => outline.People.SelectMany(list =>
        list.Entries.OfType<LegEntry>().Select(entry => entry.Leg).Chunk(2).Where(two => two.Length == 2).Take(most).Select(two => new MoveLeg(two[1], list.Person, two[0])));

    /// <summary>What a move would come to; null when it cannot be done.</summary>
    private Evaluated? Rehearsed(MoveLeg move, Evaluated on)
    {
        try
        {
            return Evaluate(Do(move, on, complete: true).Texts, on);
        }
        catch (CannotEdit)
        {
            // Not every leg can go before the one before it.
            return null;
        }
    }

    private void Publish(SortieState next)
    {
        Volatile.Write(ref state, next);
        // Not within the lock: who listens may draw, and an edit waits for nobody's drawing.
        telling = telling.ContinueWith(_ => Tell(next), CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
    }

    private void Tell(SortieState next)
    {
        foreach (Action<SortieState> listener in Changed?.GetInvocationList() ?? [])
            try
            {
                listener(next);
            }
            catch (Exception e) when (e is not OutOfMemoryException)
            {
                // Whoever listens and fails must not keep the others from hearing.
            }
    }

    /// <summary>One change that can be undone: the files as they were and became.</summary>
    private sealed class Change
    {
        public required string By { get; init; }
        public required string What { get; init; }
        public required ImmutableDictionary<string, (HeldFile? Before, HeldFile? After)> Files { get; init; }
        public string? ChosenBefore { get; init; }
        public string? ChosenAfter { get; init; }
        public bool Undone { get; set; }

        public static Change Of(string by, string what, Texts before, Texts after) => new()
        {
            By = by,
            What = what,
            Files = Different(before, after).ToImmutableDictionary(file => file, file => (before.Files.GetValueOrDefault(file), after.Files.GetValueOrDefault(file))),
            ChosenBefore = before.Chosen,
            ChosenAfter = after.Chosen,
        };

        /// <summary>Some texts with the files of this change as they were after or before it.</summary>
        public Texts Put(Texts texts, bool after)
        {
            foreach ((string file, (HeldFile? Before, HeldFile? After) held) in Files) texts = texts.With(file, after ? held.After : held.Before);
            return texts;
        }
    }
}
