namespace Sallyport.Desk;

/// <summary>The names of files of a scenario, and how they are read and written without ever leaving its folder.</summary>
internal static class SortieFiles
{
    public const string OutlineFolder = "outlines";

    public static string OutlinePath(string name) => $"{OutlineFolder}/{name}.yaml";
}
