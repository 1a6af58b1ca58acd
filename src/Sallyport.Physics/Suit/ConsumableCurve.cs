using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>What of a consumable was used up to a moment.</summary>
/// <param name="At">The moment.</param>
/// <param name="Used">In the unit of the consumable, since the suit was full.</param>
public sealed record CurvePoint(Pet At, Estimate Used);

/// <summary>The use of one consumable over PET: straight lines between its points.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Aboard">What the full suit holds, in the unit of the consumable.</param>
/// <param name="Reserve">What must be left at the start of repress.</param>
/// <param name="ReserveRate">The rate the reserve is reckoned with, its unit a second.</param>
/// <param name="RepressStart">When repress starts in the plan. Who must stay out longer is taken to go on at the reserve's rate from then.</param>
/// <param name="Starts">When it first is used; null when it never is.</param>
/// <param name="Points">At the ends of the stretches of the plan, rising in time; at least two.</param>
public sealed record ConsumableCurve(
    Consumable Kind, double Aboard, double Reserve, Estimate ReserveRate, Pet RepressStart, Pet? Starts, ImmutableArray<CurvePoint> Points)
{
    /// <summary>What is used by a moment of the plan.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Before the first point or after the last, where nothing is known.</exception>
    public Estimate UsedAt(Pet at)
    {
        if (at < Points[0].At || at > Points[^1].At)
            throw new ArgumentOutOfRangeException(nameof(at), at, $"expected a moment from {Points[0].At} to {Points[^1].At}");
        int next = 1;
        while (Points[next].At < at) next++;
        CurvePoint before = Points[next - 1], after = Points[next];
        double share = (at.Seconds - (double)before.At.Seconds) / (after.At.Seconds - (double)before.At.Seconds);
        double Line(Level level) => before.Used[level] + (after.Used[level] - before.Used[level]) * share;
        // Three lines that start and end in order stay in order, but for a last bit.
        double likely = Line(Level.Likely);
        return new(Math.Min(Line(Level.Low), likely), likely, Math.Max(Line(Level.High), likely));
    }

    /// <summary>What is left at a moment, below zero when more is needed than there is; the high level is the one of high use, so that least is left.</summary>
    public double LeftAt(Pet at, Level use) => Aboard - UsedAt(at)[use];

    /// <summary>The last whole second at which the reserve is still whole, should repress not start before: by the plan until its own start of
    /// repress, then at the reserve's rate. The first moment of the curve when the reserve is broken already then.</summary>
    /// <param name="use">For safety, the high level.</param>
    /// <returns>Null when use never reaches it, within the ten million seconds that durations are good for.</returns>
    public Pet? ReserveReached(Level use)
    {
        double limit = Aboard - Reserve;
        if (Points[0].Used[use] > limit) return Points[0].At;
        for (int i = 1; i < Points.Length && Points[i - 1].At < RepressStart; i++)
        {
            Pet end = Points[i].At < RepressStart ? Points[i].At : RepressStart;
            double before = Points[i - 1].Used[use], after = UsedAt(end)[use];
            if (after <= limit) continue;
            double seconds = ((double)end.Seconds - Points[i - 1].At.Seconds) * (limit - before) / (after - before);
            return Points[i - 1].At.Plus(Whole(seconds));
        }
        double beyond = (limit - UsedAt(RepressStart)[use]) / ReserveRate[use];
        return beyond <= 1e7 ? RepressStart.Plus(Whole(beyond)) : null;
    }

    /// <summary>Time from a moment until the reserve is reached; below zero when it was reached before. Null when it never is.</summary>
    public Duration? TimeToReserve(Pet at, Level use) => ReserveReached(use)?.Since(at);

    /// <summary>How long what is left at a moment lasts at the reserve's high rate, rounded down: what the rule of the reserve measures at the
    /// start of repress. None when nothing is left; null when nothing uses it then.</summary>
    public Duration? LastsFrom(Pet at)
    {
        double seconds = Math.Max(0, LeftAt(at, Level.High)) / ReserveRate.High;
        return seconds <= 1e7 ? Whole(seconds) : null;
    }

    // The last bits of a quotient are forgiven as in Duration.CeilingFromSeconds.
    private static Duration Whole(double seconds) => Duration.FromSeconds((int)Math.Floor(seconds + 1e-9));
}
