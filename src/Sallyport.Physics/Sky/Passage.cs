namespace Sallyport.Physics;

/// <summary>A stretch of time in which something holds.</summary>
/// <param name="From">Its beginning, s of PET, good to 0.1 s.</param>
/// <param name="To">Its end, s of PET.</param>
/// <param name="CutAtStart">It began before the span that was looked at, so <paramref name="From"/> is only where looking began.</param>
/// <param name="CutAtEnd">It goes on after the span, so <paramref name="To"/> is only where looking ended.</param>
public readonly record struct Passage(double From, double To, bool CutAtStart, bool CutAtEnd)
{
    /// <summary>Its length, s.</summary>
    public double Seconds => To - From;
}
