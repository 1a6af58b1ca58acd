using System.Globalization;
using System.Text;

namespace Sallyport.Desk;

/// <summary>Writes YAML values that read back as they were.</summary>
internal static class YamlText
{
    private static readonly HashSet<string> Special = new(["null", "true", "false", "yes", "no", "on", "off", "y", "n"], StringComparer.OrdinalIgnoreCase);

    /// <summary>A text, in quotes only where it needs them.</summary>
    public static string Scalar(string text) => IsPlain(text) ? text : Quoted(text);

    public static string List(IEnumerable<string> texts) => $"[{string.Join(", ", texts.Select(Scalar))}]";

    public static string Quoted(string text)
    {
        StringBuilder quoted = new("\"");
        foreach (char letter in text)
        {
            quoted.Append(letter switch
            {
                '"' => "\\\"",
                '\\' => "\\\\",
                '\n' => "\\n",
                '\t' => "\\t",
                _ when char.IsControl(letter) || letter is '\u2028' or '\u2029' or '\uFEFF' or '\uFFFE' or '\uFFFF' => string.Create(CultureInfo.InvariantCulture, $"\\u{(int)letter:X4}"),
                _ => letter.ToString(),
            });
        }
        return quoted.Append('"').ToString();
    }

    // A letter first, then what can mean nothing else to any reader of YAML.
    private static bool IsPlain(string text) =>
        text.Length > 0 && char.IsAsciiLetter(text[0]) && text[^1] != ' ' && !Special.Contains(text)
        && text.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_' or '.' or '/' or ' ');
}

/// <summary>A map on one line, <c>{key: value, key: value}</c>; what is null or false is left out.</summary>
internal sealed class FlowMap
{
    private readonly List<string> parts = [];

    public FlowMap Add(string key, string? value) => value is null ? this : Raw(key, YamlText.Scalar(value));

    public FlowMap Add(string key, bool value) => value ? Raw(key, "true") : this;

    public FlowMap Add(string key, IEnumerable<string> values) => Raw(key, YamlText.List(values));

    public FlowMap Add(string key, IEnumerable<FlowMap> values) => Raw(key, $"[{string.Join(", ", values)}]");

    /// <summary>A text that is always in quotes, such as a time, which some readers would take for a number.</summary>
    public FlowMap Quote(string key, string value) => Raw(key, YamlText.Quoted(value));

    public override string ToString() => $"{{{string.Join(", ", parts)}}}";

    private FlowMap Raw(string key, string text)
    {
        parts.Add($"{key}: {text}");
        return this;
    }
}
