using System.Collections.Immutable;

namespace Sallyport.Desk;

/// <summary>Reads one map key by key. What is wrong is told to the binding and a harmless value handed on, so that reading goes on
/// and finds the rest; a binding with problems never gives a value. Keys not asked for are unknown.</summary>
internal sealed partial class MapReader(Binding binding, MapNode map, string what)
{
    private readonly HashSet<string> asked = new(StringComparer.Ordinal);
    private readonly List<(string[] Keys, Problem Problem)> missing = [];

    public Binding Binding => binding;

    public Place Place => map.Place;

    /// <summary>The value of a key that may be missing; a key with nothing after it is told.</summary>
    public Node? Find(string key)
    {
        asked.Add(key);
        Node? value = map.Find(key);
        if (value is not TextNode { Empty: true }) return value;
        binding.Report(ValueProblems.EmptyValue(value, key));
        return null;
    }

    public bool Has(string key)
    {
        asked.Add(key);
        return map.Find(key) is not null;
    }

    /// <summary>The keys that stand here in another reader's stead, so that they are known.</summary>
    public void Know(params ReadOnlySpan<string> keys)
    {
        foreach (string key in keys) asked.Add(key);
    }

    /// <summary>Takes every key as known, where what they mean cannot be told.</summary>
    public void KnowAll()
    {
        foreach (MapEntry entry in map.Entries) asked.Add(entry.Key.Text);
    }

    /// <summary>Which one of some keys stands here; null, and told, when none or more than one does.</summary>
    public string? OneOf(params string[] keys)
    {
        string[] present = [.. keys.Where(Has)];
        if (present.Length == 1) return present[0];
        string listed = string.Join(", ", keys);
        if (present.Length == 0) missing.Add((keys, ValueProblems.NeitherKey(Place, what, listed)));
        else binding.Report(ValueProblems.TooManyKeys(Place, what, listed));
        return null;
    }

    /// <summary>Tells what is missing and what is unknown once all has been asked for. A key misspelled is told once, as unknown.</summary>
    public void Finish()
    {
        HashSet<string> meant = new(StringComparer.Ordinal);
        foreach (MapEntry entry in map.Entries)
        {
            if (asked.Contains(entry.Key.Text)) continue;
            Problem problem = NameProblems.UnknownKey(entry.Key, what, asked);
            binding.Report(problem);
            if (problem.Nearest is not null) meant.Add(problem.Nearest);
        }
        foreach ((string[] keys, Problem problem) in missing)
            if (!keys.Any(meant.Contains)) binding.Report(problem);
    }

    /// <summary>Tells that a key makes no sense beside the others.</summary>
    public void Refuse(string key, string why)
    {
        if (map.Find(key) is { } value) binding.Report(ValueProblems.KeyClash(value.Place, what, key, why));
    }

    public string Text(string key, string example = "…") => RequiredText(key, example)?.Text ?? "";

    public string? OptionalText(string key) => Find(key) is { } node ? AsText(node, key)?.Text : null;

    /// <summary>The name given to this thing, unique in its kind.</summary>
    public string Id(string key, string kind, bool blanks = false)
    {
        if (RequiredText(key, "name") is not { } node) return "";
        Give(node, kind, blanks);
        return node.Text;
    }

    public void Give(TextNode node, string kind, bool blanks = false)
    {
        if (!WellFormed(node.Text, blanks)) binding.Report(NameProblems.Form(node.Place, kind, node.Text, blanks));
        else if (!binding.Names.Give(kind, node.Text, node.Place, out Place first)) binding.Report(NameProblems.Twice(node.Place, kind, node.Text, first));
    }

    /// <summary>A name that something of a kind must have.</summary>
    public string Ref(string key, string kind, string example = "name") =>
        RequiredText(key, example) is { } node ? Use(node, kind) : "";

    public string? OptionalRef(string key, string kind) => Find(key) is { } node && AsText(node, key) is { } text ? Use(text, kind) : null;

    public string Use(TextNode node, string kind)
    {
        binding.Names.Use(kind, node.Text, node.Place, binding.Section);
        return node.Text;
    }

    /// <summary>Names that things of a kind must have; none when the key is missing.</summary>
    public ImmutableArray<T> Refs<T>(string key, string kind, Func<string, T> make, bool once = true) =>
        Texts(key, once) is { IsEmpty: false } texts ? [.. texts.Select(node => make(Use(node, kind)))] : [];

    /// <summary>At least one name that things of a kind must have.</summary>
    public ImmutableArray<T> FilledRefs<T>(string key, string kind, Func<string, T> make, bool once = true) =>
        [.. FilledTexts(key, once).Select(node => make(Use(node, kind)))];

    /// <summary>A list of at least one text; told when it is missing or empty.</summary>
    public ImmutableArray<TextNode> FilledTexts(string key, bool once = true)
    {
        if (Required(key, "[…]") is ListNode { Items.Length: 0 } empty) binding.Report(ValueProblems.EmptyList(empty, key));
        return Texts(key, once);
    }

    /// <summary>A list of texts; none when the key is missing.</summary>
    public ImmutableArray<TextNode> Texts(string key, bool once = true)
    {
        if (Find(key) is not { } node) return [];
        if (node is not ListNode list)
        {
            binding.Report(ValueProblems.Shape(node, $"'{key}'", "a list", node is TextNode text ? $"write [{text.Text}]." : "write it as [a, b]."));
            return [];
        }
        ImmutableArray<TextNode>.Builder texts = ImmutableArray.CreateBuilder<TextNode>(list.Items.Length);
        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach (Node item in list.Items)
        {
            if (AsText(item, key) is not { } text) continue;
            if (once && !seen.Add(text.Text)) binding.Report(ValueProblems.ListedTwice(text.Place, text.Text));
            else texts.Add(text);
        }
        return texts.ToImmutable();
    }

    /// <summary>A map read by <paramref name="read"/>; null, and told, when it is missing.</summary>
    public T? Map<T>(string key, string inner, Func<MapReader, T?> read, string example = "{…}") where T : class
    {
        if (Required(key, example) is not { } node) return null;
        return binding.Map(node, inner, read);
    }

    public T? OptionalMap<T>(string key, string inner, Func<MapReader, T?> read) where T : class =>
        Find(key) is { } node ? binding.Map(node, inner, read) : null;

    /// <summary>A list of maps; none when the key is missing.</summary>
    public ImmutableArray<T> List<T>(string key, string inner, Func<MapReader, T?> read) where T : class =>
        Find(key) is { } node ? binding.List(node, key, inner, read) : [];

    /// <summary>A list of at least one map; told when it is missing or empty.</summary>
    public ImmutableArray<T> FilledList<T>(string key, string inner, Func<MapReader, T?> read) where T : class
    {
        if (Required(key, "[…]") is not { } node) return [];
        if (node is ListNode { Items.Length: 0 }) binding.Report(ValueProblems.EmptyList(node, key));
        return binding.List(node, key, inner, read);
    }

    /// <summary>Every entry of a map whose keys are names; none when the key is missing.</summary>
    public ImmutableArray<T> Entries<T>(string key, Func<TextNode, Node, T?> read) where T : class
    {
        if (Find(key) is not { } node) return [];
        if (node is not MapNode entries)
        {
            binding.Report(ValueProblems.Shape(node, $"'{key}'", "a map of names and values", "write it as {name: value}, or as indented lines 'name: value'."));
            return [];
        }
        return [.. entries.Entries.Select(entry => read(entry.Key, entry.Value)).OfType<T>()];
    }

    public TextNode? AsText(Node node, string key)
    {
        if (node is TextNode { Empty: false } text && text.Text.Trim().Length > 0) return text;
        binding.Report(ValueProblems.Shape(node, $"'{key}'", "one value", "write one value."));
        return null;
    }

    public TextNode? RequiredText(string key, string example = "…") => Required(key, example) is { } node ? AsText(node, key) : null;

    public Node? Required(string key, string example)
    {
        Node? node = Find(key);
        if (node is null && map.Find(key) is null) missing.Add(([key], ValueProblems.MissingKey(Place, what, key, example)));
        return node;
    }

    /// <summary>Whether a text can be a name. A slash is kept for job/leg.</summary>
    public static bool WellFormed(string name, bool blanks)
    {
        if (name.Length is 0 or > 80 || name != name.Trim() || name.Contains("  ", StringComparison.Ordinal)) return false;
        return name.All(letter => char.IsLetterOrDigit(letter) || letter is '-' or '_' or '.' || (blanks && letter == ' '));
    }
}
