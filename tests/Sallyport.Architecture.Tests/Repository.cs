using System.Text;

namespace Sallyport.Tests.Architecture;

/// <summary>The files of this repository, as they lie on the disk, without what is built or downloaded.</summary>
internal static class Repository
{
    private static readonly HashSet<string> Derived =
        [".git", ".vs", ".idea", "bin", "obj", "out", "TestResults", "node_modules", "BenchmarkDotNet.Artifacts"];

    /// <summary>Every text file, by its path from the root with forward slashes. A file that holds a NUL byte is no text.</summary>
    public static IReadOnlyDictionary<string, string> Texts { get; } = ReadTexts();

    /// <summary>The text files whose path starts and ends so.</summary>
    public static IEnumerable<KeyValuePair<string, string>> Under(string start, string end) =>
        Texts.Where(file => file.Key.StartsWith(start, StringComparison.Ordinal) && file.Key.EndsWith(end, StringComparison.Ordinal));

    private static SortedDictionary<string, string> ReadTexts()
    {
        SortedDictionary<string, string> texts = new(StringComparer.Ordinal);
        Stack<DirectoryInfo> folders = new([new DirectoryInfo(RepositoryFolder.Root)]);
        while (folders.TryPop(out DirectoryInfo? folder))
        {
            foreach (DirectoryInfo inner in folder.EnumerateDirectories())
                if (!Derived.Contains(inner.Name)) folders.Push(inner);
            foreach (FileInfo file in folder.EnumerateFiles())
            {
                byte[] bytes = File.ReadAllBytes(file.FullName);
                // A worktree keeps a file of this name in place of the folder; it is git's, not ours.
                if (file.Name == ".git" || bytes.Contains((byte)0)) continue;
                texts[Path.GetRelativePath(RepositoryFolder.Root, file.FullName).Replace('\\', '/')] = Encoding.UTF8.GetString(bytes);
            }
        }
        return texts;
    }
}
