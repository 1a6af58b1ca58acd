using System.Collections.Immutable;

namespace Sallyport.Draw;

/// <summary>Something to print: what it says, before anybody knows how large the paper is. The same content becomes pages and plain text.</summary>
/// <param name="Title">What it is.</param>
/// <param name="Running">What stands on every page.</param>
/// <param name="Chapters">In order.</param>
public sealed record Booklet(string Title, RunningWords Running, ImmutableArray<Chapter> Chapters);

/// <summary>What stands on every page.</summary>
/// <param name="Head">Along the top.</param>
/// <param name="Caution">Along the foot, in a frame.</param>
/// <param name="Draft">Across every page and in its head; null for what needs no such word.</param>
/// <param name="PageOf">The page number and how many there are, in words.</param>
/// <param name="Continued">Follows the heading of rows that go on overleaf.</param>
public sealed record RunningWords(string Head, string Caution, string? Draft, Func<int, int, string> PageOf, string Continued);

/// <summary>A part of a booklet, with a bookmark of its own.</summary>
/// <param name="Title">Its heading.</param>
/// <param name="Blocks">What it says.</param>
public sealed record Chapter(string Title, ImmutableArray<Block> Blocks)
{
    /// <summary>Whether its pages lie on their side.</summary>
    public bool Wide { get; init; }

    /// <summary>Whether it begins on a page of its own; one that lies otherwise than the page before does so anyhow.</summary>
    public bool OwnPage { get; init; } = true;
}

/// <summary>A piece of content.</summary>
public abstract record Block;

/// <summary>A heading within a chapter; it stays with what follows it.</summary>
public sealed record Heading(string Words) : Block;

/// <summary>How a paragraph is set.</summary>
public enum Setting
{
    /// <summary>As running text.</summary>
    Plain,
    /// <summary>Smaller.</summary>
    Small,
    /// <summary>Bold.</summary>
    Strong,
    /// <summary>Large, as on a cover.</summary>
    Large,
    /// <summary>With a dash before it, further lines under its first word.</summary>
    Item,
    /// <summary>Bold, in a frame.</summary>
    Notice,
}

/// <summary>A paragraph.</summary>
public sealed record Paragraph(string Words, Setting Setting = Setting.Plain) : Block;

/// <summary>A picture, as large as the page allows.</summary>
/// <param name="Picture">The picture.</param>
/// <param name="Words">What it shows, for who cannot see it.</param>
public sealed record Figure(Picture Picture, string Words) : Block;

/// <summary>A table. Its head is repeated on every page; a row is kept together where a page has room for it.</summary>
/// <param name="Columns">At least one.</param>
/// <param name="Rows">From the top.</param>
public sealed record Table(ImmutableArray<Column> Columns, ImmutableArray<Row> Rows) : Block;

/// <summary>A column of a table.</summary>
/// <param name="Title">Its head.</param>
/// <param name="Share">Its part of the width, against that of the others.</param>
/// <param name="IsFigure">Whether it is set to the right, as figures are.</param>
public sealed record Column(string Title, double Share, bool IsFigure = false);

/// <summary>A row of a table.</summary>
/// <param name="Cells">One a column; or a single one, which then takes the whole width and heads the rows below it.</param>
public sealed record Row(ImmutableArray<Cell> Cells)
{
    /// <summary>A row of plain texts.</summary>
    public static Row Of(params ReadOnlySpan<Cell> cells) => new([.. cells]);

    /// <summary>A row that heads those below it.</summary>
    public static Row Band(params ReadOnlySpan<Phrase> phrases) => new([new Cell([.. phrases])]) { IsBand = true };

    /// <summary>Whether it heads the rows below it: set on grey, kept with the next, named again overleaf.</summary>
    public bool IsBand { get; init; }

    /// <summary>Whether the heading above no longer holds from here on.</summary>
    public bool EndsBand { get; init; }
}

/// <summary>A cell: phrases, each on a line of its own. Empty ones take no room.</summary>
public sealed record Cell(ImmutableArray<Phrase> Phrases)
{
    public static implicit operator Cell(string words) => new([new(words)]);

    public static implicit operator Cell(Phrase phrase) => new([phrase]);
}

/// <summary>Words of one weight.</summary>
public sealed record Phrase(string Words, Face Face = Face.Regular)
{
    public static implicit operator Phrase(string words) => new(words);

    /// <summary>In bold.</summary>
    public static Phrase Strong(string words) => new(words, Face.Bold);
}
