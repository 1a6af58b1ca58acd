using System.Security.Cryptography;
using System.Text;

namespace Sallyport.Desk;

/// <summary>An outline saved.</summary>
/// <param name="Path">The file it is in.</param>
/// <param name="Name">The name it got.</param>
/// <param name="Note">What the user should know, when the name is another than the one asked for; null otherwise.</param>
public sealed record SavedOutline(string Path, string Name, string? Note);

// Saving: what a person has edited is never written over.
public static partial class OutlineFile
{
    private const string Mark = "# written by sallyport; edited since when this no longer matches: ";

    /// <summary>Saves an outline under a name, or under the next free one when the file of that name was edited since it was written,
    /// or was never written by this program.</summary>
    /// <param name="folder">The folder for outlines; made when missing.</param>
    /// <param name="name">The name without <c>.yaml</c>.</param>
    /// <param name="text">What <see cref="Write"/> gave.</param>
    public static ReadResult<SavedOutline> Save(string folder, string name, string text)
    {
        ReadResult<SavedOutline> place = PlaceFor(folder, name);
        return place.Value is { } free && PlanFiles.WriteAll(folder, [(free.Name + ".yaml", Marked(text))]) is { } problem ? Failed(problem) : place;
    }

    /// <summary>Where an outline of a name is to be saved: under it, or under the next free one, as <see cref="Save"/> says.</summary>
    public static ReadResult<SavedOutline> PlaceFor(string folder, string name)
    {
        if (!MapReader.WellFormed(name, blanks: false) || name.StartsWith('.')) return Failed(FileProblems.BadName(name));
        string first = Path.Combine(folder, name + ".yaml");
        for (int number = 1; ; number++)
        {
            string free = number == 1 ? name : $"{name}-{number}";
            string path = Path.Combine(folder, free + ".yaml");
            try
            {
                if (IsEdited(path)) continue;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                return Failed(FileProblems.CannotRead(path, e.Message));
            }
            return new(new(path, free, number == 1 ? null : PlanProblems.KeptEdited(first, path)), [], []);
        }
    }

    /// <summary>The text of an outline as it is saved: marked, so that an edit shows.</summary>
    public static byte[] Marked(string text) => Encoding.UTF8.GetBytes($"{Mark}{Hash(text)}\n{text}");

    /// <summary>Whether a file is there and is not as this program wrote it.</summary>
    public static bool IsEdited(string path)
    {
        return !File.Exists(path) ? Directory.Exists(path) : !IsAsWritten(File.ReadAllBytes(path));
    }

    /// <summary>Whether bytes are an outline as this program wrote it.</summary>
    internal static bool IsAsWritten(byte[] bytes)
    {
        string text = Encoding.UTF8.GetString(bytes).Replace("\r\n", "\n");
        int end = text.IndexOf('\n');
        return end >= 0 && text.StartsWith(Mark, StringComparison.Ordinal) && text[Mark.Length..end] == Hash(text[(end + 1)..]);
    }

    private static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    private static ReadResult<SavedOutline> Failed(Problem problem) => new(null, [problem], []);
}
