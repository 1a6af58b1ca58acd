using System.Collections.Immutable;
using System.Text;
using System.Text.Json;

namespace Sallyport.Desk;

/// <summary>Every word that the walk-through says of its own, from one resource: templates with <c>{names}</c> for what comes from the plan.</summary>
public sealed class WalkthroughWords
{
    private readonly ImmutableSortedDictionary<string, string> templates;

    /// <summary>Words by key.</summary>
    /// <param name="templates">A template a key.</param>
    public WalkthroughWords(IEnumerable<KeyValuePair<string, string>> templates) => this.templates = templates.ToImmutableSortedDictionary(StringComparer.Ordinal);

    /// <summary>The words that are shipped.</summary>
    public static WalkthroughWords English { get; } = Read("Briefing/walkthrough-words.json");

    /// <summary>Every key with its template.</summary>
    public IReadOnlyDictionary<string, string> Templates => templates;

    /// <summary>A sentence or label, its names filled in.</summary>
    /// <param name="key">Which.</param>
    /// <param name="values">What each name stands for.</param>
    /// <exception cref="ArgumentException">No such key, or a name without a value.</exception>
    public string Say(string key, params ReadOnlySpan<(string Name, object Value)> values)
    {
        if (!templates.TryGetValue(key, out string? template)) throw new ArgumentException($"no words for '{key}'", nameof(key));
        StringBuilder said = new(template);
        foreach ((string name, object value) in values) said.Replace("{" + name + "}", OneLine(value.ToString() ?? ""));
        return said.ToString();
    }

    /// <summary>Things one after another, such as <c>a, b and c</c>.</summary>
    public string List(IReadOnlyList<string> things) => things.Count switch
    {
        0 => "",
        1 => OneLine(things[0]),
        _ => Say("list.and", ("first", string.Join(templates["list.comma"], things.SkipLast(1).Select(OneLine))), ("last", things[^1])),
    };

    /// <summary>
    /// A text of the user's files on one line and closed in itself: what is written from right to left keeps the words around it in their order,
    /// and marks that turn the direction of what follows are taken out.
    /// </summary>
    internal static string OneLine(string text)
    {
        StringBuilder line = new(text.Length);
        bool turned = false;
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (rune.Value is (>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069)) continue;
            turned |= rune.Value is (>= 0x0590 and <= 0x08FF) or (>= 0xFB1D and <= 0xFEFC);
            line.Append(Rune.IsControl(rune) || rune.Value is 0x2028 or 0x2029 or 0xFEFF ? " " : rune.ToString());
        }
        string closed = line.ToString().Trim();
        return turned ? $"\u2068{closed}\u2069" : closed;
    }

    private static WalkthroughWords Read(string resource)
    {
        using Stream stream = typeof(WalkthroughWords).Assembly.GetManifestResourceStream(resource) ?? throw new InvalidOperationException($"the resource {resource} is missing");
        return new(JsonSerializer.Deserialize<Dictionary<string, string>>(stream)!);
    }
}
