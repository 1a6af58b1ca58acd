using System.Collections.Immutable;
using System.Reflection;
using System.Text;

namespace Sallyport.Desk;

/// <summary>Makes a small commented scenario that plans clean, to grow one's own from.</summary>
public static class NewScenario
{
    private const string Resources = "Starter/", IdAsShipped = "scenario: starter\n", SchemaFolder = "schema";

    /// <summary>Writes the starter scenario, with the schemas that its files point editors at in a folder inside it.</summary>
    /// <param name="folder">The folder; made when missing. One that holds anything is left as it is. Its name becomes that of the scenario
    /// when it is fit for one.</param>
    /// <returns>The files written, or the problem, and then everything is as it was.</returns>
    public static (ImmutableArray<string> Written, Problem? Problem) Write(string folder)
    {
        try
        {
            if (File.Exists(folder)) return ([], FileProblems.NoPlaceForNew(folder, "a file of this name"));
            if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any()) return ([], FileProblems.NoPlaceForNew(folder, "a folder that holds something already"));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return ([], FileProblems.CannotRead(folder, e.Message));
        }
        string? made = FirstMissing(folder);
        string schemas = Path.Combine(folder, SchemaFolder);
        IReadOnlyList<(string Name, byte[] Content)> files = [.. Files(IdFor(folder))], schemaFiles = Schemas.Files();
        Problem? problem = PlanFiles.WriteAll(schemas, schemaFiles) ?? PlanFiles.WriteAll(folder, files);
        if (problem is null) return ([.. files.Select(file => Path.Combine(folder, file.Name)), .. schemaFiles.Select(file => Path.Combine(schemas, file.Name))], null);
        // All that lies there now was made by this call.
        PlanFiles.Quietly(() =>
        {
            string remains = made ?? schemas;
            if (Directory.Exists(remains)) Directory.Delete(remains, recursive: true);
        });
        return ([], problem);
    }

    /// <summary>The files of the starter scenario.</summary>
    /// <param name="id">The name of the scenario.</param>
    internal static IEnumerable<(string Name, byte[] Content)> Files(string id)
    {
        Assembly assembly = typeof(NewScenario).Assembly;
        foreach (string name in assembly.GetManifestResourceNames().Where(name => name.StartsWith(Resources, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using StreamReader reader = new(assembly.GetManifestResourceStream(name)!, Encoding.UTF8);
            string text = reader.ReadToEnd().Replace("\r\n", "\n").Replace(IdAsShipped, $"scenario: {YamlText.Scalar(id)}\n");
            yield return (name[Resources.Length..], Encoding.UTF8.GetBytes(text));
        }
    }

    private static string IdFor(string folder)
    {
        string name = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)));
        return MapReader.WellFormed(name, blanks: false) ? name : "starter";
    }

    /// <summary>The outermost folder of a path that is not there yet; null when all are.</summary>
    private static string? FirstMissing(string folder)
    {
        string? missing = null;
        for (string? part = Path.GetFullPath(folder); part is not null && !Directory.Exists(part); part = Path.GetDirectoryName(part)) missing = part;
        return missing;
    }
}
