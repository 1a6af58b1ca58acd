using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>How a row of a sky strip is drawn.</summary>
public enum SkyMark
{
    /// <summary>A light wash: not full day.</summary>
    Night,
    /// <summary>A darker bar in the row above: fully dark.</summary>
    FullNight,
    /// <summary>A bar: in sight.</summary>
    Sight,
    /// <summary>Hatched: lost.</summary>
    NoLink,
    /// <summary>Crossed: high radiation.</summary>
    Radiation,
}

/// <summary>A row of a sky strip.</summary>
/// <param name="Name">Written to the left; empty draws into the row above.</param>
/// <param name="Mark">How it is drawn.</param>
/// <param name="Times">When.</param>
/// <param name="Words">Written into stretches with room for it; empty for none.</param>
public sealed record SkyRow(string Name, SkyMark Mark, ImmutableArray<PetInterval> Times, string Words);

/// <summary>The picture of a sky: light, links and radiation along PET.</summary>
public static class SkyStrip
{
    private const double Width = 1600, Margin = 24, AxisLeft = 178, RowHeight = 22;

    /// <summary>Draws a sky.</summary>
    /// <param name="title">The sortie.</param>
    /// <param name="facts">Where the times come from.</param>
    /// <param name="petZero">PET 0:00, UTC.</param>
    /// <param name="span">What is shown; not empty.</param>
    /// <param name="rows">From the top.</param>
    public static Picture Draw(string title, string facts, DateTime petZero, PetInterval span, ImmutableArray<SkyRow> rows)
    {
        Ids ids = new();
        TimeAxis axis = new(span.From, span.To, petZero, AxisLeft, Width - Margin - 12);
        List<Element> front = [new Text(new(Margin, 38), Lettering.Shorten($"{title}: the sky", Face.Bold, 25, Width - 2 * Margin), Face.Bold, 25, Palette.Words)];
        double y = 46;
        foreach (string line in Lettering.Wrap(facts, Face.Regular, 13, Width - 2 * Margin))
        {
            y += 17;
            front.Add(new Text(new(Margin, y), line, Face.Regular, 13, Palette.Quiet));
        }
        double utc = y + 24, pet = utc + 16, top = pet + 8;
        front.Add(new Text(new(axis.Left - 26, utc), $"{axis.Date(axis.From):yyyy-MM-dd}  UTC", Face.Regular, 11, Palette.Quiet, Anchor.End));
        front.Add(new Text(new(axis.Left - 26, pet), "PET", Face.Bold, 12, Palette.Words, Anchor.End));
        front.AddRange(axis.Ticks.Where(tick => tick.Seconds % 3600 == 0 || axis.Step < 1800).Select(tick => new Text(new(axis.X(tick), utc), axis.Utc(tick), Face.Regular, 11, Palette.Quiet, Anchor.Middle)));
        front.AddRange(axis.PetRow(pet));

        List<Element> groups = [];
        double rowTop = top - RowHeight;
        foreach (SkyRow row in rows)
        {
            List<Element> parts = [];
            if (row.Name.Length > 0)
            {
                rowTop += RowHeight;
                parts.Add(new Text(new(axis.Left - 26, rowTop + 15), Lettering.Shorten(row.Name, Face.Regular, 12, axis.Left - 26 - Margin), Face.Regular, 12, Palette.Words, Anchor.End));
            }
            foreach (PetInterval stretch in row.Times)
                if (axis.Shown(stretch.From, stretch.To) is { } shown)
                    parts.Add(new Group(ids.Take("stretch"), $"{(row.Name.Length > 0 ? row.Name : "fully dark")}, PET {stretch.From} to {stretch.To}", "", [.. Bar(row, shown, rowTop)]));
            groups.Add(new Group(ids.Take("row"), row.Name.Length > 0 ? row.Name : "fully dark", "", [.. parts]));
        }
        double bottom = rowTop + RowHeight + 4;
        Area frame = new(Margin, bottom + 40, Width - 2 * Margin, 26);
        List<Element> legend = [];
        double x = axis.Left;
        foreach ((string words, SkyMark mark) in new[] { ("not full day", SkyMark.Night), ("fully dark", SkyMark.FullNight), ("in sight", SkyMark.Sight), ("lost", SkyMark.NoLink), ("high radiation", SkyMark.Radiation) })
        {
            legend.AddRange(Bar(new("", mark, [], ""), (x, x + 28), bottom + 8));
            legend.Add(new Text(new(x + 35, bottom + 23), words, Face.Regular, 12, Palette.Words));
            x += 35 + Lettering.Measure(words, Face.Regular, 12) + 24;
        }
        return new(Width, frame.Bottom + Margin, $"{title}: the sky", $"{facts}. {Caution.Text}",
        [
            new Box(new(0, 0, Width, frame.Bottom + Margin), new SolidFill(Palette.Paper), null),
            .. groups.Take(2),
            new Group(ids.Take("grid"), $"Every {axis.Step / 60} minutes", "", axis.Grid(top - 2, bottom)),
            .. groups.Skip(2),
            new Group(ids.Take("title"), $"{title}: the sky", facts, [.. front]),
            new Group(ids.Take("legend"), "Legend", "", [.. legend]),
            new Group(ids.Take("caution"), "Caution", Caution.Text,
                [new Box(frame, null, new(Palette.Words, 1.2)), new Text(new(frame.Centre.X, frame.Top + 17.5), Caution.Text, Face.Bold, 13, Palette.Words, Anchor.Middle)]),
        ]);
    }

    private static IEnumerable<Element> Bar(SkyRow row, (double Left, double Right) shown, double top)
    {
        double width = shown.Right - shown.Left;
        Area area = new(shown.Left, top + 4, width, RowHeight - 8);
        switch (row.Mark)
        {
            case SkyMark.Night:
                yield return new Box(new(shown.Left, top + 1, width, RowHeight - 2), new SolidFill(Palette.Night), null);
                break;
            case SkyMark.FullNight:
                yield return new Box(new(shown.Left, top + RowHeight - 6, width, 4), new SolidFill(Palette.Everyone), null);
                break;
            case SkyMark.Sight:
                yield return new Box(area, new SolidFill(Palette.Clock), new(Palette.Words, 1));
                break;
            case SkyMark.NoLink:
                yield return new Box(area, Strokes.NoLink, new(Palette.Quiet, 0.8));
                break;
            case SkyMark.Radiation:
                foreach (Element element in Strokes.Radiation(area)) yield return element;
                break;
        }
        if (row.Words.Length > 0 && width > Lettering.Measure(row.Words, Face.Regular, 11) + 8)
            yield return new Text(new((shown.Left + shown.Right) / 2, top + 13), row.Words, Face.Regular, 11, Palette.Quiet, Anchor.Middle);
    }
}
