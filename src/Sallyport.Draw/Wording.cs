using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Sallyport.Draw;

/// <summary>Every word that a briefing says of its own, on paper, in pictures and tables, told and on the page that plays the walk, from one place: <c>wording.txt</c>. What the scenario, the plan and the proof say is theirs.</summary>
public sealed class Wording
{
    private readonly FrozenDictionary<string, string> texts;

    private readonly bool closes;

    private Wording(string language, FrozenDictionary<string, string> texts, bool closes = false) => (Language, this.texts, this.closes) = (language, texts, closes);

    /// <summary>English.</summary>
    public static Wording English { get; } = new("en", Read());

    /// <summary>The language of the words, as PDF and HTML name it.</summary>
    public string Language { get; }

    /// <summary>A text without anything put into it.</summary>
    public string this[string key] => texts.TryGetValue(key, out string? text) ? text : throw new KeyNotFoundException($"no wording '{key}' in wording.txt");

    /// <summary>A text with its gaps filled.</summary>
    public string Say(string key, params ReadOnlySpan<object?> fill)
    {
        if (!closes) return string.Format(CultureInfo.InvariantCulture, this[key], fill);
        object?[] closed = new object?[fill.Length];
        for (int i = 0; i < fill.Length; i++) closed[i] = OneLine(string.Create(CultureInfo.InvariantCulture, $"{fill[i]}"));
        return string.Format(CultureInfo.InvariantCulture, this[key], closed);
    }

    /// <summary>
    /// The same words for what is told and for the page that plays the walk: each filling is put on one line and closed in itself. On paper the setting of
    /// lines does that.
    /// </summary>
    public Wording Closing => closes ? this : new(Language, texts, closes: true);

    /// <summary>Things one after another, such as <c>a, b and c</c>.</summary>
    public string List(IReadOnlyList<string> things) => things.Count switch
    {
        0 => "",
        1 => OneLine(things[0]),
        _ => Say("list.and", things.SkipLast(1).Aggregate((list, thing) => Say("list.more", list, thing)), things[^1]),
    };

    /// <summary>
    /// A text of the user's files on one line and closed in itself: what is written from right to left keeps the words around it in their order,
    /// and marks that turn the direction of what follows are taken out.
    /// </summary>
    public static string OneLine(string text)
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

    /// <summary>The texts whose key begins so, without that beginning.</summary>
    public IEnumerable<KeyValuePair<string, string>> Under(string beginning) =>
        texts.Where(text => text.Key.StartsWith(beginning, StringComparison.Ordinal)).Select(text => KeyValuePair.Create(text.Key[beginning.Length..], text.Value));

    /// <summary>Every word changed by a rule, gaps kept: shows in tests what was not taken from here.</summary>
    internal Wording Changed(Func<char, char> letter) => new("x-test", texts.ToFrozenDictionary(text => text.Key, text => Change(text.Value, letter), StringComparer.Ordinal));

    internal IEnumerable<string> Keys => texts.Keys;

    private static string Change(string text, Func<char, char> letter)
    {
        StringBuilder changed = new(text.Length);
        bool inGap = false;
        foreach (char one in text)
        {
            inGap = one == '{' || (inGap && one != '}');
            changed.Append(inGap ? one : letter(one));
        }
        return changed.ToString();
    }

    private static FrozenDictionary<string, string> Read()
    {
        const string name = "wording.txt";
        using Stream stream = typeof(Wording).Assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"{name} is not in the assembly");
        using StreamReader reader = new(stream, Encoding.UTF8);
        Dictionary<string, string> texts = new(StringComparer.Ordinal);
        for (int number = 1; reader.ReadLine() is { } line; number++)
        {
            if (line.Length == 0 || line[0] == '#') continue;
            int split = line.IndexOf(" = ", StringComparison.Ordinal);
            if (split <= 0 || !texts.TryAdd(line[..split], line[(split + 3)..])) throw new InvalidOperationException($"{name}:{number}: expected 'key = text', each key once, found '{line}'");
        }
        return texts.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
