using System.Globalization;
using System.Text;

namespace Sallyport.Desk;

/// <summary>The texts of problems with files as such: reading them, their characters, their YAML or JSON.</summary>
internal static class FileProblems
{
    public static Problem NoFolder(string folder) =>
        Whole(folder, "folder.missing", "no such folder", "a folder with the scenario's files", "check the path; `new FOLDER` makes a starter scenario.");

    public static Problem NoFiles(string folder) =>
        Whole(folder, "folder.empty", "no file whose name ends in .yaml", "the scenario's files, directly in this folder", "give the folder that holds scenario.yaml.");

    public static Problem CannotRead(string name, string why) =>
        Whole(name, "file.unreadable", why, "a file that can be read", "check that it is there and that you may read it.");

    public static Problem CannotWrite(string name, string why) =>
        Whole(name, "file.unwritable", why, "a folder that can be written", "check the folder, its permissions and the room on the disk, or write elsewhere. Nothing was changed.");

    public static Problem NoPlaceForNew(string folder, string found) =>
        Whole(folder, "folder.filled", found, "a folder that is empty or not there yet", "give another folder. Nothing was changed.");

    public static Problem BadName(string name) =>
        Whole(name, "file.name", $"'{name}'", "letters, digits, '-', '_' and '.', no folder in it", "give a plain name, such as by-hand.");

    public static Problem Empty(string name) => Whole(name, "file.empty", "nothing in it", "a filled file", "fill it, or give another file.");

    public static Problem TooLarge(string name, long bytes) =>
        Whole(name, "file.large", $"{bytes.ToString("N0", CultureInfo.InvariantCulture)} bytes or more",
            $"at most {SourceText.MostBytes.ToString("N0", CultureInfo.InvariantCulture)} bytes", "split the file: a section may stand in several files.");

    public static Problem NotUtf8(string name, int line, int column, byte first, string shown) =>
        new(name, line, column, "text.utf8", $"a byte 0x{first:X2} that is not UTF-8 text", "text in UTF-8", shown, "save the file as text in UTF-8.");

    public static Problem Control(SourceText source, int line, int column, char character) =>
        At(new(source, line, column), "text.control", character == 0 ? "a NUL character: this is no text file" : $"a control character (U+{(int)character:X4})",
            "text without control characters", "delete the character, or give a text file.");

    public static Problem Tab(SourceText source, int line, int column) =>
        At(new(source, line, column), "text.tab", "a tab", "blanks only", "put blanks in place of every tab in this file.");

    public static Problem Syntax(Place place, string message) =>
        At(place, "file.syntax", Here(place), Sentence(message), "mend the text here or just before; what follows was not looked at.");

    public static Problem TooDeep(Place place) =>
        At(place, "file.deep", $"more than {YamlReader.MostDepth} lists and maps inside each other", "a few", "take the nesting out; the rest of the file was not looked at.");

    public static Problem ManyDocuments(Place place) =>
        At(place, "yaml.documents", "a second document", "one document a file", "put what follows into a file of its own.");

    public static Problem Alias(Place place, string name) =>
        At(place, "yaml.alias", $"the alias '*{name}'", "the value itself", "write the value out here.");

    public static Problem Anchor(Place place, string name) =>
        At(place, "yaml.anchor", $"the anchor '&{name}'", "a value without one", $"delete '&{name}', and write the value out where it was meant to be used again.");

    public static Problem Tag(Place place, string tag) => At(place, "yaml.tag", $"the tag '{tag}'", "a value without one", "delete the tag.");

    public static Problem Merge(Place place) => At(place, "yaml.merge", "the merge key '<<'", "the keys themselves", "write the keys out here.");

    public static Problem KeyShape(Node key) => At(key.Place, "yaml.key", key.Shown, "a name as key", "write a name before the colon.");

    public static Problem DuplicateKey(TextNode key, Place first) =>
        At(key.Place, "key.twice", $"the key '{key.Text}' again; it stands already at {first}", "each key once in a map", "keep one of the two.");

    /// <summary>A problem about a file or folder as a whole.</summary>
    public static Problem Whole(string name, string code, string found, string expected, string fix) => new(name, 0, 0, code, found, expected, "", fix);

    /// <summary>A problem at a place.</summary>
    public static Problem At(Place place, string code, string found, string expected, string fix, string? nearest = null) =>
        new(place.Source.Name, place.Line, place.Column, code, found, expected, place.Source.LineAt(place.Line), fix, nearest);

    private static string Here(Place place)
    {
        string line = place.Source.LineAt(place.Line);
        string rest = place.Column <= line.Length ? line[(place.Column - 1)..].Trim() : "";
        return rest.Length == 0 ? "the end of the line" : $"'{(rest.Length > 40 ? rest[..39] + "…" : rest)}'";
    }

    // The parser's own words, one sentence, without the position that the problem carries anyway.
    private static string Sentence(string message)
    {
        StringBuilder text = new(message.Trim());
        int end = message.IndexOf(": ", StringComparison.Ordinal);
        if (message.StartsWith('(') && end > 0 && message.LastIndexOf("): ", StringComparison.Ordinal) is int close and > 0) text.Clear().Append(message[(close + 3)..].Trim());
        return $"well-formed text; the parser says: {text.ToString().TrimEnd('.')}";
    }
}
