using System.Buffers;
using System.Globalization;
using System.Text;

namespace Sallyport.Draw;

/// <summary>Writes a picture as SVG: as a document that needs nothing beside it, or as a part of a page.</summary>
/// <remarks>The same picture gives the same bytes, wherever and whenever it is written. Every group has an id and a title.</remarks>
public static class SvgWriter
{
    /// <summary>The picture as a part of a page that has the typeface: without a size of its own, its colours for the page to change, the facts of its groups beside them.</summary>
    /// <remarks>A colour such as <c>#17222e</c> is the variable <c>--ink-17222e</c>, and itself where the page has none of this name.</remarks>
    /// <param name="picture">The picture.</param>
    /// <param name="name">What its ids begin with, so that several pictures may stand on one page.</param>
    /// <param name="top">Where the part shown begins, in the units of the picture.</param>
    public static string WritePart(Picture picture, string name, double top)
    {
        Page page = new(name);
        foreach (Element element in picture.Elements) page.Add(element, 1);
        return string.Create(CultureInfo.InvariantCulture, $"""
            <svg xmlns="http://www.w3.org/2000/svg" class="picture" viewBox="0 {Number(top)} {Number(picture.Width)} {Number(picture.Height - top)}" role="img" aria-labelledby="{name}picture-title {name}picture-description">
             <title id="{name}picture-title">{Escape(picture.Title)}</title>
             <desc id="{name}picture-description">{Escape(picture.Description)}</desc>
            {page.Definitions}{page.Body}</svg>

            """);
    }

    /// <summary>The picture as an SVG document, the typeface inside.</summary>
    public static string Write(Picture picture)
    {
        Page page = new(null);
        foreach (Element element in picture.Elements) page.Add(element, 1);
        StringBuilder svg = new();
        svg.Append("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Number(picture.Width)}\" height=\"{Number(picture.Height)}\" ");
        svg.Append(CultureInfo.InvariantCulture, $"viewBox=\"0 0 {Number(picture.Width)} {Number(picture.Height)}\" role=\"img\" aria-labelledby=\"picture-title picture-description\">\n");
        svg.Append(CultureInfo.InvariantCulture, $" <title id=\"picture-title\">{Escape(picture.Title)}</title>\n");
        svg.Append(CultureInfo.InvariantCulture, $" <desc id=\"picture-description\">{Escape(picture.Description)}</desc>\n <style>\n");
        foreach ((Face face, string weight) in new[] { (Face.Regular, "400"), (Face.Bold, "700") })
            svg.Append(CultureInfo.InvariantCulture,
                $"@font-face{{font-family:\"{Lettering.Family}\";font-weight:{weight};src:url(data:font/ttf;base64,{Convert.ToBase64String(Lettering.File(face))}) format(\"truetype\")}}\n");
        svg.Append(CultureInfo.InvariantCulture, $"text{{font-family:\"{Lettering.Family}\",sans-serif;font-kerning:none;text-rendering:geometricPrecision;white-space:pre}}\n </style>\n");
        svg.Append(page.Definitions).Append(page.Body).Append("</svg>\n");
        return svg.ToString();
    }

    private static Figure Number(double value) => new(value);

    /// <summary>A number to two decimals, written where it goes: a chart has thousands of them.</summary>
    private readonly struct Figure(double value) : ISpanFormattable
    {
        /// <summary>Below this every hundredth is a number of its own.</summary>
        private const double Most = 1e12;

        public bool TryFormat(Span<char> to, out int written, ReadOnlySpan<char> format, IFormatProvider? provider)
        {
            written = 0;
            if (!(Math.Abs(value) < Most)) return Slow().TryCopyTo(to) && (written = Slow().Length) > 0;
            long hundredths = (long)Math.Round(value * 100, MidpointRounding.AwayFromZero), left = Math.Abs(hundredths);
            int part = (int)(left % 100);
            if (hundredths < 0)
            {
                if (to.IsEmpty) return false;
                to[written++] = '-';
            }
            if (!(left / 100).TryFormat(to[written..], out int digits, default, CultureInfo.InvariantCulture)) return false;
            written += digits;
            if (part == 0) return true;
            if (to.Length < written + 3) return false;
            to[written++] = '.';
            to[written++] = (char)('0' + part / 10);
            if (part % 10 != 0) to[written++] = (char)('0' + part % 10);
            return true;
        }

        public string ToString(string? format, IFormatProvider? provider)
        {
            Span<char> text = stackalloc char[24];
            return TryFormat(text, out int written, default, null) ? text[..written].ToString() : Slow();
        }

        public override string ToString() => ToString(null, null);

        private string Slow() => Math.Round(value, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture);
    }

    /// <summary>What cannot stand in a text as it is, or is looked at nearer.</summary>
    private static readonly SearchValues<char> Special = SearchValues.Create([.. "&<>\"\uFFFE\uFFFF", .. Enumerable.Range(0, ' ').Select(code => (char)code), .. Enumerable.Range(0xD800, 0x800).Select(code => (char)code)]);

    private static string Escape(string text)
    {
        if (!text.AsSpan().ContainsAny(Special)) return text;
        StringBuilder escaped = new(text.Length);
        foreach (Rune rune in text.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '&' => escaped.Append("&amp;"),
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '"' => escaped.Append("&quot;"),
                '\t' or '\n' or '\r' => escaped.Append(' '),
                < ' ' or 0xFFFE or 0xFFFF => escaped.Append('\uFFFD'), // XML 1.0 has no way to write these
                _ => escaped.Append(rune.ToString()),
            };
        }
        return escaped.ToString();
    }

    /// <param name="part">What ids begin with in a part of a page; null in a document.</param>
    private sealed class Page(string? part)
    {
        private readonly Dictionary<HatchFill, string> hatches = [];
        private readonly Dictionary<int, string> colours = [];

        public StringBuilder Body { get; } = new();

        public string Definitions
        {
            get
            {
                if (hatches.Count == 0) return "";
                StringBuilder definitions = new(" <defs>\n");
                foreach ((HatchFill hatch, string id) in hatches.OrderBy(entry => entry.Value, StringComparer.Ordinal))
                    definitions.Append(CultureInfo.InvariantCulture,
                        $"  <pattern id=\"{id}\" patternUnits=\"userSpaceOnUse\" width=\"{Number(hatch.Gap)}\" height=\"{Number(hatch.Gap)}\" patternTransform=\"rotate(45)\"><line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"{Number(hatch.Gap)}\"{Pen(new(hatch.Ink, hatch.Width * 2))}/></pattern>\n");
                return definitions.Append(" </defs>\n").ToString();
            }
        }

        public void Add(Element element, int depth)
        {
            Body.Append(' ', depth);
            switch (element)
            {
                case Group group:
                    Body.Append(CultureInfo.InvariantCulture, $"<g id=\"{part}{Escape(group.Id)}\"");
                    if (part is not null)
                        foreach ((string name, string value) in group.Facts) Body.Append(CultureInfo.InvariantCulture, $" data-{name}=\"{Escape(value)}\"");
                    Body.Append(CultureInfo.InvariantCulture, $"><title>{Escape(group.Title)}</title>");
                    if (group.Description.Length > 0) Body.Append(CultureInfo.InvariantCulture, $"<desc>{Escape(group.Description)}</desc>");
                    Body.Append('\n');
                    foreach (Element child in group.Children) Add(child, depth + 1);
                    Body.Append(' ', depth).Append("</g>\n");
                    break;
                case Line line:
                    Body.Append(CultureInfo.InvariantCulture, $"<line x1=\"{Number(line.From.X)}\" y1=\"{Number(line.From.Y)}\" x2=\"{Number(line.To.X)}\" y2=\"{Number(line.To.Y)}\"{Pen(line.Stroke)}/>\n");
                    break;
                case Trail trail:
                    Body.Append("<path d=\"");
                    AddPath(trail);
                    Body.Append(CultureInfo.InvariantCulture, $"\"{Paint(trail.Fill)}{Pen(trail.Stroke)}/>\n");
                    break;
                case Box box:
                    Body.Append(CultureInfo.InvariantCulture, $"<rect x=\"{Number(box.Area.Left)}\" y=\"{Number(box.Area.Top)}\" width=\"{Number(box.Area.Width)}\" height=\"{Number(box.Area.Height)}\"");
                    if (box.Corner > 0) Body.Append(CultureInfo.InvariantCulture, $" rx=\"{Number(box.Corner)}\"");
                    Body.Append(CultureInfo.InvariantCulture, $"{Paint(box.Fill)}{Pen(box.Stroke)}/>\n");
                    break;
                case Disc disc:
                    Body.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{Number(disc.Centre.X)}\" cy=\"{Number(disc.Centre.Y)}\" r=\"{Number(disc.Radius)}\"{Paint(disc.Fill)}{Pen(disc.Stroke)}/>\n");
                    break;
                case Text text:
                    Body.Append(CultureInfo.InvariantCulture, $"<text x=\"{Number(text.At.X)}\" y=\"{Number(text.At.Y)}\" font-size=\"{Number(text.Size)}\"");
                    if (text.Face == Face.Bold) Body.Append(" font-weight=\"700\"");
                    if (text.Anchor != Anchor.Start) Body.Append(text.Anchor == Anchor.Middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"");
                    if (text.Turn != 0) Body.Append(CultureInfo.InvariantCulture, $" transform=\"rotate({Number(text.Turn)} {Number(text.At.X)} {Number(text.At.Y)})\"");
                    Body.Append(CultureInfo.InvariantCulture, $"{Paint(new SolidFill(text.Ink))}>{Escape(text.Words)}</text>\n");
                    break;
                default:
                    throw new ArgumentOutOfRangeException(nameof(element), element, "expected a kind of element that this writer knows");
            }
        }

        private void AddPath(Trail trail)
        {
            for (int i = 0; i < trail.Spots.Length; i++) Body.Append(CultureInfo.InvariantCulture, $"{(i == 0 ? 'M' : 'L')}{Number(trail.Spots[i].X)} {Number(trail.Spots[i].Y)}");
            if (trail.Closed) Body.Append('Z');
        }

        private string Colour(Ink ink)
        {
            int key = Code(ink);
            if (colours.TryGetValue(key, out string? known)) return known;
            string colour = key.ToString("x6", CultureInfo.InvariantCulture);
            return colours[key] = part is null ? $"#{colour}" : $"var(--ink-{colour},#{colour})";
        }

        private static int Code(Ink ink) => ink.Red << 16 | ink.Green << 8 | ink.Blue;

        private string Pen(Stroke? stroke)
        {
            if (stroke is null) return "";
            string pen = $" stroke=\"{Colour(stroke.Ink)}\" stroke-width=\"{Number(stroke.Width)}\"";
            if (stroke.Ink.Opacity < 1) pen += $" stroke-opacity=\"{Number(stroke.Ink.Opacity)}\"";
            if (!stroke.Dashes.IsEmpty) pen += $" stroke-dasharray=\"{string.Join(' ', stroke.Dashes.Select(dash => Number(dash).ToString()))}\"";
            return pen;
        }

        private string Paint(Fill? fill)
        {
            switch (fill)
            {
                case null:
                    return " fill=\"none\"";
                case SolidFill solid:
                    return $" fill=\"{Colour(solid.Ink)}\"" + (solid.Ink.Opacity < 1 ? $" fill-opacity=\"{Number(solid.Ink.Opacity)}\"" : "");
                case HatchFill hatch:
                    // On a page named by what it looks like: what is filled with it stays as it is when another hatch comes before.
                    if (!hatches.TryGetValue(hatch, out string? id))
                        hatches[hatch] = id = part is null ? $"hatch-{hatches.Count + 1:00}" : string.Create(CultureInfo.InvariantCulture, $"{part}hatch-{Code(hatch.Ink):x6}-{Number(hatch.Ink.Opacity)}-{Number(hatch.Gap)}-{Number(hatch.Width)}");
                    return $" fill=\"url(#{id})\"";
                default:
                    throw new ArgumentOutOfRangeException(nameof(fill), fill, "expected a kind of fill that this writer knows");
            }
        }
    }
}
