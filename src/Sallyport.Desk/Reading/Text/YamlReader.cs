using System.Collections.Immutable;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Sallyport.Desk;

/// <summary>Makes a tree of nodes from the events of a YAML parser. Only what a planner needs of YAML is taken: one document of maps,
/// lists and text. Aliases, anchors, tags and merge keys are refused, so that what one reads is what there is.</summary>
internal sealed class YamlReader
{
    /// <summary>Deeper than any scenario; keeps a hostile file from overflowing the stack.</summary>
    public const int MostDepth = 100;

    private readonly SourceText source;
    private readonly Action<Problem> report;
    private readonly Scanner scanner;
    private readonly Parser parser;

    private YamlReader(SourceText source, Action<Problem> report)
    {
        this.source = source;
        this.report = report;
        scanner = new(new StringReader(source.Text));
        parser = new(scanner);
    }

    /// <summary>Reads the document; null with no problem when it is empty, null with problems when it cannot be read.</summary>
    public static Node? Read(SourceText source, Action<Problem> report) => new YamlReader(source, report).Document();

    private Node? Document()
    {
        try
        {
            Node? root = null;
            bool any = false;
            while (Next())
            {
                if (parser.Current is not DocumentStart start) continue;
                if (any)
                {
                    report(FileProblems.ManyDocuments(At(start.Start)));
                    return null;
                }
                any = true;
                Inside();
                root = Build(0);
            }
            return root is TextNode { Empty: true } ? null : root;
        }
        catch (YamlException e)
        {
            report(FileProblems.Syntax(At(e.Start), e.Message));
        }
        catch (TooDeep e)
        {
            report(FileProblems.TooDeep(e.Place));
        }
        return null;
    }

    private Node Build(int depth)
    {
        ParsingEvent current = parser.Current!;
        Place place = At(current.Start);
        if (depth > MostDepth) throw new TooDeep(place);
        if (current is AnchorAlias alias)
        {
            report(FileProblems.Alias(place, alias.Value.Value));
            return new TextNode(place, alias.Value.Value, false);
        }
        if (current is NodeEvent node)
        {
            if (!node.Anchor.IsEmpty) report(FileProblems.Anchor(place, node.Anchor.Value));
            if (!node.Tag.IsEmpty) report(FileProblems.Tag(place, node.Tag.IsNonSpecific ? "!" : node.Tag.Value));
        }
        return current switch
        {
            Scalar scalar => new TextNode(place, scalar.Value, scalar.Style == ScalarStyle.Plain) { End = At(scalar.End) },
            SequenceStart start => Ended(List(place, depth), start.Style == SequenceStyle.Flow),
            MappingStart start => Ended(Map(place, depth), start.Style == MappingStyle.Flow),
            _ => throw Broken(current.Start),
        };
    }

    // The event of the end stands at the bracket.
    private Node Ended(Node node, bool flow) => flow && At(parser.Current!.Start) is var bracket ? node with { End = bracket with { Column = bracket.Column + 1 }, IsFlow = true } : node;

    private ListNode List(Place place, int depth)
    {
        ImmutableArray<Node>.Builder items = ImmutableArray.CreateBuilder<Node>();
        while (Inside() is not SequenceEnd) items.Add(Build(depth + 1));
        return new(place, items.ToImmutable());
    }

    private MapNode Map(Place place, int depth)
    {
        ImmutableArray<MapEntry>.Builder entries = ImmutableArray.CreateBuilder<MapEntry>();
        Dictionary<string, Place> seen = new(StringComparer.Ordinal);
        while (Inside() is not MappingEnd)
        {
            Node key = Build(depth + 1);
            Inside();
            Node value = Build(depth + 1);
            if (key is not TextNode name) report(FileProblems.KeyShape(key));
            else if (name is { Plain: true, Text: "<<" }) report(FileProblems.Merge(name.Place));
            else if (!seen.TryAdd(name.Text, name.Place)) report(FileProblems.DuplicateKey(name, seen[name.Text]));
            else entries.Add(new(name, value));
        }
        return new(place, entries.ToImmutable());
    }

    // On some broken text the parser trips over itself, or ends early, instead of saying what is wrong; that, too, is the text's fault.
    private bool Next()
    {
        try
        {
            return parser.MoveNext();
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or IndexOutOfRangeException or FormatException or OverflowException)
        {
            throw Broken(scanner.CurrentPosition);
        }
    }

    private ParsingEvent Inside() => Next() ? parser.Current! : throw Broken(scanner.CurrentPosition);

    private static SyntaxErrorException Broken(Mark mark) => new(mark, mark, "what stands here fits nothing before it");

    private Place At(Mark mark) => new(source, Math.Max(1, (int)mark.Line), Math.Max(1, (int)mark.Column));

    private sealed class TooDeep(Place place) : Exception
    {
        public Place Place { get; } = place;
    }
}
