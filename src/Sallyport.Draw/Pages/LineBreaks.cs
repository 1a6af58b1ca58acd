using System.Text;

namespace Sallyport.Draw;

/// <summary>Breaks words into lines for paper, where nothing may be cut off.</summary>
public static class LineBreaks
{
    /// <summary>Lines no wider than asked, broken at blanks; a word that is wider is broken where the line is full.</summary>
    public static IReadOnlyList<string> Of(string words, Face face, double size, double width)
    {
        List<string> lines = [];
        string line = "";
        foreach (string word in Plain(words).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (Lettering.Measure(longer, face, size) <= width)
            {
                line = longer;
                continue;
            }
            if (line.Length > 0) lines.Add(line);
            line = word;
            while (Lettering.Measure(line, face, size) > width)
            {
                int fits = Fitting(line, face, size, width);
                if (fits == line.Length) break;
                lines.Add(line[..fits]);
                line = line[fits..];
            }
        }
        if (line.Length > 0) lines.Add(line);
        return lines;
    }

    /// <summary>One line of text: breaks and tabs are blanks, and what cannot be printed or would turn the order of other words is left out.</summary>
    public static string Plain(string words)
    {
        if (!words.Any(IsOdd)) return words;
        StringBuilder plain = new(words.Length);
        // Half of a pair becomes the sign for what cannot be read.
        foreach (Rune rune in words.EnumerateRunes())
        {
            if (rune.Value is '\t' or '\n' or '\r' or 0x85 or 0x2028 or 0x2029 or 0xA0) plain.Append(' ');
            else if (!rune.IsBmp || !IsOdd((char)rune.Value)) plain.Append(rune.ToString());
        }
        return plain.ToString();
    }

    // Controls; pairs, which may be halves; marks that set or turn the direction of what follows (UAX #9); the byte order mark.
    private static bool IsOdd(char letter) =>
        char.IsControl(letter) || char.IsSurrogate(letter) || letter is '\u00A0' or '\u2028' or '\u2029' or '\u200E' or '\u200F' or '\u061C' or (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069') or '\uFEFF' or '\uFFFE' or '\uFFFF';

    /// <summary>How many letters of a word fit; at least one, and no pair is parted.</summary>
    private static int Fitting(string word, Face face, double size, double width)
    {
        int fits = 0;
        foreach (Rune rune in word.EnumerateRunes())
        {
            if (fits > 0 && Lettering.Measure(word[..(fits + rune.Utf16SequenceLength)], face, size) > width) break;
            fits += rune.Utf16SequenceLength;
        }
        // A break after a sign that parts words reads better than one in a name, when it costs little.
        int sign = word[..fits].LastIndexOfAny(['-', '/', '_', '.', '›']) + 1;
        return sign > fits / 3 && sign < word.Length ? sign : fits;
    }
}
