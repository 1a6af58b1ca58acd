using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>The strip of one person.</summary>
internal sealed class Strip
{
    private const int LabelsAnHour = 6;
    private readonly Sheet sheet;
    private readonly double top;
    private readonly double height;
    private readonly double most;
    private readonly Ink ink;
    private readonly ImmutableArray<Stretch> stretches;
    private readonly ReturnLine? one;
    private readonly ReturnLine? both;
    private readonly ReturnLine? armless;
    private readonly ReturnLine? otherwise;
    private readonly LabelPlacer placer;
    private readonly List<StripLabel> allowed = [], over = [];
    private readonly List<(StripLabel Label, string Letter)> moved = [];
    private ImmutableArray<PlacedLabel?> placed = [], letters = [];

    public Strip(Sheet sheet, Person person, int index, double top, double height)
    {
        (this.sheet, Person, this.top, this.height) = (sheet, person, top, height);
        ink = Palette.Person(index);
        stretches = Stretch.Of(person.Id, sheet.Scenario, sheet.Timeline);
        most = ScaleOf(sheet);
        one = Line(sheet.Curve(sheet.Trace, ReturnKind.One, person.Id));
        both = Line(sheet.Curve(sheet.Trace, ReturnKind.Both, null));
        armless = Line(sheet.Curve(sheet.Trace, ReturnKind.Armless, person.Id));
        otherwise = sheet.Otherwise is { } other ? Line(sheet.Curve(other, ReturnKind.One, person.Id)) : null;
        placer = new(new(sheet.Axis.Left + 2, top, sheet.Axis.Right - sheet.Axis.Left + 8, height));
    }

    public Person Person { get; }

    /// <summary>Where this person's line is at a moment; the foot of the strip when there is no line.</summary>
    public Spot SpotAt(Pet at, Branch branch = Branch.Likely) =>
        new(sheet.Axis.X(at), Y((branch == Branch.Otherwise && otherwise is not null ? otherwise : one)?.After(at) ?? 0));

    public double Top => top;

    public double Bottom => top + height;

    public void Avoid(Spot from, Spot to) => placer.Avoid([from, to], 1.5, true);

    public void Avoid(Area area) => placer.Avoid(area);

    /// <summary>What lies behind: scale, everybody's envelope, the ceiling.</summary>
    public IEnumerable<Element> DrawBack()
    {
        TimeAxis axis = sheet.Axis;
        List<Element> scale = [];
        int step = most <= 20 ? 5 : most <= 60 ? 10 : 20;
        for (int minutes = 0; minutes <= most; minutes += step)
        {
            double y = Y(minutes * 60);
            scale.Add(new Line(new(axis.Left, y), new(axis.Right, y), new(Palette.Grid, minutes == 0 ? 1.4 : 0.6)));
            scale.Add(new Text(new(axis.Left - 8, y + 4), Sheet.MinutesUp(minutes * 60), Face.Regular, 11.5, Palette.Quiet, Anchor.End));
        }
        yield return new Group(sheet.Ids.Take($"scale-{Person.Id}"), sheet.Words.Say("drawn.scale", Person.Id), "", [.. scale]);
        yield return new Group(sheet.Ids.Take($"who-{Person.Id}"), sheet.Words.Say("drawn.who", Person.Id, Person.Name), "", [.. Who()]);

        if (both is not null)
        {
            ImmutableArray<Spot> whole = both.Whole;
            ImmutableArray<Spot> wash = [new(whole[0].X, Y(0)), .. whole, new(whole[^1].X, Y(0))];
            yield return new Group(sheet.Ids.Take($"everyone-{Person.Id}"), sheet.Words["drawn.everyonein"], "",
                [new Trail(wash, null, new SolidFill(Palette.EveryoneWash), true), new Trail(whole, Strokes.Everyone, null, false)]);
            placer.Avoid(whole, Strokes.Everyone.Width, true);
        }
        if (sheet.BothLimit is { } limit)
        {
            yield return new Group(sheet.Ids.Take($"everyone-limit-{Person.Id}"), sheet.Words.Say("drawn.everyonelimit", Sheet.MinutesDown(limit)), "",
                [new Trail(BothLimitLine(limit), Strokes.BothLimit, null, false)]);
            placer.Avoid(BothLimitLine(limit), Strokes.BothLimit.Width, true);
        }
        foreach (Element element in DrawCeiling()) yield return element;
    }

    /// <summary>The person's own line, with what it does on the way.</summary>
    public IEnumerable<Element> DrawLine()
    {
        List<Element> parts = [];
        if (armless is not null) parts.Add(new Group(sheet.Ids.Take($"armless-{Person.Id}"), sheet.Words.Say("drawn.ownarmless", Person.Id), "", [.. DrawArmless(armless)]));
        if (otherwise is not null && sheet.Options.Decision is { } decision && decision.IfBefore < otherwise.To)
        {
            ImmutableArray<Spot> part = otherwise.Part(decision.IfBefore, otherwise.To);
            placer.Avoid(part, 1.3, true);
            parts.Add(new Group(sheet.Ids.Take($"otherwise-{Person.Id}"), sheet.Words.Say("drawn.ownother", Person.Id), "", [new Trail(part, Strokes.Otherwise(ink), null, false)]));
        }
        if (one is null) return parts;
        placer.Avoid(one.Whole, Strokes.WorkWidth, false);
        List<Element> line = [];
        Pet drawn = one.From;
        foreach (Stretch stretch in stretches)
        {
            if (stretch.To <= drawn || stretch.From >= one.To) continue;
            if (stretch.From > drawn) line.AddRange(Strokes.Draw(Going.Way, one.Part(drawn, stretch.From), ink));
            Pet from = stretch.From > drawn ? stretch.From : drawn, to = stretch.To < one.To ? stretch.To : one.To;
            AddJump(from);
            ImmutableArray<Spot> part = one.Part(from, to);
            if (stretch.Leg is { } leg)
                line.Add(new Group(sheet.Ids.Take($"leg-{Person.Id}-{leg.Id}"), sheet.Words.Say("drawn.leg", Person.Id, leg.Title, sheet.PlaceName(leg), from, to),
                    sheet.Words.Say("drawn.atmost", Sheet.MinutesUp(Highest(from, to))), [.. Strokes.Draw(stretch.Going, part, ink)])
                { Facts = [("leg", leg.Id.Value), ("person", Person.Id.Value)] });
            else
                line.AddRange(Strokes.Draw(stretch.Going, part, ink));
            drawn = to;
        }
        if (drawn < one.To) line.AddRange(Strokes.Draw(Going.Way, one.Part(drawn, one.To), ink));
        AddJump(one.To);
        parts.Add(new Group(sheet.Ids.Take($"return-{Person.Id}"), sheet.Words.Say("drawn.own", Person.Id), "", [.. line]));
        return parts;

        void AddJump(Pet at)
        {
            double before = one.Before(at), after = one.After(at);
            if (before != after) line.Add(new Line(one.Spot(at, before), one.Spot(at, after), new(ink, 1.7)));
        }
    }

    /// <summary>Finds places for the names on the line, once all is known that they must be kept off. Strips may do so side by side.</summary>
    public void PlaceLabels()
    {
        foreach (StripLabel label in StripLabels.For(this, sheet, one is null ? [] : stretches).OrderByDescending(label => label.Request.Priority).ThenBy(label => label.Middle))
        {
            bool room = label.IsCounted is false || StripLabels.KeepsWithin(LabelsAnHour, allowed.Where(other => other.IsCounted).Select(other => other.Middle).Append(label.Middle));
            (room ? allowed : over).Add(label);
        }
        placed = placer.Place([.. allowed.Select(label => label.Request)]);
    }

    /// <summary>Moves the names that found no room to the key, strip after strip: each gets its letter.</summary>
    public void MoveToKey()
    {
        foreach (StripLabel label in over.Concat(allowed.Where((_, i) => placed[i] is null)).OrderBy(label => label.Middle))
        {
            if (label.IsPlace) sheet.PlacesLeftOut++;
            else moved.Add((label, sheet.MoveToKey($"{Person.Id} {label.Words}")));
        }
    }

    /// <summary>Finds places for their letters. Strips may do so side by side.</summary>
    public void PlaceLetters() =>
        letters = placer.Place([.. moved.Select(entry => entry.Label.Request with { Shapes = [new([new($"({entry.Letter})", Face.Bold, 11, Palette.Words)], 0)] })]);

    /// <summary>The names on the line, and the letters of those in the key.</summary>
    public IEnumerable<Element> DrawLabels()
    {
        for (int i = 0; i < allowed.Count; i++)
            if (placed[i] is { } found) yield return new Group(sheet.Ids.Take($"label-{Person.Id}-{allowed[i].Name}"), allowed[i].Words, "", [.. found.Draw(Palette.Words)]);
        for (int i = 0; i < moved.Count; i++)
            if (letters[i] is { } letter) yield return new Group(sheet.Ids.Take($"label-{Person.Id}-key-{moved[i].Letter}"), moved[i].Label.Words, "", [.. letter.Draw(Palette.Words)]);
    }

    public ImmutableArray<Spot> PartOf(Pet from, Pet to) => one!.Part(from, to);

    public ImmutableArray<Spot> BothLimitLine(double limit) => [new(sheet.Axis.Left, Y(limit)), new(sheet.Axis.Right, Y(limit))];

    /// <summary>The ceiling's pieces that share a cause, each with the line it draws.</summary>
    public IEnumerable<(string Binds, ImmutableArray<Spot> Line)> CeilingRuns()
    {
        ImmutableArray<CeilingPiece> pieces = sheet.Trace.Ceiling;
        for (int i = 0; i < pieces.Length;)
        {
            int end = i;
            ImmutableArray<Spot>.Builder line = ImmutableArray.CreateBuilder<Spot>();
            for (; end < pieces.Length && pieces[end].Binds == pieces[i].Binds; end++)
            {
                line.Add(new(sheet.Axis.X(pieces[end].From), Y(pieces[end].FromSeconds)));
                line.Add(new(sheet.Axis.X(pieces[end].To), Y(pieces[end].ToSeconds)));
            }
            yield return (pieces[i].Binds, line.ToImmutable());
            i = end;
        }
    }

    private static double ScaleOf(Sheet sheet)
    {
        // Only what is drawn: a line that nobody sees would flatten the others.
        IEnumerable<ReturnCurve> curves = sheet.Trace.Returns.Concat(sheet.Otherwise?.Returns ?? []).Where(curve => curve.Kind is ReturnKind.One or ReturnKind.Both or ReturnKind.Armless);
        double highest = curves.SelectMany(curve => curve.Points).Select(point => point.Seconds)
            .Concat(sheet.Trace.Ceiling.SelectMany(piece => new[] { piece.FromSeconds, piece.ToSeconds }))
            .Append(sheet.BothLimit ?? 0).DefaultIfEmpty(0).Max();
        return Math.Max(5, Math.Ceiling((highest / 60 + 3) / 5) * 5);
    }

    private ReturnLine? Line(ReturnCurve? curve) => curve is null ? null : new(curve, sheet.Axis, Y);

    private double Y(double seconds) => top + height - Math.Clamp(seconds / 60 / most, 0, 1) * height;

    private double Highest(Pet from, Pet to) =>
        one!.Points.Where(point => point.At > from && point.At < to).Select(point => point.Seconds).Append(one.After(from)).Append(one.Before(to)).Max();

    private IEnumerable<Element> Who()
    {
        double x = sheet.Margin, width = sheet.Axis.Left - 34 - x;
        yield return new Text(new(x, top + 22), Lettering.Shorten(Person.Id.Value, Face.Bold, 23, width), Face.Bold, 23, ink);
        double y = top + 40;
        List<string> lines = [.. Lettering.Wrap(Person.Name, Face.Regular, 12, width)];
        lines.Add("");
        if (one is not null)
        {
            ReturnPoint farthest = one.Points.MaxBy(point => point.Seconds);
            lines.AddRange([sheet.Words["drawn.most"], sheet.Words.Say("drawn.minutesat", Sheet.MinutesUp(farthest.Seconds), farthest.At), ""]);
            if (NearestToCeiling() is { } near)
                lines.AddRange(near.Seconds >= 0
                    ? [sheet.Words["drawn.nearest"], sheet.Words.Say("drawn.minutesat", Sheet.MinutesDown(near.Seconds), near.At)]
                    : [sheet.Words["drawn.over"], sheet.Words.Say("drawn.minutesat", Sheet.MinutesUp(-near.Seconds), near.At)]);
        }
        else
        {
            lines.Add(sheet.Words["drawn.noreturn"]);
        }
        foreach (string line in lines)
        {
            // A low strip has no room for all of it.
            if (y > top + height - 30) break;
            if (line.Length > 0) yield return new Text(new(x, y), line, Face.Regular, 12, Palette.Quiet);
            y += line.Length > 0 ? 14.5 : 7;
        }
        yield return new Text(new(x, top + height - 16), sheet.Words["drawn.minutesuntil"], Face.Regular, 11, Palette.Quiet);
        yield return new Text(new(x, top + height - 3), sheet.Words["drawn.safeinside"], Face.Regular, 11, Palette.Quiet);
    }

    /// <summary>Both are straight between their points, so the least distance lies at a point of one of them.</summary>
    private (double Seconds, Pet At)? NearestToCeiling()
    {
        (double, Pet)? nearest = null;
        foreach (CeilingPiece piece in sheet.Trace.Ceiling)
        {
            IEnumerable<Pet> moments = one!.Points.Select(point => point.At).Append(piece.From).Append(piece.To)
                .Where(at => at >= piece.From && at <= piece.To && at >= one.From && at <= one.To);
            foreach (Pet at in moments)
            {
                double part = piece.To == piece.From ? 0 : at.Since(piece.From).Seconds / (double)piece.To.Since(piece.From).Seconds;
                double ceiling = piece.FromSeconds + (piece.ToSeconds - piece.FromSeconds) * part;
                double distance = ceiling - Math.Max(one.Before(at), one.After(at));
                if (nearest is null || distance < nearest.Value.Item1) nearest = (distance, at);
            }
        }
        return nearest;
    }

    private IEnumerable<Element> DrawCeiling()
    {
        if (sheet.Trace.Ceiling.IsEmpty) yield break;
        List<Element> parts = [];
        foreach ((_, ImmutableArray<Spot> line) in CeilingRuns())
        {
            parts.Add(new Trail([new(line[0].X, top), .. line, new(line[^1].X, top)], null, new SolidFill(Palette.CeilingWash), true));
            parts.Add(new Trail(line, Strokes.Ceiling, null, false));
            placer.Avoid(line, Strokes.Ceiling.Width, false);
        }
        yield return new Group(sheet.Ids.Take($"ceiling-{Person.Id}"), sheet.Words["drawn.ceilingis"], string.Join("; ", CeilingRuns().Select(run => run.Binds)), [.. parts]);
    }

    /// <summary>Drawn only where the arm makes a difference.</summary>
    private IEnumerable<Element> DrawArmless(ReturnLine line)
    {
        ImmutableArray<ReturnPoint> points = line.Points;
        for (int i = 0; i + 1 < points.Length; i++)
        {
            Pet from = points[i].At, to = points[i + 1].At;
            bool same = from == to
                ? one is not null && points[i].Seconds == one.Before(from) && points[i + 1].Seconds == one.After(from)
                : one is not null && points[i].Seconds == one.After(from) && points[i + 1].Seconds == one.Before(to);
            if (same) continue;
            int end = i + 1;
            ImmutableArray<Spot> part = [line.Spot(from, points[i].Seconds), line.Spot(to, points[end].Seconds)];
            placer.Avoid(part, 1.3, true);
            yield return new Trail(part, Strokes.Armless(ink), null, false);
        }
    }
}
