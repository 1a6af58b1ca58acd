using System.Text;

namespace Sallyport.Draw;

/// <summary>A booklet as plain text, for who hears it or has no PDF: tables row by row, each figure with the name of its column.</summary>
public static class BookletText
{
    /// <summary>The text; lines end with a line feed.</summary>
    public static string Write(Booklet booklet)
    {
        StringBuilder text = new();
        void Line(string words = "") => text.Append(LineBreaks.Plain(words)).Append('\n');
        if (booklet.Running.Draft is { } draft) Line(draft);
        Line(booklet.Running.Head);
        Line(booklet.Running.Caution);
        foreach (Chapter chapter in booklet.Chapters)
        {
            Line();
            Line(chapter.Title);
            Line(new string('=', Math.Min(80, chapter.Title.Length)));
            foreach (Block block in chapter.Blocks)
            {
                switch (block)
                {
                    case Heading heading:
                        Line();
                        Line(heading.Words);
                        Line(new string('-', Math.Min(80, heading.Words.Length)));
                        break;
                    case Paragraph { Setting: Setting.Item } item:
                        Line($"- {item.Words}");
                        break;
                    case Paragraph paragraph:
                        Line(paragraph.Words);
                        break;
                    case Figure figure:
                        Line(figure.Words);
                        break;
                    case Table table:
                        foreach (Row row in table.Rows) Rows(table, row, Line);
                        break;
                }
            }
        }
        return text.ToString();
    }

    private static void Rows(Table table, Row row, Action<string> line)
    {
        if (row.IsBand)
        {
            line("");
            foreach (Phrase phrase in row.Cells[0].Phrases.Where(phrase => phrase.Words.Length > 0)) line($"* {phrase.Words}");
            return;
        }
        // The first column names the row; what follows is read with the name of its column.
        line(string.Join(" · ", new[] { table.Columns[0].Title, Words(row.Cells[0]) }.Where(words => words.Length > 0)));
        for (int i = 1; i < row.Cells.Length; i++)
            if (Words(row.Cells[i]) is { Length: > 0 } words) line($"  {table.Columns[i].Title}: {words}");
    }

    private static string Words(Cell cell) => string.Join("; ", cell.Phrases.Select(phrase => phrase.Words).Where(words => words.Length > 0));
}
