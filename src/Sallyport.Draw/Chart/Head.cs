using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>What stands above the strips: title block, time axis, light and link, and the marks of the sortie.</summary>
internal sealed class Head
{
    private const double RowHeight = 15;
    private const double MarksHeight = 46;
    private readonly Sheet sheet;
    private readonly IReadOnlyList<string> status;
    private readonly double axisTop;
    private readonly ImmutableArray<(Pet At, string Words, bool Strong)> poles;
    private readonly (Pet Likely, Pet Before, string Words)? decision;

    public Head(Sheet sheet)
    {
        this.sheet = sheet;
        Badge = sheet.Verdict.Clean && !sheet.Options.IsWhole ? sheet.Words["drawn.notproven"] : BadgeOf(sheet.Verdict, sheet.Words);
        double badgeWidth = Lettering.Measure(Badge, Face.Bold, 13) + 20;
        StatusLeft = sheet.Margin + badgeWidth + 12;
        status = Lettering.Wrap($"{CountsOf(sheet)} · {EndOf(sheet)}", Face.Regular, 13, sheet.Right - StatusLeft);
        axisTop = 86 + Math.Max(1, status.Count) * 17;
        AxisBottom = axisTop + 32;
        Bottom = AxisBottom + Rows * RowHeight + 6 + MarksHeight;

        Sortie sortie = sheet.Scenario.Sortie;
        List<(Pet, string, bool)> list = [(default, sheet.Words.Say("drawn.zero", sortie.PetZeroIs), true), (sheet.Trace.To, sheet.Words.Say("drawn.end", sheet.Trace.To), true)];
        if (sheet.EndLimit is { } limit) list.Add((limit, sheet.Words.Say("drawn.limit", limit), false));
        poles = [.. list];
        decision = DecisionOf(sheet);
    }

    /// <summary>Where the strips begin.</summary>
    public double Bottom { get; }

    /// <summary>Where the axis ends and the rows of the sky begin.</summary>
    public double AxisBottom { get; }

    public string Summary => $"{Badge}. {CountsOf(sheet)}. {EndOf(sheet)}. {Caution.Text}";

    private string Badge { get; }

    private double StatusLeft { get; }

    private double MarksTop => AxisBottom + Rows * RowHeight + 4;

    /// <summary>Light, link, and radiation where it is known.</summary>
    private int Rows => sheet.Scenario.Sky.Radiation is null ? 2 : 3;

    public IEnumerable<Element> Draw()
    {
        RangeChartOptions options = sheet.Options;
        double width = sheet.Right - sheet.Margin;
        string facts = sheet.Words.Say("drawn.facts", options.OutlineName, sheet.Timeline.PlanId, sheet.Scenario.Id);
        if (options.PrintedOn is { } date) facts = sheet.Words.Say("drawn.printed", facts, date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        bool broken = !sheet.Verdict.Clean;
        Area badge = new(sheet.Margin, 70, StatusLeft - 12 - sheet.Margin, 20);
        string what = sheet.Words["drawn.what"];
        double titleWidth = width - Lettering.Measure(what, Face.Regular, 12) - 30;
        List<Element> title =
        [
            new Text(new(sheet.Margin, 38), Lettering.Shorten(sheet.Scenario.Sortie.Title, Face.Bold, 25, titleWidth), Face.Bold, 25, Palette.Words),
            new Text(new(sheet.Right, 38), what, Face.Regular, 12, Palette.Quiet, Anchor.End),
            new Text(new(sheet.Margin, 58), Lettering.Shorten(facts, Face.Regular, 13, width), Face.Regular, 13, Palette.Quiet),
            new Box(badge, new SolidFill(broken ? Palette.Ceiling : Palette.Paper), new(broken ? Palette.Ceiling : Palette.Words, 1.4), 3),
            new Text(new(badge.Centre.X, 84.5), Badge, Face.Bold, 13, broken ? Palette.Paper : Palette.Words, Anchor.Middle),
            .. status.Select((line, i) => new Text(new(StatusLeft, 84.5 + i * 17), line, Face.Regular, 13, Palette.Words)),
        ];
        yield return new Group(sheet.Ids.Take("title"), sheet.Scenario.Sortie.Title, Summary, [.. title]);

        TimeAxis axis = sheet.Axis;
        List<Element> times =
        [
            .. axis.PetRow(axisTop + 26),
            new Text(new(axis.Left - 26, axisTop + 26), sheet.Words["col.pet"], Face.Bold, 12, Palette.Words, Anchor.End),
            new Text(new(axis.Left - 26, axisTop + 11), sheet.Words.Say("drawn.utc", axis.Date(axis.From).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), Face.Regular, 11, Palette.Quiet, Anchor.End),
        ];
        times.AddRange(UtcRow());
        yield return new Group(sheet.Ids.Take("time"), sheet.Words["drawn.time"], "", [.. times]);
    }

    /// <summary>UTC at the hours, or at every tick of a short walk; a new date is named, and goes before a time that it would touch.</summary>
    private List<Text> UtcRow()
    {
        List<Text> row = [];
        DateOnly date = sheet.Axis.Date(sheet.Axis.From);
        foreach (Pet tick in sheet.Axis.Ticks)
        {
            bool isNewDate = sheet.Axis.Date(tick) != date;
            if (tick.Seconds % 3600 != 0 && sheet.Axis.Step >= 1800 && !isNewDate) continue;
            date = sheet.Axis.Date(tick);
            string words = (isNewDate ? date.ToString("MM-dd ", CultureInfo.InvariantCulture) : "") + sheet.Axis.Utc(tick);
            Text text = new(new(sheet.Axis.X(tick), axisTop + 11), words, Face.Regular, 11, Palette.Quiet, Anchor.Middle);
            bool touches = row.Count > 0 && row[^1].Area.Grown(3).Overlaps(text.Area);
            if (touches && !isNewDate) continue;
            if (touches) row.RemoveAt(row.Count - 1);
            row.Add(text);
        }
        return row;
    }

    /// <summary>Night down to the foot of the chart, loss of signal along the top.</summary>
    public IEnumerable<Element> Sky(double bottom)
    {
        TimeAxis axis = sheet.Axis;
        double light = AxisBottom, link = AxisBottom + RowHeight;
        foreach (PetInterval night in sheet.Scenario.Sky.Night)
        {
            if (axis.Shown(night.From, night.To) is not { } shown) continue;
            List<Element> parts = [new Box(new(shown.Left, light, shown.Right - shown.Left, bottom - light), new SolidFill(Palette.Night), null)];
            if (shown.Right - shown.Left > 40) parts.Add(new Text(new((shown.Left + shown.Right) / 2, light + 11), sheet.Words["drawn.night"], Face.Regular, 11, Palette.Quiet, Anchor.Middle));
            yield return new Group(sheet.Ids.Take("night"), sheet.Words.Say("drawn.nightfrom", night.From, night.To), Darkness(night), [.. parts]);
        }
        foreach (PetInterval gap in sheet.Scenario.Sky.NoLink)
        {
            if (axis.Shown(gap.From, gap.To) is not { } shown) continue;
            yield return new Group(sheet.Ids.Take("no-signal"), sheet.Words.Say("drawn.lostfrom", gap.From, gap.To), "",
                [new Box(new(shown.Left, link + 2, shown.Right - shown.Left, RowHeight - 3), Strokes.NoLink, new(Palette.Quiet, 0.8))]);
        }
        double radiation = link + RowHeight;
        foreach (PetInterval pass in sheet.Scenario.Sky.Radiation ?? [])
            if (axis.Shown(pass.From, pass.To) is { } shown)
                yield return new Group(sheet.Ids.Take("radiation"), sheet.Words.Say("drawn.radiationfrom", pass.From, pass.To), "",
                    [.. Strokes.Radiation(new(shown.Left, radiation + 2, shown.Right - shown.Left, RowHeight - 3))]);
        List<Element> names =
        [
            new Text(new(axis.Left - 26, light + 11), sheet.Words["drawn.light"], Face.Regular, 11, Palette.Quiet, Anchor.End),
            new Text(new(axis.Left - 26, link + 11.5), sheet.Words["drawn.lost"], Face.Regular, 11, Palette.Quiet, Anchor.End),
        ];
        if (Rows == 3) names.Add(new Text(new(axis.Left - 26, radiation + 11.5), sheet.Words["drawn.radiation"], Face.Regular, 11, Palette.Quiet, Anchor.End));
        yield return new Group(sheet.Ids.Take("sky-names"), sheet.Words["drawn.sky"], sheet.Scenario.Sky.Source, [.. names]);
    }

    /// <summary>When a night is fully dark, where that is not the whole of it.</summary>
    private string Darkness(PetInterval night)
    {
        if (sheet.Scenario.Sky.FullNight.Contains(night)) return "";
        PetInterval[] dark = [.. sheet.Scenario.Sky.FullNight.Where(one => night.From <= one.From && one.To <= night.To)];
        return dark.Length == 0 ? sheet.Words["drawn.neverdark"] : sheet.Words.Say("drawn.dark", string.Join(", ", dark.Select(one => sheet.Words.Say("drawn.fromto", one.From, one.To))));
    }

    /// <summary>The upright lines through the strips.</summary>
    public IEnumerable<(Spot From, Spot To)> Poles(double bottom)
    {
        foreach ((Pet at, _, _) in poles) yield return (new(sheet.Axis.X(at), MarksTop + MarksHeight - 14), new(sheet.Axis.X(at), bottom));
        if (decision is { } choice) yield return (new(sheet.Axis.X(choice.Likely), MarksTop + MarksHeight - 14), new(sheet.Axis.X(choice.Likely), bottom));
    }

    /// <summary>Start, end, limit and decision.</summary>
    public IEnumerable<Element> Marks(double bottom)
    {
        double foot = MarksTop + MarksHeight - 3;
        LabelPlacer placer = new(new(sheet.Axis.Left - 20, MarksTop, sheet.Options.Width - 4 - sheet.Axis.Left + 20, MarksHeight - 3));
        List<LabelRequest> requests = [];
        List<(string Id, string Title, ImmutableArray<Element> Lines)> marks = [];
        foreach ((Pet at, string words, bool strong) in poles)
        {
            double x = sheet.Axis.X(at);
            Stroke stroke = strong ? new(Palette.Words, 1.3) : new(Palette.Ceiling, 1.6, [7, 3]);
            marks.Add(("mark", words, [new Line(new(x, MarksTop + MarksHeight - 14), new(x, bottom), stroke)]));
            requests.Add(Request(words, [new(x, foot - 11), new(x, foot)], 2));
            placer.Avoid([new(x, foot - 11), new(x, foot)], 1.5, true);
        }
        if (decision is { } choice)
        {
            double left = sheet.Axis.X(choice.Likely), right = Math.Max(left + 14, sheet.Axis.X(choice.Before)), top = foot - 11;
            marks.Add(("decision", choice.Words,
            [
                new Line(new(left, top), new(left, bottom), new(Palette.Words, 1.5, [1.5, 3])),
                new Trail([new(left, top), new(right, top), new(right - 5, top + 5), new(right, top + 10), new(left, top + 10)], null, new SolidFill(Palette.Words), true),
            ]));
            requests.Add(Request(choice.Words, [new(left, top), new(right, top)], 3));
            placer.Avoid(new Area(left, top, right - left, 10));
        }
        ImmutableArray<PlacedLabel?> placed = placer.Place(requests);
        for (int i = 0; i < marks.Count; i++)
        {
            IEnumerable<Element> label = placed[i]?.Draw(Palette.Words) ?? [];
            if (placed[i] is null) sheet.MoveToKey(marks[i].Title);
            yield return new Group(sheet.Ids.Take(marks[i].Id), marks[i].Title, "", [.. marks[i].Lines, .. label]);
        }

        static LabelRequest Request(string words, ImmutableArray<Spot> anchor, double priority) =>
            new([new([new(words, Face.Bold, 11.5, Palette.Words)], 0)], anchor, priority, 160);
    }

    private static string BadgeOf(Verdict verdict, Wording words)
    {
        int broken = verdict.Findings.Count(finding => finding.Severity == Severity.Broken);
        if (broken > 0) return words.Say("drawn.broken", broken);
        return words[verdict.Checked.IsEmpty ? "drawn.notjudged" : verdict.NotChecked.IsEmpty ? "drawn.clean" : "drawn.cleanasfar"];
    }

    private static string CountsOf(Sheet sheet)
    {
        Verdict verdict = sheet.Verdict;
        int Count(Severity severity) => verdict.Findings.Count(finding => finding.Severity == severity);
        int notes = Count(Severity.Note), rules = verdict.Checked.Length;
        string counts = sheet.Words.Say("drawn.counts", sheet.Words.Say(rules == 1 ? "drawn.rule" : "drawn.rules", rules), Count(Severity.Broken), Count(Severity.Near), sheet.Words.Say(notes == 1 ? "drawn.note" : "drawn.notes", notes));
        return verdict.NotChecked.IsEmpty ? counts : sheet.Words.Say(sheet.Options.ListsBelow ? "drawn.notcheckedbelow" : "drawn.notchecked", counts, verdict.NotChecked.Length);
    }

    private static string EndOf(Sheet sheet)
    {
        Pet end = sheet.Trace.To;
        string utc = sheet.Axis.Utc(end);
        if (sheet.EndLimit is not { } limit) return sheet.Words.Say("drawn.ends", end, utc);
        int left = limit.Since(end).Seconds;
        return left >= 0 ? sheet.Words.Say("drawn.endsbefore", end, utc, Sheet.MinutesDown(left), limit) : sheet.Words.Say("drawn.endsafter", end, utc, Sheet.MinutesUp(-left), limit);
    }

    private static (Pet Likely, Pet Before, string Words)? DecisionOf(Sheet sheet)
    {
        if (sheet.Options.Decision is not { } decision) return null;
        ImmutableArray<DoStep> steps = [.. sheet.Timeline.Activities.OfType<DoStep>().Where(step => step.Leg == decision.After)];
        if (steps.IsEmpty) return null;
        string leg = sheet.Scenario.Legs.FirstOrDefault(leg => leg.Id == decision.After)?.Title ?? decision.After.Value;
        return (steps.Max(step => step.End), decision.IfBefore, sheet.Words.Say("drawn.decision", leg, decision.IfBefore));
    }
}
