using System.Buffers;
using System.Text;
using System.Text.Unicode;

namespace Sallyport.Desk;

/// <summary>The text of one file, fit for parsing, and the name that the user knows it by.</summary>
internal sealed class SourceText
{
    /// <summary>Far above any scenario; keeps a wrong file from filling the memory.</summary>
    public const int MostBytes = 5_000_000;

    private readonly string[] lines;

    private SourceText(string name, string text)
    {
        Name = name;
        Text = text;
        lines = text.Split('\n');
    }

    public string Name { get; }

    public string Text { get; }

    public string LineAt(int line) => line >= 1 && line <= lines.Length ? lines[line - 1] : "";

    /// <summary>Reads a file whole, as bytes; null, and a problem, when it cannot be.</summary>
    public static byte[]? Bytes(string path, string name, Action<Problem> report)
    {
        try
        {
            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            if (stream.Length > MostBytes)
            {
                report(FileProblems.TooLarge(name, stream.Length));
                return null;
            }
            // The length may be wrong by now, or untold: never more than the bound is taken.
            byte[] bytes = new byte[(stream.Length > 0 ? stream.Length : MostBytes) + 1];
            int read = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            if (read < bytes.Length) return bytes[..read];
            report(FileProblems.TooLarge(name, read));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            report(FileProblems.CannotRead(name, e.Message));
        }
        return null;
    }

    /// <summary>Makes text of bytes: UTF-8 only, with or without a byte order mark, any line ends, no control characters.</summary>
    public static SourceText? From(byte[] bytes, string name, Action<Problem> report)
    {
        char[] characters = new char[bytes.Length];
        OperationStatus status = Utf8.ToUtf16(bytes, characters, out int bytesRead, out int written, replaceInvalidSequences: false);
        if (status != OperationStatus.Done)
        {
            string before = Lines(new(characters, 0, written)), after = Lines(Encoding.UTF8.GetString(bytes.AsSpan(bytesRead)));
            int line = before.AsSpan().Count('\n') + 1, start = before.LastIndexOf('\n') + 1, end = after.IndexOf('\n');
            string shown = before[start..] + (end < 0 ? after : after[..end]);
            int column = before.Length - start + 1;
            report(FileProblems.NotUtf8(name, line, column, bytes[bytesRead], shown));
            return null;
        }
        return new SourceText(name, Lines(new(characters, 0, written))).Checked(report);
    }

    // A byte order mark is no part of the text, and every kind of line end is one.
    private static string Lines(string text) => (text.StartsWith('\uFEFF') ? text[1..] : text).Replace("\r\n", "\n").Replace('\r', '\n');

    // One tab or control character is told, the first: the others have the same cause.
    private SourceText? Checked(Action<Problem> report)
    {
        for (int line = 1; line <= lines.Length; line++)
        {
            string text = lines[line - 1];
            for (int i = 0; i < text.Length; i++)
            {
                if (text[i] == '\t' || !IsRefused(text[i])) continue;
                report(FileProblems.Control(this, line, i + 1, text[i]));
                return null;
            }
        }
        int tab = Text.IndexOf('\t');
        if (tab < 0) return this;
        int tabLine = Text.AsSpan(0, tab).Count('\n') + 1;
        report(FileProblems.Tab(this, tabLine, tab - Text.LastIndexOf('\n', tab)));
        return new(Name, Text.Replace('\t', ' '));
    }

    // Line and paragraph separators would be line ends to a parser and none to an editor.
    private static bool IsRefused(char character) => char.IsControl(character) || character is '\u2028' or '\u2029' or '\uFEFF' or '\uFFFE' or '\uFFFF';
}
