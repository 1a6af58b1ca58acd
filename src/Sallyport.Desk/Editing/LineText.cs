using System.Text;

namespace Sallyport.Desk;

/// <summary>Texts as lines, each with its own line end: where two differ, and two changes of one text as one.</summary>
internal static class LineText
{
    /// <summary>Beyond this many comparisons what differs is taken as one piece: right, only coarser.</summary>
    private const long MostCells = 4_000_000;

    /// <summary>A stretch of lines of one text in place of a stretch of another.</summary>
    public readonly record struct Hunk(int From, int To, int NewFrom, int NewTo);

    /// <summary>The lines of a text, line ends and all; joined they are the text.</summary>
    public static string[] Of(string text)
    {
        List<string> lines = [];
        for (int at = 0; at < text.Length;)
        {
            int end = text.AsSpan(at).IndexOfAny('\r', '\n');
            int next = end < 0 ? text.Length : at + end + (text[at + end] == '\r' && at + end + 1 < text.Length && text[at + end + 1] == '\n' ? 2 : 1);
            lines.Add(text[at..next]);
            at = next;
        }
        return [.. lines];
    }

    /// <summary>Where one list of lines differs from another, in order.</summary>
    public static List<Hunk> Differences(IReadOnlyList<string> old, IReadOnlyList<string> now)
    {
        int start = 0, oldEnd = old.Count, nowEnd = now.Count;
        while (start < oldEnd && start < nowEnd && old[start] == now[start]) start++;
        while (oldEnd > start && nowEnd > start && old[oldEnd - 1] == now[nowEnd - 1]) (oldEnd, nowEnd) = (oldEnd - 1, nowEnd - 1);
        List<Hunk> hunks = [];
        int n = oldEnd - start, m = nowEnd - start;
        if (n == 0 && m == 0) return hunks;
        if (n == 0 || m == 0 || (long)n * m > MostCells)
        {
            hunks.Add(new(start, oldEnd, start, nowEnd));
            return hunks;
        }
        int[,] common = new int[n + 1, m + 1];
        for (int i = n - 1; i >= 0; i--)
            for (int j = m - 1; j >= 0; j--)
                common[i, j] = old[start + i] == now[start + j] ? common[i + 1, j + 1] + 1 : Math.Max(common[i + 1, j], common[i, j + 1]);
        for (int i = 0, j = 0; i < n || j < m;)
        {
            if (i < n && j < m && old[start + i] == now[start + j])
            {
                (i, j) = (i + 1, j + 1);
                continue;
            }
            (int fromOld, int fromNow) = (i, j);
            while ((i < n || j < m) && !(i < n && j < m && old[start + i] == now[start + j]))
                if (i < n && (j == m || common[i + 1, j] >= common[i, j + 1])) i++;
                else j++;
            hunks.Add(new(start + fromOld, start + i, start + fromNow, start + j));
        }
        return hunks;
    }

    /// <summary>Two changes of one text as one; null when both touch the same lines, also when both do the same to them, since a line moved twice would be there twice.</summary>
    public static string? Merge(string before, string mine, string theirs)
    {
        if (mine == theirs || before == theirs) return mine;
        if (before == mine) return theirs;
        string[] old = Of(before), own = Of(mine), other = Of(theirs);
        List<Hunk> a = Differences(old, own), b = Differences(old, other);
        StringBuilder merged = new();
        int at = 0, i = 0, j = 0;
        while (i < a.Count || j < b.Count)
        {
            if (i < a.Count && j < b.Count && Clash(a[i], b[j])) return null;
            bool first = j == b.Count || (i < a.Count && (a[i].From, a[i].To).CompareTo((b[j].From, b[j].To)) < 0);
            (Hunk hunk, string[] source) = first ? (a[i++], own) : (b[j++], other);
            for (; at < hunk.From; at++) Add(merged, old[at]);
            for (int line = hunk.NewFrom; line < hunk.NewTo; line++) Add(merged, source[line]);
            at = hunk.To;
        }
        for (; at < old.Length; at++) Add(merged, old[at]);
        return merged.ToString();
    }

    /// <summary>A text with its parts that did not change as they are in the original, to the byte, and the new ones with the line ends of the original.</summary>
    /// <param name="original">The text before.</param>
    /// <param name="changed">The text after, with <c>\n</c> as its only line end and no byte order mark.</param>
    public static string InTheFormOf(string original, string changed)
    {
        string mark = original.StartsWith('\uFEFF') ? "\uFEFF" : "";
        string[] lines = Of(original[mark.Length..]), plain = [.. lines.Select(line => line.TrimEnd('\r', '\n'))], now = [.. Of(changed).Select(line => line.TrimEnd('\n'))];
        string ending = lines.GroupBy(EndingOf).Where(group => group.Key.Length > 0).OrderByDescending(group => group.Count()).FirstOrDefault()?.Key ?? "\n";
        StringBuilder text = new(mark);
        int at = 0;
        foreach (Hunk hunk in Differences(plain, now))
        {
            for (; at < hunk.From; at++) Add(text, lines[at], ending);
            for (int line = hunk.NewFrom; line < hunk.NewTo; line++) Add(text, line == now.Length - 1 && !changed.EndsWith('\n') ? now[line] : now[line] + ending, ending);
            at = hunk.To;
        }
        for (; at < lines.Length; at++) Add(text, lines[at], ending);
        return text.ToString();
    }

    private static string EndingOf(string line) => line.EndsWith("\r\n", StringComparison.Ordinal) ? "\r\n" : line.Length > 0 && line[^1] is '\r' or '\n' ? line[^1..] : "";

    // A last line that had no line end gets one when another comes after it.
    private static void Add(StringBuilder text, string line, string ending = "\n")
    {
        if (text.Length > 0 && text[^1] is not ('\n' or '\r' or '\uFEFF')) text.Append(ending);
        text.Append(line);
    }

    private static bool Clash(Hunk a, Hunk b) => (a.From < b.To && b.From < a.To) || (a.From == a.To && b.From == b.To && a.From == b.From);
}
