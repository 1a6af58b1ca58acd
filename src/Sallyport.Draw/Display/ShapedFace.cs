using System.Runtime.InteropServices;
using System.Text;
using HarfBuzzSharp;
using SkiaSharp;

namespace Sallyport.Draw;

/// <summary>A typeface whose letters join or carry marks: HarfBuzz says which glyphs stand where.</summary>
internal sealed class ShapedFace
{
    private readonly HarfBuzzSharp.Font font;
    private readonly Lock door = new();

    public ShapedFace(byte[] file)
    {
        // Not Blob.FromStream: it hands over the place of an array that the collector may move or free afterwards, and letters then change their widths
        // (HarfBuzzSharp 14.4.0). A typeface lives as long as the program, so this copy is never freed.
        nint copy = Marshal.AllocHGlobal(file.Length);
        Marshal.Copy(file, 0, copy, file.Length);
        using Blob blob = new(copy, file.Length, MemoryMode.ReadOnly);
        blob.MakeImmutable();
        using HarfBuzzSharp.Face face = new(blob, 0);
        font = new(face);
        font.SetScale(face.UnitsPerEm, face.UnitsPerEm);
        font.SetFunctionsOpenType();
        UnitsPerEm = face.UnitsPerEm;
        using SKData data = SKData.CreateCopy(file);
        Typeface = SKTypeface.FromData(data) ?? throw new InvalidOperationException("a shipped typeface cannot be read");
    }

    public int UnitsPerEm { get; }

    public SKTypeface Typeface { get; }

    /// <summary>The glyphs of a stretch from left to right, in units of the typeface, each with the byte of the text that it begins at.</summary>
    public (ushort[] Glyphs, SKPoint[] Places, uint[] Clusters, double Width) Shape(string words, Script script)
    {
        using HarfBuzzSharp.Buffer buffer = new();
        buffer.AddUtf8(Encoding.UTF8.GetBytes(words));
        buffer.Direction = Direction.RightToLeft;
        buffer.Script = script == Script.Hebrew ? HarfBuzzSharp.Script.Hebrew : HarfBuzzSharp.Script.Arabic;
        // Drawing is done from several threads; HarfBuzz's font keeps what it has looked up.
        lock (door) font.Shape(buffer);
        GlyphInfo[] infos = buffer.GlyphInfos;
        GlyphPosition[] positions = buffer.GlyphPositions;
        SKPoint[] places = new SKPoint[infos.Length];
        double x = 0;
        for (int i = 0; i < infos.Length; x += positions[i].XAdvance, i++) places[i] = new((float)(x + positions[i].XOffset), -positions[i].YOffset);
        return ([.. infos.Select(info => (ushort)info.Codepoint)], places, [.. infos.Select(info => info.Cluster)], x);
    }
}
