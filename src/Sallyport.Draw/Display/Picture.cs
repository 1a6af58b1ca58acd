using System.Collections.Immutable;

namespace Sallyport.Draw;

/// <summary>A picture as a list of what is drawn, back to front, in pixels from the upper left corner.</summary>
/// <param name="Width">How wide.</param>
/// <param name="Height">How high.</param>
/// <param name="Title">What it is, for who cannot see it.</param>
/// <param name="Description">What it shows, in a few sentences.</param>
/// <param name="Elements">What is drawn, in order.</param>
public sealed record Picture(double Width, double Height, string Title, string Description, ImmutableArray<Element> Elements)
{
    /// <summary>Every element, those inside groups too, in the order of drawing.</summary>
    public IEnumerable<Element> Flat => Flatten(Elements);

    /// <summary>The elements as they look on another sheet: smaller or larger by a factor, then moved to a point.</summary>
    public ImmutableArray<Element> PlacedAt(Spot at, double scale) => [.. Elements.Select(element => Place(element, at, scale))];

    private static Element Place(Element element, Spot at, double scale)
    {
        Spot Move(Spot spot) => new(at.X + spot.X * scale, at.Y + spot.Y * scale);
        Area Moved(Area area) => new(at.X + area.Left * scale, at.Y + area.Top * scale, area.Width * scale, area.Height * scale);
        Stroke? Pen(Stroke? stroke) => stroke is null ? null : stroke with { Width = stroke.Width * scale, Dashes = [.. stroke.Dashes.Select(dash => dash * scale)] };
        Fill? Filled(Fill? fill) => fill is HatchFill hatch ? hatch with { Gap = hatch.Gap * scale, Width = hatch.Width * scale } : fill;
        return element switch
        {
            Group group => group with { Children = [.. group.Children.Select(child => Place(child, at, scale))] },
            Line line => new Line(Move(line.From), Move(line.To), Pen(line.Stroke)!),
            Trail trail => new Trail([.. trail.Spots.Select(Move)], Pen(trail.Stroke), Filled(trail.Fill), trail.Closed),
            Box box => new Box(Moved(box.Area), Filled(box.Fill), Pen(box.Stroke), box.Corner * scale),
            Disc disc => new Disc(Move(disc.Centre), disc.Radius * scale, Filled(disc.Fill), Pen(disc.Stroke)),
            Text text => text with { At = Move(text.At), Size = text.Size * scale },
            _ => throw new ArgumentOutOfRangeException(nameof(element), element, "expected a kind of element that can be placed"),
        };
    }

    private static IEnumerable<Element> Flatten(ImmutableArray<Element> elements) =>
        elements.SelectMany(element => element is Group group ? Flatten(group.Children).Prepend(group) : [element]);
}

/// <summary>A point of a picture.</summary>
public readonly record struct Spot(double X, double Y);

/// <summary>A colour with its opacity, 0 to 1.</summary>
public readonly record struct Ink(byte Red, byte Green, byte Blue, double Opacity = 1)
{
    /// <summary>A full colour, written as in <c>0x17222E</c>.</summary>
    public static Ink FromHex(uint hex) => new((byte)(hex >> 16), (byte)(hex >> 8), (byte)hex);
}

/// <summary>A pen. <paramref name="Dashes"/> alternates drawn and not drawn; empty draws all.</summary>
public sealed record Stroke(Ink Ink, double Width, ImmutableArray<double> Dashes)
{
    /// <summary>A pen that draws without gaps.</summary>
    public Stroke(Ink ink, double width) : this(ink, width, []) { }
}

/// <summary>What an area is filled with.</summary>
public abstract record Fill;

/// <summary>One colour.</summary>
public sealed record SolidFill(Ink Ink) : Fill;

/// <summary>Slanted lines, <paramref name="Gap"/> apart from line to line, on nothing.</summary>
public sealed record HatchFill(Ink Ink, double Gap, double Width) : Fill;

/// <summary>Something drawn.</summary>
public abstract record Element;

/// <summary>Things that belong together, with a name that a pointer or a reader can show.</summary>
public sealed record Group(string Id, string Title, string Description, ImmutableArray<Element> Children) : Element
{
    /// <summary>What a page may want to know of it, by name, such as <c>leg</c>; no document shows it.</summary>
    public ImmutableArray<(string Name, string Value)> Facts { get; init; } = [];
}

/// <summary>A straight line.</summary>
public sealed record Line(Spot From, Spot To, Stroke Stroke) : Element;

/// <summary>A line through several points; closed, it can be filled.</summary>
public sealed record Trail(ImmutableArray<Spot> Spots, Stroke? Stroke, Fill? Fill, bool Closed) : Element;

/// <summary>A rectangle.</summary>
public sealed record Box(Area Area, Fill? Fill, Stroke? Stroke, double Corner = 0) : Element;

/// <summary>A circle.</summary>
public sealed record Disc(Spot Centre, double Radius, Fill? Fill, Stroke? Stroke) : Element;

/// <summary>Where a text hangs from its point.</summary>
public enum Anchor
{
    /// <summary>It starts there.</summary>
    Start,
    /// <summary>Its middle is there.</summary>
    Middle,
    /// <summary>It ends there.</summary>
    End,
}

/// <summary>One line of text on its base line.</summary>
public sealed record Text(Spot At, string Words, Face Face, double Size, Ink Ink, Anchor Anchor = Anchor.Start) : Element
{
    /// <summary>Turned about its point, degrees clockwise.</summary>
    public double Turn { get; init; }

    /// <summary>The rectangle that it takes before it is turned, from the top of its capitals' accents to the foot of its descenders.</summary>
    public Area Area
    {
        get
        {
            double width = Lettering.Measure(Words, Face, Size);
            double left = Anchor switch { Anchor.Start => At.X, Anchor.Middle => At.X - width / 2, _ => At.X - width };
            return new(left, At.Y - Lettering.Ascent * Size, width, (Lettering.Ascent + Lettering.Descent) * Size);
        }
    }
}
