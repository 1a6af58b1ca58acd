namespace Sallyport.Desk;

/// <summary>An OMM as lines of <c>KEYWORD = value [unit]</c>.</summary>
internal static class KeyValueElements
{
    public static void Read(SourceText source, OrbitFields fields)
    {
        string[] lines = source.Text.Split('\n');
        bool first = true;
        for (int i = 0; i < lines.Length; i++)
        {
            string line = lines[i];
            int start = line.Length - line.TrimStart().Length;
            string text = line.Trim();
            if (text.Length == 0 || text == "COMMENT" || text.StartsWith("COMMENT ", StringComparison.Ordinal) || text is "META_START" or "META_STOP") continue;
            int equals = line.IndexOf('=');
            if (equals < 0)
            {
                fields.Report(OrbitProblems.NoKeyword(new(source, i + 1, start + 1)));
                continue;
            }
            string key = line[start..equals].Trim();
            string value = line[(equals + 1)..];
            int column = equals + 1 + (value.Length - value.TrimStart().Length) + 1;
            (string figure, string? unit) = Unit(value.Trim());
            if (first) Version(source, fields, key, figure, i + 1, start + 1, column);
            first = false;
            fields.Add(key, figure, i + 1, column, unit);
        }
    }

    private static void Version(SourceText source, OrbitFields fields, string key, string value, int line, int keyColumn, int column)
    {
        if (key != "CCSDS_OMM_VERS") fields.Report(OrbitProblems.OtherMessage(new(source, line, keyColumn), key));
        else if (!OrbitProblems.Versions.Contains(value)) fields.Report(OrbitProblems.OtherVersion(new(source, line, column), value));
    }

    // A unit in brackets may follow a figure; brackets inside a name belong to it.
    private static (string Figure, string? Unit) Unit(string value)
    {
        int open = value.LastIndexOf('[');
        return open > 0 && value.EndsWith(']') && char.IsAsciiDigit(value[..open].TrimEnd()[^1]) ? (value[..open].TrimEnd(), value[(open + 1)..^1].Trim()) : (value, null);
    }
}
