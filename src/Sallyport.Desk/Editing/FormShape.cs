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

    /// <summary>What a new item of this list is made of, each field empty; null when this is no list of maps.</summary>
    public FormField? NewItem { get; init; }

    /// <summary>What an item or map is called: what stands under its id, name, rule or title; empty when nothing does.</summary>
    public string Called => new[] { "id", "name", "rule", "title" }.Select(key => Fields.FirstOrDefault(part => part.Key == key)?.Value).FirstOrDefault(value => value is not null) ?? "";
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
        return [.. root.Entries.Where(entry => Sections.Value.ContainsKey(entry.Key.Text)).Select(entry => Field(entry.Key.Text, YamlEdits.Part(entry.Key.Text), (JsonObject)Sections.Value[entry.Key.Text]!, true, entry.Value, entry.Key.Place.Line))];
    }

    /// <summary>A section that may be added to a file, with every field empty.</summary>
    /// <exception cref="ArgumentException">There is no such section.</exception>
    public static FormField Section(string section) => Sections.Value[section] is JsonObject shape
        ? Field(section, YamlEdits.Part(section), shape, true, null, 0)
        : throw new ArgumentException($"expected a section of the scenario format, found '{section}'", nameof(section));

    private static FormField Field(string key, string path, JsonObject shape, bool required, Node? node, int line)
    {
        FieldKind kind = KindOf(shape);
        string? value = node is TextNode { Empty: false } text ? text.Text : null;
        ImmutableArray<FormField> fields = kind switch
        {
            FieldKind.Map => Fields(path, shape, node as MapNode),
            FieldKind.Items or FieldKind.Texts => [.. ((node as ListNode)?.Items ?? []).Select((item, i) => Field(Number(i), $"{path}/{Number(i)}", (JsonObject)shape["items"]!, true, item, item.Place.Line))],
            FieldKind.Entries => [.. ((node as MapNode)?.Entries ?? []).Select(entry => Field(entry.Key.Text, $"{path}/{YamlEdits.Part(entry.Key.Text)}", (JsonObject)shape["additionalProperties"]!, true, entry.Value, entry.Key.Place.Line))],
            _ => [],
        };
        return new(key, path, kind, shape["description"]?.GetValue<string>() ?? "", required, UnitsOf(shape), ChoicesOf(shape), shape["examples"] is JsonArray { Count: > 0 } examples ? examples[0]!.ToString() : "", value, line, fields)
        {
            NewItem = kind == FieldKind.Items ? Field("", $"{path}/", (JsonObject)shape["items"]!, true, null, 0) : null,
        };
    }

    private static ImmutableArray<FormField> Fields(string path, JsonObject shape, MapNode? map)
    {
        HashSet<string> required = [.. (shape["required"] as JsonArray ?? []).Select(key => key!.GetValue<string>())];
        return
        [
            .. ((JsonObject)shape["properties"]!).Select(property =>
            {
                MapEntry entry = map?.Entries.FirstOrDefault(one => one.Key.Text == property.Key) ?? default;
                return Field(property.Key, $"{path}/{YamlEdits.Part(property.Key)}", (JsonObject)property.Value!, required.Contains(property.Key), entry.Value, entry.Key?.Place.Line ?? 0);
            }),
        ];
    }

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
