using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>The findings: numbered where they happen, in sentences at the foot.</summary>
internal sealed class Findings
{
    private const double Radius = 7.5;
    private readonly Sheet sheet;
    private readonly ImmutableArray<(int Number, Finding Finding, Spot At, Spot Marker)> markers;

    public Findings(Sheet sheet, ImmutableArray<Strip> strips)
    {
        this.sheet = sheet;
        List<(int, Finding, Spot, Spot)> list = [];
        for (int i = 0; i < Math.Min(sheet.Options.Numbered, sheet.Verdict.Findings.Length); i++)
        {
            Finding finding = sheet.Verdict.Findings[i];
            if (finding.At < sheet.Axis.From || finding.At > sheet.Axis.To) continue;
            List<Strip> concerned = [.. strips.Where(strip => finding.Who.Contains(strip.Person.Id))];
            // A finding about nobody in particular stands at the foot of every strip.
            IEnumerable<Spot> places = concerned.Count > 0
                ? concerned.Select(strip => strip.SpotAt(finding.At, finding.Branch))
                : strips.Select(strip => new Spot(sheet.Axis.X(finding.At), strip.Bottom - Radius - 2));
            foreach (Spot at in places)
            {
                Spot marker = at;
                while (list.Exists(other => Math.Abs(other.Item4.X - marker.X) < 2 * Radius + 2 && Math.Abs(other.Item4.Y - marker.Y) < 2 * Radius + 2))
                    marker = marker with { X = marker.X + 2 * Radius + 3 };
                list.Add((i + 1, finding, at, marker));
            }
        }
        markers = [.. list];
    }

    public IEnumerable<Area> MarkerAreas => markers.Select(marker => new Area(marker.Marker.X - Radius, marker.Marker.Y - Radius, 2 * Radius, 2 * Radius));

    public IEnumerable<Element> Markers()
    {
        // The lines to markers set aside come first, so that none runs over a number.
        ImmutableArray<Element> aside = [.. markers.Where(entry => entry.At != entry.Marker).Select(entry => new Line(entry.At, entry.Marker, new(Palette.Words, 1)))];
        if (!aside.IsEmpty) yield return new Group(sheet.Ids.Take("finding-lines"), sheet.Words["drawn.aside"], "", aside);
        foreach ((int number, Finding finding, _, Spot marker) in markers)
            yield return new Group(sheet.Ids.Take($"finding-{number}"), sheet.Words.Say("drawn.finding", finding.Rule, Named(finding.Severity), finding.At), finding.Sentence, [.. Marker(finding.Severity, marker, number)])
            {
                Facts = [("finding", number.ToString(CultureInfo.InvariantCulture))],
            };
    }

    /// <summary>The list at the foot; gives where it ends.</summary>
    public IEnumerable<Element> List(double top, out double bottom)
    {
        List<Element> list = [];
        double y = top, left = sheet.Margin + 26, width = sheet.Right - left;
        for (int i = 0; i < Math.Min(sheet.Options.Numbered, sheet.Verdict.Findings.Length); i++)
        {
            Finding finding = sheet.Verdict.Findings[i];
            List<Element> entry = [.. Marker(finding.Severity, new(sheet.Margin + 9, y + 8), i + 1)];
            string head = sheet.Words.Say("drawn.findinghead", Named(finding.Severity), finding.Rule, finding.At);
            if (!finding.Who.IsEmpty) head = sheet.Words.Say("drawn.findingwho", head, string.Join(", ", finding.Who));
            if (finding.Branch == Branch.Otherwise) head = sheet.Words.Say("drawn.findingother", head);
            entry.Add(new Text(new(left, y + 12), Lettering.Shorten(head, Face.Bold, 12, width), Face.Bold, 12, Palette.Words));
            y += 16;
            string said = finding.Sentence;
            if (finding.Margin.Length > 0) said = sheet.Words.Say("drawn.margin", said, finding.Margin);
            if (finding.Mend.Length > 0) said = sheet.Words.Say("drawn.mend", said, finding.Mend);
            foreach (string line in Lettering.Wrap(said, Face.Regular, 12, width))
            {
                entry.Add(new Text(new(left, y + 12), line, Face.Regular, 12, Palette.Words));
                y += 15;
            }
            y += 3;
            list.Add(new Group(sheet.Ids.Take($"finding-{i + 1}-words"), head, "", [.. entry]));
        }
        if (sheet.Verdict.Findings.Length > sheet.Options.Numbered)
        {
            list.Add(new Text(new(left, y + 12), sheet.Words.Say("drawn.more", sheet.Verdict.Findings.Length - sheet.Options.Numbered), Face.Bold, 12, Palette.Words));
            y += 18;
        }
        bottom = y;
        return list;
    }

    /// <summary>Broken is filled, near is a ring, a note is a broken ring: told apart without colour.</summary>
    private static IEnumerable<Element> Marker(Severity severity, Spot at, int number)
    {
        bool broken = severity == Severity.Broken;
        Stroke ring = severity == Severity.Note ? new(Palette.Words, 1.4, [2.4, 1.8]) : new(Palette.Ceiling, 1.8);
        yield return new Disc(at, Radius, new SolidFill(broken ? Palette.Ceiling : Palette.Paper), ring);
        yield return new Text(new(at.X, at.Y + 3.8), number.ToString(CultureInfo.InvariantCulture), Face.Bold, 10.5, broken ? Palette.Paper : Palette.Words, Anchor.Middle);
    }

    private string Named(Severity severity) => sheet.Words[severity switch { Severity.Broken => "drawn.isbroken", Severity.Near => "drawn.isnear", _ => "drawn.isnote" }];
}
