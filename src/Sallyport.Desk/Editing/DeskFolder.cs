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

/// <summary>A folder of scenarios, each a folder in it.</summary>
public sealed class DeskFolder
{
    /// <summary>Opens a folder of scenarios.</summary>
    /// <param name="root">The folder.</param>
    /// <param name="outFolder">Where derived files go, a folder a scenario and name.</param>
    public DeskFolder(string root, string outFolder = "out")
    {
        Root = Path.GetFullPath(root);
        OutFolder = Path.GetFullPath(outFolder);
    }

    /// <summary>The folder.</summary>
    public string Root { get; }

    /// <summary>Where derived files go.</summary>
    public string OutFolder { get; }

    /// <summary>The scenarios, by name.</summary>
    public ImmutableArray<ScenarioCard> Scenarios() => [];

    /// <summary>Opens a scenario; whoever opens it shares it with all others, and closes it with <see cref="OpenSortie.Dispose"/>.</summary>
    /// <returns>The scenario, also when its files are broken; a problem when there is no such scenario here.</returns>
    public ReadResult<OpenSortie> Open(string name) => new(null, [FileProblems.NoFolder(name)], []);

    /// <summary>Makes a new scenario from the starter.</summary>
    /// <returns>Null, or the problem, and then nothing was made.</returns>
    public Problem? Create(string name) => FileProblems.BadName(name);
}
