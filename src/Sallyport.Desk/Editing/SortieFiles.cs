using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Sallyport.Desk;

/// <summary>A file as it is held: its bytes, and the text that they are.</summary>
internal sealed class HeldFile
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    public HeldFile(byte[] bytes)
    {
        Bytes = bytes;
        Text = Encoding.UTF8.GetString(bytes);
        IsText = Encoding.UTF8.GetBytes(Text).AsSpan().SequenceEqual(bytes);
    }

    public byte[] Bytes { get; }

    public string Text { get; }

    /// <summary>Whether the text says all that the bytes do; otherwise it can be shown and not edited.</summary>
    public bool IsText { get; }

    /// <summary>A text as a file.</summary>
    /// <exception cref="CannotEdit">It is too large, or no text that can be written.</exception>
    public static HeldFile Of(string name, string text)
    {
        try
        {
            if (Strict.GetByteCount(text) is > SourceText.MostBytes and int bytes) throw new CannotEdit($"{name} would be too large.", [FileProblems.TooLarge(name, bytes)]);
            return new(Strict.GetBytes(text));
        }
        catch (EncoderFallbackException)
        {
            throw new CannotEdit($"{name} would hold half a character, which cannot be written as UTF-8.");
        }
    }
}

/// <summary>What tells cheaply whether a file was changed.</summary>
internal readonly record struct Stamp(long Length, DateTime Written);

/// <summary>The names of files of a scenario, and how they are looked at without ever leaving its folder.</summary>
internal static partial class SortieFiles
{
    public const string OutlineFolder = "outlines";

    /// <summary>Far above any scenario; keeps uploads from filling a folder.</summary>
    public const int MostFiles = 300;

    /// <summary>A save takes far less; a temporary file that is older was left by a program that was killed.</summary>
    private static readonly TimeSpan LongestSave = TimeSpan.FromMinutes(1);

    private static readonly string[] Reserved = ["con", "prn", "aux", "nul", .. Enumerable.Range(0, 10).SelectMany(i => new[] { $"com{i}", $"lpt{i}" })];

    public static string OutlinePath(string name) => $"{OutlineFolder}/{name}.yaml";

    public static bool IsOutline(string file) => file.StartsWith(OutlineFolder + "/", StringComparison.Ordinal);

    /// <summary>The name of the outline that a file holds.</summary>
    public static string OutlineName(string file) => file[(OutlineFolder.Length + 1)..^".yaml".Length];

    /// <summary>The outline files among files, the newest first.</summary>
    public static IEnumerable<string> Outlines(IEnumerable<string> files, Func<string, DateTime> writtenAt) =>
        files.Where(IsOutline).OrderByDescending(writtenAt).ThenBy(file => file, StringComparer.Ordinal);

    /// <summary>The file of the outline that is taken when none is named: of the one marked current where it is there, else of the newest; null when there is none.</summary>
    public static string? Taken(IReadOnlyCollection<string> files, string? marked, Func<string, DateTime> writtenAt) =>
        marked is not null && files.Contains(OutlinePath(marked)) ? OutlinePath(marked) : Outlines(files, writtenAt).FirstOrDefault();

    /// <summary>A problem with files named as they are in the scenario's folder: where that lies on this machine is nobody's business on another.</summary>
    public static Problem Short(Problem problem, string folder)
    {
        string Plain(string text) => text.Replace(folder + Path.DirectorySeparatorChar, "", StringComparison.Ordinal).Replace(folder, Path.GetFileName(folder), StringComparison.Ordinal);
        return problem with { File = Plain(problem.File), Found = Plain(problem.Found), Fix = Plain(problem.Fix) };
    }

    /// <summary>Whether a text can name a folder or file here on any system: no separator, no way up, no hidden name, no device.</summary>
    public static bool IsName(string? name) =>
        name is not null && MapReader.WellFormed(name, blanks: false) && name[0] != '.' && name[^1] != '.' && !Reserved.Contains(name.Split('.')[0].ToLowerInvariant());

    /// <summary>Whether a text can name a file that is made here: <c>NAME.yaml</c>, or the same in the folder of the outlines.</summary>
    public static bool IsFileName(string? name)
    {
        string? last = name?.StartsWith(OutlineFolder + "/", StringComparison.Ordinal) == true ? name[(OutlineFolder.Length + 1)..] : name;
        return IsName(last) && last!.EndsWith(".yaml", StringComparison.Ordinal) && last.Length > ".yaml".Length;
    }

    /// <summary>A folder in a folder, by a name that leads nowhere else; null, and the problem, when it is not there or is a link.</summary>
    public static (string? Path, Problem? Problem) FolderIn(string root, string name)
    {
        if (!IsName(name)) return (null, FileProblems.BadName(name));
        DirectoryInfo folder = new(Path.Combine(root, name));
        return !folder.Exists ? (null, FileProblems.NoFolder(name)) : IsLink(folder) ? (null, Link(name)) : (folder.FullName, null);
    }

    /// <summary>What lies in a scenario's folder: a stamp for each file of it and of its outlines, by name.</summary>
    /// <returns>The stamps, and the problem of what is not looked at: a link, which may lead anywhere, or a folder that cannot be read.</returns>
    public static (ImmutableSortedDictionary<string, Stamp> Stamps, Problem? Problem) Look(string folder)
    {
        ImmutableSortedDictionary<string, Stamp>.Builder stamps = ImmutableSortedDictionary.CreateBuilder<string, Stamp>(StringComparer.Ordinal);
        Problem? problem = null;
        try
        {
            DirectoryInfo whole = new(folder), outlines = new(Path.Combine(folder, OutlineFolder));
            if (!whole.Exists) return (stamps.ToImmutable(), FileProblems.NoFolder(folder));
            if (IsLink(whole)) return (stamps.ToImmutable(), Link(folder));
            if (outlines.Exists && IsLink(outlines)) problem = Link(outlines.FullName);
            IEnumerable<(FileInfo File, string Name)> files = whole.EnumerateFiles().Select(file => (file, file.Name));
            if (outlines.Exists && problem is null) files = files.Concat(outlines.EnumerateFiles("*.yaml").Select(file => (file, $"{OutlineFolder}/{file.Name}")));
            foreach ((FileInfo file, string name) in files)
            {
                if (IsLink(file)) problem ??= Link(file.FullName);
                else if (name.EndsWith(".yaml", StringComparison.Ordinal) && file.Length > SourceText.MostBytes) problem ??= FileProblems.TooLarge(file.FullName, file.Length);
                else if (!name.EndsWith(Temporary, StringComparison.Ordinal) && file.Exists) stamps[name] = new(file.Length, file.LastWriteTimeUtc);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            problem ??= FileProblems.CannotRead(folder, e.Message);
        }
        return (stamps.ToImmutable(), problem);
    }

    /// <summary>Takes away what a program that was killed while saving has left.</summary>
    public static void SweepUp(string folder)
    {
        foreach (string inner in new[] { folder, Path.Combine(folder, OutlineFolder) })
            PlanFiles.Quietly(() =>
            {
                if (!Directory.Exists(inner) || IsLink(new DirectoryInfo(inner))) return;
                foreach (FileInfo left in new DirectoryInfo(inner).EnumerateFiles("*" + Temporary))
                    if (LeftBehind().IsMatch(left.Name) && !IsLink(left) && DateTime.UtcNow - left.LastWriteTimeUtc > LongestSave) left.Delete();
            });
    }

    private const string Temporary = ".part";

    [GeneratedRegex(@"\.yaml\.[0-9a-f]{32}\.part$", RegexOptions.CultureInvariant)]
    private static partial Regex LeftBehind();

    private static bool IsLink(FileSystemInfo file) => file.LinkTarget is not null || file.Attributes.HasFlag(FileAttributes.ReparsePoint);

    private static Problem Link(string path) =>
        FileProblems.Whole(path, "file.link", "a link", "files and folders that lie where they seem to", "put what it leads to in its place: what may lie outside the folder is neither read nor written.");

    /// <summary>A stamp as text, for a key.</summary>
    public static string Key(KeyValuePair<string, Stamp> one) => string.Create(CultureInfo.InvariantCulture, $"{one.Key}|{one.Value.Length}|{one.Value.Written.Ticks}");
}
