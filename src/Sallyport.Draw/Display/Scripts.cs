using System.Text;

namespace Sallyport.Draw;

/// <summary>A stretch of a line that is drawn from one typeface in one direction.</summary>
/// <param name="Words">The letters, in the order in which they are read.</param>
/// <param name="Script">The typeface it takes.</param>
internal readonly record struct LetterRun(string Words, Script Script);

/// <summary>Which of the shipped typefaces a letter is drawn from.</summary>
internal enum Script
{
    /// <summary>Latin, Greek, Cyrillic, figures and signs: a letter is a glyph, from left to right.</summary>
    Plain,
    /// <summary>Hebrew, from right to left.</summary>
    Hebrew,
    /// <summary>Arabic, from right to left; letters join.</summary>
    Arabic,
}

/// <summary>
/// Puts the stretches of a line in the order in which they stand on paper. A line runs from left to right; names in Hebrew or Arabic within it run from right to
/// left, blanks between them and figures among them in their places. That is what the bidirectional algorithm (UAX #9) gives for such lines; its marks, embeddings and
/// lines that run from right to left as a whole are left out.
/// </summary>
internal static class Scripts
{
    private enum Kind { Left, Right, Figure, Neutral }

    /// <summary>Whether every letter is drawn one after another from left to right.</summary>
    public static bool IsPlain(string words)
    {
        // Nearly every text.
        if (!words.AsSpan().ContainsAnyExceptInRange('\0', '\u058F')) return true;
        foreach (char letter in words)
            if (ScriptOf(letter) != Script.Plain) return false;
        return true;
    }

    /// <summary>The stretches from left to right.</summary>
    public static IReadOnlyList<LetterRun> InOrder(string words)
    {
        Rune[] runes = [.. words.EnumerateRunes()];
        Kind[] kinds = [.. runes.Select(KindOf)];
        List<LetterRun> runs = [];
        for (int i = 0; i < runes.Length;)
        {
            if (kinds[i] != Kind.Right)
            {
                int end = i;
                while (end < runes.Length && kinds[end] != Kind.Right) end++;
                runs.Add(new(Join(runes[i..end]), Script.Plain));
                i = end;
                continue;
            }
            // As far as the last letter from right to left before one from left to right.
            int last = i;
            for (int j = i; j < runes.Length && kinds[j] != Kind.Left; j++)
                if (kinds[j] == Kind.Right) last = j;
            // A bracket that closes one opened in the stretch belongs to it (UAX #9, N0).
            while (last + 1 < runes.Length && Closes(runes[i..(last + 1)], runes[last + 1])) last++;
            runs.AddRange(FromTheRight(runes[i..(last + 1)], kinds[i..(last + 1)]));
            i = last + 1;
        }
        return runs;
    }

    private static IEnumerable<LetterRun> FromTheRight(Rune[] runes, Kind[] kinds)
    {
        List<LetterRun> runs = [];
        for (int i = 0; i < runes.Length;)
        {
            int end = i + 1;
            Script script = kinds[i] == Kind.Right ? ScriptOf((char)runes[i].Value) : Script.Plain;
            while (end < runes.Length && kinds[end] == kinds[i] && (kinds[i] != Kind.Right || ScriptOf((char)runes[end].Value) == script)) end++;
            Rune[] own = runes[i..end];
            if (kinds[i] == Kind.Neutral) own = [.. own.Reverse().Select(Mirrored)];
            runs.Add(new(Join(own), script));
            i = end;
        }
        runs.Reverse();
        return runs;
    }

    private static bool Closes(Rune[] before, Rune bracket)
    {
        if (bracket.Value is not (')' or ']' or '}')) return false;
        Rune opening = Mirrored(bracket);
        return before.Count(rune => rune == opening) > before.Count(rune => rune == bracket);
    }

    private static Script ScriptOf(char letter) => letter switch
    {
        >= '\u0590' and <= '\u05FF' or >= '\uFB1D' and <= '\uFB4F' => Script.Hebrew,
        >= '\u0600' and <= '\u06FF' => Script.Arabic,
        _ => Script.Plain,
    };

    private static Kind KindOf(Rune rune) => rune.Value switch
    {
        >= '0' and <= '9' or >= 0x0660 and <= 0x0669 or >= 0x06F0 and <= 0x06F9 => Kind.Figure,
        < 0x10000 when ScriptOf((char)rune.Value) != Script.Plain => Kind.Right,
        _ => Rune.IsLetter(rune) ? Kind.Left : Kind.Neutral,
    };

    private static Rune Mirrored(Rune rune) => rune.Value switch
    {
        '(' => new(')'),
        ')' => new('('),
        '[' => new(']'),
        ']' => new('['),
        '{' => new('}'),
        '}' => new('{'),
        '<' => new('>'),
        '>' => new('<'),
        '«' => new('»'),
        '»' => new('«'),
        _ => rune,
    };

    private static string Join(Rune[] runes) => string.Concat(runes.Select(rune => rune.ToString()));
}
