using SkiaSharp;

namespace Sallyport.Draw;

/// <summary>Draws a picture into a PNG with the same typeface as the SVG. Its bytes may differ from processor to processor.</summary>
public static class PngWriter
{
    /// <summary>The picture as a PNG, with <paramref name="scale"/> dots a pixel.</summary>
    public static byte[] Write(Picture picture, double scale = 2)
    {
        SKImageInfo size = new((int)Math.Ceiling(picture.Width * scale), (int)Math.Ceiling(picture.Height * scale), SKColorType.Rgba8888, SKAlphaType.Premul);
        using SKSurface surface = SKSurface.Create(size) ?? throw new InvalidOperationException($"no room for a picture of {size.Width} by {size.Height} dots");
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.Scale((float)scale);
        foreach (Element element in picture.Elements) SkiaPainter.Draw(surface.Canvas, element);
        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }
}
