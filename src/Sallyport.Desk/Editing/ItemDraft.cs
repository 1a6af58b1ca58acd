using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;

namespace Sallyport.Desk;

/// <summary>
/// A new item of a list that is being filled in, and is in no file yet. It is looked at as if it were, so that it is told what is wrong with it while it is written;
/// what is saved in the end is written as a person would have: keys in the order of the format, what is short in brackets.
/// </summary>
/// <param name="File">The file it goes into.</param>
/// <param name="List">The list, by names rather than numbers, so that it stays the same list when others change what stands before it.</param>
public sealed class ItemDraft(string File, string List)
{
    private readonly JsonObject content = [];
    private bool onOneLine;

    /// <summary>The file it goes into.</summary>
    public string File { get; } = File;

    /// <summary>The list it goes to the end of.</summary>
    public string List { get; } = List;

    /// <summary>Whether nothing was filled in yet.</summary>
    public bool IsEmpty => content.Count == 0;

    /// <summary>The edit that puts it into its file, as it was looked at last.</summary>
    public AddItem Edit(string fileText) => new(File, List, ItemText.Of(content, (JsonObject)FormShape.ShapeAt(List)["items"]!, 2 * List.Count(letter => letter == '/'), onOneLine ? true : Style(fileText)));

    /// <summary>Does an edit of a field of it, told by its path in the file as it was looked at.</summary>
    /// <param name="edit">Sets a value or list, adds an empty item to an inner list, takes one out or moves it.</param>
    /// <param name="item">The path of the item there.</param>
    /// <returns>Why it cannot be done, in words; null when it was.</returns>
    public string? Do(SortieEdit edit, string item)
    {
        (string path, JsonNode? value) = ("", null);
        switch (edit)
        {
            case SetValue set: (path, value) = (set.Path, set.Text is null ? null : JsonValue.Create(set.Text)); break;
            case SetList list: (path, value) = (list.Path, list.Items.IsEmpty ? null : new JsonArray([.. list.Items.Select(one => JsonValue.Create(one))])); break;
            case AddItem add: path = add.Path; break;
            case RemoveItem remove: path = remove.Path; break;
            case MoveItem move: path = move.Path; break;
        }
        if (!path.StartsWith(item + "/", StringComparison.Ordinal)) return "This is no field of the new item.";
        string[] parts = YamlEdits.Parts(path[item.Length..]);
        if (edit is AddItem)
        {
            if (Walk(parts, make: true) is not JsonObject holder) return "There is no such list.";
            if (holder[parts[^1]] is not JsonArray items) holder[parts[^1]] = items = [];
            items.Add(new JsonObject());
            return null;
        }
        switch (Walk(parts, make: value is not null))
        {
            case JsonObject map when value is null: map.Remove(parts[^1]); break;
            case JsonObject map: map[parts[^1]] = value; break;
            case JsonArray list when IndexIn(list, parts[^1]) is >= 0 and var index:
                JsonNode? one = list[index];
                list.RemoveAt(index);
                if (edit is MoveItem move) list.Insert(Math.Clamp(index + (move.Later ? 1 : -1), 0, list.Count), one);
                break;
        }
        Tidy(content);
        return null;
    }

    /// <summary>What it comes to so far.</summary>
    /// <param name="sortie">The scenario.</param>
    /// <param name="held">What else is not saved yet and comes before it.</param>
    public DraftSight Look(OpenSortie sortie, ImmutableArray<SortieEdit> held)
    {
        string text = sortie.State.TextOf(File) ?? "";
        SortiePreview seen = sortie.Preview([.. held, Edit(text)]);
        if (seen.Why is not null && !onOneLine)
        {
            // Where a list stands in brackets, what is in it does too.
            onOneLine = true;
            seen = sortie.Preview([.. held, Edit(text)]);
            if (seen.Why is not null) onOneLine = false;
        }
        FormField? list = seen.Why is null ? FormShape.At(FormShape.Of(seen.Files.First(file => file.Name == File)), List) : null;
        if (list is not { Fields: [.., { } field] }) return new(null, [], [], seen.Names, seen.Why ?? $"There is no list '{List}' in {File} any more.", Edit(text).Text);
        ILookup<bool, Problem> found = seen.Problems.Where(problem => problem.Code != "key.missing" || !(problem.File == File && field.Holds(problem))).ToLookup(problem => problem.File == File && field.Holds(problem));
        HashSet<(string, string, string)> known = [.. sortie.State.Problems.Select(problem => (problem.File, problem.Code, problem.Found))];
        return new(field, [.. found[true]], [.. found[false].Where(problem => !known.Contains((problem.File, problem.Code, problem.Found)))], seen.Names, null, Edit(text).Text);
    }

    private bool? Style(string fileText)
    {
        try
        {
            return YamlEdits.AreInBrackets(File, fileText, List);
        }
        catch (CannotEdit)
        {
            return null;
        }
    }

    /// <summary>What holds the last part of a path; null when it is not there and is not to be made.</summary>
    private JsonNode? Walk(string[] parts, bool make)
    {
        JsonNode? at = content;
        foreach (string part in parts[..^1])
            switch (at)
            {
                case JsonObject map:
                    if (map[part] is null && make) map[part] = new JsonObject();
                    at = map[part];
                    break;
                case JsonArray list:
                    at = IndexIn(list, part) is >= 0 and var index ? list[index] : null;
                    break;
                default:
                    return null;
            }
        return at;
    }

    // As a path names items: by number, or by what stands under id, name or rule.
    private static int IndexIn(JsonArray list, string part) =>
        int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number < list.Count ? number
        : list.ToList().FindIndex(item => item is JsonObject map && (map["id"] ?? map["name"] ?? map["rule"])?.GetValue<string>() == part);

    // A map or list that nothing is left in is not there; an item that nothing was filled in yet stays.
    private static void Tidy(JsonNode? node)
    {
        if (node is JsonArray list) foreach (JsonNode? item in list) Tidy(item);
        if (node is not JsonObject map) return;
        foreach ((string key, JsonNode? value) in map.ToArray())
        {
            Tidy(value);
            if (value is JsonObject { Count: 0 } or JsonArray { Count: 0 }) map.Remove(key);
        }
    }
}

/// <summary>What a draft comes to.</summary>
/// <param name="Field">The item as a field of its file, as that would be; null when it has no place there.</param>
/// <param name="Problems">What is wrong in it, without what is only missing yet.</param>
/// <param name="Elsewhere">What else it would bring about.</param>
/// <param name="Names">The names that there would be.</param>
/// <param name="Why">Why it has no place, in words; null when it has one.</param>
/// <param name="Text">What would be written.</param>
public sealed record DraftSight(FormField? Field, ImmutableArray<Problem> Problems, ImmutableArray<Problem> Elsewhere, KnownNames Names, string? Why, string Text)
{
    /// <summary>What must be there and is not yet.</summary>
    public ImmutableArray<string> Missing => [.. Field?.Missing ?? []];
}

/// <summary>An item as YAML, as a person would write it.</summary>
internal static class ItemText
{
    /// <summary>What is longer stands line by line.</summary>
    private const int Widest = 150;

    /// <summary>The item, without its dash.</summary>
    /// <param name="item">What it holds: texts, lists of texts, maps and lists of maps.</param>
    /// <param name="shape">Its shape, whose order the keys take.</param>
    /// <param name="indent">How far in it stands, in columns.</param>
    /// <param name="inBrackets">Whether it stands in brackets, as the items around it do; null to see what fits.</param>
    public static string Of(JsonObject item, JsonObject shape, int indent, bool? inBrackets) =>
        inBrackets == true || (inBrackets is null && Fits(item, shape, indent)) || item.Count == 0 ? InBrackets(item, shape) : string.Join('\n', Lines(item, shape, indent));

    private static IEnumerable<string> Lines(JsonObject map, JsonObject shape, int indent)
    {
        foreach ((string key, JsonNode value, JsonObject inner) in Ordered(map, shape))
        {
            string name = YamlEdits.Scalar(key, inFlow: false);
            switch (value)
            {
                case JsonArray list when list.Any(one => one is JsonObject):
                    yield return $"{name}:";
                    foreach (JsonNode? one in list)
                        foreach ((string line, int i) in Of((JsonObject)one!, (JsonObject)inner["items"]!, indent + 2, null).Split('\n').Select((line, i) => (line, i))) yield return (i == 0 ? "- " : "  ") + line;
                    break;
                case JsonObject deeper when !Fits(deeper, inner, indent + key.Length):
                    yield return $"{name}:";
                    foreach (string line in Lines(deeper, inner, indent + 2)) yield return "  " + line;
                    break;
                case JsonValue text:
                    yield return $"{name}: {YamlEdits.Scalar(text.GetValue<string>(), inFlow: false)}";
                    break;
                default:
                    yield return $"{name}: {InBrackets(value, inner)}";
                    break;
            }
        }
    }

    // What may hold lists of maps, such as a step, is written line by line however short it is.
    private static bool Fits(JsonObject map, JsonObject shape, int indent) =>
        !(shape["properties"] as JsonObject ?? []).Any(property => property.Value!["items"] is JsonObject { } items && items["properties"] is not null) && InBrackets(map, shape).Length + indent + 2 <= Widest;

    private static string InBrackets(JsonNode node, JsonObject shape) => node switch
    {
        JsonObject map => $"{{{string.Join(", ", Ordered(map, shape).Select(one => $"{YamlEdits.Scalar(one.Key, inFlow: true)}: {InBrackets(one.Value, one.Shape)}"))}}}",
        JsonArray list => $"[{string.Join(", ", list.Select(one => InBrackets(one!, shape["items"] as JsonObject ?? [])))}]",
        _ => YamlEdits.Scalar(node.GetValue<string>(), inFlow: true),
    };

    private static IEnumerable<(string Key, JsonNode Value, JsonObject Shape)> Ordered(JsonObject map, JsonObject shape)
    {
        List<string> order = [.. (shape["properties"] as JsonObject ?? []).Select(property => property.Key)];
        // What says which of several forms it is comes first: {feature: latch, is: [free], when: end}.
        HashSet<string> first = [.. (shape["allOf"] as JsonArray ?? []).SelectMany(rule => rule!["oneOf"] as JsonArray ?? []).SelectMany(form => FormShape.Keys(form!["required"]))];
        foreach ((string key, JsonNode? others) in (shape["allOf"] as JsonArray ?? []).SelectMany(rule => rule!["dependentRequired"] as JsonObject ?? [])) if (FormShape.Keys(others).Any(first.Contains)) first.Add(key);
        bool leads = order.Count > 0 && first.Count > 0 && !order.Contains("id") && !order.Contains("from");
        return map.Where(one => one.Value is not null).OrderBy(one => leads && !first.Contains(one.Key)).ThenBy(one => order.IndexOf(one.Key) is >= 0 and int at ? at : int.MaxValue)
            .Select(one => (one.Key, one.Value!, shape["properties"]?[one.Key] as JsonObject ?? shape["additionalProperties"] as JsonObject ?? []));
    }
}
