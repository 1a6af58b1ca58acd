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
        Badge = sheet.Verdict.Clean && !sheet.Options.IsWhole ? "Not proven yet" : BadgeOf(sheet.Verdict);
        double badgeWidth = Lettering.Measure(Badge, Face.Bold, 13) + 20;
        StatusLeft = sheet.Margin + badgeWidth + 12;
        status = Lettering.Wrap($"{CountsOf(sheet)} · {EndOf(sheet)}", Face.Regular, 13, sheet.Right - StatusLeft);
        axisTop = 86 + Math.Max(1, status.Count) * 17;
        AxisBottom = axisTop + 32;
        Bottom = AxisBottom + Rows * RowHeight + 6 + MarksHeight;

        Sortie sortie = sheet.Scenario.Sortie;
        List<(Pet, string, bool)> list = [(default, $"PET 0:00: {sortie.PetZeroIs}", true), (sheet.Trace.To, $"end {sheet.Trace.To}", true)];
        if (sheet.EndLimit is { } limit) list.Add((limit, $"limit {limit}", false));
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
        string printed = options.PrintedOn is { } date ? string.Create(CultureInfo.InvariantCulture, $" · printed {date:yyyy-MM-dd}") : "";
        double width = sheet.Right - sheet.Margin;
        string facts = $"outline {options.OutlineName} · plan {sheet.Timeline.PlanId} · scenario {sheet.Scenario.Id}{printed}";
        bool broken = !sheet.Verdict.Clean;
        Area badge = new(sheet.Margin, 70, StatusLeft - 12 - sheet.Margin, 20);
        const string what = "range chart: minutes until safe inside, over the hours of the walk";
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
            new Text(new(axis.Left - 26, axisTop + 26), "PET", Face.Bold, 12, Palette.Words, Anchor.End),
            new Text(new(axis.Left - 26, axisTop + 11), $"{axis.Date(axis.From):yyyy-MM-dd}  UTC", Face.Regular, 11, Palette.Quiet, Anchor.End),
        ];
        times.AddRange(UtcRow());
        yield return new Group(sheet.Ids.Take("time"), "Time: PET and UTC", "", [.. times]);
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
            if (shown.Right - shown.Left > 40) parts.Add(new Text(new((shown.Left + shown.Right) / 2, light + 11), "night", Face.Regular, 11, Palette.Quiet, Anchor.Middle));
            yield return new Group(sheet.Ids.Take("night"), $"Night, PET {night.From} to {night.To}", Darkness(night), [.. parts]);
        }
        foreach (PetInterval gap in sheet.Scenario.Sky.NoLink)
        {
            if (axis.Shown(gap.From, gap.To) is not { } shown) continue;
            yield return new Group(sheet.Ids.Take("no-signal"), $"Loss of signal, PET {gap.From} to {gap.To}", "",
                [new Box(new(shown.Left, link + 2, shown.Right - shown.Left, RowHeight - 3), Strokes.NoLink, new(Palette.Quiet, 0.8))]);
        }
        double radiation = link + RowHeight;
        foreach (PetInterval pass in sheet.Scenario.Sky.Radiation ?? [])
            if (axis.Shown(pass.From, pass.To) is { } shown)
                yield return new Group(sheet.Ids.Take("radiation"), $"High radiation, PET {pass.From} to {pass.To}", "",
                    [.. Strokes.Radiation(new(shown.Left, radiation + 2, shown.Right - shown.Left, RowHeight - 3))]);
        List<Element> names =
        [
            new Text(new(axis.Left - 26, light + 11), "light", Face.Regular, 11, Palette.Quiet, Anchor.End),
            new Text(new(axis.Left - 26, link + 11.5), "loss of signal", Face.Regular, 11, Palette.Quiet, Anchor.End),
        ];
        if (Rows == 3) names.Add(new Text(new(axis.Left - 26, radiation + 11.5), "high radiation", Face.Regular, 11, Palette.Quiet, Anchor.End));
        yield return new Group(sheet.Ids.Take("sky-names"), "Light and link", sheet.Scenario.Sky.Source, [.. names]);
    }

    /// <summary>When a night is fully dark, where that is not the whole of it.</summary>
    private string Darkness(PetInterval night)
    {
        if (sheet.Scenario.Sky.FullNight.Contains(night)) return "";
        PetInterval[] dark = [.. sheet.Scenario.Sky.FullNight.Where(one => night.From <= one.From && one.To <= night.To)];
        return dark.Length == 0 ? "never fully dark" : "fully dark " + string.Join(", ", dark.Select(one => $"{one.From} to {one.To}"));
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

    private static string BadgeOf(Verdict verdict)
    {
        int broken = verdict.Findings.Count(finding => finding.Severity == Severity.Broken);
        if (broken > 0) return broken == 1 ? "1 broken" : $"{broken} broken";
        return verdict.Checked.IsEmpty ? "Not judged" : verdict.NotChecked.IsEmpty ? "Clean" : "Clean as far as checked";
    }

    private static string CountsOf(Sheet sheet)
    {
        Verdict verdict = sheet.Verdict;
        int Count(Severity severity) => verdict.Findings.Count(finding => finding.Severity == severity);
        string notChecked = verdict.NotChecked.IsEmpty ? "" : $"; not checked: {verdict.NotChecked.Length}{(sheet.Options.ListsBelow ? ", named below" : "")}";
        int notes = Count(Severity.Note), rules = verdict.Checked.Length;
        return $"{rules} {(rules == 1 ? "rule" : "rules")} checked: {Count(Severity.Broken)} broken, {Count(Severity.Near)} near, {notes} {(notes == 1 ? "note" : "notes")}{notChecked}";
    }

    private static string EndOf(Sheet sheet)
    {
        Pet end = sheet.Trace.To;
        string words = $"ends PET {end} ({sheet.Axis.Utc(end)} UTC)";
        if (sheet.EndLimit is not { } limit) return words + ", no limit given";
        int left = limit.Since(end).Seconds;
        return words + (left >= 0 ? $", {Sheet.MinutesDown(left)} min before the limit of {limit}" : $", {Sheet.MinutesUp(-left)} min after the limit of {limit}");
    }

    private static (Pet Likely, Pet Before, string Words)? DecisionOf(Sheet sheet)
    {
        if (sheet.Options.Decision is not { } decision) return null;
        ImmutableArray<DoStep> steps = [.. sheet.Timeline.Activities.OfType<DoStep>().Where(step => step.Leg == decision.After)];
        if (steps.IsEmpty) return null;
        string leg = sheet.Scenario.Legs.FirstOrDefault(leg => leg.Id == decision.After)?.Title ?? decision.After.Value;
        return (steps.Max(step => step.End), decision.IfBefore, $"decision: go on if “{leg}” ends before {decision.IfBefore}");
    }
}
