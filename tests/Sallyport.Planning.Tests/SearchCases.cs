using System.Globalization;

namespace Sallyport.Tests.Planning;

/// <summary>Seeds on which search and proof disagreed, one file each in <c>tests/Cases</c>. A failing run writes the file; whoever mends the
/// fault commits it, and from then on its seed is tried in every run.</summary>
internal static class SearchCases
{
    private const string Prefix = "search-";

    private static string Folder { get; } = RepositoryFolder.Of("tests", "Cases");

    public static IReadOnlyList<int> Seeds { get; } = !Directory.Exists(Folder) ? [] : [.. Directory.EnumerateFiles(Folder, Prefix + "*.txt")
        .Select(file => int.Parse(Path.GetFileNameWithoutExtension(file)[Prefix.Length..], CultureInfo.InvariantCulture)).Order()];

    /// <summary>Writes down that a seed failed, and how; what is written already stays.</summary>
    public static void Keep(int seed, string how)
    {
        Directory.CreateDirectory(Folder);
        string file = Path.Combine(Folder, $"{Prefix}{seed.ToString(CultureInfo.InvariantCulture)}.txt");
        if (!File.Exists(file)) File.WriteAllText(file, how + "\n");
    }
}
