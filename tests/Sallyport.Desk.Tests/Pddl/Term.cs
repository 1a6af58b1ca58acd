using System.Collections.Immutable;

namespace Sallyport.Desk.Tests;

/// <summary>A word or a list in brackets, as PDDL is written: comments fall away, and case is not told apart.</summary>
internal sealed record Term(string Word, ImmutableArray<Term> List)
{
    public bool IsWord => List.IsDefault;

    /// <summary>The first word of a list; empty when there is none.</summary>
    public string Head => !IsWord && List.Length > 0 && List[0].IsWord ? List[0].Word : "";

    public ImmutableArray<Term> Tail => IsWord || List.IsEmpty ? throw new FormatException($"'{this}' is no list with a head") : List[1..];

    /// <summary>The list in it that begins with this word.</summary>
    public Term Part(string head) => List.SingleOrDefault(part => part.Head == head) ?? throw new FormatException($"no ({head} …)");

    public static Term Parse(string text)
    {
        Queue<string> words = new(Words(text));
        Term term = Next(words);
        return words.Count == 0 ? term : throw new FormatException($"'{words.Peek()}' after the end");
    }

    public override string ToString() => IsWord ? Word : $"({string.Join(' ', List)})";

    private static Term Next(Queue<string> words)
    {
        if (!words.TryDequeue(out string? word)) throw new FormatException("the text ends within a list");
        if (word == ")") throw new FormatException("a ) without its (");
        if (word != "(") return new(word, default);
        List<Term> list = [];
        while (words.TryPeek(out string? next) && next != ")") list.Add(Next(words));
        if (words.Count == 0) throw new FormatException("a ( without its )");
        words.Dequeue();
        return new("", [.. list]);
    }

    private static IEnumerable<string> Words(string text) => text.Split('\n')
        .Select(line => line.Contains(';') ? line[..line.IndexOf(';')] : line)
        .SelectMany(line => line.Replace("(", " ( ").Replace(")", " ) ").Split([' ', '\t', '\r'], StringSplitOptions.RemoveEmptyEntries))
        .Select(word => word.ToLowerInvariant());
}
