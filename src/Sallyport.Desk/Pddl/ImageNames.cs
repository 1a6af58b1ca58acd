using System.Text;

namespace Sallyport.Desk;

/// <summary>Names that PDDL allows, one for each thing: letters, digits and hyphens, case not told apart. The kind stands in front, so
/// that a grip and an airlock of one name stay two, and no name is a word of the language.</summary>
internal sealed class ImageNames
{
    public const string Types = "person arm console - worker gear place spot size feature state hatch shutdown zone leg step training setting count node command clock rate";

    /// <summary>What can be so. The last group never changes.</summary>
    public static readonly string[] Predicates =
    [
        "(stands ?person - person ?place - place)",
        "(idle ?worker - worker)",
        "(loose ?person - person)",
        "(held-at ?person - person ?socket - spot)",
        "(vacant ?socket - spot)",
        "(lies ?gear - gear ?spot - spot)",
        "(clear ?spot - spot)",
        "(fixed ?gear - gear ?setting - setting)",
        "(left ?gear - gear ?count - count)",
        "(posed ?arm - arm ?pose - place)",
        "(riderless ?arm - arm)",
        "(rides ?person - person ?arm - arm)",
        "(aboard ?person - person ?arm - arm)",
        "(reel-waits ?person - person ?grip - place)",
        "(is ?feature - feature ?state - state)",
        "(opened ?hatch - hatch)",
        "(on ?shutdown - shutdown)",
        "(off ?shutdown - shutdown)",
        "(cut ?shutdown - shutdown)",
        "(cold ?shutdown - shutdown)",
        "(read ?command - command)",
        "(watched ?command - command)",
        "(known ?feature - feature)",
        "(runs ?clock - clock ?rate - rate)",
        "(next-piece ?clock - clock ?count - count)",
        "(due ?leg - leg ?step - step)",
        "(begun ?leg - leg)",
        "(doing ?person - person ?leg - leg)",
        "(done ?leg - leg)",
        "(night)",
        "(dark)",
        "(silence)",
        "(shut ?zone - zone)",
        "(span ?from - place ?to - place)",
        "(anchor ?grip - place)",
        "(stow ?grip - place)",
        "(fits ?size - size ?carry - spot)",
        "(restraint ?gear - gear)",
        "(may ?person - person ?leg - leg)",
        "(trained ?person - person ?training - training)",
        "(joins ?arm - arm ?from - place ?to - place)",
        "(mount ?arm - arm ?grip - place)",
        "(wired ?node - node)",
    ];

    /// <summary>What is counted.</summary>
    public const string Functions = "(heat-left ?clock - clock)";

    private readonly Dictionary<(string Kind, string Id), string> names = [];
    private readonly HashSet<string> used = [];
    private readonly SortedDictionary<string, List<string>> byType = new(StringComparer.Ordinal);

    /// <summary>Every name given so far, by its type.</summary>
    public IEnumerable<(string Type, IEnumerable<string> Names)> ByType => byType.Select(pair => (pair.Key, (IEnumerable<string>)pair.Value));

    /// <summary>The name of a thing of the world, a constant of its type.</summary>
    public string Of(string type, string kind, string id)
    {
        if (names.TryGetValue((kind, id), out string? known)) return known;
        string name = names[(kind, id)] = Free($"{kind}-{id}");
        if (!byType.TryGetValue(type, out List<string>? list)) byType[type] = list = [];
        list.Add(name);
        return name;
    }

    /// <summary>A name for an action, used once.</summary>
    public string ForAction(string text) => Free(text);

    private string Free(string text)
    {
        StringBuilder plain = new();
        foreach (char letter in text.ToLowerInvariant()) plain.Append(char.IsAsciiLetterOrDigit(letter) ? letter : '-');
        string name = plain.ToString().TrimEnd('-');
        for (int number = 2; !used.Add(name); number++) name = $"{plain.ToString().TrimEnd('-')}-{number}";
        return name;
    }
}
