namespace Sallyport.Model;

/// <summary>The least and the most that a figure may be, both still allowed.</summary>
/// <param name="Least">The least, in the canonical unit of its dimension.</param>
/// <param name="Most">The most, in the same unit; no less than <paramref name="Least"/>.</param>
/// <param name="Text">As written, such as <c>10 ft-lbf to 14 ft-lbf</c>.</param>
public readonly record struct Band(double Least, double Most, string Text)
{
    // Far below any figure of a file, far above the last bit of a conversion of units.
    private const double Forgiven = 1e-9;

    /// <summary>Whether a figure lies in the band, its ends included.</summary>
    public bool Takes(double value) => value >= Least - Forgiven * Math.Abs(Least) && value <= Most + Forgiven * Math.Abs(Most);

    /// <summary>How far inside (or, negative, outside) a figure is.</summary>
    public double Margin(double value) => Math.Min(value - Least, Most - value);

    /// <inheritdoc/>
    public override string ToString() => Text;
}
