using System.Collections.Concurrent;
using System.Text;
using SkiaSharp;

namespace Sallyport.Draw;

/// <summary>The weights of the typeface.</summary>
public enum Face
{
    Regular,
    Bold,
}

/// <summary>The shipped typeface: how wide a text is in it, and how a text is fitted to a width.</summary>
/// <remarks>The files carry no kerning and no layout features, so a text is as wide as the sum of its letters, in every renderer.</remarks>
public static class Lettering
{
    public const string Family = "Sallyport Sans";

    /// <summary>Above the base line, of the size; room for an accent on a capital.</summary>
    public const double Ascent = 0.80;

    /// <summary>Below the base line, of the size.</summary>
    public const double Descent = 0.22;

    // Loaded when somebody's name asks for them.
    private static readonly Lazy<ShapedFace>[] Hebrew = [Shaped("NotoSansHebrew-Regular.ttf"), Shaped("NotoSansHebrew-Bold.ttf")];
    private static readonly Lazy<ShapedFace>[] Arabic = [Shaped("NotoSansArabic-Regular.ttf"), Shaped("NotoSansArabic-Bold.ttf")];

    private static readonly LoadedFace[] Faces = [new("SallyportSans-Regular.ttf"), new("SallyportSans-Bold.ttf")];

    /// <summary>How wide a text is, in pixels at a size in pixels.</summary>
    public static double Measure(string words, Face face, double size) => Scripts.IsPlain(words)
        ? Faces[(int)face].Units(words) * size
        : Scripts.InOrder(words).Sum(run => run.Script == Script.Plain ? Faces[(int)face].Units(run.Words) * size : ShapedFace(run.Script, face).Shape(run.Words, run.Script).Width / ShapedFace(run.Script, face).UnitsPerEm * size);

    /// <summary>The text, or as much of it as fits, with an ellipsis that says so.</summary>
    public static string Shorten(string words, Face face, double size, double width)
    {
        if (Measure(words, face, size) <= width) return words;
        int length = words.Length;
        while (length > 0 && Measure(words[..length].TrimEnd() + "…", face, size) > width) length -= length > 1 && char.IsLowSurrogate(words[length - 1]) ? 2 : 1;
        return words[..length].TrimEnd() + "…";
    }

    /// <summary>Breaks a text at blanks into lines no wider than asked; a single word that is wider is shortened.</summary>
    public static IReadOnlyList<string> Wrap(string words, Face face, double size, double width)
    {
        List<string> lines = [];
        string line = "";
        foreach (string word in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && Measure(longer, face, size) > width)
            {
                lines.Add(Shorten(line, face, size, width));
                longer = word;
            }
            line = longer;
        }
        if (line.Length > 0) lines.Add(Shorten(line, face, size, width));
        return lines;
    }

    /// <summary>Breaks a text into two lines as even as can be; one line when it has but one word.</summary>
    public static IReadOnlyList<string> Halve(string words, Face face, double size)
    {
        int best = -1;
        double width = double.PositiveInfinity;
        for (int i = words.IndexOf(' '); i >= 0; i = words.IndexOf(' ', i + 1))
        {
            double wider = Math.Max(Measure(words[..i], face, size), Measure(words[(i + 1)..], face, size));
            if (wider >= width) continue;
            (best, width) = (i, wider);
        }
        return best < 0 ? [words] : [words[..best], words[(best + 1)..]];
    }

    internal static SKTypeface Typeface(Face face) => Faces[(int)face].Typeface;

    internal static ShapedFace ShapedFace(Script script, Face face) => (script == Script.Hebrew ? Hebrew : Arabic)[(int)face].Value;

    private static Lazy<ShapedFace> Shaped(string resource) => new(() => new(Resource(resource)));

    private static byte[] Resource(string name)
    {
        using Stream stream = typeof(Lettering).Assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"the typeface {name} is not in the assembly");
        using MemoryStream copy = new();
        stream.CopyTo(copy);
        return copy.ToArray();
    }

    public static byte[] File(Face face) => Faces[(int)face].Bytes;

    private sealed class LoadedFace
    {
        private readonly ConcurrentDictionary<int, double> advances = new();
        private readonly double[] latin = new double[0x250];
        private readonly SKFont font;

        public LoadedFace(string resource)
        {
            Bytes = Resource(resource);
            using SKData data = SKData.CreateCopy(Bytes);
            Typeface = SKTypeface.FromData(data) ?? throw new InvalidOperationException($"the typeface {resource} cannot be read");
            // At this size an advance is a whole number of the file's own units: nothing is rounded.
            font = new SKFont(Typeface, Typeface.UnitsPerEm) { Hinting = SKFontHinting.None, LinearMetrics = true, Subpixel = true };
            // Nearly all that is ever measured.
            for (int letter = 0; letter < latin.Length; letter++) latin[letter] = Math.Round(font.MeasureText(char.ConvertFromUtf32(letter)));
        }

        public byte[] Bytes { get; }

        public SKTypeface Typeface { get; }

        public double Units(string words)
        {
            double sum = 0;
            foreach (Rune rune in words.EnumerateRunes())
                sum += rune.Value < latin.Length ? latin[rune.Value] : advances.GetOrAdd(rune.Value, value => { lock (font) return Math.Round(font.MeasureText(char.ConvertFromUtf32(value))); });
            return sum / Typeface.UnitsPerEm;
        }
    }
}
