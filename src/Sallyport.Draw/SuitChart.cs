using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>A figure of a suit at a moment, for little, likely and much use.</summary>
/// <param name="At">When.</param>
/// <param name="Low">With little use.</param>
/// <param name="Likely">With the likely use.</param>
/// <param name="High">With much use.</param>
public readonly record struct SuitPoint(Pet At, double Low, double Likely, double High);

/// <summary>What is left of one consumable, as a share of what the full suit holds.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Words">What is said at its right end: when its reserve is reached.</param>
/// <param name="Reserve">The reserve, as a share of what the full suit holds.</param>
/// <param name="Points">Straight between points; below zero when more is needed than there is.</param>
public sealed record SuitLeft(string Name, string Words, double Reserve, ImmutableArray<SuitPoint> Points);

/// <summary>One person's suit.</summary>
/// <param name="Person">The person, as shown.</param>
/// <param name="Watts">Metabolic rate, W: from each point to the next it stays as it is there.</param>
/// <param name="Left">One a consumable.</param>
public sealed record SuitStrip(string Person, ImmutableArray<SuitPoint> Watts, ImmutableArray<SuitLeft> Left);

/// <summary>The picture of what suits use over a plan: for each person the load on the body and what is left, time across.</summary>
public static class SuitChart
{
    private const double Width = 1280, Margin = 24, Left = 190, Right = 240, PanelHeight = 74, Gap = 12;

    /// <summary>Draws the suits of a plan.</summary>
    /// <param name="scenario">What it was planned for.</param>
    /// <param name="facts">What stands below the title, such as the outline's name and the plan's.</param>
    /// <param name="notChecked">What is not reckoned, in words; written at the foot.</param>
    /// <param name="strips">One a person; at least one.</param>
    /// <param name="words">What it says of its own.</param>
    /// <exception cref="ArgumentException">Nobody, or somebody without points.</exception>
    public static Picture Draw(Scenario scenario, string facts, ImmutableArray<string> notChecked, ImmutableArray<SuitStrip> strips, Wording words)
    {
        if (strips.IsEmpty || strips.Any(strip => strip.Watts.Length < 2 || strip.Left.Any(left => left.Points.Length < 2))) throw new ArgumentException("expected at least one person, with two points a curve", nameof(strips));
        TimeAxis axis = new(strips.Min(strip => strip.Watts[0].At), strips.Max(strip => strip.Watts[^1].At), scenario.Sortie.PetZero, Margin + Left, Width - Margin - Right);
        Ids ids = new();
        List<Element> front =
        [
            new Text(new(Margin, 38), scenario.Sortie.Title, Face.Bold, 25, Palette.Words),
            new Text(new(Width - Margin, 38), words["curves.what"], Face.Regular, 12, Palette.Quiet, Anchor.End),
            new Text(new(Margin, 58), Lettering.Shorten(facts, Face.Regular, 13, Width - 2 * Margin), Face.Regular, 13, Palette.Quiet),
            new Text(new(axis.Left - 26, 88), words["col.pet"], Face.Bold, 12, Palette.Words, Anchor.End),
            .. axis.PetRow(88),
        ];
        double top = 100;
        for (int i = 0; i < strips.Length; i++)
        {
            Ink ink = Palette.Person(i);
            List<Element> parts = [new Text(new(Margin, top + 15), strips[i].Person, Face.Bold, 15, ink)];
            top += 24;
            parts.AddRange(Load(axis, strips[i], top, ink, words["curves.rate"]));
            top += PanelHeight + Gap;
            foreach (SuitLeft left in strips[i].Left)
            {
                parts.AddRange(Panel(axis, left, top, ink));
                top += PanelHeight + Gap;
            }
            front.Add(new Group(ids.Take("suit"), strips[i].Person, string.Join("; ", strips[i].Left.Select(left => $"{left.Name}: {left.Words}")), [.. parts]));
            top += 8;
        }
        double bottom = top - 8;
        double y = bottom + 22;
        void Line(string said)
        {
            foreach (string line in Lettering.Wrap(said, Face.Regular, 12, Width - 2 * Margin))
            {
                front.Add(new Text(new(Margin, y + 12), line, Face.Regular, 12, Palette.Words));
                y += 16;
            }
        }
        Line(words["curves.lines"]);
        if (!notChecked.IsEmpty) Line(words.Say("curves.notreckoned", string.Join("; ", notChecked)));
        y += 10;
        Area frame = new(Margin, y, Width - 2 * Margin, 26);
        front.Add(new Group(ids.Take("caution"), words["drawn.caution"], Caution.Text,
            [new Box(frame, null, new(Palette.Words, 1.2)), new Text(new(frame.Centre.X, y + 17.5), Caution.Text, Face.Bold, 13, Palette.Words, Anchor.Middle)]));
        y += 26 + Margin;

        List<Element> nights = [];
        foreach (PetInterval night in scenario.Sky.Night)
            if (axis.Shown(night.From, night.To) is { } shown) nights.Add(new Box(new(shown.Left, 94, shown.Right - shown.Left, bottom - 94), new SolidFill(Palette.Night), null));
        return new(Width, y, words.Say("curves.title", scenario.Sortie.Title), $"{facts}. {Caution.Text}",
            [new Box(new(0, 0, Width, y), new SolidFill(Palette.Paper), null), .. nights, .. axis.Grid(94, bottom), .. front]);
    }

    /// <summary>The metabolic rate, in steps.</summary>
    private static IEnumerable<Element> Load(TimeAxis axis, SuitStrip strip, double top, Ink ink, string name)
    {
        double most = Math.Ceiling(strip.Watts.Max(point => point.High) / 100) * 100;
        double Y(double watts) => top + PanelHeight * (1 - watts / most);
        foreach (Element element in Frame(axis, name, [(0, "0 W"), (most, string.Create(CultureInfo.InvariantCulture, $"{most:0} W"))], Y, top)) yield return element;
        for (int i = 0; i + 1 < strip.Watts.Length; i++)
        {
            SuitPoint point = strip.Watts[i];
            double from = axis.X(point.At), to = axis.X(strip.Watts[i + 1].At);
            yield return new Box(new(from, Y(point.High), to - from, Y(point.Low) - Y(point.High)), new SolidFill(ink with { Opacity = 0.22 }), null);
            yield return new Line(new(from, Y(point.Likely)), new(to, Y(point.Likely)), new(ink, 1.2));
        }
    }

    private static IEnumerable<Element> Panel(TimeAxis axis, SuitLeft left, double top, Ink ink)
    {
        double Y(double share) => top + PanelHeight * (1 - Math.Clamp(share, 0, 1));
        foreach (Element element in Frame(axis, left.Name, [(0, "0 %"), (1, "100 %")], Y, top)) yield return element;
        Spot At(SuitPoint point, double share) => new(axis.X(point.At), Y(share));
        yield return new Trail([.. left.Points.Select(point => At(point, point.Low)), .. left.Points.Reverse().Select(point => At(point, point.High))], null, new SolidFill(ink with { Opacity = 0.18 }), true);
        yield return new Trail([.. left.Points.Select(point => At(point, point.Likely))], new(ink, 1), null, false);
        yield return new Trail([.. left.Points.Select(point => At(point, point.High))], new(ink, 2.4), null, false);
        if (left.Reserve > 0) yield return new Line(new(axis.Left, Y(left.Reserve)), new(axis.Right, Y(left.Reserve)), new(Palette.Ceiling, 1.4, [6, 4]));
        double y = top + 26;
        foreach (string line in Lettering.Wrap(left.Words, Face.Regular, 12, Right - 16).Take(3))
        {
            yield return new Text(new(axis.Right + 12, y), line, Face.Regular, 12, Palette.Words);
            y += 15;
        }
    }

    private static IEnumerable<Element> Frame(TimeAxis axis, string name, (double Value, string Words)[] marks, Func<double, double> y, double top)
    {
        yield return new Box(new(axis.Left, top, axis.Right - axis.Left, PanelHeight), null, new(Palette.Quiet, 0.8));
        double line = top + 30;
        foreach (string words in Lettering.Wrap(name, Face.Regular, 13, Left - 60))
        {
            yield return new Text(new(Margin, line), words, Face.Regular, 13, Palette.Words);
            line += 16;
        }
        foreach ((double value, string words) in marks) yield return new Text(new(axis.Left - 6, y(value) + (value == 0 ? 0 : 9)), words, Face.Regular, 11, Palette.Quiet, Anchor.End);
    }
}
