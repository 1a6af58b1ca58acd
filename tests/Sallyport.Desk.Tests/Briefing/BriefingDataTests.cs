using System.Globalization;
using System.Text;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using DocumentFormat.OpenXml.Validation;
using Ical.Net.CalendarComponents;
using Microsoft.VisualBasic.FileIO;
using Sallyport.Model;
using Calendar = Ical.Net.Calendar;
using Scenario = Sallyport.Model.Scenario;
using Wording = Sallyport.Draw.Wording;

namespace Sallyport.Desk.Tests;

/// <summary>Workbook, values and calendar of a briefing, read by programs of other people: the Open XML SDK, the text field parser of the platform, Ical.Net.</summary>
public sealed class BriefingDataTests
{
    [Theory]
    [InlineData("skerry-short")]
    [InlineData("skerry")]
    [InlineData("tern")]
    public void Workbook_OfAPlan_IsValidAndHoldsTheTimelineInATableWithFilters(string name)
    {
        (_, ProvenPlan plan) = PddlPlans.Of(name);
        using SpreadsheetDocument book = Open(Briefings.File(name, "sortie.xlsx"));
        WorksheetPart[] sheets = [.. book.WorkbookPart!.WorksheetParts];
        Assert.Equal(6, book.WorkbookPart.Workbook!.Sheets!.Elements<Sheet>().Count());
        WorksheetPart timeline = (WorksheetPart)book.WorkbookPart.GetPartById(book.WorkbookPart.Workbook.Sheets.Elements<Sheet>().First(sheet => sheet.Name == "Timeline").Id!);
        Table table = Assert.Single(timeline.TableDefinitionParts).Table!;
        Assert.NotNull(table.AutoFilter);
        List<string[]> rows = Rows(book, timeline);
        Assert.Contains(Caution.Text, rows[0][0]);
        string other = Wording.English["branch.other"];
        Assert.Equal(plan.Likely.Activities.Select(activity => (activity.Id.Value, activity.Length.Seconds.ToString(CultureInfo.InvariantCulture))), rows.Skip(2).Where(row => row[0] != other).Select(row => (row[^1], row[5])));
        AssertBranches(plan, [.. rows.Skip(2).Select(row => (row[0], row[^1], row[1], row[2]))]);
        Assert.All(sheets, sheet => Assert.Empty(sheet.Worksheet!.Descendants<CellFormula>()));
        Assert.Equal(plan.Verdict.Findings.Length + 2, Rows(book, (WorksheetPart)book.WorkbookPart.GetPartById(book.WorkbookPart.Workbook.Sheets.Elements<Sheet>().First(sheet => sheet.Name == "Findings").Id!)).Count);
    }

    private static SpreadsheetDocument Open(byte[] content)
    {
        SpreadsheetDocument book = SpreadsheetDocument.Open(new MemoryStream(content), false);
        Assert.Empty(new OpenXmlValidator().Validate(book, TestContext.Current.CancellationToken).Select(error => $"{error.Part?.Uri} {error.Path?.XPath}: {error.Description}"));
        return book;
    }

    private static List<string[]> Rows(SpreadsheetDocument book, WorksheetPart sheet)
    {
        string[] shared = [.. book.WorkbookPart!.SharedStringTablePart?.SharedStringTable?.Elements<SharedStringItem>().Select(item => item.InnerText) ?? []];
        return [.. sheet.Worksheet!.Descendants<Row>().Select(row => row.Elements<Cell>().Select(cell => cell.DataType?.Value == CellValues.SharedString ? shared[int.Parse(cell.InnerText, CultureInfo.InvariantCulture)] : cell.InnerText).ToArray())];
    }

    [Theory]
    [InlineData("skerry-short")]
    [InlineData("skerry")]
    [InlineData("tern")]
    public void Csv_OfAPlan_GivesEveryActivityBack(string name)
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of(name);
        byte[] csv = Briefings.File(name, "timeline.csv");
        List<string[]> rows = Parsed(csv);
        AssertBranches(plan, [.. rows.Skip(1).Select(row => (row[0], row[^2], row[1], row[2]))]);
        foreach ((Activity activity, string[] row) in plan.Likely.Activities.Zip(rows.Skip(1)))
        {
            Assert.Equal((activity.Start.ToString(), activity.End.ToString(), activity.Id.Value, Caution.Text), (row[1], row[2], row[^2], row[^1]));
            Assert.Equal(scenario.Sortie.PetZero.AddSeconds(activity.Start.Seconds), DateTime.Parse(row[3], CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal));
        }
        // RFC 4180, 2: lines end with CR and LF, the last one too; there is no other line feed outside of quotes.
        Assert.EndsWith("\r\n", Encoding.UTF8.GetString(csv), StringComparison.Ordinal);
    }

    /// <summary>What is of both branches and of the other one is every activity of the other branch, each once, and what both have alike stands once.</summary>
    private static void AssertBranches(ProvenPlan plan, (string Branch, string Id, string Start, string End)[] rows)
    {
        (string both, string other) = (Wording.English["branch.both"], Wording.English["branch.other"]);
        if (plan.Played.Length == 1)
        {
            Assert.All(rows, row => Assert.Equal(Wording.English["branch.likely"], row.Branch));
            return;
        }
        static (string, string, string) Told(Activity activity) => (activity.Id.Value, activity.Start.ToString(), activity.End.ToString());
        Assert.Equal(plan.Played[1].Timeline.Activities.Select(Told).Order(), rows.Where(row => row.Branch == both || row.Branch == other).Select(row => (row.Id, row.Start, row.End)).Order());
        Assert.Equal(plan.Likely.Activities.Select(Told).Order(), rows.Where(row => row.Branch != other).Select(row => (row.Id, row.Start, row.End)).Order());
        Assert.True(rows.Count(row => row.Branch == both) > 100 && rows.Any(row => row.Branch == other), "the branches have nothing alike, or all");
    }

    private static List<string[]> Parsed(byte[] csv)
    {
        using TextFieldParser parser = new(new MemoryStream(csv), Encoding.UTF8) { TextFieldType = FieldType.Delimited, Delimiters = [","], HasFieldsEnclosedInQuotes = true, TrimWhiteSpace = false };
        List<string[]> rows = [];
        while (!parser.EndOfData) rows.Add(parser.ReadFields()!);
        Assert.Single(rows.Select(row => row.Length).Distinct());
        return rows;
    }

    [Theory]
    [InlineData("skerry-short")]
    [InlineData("skerry")]
    [InlineData("tern")]
    public void Calendar_OfAPlan_HasEveryCommandAtItsTimeAndFoldsItsLines(string name)
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of(name);
        byte[] ics = Briefings.File(name, "ground.ics");
        Calendar calendar = Calendar.Load(Briefings.Text(ics))!;
        foreach ((Branch branch, SendCommand command) in plan.Played.SelectMany(one => one.Timeline.Activities.OfType<SendCommand>().Select(command => (one.Timeline.Branch, command))))
        {
            string[] marks = [.. new[] { "", branch == Branch.Likely ? " (likely branch)" : " (OTHER BRANCH)" }.Select(mark => $"{command.Console}: {command.Command}{mark}")];
            CalendarEvent found = Assert.Single(calendar.Events, one => marks.Contains(one.Summary) && one.DtStart!.AsUtc == scenario.Sortie.PetZero.AddSeconds(command.Start.Seconds));
            Assert.Equal(scenario.Sortie.PetZero.AddSeconds(command.End.Seconds), found.DtEnd!.AsUtc);
            Assert.Contains(Caution.Text, found.Description);
        }
        Assert.Equal(plan.Played.Length, calendar.Events.Count(one => one.Summary!.StartsWith(scenario.Sortie.Title, StringComparison.Ordinal)));
        Assert.Equal(calendar.Events.Count, calendar.Events.Select(one => one.Uid).Distinct().Count());
        AssertFolded(ics);
    }

    /// <summary>RFC 5545, 3.1: content lines end with CR and LF and are no longer than 75 octets, those not counted; every piece is whole letters.</summary>
    private static void AssertFolded(byte[] ics)
    {
        string text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(ics);
        Assert.EndsWith("\r\n", text, StringComparison.Ordinal);
        Assert.All(text.Split("\r\n"), line =>
        {
            Assert.True(Encoding.UTF8.GetByteCount(line) <= 75, line);
            Assert.DoesNotContain('\n', line);
        });
    }

    public static TheoryData<string> HostileNames => new(
        "=HYPERLINK(\"http://example.invalid\",\"press\")", "+1+cmd|' /C calc'!A0", "@SUM(1)", "-2+3", "a, \"b\"; c\\n\nBEGIN:VEVENT\r\nEND:VCALENDAR", "<b>&amp;</b><script>x</script>", "]]>",
        "נועה הלדן", "ليلى الشاطئ ٣", "Zoë Ångström Ðorđević Έλλη Юля", "山田 太郎 🚀", "\u202Egnp.exe\u202C", string.Concat(Enumerable.Repeat("Verylongnamewithoutanyblank", 20)), "\tx\0\u0007", "\uD800 half");

    [Theory]
    [MemberData(nameof(HostileNames))]
    public void Names_ThatAreLongOrForeignOrLadenWithMarkup_BreakNothingAndInjectNothing(string hostile)
    {
        (Scenario told, ProvenPlan plan) = PddlPlans.Of("skerry-short");
        Scenario scenario = told with
        {
            Sortie = told.Sortie with { Title = hostile },
            People = [.. told.People.Select(person => person with { Name = hostile })],
            Gear = [.. told.Gear.Select(thing => thing with { Title = hostile })],
            Jobs = [.. told.Jobs.Select(job => job with { Title = hostile, For = hostile, Hazard = hostile, Legs = [.. job.Legs.Select(leg => leg with { Title = hostile, Steps = [.. leg.Steps.Select(step => step with { Title = hostile })] })] })],
        };
        var files = Briefings.Make(scenario, plan, Briefings.Options with { Since = plan });
        Assert.Empty(Briefings.OverTheEdge(files.Of("sortie.pdf")));
        Assert.NotEmpty(Briefings.Pages(files.Of("changes.pdf")));
        using (SpreadsheetDocument book = Open(files.Of("sortie.xlsx")))
            foreach (WorksheetPart sheet in book.WorkbookPart!.WorksheetParts)
            {
                Assert.Empty(sheet.Worksheet!.Descendants<CellFormula>());
                Assert.All(Rows(book, sheet).SelectMany(row => row), AssertHarmless);
            }
        List<string[]> rows = Parsed(files.Of("timeline.csv"));
        Assert.Equal(plan.Likely.Activities.Length + 1, rows.Count);
        Assert.All(rows.SelectMany(row => row), AssertHarmless);
        Calendar calendar = Calendar.Load(Briefings.Text(files.Of("ground.ics")))!;
        Assert.Equal(1 + scenario.Sky.NoLink.Count(gap => gap.From < plan.Played[0].Trace.To && gap.To > plan.Played[0].Trace.From) + plan.Likely.Activities.OfType<SendCommand>().Count(), calendar.Events.Count);
        Assert.Equal(Draw.LineBreaks.Plain(hostile).Trim(), calendar.Events.Single(one => one.DtStart!.AsUtc == scenario.Sortie.PetZero.AddSeconds(plan.Played[0].Trace.From.Seconds) && one.DtEnd!.AsUtc == scenario.Sortie.PetZero.AddSeconds(plan.Played[0].Trace.To.Seconds)).Summary!.Trim());
        AssertFolded(files.Of("ground.ics"));
    }

    private static void AssertHarmless(string cell) => Assert.False(cell.Length > 0 && cell[0] is '=' or '+' or '@' or '\t' || (cell.StartsWith('-') && !Pet.TryParse(cell, out _) && !int.TryParse(cell, CultureInfo.InvariantCulture, out _)), cell);
}
