using System.Collections.Immutable;
using SkiaSharp;

namespace Sallyport.Draw;

/// <summary>Writes pages as a PDF with text that can be searched, and bookmarks.</summary>
/// <remarks>The same pages give the same bytes: no clock is read.</remarks>
public static class PdfWriter
{
    /// <summary>The pages as a PDF.</summary>
    /// <param name="pages">At least one.</param>
    /// <param name="title">The title of the document.</param>
    /// <param name="printed">The date that it says it was made on; null for none.</param>
    /// <param name="language">The language of its words, such as <c>en</c>.</param>
    public static byte[] Write(ImmutableArray<Page> pages, string title, DateOnly? printed, string language)
    {
        using MemoryStream stream = new();
        DateTime? made = printed?.ToDateTime(TimeOnly.MinValue, DateTimeKind.Utc);
        SKDocumentPdfMetadata facts = new() { Title = LineBreaks.Plain(title), Creator = "Sallyport", Producer = "Sallyport", Creation = made, Modified = made, PdfA = false };
        List<(Bookmark Mark, string Name)> marks = [];
        using (SKDocument document = SKDocument.CreatePdf(stream, facts) ?? throw new InvalidOperationException("no PDF can be written on this machine"))
        {
            foreach (Page page in pages)
            {
                SKCanvas canvas = document.BeginPage((float)page.Width, (float)page.Height);
                foreach (Element element in page.Elements) SkiaPainter.Draw(canvas, element);
                foreach (Bookmark mark in page.Marks)
                {
                    string name = $"mark{marks.Count}";
                    canvas.DrawNamedDestinationAnnotation(new SKPoint(0, (float)Math.Max(0, mark.Top - 8)), name);
                    marks.Add((mark, name));
                }
                document.EndPage();
            }
            document.Close();
        }
        return PdfBookmarks.Append(stream.ToArray(), marks, language);
    }
}
