using System.Collections.Immutable;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What is printed or read by other programs of a briefing; the walk-through goes with it.</summary>
internal static class BriefingFiles
{
    /// <summary>Files that only some briefings have. One of an earlier briefing is taken away, for it tells of another plan.</summary>
    public static ImmutableArray<string> NotAlways { get; } = ["changes.pdf", "walkthrough-otherwise.vtt"];

    public static IReadOnlyList<(string Name, byte[] Content)> Of(Scenario scenario, ProvenPlan plan, BriefingOptions options, Booklet? changes)
    {
        BriefedPlan briefed = new(scenario, plan, options.Words);
        Booklet book = BriefingBook.Of(briefed, options);
        return
        [
            ("sortie.pdf", Pdf(book, options)),
            ("sortie.txt", Encoding.UTF8.GetBytes(BookletText.Write(book))),
            ("sortie.xlsx", BriefingTables.Workbook(briefed)),
            ("timeline.csv", BriefingTables.Csv(briefed)),
            ("ground.ics", BriefingCalendar.Of(briefed, options.Printed)),
            .. changes is null ? Array.Empty<(string, byte[])>() : [("changes.pdf", Pdf(changes, options))],
        ];
    }

    /// <summary>What changed since the plan that the reader knows, as a booklet; null when there is none.</summary>
    public static Booklet? Changes(Scenario scenario, ProvenPlan plan, BriefingOptions options) =>
        options.Since is { } since ? ChangesBook.Of(new(scenario, plan, options.Words), new(scenario, since, options.Words), options.Printed) : null;

    private static byte[] Pdf(Booklet book, BriefingOptions options) => PdfWriter.Write(PageSetter.Set(book, options.Paper), book.Title, options.Printed, options.Words.Language);
}
