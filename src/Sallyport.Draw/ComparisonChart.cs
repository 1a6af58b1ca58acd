using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>Two plans of the same people on one chart: for each person both return times over one axis, and under them the legs of both, one row each.</summary>
public static class ComparisonChart
{
    private const double Width = 1500, Margin = 24, Left = 150, StripHeight = 130, Row = 20, Gap = 34;

    /// <summary>Draws two plans; the likely branch of each.</summary>
    /// <param name="scenario">What both were planned for.</param>
    /// <param name="first">The one: thin and dashed, its legs hatched.</param>
    /// <param name="second">The other: thick and solid, its legs filled.</param>
    public static Picture Draw(Scenario scenario, (string Name, Timeline Timeline, Trace Trace) first, (string Name, Timeline Timeline, Trace Trace) second)
    {
        (string Name, Timeline Timeline, Trace Trace)[] both = [first, second];
        TimeAxis axis = new(both.Min(one => one.Trace.From), both.Max(one => one.Trace.To), scenario.Sortie.PetZero, Margin + Left, Width - Margin);
        Ids ids = new();
        ImmutableArray<Person> people = [.. scenario.Outside];
        double most = both.SelectMany(one => one.Trace.Returns).Where(curve => curve.Kind == ReturnKind.One).SelectMany(curve => curve.Points)
            .Where(point => point.Seconds < ReturnPoint.NoWaySeconds).Select(point => point.Seconds).Append(60).Max();
        double top = 112;
        List<Element> front = [];
        for (int index = 0; index < people.Length; index++)
        {
            Person person = people[index];
            Ink ink = Palette.Person(index);
            double foot = top + StripHeight;
            double Y(double seconds) => foot - StripHeight * Math.Min(seconds, most) / most;
            List<Element> parts = [new Text(new(Margin, top + 16), person.Id.Value, Face.Bold, 17, ink), new Line(new(axis.Left, foot), new(axis.Right, foot), new(Palette.Grid, 1.4)),
                new Text(new(axis.Left - 8, top + 8), Sheet.MinutesUp(most), Face.Regular, 11.5, Palette.Quiet, Anchor.End), new Text(new(axis.Left - 8, foot + 4), "0 min", Face.Regular, 11.5, Palette.Quiet, Anchor.End)];
            for (int which = 0; which < 2; which++)
                if (both[which].Trace.Returns.FirstOrDefault(curve => curve.Kind == ReturnKind.One && curve.Person == person.Id) is { Points.IsEmpty: false } curve)
                {
                    parts.Add(new Trail(new ReturnLine(curve, axis, Y).Whole, which == 0 ? new(Palette.Quiet, 1.6, [6, 4]) : new(ink, 3), null, false));
                    // The strip ends below a whole day, and no line may look as if there were a way home.
                    if (curve.Points.FirstOrDefault(point => point.Seconds >= ReturnPoint.NoWaySeconds) is { Seconds: > 0 } none)
                        parts.Add(new Text(new(axis.X(none.At) + 4, top + 14 + 14 * which), $"{both[which].Name}: no way home from here", Face.Bold, 12, Palette.Ceiling));
                }
            double row = foot + 8;
            for (int which = 0; which < 2; which++)
            {
                parts.Add(new Text(new(axis.Left - 8, row + Row - 6), Lettering.Shorten(both[which].Name, Face.Regular, 11.5, Left - 12), Face.Regular, 11.5, Palette.Words, Anchor.End));
                foreach ((LegId leg, Pet from, Pet to) in Legs(both[which].Timeline, person.Id))
                {
                    Area area = new(axis.X(from), row, Math.Max(2, axis.X(to) - axis.X(from)), Row - 3);
                    List<Element> bar = [new Box(area, which == 0 ? new HatchFill(Palette.Quiet, 6, 1) : new SolidFill(ink with { Opacity = 0.22 }), new(which == 0 ? Palette.Quiet : ink, 1.2))];
                    if (area.Width > 46)
                    {
                        Text words = new(new(area.Left + 5, row + Row - 7.5), Lettering.Shorten(leg.Value, Face.Regular, 11.5, area.Width - 10), Face.Regular, 11.5, Palette.Words);
                        if (which == 0) bar.Add(new Box(new(area.Left + 2, row + 2, words.Area.Width + 6, Row - 7), new SolidFill(Palette.Paper), null));
                        bar.Add(words);
                    }
                    parts.Add(new Group(ids.Take($"leg-{which + 1}-{leg}"), $"{both[which].Name}: {leg}, {person.Id}, PET {from} to {to}", "", [.. bar]));
                }
                row += Row;
            }
            front.Add(new Group(ids.Take($"who-{person.Id}"), $"{person.Id} in both plans", "", [.. parts]));
            top = row + Gap;
        }
        double bottom = top - Gap / 2;
        Element[] head =
        [
            new Text(new(Margin, 38), scenario.Sortie.Title, Face.Bold, 25, Palette.Words),
            new Text(new(Margin, 60), Lettering.Shorten($"dashed, hatched: {first.Name}, ends {first.Trace.To}     solid, filled: {second.Name}, ends {second.Trace.To}     upward: return time", Face.Regular, 13, Width - 2 * Margin), Face.Regular, 13, Palette.Words),
            new Text(new(axis.Left - 26, 90), "PET", Face.Bold, 12, Palette.Words, Anchor.End),
            .. axis.PetRow(90),
        ];
        Element[] foots = [new Text(new(Margin, bottom + 20), Caution.Text, Face.Bold, 13, Palette.Words)];
        return new(Width, bottom + 34, $"{first.Name} and {second.Name} on one chart", $"Return times and legs of both plans of {scenario.Sortie.Title}, a strip a person.",
            [new Box(new(0, 0, Width, bottom + 34), new SolidFill(Palette.Paper), null), .. axis.Grid(98, bottom), .. head, .. front, .. foots]);
    }

    private static IEnumerable<(LegId Leg, Pet From, Pet To)> Legs(Timeline timeline, PersonId person) =>
        timeline.Activities.OfType<DoStep>().Where(step => step.Person == person).GroupBy(step => step.Leg).Select(leg => (leg.Key, leg.Min(step => step.Start), leg.Max(step => step.End)));
}
