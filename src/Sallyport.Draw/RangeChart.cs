using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>What the chart prints that the plan itself does not know.</summary>
/// <param name="OutlineName">The outline the plan was made from.</param>
/// <param name="PrintedOn">The date to print; null for none, so that the same plan gives the same picture on any day.</param>
/// <param name="Width">How wide the picture is, in pixels; at least 900.</param>
/// <param name="Decision">The choice near the end, or null; it is flagged.</param>
public sealed record RangeChartOptions(string OutlineName, DateOnly? PrintedOn, double Width = 1600, Decision? Decision = null)
{
    /// <summary>How high the strip of a person is; at least 80.</summary>
    public double StripHeight { get; init; } = 232;

    /// <summary>Whether findings, what was not checked and the caution are listed below; not where the page around it does so.</summary>
    public bool ListsBelow { get; init; } = true;

    /// <summary>Whether the verdict is whole. One that is not may be broken, and is never called clean.</summary>
    public bool IsWhole { get; init; } = true;

    /// <summary>What it says of its own.</summary>
    public Wording Words { get; init; } = Wording.English;

    /// <summary>How many findings are numbered on the chart, the gravest first.</summary>
    public int Numbered { get; init; } = 6;
}

/// <summary>The picture of a plan not yet flown: a strip a person, time across, return time up.</summary>
public static class RangeChart
{
    private const double Margin = 24;
    private const double AxisLeft = 178;
    private const double GutterHeight = 48;

    /// <summary>Where the chart that <see cref="Draw"/> makes of the same has its time axis.</summary>
    public static ChartFrame FrameOf(Scenario scenario, IReadOnlyList<(Timeline Timeline, Trace Trace)> played, Verdict verdict, RangeChartOptions options)
    {
        Sheet sheet = new(scenario, played, verdict, options, Margin, AxisLeft);
        Head head = new(sheet);
        return new(sheet.Axis.Left, sheet.Axis.Right, sheet.Axis.From, sheet.Axis.To, head.AxisBottom - 32)
        {
            Strips = [.. scenario.Outside.Select((person, i) => new ChartStrip(person.Id, StripTop(head, i, options), StripTop(head, i, options) + options.StripHeight))],
        };
    }

    private static double StripTop(Head head, int index, RangeChartOptions options) => head.Bottom + index * (options.StripHeight + GutterHeight);

    /// <summary>Draws a plan.</summary>
    /// <param name="scenario">What it was planned for.</param>
    /// <param name="played">Its branches, played. The likely one is drawn in full, the other one as it leaves that.</param>
    /// <param name="verdict">What judging them gave.</param>
    /// <param name="options">What is printed beside.</param>
    /// <exception cref="ArgumentException">No likely branch among those played, or no room.</exception>
    public static Picture Draw(
        Scenario scenario, IReadOnlyList<(Timeline Timeline, Trace Trace)> played, Verdict verdict, RangeChartOptions options)
    {
        if (!played.Any(branch => branch.Timeline.Branch == Branch.Likely)) throw new ArgumentException("expected the likely branch among those played", nameof(played));
        if (!(options.Width >= 900)) throw new ArgumentException($"expected a width of at least 900, found {options.Width}", nameof(options));
        if (!(options.StripHeight >= 80)) throw new ArgumentException($"expected strips at least 80 high, found {options.StripHeight}", nameof(options));

        Sheet sheet = new(scenario, played, verdict, options, Margin, AxisLeft);
        Head head = new(sheet);
        ImmutableArray<Person> people = [.. scenario.Outside];
        ImmutableArray<Strip> strips = [.. people.Select((person, i) => new Strip(sheet, person, i, StripTop(head, i, options), options.StripHeight))];
        double stripsBottom = people.IsEmpty ? head.Bottom : strips[^1].Bottom;
        Ties ties = new(sheet, strips);
        Findings findings = new(sheet, strips);
        Lanes lanes = new(sheet, stripsBottom + 22);

        ImmutableArray<Element> back = [.. strips.SelectMany(strip => strip.DrawBack())];
        // What is written into the strips comes last: it must know of everything that is drawn there.
        List<Element> front = [.. head.Marks(stripsBottom), .. ties.Draw(), .. strips.SelectMany(strip => strip.DrawLine()), .. findings.Markers()];
        foreach (Strip strip in strips)
        {
            foreach ((Spot from, Spot to) in head.Poles(stripsBottom)) strip.Avoid(from, to);
            foreach ((Spot from, Spot to) in ties.Lines) strip.Avoid(from, to);
            foreach (Area marker in findings.MarkerAreas) strip.Avoid(marker);
        }
        Parallel.ForEach(strips, strip => strip.PlaceLabels());
        foreach (Strip strip in strips) strip.MoveToKey();
        Parallel.ForEach(strips, strip => strip.PlaceLetters());
        foreach (Strip strip in strips) front.AddRange(strip.DrawLabels());
        front.AddRange(lanes.Draw());
        Foot foot = new(sheet, lanes.Bottom + 24);
        ImmutableArray<Element> footElements = foot.Draw(findings);

        List<Element> all =
        [
            new Box(new(0, 0, options.Width, foot.Bottom), new SolidFill(Palette.Paper), null),
            .. head.Sky(lanes.Bottom),
            new Group(sheet.Ids.Take("grid"), sheet.Words.Say("drawn.grid", sheet.Axis.Step / 60), "", sheet.Axis.Grid(head.AxisBottom, lanes.Bottom)),
            .. head.Draw(),
            .. back,
            .. front,
            new Group(sheet.Ids.Take("pet-below"), sheet.Words["drawn.petagain"], "", [.. sheet.Axis.PetRow(lanes.Bottom + 14)]),
            .. footElements,
        ];
        return new(options.Width, foot.Bottom, sheet.Words.Say("drawn.title", scenario.Sortie.Title), head.Summary, [.. all]);
    }
}
