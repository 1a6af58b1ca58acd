using System.Globalization;

namespace Sallyport.Desk;

/// <summary>A two-line element set, with or without a line of its name before it. Fields stand in fixed columns; each line ends in a checksum.</summary>
internal static class TwoLineElements
{
    private const int Width = 69;

    public static void Read(SourceText source, OrbitFields fields)
    {
        string[] all = source.Text.Split('\n');
        List<(int Number, string Text)> lines = [.. all.Select((text, i) => (i + 1, text.TrimEnd())).Where(line => line.Item2.Length > 0)];
        if (lines.Count == 3 && !lines[0].Text.StartsWith("1 ", StringComparison.Ordinal))
        {
            string name = lines[0].Text.StartsWith("0 ", StringComparison.Ordinal) ? lines[0].Text[2..].Trim() : lines[0].Text.Trim();
            fields.Add("OBJECT_NAME", name, lines[0].Number, 1);
            lines.RemoveAt(0);
        }
        if (lines.Count != 2)
        {
            fields.Report(OrbitProblems.Lines(new(source, lines[0].Number, 1), lines.Count));
            return;
        }
        if (!Check(source, fields, lines[0], '1') | !Check(source, fields, lines[1], '2')) return;
        ((int first, string one), (int second, string two)) = (lines[0], lines[1]);
        if (one[2..7] != two[2..7])
        {
            fields.Report(OrbitProblems.OtherNumber(new(source, second, 3), one[2..7], two[2..7]));
            return;
        }
        foreach ((string key, string value) in (ReadOnlySpan<(string, string)>)[("CENTER_NAME", "EARTH"), ("REF_FRAME", "TEME"), ("TIME_SYSTEM", "UTC"), ("MEAN_ELEMENT_THEORY", "SGP4")])
            fields.Add(key, value, first, 1);
        Add("EPHEMERIS_TYPE", one, first, 63, 63, text => text);
        Add("EPOCH", one, first, 19, 32, Epoch);
        Add("BSTAR", one, first, 54, 61, Drag);
        Add("INCLINATION", two, second, 9, 16, text => text);
        Add("RA_OF_ASC_NODE", two, second, 18, 25, text => text);
        Add("ECCENTRICITY", two, second, 27, 33, text => text.All(char.IsAsciiDigit) ? "0." + text : text);
        Add("ARG_OF_PERICENTER", two, second, 35, 42, text => text);
        Add("MEAN_ANOMALY", two, second, 44, 51, text => text);
        Add("MEAN_MOTION", two, second, 53, 63, text => text);

        void Add(string key, string line, int number, int from, int to, Func<string, string> read)
        {
            string text = line[(from - 1)..to];
            fields.Add(key, read(text.Trim()), number, from + (text.Length - text.TrimStart().Length));
        }
    }

    private static bool Check(SourceText source, OrbitFields fields, (int Number, string Text) line, char begins)
    {
        if (line.Text.Length != Width || line.Text[0] != begins || line.Text[1] != ' ')
        {
            fields.Report(OrbitProblems.Line(new(source, line.Number, line.Text[0] != begins ? 1 : Math.Min(line.Text.Length, Width) + 1), begins, line.Text.Length));
            return false;
        }
        int sum = line.Text[..(Width - 1)].Sum(character => char.IsAsciiDigit(character) ? character - '0' : character == '-' ? 1 : 0) % 10;
        if (line.Text[^1] == (char)('0' + sum)) return true;
        fields.Report(OrbitProblems.Checksum(new(source, line.Number, Width), begins, line.Text[^1], sum));
        return false;
    }

    // Years of two digits: from 1957, the first year that had anything to follow, to 2056.
    private static string Epoch(string text)
    {
        string day = text.Length > 2 ? text[2..].Replace(' ', '0') : "";
        if (text.Length < 5 || !int.TryParse(text[..2], NumberStyles.None, CultureInfo.InvariantCulture, out int year)
            || !decimal.TryParse(day, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal days) || days is < 1 or >= 367) return text;
        long ticks = (long)decimal.Round((days - decimal.Floor(days)) * TimeSpan.TicksPerDay);
        TimeSpan time = TimeSpan.FromTicks(Math.Min(ticks, TimeSpan.TicksPerDay - 1));
        return string.Create(CultureInfo.InvariantCulture, $"{(year < 57 ? 2000 + year : 1900 + year):0000}-{decimal.Floor(days):000}T{time:hh\\:mm\\:ss\\.fffffff}");
    }

    // A sign, five digits after a point that is not written, and a power of ten: " 12808-3" is 0.12808e-3.
    private static string Drag(string text)
    {
        string digits = text.StartsWith('-') || text.StartsWith('+') ? text[1..] : text;
        string sign = text.StartsWith('-') ? "-" : "";
        bool formed = digits.Length == 7 && digits[..5].All(char.IsAsciiDigit) && digits[5] is '-' or '+' && char.IsAsciiDigit(digits[^1]);
        return formed ? $"{sign}0.{digits[..5]}e{digits[5..]}" : text;
    }
}
