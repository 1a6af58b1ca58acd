using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Sallyport.Draw;

/// <summary>
/// Gives a PDF an outline (bookmarks) and a language by an incremental update (ISO 32000-1, 7.5.6): the file as Skia wrote it stays as it is, and what is new
/// is appended. Skia writes an outline only from a tree of tagged content, which its .NET binding does not offer; it does write named destinations.
/// </summary>
internal static partial class PdfBookmarks
{
    public static byte[] Append(byte[] pdf, IReadOnlyList<(Bookmark Mark, string Name)> marks, string language)
    {
        // Latin-1 keeps every byte as one letter, so that places in the text are places in the file.
        string text = Encoding.Latin1.GetString(pdf);
        int table = int.Parse(Last(text, "startxref", StartOfTable()), CultureInfo.InvariantCulture);
        int trailerAt = text.LastIndexOf("trailer", StringComparison.Ordinal);
        string trailer = trailerAt < 0 ? "" : text[trailerAt..];
        Match root = Root().Match(trailer), size = Size().Match(trailer);
        if (!root.Success || !size.Success) throw new InvalidOperationException("the PDF has no trailer with /Root and /Size as Skia writes it");
        int catalog = int.Parse(root.Groups[1].ValueSpan, CultureInfo.InvariantCulture), free = int.Parse(size.Groups[1].ValueSpan, CultureInfo.InvariantCulture);
        Match old = new Regex(string.Create(CultureInfo.InvariantCulture, $@"(?:^|\n){catalog} 0 obj\s*<<(.*?)>>\s*endobj"), RegexOptions.Singleline).Match(text);
        if (!old.Success) throw new InvalidOperationException("the PDF has no catalog as Skia writes it");

        StringBuilder added = new();
        SortedDictionary<int, int> places = [];
        void Add(int number, string body)
        {
            places[number] = pdf.Length + added.Length;
            added.Append(CultureInfo.InvariantCulture, $"{number} 0 obj\n<<{body}>>\nendobj\n");
        }
        if (pdf[^1] != '\n') added.Append('\n');
        int outline = free, first = free + 1;
        string kept = old.Groups[1].Value;
        if (!kept.Contains("/ViewerPreferences", StringComparison.Ordinal)) kept += "\n/ViewerPreferences <</DisplayDocTitle true>>";
        if (!kept.Contains("/Lang", StringComparison.Ordinal)) kept += $"\n/Lang ({language})";
        Add(catalog, $"{kept}\n/Outlines {outline} 0 R\n/PageMode /UseOutlines");
        int[] tops = [.. Enumerable.Range(0, marks.Count).Where(i => marks[i].Mark.Level == 0)];
        Add(outline, tops.Length == 0 ? "/Type /Outlines" : $"/Type /Outlines\n/First {first + tops[0]} 0 R\n/Last {first + tops[^1]} 0 R\n/Count {tops.Length}");
        for (int t = 0; t < tops.Length; t++)
        {
            int own = tops[t], next = t + 1 < tops.Length ? tops[t + 1] : marks.Count;
            int[] under = [.. Enumerable.Range(own + 1, next - own - 1)];
            // A negative count: there, but folded away until asked for.
            string below = under.Length == 0 ? "" : $"\n/First {first + under[0]} 0 R\n/Last {first + under[^1]} 0 R\n/Count -{under.Length}";
            Add(first + own, Item(marks[own], outline, t > 0 ? first + tops[t - 1] : null, t + 1 < tops.Length ? first + next : null) + below);
            for (int u = 0; u < under.Length; u++)
                Add(first + under[u], Item(marks[under[u]], first + own, u > 0 ? first + under[u - 1] : null, u + 1 < under.Length ? first + under[u + 1] : null));
        }
        int newTable = pdf.Length + added.Length;
        added.Append("xref\n");
        foreach ((int number, int place) in places) added.Append(CultureInfo.InvariantCulture, $"{number} 1\n{place:0000000000} 00000 n \n");
        // The identity of the file stays; a reader tells the update by the table before it.
        string identity = Identity().Match(trailer) is { Success: true } id ? $"\n{id.Value}" : "";
        string facts = Info().Match(trailer) is { Success: true } info ? $"\n{info.Value}" : "";
        added.Append(CultureInfo.InvariantCulture, $"trailer\n<</Size {first + marks.Count}\n/Root {catalog} 0 R{facts}{identity}\n/Prev {table}>>\nstartxref\n{newTable}\n%%EOF\n");
        return [.. pdf, .. Encoding.Latin1.GetBytes(added.ToString())];
    }

    private static string Item((Bookmark Mark, string Name) mark, int parent, int? before, int? after) =>
        $"/Title <FEFF{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(LineBreaks.Plain(mark.Mark.Title)))}>\n/Parent {parent} 0 R\n/Dest /{mark.Name}"
        + (before is { } one ? $"\n/Prev {one} 0 R" : "") + (after is { } other ? $"\n/Next {other} 0 R" : "");

    private static string Last(string text, string what, Regex pattern)
    {
        MatchCollection all = pattern.Matches(text);
        return all.Count > 0 ? all[^1].Groups[1].Value : throw new InvalidOperationException($"the PDF has no {what}");
    }

    [GeneratedRegex(@"startxref\s+(\d+)")]
    private static partial Regex StartOfTable();

    [GeneratedRegex(@"/Root (\d+) 0 R")]
    private static partial Regex Root();

    [GeneratedRegex(@"/Size (\d+)")]
    private static partial Regex Size();

    [GeneratedRegex(@"/ID \[.*?\]", RegexOptions.Singleline)]
    private static partial Regex Identity();

    [GeneratedRegex(@"/Info \d+ 0 R")]
    private static partial Regex Info();
}
