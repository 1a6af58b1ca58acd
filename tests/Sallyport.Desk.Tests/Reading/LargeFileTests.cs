using System.Text;

namespace Sallyport.Desk.Tests;

/// <summary>Files as large as are read at all, of whatever is hardest: none may keep a user waiting.</summary>
public sealed class LargeFileTests
{
    // A million problems take a second or two to tell; what grows with the square of the size takes minutes.
    private static readonly TimeSpan Most = TimeSpan.FromSeconds(10);

    private const int Size = SourceText.MostBytes - 100;

    private static string Lines(Func<int, string> line)
    {
        StringBuilder text = new();
        for (int i = 0; text.Length < Size - 200; i++) text.Append(line(i)).Append('\n');
        return text.ToString();
    }

    private static string Fill(string piece) => string.Concat(Enumerable.Repeat(piece, Size / piece.Length));

    public static TheoryData<string> Names => [.. Texts.Keys];

    private static readonly Dictionary<string, Func<string>> Texts = new()
    {
        ["one word"] = () => "station: " + Fill("a"),
        ["many words"] = () => "station: " + Fill("a "),
        ["one word in quotes"] = () => "station: \"" + Fill("a") + "\"",
        ["escapes"] = () => "station: \"" + Fill("\\x41") + "\"",
        ["a block of text"] = () => "station: |\n" + Fill("  a\n"),
        ["a block of blank lines"] = () => "station: >\n" + Fill("\n"),
        ["comments"] = () => Fill("# a\n"),
        ["blank lines"] = () => Fill("\n"),
        ["blanks"] = () => Fill(" "),
        ["sections"] = () => Lines(i => $"section-{i}: 1"),
        ["one section again and again"] = () => Fill("station: a\n"),
        ["one key again and again"] = () => "tether:\n" + Fill("  swap: 2 min\n"),
        ["lists open"] = () => Fill("["),
        ["maps open"] = () => Fill("{a: "),
        ["lists below lists"] = () => Fill("- "),
        ["question marks"] = () => Fill("? "),
        ["commas"] = () => "[" + Fill(",") + "]",
        ["colons"] = () => Fill(":"),
        ["anchors"] = () => Fill("&a "),
        ["aliases"] = () => "a: [" + Fill("*a, ") + "]",
        ["tags"] = () => Fill("!a "),
        ["directives"] = () => Fill("%a\n"),
        ["documents"] = () => Fill("---\n"),
        ["quotes"] = () => Fill("'"),
        ["a list of words"] = () => "states: [" + Fill("a, ") + "]",
        ["grips"] = () => "grips:\n" + Lines(i => $"- {{id: grip-{i}, at: \"{i}, 0, 0 m\"}}"),
        ["unknown names among many"] = () => "grips:\n" + string.Concat(Enumerable.Range(0, 40_000).Select(i => $"- {{id: grip-{i}, at: \"0, 0, 0 m\"}}\n"))
            + "spans:\n" + string.Concat(Enumerable.Range(0, 40_000).Select(i => $"- {{from: grop-{i}, to: grup-{i}, length: 1 m, class: easy}}\n")),
        ["keys without a value"] = () => "sockets:\n" + Fill("- {id: , grip: }\n"),
        ["a chain of spans"] = () => "airlocks: [{id: a, grip: g0, order: [EV1], holds: 1}]\ngrips:\n" + string.Concat(Enumerable.Range(0, 40_000).Select(i => $"- {{id: g{i}, at: \"0, 0, 0 m\"}}\n"))
            + "spans:\n" + string.Concat(Enumerable.Range(1, 40_000).Select(i => $"- {{from: g{i - 1}, to: g{i}, length: 1 m, class: easy}}\n")),
    };

    [Theory]
    [MemberData(nameof(Names))]
    public void Folder_WithAFileAsLargeAsCanBe_IsReadInSeconds(string name)
    {
        byte[] content = Folders.Bytes(Texts[name]());
        Assert.InRange(content.Length, 1_000_000, SourceText.MostBytes);
        using TemporaryFolder folder = new();
        foreach (string path in Directory.GetFiles(Folders.SkerryShort, "*.yaml")) File.Copy(path, Path.Combine(folder.Path, Path.GetFileName(path)));
        File.WriteAllBytes(Path.Combine(folder.Path, "zz.yaml"), content);
        TimeSpan took = Patience.TimeOf(() => ScenarioReader.Read(folder.Path));
        Assert.True(took < Most, $"{name}: {took.TotalSeconds:0.0} s");
    }
}
