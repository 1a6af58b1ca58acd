using System.Collections.Immutable;

namespace Sallyport.Desk;

/// <summary>One reading under way: the problems met, the names given and used, and where each thing read stands.</summary>
internal sealed class Binding
{
    private readonly List<Problem> problems = [];
    private readonly HashSet<string> unsound = new(StringComparer.Ordinal);
    private readonly HashSet<object> whole = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<object, Place> places = new(ReferenceEqualityComparer.Instance);

    public Names Names { get; } = new();

    public List<string> Notes { get; } = [];

    /// <summary>The section being read: a problem met now makes it unsound.</summary>
    public string Section { get; set; } = "";

    /// <summary>Set when a file could not be read at all: what it would have named is unknown, and so are missing names.</summary>
    public bool Partial { get; set; }

    public int Count => problems.Count;

    public bool Any => problems.Count > 0;

    public void Report(Problem problem)
    {
        problems.Add(problem);
        unsound.Add(Section);
    }

    /// <summary>Makes a section unsound that is there under a wrong name.</summary>
    public void Doubt(string section) => unsound.Add(section);

    /// <summary>Whether nothing was wrong in these sections, so that a check over them tells no consequence of what was told already.</summary>
    public bool Sound(params ReadOnlySpan<string> sections)
    {
        foreach (string section in sections)
            if (unsound.Contains(section)) return false;
        return !Partial;
    }

    /// <summary>Whether nothing was wrong in a thing that was read.</summary>
    public bool IsWhole(object thing) => whole.Contains(thing);

    /// <summary>Where a thing that <see cref="Map"/> read stands, for checks on the finished model.</summary>
    public Place PlaceOf(object thing) => places[thing];

    /// <summary>Tells every use of a name that nothing has.</summary>
    public void LookUpNames()
    {
        if (Partial) return;
        foreach ((string section, Problem problem) in Names.Unknown())
        {
            Section = section;
            Report(problem);
        }
    }

    /// <summary>Reads a map with <paramref name="read"/> and tells the keys that it did not ask for.</summary>
    public T? Map<T>(Node node, string what, Func<MapReader, T?> read) where T : class
    {
        if (node is not MapNode map)
        {
            Report(ValueProblems.Shape(node, what, "a map of keys and values", "write it as {key: value, …}, or as indented lines 'key: value'."));
            return null;
        }
        MapReader reader = new(this, map, what);
        int before = Count;
        T? value = read(reader);
        reader.Finish();
        if (value is null) return null;
        places[value] = map.Place;
        if (Count == before) whole.Add(value);
        return value;
    }

    /// <summary>Reads a list, entry by entry; entries of a wrong shape are told and left out.</summary>
    public ImmutableArray<T> List<T>(Node node, string key, string what, Func<MapReader, T?> read) where T : class
    {
        if (node is not ListNode list)
        {
            Report(ValueProblems.Shape(node, $"'{key}'", "a list", "write it as [a, b], or as indented lines '- a'."));
            return [];
        }
        ImmutableArray<T>.Builder items = ImmutableArray.CreateBuilder<T>(list.Items.Length);
        foreach (Node item in list.Items)
            if (Map(item, what, read) is { } value) items.Add(value);
        return items.ToImmutable();
    }

    public ReadResult<T> Result<T>(T value) where T : class => Any ? Failed<T>() : new(value, [], [.. Notes]);

    public ReadResult<T> Failed<T>() where T : class => new(
        null,
        [.. problems.OrderBy(problem => problem.File, StringComparer.Ordinal).ThenBy(problem => problem.Line).ThenBy(problem => problem.Column)],
        [.. Notes]);
}
