using System.Collections.Immutable;
using SkiaSharp;

namespace Sallyport.Draw;

/// <summary>Draws elements onto a canvas of Skia: the same for PNG and PDF.</summary>
internal static class SkiaPainter
{
    public static void Draw(SKCanvas canvas, Element element)
    {
        switch (element)
        {
            case Group group:
                foreach (Element child in group.Children) Draw(canvas, child);
                break;
            case Line line:
                using (SKPath path = PathOf([line.From, line.To], false)) DrawPath(canvas, path, null, line.Stroke);
                break;
            case Trail trail:
                using (SKPath path = PathOf(trail.Spots, trail.Closed)) DrawPath(canvas, path, trail.Fill, trail.Stroke);
                break;
            case Box box:
                using (SKPathBuilder builder = new())
                {
                    Area area = box.Area;
                    SKRect rectangle = new((float)area.Left, (float)area.Top, (float)area.Right, (float)area.Bottom);
                    builder.AddRoundRect(rectangle, (float)box.Corner, (float)box.Corner);
                    using SKPath path = builder.Detach();
                    DrawPath(canvas, path, box.Fill, box.Stroke);
                }
                break;
            case Disc disc:
                using (SKPathBuilder builder = new())
                {
                    builder.AddCircle((float)disc.Centre.X, (float)disc.Centre.Y, (float)disc.Radius);
                    using SKPath path = builder.Detach();
                    DrawPath(canvas, path, disc.Fill, disc.Stroke);
                }
                break;
            case Text text:
                DrawText(canvas, text);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(element), element, "expected a kind of element that this writer knows");
        }
    }

    private static SKPath PathOf(ImmutableArray<Spot> spots, bool closed)
    {
        using SKPathBuilder builder = new();
        for (int i = 0; i < spots.Length; i++)
        {
            if (i == 0) builder.MoveTo((float)spots[i].X, (float)spots[i].Y);
            else builder.LineTo((float)spots[i].X, (float)spots[i].Y);
        }
        if (closed) builder.Close();
        return builder.Detach();
    }

    private static void DrawPath(SKCanvas canvas, SKPath path, Fill? fill, Stroke? stroke)
    {
        if (fill is SolidFill solid)
        {
            using SKPaint paint = new() { Color = Colour(solid.Ink), IsAntialias = true };
            canvas.DrawPath(path, paint);
        }
        else if (fill is HatchFill hatch)
        {
            canvas.Save();
            canvas.ClipPath(path, antialias: true);
            using SKPaint paint = Pen(new(hatch.Ink, hatch.Width));
            SKRect bounds = path.Bounds;
            float step = (float)(hatch.Gap * Math.Sqrt(2));
            // Lines of one family all over the picture, so that neighbouring areas join.
            for (float x = MathF.Floor((bounds.Left + bounds.Top) / step) * step; x <= bounds.Right + bounds.Bottom; x += step)
                canvas.DrawLine(x - bounds.Top, bounds.Top, x - bounds.Bottom, bounds.Bottom, paint);
            canvas.Restore();
        }
        if (stroke is null) return;
        using SKPaint pen = Pen(stroke);
        canvas.DrawPath(path, pen);
    }

    private static void DrawText(SKCanvas canvas, Text text)
    {
        using SKFont font = new(Lettering.Typeface(text.Face), (float)text.Size)
        {
            Hinting = SKFontHinting.None,
            LinearMetrics = true,
            Subpixel = true,
            Edging = SKFontEdging.Antialias,
        };
        using SKPaint paint = new() { Color = Colour(text.Ink), IsAntialias = true };
        if (text.Turn != 0)
        {
            canvas.Save();
            canvas.RotateDegrees((float)text.Turn, (float)text.At.X, (float)text.At.Y);
        }
        if (Scripts.IsPlain(text.Words)) canvas.DrawText(text.Words, (float)text.Area.Left, (float)text.At.Y, SKTextAlign.Left, font, paint);
        else DrawRuns(canvas, text, font, paint);
        if (text.Turn != 0) canvas.Restore();
    }

    /// <summary>A line in which some words run from right to left.</summary>
    private static void DrawRuns(SKCanvas canvas, Text text, SKFont font, SKPaint paint)
    {
        double x = text.Area.Left;
        foreach (LetterRun run in Scripts.InOrder(text.Words))
        {
            if (run.Script == Script.Plain)
            {
                canvas.DrawText(run.Words, (float)x, (float)text.At.Y, SKTextAlign.Left, font, paint);
                x += Lettering.Measure(run.Words, text.Face, text.Size);
                continue;
            }
            ShapedFace face = Lettering.ShapedFace(run.Script, text.Face);
            (ushort[] glyphs, SKPoint[] places, uint[] clusters, double width) = face.Shape(run.Words, run.Script);
            float scale = (float)(text.Size / face.UnitsPerEm);
            using SKFont shaped = new(face.Typeface, (float)text.Size) { Hinting = SKFontHinting.None, LinearMetrics = true, Subpixel = true, Edging = SKFontEdging.Antialias };
            using SKTextBlobBuilder builder = new();
            // With the letters beside the glyphs, a PDF can be searched for them.
            byte[] letters = System.Text.Encoding.UTF8.GetBytes(run.Words);
            SKPositionedTextRunBuffer buffer = builder.AllocatePositionedTextRun(shaped, glyphs.Length, letters.Length, null);
            buffer.SetGlyphs(glyphs);
            buffer.SetPositions([.. places.Select(place => new SKPoint(place.X * scale, place.Y * scale))]);
            buffer.SetText(letters);
            buffer.SetClusters(clusters);
            using SKTextBlob blob = builder.Build() ?? throw new InvalidOperationException("a line of text cannot be drawn");
            canvas.DrawText(blob, (float)x, (float)text.At.Y, paint);
            x += width * scale;
        }
    }

    private static SKPaint Pen(Stroke stroke)
    {
        SKPaint paint = new() { Color = Colour(stroke.Ink), IsAntialias = true, IsStroke = true, StrokeWidth = (float)stroke.Width };
        if (stroke.Dashes.IsEmpty) return paint;
        using SKPathEffect dashes = SKPathEffect.CreateDash([.. stroke.Dashes.Select(dash => (float)dash)], 0);
        paint.PathEffect = dashes;
        return paint;
    }

    private static SKColor Colour(Ink ink) => new(ink.Red, ink.Green, ink.Blue, (byte)Math.Round(ink.Opacity * 255));
}
