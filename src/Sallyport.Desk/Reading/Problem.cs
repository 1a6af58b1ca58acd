using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Sallyport.Desk;

/// <summary>Something in a user's file, or about it, that keeps it from being used.</summary>
/// <param name="File">The file as the user gave it.</param>
/// <param name="Line">From 1; 0 when it is about the file as a whole.</param>
/// <param name="Column">From 1; 0 when it is about the file as a whole.</param>
/// <param name="Code">Two words joined by a dot, such as <c>unit.missing</c>.</param>
/// <param name="Found">What stands there.</param>
/// <param name="Expected">What should.</param>
/// <param name="SourceLine">The line it stands on; empty when it is about the file as a whole.</param>
/// <param name="Fix">What to do, one sentence.</param>
/// <param name="Nearest">The known name nearest to the one found, or null.</param>
public sealed record Problem(
    string File, int Line, int Column, string Code, string Found, string Expected, string SourceLine, string Fix, string? Nearest = null)
{
    private const int WidestLine = 140;

    /// <summary>The problem as shown: where and what, found and expected, the line with a caret, the fix.</summary>
    public override string ToString()
    {
        StringBuilder text = new();
        text.Append(Line > 0 ? string.Create(CultureInfo.InvariantCulture, $"{File}:{Line}:{Column}: {Code}\n") : $"{File}: {Code}\n");
        text.Append($"  found     {Found}\n  expected  {Expected}\n");
        if (Line > 0)
        {
            (string shown, int caret) = Window();
            string number = Line.ToString(CultureInfo.InvariantCulture);
            text.Append($"  {number} | {shown}\n  {new string(' ', number.Length)} | {new string(' ', caret)}^\n");
        }
        text.Append($"  Fix: {Fix}\n");
        if (Nearest is not null) text.Append($"  Nearest name: {Nearest}\n");
        return text.ToString();
    }

    /// <summary>The problems one after another, the first hundred of them, and how many there are.</summary>
    public static string Render(ImmutableArray<Problem> problems)
    {
        const int most = 100;
        StringBuilder text = new();
        foreach (Problem problem in problems.Take(most)) text.Append(problem).Append('\n');
        if (problems.Length > most) text.Append(CultureInfo.InvariantCulture, $"… and {problems.Length - most} more.\n");
        text.Append(problems.Length == 1 ? "1 problem.\n" : string.Create(CultureInfo.InvariantCulture, $"{problems.Length} problems.\n"));
        return text.ToString();
    }

    // A line may be far wider than a screen: the part around the caret is shown.
    private (string Shown, int Caret) Window()
    {
        int caret = Math.Min(Column - 1, SourceLine.Length);
        if (SourceLine.Length <= WidestLine) return (SourceLine, caret);
        int from = Math.Clamp(caret - WidestLine / 2, 0, SourceLine.Length - WidestLine);
        string shown = SourceLine.Substring(from, WidestLine);
        return (from > 0 ? "…" + shown[1..] : shown, caret - from);
    }
}

/// <summary>What reading gave: a value, or problems; never both, never neither.</summary>
/// <param name="Value">What was read; null when there are problems.</param>
/// <param name="Problems">In order of file, line and column; empty when there is a value.</param>
/// <param name="Notes">Worth knowing, but no reason to stop.</param>
public sealed record ReadResult<T>(T? Value, ImmutableArray<Problem> Problems, ImmutableArray<string> Notes) where T : class
{
    /// <summary>Whether there is a value.</summary>
    public bool Ok => Value is not null;
}
