using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>A folder of scenarios to be edited, gone after the test; each has an outline to begin from.</summary>
internal sealed class Workshop : IDisposable
{
    private readonly TemporaryFolder temporary = new();

    public Workshop()
    {
        Root = Directory.CreateDirectory(Path.Combine(temporary.Path, "scenarios")).FullName;
        Folder = new(Root, Path.Combine(temporary.Path, "out"));
    }

    public string Root { get; }

    public string OutFolder => Folder.OutFolder;

    public DeskFolder Folder { get; }

    private static readonly Lazy<string> TernOutline = new(() => Searched(SortieDesk.Open(RepositoryFolder.Of("scenarios", "tern")).Value!, 3));

    private static readonly Lazy<string> StarterOutline = new(() =>
    {
        using TemporaryFolder folder = new();
        string starter = Path.Combine(folder.Path, "starter");
        Assert.Null(NewScenario.Write(starter).Problem);
        return Searched(SortieDesk.Open(starter).Value!, 7);
    });

    /// <summary>A scenario of the repository, or <c>starter</c>, with an outline called <c>first</c>.</summary>
    public OpenSortie Open(string name)
    {
        string folder = Path.Combine(Root, name);
        if (!Directory.Exists(folder))
        {
            if (name == "starter") Assert.Null(Folder.Create(name));
            else
            {
                Directory.CreateDirectory(folder);
                foreach (string path in Directory.GetFiles(RepositoryFolder.Of("scenarios", name))) File.Copy(path, Path.Combine(folder, Path.GetFileName(path)));
            }
            Directory.CreateDirectory(Path.Combine(folder, "outlines"));
            File.WriteAllText(Path.Combine(folder, "outlines", "first.yaml"), name switch
            {
                "skerry" => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "skerry-outline.yaml")),
                "tern" => TernOutline.Value,
                "starter" => StarterOutline.Value,
                _ => File.ReadAllText(RepositoryFolder.Of("scenarios", name, "outlines", "by-hand.yaml")),
            });
        }
        return Folders.Good(Folder.Open(name));
    }

    public string PathOf(OpenSortie sortie, string file) => Path.Combine(Root, sortie.Name, file);

    public string TextOf(OpenSortie sortie, string file) => File.ReadAllText(PathOf(sortie, file));

    /// <summary>Changes a file as another program would.</summary>
    public void Elsewhere(OpenSortie sortie, string file, string from, string to)
    {
        string text = TextOf(sortie, file);
        Assert.Contains(from, text);
        File.WriteAllText(PathOf(sortie, file), text.Replace(from, to));
    }

    public static Accepted Good(EditOutcome outcome)
    {
        Assert.True(outcome is Accepted, outcome is Refused refused ? refused.Why + "\n" + Problem.Render(refused.Problems) : outcome.ToString());
        return (Accepted)outcome;
    }

    /// <summary>The lines that differ between two texts: those that went, and those that came.</summary>
    public static (string[] Gone, string[] Come) Changed(string before, string after)
    {
        string[] old = LineText.Of(before), now = LineText.Of(after);
        List<LineText.Hunk> hunks = LineText.Differences(old, now);
        return ([.. hunks.SelectMany(hunk => old[hunk.From..hunk.To])], [.. hunks.SelectMany(hunk => now[hunk.NewFrom..hunk.NewTo])]);
    }

    public static string Findings(SortieState state) => string.Join("\n", state.Plan!.Verdict.Findings.Where(finding => finding.Severity == Severity.Broken).Select(finding => $"{finding.Rule}: {finding.Sentence}"));

    public void Dispose() => temporary.Dispose();

    private static string Searched(SortieDesk desk, int seed)
    {
        PlanOutcome found = desk.Plan("first", effort: 2, seed, null, _ => { }, CancellationToken.None);
        return OutlineFile.Write((found.Plan ?? throw new InvalidOperationException(found.Search!.Why)).Outline!);
    }
}
