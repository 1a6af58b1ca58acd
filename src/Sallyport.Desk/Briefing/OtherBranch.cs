using System.Collections.Immutable;
using Sallyport.Draw;

namespace Sallyport.Desk;

/// <summary>How the other branch of a decision is told beside the likely one: marked, from the first line on that is not the same, and nothing twice.</summary>
internal static class OtherBranch
{
    /// <summary>Which branch it is, in a line.</summary>
    public static string Title(BriefedPlan other) =>
        other.DecisionTaken is { } taken ? other.Words.Say("other.title", other.Leg(taken.Decision.After).Title, taken.Decision.IfBefore) : other.Words["branch.other"];

    /// <summary>The rows of the other branch from the first on that is not as in the likely one, under the band that it stands under; none where all are the same.</summary>
    public static ImmutableArray<Row> From(IReadOnlyList<Row> likely, IReadOnlyList<Row> other)
    {
        int first = likely.Zip(other).TakeWhile(pair => Text(pair.First) == Text(pair.Second)).Count();
        Row? band = null;
        foreach (Row row in other.Take(first)) band = row.IsBand ? row : row.EndsBand ? null : band;
        return [.. band is not null && first < other.Count && !other[first].IsBand && !other[first].EndsBand ? [band] : Array.Empty<Row>(), .. other.Skip(first)];
    }

    /// <summary>Whether anything is not the same.</summary>
    public static bool Differ(IReadOnlyList<Row> likely, IReadOnlyList<Row> other) => !likely.Select(Text).SequenceEqual(other.Select(Text));

    /// <summary>A heading, what it means, and a table of the rows that are not the same; nothing where all are the same.</summary>
    public static IEnumerable<Block> Blocks(BriefedPlan plan, Func<BriefedPlan, Table> tableOf)
    {
        if (plan.Other is not { } other) yield break;
        (Table likely, Table told) = (tableOf(plan), tableOf(other));
        ImmutableArray<Row> rows = From(likely.Rows, told.Rows);
        yield return new Heading(Title(other));
        yield return new Paragraph(!Differ(likely.Rows, told.Rows) ? other.Words["other.same"] : rows.Length == 0 ? other.Words["other.nomore"] : other.Words.Say("other.about", other.DecisionTaken?.At), Setting.Small);
        // The head of a table stands on each of its pages: none of them shall pass for one of the likely branch.
        if (rows.Length > 0) yield return told with { Columns = told.Columns.SetItem(0, told.Columns[0] with { Title = other.Words.Say("other.column", told.Columns[0].Title) }), Rows = rows };
    }

    /// <summary>A band and below it the rows of the other branch that are not the same; nothing where all are.</summary>
    public static IEnumerable<Row> Band(BriefedPlan plan, Func<BriefedPlan, IReadOnlyList<Row>> rowsOf)
    {
        if (plan.Other is not { } other) yield break;
        IReadOnlyList<Row> likely = rowsOf(plan), told = rowsOf(other);
        if (!Differ(likely, told)) yield break;
        ImmutableArray<Row> rows = From(likely, told);
        yield return Row.Band(Phrase.Strong(Title(other)), other.Words[rows.Length > 0 ? "other.fromhere" : "other.nomore"]);
        foreach (Row row in rows) yield return row;
    }

    /// <summary>What of the other branch stands in no row of the likely one, as rows of one kind that need no order.</summary>
    public static IEnumerable<Row> Only(IEnumerable<Row> likely, IEnumerable<Row> other)
    {
        HashSet<string> known = [.. likely.Select(Text)];
        return other.Where(row => !known.Contains(Text(row)));
    }

    /// <summary>A band and below it such rows; nothing where there are none.</summary>
    public static IEnumerable<Row> Apart(BriefedPlan plan, Func<BriefedPlan, IReadOnlyList<Row>> rowsOf) =>
        plan.Other is { } other && Only(rowsOf(plan), rowsOf(other)).ToArray() is { Length: > 0 } rows ? [Row.Band(Phrase.Strong(Title(other)), other.Words["other.only"]), .. rows] : [];

    private static string Text(Row row) => string.Join('\u0001', row.Cells.SelectMany(cell => cell.Phrases.Where(phrase => phrase.Words.Length > 0).Select(phrase => phrase.Words).Append("\u0002")));
}
