using System.Collections.Immutable;

namespace Sallyport.Draw;

/// <summary>Sets a booklet on pages of paper.</summary>
public sealed class PageSetter
{
    private const double Side = 34, HeadHeight = 46, FootHeight = 48, Size = 8.5, Leading = 1.24;
    /// <summary>A picture is set on what is left of a page where it is there no smaller than this part of what it is on a page of its own.</summary>
    private const double LeastOfWhole = 0.85;

    private readonly Booklet booklet;
    private readonly PaperSize paper;
    private readonly List<Page> pages = [];
    private readonly List<Element> elements = [];
    private readonly List<Bookmark> marks = [];
    private readonly List<string> begunIn = [];
    /// <summary>The chapter being set, and the one in which the page began.</summary>
    private string chapterNow = "", chapterAtTop = "";
    private bool wide;
    private double y;

    private PageSetter(Booklet booklet, PaperSize paper) => (this.booklet, this.paper) = (booklet, paper);

    private double Width => wide ? paper.Height : paper.Width;

    private double Height => wide ? paper.Width : paper.Height;

    private double Across => Width - 2 * Side;

    private double Bottom => Height - FootHeight;

    private bool IsFresh => y <= HeadHeight;

    /// <summary>The pages, with their running words and numbers.</summary>
    public static ImmutableArray<Page> Set(Booklet booklet, PaperSize paper)
    {
        PageSetter setter = new(booklet, paper);
        foreach (Chapter chapter in booklet.Chapters) setter.SetChapter(chapter);
        setter.EndPage();
        return [.. setter.pages.Select((page, index) => page with { Elements = [.. setter.Behind(page), .. page.Elements, .. setter.Running(page, index + 1)] })];
    }

    private void SetChapter(Chapter chapter)
    {
        chapterNow = chapter.Title;
        if (y == 0 || chapter.OwnPage || chapter.Wide != wide)
        {
            EndPage();
            wide = chapter.Wide;
            BeginPage();
        }
        else y += 14;
        Need(80);
        marks.Add(new(chapter.Title, 0, y));
        SetLines(chapter.Title, Face.Bold, 15, 0);
        y += 5;
        for (int i = 0; i < chapter.Blocks.Length; i++)
        {
            if (chapter.Blocks[i] is Heading) NeedWithNext(chapter.Blocks, i);
            SetBlock(chapter.Blocks[i]);
        }
    }

    /// <summary>A heading, what is said below it, and the picture or the first rows of the table that follows are not parted by the end of a page.</summary>
    private void NeedWithNext(ImmutableArray<Block> blocks, int heading)
    {
        double height = 24;
        for (int i = heading + 1; i < blocks.Length; i++)
        {
            if (blocks[i] is Paragraph paragraph) height += LineBreaks.Of(paragraph.Words, Face.Regular, Size + 0.5, Across).Count() * (Size + 0.5) * Leading + 4;
            if (blocks[i] is Table { Rows.IsEmpty: false } table && new TableSetter(table, Side, Across) is var setter) height += setter.HeadHeight + Math.Min(setter.HeightOf(table.Rows[0]), 60);
            if (blocks[i] is Figure figure)
            {
                Need(height + figure.Picture.Height * WholeScale(figure) * LeastOfWhole);
                return;
            }
            if (blocks[i] is not Paragraph) break;
        }
        // A long text below a heading goes on overleaf by itself.
        if (height < 150) Need(height);
    }

    private void SetBlock(Block block)
    {
        switch (block)
        {
            case Heading heading:
                if (!IsFresh) y += 5;
                Need(60);
                marks.Add(new(heading.Words, 1, y));
                SetLines(heading.Words, Face.Bold, 10.5, 0);
                y += 2;
                break;
            case Paragraph { Setting: Setting.Notice } notice:
                SetNotice(notice.Words);
                break;
            case Paragraph { Setting: Setting.Item } item:
                Need(Size * Leading);
                elements.Add(new Text(new(Side + 2, y + Size), "–", Face.Regular, Size + 0.5, Palette.Words));
                SetLines(item.Words, Face.Regular, Size + 0.5, 12);
                y += 1.5;
                break;
            case Paragraph paragraph:
                (Face face, double size) = paragraph.Setting switch
                {
                    Setting.Small => (Face.Regular, 7.5),
                    Setting.Strong => (Face.Bold, Size + 0.5),
                    Setting.Large => (Face.Bold, 24),
                    _ => (Face.Regular, Size + 0.5),
                };
                SetLines(paragraph.Words, face, size, 0);
                y += 4;
                break;
            case Figure figure:
                SetFigure(figure);
                break;
            case Table table:
                SetTable(table);
                y += 6;
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(block), block, "expected a kind of block that pages can be set from");
        }
    }

    private void SetLines(string words, Face face, double size, double indent)
    {
        foreach (string line in LineBreaks.Of(words, face, size, Across - indent))
        {
            Need(size * Leading);
            elements.Add(new Text(new(Side + indent, y + size), line, face, size, Palette.Words));
            y += size * Leading;
        }
    }

    private void SetNotice(string words)
    {
        const double size = 9.5, pad = 6;
        IReadOnlyList<string> lines = LineBreaks.Of(words, Face.Bold, size, Across - 2 * pad);
        double height = lines.Count * size * Leading + 2 * pad;
        Need(height);
        elements.Add(new Box(new(Side, y, Across, height), null, new(Palette.Words, 1.1)));
        for (int i = 0; i < lines.Count; i++) elements.Add(new Text(new(Side + pad, y + pad + size * 0.92 + i * size * Leading), lines[i], Face.Bold, size, Palette.Words));
        y += height + 6;
    }

    /// <summary>As wide as the page; on what is left of this one when that is large enough.</summary>
    private void SetFigure(Figure figure)
    {
        double whole = WholeScale(figure), here = Math.Min(Across / figure.Picture.Width, (Bottom - y) / figure.Picture.Height);
        if (here < whole * LeastOfWhole)
        {
            NextPage();
            here = whole;
        }
        double width = figure.Picture.Width * here;
        elements.AddRange(figure.Picture.PlacedAt(new(Side + (Across - width) / 2, y), here));
        y += figure.Picture.Height * here + 8;
    }

    private double WholeScale(Figure figure) => Math.Min(Across / figure.Picture.Width, (Bottom - HeadHeight) / figure.Picture.Height);

    private void SetTable(Table table)
    {
        TableSetter setter = new(table, Side, Across);
        Need(setter.HeadHeight + (table.Rows.IsEmpty ? 0 : Math.Min(setter.HeightOf(table.Rows[0]), 60)));
        Head();
        Row? band = null;
        for (int i = 0; i < table.Rows.Length; i++)
        {
            Row row = table.Rows[i];
            IReadOnlyList<TableSetter.Piece> pieces = setter.Pieces(row, Bottom - HeadHeight - setter.HeadHeight - 30);
            if (row.EndsBand) band = null;
            // A row that heads others is not left alone at the foot of a page, and the last row not at the top of one.
            double kept = i + 1 < table.Rows.Length && (row.IsBand || i + 2 == table.Rows.Length) ? Math.Min(setter.HeightOf(table.Rows[i + 1]), 120) : 0;
            foreach (TableSetter.Piece piece in pieces)
            {
                if (y + piece.Height + kept > Bottom && !IsFresh)
                {
                    NextPage();
                    Head();
                    if (band is not null && !row.IsBand) Add(setter.BandAgain(band, booklet.Running.Continued));
                }
                Add(piece);
            }
            if (row.IsBand) band = row;
        }
        elements.Add(new Line(new(Side, y), new(Side + Across, y), new(Palette.Words, 0.9)));

        void Head() => Add(setter.Head);

        void Add(TableSetter.Piece piece)
        {
            elements.AddRange(piece.DrawAt(y));
            y += piece.Height;
        }
    }

    private void Need(double height)
    {
        if (y + height > Bottom && !IsFresh) NextPage();
    }

    private void NextPage()
    {
        EndPage();
        BeginPage();
    }

    private void BeginPage() => (y, chapterAtTop) = (HeadHeight, chapterNow);

    private void EndPage()
    {
        if (y > 0)
        {
            pages.Add(new(Width, Height, [.. elements], [.. marks]));
            begunIn.Add(chapterAtTop);
        }
        elements.Clear();
        marks.Clear();
        y = 0;
    }

    /// <summary>What lies behind the words of a page.</summary>
    private IEnumerable<Element> Behind(Page page)
    {
        yield return new Box(new(0, 0, page.Width, page.Height), new SolidFill(Palette.Paper), null);
        if (booklet.Running.Draft is not { } draft) yield break;
        double diagonal = Math.Sqrt(page.Width * page.Width + page.Height * page.Height);
        double size = Math.Min(90, 0.72 * diagonal / Lettering.Measure(draft, Face.Bold, 1));
        double turn = -Math.Atan2(page.Height, page.Width);
        // Turned about a point of its base line; moved down by a third of its height, across its own direction, so that it lies on the middle.
        double down = size * 0.34;
        Spot middle = new(page.Width / 2 - down * Math.Sin(turn), page.Height / 2 + down * Math.Cos(turn));
        yield return new Text(middle, draft, Face.Bold, size, Palette.Draft, Anchor.Middle) { Turn = turn * 180 / Math.PI };
    }

    /// <summary>Head and foot.</summary>
    private IEnumerable<Element> Running(Page page, int number)
    {
        RunningWords running = booklet.Running;
        double right = page.Width - Side, headWidth = page.Width - 2 * Side;
        string count = running.PageOf(number, pages.Count);
        if (running.Draft is { } draft)
        {
            double wide = Lettering.Measure(draft, Face.Bold, 9) + 12;
            yield return new Box(new(right - wide, 16, wide, 14), new SolidFill(Palette.Words), null);
            yield return new Text(new(right - wide / 2, 26.4), draft, Face.Bold, 9, Palette.Paper, Anchor.Middle);
            headWidth -= wide + 8;
        }
        yield return new Text(new(Side, 26), Lettering.Shorten(LineBreaks.Plain(running.Head), Face.Regular, 8, headWidth), Face.Regular, 8, Palette.Quiet);
        yield return new Line(new(Side, 34), new(right, 34), new(Palette.Quiet, 0.6));
        // A loose page says of what it is a page: whose, first of all. The caution comes before that.
        double top = page.Height - 36, counted = Lettering.Measure(count, Face.Bold, 8.5), room = page.Width - 2 * Side - counted - Lettering.Measure(running.Caution, Face.Bold, 8) - 38;
        string of = Lettering.Shorten(LineBreaks.Plain(begunIn[number - 1]), Face.Bold, 8.5, Math.Max(0, room));
        double told = of.Length > 1 ? Lettering.Measure(of, Face.Bold, 8.5) + 14 : 0;
        yield return new Box(new(Side, top, page.Width - 2 * Side - counted - told - 12, 16), null, new(Palette.Words, 0.9));
        yield return new Text(new(Side + 6, top + 11), running.Caution, Face.Bold, 8, Palette.Words);
        if (told > 0) yield return new Text(new(right - counted - 14, top + 11), of, Face.Bold, 8.5, Palette.Words, Anchor.End);
        yield return new Text(new(right, top + 11), count, Face.Bold, 8.5, Palette.Words, Anchor.End);
    }
}
