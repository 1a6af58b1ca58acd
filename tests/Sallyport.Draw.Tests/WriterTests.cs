using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Sallyport.Model;
using SkiaSharp;
using Xunit;

namespace Sallyport.Draw.Tests;

public sealed partial class WriterTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    [Theory]
    [InlineData(7, 2, 13, true)]
    [InlineData(4, 3, 14, true)]
    [InlineData(1, 1, 3, false)]
    public void Svg_AnyWalk_IsWellFormedWithNamedGroups(int seed, int people, int legs, bool arm)
    {
        XDocument document = XDocument.Parse(SvgWriter.Write(Draw(seed, people, legs, arm)));
        List<XElement> groups = [.. document.Descendants(Svg + "g")];
        Assert.True(groups.Count > 20);
        Assert.All(groups, group => Assert.False(string.IsNullOrWhiteSpace(group.Element(Svg + "title")?.Value), $"group {group.Attribute("id")} has no title"));
        List<string?> ids = [.. document.Descendants().Select(element => element.Attribute("id")?.Value).Where(id => id is not null)];
        Assert.Equal(ids.Count, ids.Distinct().Count());
        Assert.All(groups, group => Assert.Matches("^[A-Za-z][A-Za-z0-9._-]*$", group.Attribute("id")?.Value));
    }

    [Fact]
    public void Svg_SameWalkDrawnTwice_HasTheSameBytes() =>
        Assert.Equal(Encoding.UTF8.GetBytes(SvgWriter.Write(Draw(7, 2, 13, true))), Encoding.UTF8.GetBytes(SvgWriter.Write(Draw(7, 2, 13, true))));

    [Fact]
    public void Svg_LongWalk_StaysSmallAndCarriesTheTypeface()
    {
        string svg = SvgWriter.Write(Draw(11, 4, 20, true));
        Assert.True(Encoding.UTF8.GetByteCount(svg) < 600_000, $"{Encoding.UTF8.GetByteCount(svg)} bytes");
        foreach (Face face in Enum.GetValues<Face>()) Assert.Contains(Convert.ToBase64String(Lettering.File(face)), svg, StringComparison.Ordinal);
    }

    [Fact]
    public void Svg_AwkwardWords_ComeBackAsTheyWere()
    {
        const string words = "<b> & \"Ünë\" → ]]> ✓ 𝄞";
        Picture picture = new(10, 10, words, "a\u0001b", [new Group("one", words, words, [new Text(new(1, 1), words, Face.Regular, 10, Ink.FromHex(0))])]);
        XDocument document = XDocument.Parse(SvgWriter.Write(picture));
        Assert.Equal(words, document.Descendants(Svg + "text").Single().Value);
        Assert.Equal(words, document.Descendants(Svg + "g").Single().Element(Svg + "title")?.Value);
        Assert.Equal("a\uFFFDb", document.Root?.Element(Svg + "desc")?.Value);
    }

    [Fact]
    public void Svg_AnyNumber_IsWrittenToTwoDecimalsAsTheRuntimeRoundsThem()
    {
        Random random = new(20261129);
        List<double> numbers = [0, -0.0, 0.005, -0.005, 0.0049999, -0.004, 1.005, 2.675, 99.995, 99.994999, 0.1 + 0.2, 100, -100.5, 1e12, -1e12, 123456789012.345, 3e15, 1e300, double.NaN, double.NegativeInfinity];
        for (int i = 0; i < 20_000; i++)
        {
            double number = (random.NextDouble() - 0.5) * Math.Pow(10, random.Next(-4, 14));
            numbers.Add(i % 2 == 0 ? number : Math.Round(number, 3));
        }
        ImmutableArray<Element> discs = [.. numbers.Select(number => new Disc(new(number, 0), 1, null, null))];
        string[] written = [.. NumberPattern().Matches(SvgWriter.WritePart(new(1, 1, "", "", discs), "", 0)).Select(match => match.Groups[1].Value)];
        Assert.Equal(numbers.Select(number => Math.Round(number, 2, MidpointRounding.AwayFromZero).ToString("0.##", System.Globalization.CultureInfo.InvariantCulture) is var text && text == "-0" ? "0" : text), written);
    }

    [GeneratedRegex("cx=\"([^\"]*)\"")]
    private static partial Regex NumberPattern();

    [Fact]
    public void SvgPart_AnyWalk_LeavesTypefaceAndColoursToThePage()
    {
        string part = SvgWriter.WritePart(Draw(7, 2, 13, true), "here-", 40);
        XElement svg = XDocument.Parse(part).Root!;
        Assert.StartsWith("0 40 ", svg.Attribute("viewBox")?.Value, StringComparison.Ordinal);
        Assert.DoesNotContain("font-face", part, StringComparison.Ordinal);
        Assert.DoesNotContain("style", part, StringComparison.Ordinal);
        Assert.All(svg.Descendants().SelectMany(element => element.Attributes()).Where(one => one.Name.LocalName is "fill" or "stroke"),
            one => Assert.Matches(@"^(none|url\(#here-hatch-[0-9a-f]{6}-[0-9.-]+\)|var\(--ink-([0-9a-f]{6}),#\2\))$", one.Value));
        Assert.All(svg.DescendantsAndSelf().Select(element => element.Attribute("id")?.Value).OfType<string>(), id => Assert.StartsWith("here-", id, StringComparison.Ordinal));
    }

    [Fact]
    public void SvgPart_LegsAndFindings_NameWhatTheyAre()
    {
        Picture picture = Draw(7, 2, 13, true);
        XElement svg = XDocument.Parse(SvgWriter.WritePart(picture, "", 0)).Root!;
        Group[] groups = [.. picture.Flat.OfType<Group>().Where(group => !group.Facts.IsEmpty)];
        Assert.Contains(groups, group => group.Facts.Any(fact => fact.Name == "leg"));
        Assert.Contains(groups, group => group.Facts.Any(fact => fact.Name == "finding"));
        foreach (Group group in groups)
        {
            XElement drawn = svg.Descendants(Svg + "g").Single(element => element.Attribute("id")?.Value == group.Id);
            Assert.All(group.Facts, fact => Assert.Equal(fact.Value, drawn.Attribute("data-" + fact.Name)?.Value));
        }
        Assert.DoesNotContain("data-", SvgWriter.Write(picture).Replace("data:font", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public void FrameOf_StripsOfAWalk_LieWhereTheirPeopleAreDrawn()
    {
        (Scenario scenario, ImmutableArray<(Timeline, Trace)> played, Verdict verdict, RangeChartOptions options) = SampleWalk.Make(7, 2, 13, true);
        ChartFrame frame = RangeChart.FrameOf(scenario, played, verdict, options);
        Assert.Equal(2, frame.Strips.Length);
        foreach (ChartStrip strip in frame.Strips)
        {
            Text name = Draw(7, 2, 13, true).Flat.OfType<Text>().First(text => text.Words == strip.Person.Value && text.Size == 23);
            Assert.InRange(name.At.Y, strip.Top, strip.Bottom);
        }
    }

    [Fact]
    public void Svg_SmallWalk_IsAsDrawnBefore()
    {
        // Regression: the whole drawing but the typeface's own bytes. Look at the new picture before taking it over.
        string drawn = FontFace().Replace(SvgWriter.Write(Draw(2, 2, 3, false)), "@font-face");
        string golden = Path.Combine(AppContext.BaseDirectory, "Golden", "Svg_SmallWalk_IsAsDrawnBefore.svg");
        Directory.CreateDirectory(Path.GetDirectoryName(golden)!);
        if (!File.Exists(golden) || File.ReadAllText(golden) != drawn) File.WriteAllText(golden + ".received", drawn);
        Assert.True(File.Exists(golden) && File.ReadAllText(golden) == drawn, $"the drawing differs: compare {golden} with the .received file beside it");
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(1.5)]
    public void Png_SampleWalk_DecodesAndShowsThePictureAtItsScale(double scale)
    {
        Picture picture = Draw(7, 2, 13, true);
        using SKBitmap bitmap = SKBitmap.Decode(PngWriter.Write(picture, scale));
        Assert.Equal((int)Math.Ceiling(picture.Width * scale), bitmap.Width);
        Assert.Equal((int)Math.Ceiling(picture.Height * scale), bitmap.Height);
        int inked = bitmap.Pixels.Count(pixel => pixel != SKColors.White);
        Assert.InRange(inked / (double)bitmap.Pixels.Length, 0.05, 0.9);
        // A thick stretch of work has its person's colour, exactly, at its middle.
        Group leg = ChartReading.Groups(picture, "leg-EV1-").First();
        Trail work = ChartReading.Inside<Trail>(leg).First();
        Spot middle = new((work.Spots[0].X + work.Spots[1].X) / 2, (work.Spots[0].Y + work.Spots[1].Y) / 2);
        SKColor found = bitmap.GetPixel((int)(middle.X * scale), (int)(middle.Y * scale));
        Ink ink = work.Stroke!.Ink;
        Assert.Equal(new SKColor(ink.Red, ink.Green, ink.Blue), found);
    }

    [Fact]
    public void Png_TextAlone_IsAsWideAsMeasured()
    {
        const string words = "Mate the heater lead 0123456789";
        Text text = new(new(20, 60), words, Face.Bold, 40, Ink.FromHex(0));
        using SKBitmap bitmap = SKBitmap.Decode(PngWriter.Write(new(900, 80, "", "", [text]), 1));
        List<int> inked = [.. Enumerable.Range(0, bitmap.Width).Where(x => Enumerable.Range(0, bitmap.Height).Any(y => bitmap.GetPixel(x, y) != SKColors.White))];
        // Letters stand up to a tenth of their size inside their advance.
        Assert.InRange(inked[0], text.Area.Left, text.Area.Left + 4);
        Assert.InRange(inked[^1], text.Area.Right - 4, text.Area.Right + 1);
        List<int> rows = [.. Enumerable.Range(0, bitmap.Height).Where(y => Enumerable.Range(0, bitmap.Width).Any(x => bitmap.GetPixel(x, y) != SKColors.White))];
        Assert.InRange(rows[0], text.Area.Top, text.At.Y);
        Assert.InRange(rows[^1], text.At.Y - 1, text.Area.Bottom);
    }

    [GeneratedRegex("@font-face\\{[^}]*\\}")]
    private static partial Regex FontFace();

    private static Picture Draw(int seed, int people, int legs, bool arm)
    {
        (Scenario scenario, ImmutableArray<(Timeline, Trace)> played, Verdict verdict, RangeChartOptions options) = SampleWalk.Make(seed, people, legs, arm);
        return RangeChart.Draw(scenario, played, verdict, options);
    }
}
