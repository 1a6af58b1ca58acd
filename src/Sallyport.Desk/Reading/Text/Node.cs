using System.Collections.Immutable;

namespace Sallyport.Desk;

/// <summary>Where something stands in a file; lines and columns from 1, 0 for the file as a whole.</summary>
internal readonly record struct Place(SourceText Source, int Line, int Column)
{
    /// <summary>As told in a message about another place.</summary>
    public override string ToString() => $"{Source.Name}:{Line}:{Column}";
}

/// <summary>A part of a file: text, list or map, and where it stands.</summary>
internal abstract record Node(Place Place)
{
    /// <summary>The first place after it, of a value and of what stands in brackets; the place itself of lists and maps that stand line by line, whose end
    /// a parser sees only at what follows.</summary>
    public Place End { get; init; } = Place;

    /// <summary>Whether it is a list or map in brackets.</summary>
    public bool IsFlow { get; init; }

    /// <summary>The node as a message names it.</summary>
    public abstract string Shown { get; }
}

/// <summary>One value. Numbers and flags are text here: who asks for a value says what it must be.</summary>
/// <param name="Place">Where it stands.</param>
/// <param name="Text">What it says.</param>
/// <param name="Plain">Whether it stands without quotes.</param>
internal sealed record TextNode(Place Place, string Text, bool Plain) : Node(Place)
{
    public bool Empty => Plain && Text is "" or "~" or "null";

    public override string Shown => Empty ? "nothing" : $"'{(Text.Length > 60 ? Text[..59] + "…" : Text)}'";
}

/// <summary>Nodes in order.</summary>
internal sealed record ListNode(Place Place, ImmutableArray<Node> Items) : Node(Place)
{
    public override string Shown => Items.Length == 1 ? "a list of 1" : $"a list of {Items.Length}";
}

/// <summary>Values under names, in the order of the file; each name once.</summary>
internal sealed record MapNode(Place Place, ImmutableArray<MapEntry> Entries) : Node(Place)
{
    public override string Shown => Entries.Length == 0 ? "an empty map" : $"a map with '{Entries[0].Key.Text}'";

    public Node? Find(string key)
    {
        foreach (MapEntry entry in Entries)
            if (entry.Key.Text == key) return entry.Value;
        return null;
    }
}

/// <summary>One value under its name.</summary>
internal readonly record struct MapEntry(TextNode Key, Node Value);
