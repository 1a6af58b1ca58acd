using System.Collections.Immutable;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;
using UglyToad.PdfPig;

namespace Sallyport.Desk.Tests;

/// <summary>Briefings of the demo plans, each made once, and what others read out of them.</summary>
internal static class Briefings
{
    public static DateOnly Printed { get; } = new(2031, 5, 14);

    private static readonly Dictionary<string, Lazy<IReadOnlyList<(string Name, byte[] Content)>>> Made =
        new[] { "skerry-short", "skerry", "tern" }.ToDictionary(name => name, name => new Lazy<IReadOnlyList<(string, byte[])>>(() => Make(PddlPlans.Of(name).Scenario, PddlPlans.Of(name).Plan)));

    public static BriefingOptions Options { get; } = new(PaperSize.A4, Printed);

    public static IReadOnlyList<(string Name, byte[] Content)> Make(Scenario scenario, ProvenPlan plan, BriefingOptions? options = null) => BriefingFiles.Of(scenario, plan, options ?? Options, BriefingFiles.Changes(scenario, plan, options ?? Options));

    public static byte[] File(string plan, string name) => Made[plan].Value.First(file => file.Name == name).Content;

    public static byte[] Of(this IReadOnlyList<(string Name, byte[] Content)> files, string name) => files.First(file => file.Name == name).Content;

    /// <summary>The letters of every page as PdfPig reads them, without blanks: lines of a cell follow each other as they are drawn.</summary>
    public static ImmutableArray<string> Pages(byte[] pdf)
    {
        using PdfDocument document = PdfDocument.Open(pdf);
        return [.. document.GetPages().Select(page => Tight(page.Text))];
    }

    public static string Tight(string words) => string.Concat(words.Where(letter => !char.IsWhiteSpace(letter)));

    /// <summary>Letters that reach over the edge of their page, with page and place.</summary>
    public static IEnumerable<string> OverTheEdge(byte[] pdf)
    {
        using PdfDocument document = PdfDocument.Open(pdf);
        foreach (UglyToad.PdfPig.Content.Page page in document.GetPages())
            foreach (UglyToad.PdfPig.Content.Letter letter in page.Letters)
                if (letter.BoundingBox is var box && (box.Left < 0 || box.Right > page.Width || box.Bottom < 0 || box.Top > page.Height))
                    yield return $"page {page.Number}: '{letter.Value}' at {box}";
    }

    public static string Text(byte[] file) => Encoding.UTF8.GetString(file);
}
