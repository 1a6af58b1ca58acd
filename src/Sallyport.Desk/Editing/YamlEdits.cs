using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Sallyport.Desk;

/// <summary>Why a text could not be changed as wished, in words.</summary>
internal sealed class CannotEdit(string why, ImmutableArray<Problem> problems = default) : Exception(why)
{
    public ImmutableArray<Problem> Problems { get; } = problems.IsDefault ? [] : problems;
}

/// <summary>
/// Changes single values of a YAML text and leaves every other byte as it is. A path is keys and items joined by '/': an item of a list is named by its number
/// from 0, or by what stands in it under <c>id</c>, <c>name</c> or <c>rule</c>; in a key, <c>~1</c> stands for '/' and <c>~0</c> for '~'.
/// </summary>
internal sealed class YamlEdits
{
    private readonly string body;
    private readonly int[] starts;
    private readonly Node? root;

    private YamlEdits(string name, string text)
    {
        List<Problem> problems = [];
        SourceText? source = SourceText.From(Encoding.UTF8.GetBytes(text), name, problems.Add);
        root = source is null ? null : YamlReader.Read(source, problems.Add);
        if (problems.Count > 0) throw new CannotEdit($"{name} cannot be read as it is, so no single value of it can be set. Mend its text first.", [.. problems]);
        body = source!.Text;
        List<int> lines = [0];
        for (int i = 0; i < body.Length; i++)
            if (body[i] == '\n') lines.Add(i + 1);
        starts = [.. lines];
    }

    /// <summary>The text with one value set, or with its key taken out.</summary>
    /// <exception cref="CannotEdit">It cannot be done.</exception>
    public static string Set(string name, string text, string path, string? value) => In(name, text, edits => value is null ? edits.Take(path) : edits.Put(path, inFlow => Scalar(value, inFlow), value));

    /// <summary>The text with a list of single values set.</summary>
    /// <exception cref="CannotEdit">It cannot be done.</exception>
    public static string SetList(string name, string text, string path, ImmutableArray<string> items) => In(name, text, edits => items.IsEmpty ? edits.Take(path) : edits.PutList(path, items));

    /// <summary>The text with an item more in a list.</summary>
    /// <exception cref="CannotEdit">It cannot be done.</exception>
    public static string Add(string name, string text, string path, string item, int? before) => In(name, text, edits => edits.AddTo(path, item, before));

    /// <summary>The text with an item of a list, or the value of a key, taken out.</summary>
    /// <exception cref="CannotEdit">It cannot be done.</exception>
    public static string Remove(string name, string text, string path) => In(name, text, edits => edits.Take(path));

    /// <summary>The text with an item of a list one place earlier, or later; the comments that stand right above it go with it.</summary>
    /// <exception cref="CannotEdit">It cannot be done.</exception>
    public static string Move(string name, string text, string path, bool later) => In(name, text, edits => edits.MoveItem(path, later));

    /// <summary>Whether the items of a list stand in brackets, as most of them do; null when there is none.</summary>
    public static bool? AreInBrackets(string name, string text, string path)
    {
        YamlEdits edits = new(name, text);
        (Node? parent, string[] rest) = edits.Deepest(Parts(path));
        return (rest.Length == 1 ? Child(parent, rest[0]) : null) is ListNode { Items.Length: > 0 } list ? list.Items.Count(item => item.IsFlow) * 2 > list.Items.Length : null;
    }

    /// <summary>What an item of a list may be called in a path: what stands under its id, name or rule; null when nothing does.</summary>
    public static string? NameOf(Node item) => item is MapNode map && (map.Find("id") ?? map.Find("name") ?? map.Find("rule")) is TextNode { Empty: false } name ? name.Text : null;

    /// <summary>The parts of a path.</summary>
    public static string[] Parts(string path) => [.. path.Split('/', StringSplitOptions.RemoveEmptyEntries).Select(part => part.Replace("~1", "/").Replace("~0", "~"))];

    /// <summary>A key as a part of a path.</summary>
    public static string Part(string key) => key.Replace("~", "~0").Replace("/", "~1");

    /// <summary>A value as YAML: without quotes where it reads back as it is, and is no time, which some readers would take for a number.</summary>
    /// <param name="value">What it says.</param>
    /// <param name="inFlow">Whether it stands in brackets, where commas and brackets would end it.</param>
    public static string Scalar(string value, bool inFlow)
    {
        bool risky = value.Length == 0 || value != value.Trim() || value.Contains(':') || value.Contains('#') || value.Any(char.IsControl) || value is "~" or "null"
            || (inFlow && value.AsSpan().IndexOfAny(",[]{}") >= 0);
        if (risky) return YamlText.Quoted(value);
        SourceText? source = SourceText.From(Encoding.UTF8.GetBytes($"{{a: {value}}}"), "value", _ => { });
        bool same = source is not null && YamlReader.Read(source, _ => { }) is MapNode { Entries.Length: 1 } map && map.Entries[0].Value is TextNode { Plain: true } read && read.Text == value;
        if (same) return value;
        source = inFlow ? null : SourceText.From(Encoding.UTF8.GetBytes($"a: {value}\n"), "value", _ => { });
        return source is not null && YamlReader.Read(source, _ => { }) is MapNode { Entries.Length: 1 } line && line.Entries[0].Value is TextNode { Plain: true } plain && plain.Text == value ? value : YamlText.Quoted(value);
    }

    private static string In(string name, string text, Func<YamlEdits, string> change) => LineText.InTheFormOf(text, change(new(name, text)));

    private string Put(string path, Func<bool, string> scalar, string plain)
    {
        string[] parts = Parts(path);
        (Node? parent, string[] rest) = Deepest(parts);
        if (rest.Length == 0) throw new CannotEdit($"'{path}' names no value.");
        if (rest.Length == 1 && Child(parent, rest[0]) is { } value)
        {
            if (value is not TextNode old) throw new CannotEdit($"'{path}' holds {value.Shown}, not one value.");
            if (old.Text == plain && !old.Empty) return body;
            bool inFlow = IsInFlow(parent!);
            // Whoever put quotes around it did so for a reason.
            string written = old.Plain ? scalar(inFlow) : YamlText.Quoted(plain);
            if (!old.Empty || old.Text.Length > 0) return Replaced(At(old.Place), EndOfText(old), written);
            int after = At(old.Place);
            return Replaced(after, after, (after > 0 && body[after - 1] == ' ' ? "" : " ") + written);
        }
        return AddKey(parent, rest, scalar, path);
    }

    private string PutList(string path, ImmutableArray<string> items)
    {
        string[] parts = Parts(path);
        (Node? parent, string[] rest) = Deepest(parts);
        if (rest.Length == 0) throw new CannotEdit($"'{path}' names no list.");
        string flow = $"[{string.Join(", ", items.Select(item => Scalar(item, inFlow: true)))}]";
        if (rest.Length > 1 || Child(parent, rest[0]) is not { } value) return AddKey(parent, rest, _ => flow, path);
        if (value is TextNode { Empty: true } nothing) return Replaced(At(nothing.Place), At(nothing.End), (body[At(nothing.Place) - 1] == ' ' ? "" : " ") + flow);
        if (value is not ListNode list || list.Items.Any(item => item is not TextNode)) throw new CannotEdit($"'{path}' holds {value.Shown}, not a list of single values.");
        if (list.IsFlow) return Replaced(At(list.Place), At(list.End), flow);
        // Item by item, so that the comments beside those that stay do.
        string[] old = [.. list.Items.Select(item => ((TextNode)item).Text)];
        List<(int From, int To, string Text)> changes = [];
        string indent = new(' ', list.Place.Column - 1);
        foreach (LineText.Hunk hunk in LineText.Differences(old, items))
        {
            for (int i = hunk.From; i < hunk.To; i++) changes.Add((LineStart(list.Items[i].Place.Line), LineStart(LastLine(list.Items[i]) + 1), ""));
            int at = hunk.From < list.Items.Length ? LineStart(list.Items[hunk.From].Place.Line) : LineStart(LastLine(list.Items[^1]) + 1);
            changes.Add((at, at, string.Concat(Enumerable.Range(hunk.NewFrom, hunk.NewTo - hunk.NewFrom).Select(i => $"{indent}- {Scalar(items[i], inFlow: false)}\n"))));
        }
        return Replaced(changes);
    }

    private string AddTo(string path, string item, int? before)
    {
        string[] lines = [.. item.ReplaceLineEndings("\n").Trim('\n').Split('\n')];
        if (lines.All(string.IsNullOrWhiteSpace)) throw new CannotEdit("The item to be added is empty.");
        (Node? parent, string[] rest) = Deepest(Parts(path));
        Node? value = rest.Length == 1 ? Child(parent, rest[0]) : rest.Length == 0 ? parent : null;
        if (value is TextNode { Empty: false } or MapNode) throw new CannotEdit($"'{path}' holds {value.Shown}, not a list.");
        if (value is ListNode { Items.Length: > 0 } list)
        {
            if (before is < 0 || before > list.Items.Length) throw new CannotEdit($"'{path}' has {list.Items.Length} items: there is no place before number {before}.");
            int at = before ?? list.Items.Length;
            if (!list.IsFlow)
            {
                int start = at < list.Items.Length ? LineStart(list.Items[at].Place.Line) : LineStart(LastLine(list.Items[^1]) + 1);
                if (at < list.Items.Length && FirstOnLine(list.Items[at]) < 0) throw new CannotEdit($"Items of '{path}' do not stand one below the other, so none can be added there.");
                return Replaced(start, start, Dashed(lines, list.Place.Column - 1));
            }
            if (lines.Length > 1) throw new CannotEdit($"'{path}' is a list in brackets, and the item has more than one line.");
            return at < list.Items.Length ? Replaced(At(list.Items[at].Place), At(list.Items[at].Place), lines[0] + ", ") : Replaced(At(list.Items[^1].End), At(list.Items[^1].End), ", " + lines[0]);
        }
        if (before is > 0) throw new CannotEdit($"'{path}' has no items: there is no place before number {before}.");
        if (value is null)
        {
            if (rest.Length != 1 || parent is not (MapNode or null)) throw new CannotEdit($"There is no '{path}'.");
            if (parent is MapNode map && IsInFlow(map)) return lines.Length > 1 ? throw new CannotEdit($"'{path}' would stand in brackets, and the item has more than one line.") : AddKey(map, rest, _ => $"[{lines[0]}]", path);
            (int start, int column) = EndOf(parent as MapNode);
            return Replaced(start, start, new string(' ', column) + Scalar(rest[0], inFlow: false) + ":\n" + Dashed(lines, column));
        }
        // A list with nothing in it: '[]', or nothing after the colon.
        if (parent is MapNode { IsFlow: false } holder && holder.Entries.First(entry => entry.Key.Text == rest[0]) is var found && IsPlainLine(found))
        {
            int from = At(value.Place), to = At(value.End);
            while (from > 0 && body[from - 1] == ' ') from--;
            int line = LineStart(found.Key.Place.Line + 1);
            string added = Dashed(lines, found.Key.Place.Column - 1);
            return Replaced([(from, to, ""), (line, line, added)]);
        }
        return lines.Length > 1 ? throw new CannotEdit($"'{path}' stands in brackets, and the item has more than one line.") : Replaced(At(value.Place), At(value.End), $"[{lines[0]}]");
    }

    private string Take(string path)
    {
        string[] parts = Parts(path);
        if (parts.Length == 0) throw new CannotEdit("No path was given.");
        Node? parent = root;
        foreach (string part in parts[..^1]) parent = Child(parent, part);
        switch (parent)
        {
            case MapNode map when map.Entries.Any(entry => entry.Key.Text == parts[^1]):
                return TakeKey(map, map.Entries.Select(entry => entry.Key.Text).ToList().IndexOf(parts[^1]), path);
            case ListNode list when IndexOf(list, parts[^1]) is >= 0 and int index:
                return TakeItem(list, index, path);
            default:
                throw new CannotEdit($"There is no '{path}'.");
        }
    }

    private string TakeKey(MapNode map, int index, string path)
    {
        MapEntry entry = map.Entries[index];
        if (map.Entries.Length == 1 && map != root) throw new CannotEdit($"'{path}' is all that stands there: take out what it is part of instead.");
        if (map.IsFlow) return TakeBetween([.. map.Entries.Select(one => (one.Key.Place, EndOfFlow(one.Value)))], index);
        int start = LineStart(entry.Key.Place.Line), key = At(entry.Key.Place);
        if (body[start..key].Trim().Length == 0) return Replaced(start, LineStart(LastLine(entry.Value) + 1), "");
        // The first key of an item stands behind its dash: the next one takes its place.
        if (index + 1 < map.Entries.Length) return Replaced(key, At(map.Entries[index + 1].Key.Place), "");
        throw new CannotEdit($"'{path}' cannot be taken out where it stands.");
    }

    private string TakeItem(ListNode list, int index, string path)
    {
        Node item = list.Items[index];
        if (list.IsFlow) return TakeBetween([.. list.Items.Select(one => (one.Place, EndOfFlow(one)))], index);
        int dash = FirstOnLine(item);
        if (dash < 0) throw new CannotEdit($"'{path}' stands on a line with something else, so it cannot be taken out alone.");
        int start = LineStart(item.Place.Line), end = LineStart(LastLine(item) + 1);
        if (list.Items.Length > 1) return Replaced(start, end, "");
        // An empty list is said in brackets.
        int colon = body.LastIndexOf(':', start);
        int lineEnd = body.IndexOf('\n', colon);
        return body[(colon + 1)..lineEnd].TrimStart() is { Length: > 0 } comment && comment[0] != '#'
            ? throw new CannotEdit($"'{path}' cannot be taken out where it stands.") : Replaced([(colon + 1, colon + 1, " []"), (start, end, "")]);
    }

    private string MoveItem(string path, bool later)
    {
        string[] parts = Parts(path);
        Node? parent = root;
        foreach (string part in parts.SkipLast(1)) parent = Child(parent, part);
        if (parts.Length == 0 || parent is not ListNode list || IndexOf(list, parts[^1]) is not (>= 0 and int index)) throw new CannotEdit($"There is no '{path}'.");
        int first = later ? index : index - 1, second = first + 1;
        if (first < 0 || second >= list.Items.Length) throw new CannotEdit($"'{path}' is the {(later ? "last" : "first")} of its list already.");
        (Node one, Node other) = (list.Items[first], list.Items[second]);
        if (list.IsFlow) return Replaced([(At(one.Place), At(EndOf(one)), body[At(other.Place)..At(EndOf(other))]), (At(other.Place), At(EndOf(other)), body[At(one.Place)..At(EndOf(one))])]);
        if (FirstOnLine(one) < 0 || FirstOnLine(other) < 0) throw new CannotEdit($"Items of '{path}' do not stand one below the other, so none can be moved there.");
        (int from, int to) = (WithComments(one), LineStart(LastLine(one) + 1));
        (int next, int end) = (WithComments(other), LineStart(LastLine(other) + 1));
        string Whole(int begin, int over) => body[begin..over].EndsWith('\n') ? body[begin..over] : body[begin..over] + "\n";
        return Replaced([(from, to, Whole(next, end)), (next, end, Whole(from, to))]);
    }

    private Place EndOf(Node node) => node is TextNode && EndOfText(node) is var at && body.AsSpan(0, at).LastIndexOf('\n') is var line ? node.End with { Line = body.AsSpan(0, at).Count('\n') + 1, Column = at - line } : node.End;

    /// <summary>Where an item begins, with the comment lines right above it.</summary>
    private int WithComments(Node item)
    {
        int line = item.Place.Line;
        while (line > 1 && body[LineStart(line - 1)..LineStart(line)].TrimStart().StartsWith('#')) line--;
        return LineStart(line);
    }

    private string TakeBetween((Place From, Place To)[] all, int index)
    {
        if (all.Length == 1) return Replaced(At(all[0].From), At(all[0].To), "");
        return index + 1 < all.Length ? Replaced(At(all[index].From), At(all[index + 1].From), "") : Replaced(At(all[index - 1].To), At(all[index].To), "");
    }

    /// <summary>Adds a key, with keys inside it where it is deeper, at the end of a map.</summary>
    private string AddKey(Node? parent, string[] rest, Func<bool, string> value, string path)
    {
        if (parent is not (MapNode or null) || rest.Any(part => part.Length > 0 && part.All(char.IsAsciiDigit))) throw new CannotEdit($"There is no '{path}'.");
        MapNode? map = (MapNode?)parent;
        string Inner(int from, bool inFlow) => from == rest.Length ? value(inFlow) : $"{{{Scalar(rest[from], inFlow: true)}: {Inner(from + 1, true)}}}";
        if (map is not null && IsInFlow(map))
        {
            int close = At(map.End) - 1;
            if (map.Entries.Length == 0) return Replaced(close, close, $"{Scalar(rest[0], inFlow: true)}: {Inner(1, true)}");
            int at = At(EndOfFlow(map.Entries[^1].Value));
            return Replaced(at, at, $", {Scalar(rest[0], inFlow: true)}: {Inner(1, true)}");
        }
        (int start, int column) = EndOf(map);
        return Replaced(start, start, $"{new string(' ', column)}{Scalar(rest[0], inFlow: false)}: {Inner(1, false)}\n");
    }

    /// <summary>Where a key may be added to a map that stands line by line, and how far it is indented.</summary>
    private (int Start, int Column) EndOf(MapNode? map) =>
        map is null || map.Entries.Length == 0 ? (body.Length, 0) : (LineStart(LastLine(map) + 1), map.Entries[0].Key.Place.Column - 1);

    /// <summary>How deep a path leads, and what of it is not there; the last part is always left.</summary>
    private (Node? Parent, string[] Missing) Deepest(string[] parts)
    {
        Node? at = root;
        for (int i = 0; i < parts.Length - 1; i++)
        {
            if (Child(at, parts[i]) is not { } next || next is TextNode { Empty: true }) return (at, parts[i..]);
            at = next;
        }
        return (at, parts.Length == 0 ? [] : parts[^1..]);
    }

    private static Node? Child(Node? node, string part) => node switch
    {
        MapNode map => map.Find(part),
        ListNode list => IndexOf(list, part) is >= 0 and int index ? list.Items[index] : null,
        _ => null,
    };

    private static int IndexOf(ListNode list, string part)
    {
        if (int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number < list.Items.Length) return number;
        for (int i = 0; i < list.Items.Length; i++)
            if (NameOf(list.Items[i]) == part) return i;
        return -1;
    }

    private bool IsInFlow(Node node) => node.IsFlow;

    private bool IsPlainLine(MapEntry entry) => entry.Key.Place.Line == entry.Value.Place.Line || entry.Value is TextNode { Empty: true };

    private static Place EndOfFlow(Node node) => node.End;

    /// <summary>Where the dash of an item is, when only blanks are before it on its line; −1 otherwise.</summary>
    private int FirstOnLine(Node item)
    {
        int start = LineStart(item.Place.Line), dash = start;
        while (dash < body.Length && body[dash] == ' ') dash++;
        return dash < At(item.Place) && body[dash] == '-' && body[(dash + 1)..At(item.Place)].Trim().Length == 0 ? dash : -1;
    }

    private static string Dashed(string[] lines, int indent) =>
        string.Concat(lines.Select((line, i) => line.Length == 0 ? "\n" : $"{new string(' ', indent)}{(i == 0 ? "- " : "  ")}{line}\n"));

    private int LastLine(Node node) => node switch
    {
        { IsFlow: true } => node.End.Line,
        MapNode map => map.Entries.Select(entry => LastLine(entry.Value)).Append(map.Place.Line).Max(),
        ListNode list => list.Items.Select(LastLine).Append(list.Place.Line).Max(),
        // A text over several lines ends where its last letter is, not at the blank lines after it.
        _ => LineOfLetterBefore(node),
    };

    private int LineOfLetterBefore(Node node) => node.End.Line == node.Place.Line ? node.Place.Line : body.AsSpan(0, EndOfText(node)).Count('\n') + 1;

    private int EndOfText(Node node)
    {
        int at = At(node.End);
        while (at > At(node.Place) && char.IsWhiteSpace(body[at - 1])) at--;
        return at;
    }

    private int LineStart(int line) => line <= starts.Length ? starts[line - 1] : body.Length;

    private int At(Place place) => Math.Min(body.Length, LineStart(place.Line) + place.Column - 1);

    private string Replaced(int from, int to, string text) => Replaced([(from, to, text)]);

    private string Replaced(List<(int From, int To, string Text)> changes)
    {
        StringBuilder result = new();
        int at = 0;
        foreach ((int from, int to, string text) in changes.OrderBy(change => change.From).ThenBy(change => change.To))
        {
            result.Append(body, at, from - at);
            // A line that is added behind a last line without a line end.
            if (text.EndsWith('\n') && result.Length > 0 && result[^1] != '\n' && from == body.Length) result.Append('\n');
            result.Append(text);
            at = to;
        }
        return result.Append(body, at, body.Length - at).ToString();
    }
}
