using System.Collections.Immutable;

namespace Sallyport.Desk;

/// <summary>A scenario that is open: one for all who look at it. Every member may be called from any thread.</summary>
public sealed class OpenSortie : IDisposable
{
    private readonly string name;

    internal OpenSortie(string name)
    {
        this.name = name;
        State = new() { Name = name, Revision = 1, TextRevision = 1, Files = [] };
    }

    /// <summary>Told after every change of the state, in order; a handler must be quick, and must not call back into a change.</summary>
    public event Action<SortieState>? Changed;

    /// <summary>What stands now.</summary>
    public SortieState State { get; }

    /// <summary>The search under way or ended last; null when there was none.</summary>
    public SearchRun? Search => null;

    /// <summary>Does an edit and saves it.</summary>
    /// <param name="edit">What is changed.</param>
    /// <param name="by">Who changes it.</param>
    /// <param name="revision">The revision of the state that the edit was made on.</param>
    public EditOutcome Apply(SortieEdit edit, string by, long revision)
    {
        Changed?.Invoke(State);
        return new Refused($"{name}: not yet", []);
    }

    /// <summary>Takes back the last edit of this person that was not taken back yet, and leaves what others did since.</summary>
    public EditOutcome Undo(string by) => new Refused("Nothing to undo.", []);

    /// <summary>Does again what this person took back last.</summary>
    public EditOutcome Redo(string by) => new Refused("Nothing to redo.", []);

    /// <summary>What <see cref="Undo"/> would take back, in words; null when there is nothing.</summary>
    public string? UndoOf(string by) => null;

    /// <summary>What <see cref="Redo"/> would do again, in words; null when there is nothing.</summary>
    public string? RedoOf(string by) => null;

    /// <summary>Takes another outline as the one that is shown and edited, for all.</summary>
    public EditOutcome Choose(string outline) => new Refused($"There is no outline '{outline}'.", []);

    /// <summary>Where a file changed on disk under a change made here: writes what was changed here. The other text can be had back by undo.</summary>
    public EditOutcome KeepMine(string file) => new Refused("Nothing is in conflict.", []);

    /// <summary>Where a file changed on disk under a change made here: takes what stands on the disk. What was changed here can be had back by redo.</summary>
    public EditOutcome TakeTheirs(string file) => new Refused("Nothing is in conflict.", []);

    /// <summary>Looks whether files changed on disk; the watcher and a timer do so by themselves.</summary>
    public void LookAtDisk()
    {
    }

    /// <summary>Ends when the verdict on the present plan is whole, or there is none to be had.</summary>
    public Task<SortieState> Whole(CancellationToken cancel) => Task.FromResult(State);

    /// <summary>Begins a search; one that is under way is stopped first.</summary>
    public SearchRun StartSearch(SearchWish wish) => throw new InvalidOperationException("expected a scenario that can be read");

    /// <summary>Answers a question by searching; long.</summary>
    /// <param name="words">As after <c>ask SCENARIO</c>: <c>why-out JOB</c>, <c>if WISH …</c>.</param>
    /// <param name="effort">Epochs of each search.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="cancel">Ends it; the answer tells what was found until then.</param>
    public (Answer? Answer, ImmutableArray<Problem> Problems) Ask(string words, int effort, int seed, CancellationToken cancel) => (null, []);

    /// <summary>How two outlines differ, both proven quickly, for one chart.</summary>
    public (OutlineComparison? Comparison, ImmutableArray<Problem> Problems) Compare(string first, string second) => (null, []);

    /// <summary>The files of the briefing of the present plan, proven whole first; nothing is written.</summary>
    public (ImmutableArray<(string Name, byte[] Content)> Files, Problem? Problem) BriefingFiles(BriefingOptions options, CancellationToken cancel) => ([], null);

    /// <summary>Writes the briefing of the present plan, proven whole first, where <c>brief</c> writes it.</summary>
    public (ImmutableArray<string> Written, Problem? Problem) Brief(BriefingOptions options, CancellationToken cancel) => ([], null);

    /// <summary>Says that one who opened it has closed it; the last one ends its watching and proving.</summary>
    public void Dispose()
    {
    }
}
