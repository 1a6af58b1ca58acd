using System.Collections.Immutable;

namespace Sallyport.Draw.Tests;

/// <summary>Reads a finished picture as an outsider would: what lies on what.</summary>
internal static class ChartReading
{
    public static IEnumerable<Group> Groups(Picture picture, string idBegins) =>
        picture.Flat.OfType<Group>().Where(group => group.Id.StartsWith(idBegins, StringComparison.Ordinal));

    public static IEnumerable<T> Inside<T>(Group group) where T : Element =>
        group.Children.SelectMany(child => child is Group inner ? Inside<T>(inner) : child is T wanted ? [wanted] : Enumerable.Empty<T>());

    public static IEnumerable<string> Words(Picture picture) => picture.Flat.OfType<Text>().Select(text => text.Words);

    /// <summary>Every pair of texts that share more than a hair.</summary>
    public static IEnumerable<string> OverlappingTexts(Picture picture)
    {
        ImmutableArray<Text> texts = [.. picture.Flat.OfType<Text>()];
        for (int i = 0; i < texts.Length; i++)
            for (int k = i + 1; k < texts.Length; k++)
                if (texts[i].Area.Grown(-0.3).Overlaps(texts[k].Area.Grown(-0.3))) yield return $"'{texts[i].Words}' and '{texts[k].Words}'";
    }

    /// <summary>Every label in a strip that lies on a curve of that strip, the ceiling among them.</summary>
    public static IEnumerable<string> LabelsOnCurves(Picture picture, IEnumerable<string> people)
    {
        foreach (string person in people)
        {
            ImmutableArray<Text> labels = [.. Groups(picture, $"label-{person}-").SelectMany(Inside<Text>)];
            foreach (string curve in new[] { "return", "everyone", "armless", "otherwise", "ceiling" })
                foreach (Group group in Groups(picture, $"{curve}-{person}"))
                {
                    IEnumerable<(ImmutableArray<Spot> Spots, Stroke Stroke)> lines = Inside<Trail>(group).Where(trail => trail.Stroke is not null).Select(trail => (trail.Spots, trail.Stroke!))
                        .Concat(Inside<Line>(group).Select(line => (ImmutableArray.Create(line.From, line.To), line.Stroke)));
                    foreach ((ImmutableArray<Spot> spots, Stroke stroke) in lines)
                        for (int i = 1; i < spots.Length; i++)
                            foreach (Text label in labels)
                                if (label.Area.Grown(stroke.Width / 2).Meets(spots[i - 1], spots[i])) yield return $"'{label.Words}' of {person} on {group.Id}";
                }
        }
    }

    /// <summary>Every leader that runs through a text.</summary>
    public static IEnumerable<string> LeadersThroughTexts(Picture picture)
    {
        ImmutableArray<Text> texts = [.. Groups(picture, "label-").SelectMany(Inside<Text>)];
        return from label in Groups(picture, "label-")
               from leader in Inside<Line>(label)
               from text in texts
               where text.Area.Grown(-0.5).Meets(leader.From, leader.To)
               select $"the leader of '{label.Title}' through '{text.Words}'";
    }

    /// <summary>The colour under a point when an element comes to be drawn: the areas before it, one on the other.</summary>
    public static Ink Background(Picture picture, Element above, Spot at)
    {
        (double red, double green, double blue) = (255, 255, 255);
        foreach (Element element in picture.Flat)
        {
            if (ReferenceEquals(element, above)) break;
            if (FillAt(element, at) is not { } ink) continue;
            red += (ink.Red - red) * ink.Opacity;
            green += (ink.Green - green) * ink.Opacity;
            blue += (ink.Blue - blue) * ink.Opacity;
        }
        return new((byte)Math.Round(red), (byte)Math.Round(green), (byte)Math.Round(blue));
    }

    private static Ink? FillAt(Element element, Spot at) => element switch
    {
        Box { Fill: SolidFill fill } box when box.Area.Meets(at, at) => fill.Ink,
        Disc { Fill: SolidFill fill } disc when Square(disc.Centre.X - at.X) + Square(disc.Centre.Y - at.Y) <= Square(disc.Radius) => fill.Ink,
        Trail { Fill: SolidFill fill } trail when IsInside(trail.Spots, at) => fill.Ink,
        _ => null,
    };

    private static double Square(double value) => value * value;

    private static bool IsInside(ImmutableArray<Spot> outline, Spot at)
    {
        int winding = 0; // the non-zero rule, as SVG fills
        for (int i = 0; i < outline.Length; i++)
        {
            (Spot a, Spot b) = (outline[i], outline[(i + 1) % outline.Length]);
            double side = (b.X - a.X) * (at.Y - a.Y) - (b.Y - a.Y) * (at.X - a.X);
            if (a.Y <= at.Y && b.Y > at.Y && side > 0) winding++;
            if (a.Y > at.Y && b.Y <= at.Y && side < 0) winding--;
        }
        return winding != 0;
    }
}
