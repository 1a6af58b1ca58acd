using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>A label wanted in a strip.</summary>
/// <param name="Name">For its id.</param>
/// <param name="Words">All that it says, for the key and for readers.</param>
/// <param name="Middle">Where in time it stands.</param>
/// <param name="IsPlace">Whether it says only where somebody is or rides: it goes unsaid where there is no room.</param>
/// <param name="IsCounted">Whether it counts towards the labels an hour.</param>
/// <param name="Request">How it may be set and where.</param>
internal sealed record StripLabel(string Name, string Words, Pet Middle, bool IsPlace, bool IsCounted, LabelRequest Request);

/// <summary>Chooses what is named in a strip: legs first, then rides and places, and what binds the ceiling.</summary>
internal static class StripLabels
{
    private const double TitleSize = 12.5;
    private const double PlaceSize = 11.5;
    private const double WidestLine = 200;

    public static ImmutableArray<StripLabel> For(Strip strip, Sheet sheet, ImmutableArray<Stretch> stretches)
    {
        List<StripLabel> labels = [];
        Dictionary<JobId, Job> jobs = sheet.Scenario.Jobs.ToDictionary(job => job.Id);
        foreach (IGrouping<LegId, Stretch> runs in stretches.Where(stretch => stretch.Leg is not null).GroupBy(stretch => stretch.Leg!.Id))
        {
            Stretch longest = runs.MaxBy(run => run.Seconds)!;
            string place = sheet.PlaceName(longest.Leg!);
            Worth worth = jobs.TryGetValue(longest.Leg!.Job, out Job? job) ? job.Worth : Worth.Should;
            double priority = 1000 - 100 * (int)worth + Math.Min(90, longest.Seconds / 60.0);
            labels.Add(Label(strip, longest, $"{longest.Leg.Id}", $"{longest.From} {longest.Leg.Title}, {place}", LegShapes(longest.Leg.Title, place), priority, false));
        }
        foreach (Stretch ride in stretches.Where((stretch, i) => stretch.Going == Going.Ride && !Comes(stretches, i, -1, other => other.Arm == stretch.Arm)))
            labels.Add(Label(strip, ride, $"ride-{ride.Arm}", $"{ride.From} {sheet.Words.Say("drawn.rides", ride.Arm)}", [Quiet(sheet.Words.Say("drawn.rides", ride.Arm))], 200 + ride.Seconds / 60.0, true));
        HashSet<GripId> hatches = [.. sheet.Scenario.Station.Airlocks.Select(airlock => airlock.Grip)];
        foreach (Stretch stop in stretches.Where((stretch, i) => stretch.At is { } at && !hatches.Contains(at) && !IsSaid(sheet, stretches, i)))
            labels.Add(Label(strip, stop, $"at-{stop.At}", $"{stop.From} {sheet.PlaceName(stop.At!.Value)}", [Quiet(sheet.PlaceName(stop.At!.Value))], 100 + stop.Seconds / 60.0, true));
        int run = 0;
        foreach ((string binds, ImmutableArray<Spot> line) in strip.CeilingRuns())
        {
            string words = sheet.Words.Say("drawn.binds", binds);
            ImmutableArray<LabelShape> shapes = [new([new(words, Face.Regular, 11.5, Palette.Ceiling)], 0), .. Halved(words)];
            labels.Add(new($"ceiling-{++run}", words, default, false, false, new(shapes, line, 2000, 120)));
        }
        if (sheet.BothLimit is { } limit)
        {
            string words = sheet.Words.Say("drawn.limitin", Sheet.MinutesDown(limit));
            labels.Add(new("everyone-limit", words, default, false, false, new([Quiet(words)], strip.BothLimitLine(limit), 1500, 60)));
        }
        return [.. labels];
    }

    /// <summary>Whether no hour holds more labels than allowed.</summary>
    public static bool KeepsWithin(int most, IEnumerable<Pet> moments)
    {
        int[] seconds = [.. moments.Select(moment => moment.Seconds).Order()];
        for (int i = 0; i + most < seconds.Length; i++)
            if (seconds[i + most] - seconds[i] < 3600) return false;
        return true;
    }

    /// <summary>Whether the leg before or after is at the same place, and so names it.</summary>
    private static bool IsSaid(Sheet sheet, ImmutableArray<Stretch> stretches, int i)
    {
        string place = sheet.PlaceName(stretches[i].At!.Value);
        bool Same(Stretch other) => other.Leg is { } leg && sheet.PlaceName(leg) == place;
        return Comes(stretches, i, -1, Same) || Comes(stretches, i, 1, Same);
    }

    /// <summary>Whether the nearest leg or ride on one side is as asked.</summary>
    private static bool Comes(ImmutableArray<Stretch> stretches, int from, int direction, Func<Stretch, bool> asked)
    {
        int i = from + direction;
        while (i >= 0 && i < stretches.Length && stretches[i].Leg is null && stretches[i].Arm is null) i += direction;
        return i >= 0 && i < stretches.Length && asked(stretches[i]);
    }

    private static StripLabel Label(Strip strip, Stretch stretch, string name, string words, ImmutableArray<LabelShape> shapes, double priority, bool isPlace)
    {
        Pet middle = Pet.FromSeconds((stretch.From.Seconds + stretch.To.Seconds) / 2);
        return new(name, words, middle, isPlace, true, new(shapes, strip.PartOf(stretch.From, stretch.To), priority, isPlace ? 34 : 120));
    }

    private static LabelShape Quiet(string words) =>
        new([new(Lettering.Shorten(words, Face.Regular, PlaceSize, WidestLine), Face.Regular, PlaceSize, Palette.Quiet)], 0);

    private static ImmutableArray<LabelShape> LegShapes(string title, string place)
    {
        LabelLine placeLine = new(Lettering.Shorten(place, Face.Regular, PlaceSize, WidestLine), Face.Regular, PlaceSize, Palette.Quiet);
        ImmutableArray<LabelLine> one = [TitleLine(title)];
        ImmutableArray<LabelLine> two = [.. Lettering.Halve(title, Face.Bold, TitleSize).Select(TitleLine)];
        ImmutableArray<LabelShape>.Builder shapes = ImmutableArray.CreateBuilder<LabelShape>();
        if (Lettering.Measure(title, Face.Bold, TitleSize) <= WidestLine)
        {
            shapes.Add(new([.. one, placeLine], 0));
            shapes.Add(new(one, 45));
        }
        if (two.Length == 2)
        {
            shapes.Add(new([.. two, placeLine], 3));
            shapes.Add(new(two, 48));
        }
        if (shapes.Count == 0) shapes.Add(new([.. one, placeLine], 0));
        return shapes.ToImmutable();
    }

    private static LabelLine TitleLine(string words) => new(Lettering.Shorten(words, Face.Bold, TitleSize, WidestLine), Face.Bold, TitleSize, Palette.Words);

    private static ImmutableArray<LabelShape> Halved(string words)
    {
        IReadOnlyList<string> lines = Lettering.Halve(words, Face.Regular, 11.5);
        return lines.Count < 2 ? [] : [new([.. lines.Select(line => new LabelLine(line, Face.Regular, 11.5, Palette.Ceiling))], 4)];
    }
}
