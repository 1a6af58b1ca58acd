using System.Collections.Immutable;
using System.Text;
using System.Text.Json;

namespace Sallyport.Desk;

/// <summary>Makes the same tree of nodes from JSON, each with its place: what reads YAML reads JSON too, with the same messages.</summary>
internal static class JsonNodes
{
    /// <summary>Reads one value; null, with a problem, when the text is no JSON.</summary>
    public static Node? Read(SourceText source, Action<Problem> report)
    {
        // Bytes of the text as checked, so that a position in them is a place in its lines.
        byte[] bytes = Encoding.UTF8.GetBytes(source.Text);
        Positions positions = new(source, bytes);
        Utf8JsonReader reader = new(bytes, new JsonReaderOptions { MaxDepth = YamlReader.MostDepth });
        try
        {
            reader.Read();
            Node root = Value(ref reader, positions, report);
            // Anything after the value is an error, and this finds it.
            reader.Read();
            return root;
        }
        catch (JsonException e)
        {
            report(FileProblems.Syntax(positions.At(e.LineNumber ?? 0, e.BytePositionInLine ?? 0), e.Message));
            return null;
        }
    }

    private static Node Value(ref Utf8JsonReader reader, Positions positions, Action<Problem> report)
    {
        Place place = positions.At(reader.TokenStartIndex);
        switch (reader.TokenType)
        {
            case JsonTokenType.StartArray:
                ImmutableArray<Node>.Builder items = ImmutableArray.CreateBuilder<Node>();
                while (reader.Read() && reader.TokenType != JsonTokenType.EndArray) items.Add(Value(ref reader, positions, report));
                return new ListNode(place, items.ToImmutable());
            case JsonTokenType.StartObject:
                return Map(ref reader, place, positions, report);
            case JsonTokenType.String:
                return new TextNode(place, Text(ref reader, place), Plain: false);
            default:
                return new TextNode(place, Encoding.UTF8.GetString(reader.ValueSpan), Plain: true);
        }
    }

    private static MapNode Map(ref Utf8JsonReader reader, Place place, Positions positions, Action<Problem> report)
    {
        ImmutableArray<MapEntry>.Builder entries = ImmutableArray.CreateBuilder<MapEntry>();
        Dictionary<string, Place> seen = new(StringComparer.Ordinal);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
        {
            Place at = positions.At(reader.TokenStartIndex);
            TextNode key = new(at, Text(ref reader, at), Plain: false);
            reader.Read();
            Node value = Value(ref reader, positions, report);
            if (seen.TryAdd(key.Text, key.Place)) entries.Add(new(key, value));
            else report(FileProblems.DuplicateKey(key, seen[key.Text]));
        }
        return new(place, entries.ToImmutable());
    }

    // Half a surrogate pair, written as an escape, is well-formed JSON and no text.
    private static string Text(ref Utf8JsonReader reader, Place place)
    {
        try
        {
            return reader.GetString()!;
        }
        catch (InvalidOperationException)
        {
            throw new JsonException("a string with half a surrogate pair", null, place.Line - 1, place.Column - 1);
        }
    }

    // Places are asked for in rising order: the line is counted on from the last one.
    private sealed class Positions(SourceText source, byte[] bytes)
    {
        private int line = 1;
        private int lineStart;
        private int counted;

        public Place At(long index)
        {
            for (; counted < index; counted++)
            {
                if (bytes[counted] != '\n') continue;
                line++;
                lineStart = counted + 1;
            }
            return new(source, line, Encoding.UTF8.GetCharCount(bytes.AsSpan(lineStart, (int)index - lineStart)) + 1);
        }

        public Place At(long lineNumber, long byteInLine)
        {
            string text = source.LineAt((int)lineNumber + 1);
            byte[] inLine = Encoding.UTF8.GetBytes(text);
            return new(source, (int)lineNumber + 1, Encoding.UTF8.GetCharCount(inLine.AsSpan(0, (int)Math.Min(byteInLine, inLine.Length))) + 1);
        }
    }
}
