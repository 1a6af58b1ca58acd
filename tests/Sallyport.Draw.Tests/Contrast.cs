namespace Sallyport.Draw.Tests;

/// <summary>
/// Contrast of two colours as the Web Content Accessibility Guidelines 2.2 (W3C Recommendation, 2023) define it: "relative luminance" and
/// "contrast ratio" in its glossary; success criterion 1.4.3 asks 4.5:1 of text, 1.4.11 asks 3:1 of lines that carry meaning.
/// Both go by luminance alone, so a picture printed in grey keeps them.
/// </summary>
internal static class Contrast
{
    public static double Between(Ink one, Ink other)
    {
        double a = Luminance(one), b = Luminance(other);
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static double Luminance(Ink ink) => 0.2126 * Linear(ink.Red) + 0.7152 * Linear(ink.Green) + 0.0722 * Linear(ink.Blue);

    private static double Linear(byte channel)
    {
        double value = channel / 255.0;
        return value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
    }
}
