using System.Collections.Immutable;
using Xunit;

namespace Sallyport.Draw.Tests;

/// <summary>Booklets set on pages: nothing is lost, nothing is parted that should not be, nothing reaches over the edge.</summary>
public class PageSetterTests
{
    private static readonly RunningWords Running = new("head", "caution", null, (page, count) => $"{page}/{count}", "(on)");

    private static ImmutableArray<Page> Set(PaperSize paper, params Block[] blocks) => PageSetter.Set(new("title", Running, [new("Chapter", [.. blocks])]), paper);

    private static string[] Words(Page page) => [.. page.Elements.OfType<Text>().Select(text => text.Words)];

    private static Row Numbered(int number, int lines) => Row.Of($"row {number}", new Cell([.. Enumerable.Range(0, lines).Select(line => new Phrase($"r{number}l{line}"))]));

    public static TheoryData<string> Papers => new("A4", "Letter");

    private static PaperSize Paper(string name) => name == "A4" ? PaperSize.A4 : PaperSize.Letter;

    [Theory, MemberData(nameof(Papers))]
    public void Table_OverSeveralPages_RepeatsItsHeadAndKeepsRowsTogether(string paper)
    {
        var pages = Set(Paper(paper), new Table([new("First", 1), new("Second", 2)], [.. Enumerable.Range(0, 60).Select(number => Numbered(number, 4))]));
        Assert.True(pages.Length > 2);
        Assert.All(pages, page => Assert.Contains("Second", Words(page)));
        for (int number = 0; number < 60; number++)
        {
            Page own = Assert.Single(pages, page => Words(page).Contains($"r{number}l0"));
            Assert.All(Enumerable.Range(0, 4), line => Assert.Contains($"r{number}l{line}", Words(own)));
        }
        Assert.Equal(pages.Select((_, i) => $"{i + 1}/{pages.Length}"), pages.Select(page => Words(page)[^1]));
        AssertInside(pages);
    }

    [Fact]
    public void Row_HigherThanAPage_IsPartedAndLosesNoLine()
    {
        var pages = Set(PaperSize.A4, new Table([new("A", 1), new("B", 3)], [Numbered(0, 300), Numbered(1, 1)]));
        Assert.Equal(Enumerable.Range(0, 300).Select(line => $"r0l{line}"), pages.SelectMany(Words).Where(words => words.StartsWith("r0l", StringComparison.Ordinal)));
        AssertInside(pages);
    }

    [Fact]
    public void Band_OverAPageBreak_IsNamedAgainUntilItEnds()
    {
        Row[] rows = [Row.Band(Phrase.Strong("leg one")), .. Enumerable.Range(0, 70).Select(number => Numbered(number, 1)), Numbered(70, 1) with { EndsBand = true }, .. Enumerable.Range(71, 100).Select(number => Numbered(number, 1))];
        var pages = Set(PaperSize.A4, new Table([new("A", 1), new("B", 3)], [.. rows]));
        Assert.Contains("leg one (on)", Words(pages[1]));
        Assert.DoesNotContain("leg one (on)", Words(pages[^1]));
    }

    [Fact]
    public void Row_LastOfATable_IsNeverAloneOnAPage()
    {
        for (int before = 30; before < 70; before++)
        {
            var pages = Set(PaperSize.A4, new Table([new("A", 1), new("B", 3)], [.. Enumerable.Range(0, before + 1).Select(number => Numbered(number, 1))]));
            Page own = pages.Single(page => Words(page).Contains($"r{before}l0"));
            Assert.Contains($"r{before - 1}l0", Words(own));
        }
    }

    [Fact]
    public void Heading_BeforeAPicture_StandsOnThePageOfThePicture()
    {
        Picture picture = new(400, 300, "picture", "", [new Text(new(10, 20), "in the picture", Face.Regular, 10, Palette.Words)]);
        for (int before = 0; before < 60; before++)
        {
            var pages = Set(PaperSize.A4, [.. Enumerable.Range(0, before).Select(_ => new Paragraph("above")), new Heading("of the picture"), new Figure(picture, "told")]);
            Page own = pages.Single(page => Words(page).Contains("in the picture"));
            Assert.Contains("of the picture", Words(own));
        }
    }

    [Fact]
    public void Foot_OfEachPage_NamesTheChapterInWhichItBeganAndTheWholeCaution()
    {
        string much = string.Join(' ', Enumerable.Repeat("chapter of many words", 20));
        Chapter[] chapters = [Long("EV1 · Ada"), Long("EV2 · Noor"), Long(much)];
        var pages = PageSetter.Set(new("title", Running with { Caution = Model.Caution.Text }, [.. chapters]), PaperSize.A4);
        string now = "";
        foreach (Page page in pages)
        {
            if (!page.Marks.IsEmpty) now = page.Marks[0].Title;
            string[] foot = Words(page)[^3..];
            Assert.Equal(Model.Caution.Text, foot[0]);
            if (now == much) Assert.True(foot[1].EndsWith('…') && much.StartsWith(foot[1][..^1], StringComparison.Ordinal), foot[1]);
            else Assert.Equal(now, foot[1]);
        }
        AssertInside(pages);

        static Chapter Long(string title) => new(title, [new Table([new("A", 1), new("B", 3)], [.. Enumerable.Range(0, 100).Select(number => Numbered(number, 1))])]);
    }

    [Fact]
    public void Band_IsNeverTheLastRowOfAPage()
    {
        for (int before = 40; before < 60; before++)
        {
            var pages = Set(PaperSize.A4, new Table([new("A", 1), new("B", 3)], [.. Enumerable.Range(0, before).Select(number => Numbered(number, 1)), Row.Band("band"), Numbered(before, 1)]));
            Page own = pages.Single(page => Words(page).Contains("band"));
            Assert.Contains($"r{before}l0", Words(own));
        }
    }

    [Theory]
    [InlineData("Averyveryverylongwordwithoutanyblank")]
    [InlineData("one two three four five six seven")]
    [InlineData("spar-4-starboard/forge-rail-5/quay-top")]
    [InlineData("נועה הלדן ארוכה מאוד מאוד")]
    public void Lines_OfAnyWords_AreNoWiderThanAskedAndLoseNothing(string words)
    {
        for (double width = 20; width < 200; width += 7)
        {
            IReadOnlyList<string> lines = LineBreaks.Of(words, Face.Regular, 8, width);
            Assert.Equal(words.Replace(" ", ""), string.Concat(lines).Replace(" ", ""));
            Assert.All(lines, line => Assert.True(Lettering.Measure(line, Face.Regular, 8) <= width, line));
        }
    }

    [Theory]
    [InlineData("a\nb\tc", "a b c")]
    [InlineData("\u202Eabc\u202C", "abc")]
    [InlineData("x\0\u0007y", "xy")]
    [InlineData("🚀", "🚀")]
    public void Plain_OfOddLetters_IsOneLineInOneDirection(string words, string expected) => Assert.Equal(expected, LineBreaks.Plain(words));

    [Fact]
    public void Plain_OfHalfAPair_SaysThatItCannotBeRead() => Assert.Equal("\uFFFDz", LineBreaks.Plain("\uD800z"));

    // What UAX #9 gives for a line from left to right, worked by hand after its rules N0, N1 and L2 to L4: letters of a Hebrew or Arabic name from right to left, figures in it from left to right.
    [Theory]
    [InlineData("EV1 · Ada", "EV1 · Ada")]
    [InlineData("EV1 · \u05D0\u05D1 \u05D2", "EV1 · |\u05D2| |\u05D0\u05D1")]
    [InlineData("\u05D0 12 \u05D1 x", "\u05D1| |12| |\u05D0| x")]
    [InlineData("(\u05D0) y", "(|\u05D0|) y")]
    [InlineData("\u05D0 (\u05D1) z", "(|\u05D1|) |\u05D0| z")]
    [InlineData("\u0644\u064A\u0644\u0649 \u05D0", "\u05D0| |\u0644\u064A\u0644\u0649")]
    public void Runs_OfALineWithANameFromRightToLeft_StandInTheOrderOfPaper(string words, string expected) => Assert.Equal(expected, string.Join('|', Scripts.InOrder(words).Select(run => run.Words)));

    [Fact]
    public void Arabic_LettersJoin_AndAreNarrowerThanAlone()
    {
        ShapedFace face = Lettering.ShapedFace(Script.Arabic, Face.Regular);
        // Lam and yeh, medial and initial, are other glyphs than the letters by themselves.
        (ushort[] joined, _, _, double width) = face.Shape("\u0644\u064A\u0644\u0649", Script.Arabic);
        Assert.DoesNotContain((ushort)0, joined);
        Assert.NotEqual(face.Shape("\u064A", Script.Arabic).Glyphs, joined[2..3]);
        Assert.True(width < "\u0644\u064A\u0644\u0649".Sum(letter => face.Shape(letter.ToString(), Script.Arabic).Width));
    }

    // Once its memory was taken from under it: widths went wrong after the collector had run.
    [Theory]
    [InlineData("\u05E0\u05D5\u05E2\u05D4", Face.Regular)]
    [InlineData("\u0644\u064A\u0644\u0649", Face.Bold)]
    public void Width_AfterMuchWasAllocatedAndCollected_IsTheSame(string words, Face face)
    {
        double before = Lettering.Measure(words, face, 10);
        for (int round = 0; round < 20; round++)
        {
            byte[][] filled = [.. Enumerable.Range(0, 400).Select(_ => Enumerable.Repeat((byte)0xA5, 60_000).ToArray())];
            GC.KeepAlive(filled);
            GC.Collect();
            Assert.Equal(before, Lettering.Measure(words, face, 10));
        }
        Assert.InRange(before, 5, 40);
    }

    private static void AssertInside(ImmutableArray<Page> pages)
    {
        foreach (Page page in pages)
            Assert.All(page.Elements.OfType<Text>(), text => Assert.True(new Area(0, 0, page.Width, page.Height).Contains(text.Area), text.Words));
    }
}
