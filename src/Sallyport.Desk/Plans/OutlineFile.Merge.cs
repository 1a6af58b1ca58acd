using System.Collections.Immutable;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

// Saving into a file that a person keeps: only the lines of what changed are touched, so that comments, blank lines and the person's own
// way of writing stay.
public static partial class OutlineFile
{
    /// <summary>The text of a person's file with one outline changed into another.</summary>
    /// <param name="text">The file as it is; it reads as <paramref name="told"/>.</param>
    /// <param name="told">What it says.</param>
    /// <param name="wanted">What it shall say.</param>
    /// <param name="scenario">The scenario of both.</param>
    /// <returns>The new text, which reads as <paramref name="wanted"/>; null when the file is written in a form that cannot be changed line by
    /// line, such as several entries on one line.</returns>
    public static string? Merge(string text, Outline told, Outline wanted, Scenario scenario)
    {
        string body = text.ReplaceLineEndings("\n");
        SourceText? source = SourceText.From(Encoding.UTF8.GetBytes(body), "outline", _ => { });
        if (source is null || YamlReader.Read(source, _ => { }) is not MapNode root) return null;
        LineEdits edits = new(body);
        Lists(edits, root.Find("people") as MapNode, told.People, wanted.People, Remarks(source, root));
        Section(edits, root, "ground", told.Ground.Select(entry => Ground(entry).ToString()), wanted.Ground.Select(entry => Ground(entry).ToString()));
        Replace(edits, root, "hands", told, wanted, outline => outline with { Arms = [], Voice = [], Decision = null });
        Replace(edits, root, "arms", told, wanted, outline => outline with { Hands = [], Voice = [], Decision = null });
        Replace(edits, root, "voice", told, wanted, outline => outline with { Hands = [], Arms = [], Decision = null });
        Replace(edits, root, "decide", told, wanted, outline => outline with { Hands = [], Arms = [], Voice = [] });
        Section(edits, root, "left_out", told.LeftOut.Select(left => LeftOut(left).ToString()), wanted.LeftOut.Select(left => LeftOut(left).ToString()));
        if (edits.Text() is not { } merged) return null;
        // What cannot be shown to say the same is not written.
        ReadResult<Outline> read = Read(Encoding.UTF8.GetBytes(merged), "outline", scenario);
        return read.Value is { } back && Write(back) == Write(wanted with { Digest = back.Digest, Made = back.Made }) ? merged : null;
    }

    private static void Lists(LineEdits edits, MapNode? lists, ImmutableArray<PersonOutline> told, ImmutableArray<PersonOutline> wanted, Dictionary<string, string> remarks)
    {
        if (lists is null) return;
        foreach (PersonOutline list in wanted)
        {
            ImmutableArray<Entry> before = told.FirstOrDefault(one => one.Person == list.Person)?.Entries ?? [];
            Section(edits, lists, list.Person.Value, before.Select(entry => Entry(entry).ToString()), list.Entries.Select(entry => Entry(entry).ToString()),
                i => list.Entries[i] is LegEntry leg ? remarks.GetValueOrDefault(leg.Leg.Value, "") : "");
        }
    }

    /// <summary>What a person wrote behind each leg: it goes where the leg goes.</summary>
    private static Dictionary<string, string> Remarks(SourceText source, MapNode root)
    {
        Dictionary<string, string> remarks = [];
        foreach (MapNode item in (root.Find("people") as MapNode)?.Entries.Select(entry => entry.Value).OfType<ListNode>().SelectMany(list => list.Items).OfType<MapNode>() ?? [])
            if (item.IsFlow && item.Find("leg") is TextNode leg && source.LineAt(item.End.Line) is var line && item.End.Column <= line.Length
                && line[(item.End.Column - 1)..] is var remark && remark.TrimStart().StartsWith('#')) remarks.TryAdd(leg.Text, remark);
        return remarks;
    }

    /// <summary>Changes one list, entry by entry.</summary>
    private static void Section(LineEdits edits, MapNode parent, string key, IEnumerable<string> told, IEnumerable<string> wanted, Func<int, string>? remark = null)
    {
        string[] old = [.. told], now = [.. wanted];
        if (old.SequenceEqual(now)) return;
        string Written(int i) => $"- {now[i]}{remark?.Invoke(i)}";
        MapEntry entry = parent.Entries.FirstOrDefault(one => one.Key.Text == key);
        if (entry.Key is null || old.Length == 0 || now.Length == 0)
        {
            // A list that comes, goes, or had nothing in it.
            string margin = new(' ', parent.Entries.Length == 0 ? 0 : Math.Max(0, parent.Entries[0].Key.Place.Column - 1));
            int at = entry.Key is null ? parent.Entries.Length == 0 ? edits.End : LastLine(parent.Entries[^1].Value) + 1 : entry.Key.Place.Line;
            if (entry.Key is not null) edits.Delete(at, LastLine(entry.Value));
            if (now.Length == 0 && margin.Length > 0) edits.Insert(at, $"{margin}{YamlText.Scalar(key)}: []");
            if (now.Length > 0) edits.Insert(at, $"{margin}{YamlText.Scalar(key)}:");
            for (int i = 0; i < now.Length; i++) edits.Insert(at, margin + Written(i));
            return;
        }
        if (entry.Value is not ListNode { Items.Length: > 0 } list || list.Items.Length != old.Length || list.Items.Select(item => item.Place.Line).Distinct().Count() != old.Length)
        {
            edits.GiveUp();
            return;
        }
        string indent = new(' ', Math.Max(0, list.Place.Column - 1));
        int[,] common = Common(old, now);
        int a = 0, b = 0;
        while (a < old.Length || b < now.Length)
            if (a < old.Length && b < now.Length && old[a] == now[b]) (a, b) = (a + 1, b + 1);
            else if (b < now.Length && (a == old.Length || common[a, b + 1] >= common[a + 1, b]))
                edits.Insert(a < old.Length ? list.Items[a].Place.Line : LastLine(list.Items[^1]) + 1, indent + Written(b++));
            else edits.Delete(list.Items[a].Place.Line, LastLine(list.Items[a++]));
    }

    /// <summary>Writes a section anew when it changed; it is short, and made by the tool.</summary>
    private static void Replace(LineEdits edits, MapNode root, string key, Outline told, Outline wanted, Func<Outline, Outline> only)
    {
        string Of(Outline outline) => Write(only(outline) with { Scenario = "s", Digest = null, Made = null, People = [], Ground = [], LeftOut = [] });
        (string before, string after) = (Of(told), Of(wanted));
        if (before == after) return;
        string[] lines = [.. after.Split('\n').SkipWhile(line => !line.StartsWith(key + ":", StringComparison.Ordinal)).Where(line => line.Length > 0)];
        int at = edits.End;
        foreach (MapEntry entry in root.Entries.Where(one => one.Key.Text == key))
        {
            at = entry.Key.Place.Line;
            edits.Delete(at, LastLine(entry.Value));
        }
        foreach (string line in lines) edits.Insert(at, line);
    }

    private static int LastLine(Node node) => node switch
    {
        { IsFlow: true } => node.End.Line,
        MapNode map => map.Entries.Select(entry => LastLine(entry.Value)).Append(map.Place.Line).Max(),
        ListNode list => list.Items.Select(LastLine).Append(list.Place.Line).Max(),
        _ => node.Place.Line,
    };

    /// <summary>Lengths of the longest common parts of the ends of two lists.</summary>
    private static int[,] Common(string[] a, string[] b)
    {
        int[,] common = new int[a.Length + 1, b.Length + 1];
        for (int i = a.Length - 1; i >= 0; i--)
            for (int j = b.Length - 1; j >= 0; j--)
                common[i, j] = a[i] == b[j] ? common[i + 1, j + 1] + 1 : Math.Max(common[i + 1, j], common[i, j + 1]);
        return common;
    }

    /// <summary>Lines to take out of a text and to put into it, by the numbers that lines have before any change.</summary>
    private sealed class LineEdits(string text)
    {
        private readonly string[] lines = text.TrimEnd('\n').Split('\n');
        private readonly HashSet<int> deleted = [];
        private readonly Dictionary<int, List<string>> inserted = [];
        private bool gaveUp;

        /// <summary>The number after the last line.</summary>
        public int End => lines.Length + 1;

        public void GiveUp() => gaveUp = true;

        public void Delete(int from, int to)
        {
            for (int line = from; line <= to; line++) deleted.Add(line);
        }

        public void Insert(int before, string line)
        {
            if (!inserted.TryGetValue(before, out List<string>? there)) inserted[before] = there = [];
            there.Add(line);
        }

        public string? Text()
        {
            if (gaveUp) return null;
            StringBuilder result = new();
            for (int line = 1; line <= End; line++)
            {
                foreach (string added in inserted.GetValueOrDefault(line, [])) result.Append(added).Append('\n');
                if (line < End && !deleted.Contains(line)) result.Append(lines[line - 1]).Append('\n');
            }
            return result.ToString();
        }
    }
}
