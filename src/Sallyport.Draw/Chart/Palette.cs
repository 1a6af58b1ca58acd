namespace Sallyport.Draw;

/// <summary>The colours of the chart. Each also differs in stroke, place or words, so that none is needed to read it.</summary>
internal static class Palette
{
    public static Ink Paper { get; } = Ink.FromHex(0xFFFFFF);
    public static Ink Words { get; } = Ink.FromHex(0x17222E);
    public static Ink Quiet { get; } = Ink.FromHex(0x46535F);
    public static Ink Grid { get; } = Ink.FromHex(0xCBD2DA);
    public static Ink Night { get; } = Ink.FromHex(0xE3E8EE);
    public static Ink Everyone { get; } = Ink.FromHex(0x5C6E81);
    public static Ink EveryoneWash { get; } = Ink.FromHex(0x5C6E81) with { Opacity = 0.13 };
    public static Ink Ceiling { get; } = Ink.FromHex(0x8E1B2F);
    public static Ink CeilingWash { get; } = Ink.FromHex(0x8E1B2F) with { Opacity = 0.06 };
    public static Ink Dead { get; } = Ink.FromHex(0x2E3A47);

    public static Ink Clock { get; } = Ink.FromHex(0xD9DEE4);

    public static Ink Band { get; } = Ink.FromHex(0xE3E8EE);

    /// <summary>A word across a page, behind its text: dark enough to be seen on any printer, light enough to read through.</summary>
    public static Ink Draft { get; } = Ink.FromHex(0xD4D9DF);

    private static readonly Ink[] People = [Ink.FromHex(0x0B5A6B), Ink.FromHex(0x84460B), Ink.FromHex(0x5A3A86), Ink.FromHex(0x3C5E16)];

    /// <summary>The colour of the n-th person; people have a strip of their own, so colours may repeat.</summary>
    public static Ink Person(int index) => People[index % People.Length];
}
