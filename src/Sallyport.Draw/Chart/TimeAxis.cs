using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>The time axis that all strips and lanes share.</summary>
internal sealed class TimeAxis
{
    private static readonly int[] StepMinutes = [5, 10, 15, 30, 60, 120];
    private readonly DateTime zero;

    public TimeAxis(Pet from, Pet to, DateTime petZero, double left, double right)
    {
        (Left, Right, zero) = (left, right, petZero);
        double span = Math.Max(60, to.Since(from).Seconds);
        Step = StepMinutes[^1] * 60;
        foreach (int minutes in StepMinutes.Reverse())
            if (minutes * 60 / span * (right - left) >= 52) Step = minutes * 60;
        From = Pet.FromSeconds((int)Math.Floor(from.Seconds / (double)Step) * Step);
        int end = (int)Math.Ceiling(to.Seconds / (double)Step) * Step;
        To = Pet.FromSeconds(Math.Max(end, From.Seconds + Step));
    }

    public double Left { get; }

    public double Right { get; }

    public Pet From { get; }

    public Pet To { get; }

    /// <summary>From tick to tick, s.</summary>
    public int Step { get; }

    public IEnumerable<Pet> Ticks
    {
        get
        {
            for (int second = From.Seconds; second <= To.Seconds; second += Step) yield return Pet.FromSeconds(second);
        }
    }

    public double X(Pet pet) => Left + (Right - Left) * (pet.Seconds - From.Seconds) / (To.Seconds - From.Seconds);

    /// <summary>The part of an interval that the axis shows, in pixels; null when it shows none.</summary>
    public (double Left, double Right)? Shown(Pet from, Pet to)
    {
        Pet first = from < From ? From : from, last = to > To ? To : to;
        return first < last ? (X(first), X(last)) : null;
    }

    public string Utc(Pet pet) => zero.AddSeconds(pet.Seconds).ToString("HH:mm", CultureInfo.InvariantCulture);

    public DateOnly Date(Pet pet) => DateOnly.FromDateTime(zero.AddSeconds(pet.Seconds));

    /// <summary>Lines down the chart, stronger at full hours.</summary>
    public ImmutableArray<Element> Grid(double top, double bottom) =>
        [.. Ticks.Select(tick => new Line(new(X(tick), top), new(X(tick), bottom), new(Palette.Grid, tick.Seconds % 3600 == 0 ? 1 : 0.5)))];

    /// <summary>One row of PET at the ticks.</summary>
    public IEnumerable<Element> PetRow(double baseline) => Ticks.Select(tick => new Text(
        new(X(tick), baseline), tick.ToString(), tick.Seconds % 3600 == 0 ? Face.Bold : Face.Regular, 12.5, Palette.Words, Anchor.Middle));
}
