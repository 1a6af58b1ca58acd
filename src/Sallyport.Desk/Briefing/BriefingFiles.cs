using System.Text;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What is printed or read by other programs of a briefing; the walk-through goes with it.</summary>
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
            ("sortie.xlsx", BriefingTables.Workbook(briefed)),
            ("timeline.csv", BriefingTables.Csv(briefed)),
            ("ground.ics", BriefingCalendar.Of(briefed, options.Printed)),
        ];
        if (Changes(briefed, options) is { } changes) files.Add(("changes.pdf", Pdf(changes, options)));
        return files;
    }

    /// <summary>What changed since the plan that the reader knows, as a booklet; null when there is none.</summary>
    public static Booklet? Changes(BriefedPlan plan, BriefingOptions options) =>
        options.Since is { } since ? ChangesBook.Of(plan, new(plan.Scenario, since, options.Words), options.Printed) : null;

    private static byte[] Pdf(Booklet book, BriefingOptions options) => PdfWriter.Write(PageSetter.Set(book, options.Paper), book.Title, options.Printed, options.Words.Language);
}
