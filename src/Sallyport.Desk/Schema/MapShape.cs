using System.Text.Json.Nodes;

namespace Sallyport.Desk;

/// <summary>The shape of a map with known keys, as JSON Schema: other keys are refused.</summary>
internal sealed class MapShape
{
    private readonly JsonObject properties = [];
    private readonly JsonArray required = [];
    private readonly JsonArray rules = [];
    private readonly JsonObject shape;

    public MapShape(string about) => shape = new() { ["description"] = about, ["type"] = "object" };

    /// <summary>A key that must be there.</summary>
    public MapShape Must(string key, JsonNode value)
    {
        required.Add(key);
        return May(key, value);
    }

    /// <summary>A key that may be missing.</summary>
    public MapShape May(string key, JsonNode value)
    {
        properties.Add(key, value);
        return this;
    }

    /// <summary>Exactly one of some keys.</summary>
    public MapShape OneOf(params ReadOnlySpan<string> keys)
    {
        JsonArray forms = [];
        foreach (string key in keys) forms.Add(Required(key));
        rules.Add(new JsonObject { ["oneOf"] = forms });
        return this;
    }

    /// <summary>At most one of two keys.</summary>
    public MapShape NotBoth(string one, string other) => Rule(new() { ["not"] = new JsonObject { ["required"] = Shapes.Strings(one, other) } });

    /// <summary>A key that asks for another one.</summary>
    public MapShape Brings(string key, string other) => Rule(new() { ["dependentRequired"] = new JsonObject { [key] = Shapes.Strings(other) } });

    /// <summary>Keys that must be there with one value of a choice.</summary>
    public MapShape With(string choice, string value, params ReadOnlySpan<string> keys) =>
        Rule(new() { ["if"] = Is(choice, value), ["then"] = new JsonObject { ["required"] = Shapes.Strings(keys) } });

    /// <summary>Keys that may be there with one value of a choice only.</summary>
    public MapShape OnlyWith(string choice, string value, params ReadOnlySpan<string> keys)
    {
        JsonObject refused = [];
        foreach (string key in keys) refused.Add(key, false);
        return Rule(new() { ["if"] = Is(choice, value), ["else"] = new JsonObject { ["properties"] = refused } });
    }

    /// <summary>Anything else that holds over several keys.</summary>
    public MapShape Rule(JsonObject rule)
    {
        rules.Add(rule);
        return this;
    }

    public JsonObject Build()
    {
        shape["properties"] = properties;
        if (required.Count > 0) shape["required"] = required;
        shape["additionalProperties"] = false;
        if (rules.Count > 0) shape["allOf"] = rules;
        return shape;
    }

    public static implicit operator JsonNode(MapShape map) => map.Build();

    public static JsonObject Required(string key) => new() { ["required"] = Shapes.Strings(key) };

    private static JsonObject Is(string choice, string value) =>
        new() { ["required"] = Shapes.Strings(choice), ["properties"] = new JsonObject { [choice] = new JsonObject { ["const"] = value } } };
}
