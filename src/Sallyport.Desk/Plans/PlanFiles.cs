using System.Text.Json;
using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Writes the files of a plan, whole or not at all, and reads timelines back.</summary>
public static partial class PlanFiles
{
    /// <summary>Writes several files of one folder: all of them, or none as far as the file system allows. Each appears whole: a reader
    /// never sees half a file.</summary>
    /// <param name="folder">The folder; made when missing.</param>
    /// <param name="files">Names and contents.</param>
    /// <returns>Null, or the problem, and then everything is as it was.</returns>
    public static Problem? WriteAll(string folder, IReadOnlyList<(string Name, byte[] Content)> files) =>
        WriteAll([.. files.Select(file => (folder, file.Name, file.Content))]);

    /// <summary>The same for files of several folders.</summary>
    /// <param name="files">Folders, names and contents.</param>
    /// <param name="gone">Paths at which nothing shall be left: what was written there before is no longer true.</param>
    /// <returns>Null, or the problem with the folder where it was met, and then everything is as it was.</returns>
    public static Problem? WriteAll(IReadOnlyList<(string Folder, string Name, byte[] Content)> files, params IEnumerable<string> gone)
    {
        string current = "";
        List<(string Temporary, string Final)> written = [];
        List<(string Final, byte[]? Before)> replaced = [];
        Stack<string> made = [];
        try
        {
            foreach ((string folder, string name, byte[] content) in files)
            {
                current = folder;
                foreach (string missing in Missing(folder)) made.Push(missing);
                Directory.CreateDirectory(folder);
                string final = Path.Combine(folder, name), temporary = $"{final}.{Guid.NewGuid():N}.part";
                written.Add((temporary, final));
                Flush(temporary, content);
            }
            foreach ((string temporary, string final) in written)
            {
                current = Path.GetDirectoryName(final)!;
                byte[]? before = File.Exists(final) ? File.ReadAllBytes(final) : null;
                // Who may read and write a file stays as a person set it.
                if (before is not null && !OperatingSystem.IsWindows()) File.SetUnixFileMode(temporary, File.GetUnixFileMode(final));
                File.Move(temporary, final, overwrite: true);
                replaced.Add((final, before));
            }
            foreach (string path in gone.Where(File.Exists))
            {
                current = Path.GetDirectoryName(path)!;
                byte[] before = File.ReadAllBytes(path);
                File.Delete(path);
                replaced.Add((path, before));
            }
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            foreach ((string final, byte[]? before) in replaced) Quietly(() => Restore(final, before));
            foreach ((string temporary, _) in written) Quietly(() => File.Delete(temporary));
            // Innermost first; one that somebody else has put something into meanwhile stays.
            foreach (string folder in made) Quietly(() => Directory.Delete(folder));
            return FileProblems.CannotWrite(current, e.Message);
        }
    }

    /// <summary>A timeline as JSON: the form that <see cref="ReadTimeline(string, Scenario)"/> reads.</summary>
    public static byte[] ToJson(Timeline timeline) => ToBytes(timeline);

    /// <summary>A trace as JSON.</summary>
    public static byte[] ToJson(Trace trace) => ToBytes(trace);

    /// <summary>A verdict as JSON.</summary>
    public static byte[] ToJson(Verdict verdict) => ToBytes(verdict);

    internal static byte[] ToJson(ContingencyFile contingencies) => ToBytes(contingencies);

    private static byte[] ToBytes<T>(T value)
    {
        JsonObject json = JsonSerializer.SerializeToNode(value, PlanJson.Options)!.AsObject();
        json.Insert(0, "caution", Caution.Text);
        return [.. JsonSerializer.SerializeToUtf8Bytes(json, PlanJson.Options), (byte)'\n'];
    }

    /// <summary>The folders of a path that are not there yet, outermost first.</summary>
    private static IEnumerable<string> Missing(string folder)
    {
        List<string> missing = [];
        for (string? at = Path.GetFullPath(folder); at is not null && !Directory.Exists(at); at = Path.GetDirectoryName(at)) missing.Insert(0, at);
        return missing;
    }

    private static void Flush(string path, byte[] content)
    {
        using FileStream stream = new(path, FileMode.CreateNew, FileAccess.Write);
        stream.Write(content);
        stream.Flush(flushToDisk: true);
    }

    private static void Restore(string path, byte[]? before)
    {
        if (before is null)
        {
            File.Delete(path);
            return;
        }
        string temporary = $"{path}.{Guid.NewGuid():N}.part";
        Flush(temporary, before);
        File.Move(temporary, path, overwrite: true);
    }

    // Putting things back may fail for the reason that writing did; that reason is told already.
    internal static void Quietly(Action action)
    {
        try
        {
            action();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
        }
    }
}
