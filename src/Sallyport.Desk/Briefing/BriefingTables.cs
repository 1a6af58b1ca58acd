using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Proof;
using SpreadCheetah;
using SpreadCheetah.Tables;
using SpreadCheetah.Worksheets;
using Table = SpreadCheetah.Tables.Table;

namespace Sallyport.Desk;

/// <summary>What a briefing tells as data: a workbook with tables that can be filtered, and the timeline as comma-separated values.</summary>
internal static class BriefingTables
{
    // Of a zip archive the earliest moment that can be written: files do not say when they were made.
    private static readonly DateTimeOffset NoTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>A table: a name for its sheet, heads, and rows of texts and numbers.</summary>
    private sealed record DataTable(string Name, ImmutableArray<string> Heads, IEnumerable<object[]> Rows);

    /// <summary>The timeline, one line an activity (RFC 4180). The caution stands in a column of its own.</summary>
    public static byte[] Csv(BriefedPlan plan)
    {
        DataTable table = Timeline(plan);
        StringBuilder text = new();
        void Line(IEnumerable<string> fields) => text.AppendJoin(',', fields.Select(Field)).Append("\r\n");
        Line([.. table.Heads, plan.Words["data.caution"]]);
        string caution = plan.IsDraft ? $"{plan.Words["draft"]}. {Caution.Text}" : Caution.Text;
        foreach (object[] row in table.Rows) Line([.. row.Select(value => value is string words ? Harmless(words) : Convert.ToString(value, CultureInfo.InvariantCulture)!), caution]);
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static string Field(string value) => value.AsSpan().IndexOfAny("\",\r\n") < 0 ? value : $"\"{value.Replace("\"", "\"\"")}\"";

    /// <summary>A text that no spreadsheet takes for a formula, whoever wrote it: one that begins like a formula gets an apostrophe before it. A moment before PET zero, such as -0:30, stays as it is.</summary>
    internal static string Harmless(string words) => words.Length > 0 && words[0] is '=' or '+' or '-' or '@' or '\t' or '\r' && !Pet.TryParse(words, out _) ? "'" + words : words;

    /// <summary>The workbook. Texts are stored as texts, never as formulas.</summary>
    public static byte[] Workbook(BriefedPlan plan)
    {
        using MemoryStream stream = new();
        Write(stream, plan).GetAwaiter().GetResult();
        return WithoutTimes(stream.ToArray());
    }

    private static async Task Write(Stream stream, BriefedPlan plan)
    {
        Spreadsheet book = await Spreadsheet.CreateNewAsync(stream, new SpreadCheetahOptions { DocumentProperties = null });
        string head = $"{(plan.IsDraft ? plan.Words["draft"] + ". " : "")}{Caution.Text} {BriefingBook.Running(plan, null).Head}";
        int number = 0;
        foreach (DataTable table in new[] { Timeline(plan), Gear(plan), Ground(plan), Margins(plan), Findings(plan), NotChecked(plan) })
        {
            object[][] rows = [.. table.Rows];
            // A table without a row is no table; then the heads stand alone.
            WorksheetOptions options = new() { FrozenRows = 2 };
            for (int i = 0; i < table.Heads.Length; i++) options.Column(i + 1).Width = Math.Clamp(rows.Select(row => Text(row[i]).Length).Append(table.Heads[i].Length).Max() + 2, 8, 60);
            await book.StartWorksheetAsync(table.Name, options);
            await book.AddRowAsync([new DataCell(Harmless(head))]);
            number++;
            if (rows.Length > 0) book.StartTable(new Table(TableStyle.Light1, string.Create(CultureInfo.InvariantCulture, $"Table{number}")));
            await book.AddHeaderRowAsync([.. table.Heads]);
            foreach (object[] row in rows) await book.AddRowAsync([.. row.Select(value => value is int figure ? new DataCell(figure) : new DataCell(Text(value)))]);
            if (rows.Length > 0) await book.FinishTableAsync();
        }
        await book.FinishAsync();
        await book.DisposeAsync();
    }

    // The longest text that a cell takes is 32,767 letters; letters that XML cannot hold are left out.
    private static string Text(object value)
    {
        string words = Harmless(Draw.LineBreaks.Plain(Convert.ToString(value, CultureInfo.InvariantCulture)!));
        return words.Length <= 32_000 ? words : words[..32_000] + "…";
    }

    /// <summary>A table of both branches: what is the same on both stands in it once, and a column says which branch a row is of.</summary>
    private static DataTable OfBranches(BriefedPlan plan, string name, ImmutableArray<string> heads, Func<BriefedPlan, IEnumerable<object[]>> rowsOf)
    {
        object[][] likely = [.. rowsOf(plan)], other = plan.Other is null ? likely : [.. rowsOf(plan.Other)];
        HashSet<string> inLikely = [.. likely.Select(Key)], inOther = [.. other.Select(Key)];
        string Of(object[] row) => plan.Words[plan.Other is null ? "branch.likely" : inOther.Contains(Key(row)) ? "branch.both" : "branch.likely"];
        return new(name, [plan.Words["data.branch"], .. heads],
        [
            .. likely.Select(row => (object[])[Of(row), .. row]),
            .. other.Where(row => !inLikely.Contains(Key(row))).Select(row => (object[])[plan.Words["branch.other"], .. row]),
        ]);

        static string Key(object[] row) => string.Join('\u0001', row);
    }

    private static DataTable Timeline(BriefedPlan whole)
    {
        Wording words = whole.Words;
        return OfBranches(whole, words["sheet.timeline"],
            [words["data.start"], words["data.end"], words["data.startutc"], words["data.endutc"], words["data.seconds"], words["data.who"], words["data.what"], words["data.where"], words["data.leg"], words["data.until"], words["data.id"]],
            plan => plan.Timeline.Activities.Select(activity => new object[]
            {
                activity.Start.ToString(), activity.End.ToString(), Time(plan, activity.Start), Time(plan, activity.End), activity.Length.Seconds,
                Who(plan, activity), plan.Do(activity, null), activity.People.IsEmpty ? "" : plan.Place(activity.People[0], activity is Translate ? activity.End : activity.Start),
                activity is DoStep step ? step.Leg.Value : activity.For?.Value ?? "", string.Join("; ", activity.After.Select(after => after.Why)), activity.Id.Value,
            }));
    }

    private static string Time(BriefedPlan plan, Pet at) => plan.UtcTime(at).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private static string Who(BriefedPlan plan, Activity activity) => activity switch
    {
        SendCommand command => command.Console.Value,
        ArmMove { Rider: null } move => move.Arm.Value,
        _ => string.Join(", ", activity.People),
    };

    /// <summary>Where every thing is, from when to when.</summary>
    private static DataTable Gear(BriefedPlan whole)
    {
        Wording words = whole.Words;
        return OfBranches(whole, words["sheet.gear"], [words["data.thing"], words["data.id"], words["data.start"], words["data.end"], words["data.where"], words["data.fate"]], plan =>
        {
            Dictionary<GearId, Account> accounts = Accounts.Of(plan.Scenario, plan.Trace).ToDictionary(account => account.Gear.Id);
            return plan.Scenario.Gear.SelectMany(thing =>
            {
                int variable = plan.History[$"gear {thing.Id} place"];
                return plan.History.Stretches(variable).Select(one => new object[]
                {
                    thing.Title, thing.Id.Value, one.From.ToString(), one.To.ToString(), plan.SpotWords(plan.Trace.Variables[variable].States[one.Value]), words["fate." + accounts[thing.Id].Fate.ToString().ToLowerInvariant()],
                });
            });
        });
    }

    private static DataTable Ground(BriefedPlan whole) => OfBranches(whole, whole.Words["sheet.ground"],
        [whole.Words["data.start"], whole.Words["data.end"], whole.Words["data.startutc"], whole.Words["data.endutc"], whole.Words["col.console"], whole.Words["col.command"], whole.Words["col.makes"], whole.Words["data.leg"], whole.Words["data.until"]],
        plan => plan.Timeline.Activities.OfType<SendCommand>().Select(sent => new object[]
        {
            sent.Start.ToString(), sent.End.ToString(), Time(plan, sent.Start), Time(plan, sent.End), sent.Console.Value, sent.Command.Value,
            string.Join("; ", plan.CommandOf(sent).Makes.Select(make => $"{make.Feature} {make.State}")), sent.For?.Value ?? "", string.Join("; ", sent.After.Select(after => after.Why)),
        }));

    private static DataTable Margins(BriefedPlan whole) => OfBranches(whole, whole.Words["sheet.margins"],
        [whole.Words["col.margin"], whole.Words["col.pet"], whole.Words["data.takes"], whole.Words["data.held"], whole.Words["data.left"], whole.Words["col.during"]],
        plan => plan.Tight.OrderBy(tight => tight.MarginSeconds).Select(tight => new object[]
        {
            plan.MarginOf(tight), tight.At.ToString(), tight.IsNoWay ? plan.Words["returns.none"] : tight.Takes.Seconds, tight.Held.Seconds,
            tight.IsNoWay ? "–" : tight.Left.Seconds, plan.During(tight),
        }));

    private static DataTable Findings(BriefedPlan plan) => new(plan.Words["sheet.findings"],
        [plan.Words["data.severity"], plan.Words["col.rule"], plan.Words["data.branch"], plan.Words["col.pet"], plan.Words["col.who"], plan.Words["data.sentence"], plan.Words["data.measured"], plan.Words["col.limit"], plan.Words["data.margin"], plan.Words["col.source"], plan.Words["col.mend"]],
        plan.Plan.Verdict.Findings.Select(finding => new object[]
        {
            plan.Words["severity." + finding.Severity.ToString().ToLowerInvariant()], finding.Rule.Value, plan.Words[finding.Branch == Branch.Likely ? "branch.likely" : "branch.other"], finding.At.ToString(),
            string.Join(", ", finding.Who), finding.Sentence, finding.Measured, finding.Limit, finding.Margin, finding.Source, finding.Mend,
        }));

    private static DataTable NotChecked(BriefedPlan plan) => new(plan.Words["sheet.notchecked"], [plan.Words["notchecked.title"]], plan.Plan.Verdict.NotChecked.Select(one => new object[] { one }));

    /// <summary>The same archive without the moments at which its parts were written.</summary>
    private static byte[] WithoutTimes(byte[] archive)
    {
        using MemoryStream result = new();
        using (ZipArchive from = new(new MemoryStream(archive), ZipArchiveMode.Read))
        using (ZipArchive to = new(result, ZipArchiveMode.Create, leaveOpen: true))
            foreach (ZipArchiveEntry entry in from.Entries)
            {
                ZipArchiveEntry copy = to.CreateEntry(entry.FullName, CompressionLevel.Optimal);
                copy.LastWriteTime = NoTime;
                using Stream read = entry.Open(), write = copy.Open();
                read.CopyTo(write);
            }
        return result.ToArray();
    }
}
