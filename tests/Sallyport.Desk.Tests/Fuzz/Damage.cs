using System.Text;
using System.Text.RegularExpressions;

namespace Sallyport.Desk.Tests;

/// <summary>Does to a file what hands, editors, mail and disks do.</summary>
internal static partial class Damage
{
    private static readonly string[] Nasty =
    [
        "", "null", "~", "-1", "0", "1", "1e308", "1e999", "1e-300", "NaN", "Infinity", "99999999999999999999", "0x10", "-0", "true", "false", "[]", "{}", "[[]]", "{a: {b: 1}}",
        "*a", "&a 1", "!!int 1", "<<", "\0", "\t", "\u2028", "\uFEFF", "é", "💥", "9999 h", "24 h", "1 s", "0 s", "-5 min", "0.0001 s", "1e-9 m/min", "10 m/s", "1e9 m", "10 km", "0.001 mm",
        "3 / 2 / 1 min", "1 / 2 / 3", "24 h / 24 h / 24 h", "\"0, 0, 0 m\"", "\"1e5, 0, 0 m\"", "\"-47:59\"", "\"48:00\"", "\"0:00\"", "\"9:99\"", "\"", "'", "#", ": ", "- ", "? ", "| ", "> ", "% ", "@", "`",
        "---\n", "...\n", "\r", "\n", "\n\n", "inside", "spent", "person", "site", "bag bag", "EV1", "EV9", "lock", "leapfrog", "reel", "arm", "restraint", "stock", "1 pieces", "1000000 pieces",
        "0 inhibits", "2031-05-14T13:40:00Z", "0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z", "../..", new string('a', 5000), new string('[', 200), string.Concat(Enumerable.Repeat("- ", 200)),
    ];

    private static readonly Func<Random, byte[], byte[]>[] Kinds =
    [
        FlipBytes, Truncate,
        Text(DropLines), Text(DoubleLines), Text(SwapLines), Text(Indent), Text(ReplaceToken), Text(ReplaceToken), Text(ReplaceToken), Text(ReplaceNumber), Text(ReplaceNumber), Text(SwapTokens), Text(SwapTokens), Text(Insert),
    ];

    /// <summary>The file with one to four things done to it.</summary>
    public static byte[] Do(Random random, byte[] content)
    {
        for (int left = random.Next(1, 5); left > 0; left--) content = Kinds[random.Next(Kinds.Length)](random, content);
        return content;
    }

    private static byte[] FlipBytes(Random random, byte[] content)
    {
        content = [.. content];
        for (int left = content.Length == 0 ? 0 : random.Next(1, 6); left > 0; left--) content[random.Next(content.Length)] ^= (byte)(1 << random.Next(8));
        return content;
    }

    private static byte[] Truncate(Random random, byte[] content) => content[..random.Next(content.Length + 1)];

    private static Func<Random, byte[], byte[]> Text(Func<Random, string, string> change) => (random, content) => Encoding.UTF8.GetBytes(change(random, Encoding.UTF8.GetString(content)));

    private static Func<Random, string, string> Lines(Action<Random, List<string>> change) => (random, text) =>
    {
        List<string> lines = [.. text.Split('\n')];
        change(random, lines);
        return string.Join('\n', lines);
    };

    private static string DropLines(Random random, string text) => Lines(static (random, lines) =>
    {
        int from = random.Next(lines.Count);
        lines.RemoveRange(from, Math.Min(random.Next(1, 4), lines.Count - from));
    })(random, text);

    private static string DoubleLines(Random random, string text) => Lines(static (random, lines) =>
    {
        int from = random.Next(lines.Count);
        lines.InsertRange(random.Next(lines.Count), lines.GetRange(from, Math.Min(random.Next(1, 8), lines.Count - from)));
    })(random, text);

    private static string SwapLines(Random random, string text) => Lines(static (random, lines) =>
    {
        int one = random.Next(lines.Count), other = random.Next(lines.Count);
        (lines[one], lines[other]) = (lines[other], lines[one]);
    })(random, text);

    private static string Indent(Random random, string text) => Lines(static (random, lines) =>
    {
        int from = random.Next(lines.Count), by = random.Next(-4, 5);
        for (int line = from; line < Math.Min(lines.Count, from + random.Next(1, 6)); line++)
            lines[line] = by >= 0 ? new string(' ', by) + lines[line] : lines[line][Math.Min(-by, lines[line].Length - lines[line].TrimStart().Length)..];
    })(random, text);

    private static string ReplaceToken(Random random, string text) => Replace(random, text, Token(), _ => Nasty[random.Next(Nasty.Length)]);

    // A figure keeps its unit, so that it goes further in.
    private static string ReplaceNumber(Random random, string text) =>
        Replace(random, text, Number(), _ => random.Next(6) switch { 0 => "0", 1 => "-1", 2 => "0.001", 3 => "1e6", 4 => "60", _ => random.Next(100).ToString(System.Globalization.CultureInfo.InvariantCulture) });

    // A name stands where another one belongs.
    private static string SwapTokens(Random random, string text)
    {
        MatchCollection tokens = Token().Matches(text);
        return tokens.Count == 0 ? text : Replace(random, text, Token(), _ => tokens[random.Next(tokens.Count)].Value);
    }

    private static string Insert(Random random, string text) => text.Insert(random.Next(text.Length + 1), Nasty[random.Next(Nasty.Length)]);

    private static string Replace(Random random, string text, Regex pattern, Func<string, string> by)
    {
        MatchCollection all = pattern.Matches(text);
        if (all.Count == 0) return text;
        Match one = all[random.Next(all.Count)];
        return text[..one.Index] + by(one.Value) + text[(one.Index + one.Length)..];
    }

    [GeneratedRegex("\"[^\"\n]*\"|[^\\s:,{}\\[\\]\"]+")]
    private static partial Regex Token();

    [GeneratedRegex(@"[0-9]+(\.[0-9]+)?")]
    private static partial Regex Number();
}
