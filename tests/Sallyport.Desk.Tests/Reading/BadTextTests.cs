using System.Text;
using CsCheck;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Files that are broken as files: their bytes, their characters, their YAML.</summary>
public sealed class BadTextTests
{
    private static List<Problem> ProblemsIn(byte[] bytes)
    {
        List<Problem> problems = [];
        if (SourceText.From(bytes, "a.yaml", problems.Add) is { } source) YamlReader.Read(source, problems.Add);
        return problems;
    }

    private static List<Problem> ProblemsIn(string text) => ProblemsIn(Folders.Bytes(text));

    public static TheoryData<string, string, string> Texts => new()
    {
        { "a: [1, 2\nb: 3\n", "a.yaml:2:1: file.syntax", "mend the text here or just before; what follows was not looked at." },
        { "a: {b: 1\n", "a.yaml:2:1: file.syntax", "mend the text here or just before; what follows was not looked at." },
        { "a: \"open\n", "a.yaml:1:4: file.syntax", "mend the text here or just before; what follows was not looked at." },
        { "a: 1\n  b: 2\n", "a.yaml:2:4: file.syntax", "mend the text here or just before; what follows was not looked at." },
        { "a: &b 1\n", "a.yaml:1:4: yaml.anchor", "delete '&b', and write the value out where it was meant to be used again." },
        { "a: *b\n", "a.yaml:1:4: yaml.alias", "write the value out here." },
        { "a: !b 1\n", "a.yaml:1:4: yaml.tag", "delete the tag." },
        { "a: !!str 1\n", "a.yaml:1:4: yaml.tag", "delete the tag." },
        { "<<: {a: 1}\n", "a.yaml:1:1: yaml.merge", "write the keys out here." },
        { "[a, b]: 1\n", "a.yaml:1:1: yaml.key", "write a name before the colon." },
        { "a: 1\n---\nb: 2\n", "a.yaml:2:1: yaml.documents", "put what follows into a file of its own." },
        { "a: 1\n\tb: 2\n", "a.yaml:2:1: text.tab", "put blanks in place of every tab in this file." },
        { "a: 1\nb: \u0007\n", "a.yaml:2:4: text.control", "delete the character, or give a text file." },
        { "a: \0\n", "a.yaml:1:4: text.control", "delete the character, or give a text file." },
        { "a: x\u2028y\n", "a.yaml:1:5: text.control", "delete the character, or give a text file." },
    };

    [Theory]
    [MemberData(nameof(Texts))]
    public void Text_NotFitForAScenario_IsToldWithPlaceAndFix(string text, string told, string fix)
    {
        Problem first = ProblemsIn(text)[0];
        Assert.Equal(told, $"{first.File}:{first.Line}:{first.Column}: {first.Code}");
        Assert.Equal(fix, first.Fix);
    }

    [Fact]
    public void Key_ThreeTimes_IsToldTwiceWithTheFirstPlace()
    {
        List<Problem> problems = ProblemsIn("a: 1\nb: {c: 1, c: 2}\na: 2\na: 3\n");
        Assert.Equal(["a.yaml:2:11 first a.yaml:2:5", "a.yaml:3:1 first a.yaml:1:1", "a.yaml:4:1 first a.yaml:1:1"],
            problems.Select(problem => $"{problem.File}:{problem.Line}:{problem.Column} first {problem.Found[(problem.Found.LastIndexOf(' ') + 1)..]}"));
        Assert.All(problems, problem => Assert.Equal("key.twice", problem.Code));
    }

    [Theory]
    [InlineData(YamlReader.MostDepth, 0)]
    [InlineData(YamlReader.MostDepth + 1, 1)]
    [InlineData(100_000, 1)]
    public void Lists_InsideEachOther_AreBounded(int depth, int problems)
    {
        List<Problem> told = ProblemsIn(new string('[', depth) + "x" + new string(']', depth));
        Assert.Equal(problems, told.Count);
        Assert.All(told, problem => Assert.Equal("file.deep", problem.Code));
    }

    [Fact]
    public void Bytes_NotUtf8_AreToldWithTheirPlace()
    {
        Problem problem = Assert.Single(ProblemsIn([(byte)'a', (byte)':', (byte)'\n', 0xC3, 0xA9, (byte)'b', 0xFF, (byte)'c', (byte)'\n']));
        Assert.Equal(("text.utf8", 2, 3, "a byte 0xFF that is not UTF-8 text"), (problem.Code, problem.Line, problem.Column, problem.Found));
        Assert.Equal("éb\uFFFDc", problem.SourceLine);
        // The same whatever ends the lines, and with a byte order mark.
        Problem other = Assert.Single(ProblemsIn([0xEF, 0xBB, 0xBF, (byte)'a', (byte)'\r', 0xC3, 0xA9, 0xFF, (byte)'c', (byte)'\r', (byte)'\n']));
        Assert.Equal((2, 2, "é\uFFFDc"), (other.Line, other.Column, other.SourceLine));
    }

    [Fact]
    public void Bytes_OfAnotherEncoding_AreTold()
    {
        Assert.Equal("text.utf8", Assert.Single(ProblemsIn([.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes("a: 1\n")])).Code);
        Assert.Equal("text.control", Assert.Single(ProblemsIn(Encoding.Unicode.GetBytes("a: 1\n"))).Code);
    }

    [Fact]
    public void File_TooLarge_IsToldAndNotRead()
    {
        byte[] atTheLimit = new byte[SourceText.MostBytes];
        Array.Fill(atTheLimit, (byte)' ');
        Assert.DoesNotContain(Folders.ProblemsOf(("a.yaml", atTheLimit)), problem => problem.Code == "file.large");
        Problem problem = Assert.Single(Folders.ProblemsOf(("a.yaml", [.. atTheLimit, (byte)' '])));
        Assert.Equal(("file.large", "5,000,001 bytes or more"), (problem.Code, problem.Found));
    }

    [Fact]
    public void Folder_Missing_IsTold()
    {
        Problem problem = Assert.Single(ScenarioReader.Read("no/such/folder").Problems);
        Assert.Equal(("no/such/folder", "folder.missing"), (problem.File, problem.Code));
    }

    [Fact]
    public void Folder_WithoutFiles_IsTold() => Assert.Equal("folder.empty", Assert.Single(Folders.ProblemsOf(("notes.txt", []))).Code);

    [Fact]
    public void File_WithAnotherEnding_IsNoted()
    {
        using TemporaryFolder folder = new();
        foreach (string path in Directory.GetFiles(Folders.SkerryShort, "*.yaml")) File.Copy(path, Path.Combine(folder.Path, Path.GetFileName(path)));
        File.WriteAllText(Path.Combine(folder.Path, "more.yml"), "colour: red");
        ReadResult<Scenario> result = ScenarioReader.Read(folder.Path);
        Assert.True(result.Ok);
        Assert.Equal($"{folder.Path}/more.yml was not read: only names that end in .yaml are.", Assert.Single(result.Notes));
    }

    [Fact]
    public void Files_SeveralBroken_AreToldAtOnceWithoutGuessesAtWhatTheyHold()
    {
        ReadResult<Scenario> result = Folders.ReadChanged(Folders.SkerryShort, "station.yaml", "grips:", "grips: [");
        Assert.Equal(["station.yaml file.syntax"], result.Problems.Select(problem => $"{problem.File} {problem.Code}"));
        string[] told = [.. Folders.ProblemsOf(
            ("a.yaml", Folders.Bytes("grips: [\n")), ("b.yaml", Folders.Bytes("spans:\n- {from: a, to: b, length: 3, class: eesy}\n")), ("c.yaml", Folders.Bytes("x: {\n")), ("d.yaml", [0xFF]))
            .Select(problem => $"{Path.GetFileName(problem.File)} {problem.Code}")];
        Assert.Equal(["a.yaml file.syntax", "b.yaml unit.missing", "b.yaml value.choice", "c.yaml file.syntax", "d.yaml text.utf8"], told);
    }

    [Fact]
    public void Scenario_WithByteOrderMarkAndWindowsLineEnds_ReadsTheSame()
    {
        using TemporaryFolder folder = new();
        foreach (string path in Directory.GetFiles(Folders.SkerryShort, "*.yaml"))
            File.WriteAllBytes(Path.Combine(folder.Path, Path.GetFileName(path)), [0xEF, 0xBB, 0xBF, .. Folders.Bytes(File.ReadAllText(path).Replace("\n", "\r\n"))]);
        Scenario plain = Folders.Good(ScenarioReader.Read(Folders.SkerryShort)), other = Folders.Good(ScenarioReader.Read(folder.Path));
        Assert.NotEqual(plain.Digest, other.Digest);
        Assert.Equal(StructureText.Of(plain with { Digest = "" }), StructureText.Of(other with { Digest = "" }));
    }

    [Fact]
    public void Problem_Rendered_ShowsTheLineWithACaret()
    {
        Problem problem = Folders.ReadChanged(Folders.SkerryShort, "jobs.yaml", "site: ring", "site: rng").Problems[0];
        Assert.Equal("""
            jobs.yaml:14:11: name.unknown
              found     'rng'
              expected  a known site
              14 |     site: rng
                 |           ^
              Fix: write 'ring' if that is meant, or add the site 'rng'.
              Nearest name: ring

            """, problem.ToString());
    }

    [Fact]
    public void Problem_OnAVeryLongLine_ShowsThePartAroundTheCaret()
    {
        Problem problem = ProblemsIn($"a: 1\n{{x: {new string('y', 5000)}, b: *z, c: {new string('y', 5000)}}}\n").First(problem => problem.Line == 2);
        string[] lines = problem.ToString().Split('\n');
        Assert.True(lines[3].Length < 160);
        Assert.Equal('^', lines[4][^1]);
    }

    // Whatever is done to a good file, reading ends with a scenario or with problems, and every problem lies in the file.
    [Fact]
    public void Files_DamagedAnyhow_NeverThrow()
    {
        string[] texts = [.. Directory.GetFiles(Folders.EveryKey, "*.yaml").Order(StringComparer.Ordinal).Select(File.ReadAllText)];
        string all = string.Join("\n", texts);
        string[] pieces = ["{", "}", "[", "]", ":", "- ", "\n", "  ", "\"", "'", "#", "&a ", "*a", "!x ", "|", ">", "%", "@", "`", "? ", ", ", "---\n", "...", "\t", "\0", "é", "<<: ", "~"];
        Gen<string> piece = Gen.OneOf(Gen.Int[0, pieces.Length - 1].Select(i => pieces[i]), Gen.String[0, 5]);
        Gen.Select(Gen.Int[0, all.Length], Gen.Int[0, 40], piece).Array[1, 4].Sample(
            damages =>
            {
                string text = all;
                foreach ((int at, int length, string put) in damages)
                {
                    int from = Math.Min(at, text.Length);
                    text = text[..from] + put + text[Math.Min(text.Length, from + length)..];
                }
                List<Problem> problems = [];
                Binding binding = new();
                if (SourceText.From(Folders.Bytes(text), "a.yaml", problems.Add) is { } source && YamlReader.Read(source, problems.Add) is MapNode map)
                {
                    ScenarioReader.Bind(binding, "folder", [map]);
                    problems.AddRange(binding.Failed<Scenario>().Problems);
                }
                return problems.All(problem => problem.ToString().Length > 0 && problem.Fix.Length > 0);
            },
            iter: 1000);
    }
}
