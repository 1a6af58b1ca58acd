namespace Sallyport.Draw;

/// <summary>A sheet of paper held upright, in points of 1/72 inch.</summary>
/// <param name="Name">As people call it.</param>
/// <param name="Width">How wide.</param>
/// <param name="Height">How high.</param>
public sealed record PaperSize(string Name, double Width, double Height)
{
    private const double PointsPerMillimetre = 72 / 25.4;

    /// <summary>210 mm by 297 mm (ISO 216).</summary>
    public static PaperSize A4 { get; } = new("A4", 210 * PointsPerMillimetre, 297 * PointsPerMillimetre);

    /// <summary>8.5 in by 11 in.</summary>
    public static PaperSize Letter { get; } = new("Letter", 8.5 * 72, 11 * 72);
}
