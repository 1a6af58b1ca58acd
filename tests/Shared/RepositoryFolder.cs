namespace Sallyport.Tests;

/// <summary>The folder of the repository: the one that holds the solution, above the test program.</summary>
internal static class RepositoryFolder
{
    /// <summary>The whole path of the folder.</summary>
    public static string Root { get; } = Find();

    /// <summary>The whole path of what lies in it.</summary>
    public static string Of(params ReadOnlySpan<string> parts) => Path.Combine([Root, .. parts]);

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Sallyport.slnx"))) return folder.FullName;
        throw new InvalidOperationException($"no Sallyport.slnx above {AppContext.BaseDirectory}");
    }
}
