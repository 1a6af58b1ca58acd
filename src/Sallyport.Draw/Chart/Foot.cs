using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>What stands below the lanes: legend, labels moved here for room, findings, what was not checked, the caution.</summary>
internal sealed class Foot(Sheet sheet, double top)
{
    private double y = top;

    public double Bottom => y;

    public ImmutableArray<Element> Draw(Findings findings)
    {
        List<Element> all = [Legend()];
        if (sheet.Key.Count > 0 || sheet.PlacesLeftOut > 0) all.Add(Key());
        if (!sheet.Options.ListsBelow)
        {
            y += 8;
            return [.. all];
        }
        Heading(all, sheet.Verdict.Findings.IsEmpty ? sheet.Words["drawn.findingsnone"] : sheet.Words.Say("drawn.findings", sheet.Verdict.Findings.Length));
        ImmutableArray<Element> list = [.. findings.List(y, out double bottom)];
        y = bottom;
        all.Add(new Group(sheet.Ids.Take("findings"), sheet.Words["findings.title"], "", list));
        if (!sheet.Verdict.NotChecked.IsEmpty)
        {
            Heading(all, sheet.Words["drawn.unproven"]);
            List<Element> lines = [];
            foreach (string line in Lettering.Wrap(string.Join("; ", sheet.Verdict.NotChecked) + ".", Face.Regular, 12, sheet.Right - sheet.Margin))
            {
                lines.Add(new Text(new(sheet.Margin, y + 12), line, Face.Regular, 12, Palette.Words));
                y += 15;
            }
            all.Add(new Group(sheet.Ids.Take("not-checked"), sheet.Words["drawn.unproven"], "", [.. lines]));
        }
        y += 14;
        Area frame = new(sheet.Margin, y, sheet.Right - sheet.Margin, 26);
        all.Add(new Group(sheet.Ids.Take("caution"), sheet.Words["drawn.caution"], Caution.Text,
            [new Box(frame, null, new(Palette.Words, 1.2)), new Text(new(frame.Centre.X, y + 17.5), Caution.Text, Face.Bold, 13, Palette.Words, Anchor.Middle)]));
        y += 26 + sheet.Margin;
        return [.. all];
    }

    private void Heading(List<Element> all, string words)
    {
        y += 10;
        all.Add(new Text(new(sheet.Margin, y + 12), words, Face.Bold, 13, Palette.Words));
        y += 19;
    }

    private Group Key()
    {
        List<Element> parts = [];
        Heading(parts, sheet.Words.Say(sheet.PlacesLeftOut == 0 ? "drawn.keycount" : "drawn.keyplaces", sheet.Key.Count, sheet.PlacesLeftOut));
        const int columns = 3;
        double width = (sheet.Right - sheet.Margin) / columns;
        int rows = (sheet.Key.Count + columns - 1) / columns;
        for (int i = 0; i < sheet.Key.Count; i++)
        {
            string words = Lettering.Shorten($"({sheet.Key[i].Letter}) {sheet.Key[i].Words}", Face.Regular, 12, width - 16);
            parts.Add(new Text(new(sheet.Margin + i / rows * width, y + 12 + i % rows * 15), words, Face.Regular, 12, Palette.Words));
        }
        y += rows * 15;
        return new(sheet.Ids.Take("key"), sheet.Words["drawn.key"], "", [.. parts]);
    }

    private Group Legend()
    {
        List<Element> parts = [];
        double x = sheet.Margin;
        y += 14;
        foreach ((string words, double sample, Func<double, double, IEnumerable<Element>> draw) in Entries())
        {
            double wide = sample + 7 + Lettering.Measure(words, Face.Regular, 12) + 22;
            if (x > sheet.Margin && x + wide - 22 > sheet.Right)
            {
                x = sheet.Margin;
                y += 20;
            }
            parts.AddRange(draw(x, y));
            parts.Add(new Text(new(x + sample + 7, y + 4), words, Face.Regular, 12, Palette.Words));
            x += wide;
        }
        y += 14;
        return new(sheet.Ids.Take("legend"), sheet.Words["drawn.legend"], "", [.. parts]);
    }

    private IEnumerable<(string Words, double Sample, Func<double, double, IEnumerable<Element>> Draw)> Entries()
    {
        Ink ink = Palette.Person(0);
        bool arms = sheet.Trace.Returns.Any(curve => curve.Kind == ReturnKind.Armless) || sheet.Timeline.Activities.Any(activity => activity is ArmMove);
        yield return (sheet.Words["drawn.way"], 30, Sample(Going.Way));
        yield return (sheet.Words["drawn.work"], 30, Sample(Going.Work));
        yield return (sheet.Words["drawn.waiting"], 30, Sample(Going.Wait));
        if (arms)
        {
            yield return (sheet.Words["drawn.riding"], 30, Sample(Going.Ride));
            yield return (sheet.Words["drawn.workonarm"], 30, Sample(Going.WorkOnArm));
            yield return (sheet.Words["drawn.armless"], 30, (x, y) => [new Line(new(x, y), new(x + 30, y), Strokes.Armless(ink))]);
        }
        yield return (sheet.Words["drawn.everyone"], 30, (x, y) => [new Line(new(x, y), new(x + 30, y), Strokes.Everyone)]);
        if (sheet.BothLimit is { } both)
            yield return (sheet.Words.Say("drawn.limitforthat", Sheet.MinutesDown(both)), 30, (x, y) => [new Line(new(x, y), new(x + 30, y), Strokes.BothLimit)]);
        yield return (sheet.Words["drawn.ceiling"], 30, (x, y) =>
            [new Box(new(x, y - 8, 30, 8), new SolidFill(Palette.CeilingWash), null), new Line(new(x, y), new(x + 30, y), Strokes.Ceiling)]);
        if (sheet.Otherwise is not null) yield return (sheet.Words["drawn.otherwise"], 30, (x, y) => [new Line(new(x, y), new(x + 30, y), Strokes.Otherwise(ink))]);
        yield return (sheet.Words["drawn.together"], 10, (x, y) => [new Line(new(x + 5, y - 8), new(x + 5, y + 8), Strokes.Together)]);
        yield return (sheet.Words["drawn.hands"], 10, (x, y) => [new Line(new(x + 5, y - 8), new(x + 5, y + 8), Strokes.Gift)]);
        yield return (sheet.Words["drawn.night"], 24, (x, y) => [new Box(new(x, y - 7, 24, 14), new SolidFill(Palette.Night), null)]);
        yield return (sheet.Words["drawn.lost"], 24, (x, y) => [new Box(new(x, y - 6, 24, 12), Strokes.NoLink, new(Palette.Quiet, 0.8))]);
        if (sheet.Scenario.Sky.Radiation is not null) yield return (sheet.Words["drawn.radiation"], 24, (x, y) => Strokes.Radiation(new(x, y - 6, 24, 12)));
        if (sheet.Scenario.Consoles.Any(console => !console.Shutdowns.IsEmpty))
            yield return (sheet.Words["drawn.dead"], 46, (x, y) =>
            [
                new Box(new(x, y - 6, 26, 12), new SolidFill(Palette.Dead), null),
                new Trail([new(x, y + 5), new(x + 26, y + 5), new(x + 26, y - 1)], null, new SolidFill(Palette.Clock), true),
                new Box(new(x + 26, y - 3, 18, 6), null, new(Palette.Dead, 1, [3, 2])),
                new Line(new(x + 45, y - 8), new(x + 45, y + 8), new(Palette.Dead, 2)),
            ]);
        if (sheet.Timeline.Activities.Any(activity => activity is MountArm))
            yield return (sheet.Words["drawn.onandoff"], 24, (x, y) => [new Box(new(x, y - 6, 24, 12), new HatchFill(Palette.Words, 4, 1), new(Palette.Words, 1))]);

        Func<double, double, IEnumerable<Element>> Sample(Going going) => (x, y) => Strokes.Draw(going, [new(x, y), new(x + 30, y)], ink);
    }
}
