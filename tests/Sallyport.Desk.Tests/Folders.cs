using System.Collections.Immutable;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The scenarios that tests read, whole or changed in one place.</summary>
internal static class Folders
{
    public static string EveryKey { get; } = Path.Combine(AppContext.BaseDirectory, "EveryKey");

    public static string SkerryShort { get; } = RepositoryFolder.Of("scenarios", "skerry-short");

    private static readonly Lazy<Scenario> EveryKeyRead = new(() => Good(ScenarioReader.Read(EveryKey)));

    public static Scenario EveryKeyScenario => EveryKeyRead.Value;

    public static T Good<T>(ReadResult<T> result) where T : class
    {
        Assert.True(result.Value is not null, Problem.Render(result.Problems));
        return result.Value;
    }

    /// <summary>Reads a scenario with one text in one of its files put in place of another.</summary>
    public static ReadResult<Scenario> ReadChanged(string folder, string file, string from, string to)
    {
        using TemporaryFolder changed = new();
        foreach (string path in Directory.GetFiles(folder)) File.Copy(path, Path.Combine(changed.Path, Path.GetFileName(path)));
        string target = Path.Combine(changed.Path, file);
        string before = File.ReadAllText(target);
        int at = before.IndexOf(from, StringComparison.Ordinal);
        Assert.True(at >= 0, $"'{from}' is not in {file}");
        File.WriteAllText(target, before[..at] + to + before[(at + from.Length)..]);
        ReadResult<Scenario> result = ScenarioReader.Read(changed.Path);
        // Problems name files as the folder was given; the folder is another one in every run.
        string Plain(string text) => text.Replace(changed.Path + "/", "").Replace(changed.Path, ".");
        return result with { Problems = [.. result.Problems.Select(problem => problem with { File = Plain(problem.File), Found = Plain(problem.Found) })] };
    }

    /// <summary>Reads a folder made of these files.</summary>
    public static ImmutableArray<Problem> ProblemsOf(params (string Name, byte[] Content)[] files)
    {
        using TemporaryFolder folder = new();
        foreach ((string name, byte[] content) in files) File.WriteAllBytes(Path.Combine(folder.Path, name), content);
        return ScenarioReader.Read(folder.Path).Problems;
    }

    public static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}

/// <summary>A folder that is gone after the test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("sallyport-").FullName;

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
