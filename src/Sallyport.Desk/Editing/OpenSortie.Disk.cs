using System.Collections.Immutable;

namespace Sallyport.Desk;

// The disk: what stands there, what is saved, and what others change meanwhile.
public sealed partial class OpenSortie
{
    /// <summary>Who has changed a file that nobody changed here.</summary>
    private const string OnDisk = "another program";

    private static readonly TimeSpan Poll = TimeSpan.FromSeconds(1), Settle = TimeSpan.FromMilliseconds(100);

    private ImmutableSortedDictionary<string, Stamp> stamps = ImmutableSortedDictionary<string, Stamp>.Empty;
    private FileSystemWatcher? watcher;
    private Timer? timer;

    /// <summary>Looks whether files changed on disk; the watcher and a timer do so by themselves.</summary>
    public void LookAtDisk()
    {
        lock (gate) Absorb();
    }

    /// <summary>Where a file changed on disk under a change made here: writes what was changed here. The other text can be had back by undo.</summary>
    public EditOutcome KeepMine(string file) => Settled(file, conflict =>
    {
        Texts wanted = now.Texts.With(file, conflict.Mine is null ? null : HeldFile.Of(file, conflict.Mine));
        return Take(wanted, null, $"{file} kept as changed here", conflict.By, []);
    });

    /// <summary>Where a file changed on disk under a change made here: takes what stands on the disk. What was changed here can be had back by undo.</summary>
    public EditOutcome TakeTheirs(string file) => Settled(file, conflict =>
    {
        Texts mine = now.Texts.With(file, conflict.Mine is null ? null : HeldFile.Of(file, conflict.Mine));
        changes.Add(Change.Of(conflict.By, $"{file} taken as it stands on the disk", mine, now.Texts));
        return new Accepted(state);
    });

    private EditOutcome Settled(string file, Func<DiskConflict, EditOutcome> settle)
    {
        lock (gate)
        {
            Absorb();
            if (state.DiskConflicts.FirstOrDefault(one => one.File == file) is not { } conflict) return new Refused($"{file} is in no conflict.", []);
            EditOutcome outcome = Trying(() => settle(conflict));
            if (outcome is not Accepted) return outcome;
            Publish(state with { Revision = state.Revision + 1, DiskConflicts = [.. state.DiskConflicts.Where(one => one.File != file)] });
            return new Accepted(state);
        }
    }

    private void AddDiskConflict(Conflict conflict, string by) => Publish(state with
    {
        Revision = state.Revision + 1,
        DiskConflicts = [.. state.DiskConflicts.Where(one => one.File != conflict.File), new(conflict.File, conflict.Before, conflict.Mine, conflict.Theirs, by)],
    });

    /// <summary>Takes over what changed on disk.</summary>
    private void Absorb()
    {
        if (disposed) return;
        (ImmutableSortedDictionary<string, Stamp> seen, Problem? problem) = SortieFiles.Look(folder);
        if (seen.SequenceEqual(stamps) && problem == now.Texts.Unfit) return;
        Texts read = ReadDisk(now.Texts, seen, problem);
        string[] files = [.. Different(now.Texts, read)];
        if (read.Same(now.Texts)) return;
        Become(Evaluate(read, now), files.Length == 0 ? "changed on disk" : $"changed on disk: {string.Join(", ", files)}", null, []);
    }

    private Texts ReadDisk()
    {
        (ImmutableSortedDictionary<string, Stamp> seen, Problem? problem) = SortieFiles.Look(folder);
        return ReadDisk(null, seen, problem);
    }

    private Texts ReadDisk(Texts? known, ImmutableSortedDictionary<string, Stamp> seen, Problem? problem)
    {
        ImmutableSortedDictionary<string, HeldFile>.Builder files = ImmutableSortedDictionary.CreateBuilder<string, HeldFile>(StringComparer.Ordinal);
        foreach ((string file, Stamp stamp) in seen.Where(one => one.Key.EndsWith(".yaml", StringComparison.Ordinal)))
            if (known is not null && stamps.TryGetValue(file, out Stamp old) && old == stamp && known.Files.TryGetValue(file, out HeldFile? held)) files[file] = held;
            else if (SourceText.Bytes(Path.Combine(folder, file), Path.Combine(folder, file), found => problem ??= found) is { } bytes) files[file] = new(bytes);
        stamps = seen;
        return new(files.ToImmutable(), known?.Chosen, string.Join('\n', seen.Where(one => !one.Key.EndsWith(".yaml", StringComparison.Ordinal)).Select(SortieFiles.Key)), problem);
    }

    /// <summary>Writes what differs: all of it, or nothing.</summary>
    /// <exception cref="DiskMoved">A file is not as it was read; nothing was written.</exception>
    private Problem? Save(Texts before, Texts wanted)
    {
        (ImmutableSortedDictionary<string, Stamp> seen, Problem? link) = SortieFiles.Look(folder);
        if (link is not null) return link;
        string[] changed = [.. Different(before, wanted)];
        if (changed.Any(file => seen.TryGetValue(file, out Stamp stamp) != stamps.TryGetValue(file, out Stamp known) || stamp != known)) throw new DiskMoved();
        (string Folder, string Name, byte[] Content)[] written = [.. changed.Where(wanted.Files.ContainsKey).Select(file => (Path.GetDirectoryName(Path.Combine(folder, file))!, Path.GetFileName(file), wanted.Files[file].Bytes))];
        if (PlanFiles.WriteAll(written) is { } problem) return problem;
        try
        {
            foreach (string gone in changed.Where(file => !wanted.Files.ContainsKey(file))) File.Delete(Path.Combine(folder, gone));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return FileProblems.CannotWrite(folder, e.Message);
        }
        foreach (string file in changed)
        {
            FileInfo info = new(Path.Combine(folder, file));
            stamps = info.Exists ? stamps.SetItem(file, new(info.Length, info.LastWriteTimeUtc)) : stamps.Remove(file);
        }
        return null;
    }

    private void Watch()
    {
        timer = new(_ => LookSettled(), null, Poll, Poll);
        try
        {
            watcher = new(folder) { IncludeSubdirectories = true, NotifyFilter = NotifyFilters.FileName | NotifyFilters.LastWrite | NotifyFilters.Size };
            FileSystemEventHandler soon = (_, _) => Soon();
            watcher.Changed += soon;
            watcher.Created += soon;
            watcher.Deleted += soon;
            watcher.Renamed += (_, _) => Soon();
            watcher.EnableRaisingEvents = true;
        }
        catch (Exception e) when (e is IOException or ArgumentException or PlatformNotSupportedException)
        {
            // Where the system tells nothing, or no more, the timer sees it a little later.
            watcher?.Dispose();
            watcher = null;
        }
    }

    private void Soon()
    {
        PlanFiles.Quietly(() =>
        {
            if (!disposed) timer?.Change(Settle, Poll);
        });
    }

    /// <summary>Looks at the disk, but waits for a file that somebody is writing just now.</summary>
    private void LookSettled()
    {
        if (disposed || !gate.TryEnter()) return;
        try
        {
            (ImmutableSortedDictionary<string, Stamp> seen, _) = SortieFiles.Look(folder);
            DateTime justNow = DateTime.UtcNow - Settle;
            if (seen.Any(one => one.Value.Written > justNow && !(stamps.TryGetValue(one.Key, out Stamp known) && known == one.Value))) Soon();
            else Absorb();
        }
        finally
        {
            gate.Exit();
        }
    }

    private void End()
    {
        watcher?.Dispose();
        timer?.Dispose();
        proofUnderWay.Cancel();
        Search?.Stop();
        lock (gate) EndWaits();
    }

    /// <summary>A file was changed on disk between looking and writing.</summary>
    private sealed class DiskMoved : Exception;
}
