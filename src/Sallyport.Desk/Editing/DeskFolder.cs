using System.Collections.Immutable;

namespace Sallyport.Desk;

/// <summary>How a scenario stands, as far as it is known.</summary>
public enum CardState
{
    /// <summary>It cannot be read.</summary>
    Broken,
    /// <summary>There is no outline, or nobody has looked at all of it.</summary>
    NotProven,
    /// <summary>A rule is broken.</summary>
    Findings,
    /// <summary>Everything that can be looked at was, and nothing is broken.</summary>
    Clean,
}

/// <summary>What a list of scenarios tells of one.</summary>
/// <param name="Name">The name of its folder.</param>
/// <param name="Title">The sortie's title; the folder's name when it cannot be read.</param>
/// <param name="State">How it stands.</param>
/// <param name="Problem">What keeps it from being read; null unless broken.</param>
/// <param name="Outline">The outline that is taken when none is named; null when there is none.</param>
/// <param name="Written">When that outline was written last, UTC.</param>
public sealed record ScenarioCard(string Name, string Title, CardState State, Problem? Problem, string? Outline, DateTime? Written);

/// <summary>A folder of scenarios, each a folder in it. Every member may be called from any thread.</summary>
public sealed class DeskFolder : IDisposable
{
    private readonly Lock gate = new();
    private readonly Dictionary<string, Lazy<OpenSortie>> open = new(StringComparer.Ordinal);
    private readonly TimeSpan kept;
    private readonly Dictionary<string, (string Key, ScenarioCard Card)> known = new(StringComparer.Ordinal);

    /// <summary>Opens a folder of scenarios.</summary>
    /// <param name="root">The folder.</param>
    /// <param name="outFolder">Where derived files go, a folder a scenario and name.</param>
    /// <param name="kept">For how long a scenario stays open when nobody has it open.</param>
    public DeskFolder(string root, string outFolder = "out", TimeSpan kept = default)
    {
        this.kept = kept;
        Root = Path.GetFullPath(root);
        OutFolder = Path.GetFullPath(outFolder);
    }

    /// <summary>The folder.</summary>
    public string Root { get; }

    /// <summary>Where derived files go.</summary>
    public string OutFolder { get; }

    /// <summary>The scenarios, by name: each folder in this one that holds a file whose name ends in <c>.yaml</c>, links aside.</summary>
    public ImmutableArray<ScenarioCard> Scenarios() => [.. Names().Select(CardOf)];

    /// <summary>A scenario with the whole verdict on the outline that is taken when none is named; long.</summary>
    /// <returns>Null when there is no such scenario here.</returns>
    public async Task<ScenarioCard?> Look(string name, CancellationToken cancel)
    {
        if (Open(name).Value is not { } sortie) return null;
        using (sortie)
        {
            SortieState state = await sortie.Whole(cancel).ConfigureAwait(false);
            ScenarioCard card = CardOf(state);
            lock (gate) known[name] = (KeyOf(name), card);
            return card;
        }
    }

    /// <summary>Opens a scenario; whoever opens it shares it with all others, and closes it with <see cref="OpenSortie.Dispose"/>.</summary>
    /// <returns>The scenario, also when its files are broken; a problem when there is no such scenario here.</returns>
    public ReadResult<OpenSortie> Open(string name)
    {
        while (true)
        {
            (Lazy<OpenSortie>? shared, Problem? problem) = Shared(name);
            if (shared is null) return new(null, [problem!], []);
            if (Read(name, shared).Join()) return new(shared.Value, [], []);
            Forget(name, shared);
        }
    }

    /// <summary>A scenario as it stands, for one who only looks: nobody has to close it, and nothing is proven for it.</summary>
    /// <returns>Null when there is no such scenario here.</returns>
    public SortieState? Glance(string name)
    {
        if (Shared(name).Sortie is not { } shared) return null;
        OpenSortie sortie = Read(name, shared);
        SortieState state = sortie.Glance();
        if (kept <= TimeSpan.Zero && !sortie.IsBegun) Forget(name, shared);
        return state;
    }

    /// <summary>A scenario as it stands, when somebody has opened it or did just now; null otherwise, without looking any further.</summary>
    public SortieState? InHand(string name)
    {
        lock (gate) return open.TryGetValue(name, out Lazy<OpenSortie>? shared) && shared is { IsValueCreated: true, Value.IsBegun: true } ? shared.Value.State : null;
    }

    /// <summary>The scenario that has the outline written last; null when none has one. Nothing of it is read.</summary>
    public string? LastWorkedOn() => Names()
        .SelectMany(name => SortieFiles.Look(Path.Combine(Root, name)).Stamps.Where(file => SortieFiles.IsOutline(file.Key)).Select(file => (Name: name, file.Value.Written)))
        .OrderByDescending(one => one.Written).Select(one => one.Name).FirstOrDefault();

    /// <summary>What tells cheaply whether anything of a scenario was changed.</summary>
    public string KeyOf(string name)
    {
        (ImmutableSortedDictionary<string, Stamp> stamps, Problem? problem) = SortieFiles.Look(Path.Combine(Root, name));
        return string.Join('\n', stamps.Select(SortieFiles.Key)) + problem?.Code;
    }

    /// <summary>Closes everything that is open.</summary>
    public void Dispose()
    {
        Lazy<OpenSortie>[] all;
        lock (gate) all = [.. open.Values];
        foreach (Lazy<OpenSortie> one in all.Where(one => one.IsValueCreated)) one.Value.Close(whoeverHasItOpen: true);
    }

    /// <summary>A scenario as it is open, or about to be: it is read by whoever asks first, and meanwhile no other scenario waits.</summary>
    private (Lazy<OpenSortie>? Sortie, Problem? Problem) Shared(string name)
    {
        (string? path, Problem? problem) = SortieFiles.FolderIn(Root, name);
        if (path is null) return (null, problem);
        lock (gate)
        {
            if (!open.TryGetValue(name, out Lazy<OpenSortie>? shared)) open[name] = shared = new(() => new(name, path, OutFolder, kept, Close));
            return (shared, null);
        }
    }

    private OpenSortie Read(string name, Lazy<OpenSortie> shared)
    {
        try
        {
            return shared.Value;
        }
        catch
        {
            // What failed is tried anew by the next who asks.
            Forget(name, shared);
            throw;
        }
    }

    private void Forget(string name, Lazy<OpenSortie> shared)
    {
        lock (gate)
            if (open.TryGetValue(name, out Lazy<OpenSortie>? now) && now == shared) open.Remove(name);
    }

    /// <summary>Makes a new scenario from the starter.</summary>
    /// <returns>Null, or the problem, and then nothing was made.</returns>
    public Problem? Create(string name)
    {
        if (!SortieFiles.IsName(name)) return FileProblems.BadName(name);
        lock (gate) return NewScenario.Write(Path.Combine(Root, name)).Problem;
    }

    private void Close(OpenSortie sortie)
    {
        string key = KeyOf(sortie.Name);
        lock (gate)
        {
            if (open.TryGetValue(sortie.Name, out Lazy<OpenSortie>? shared) && shared.IsValueCreated && shared.Value == sortie) open.Remove(sortie.Name);
            known[sortie.Name] = (key, CardOf(sortie.State));
        }
    }

    private IEnumerable<string> Names()
    {
        try
        {
            return [.. Directory.EnumerateDirectories(Root).Select(path => Path.GetFileName(path)).Where(name => SortieFiles.FolderIn(Root, name).Path is { } folder && Directory.EnumerateFiles(folder, "*.yaml").Any()).Order(StringComparer.Ordinal)];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    private ScenarioCard CardOf(string name)
    {
        string key = KeyOf(name);
        if (InHand(name) is { } state) return CardOf(state);
        lock (gate)
        {
            if (known.TryGetValue(name, out (string Key, ScenarioCard Card) told) && told.Key == key) return told.Card;
        }
        ScenarioCard card = Read(name);
        lock (gate) known[name] = (key, card);
        return card;
    }

    /// <summary>A scenario that nobody has open, as its files tell: whether it can be read, and nothing of its plan.</summary>
    private ScenarioCard Read(string name)
    {
        string folder = Path.Combine(Root, name);
        (ImmutableSortedDictionary<string, Stamp> stamps, Problem? problem) = SortieFiles.Look(folder);
        ReadResult<SortieDesk> read = problem is null ? SortieDesk.Open(folder) : new(null, [problem], []);
        string? taken = SortieFiles.Taken([.. stamps.Keys], read.Value?.Scenario.Sortie.Outline, file => stamps[file].Written);
        return new(name, read.Value?.Scenario.Sortie.Title ?? name, read.Value is null ? CardState.Broken : CardState.NotProven, read.Problems.FirstOrDefault() is { } first ? SortieFiles.Short(first, folder) : null,
            taken is null ? null : SortieFiles.OutlineName(taken), taken is null ? null : stamps[taken].Written);
    }

    private static ScenarioCard CardOf(SortieState state) => new(
        state.Name, state.Scenario?.Sortie.Title ?? state.Name,
        state.Desk is null ? CardState.Broken : state.IsClean switch { true => CardState.Clean, false => CardState.Findings, null => CardState.NotProven },
        state.Problems.FirstOrDefault(), state.Chosen, state.Outlines.FirstOrDefault(one => one.Name == state.Chosen)?.Written);
}
