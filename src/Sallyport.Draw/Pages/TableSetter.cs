namespace Sallyport.Draw;

/// <summary>Sets the rows of one table: how high each is, and what is drawn for it.</summary>
internal sealed class TableSetter
{
    private const double Size = 8, HeadSize = 7.5, Leading = 1.22, PadX = 3, PadY = 2.2;
    private readonly Table table;
    private readonly double left, across;
    private readonly double[] lefts, widths;

    public TableSetter(Table table, double left, double across)
    {
        (this.table, this.left, this.across) = (table, left, across);
        double shares = table.Columns.Sum(column => column.Share), at = left;
        widths = [.. table.Columns.Select(column => across * column.Share / shares)];
        lefts = new double[widths.Length];
        for (int i = 0; i < widths.Length; at += widths[i], i++) lefts[i] = at;
        List<Set>[] heads = [.. table.Columns.Select((column, i) => Lines([new(column.Title, Face.Bold)], widths[i], HeadSize))];
        bool isNamed = heads.Any(lines => lines.Count > 0);
        double height = isNamed ? heads.Max(lines => lines.Count) * HeadSize * Leading + 2 * PadY : 0;
        Head = new(height, top =>
        [
            new Line(new(left, top), new(left + across, top), new(Palette.Words, 0.9)),
            .. heads.SelectMany((lines, i) => Draw(lines, i, top, HeadSize)),
            new Line(new(left, top + height), new(left + across, top + height), new(Palette.Words, 0.9)),
        ]);
    }

    /// <summary>A piece of a table that no page parts.</summary>
    public sealed record Piece(double Height, Func<double, IEnumerable<Element>> DrawAt);

    private readonly record struct Set(string Words, Face Face);

    public Piece Head { get; }

    public double HeadHeight => Head.Height;

    public double HeightOf(Row row) => LinesOf(row).Max(lines => lines.Count) * Size * Leading + 2 * PadY;

    /// <summary>The row in one piece where it fits into the height given, else in several.</summary>
    public IReadOnlyList<Piece> Pieces(Row row, double room)
    {
        List<Set>[] cells = LinesOf(row);
        int count = Math.Max(1, cells.Max(lines => lines.Count)), most = Math.Max(1, (int)((room - 2 * PadY) / (Size * Leading)));
        List<Piece> pieces = [];
        for (int from = 0; from < count; from += most)
        {
            int first = from, number = Math.Min(most, count - from);
            double height = number * Size * Leading + 2 * PadY;
            pieces.Add(new(height, top =>
            [
                .. Ground(row, top, height),
                .. cells.SelectMany((lines, i) => Draw([.. lines.Skip(first).Take(number)], row.IsBand ? -1 : i, top, Size)),
            ]));
        }
        return pieces;
    }

    /// <summary>The first line of a band, again at the top of the next page.</summary>
    public Piece BandAgain(Row band, string continued)
    {
        Set first = new(Lettering.Shorten($"{LineBreaks.Plain(band.Cells[0].Phrases[0].Words)} {continued}", Face.Bold, Size, across - 2 * PadX), Face.Bold);
        double height = Size * Leading + 2 * PadY;
        return new(height, top => [.. Ground(band, top, height), .. Draw([first], -1, top, Size)]);
    }

    private IEnumerable<Element> Ground(Row row, double top, double height)
    {
        if (row.IsBand) yield return new Box(new(left, top, across, height), new SolidFill(Palette.Band), null);
        else
            foreach (double x in lefts.Skip(1)) yield return new Line(new(x, top), new(x, top + height), new(Palette.Grid, 0.4));
        yield return new Line(new(left, top), new(left + across, top), new(row.IsBand || row.EndsBand ? Palette.Words : Palette.Grid, row.IsBand || row.EndsBand ? 0.7 : 0.5));
    }

    private List<Set>[] LinesOf(Row row) => row.IsBand
        ? [Lines(row.Cells[0].Phrases, across, Size)]
        : [.. row.Cells.Select((cell, i) => Lines(cell.Phrases, widths[i], Size))];

    private static List<Set> Lines(IEnumerable<Phrase> phrases, double width, double size) =>
        [.. phrases.SelectMany(phrase => LineBreaks.Of(phrase.Words, phrase.Face, size, width - 2 * PadX).Select(line => new Set(line, phrase.Face)))];

    private IEnumerable<Element> Draw(IReadOnlyList<Set> lines, int column, double top, double size)
    {
        bool toRight = column >= 0 && table.Columns[column].IsFigure;
        double x = column < 0 ? left + PadX : toRight ? lefts[column] + widths[column] - PadX : lefts[column] + PadX;
        for (int i = 0; i < lines.Count; i++)
            yield return new Text(new(x, top + PadY + size * 0.9 + i * size * Leading), lines[i].Words, lines[i].Face, size, Palette.Words, toRight ? Anchor.End : Anchor.Start);
    }
}
