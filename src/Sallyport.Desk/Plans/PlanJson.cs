using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>How plans look as JSON: indented, ids as text, moments as <c>h:mm:ss</c>, lengths of time as <c>90 s</c>; the same plan gives
/// the same bytes.</summary>
internal static class PlanJson
{
    public static JsonSerializerOptions Options { get; } = Make();

    private static JsonSerializerOptions Make()
    {
        JsonSerializerOptions options = new()
        {
            WriteIndented = true,
            NewLine = "\n",
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            // These files are read by people and never put into a page as they are.
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { CommonFirst } },
        };
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.CamelCase));
        options.Converters.Add(new TextConverter<Pet>(pet => pet.ToString()));
        options.Converters.Add(new TextConverter<Duration>(duration => $"{duration.Seconds} s"));
        foreach (Type id in typeof(PersonId).Assembly.GetTypes().Where(IsId))
            options.Converters.Add((JsonConverter)Activator.CreateInstance(typeof(TextConverter<>).MakeGenericType(id))!);
        options.MakeReadOnly();
        return options;
    }

    private static bool IsId(Type type) => type.IsValueType && type.Name.EndsWith("Id", StringComparison.Ordinal) && type.GetProperty("Value")?.PropertyType == typeof(string);

    // What all activities have comes first, what only some have after it.
    private static void CommonFirst(JsonTypeInfo info)
    {
        if (!typeof(Activity).IsAssignableFrom(info.Type)) return;
        foreach (JsonPropertyInfo property in info.Properties)
            if (property.AttributeProvider is System.Reflection.MemberInfo { DeclaringType: { } declaring } && declaring.IsAbstract)
                property.Order = declaring == typeof(Activity) ? -2 : -1;
    }

    /// <summary>Writes a value as text.</summary>
    private sealed class TextConverter<T>(Func<T, string> text) : JsonConverter<T>
    {
        public TextConverter()
            : this(value => value!.ToString() ?? "")
        {
        }

        public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            throw new NotSupportedException($"{typeof(T).Name} is read from a tree of nodes, with its place, never from here");

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteStringValue(text(value));
    }
}
