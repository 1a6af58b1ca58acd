using System.Collections.Immutable;

namespace Sallyport.Draw;

/// <summary>How a person is on the way, as the line shows it.</summary>
internal enum Going
{
    /// <summary>Translating, handling gear.</summary>
    Way,
    /// <summary>Waiting.</summary>
    Wait,
    /// <summary>At work.</summary>
    Work,
    /// <summary>Carried by an arm.</summary>
    Ride,
    /// <summary>At work on an arm.</summary>
    WorkOnArm,
}

/// <summary>The strokes of a person's line, told apart without colour; the legend draws with the same ones.</summary>
internal static class Strokes
{
    public const double WorkWidth = 6.4;

    public static IEnumerable<Element> Draw(Going going, ImmutableArray<Spot> trail, Ink ink)
    {
        switch (going)
        {
            case Going.Way:
                yield return new Trail(trail, new(ink, 1.7), null, false);
                break;
            case Going.Wait:
                yield return new Trail(trail, new(ink, 1.7, [1.7, 3]), null, false);
                break;
            case Going.Work:
                yield return new Trail(trail, new(ink, WorkWidth), null, false);
                break;
            case Going.Ride:
                yield return new Trail(trail, new(ink, WorkWidth), null, false);
                yield return new Trail(trail, new(Palette.Paper, WorkWidth - 2.8), null, false);
                break;
            case Going.WorkOnArm:
                yield return new Trail(trail, new(ink, WorkWidth), null, false);
                yield return new Trail(trail, new(Palette.Paper, 1.9, [7, 5]), null, false);
                break;
        }
    }

    public static Stroke Everyone { get; } = new(Palette.Everyone, 2.8);

    public static Stroke BothLimit { get; } = new(Palette.Everyone, 1.8, [2, 4]);

    public static Stroke Armless(Ink ink) => new(ink, 1.3, [6, 3.5]);

    public static Stroke Otherwise(Ink ink) => new(ink, 1.3, [9, 3, 1.5, 3]);

    public static Stroke Ceiling { get; } = new(Palette.Ceiling, 2.2);

    public static Stroke Gift { get; } = new(Palette.Words, 1.2, [3, 2.5]);

    public static Stroke Together { get; } = new(Palette.Words, 2.6);

    /// <summary>High radiation: dots in a frame of the ceiling's colour, unlike the slanted lines of a lost signal.</summary>
    public static IEnumerable<Element> Radiation(Area area)
    {
        yield return new Box(area, new SolidFill(Palette.CeilingWash), new(Palette.Ceiling, 1));
        for (double x = area.Left + 4; x < area.Right - 2; x += 7) yield return new Disc(new(x, area.Centre.Y), 1.4, new SolidFill(Palette.Ceiling), null);
    }

    public static HatchFill NoLink { get; } = new(Palette.Quiet, 5, 0.9);
}
