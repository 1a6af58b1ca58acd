using System.Collections.Immutable;

namespace Sallyport.Desk;

/// <summary>The top-level keys of every file of a folder. A list may be spread over several files; anything else stands once.</summary>
internal sealed class Sections
{
    /// <summary>Every section of the format, in the order that the reference lists them.</summary>
    public static readonly ImmutableArray<string> Known =
    [
        "sallyport", "scenario", "sortie", "sky", "orbit", "tether", "handling", "limits", "checks", "help", "body", "suits", "prebreathe", "days",
        "station", "model", "modules", "grips", "spans", "sites", "sockets", "zones", "joints", "jets", "beams", "features", "may_be_left", "power", "fluid", "surfaces", "edges", "airlocks",
        "people", "sizes", "gear", "bolts", "footings", "arms", "consoles", "clocks", "jobs",
    ];

    private readonly Dictionary<string, List<(TextNode Key, Node Value)>> found = new(StringComparer.Ordinal);
    private readonly HashSet<string> meant = new(StringComparer.Ordinal);
    private readonly Binding binding;
    private readonly string folder;

    public Sections(Binding binding, string folder, IEnumerable<MapNode> files)
    {
        this.binding = binding;
        this.folder = folder;
        foreach (MapEntry entry in files.SelectMany(file => file.Entries))
        {
            if (!Known.Contains(entry.Key.Text))
            {
                Problem problem = NameProblems.UnknownSection(entry.Key, Known);
                binding.Report(problem);
                if (problem.Nearest is not null)
                {
                    meant.Add(problem.Nearest);
                    binding.Doubt(problem.Nearest);
                }
                continue;
            }
            if (!found.TryGetValue(entry.Key.Text, out List<(TextNode, Node)>? parts)) found[entry.Key.Text] = parts = [];
            parts.Add((entry.Key, entry.Value));
        }
    }

    /// <summary>A section with one value; a missing one is told when <paramref name="why"/> says what it is for.</summary>
    public TextNode? Text(string section, string? why)
    {
        if (Single(section, why) is not { } node) return null;
        if (node is TextNode { Empty: false } text && text.Text.Trim().Length > 0) return text;
        binding.Report(ValueProblems.Shape(node, $"the section '{section}'", "one value", $"write '{section}: …' on one line."));
        return null;
    }

    /// <summary>A section that is one map; null when it is missing, which is told when <paramref name="why"/> says what it is for.</summary>
    public T? Map<T>(string section, string? why, Func<MapReader, T?> read) where T : class =>
        Single(section, why) is { } node ? binding.Map(node, $"the section '{section}'", read) : null;

    /// <summary>A section that is a list, joined over the files in their order.</summary>
    public ImmutableArray<T> List<T>(string section, string what, string? why, Func<MapReader, T?> read) where T : class
    {
        binding.Section = section;
        if (!found.TryGetValue(section, out List<(TextNode Key, Node Value)>? parts))
        {
            TellMissing(section, why);
            return [];
        }
        return [.. parts.Where(part => !IsEmpty(part.Value)).SelectMany(part => binding.List(part.Value, section, what, read))];
    }

    private Node? Single(string section, string? why)
    {
        binding.Section = section;
        if (!found.TryGetValue(section, out List<(TextNode Key, Node Value)>? parts))
        {
            TellMissing(section, why);
            return null;
        }
        foreach ((TextNode key, _) in parts.Skip(1)) binding.Report(ValueProblems.SectionTwice(key, parts[0].Key.Place));
        return IsEmpty(parts[0].Value) ? null : parts[0].Value;
    }

    private bool IsEmpty(Node node)
    {
        if (node is not TextNode { Empty: true }) return false;
        binding.Report(ValueProblems.EmptyValue(node, binding.Section));
        return true;
    }

    // With a file unread, the section may stand in that one; one misspelled is told already.
    private void TellMissing(string section, string? why)
    {
        if (why is not null && !binding.Partial && !meant.Contains(section)) binding.Report(ValueProblems.MissingSection(folder, section, why));
    }
}
