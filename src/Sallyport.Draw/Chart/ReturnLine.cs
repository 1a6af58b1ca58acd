using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>A return time on the chart: its curve in pixels, and any part of it.</summary>
internal sealed class ReturnLine(ReturnCurve curve, TimeAxis axis, Func<double, double> y)
{
    public ImmutableArray<ReturnPoint> Points => curve.Points;

    public bool IsEmpty => curve.Points.IsEmpty;

    public Pet From => curve.Points[0].At;

    public Pet To => curve.Points[^1].At;

    public ImmutableArray<Spot> Whole => [.. curve.Points.Select(point => Spot(point.At, point.Seconds))];

    /// <summary>The part from one moment to another: after a jump at its start, before a jump at its end.</summary>
    public ImmutableArray<Spot> Part(Pet from, Pet to)
    {
        ImmutableArray<Spot>.Builder part = ImmutableArray.CreateBuilder<Spot>();
        part.Add(Spot(from, After(from)));
        for (int i = FirstFrom(from.Plus(Duration.FromSeconds(1))); i < Points.Length && Points[i].At < to; i++) part.Add(Spot(Points[i].At, Points[i].Seconds));
        part.Add(Spot(to, Before(to)));
        return part.ToImmutable();
    }

    /// <summary>Seconds from a moment on.</summary>
    public double After(Pet at)
    {
        int last = FirstFrom(at.Plus(Duration.FromSeconds(1))) - 1;
        if (last < 0) return Points[0].Seconds;
        return last + 1 < Points.Length ? Between(Points[last], Points[last + 1], at) : Points[last].Seconds;
    }

    /// <summary>Seconds up to a moment.</summary>
    public double Before(Pet at)
    {
        int next = FirstFrom(at);
        if (next == Points.Length) return Points[^1].Seconds;
        return next > 0 ? Between(Points[next - 1], Points[next], at) : Points[0].Seconds;
    }

    /// <summary>The first point that is not before a moment; their number where there is none.</summary>
    private int FirstFrom(Pet at)
    {
        int low = 0, high = Points.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (Points[middle].At < at) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    public Spot Spot(Pet at, double seconds) => new(axis.X(at), y(seconds));

    private static double Between(ReturnPoint a, ReturnPoint b, Pet at) =>
        a.At == b.At ? b.Seconds : a.Seconds + (b.Seconds - a.Seconds) * at.Since(a.At).Seconds / b.At.Since(a.At).Seconds;
}
