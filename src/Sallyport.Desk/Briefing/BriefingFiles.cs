using System.Text;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The files of a briefing, in one place: whatever belongs to a briefing is listed here and written together.</summary>
internal static class BriefingFiles
{
    public static IReadOnlyList<(string Name, byte[] Content)> Of(Scenario scenario, ProvenPlan plan, BriefingOptions options)
    {
        BriefedPlan briefed = new(scenario, plan, options.Words);
        Booklet book = BriefingBook.Of(briefed, options);
        List<(string Name, byte[] Content)> files =
        [
            ("sortie.pdf", Pdf(book, options)),
            ("sortie.txt", Encoding.UTF8.GetBytes(BookletText.Write(book))),
        ];
        return files;
    }

    private static byte[] Pdf(Booklet book, BriefingOptions options) => PdfWriter.Write(PageSetter.Set(book, options.Paper), book.Title, options.Printed, options.Words.Language);
}
