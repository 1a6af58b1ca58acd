using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Sallyport.Desk.Tests;

/// <summary>Trees of nodes as the reader sees them: as JSON, and changed in one place.</summary>
internal static partial class Trees
{
    /// <summary>A key of a map somewhere in a tree.</summary>
    /// <param name="Pattern">The keys above it and itself, joined by '/', with '[]' for a list and '*' for a name.</param>
    /// <param name="Beside">The keys of its map.</param>
    /// <param name="Path">Where it is: the index of an entry or item at each level.</param>
    /// <param name="IsName">Whether it is a name, as in {feature: state}, and no key of the format.</param>
    public sealed record Spot(string Pattern, string Beside, ImmutableArray<int> Path, bool IsName);

    public static MapNode Read(string path)
    {
        List<Problem> problems = [];
        Node? root = YamlReader.Read(SourceText.From(File.ReadAllBytes(path), path, problems.Add)!, problems.Add);
        Assert.Empty(problems);
        return Assert.IsType<MapNode>(root);
    }

    /// <summary>The tree as an editor's parser would hand it to a schema: plain numbers and flags as such.</summary>
    public static JsonNode? Json(Node node) => node switch
    {
        MapNode map => new JsonObject(map.Entries.Select(entry => new KeyValuePair<string, JsonNode?>(entry.Key.Text, Json(entry.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(Json)]),
        TextNode { Empty: true } => null,
        TextNode { Plain: true, Text: "true" or "false" } text => text.Text == "true",
        TextNode { Plain: true } text when Whole().IsMatch(text.Text) => long.Parse(text.Text, CultureInfo.InvariantCulture),
        TextNode { Plain: true } text when Real().IsMatch(text.Text) => double.Parse(text.Text, CultureInfo.InvariantCulture),
        TextNode text => text.Text,
        _ => throw new ArgumentException($"unknown node {node}", nameof(node)),
    };

    /// <summary>Every key, the first of each pattern among the same neighbours only.</summary>
    /// <param name="root">The tree.</param>
    /// <param name="isNamed">Whether the map with this pattern has names for keys.</param>
    public static IEnumerable<Spot> Spots(MapNode root, Func<string, bool> isNamed)
    {
        HashSet<(string, string)> seen = [];
        return Walk(root, "", [], isNamed).Where(spot => seen.Add((spot.Pattern, spot.Beside)));
    }

    public static MapNode Renamed(MapNode root, Spot spot) =>
        (MapNode)At(root, spot.Path, 0, entry => entry with { Key = entry.Key with { Text = entry.Key.Text + "x" } });

    public static MapNode Removed(MapNode root, Spot spot) => (MapNode)At(root, spot.Path, 0, _ => null);

    public static MapNode Replaced(MapNode root, Spot spot, Func<Place, Node> value) =>
        (MapNode)At(root, spot.Path, 0, entry => entry with { Value = value(entry.Value.Place) });

    private static IEnumerable<Spot> Walk(Node node, string pattern, ImmutableArray<int> path, Func<string, bool> isNamed)
    {
        if (node is ListNode list)
            for (int i = 0; i < list.Items.Length; i++)
                foreach (Spot spot in Walk(list.Items[i], pattern + "[]", path.Add(i), isNamed)) yield return spot;
        if (node is not MapNode map) yield break;
        bool named = isNamed(pattern);
        string beside = named ? "" : string.Join(' ', map.Entries.Select(entry => entry.Key.Text).Order(StringComparer.Ordinal));
        for (int i = 0; i < map.Entries.Length; i++)
        {
            string inner = $"{pattern}/{(named ? "*" : map.Entries[i].Key.Text)}";
            yield return new(inner, beside, path.Add(i), named);
            foreach (Spot spot in Walk(map.Entries[i].Value, inner, path.Add(i), isNamed)) yield return spot;
        }
    }

    private static Node At(Node node, ImmutableArray<int> path, int level, Func<MapEntry, MapEntry?> change)
    {
        int index = path[level];
        if (node is ListNode list) return list with { Items = list.Items.SetItem(index, At(list.Items[index], path, level + 1, change)) };
        MapNode map = (MapNode)node;
        MapEntry entry = map.Entries[index];
        if (level + 1 < path.Length) return map with { Entries = map.Entries.SetItem(index, entry with { Value = At(entry.Value, path, level + 1, change) }) };
        return map with { Entries = change(entry) is { } changed ? map.Entries.SetItem(index, changed) : map.Entries.RemoveAt(index) };
    }

    [GeneratedRegex("^[-+]?[0-9]{1,18}$")]
    private static partial Regex Whole();

    [GeneratedRegex(@"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$")]
    private static partial Regex Real();
}
