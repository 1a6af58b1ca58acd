namespace Sallyport.Model;

/// <summary>Which end of an estimate is meant.</summary>
public enum Level
{
    /// <summary>As little as is thought possible in practice.</summary>
    Low,
    /// <summary>What the plan expects.</summary>
    Likely,
    /// <summary>As much as is thought possible in practice; what safety is reckoned with.</summary>
    High,
}

/// <summary>A figure that is not known exactly: low ≤ likely ≤ high, all finite. <c>default</c> is exactly zero.</summary>
public readonly record struct Estimate
{
    /// <summary>An estimate of three figures.</summary>
    /// <exception cref="ArgumentException">One is not finite, or they do not rise.</exception>
    public Estimate(double low, double likely, double high)
    {
        if (!double.IsFinite(low) || !double.IsFinite(likely) || !double.IsFinite(high) || low > likely || likely > high)
            throw new ArgumentException($"expected finite low <= likely <= high, found {low}, {likely}, {high}");
        (Low, Likely, High) = (low, likely, high);
    }

    /// <summary>The low figure.</summary>
    public double Low { get; }

    /// <summary>The likely figure.</summary>
    public double Likely { get; }

    /// <summary>The high figure.</summary>
    public double High { get; }

    /// <summary>One of the three figures.</summary>
    public double this[Level level] => level switch { Level.Low => Low, Level.Likely => Likely, _ => High };

    /// <summary>A figure taken as exact.</summary>
    public static Estimate Exactly(double value) => new(value, value, value);

    /// <summary>The sum, low with low and high with high: as wide as it can be, as if everything went one way at once.</summary>
    public Estimate Plus(Estimate other) => new(Low + other.Low, Likely + other.Likely, High + other.High);

    /// <summary>The product, low with low and high with high.</summary>
    /// <exception cref="ArgumentException">One of the two reaches below zero, where low times low is not the least.</exception>
    public Estimate Times(Estimate other)
    {
        if (Low < 0 || other.Low < 0) throw new ArgumentException($"expected no figure below zero, found {Low} and {other.Low}");
        return new(Low * other.Low, Likely * other.Likely, High * other.High);
    }

    /// <summary>The product with a factor that is not below zero.</summary>
    public Estimate Times(double factor) => Times(Exactly(factor));
}
