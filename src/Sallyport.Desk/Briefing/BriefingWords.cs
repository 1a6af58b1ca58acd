using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Sallyport.Desk;

/// <summary>Every word that a briefing says of its own, from one place: <c>Briefing/wording.txt</c>. What the scenario, the plan and the proof say is theirs.</summary>
public sealed class BriefingWords
{
    private readonly FrozenDictionary<string, string> texts;

    private BriefingWords(string language, FrozenDictionary<string, string> texts) => (Language, this.texts) = (language, texts);

    /// <summary>English.</summary>
    public static BriefingWords English { get; } = new("en", Read());

    /// <summary>The language of the words, as PDF and HTML name it.</summary>
    public string Language { get; }

    /// <summary>A text without anything put into it.</summary>
    public string this[string key] => texts.TryGetValue(key, out string? text) ? text : throw new KeyNotFoundException($"no wording '{key}' in Briefing/wording.txt");

    /// <summary>A text with its gaps filled.</summary>
    public string Say(string key, params ReadOnlySpan<object?> fill) => string.Format(CultureInfo.InvariantCulture, this[key], fill);

    /// <summary>Every word changed by a rule, gaps kept: shows in tests what was not taken from here.</summary>
    internal BriefingWords Changed(Func<char, char> letter) => new("x-test", texts.ToFrozenDictionary(text => text.Key, text => Change(text.Value, letter), StringComparer.Ordinal));

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
        const string name = "Briefing/wording.txt";
        using Stream stream = typeof(BriefingWords).Assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"{name} is not in the assembly");
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
