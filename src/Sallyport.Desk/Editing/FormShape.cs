using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What a field of a form holds.</summary>
public enum FieldKind
{
    /// <summary>Free text, or a name.</summary>
    Text,
    /// <summary>A text of one form that is not a figure with a unit: a moment, a point, a date.</summary>
    Form,
    /// <summary>A figure with its unit, or three of them.</summary>
    Figure,
    /// <summary>A number without a unit.</summary>
    Number,
    /// <summary>Yes or no.</summary>
    Flag,
    /// <summary>One of a few words.</summary>
    Choice,
    /// <summary>A list of single values.</summary>
    Texts,
    /// <summary>A list of maps.</summary>
    Items,
    /// <summary>Fields under one key.</summary>
    Map,
    /// <summary>Fields under names that the user gives.</summary>
    Entries,
}

/// <summary>One field of a file, and what stands in it.</summary>
/// <param name="Key">Its key; the number of an item of a list, from 0.</param>
/// <param name="Path">Where it is, as <see cref="SetValue"/> takes it.</param>
/// <param name="Kind">What it holds.</param>
/// <param name="Description">What it means.</param>
/// <param name="Required">Whether it must be there.</param>
/// <param name="Units">The units that it may have; empty for none.</param>
/// <param name="Choices">The words that it may be; empty for any.</param>
/// <param name="Example">An example; empty for none.</param>
/// <param name="Value">What stands there; null for nothing, or when it has parts.</param>
/// <param name="Line">The line it stands on; 0 when it is not there.</param>
/// <param name="Fields">Its parts: of a map, every field, there or not; of a list, its items.</param>
public sealed record FormField(
    string Key, string Path, FieldKind Kind, string Description, bool Required, ImmutableArray<string> Units, ImmutableArray<string> Choices, string Example,
    string? Value, int Line, ImmutableArray<FormField> Fields)
{
    /// <summary>Whether it is in the file.</summary>
    public bool IsThere => Line > 0;

    /// <summary>The same as its path, but with items called by their id or name where they have one of their own: it leads to the same thing when others stand before it.</summary>
    public string NamedPath { get; init; } = Path;

    /// <summary>The kind of name that it takes, as <see cref="KnownNames.Of"/> knows it; empty for none.</summary>
    public string Refers { get; init; } = "";

    /// <summary>The kind of name that the keys of its entries are; empty for none.</summary>
    public string KeysRefer { get; init; } = "";

    /// <summary>What a new item of this list, or a new entry, is made of, each field empty; null when this is neither.</summary>
    public FormField? NewItem { get; init; }

    /// <summary>Whether it may not be there beside what is: a bag has no torque.</summary>
    public bool IsClosed { get; init; }

    /// <summary>Groups of keys of which exactly one must be there, while none is.</summary>
    public ImmutableArray<ImmutableArray<string>> OneOf { get; init; } = [];

    /// <summary>The column it begins at, from 1.</summary>
    public int Column { get; init; }

    /// <summary>Where it ends: the first place after it.</summary>
    public (int Line, int Column) End { get; init; }

    /// <summary>What an item or map is called: what stands under its id, name, rule or title; empty when nothing does.</summary>
    public string Called => new[] { "id", "name", "rule", "title" }.Select(key => Fields.FirstOrDefault(part => part.Key == key)?.Value).FirstOrDefault(value => value is not null) ?? "";

    /// <summary>Whether a problem of its file is told of a place within it.</summary>
    public bool Holds(Problem problem) => IsThere && (problem.Line, problem.Column).CompareTo((Line, Column)) >= 0 && (problem.Line, problem.Column).CompareTo(End) < 0;

    /// <summary>What must be there and is not yet, in it and in what it holds, as one would name it.</summary>
    public IEnumerable<string> Missing => Kind switch
    {
        FieldKind.Map => OneOf.Select(keys => $"one of {string.Join(", ", keys)}").Concat(Fields.Where(part => part.IsThere || part.Required)
            .SelectMany(part => part is { IsThere: false, Kind: not FieldKind.Map } ? [part.Key] : part.Missing.Select(inner => $"{part.Key}: {inner}"))),
        FieldKind.Items => Required && Fields.IsEmpty ? ["one at least"] : Fields.SelectMany((part, i) => part.Missing.Select(inner => $"{(part.Called.Length > 0 ? part.Called : $"number {i + 1}")}: {inner}")),
        _ => [],
    };
}

/// <summary>The fields of scenario files, from the same shapes as the schemas for editors: forms have no second description.</summary>
public static class FormShape
{
    private static readonly Lazy<JsonObject> Sections = new(() => (JsonObject)Schemas.Scenario()["properties"]!);

    /// <summary>The names of all sections that a file may have.</summary>
    public static ImmutableArray<string> SectionNames => Desk.Sections.Known;

    /// <summary>The sections of a file, as fields with what stands in them; empty when its text cannot be read at all. What the format does not know is left out here, and
    /// told by the problems of the state.</summary>
    public static ImmutableArray<FormField> Of(SortieFile file)
    {
        SourceText? source = SourceText.From(Encoding.UTF8.GetBytes(file.Text), file.Name, _ => { });
        if (source is null || YamlReader.Read(source, _ => { }) is not MapNode root) return [];
        return [.. root.Entries.Where(entry => Sections.Value.ContainsKey(entry.Key.Text)).Select(entry => Field(entry.Key.Text, Spot.Of(entry.Key.Text), (JsonObject)Sections.Value[entry.Key.Text]!, true, entry.Value, entry.Key.Place))];
    }

    /// <summary>A section that may be added to a file, with every field empty.</summary>
    /// <exception cref="ArgumentException">There is no such section.</exception>
    public static FormField Section(string section) => Sections.Value[section] is JsonObject shape
        ? Field(section, Spot.Of(section), shape, true, null, default)
        : throw new ArgumentException($"expected a section of the scenario format, found '{section}'", nameof(section));

    /// <summary>The shape of what a path leads to.</summary>
    internal static JsonObject ShapeAt(string path)
    {
        string[] parts = YamlEdits.Parts(path);
        return parts[1..].Aggregate((JsonObject)Sections.Value[parts[0]]!, (shape, part) => (JsonObject)(shape["properties"]?[part] ?? shape["items"] ?? shape["additionalProperties"])!);
    }

    /// <summary>A field among the parts of others, by its path.</summary>
    public static FormField? At(IEnumerable<FormField> fields, string path)
    {
        foreach (FormField field in fields)
            if (field.Path == path || field.NamedPath == path) return field;
            else if (path.StartsWith(field.Path + "/", StringComparison.Ordinal) || path.StartsWith(field.NamedPath + "/", StringComparison.Ordinal))
                if (At(field.Fields, path) is { } inner) return inner;
        return null;
    }

    /// <summary>Where a field is: its path, the same by names, the same without items, and the maps around it from within.</summary>
    private sealed record Spot(string Path, string Named, string Where, ImmutableStack<MapNode> Around)
    {
        public static Spot Of(string section) => new(YamlEdits.Part(section), YamlEdits.Part(section), section, []);

        public Spot Key(string key, MapNode? map) => new($"{Path}/{YamlEdits.Part(key)}", $"{Named}/{YamlEdits.Part(key)}", $"{Where}/{key}", map is null ? Around : Around.Push(map));

        public Spot Item(int index, string? name) => this with { Path = $"{Path}/{Number(index)}", Named = $"{Named}/{name ?? Number(index)}" };

        public Spot Entry(string key) => new($"{Path}/{YamlEdits.Part(key)}", $"{Named}/{YamlEdits.Part(key)}", $"{Where}/*", Around);

        /// <summary>What stands under a key in the nearest map around this that has one; for <c>job</c>, the name of what all of it is part of.</summary>
        public string? Near(string key) =>
            key == "job" ? (Around.LastOrDefault()?.Find("id") as TextNode)?.Text : Around.Select(map => (map.Find(key) as TextNode)?.Text).FirstOrDefault(text => text is not null);
    }

    private static FormField Field(string key, Spot spot, JsonObject shape, bool required, Node? node, Place from)
    {
        FieldKind kind = KindOf(shape);
        string? value = node is TextNode { Empty: false } text ? text.Text : null;
        ImmutableArray<ImmutableArray<string>> oneOf = [];
        ImmutableArray<FormField> fields = kind switch
        {
            FieldKind.Map => Fields(spot, shape, node as MapNode, out oneOf),
            FieldKind.Items or FieldKind.Texts => Items((node as ListNode)?.Items ?? [], spot, (JsonObject)shape["items"]!),
            FieldKind.Entries => [.. ((node as MapNode)?.Entries ?? []).Select(entry => Field(entry.Key.Text, spot.Entry(entry.Key.Text), (JsonObject)shape["additionalProperties"]!, true, entry.Value, entry.Key.Place))],
            _ => [],
        };
        (int Line, int Column) end = node is null ? default : node is TextNode or { IsFlow: true } ? (node.End.Line, node.End.Column) : (node.Place.Line, node.Place.Column + 1);
        foreach (FormField part in fields)
            if (part.End.CompareTo(end) > 0) end = part.End;
        return new(key, spot.Path, kind, shape["description"]?.GetValue<string>() ?? "", required, UnitsOf(shape), ChoicesOf(shape), shape["examples"] is JsonArray { Count: > 0 } examples ? examples[0]!.ToString() : "", value, from.Line, fields)
        {
            NamedPath = spot.Named,
            OneOf = oneOf,
            Column = from.Column,
            End = end,
            Refers = References.Of(spot.Where, key, spot.Near),
            KeysRefer = kind == FieldKind.Entries ? References.Of(spot.Where, "", spot.Near) : "",
            NewItem = kind switch
            {
                FieldKind.Items => Field("", spot with { Path = spot.Path + "/", Named = spot.Named + "/" }, (JsonObject)shape["items"]!, true, null, default),
                FieldKind.Entries => Field("", spot.Entry(""), (JsonObject)shape["additionalProperties"]!, true, null, default),
                _ => null,
            },
        };
    }

    private static ImmutableArray<FormField> Items(ImmutableArray<Node> items, Spot spot, JsonObject shape)
    {
        // Two items of one name are told by their numbers, and so is one whose name is a number.
        ILookup<string?, Node> byName = items.ToLookup(YamlEdits.NameOf);
        return [.. items.Select((item, i) => Field(Number(i), spot.Item(i, YamlEdits.NameOf(item) is { } name && byName[name].Count() == 1 && !name.All(char.IsAsciiDigit) ? YamlEdits.Part(name) : null), shape, true, item, item.Place))];
    }

    private static ImmutableArray<FormField> Fields(Spot spot, JsonObject shape, MapNode? map, out ImmutableArray<ImmutableArray<string>> oneOf)
    {
        HashSet<string> required = [.. Keys(shape["required"])], closed = [];
        List<ImmutableArray<string>> undecided = [];
        bool IsThere(string key) => map?.Find(key) is not null;
        JsonObject[] rules = [.. (shape["allOf"] as JsonArray ?? []).Cast<JsonObject>()];
        foreach (JsonObject rule in rules)
        {
            if (rule["oneOf"] is JsonArray forms)
            {
                ImmutableArray<string> keys = [.. forms.SelectMany(form => Keys(form!["required"]))];
                if (keys.Any(IsThere)) closed.UnionWith(keys.Where(key => !IsThere(key)));
                else undecided.Add(keys);
            }
            if (rule["not"] is JsonObject not && Keys(not["required"]).ToArray() is [var one, var other])
            {
                if (IsThere(one)) closed.Add(other);
                if (IsThere(other)) closed.Add(one);
            }
            if (rule["if"] is JsonObject condition && IsSo(condition, map) is { } isSo && rule[isSo ? "then" : "else"] is JsonObject holds)
            {
                required.UnionWith(Keys(holds["required"]));
                closed.UnionWith((holds["properties"] as JsonObject ?? []).Where(property => property.Value is JsonValue refused && refused.TryGetValue(out bool allowed) && !allowed).Select(property => property.Key));
            }
        }
        foreach ((string key, JsonNode? others) in rules.SelectMany(rule => rule["dependentRequired"] as JsonObject ?? []))
            if (IsThere(key)) required.UnionWith(Keys(others));
            // What goes with one of several comes once that one was chosen.
            else if (Keys(others).Any(other => !IsThere(other) && (closed.Contains(other) || undecided.Any(keys => keys.Contains(other)))) && !undecided.Any(keys => keys.Contains(key))) closed.Add(key);
        oneOf = [.. undecided];
        return
        [
            .. ((JsonObject)shape["properties"]!).Select(property =>
            {
                MapEntry entry = map?.Entries.FirstOrDefault(one => one.Key.Text == property.Key) ?? default;
                return Field(property.Key, spot.Key(property.Key, map), (JsonObject)property.Value!, required.Contains(property.Key), entry.Value, entry.Key?.Place ?? default) with { IsClosed = closed.Contains(property.Key) };
            }),
        ];
    }

    /// <summary>Whether what a rule asks first is so; null when it asks more than which keys are there and what they say.</summary>
    private static bool? IsSo(JsonObject condition, MapNode? map)
    {
        if (Keys(condition["required"]).Any(key => map?.Find(key) is null)) return false;
        foreach ((string key, JsonNode? value) in condition["properties"] as JsonObject ?? [])
        {
            if (value!["const"] is not { } wanted) return null;
            if (map?.Find(key) is TextNode text && text.Text != (wanted.GetValueKind() is System.Text.Json.JsonValueKind.True ? "true" : wanted.GetValueKind() is System.Text.Json.JsonValueKind.False ? "false" : wanted.ToString())) return false;
        }
        return true;
    }

    /// <summary>The names in a list of a shape, such as what it requires; none where there is no list.</summary>
    internal static IEnumerable<string> Keys(JsonNode? list) => (list as JsonArray ?? []).Select(key => key!.GetValue<string>());

    private static FieldKind KindOf(JsonObject shape) => shape switch
    {
        _ when shape["properties"] is JsonObject => FieldKind.Map,
        _ when shape["items"] is JsonObject items => items["properties"] is null && items["items"] is null ? FieldKind.Texts : FieldKind.Items,
        _ when shape["additionalProperties"] is JsonObject => FieldKind.Entries,
        _ when shape["enum"] is not null || shape["const"] is not null => FieldKind.Choice,
        _ when shape["type"] is JsonValue type => type.GetValue<string>() switch
        {
            "boolean" => FieldKind.Flag,
            "integer" or "number" => FieldKind.Number,
            _ => UnitsOf(shape).IsEmpty ? FieldKind.Form : FieldKind.Figure,
        },
        _ => FieldKind.Text,
    };

    /// <summary>The units that a shape's pattern takes. The pattern is the reader's own, so that a unit it knows cannot be missing here.</summary>
    private static ImmutableArray<string> UnitsOf(JsonObject shape)
    {
        if (shape["pattern"]?.GetValue<string>() is not { } pattern) return [];
        int start = pattern.LastIndexOf("(?:", StringComparison.Ordinal), end = start < 0 ? -1 : pattern.IndexOf(')', start);
        string[] words = end < 0 ? [pattern.Split(@"\s*")[^1].TrimEnd('$')] : pattern[(start + 3)..end].Split('|');
        HashSet<string> known = [.. Units.All.Select(unit => unit.Name)];
        return words.All(known.Contains) ? [.. words] : [];
    }

    private static ImmutableArray<string> ChoicesOf(JsonObject shape) => shape["enum"] is JsonArray words ? [.. words.Select(word => word!.ToString())] : shape["const"] is { } only ? [only.ToString()] : [];

    private static string Number(int i) => i.ToString(CultureInfo.InvariantCulture);
}
