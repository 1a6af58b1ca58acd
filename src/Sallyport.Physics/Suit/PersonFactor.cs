using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Oxygen left, read during a walk.</summary>
/// <param name="At">When.</param>
/// <param name="LeftKilograms">Primary oxygen that can still be drawn.</param>
/// <param name="ErrorKilograms">Standard error of the reading, above zero.</param>
public sealed record OxygenReading(Pet At, double LeftKilograms, double ErrorKilograms);

/// <summary>What a person's metabolic rate is over that of factor one, as a log-normal.</summary>
/// <param name="Median">The factor expected, above zero.</param>
/// <param name="LogSigma">Standard deviation of its natural logarithm, above zero.</param>
public sealed record PersonFactor(double Median, double LogSigma)
{
    // One in twenty lies beyond, at either end.
    private const double NormalQuantile95 = 1.6448536269514722;

    /// <summary>The factor that one in twenty lies below, the median, and the one that one in twenty lies above.</summary>
    public Estimate ToEstimate()
    {
        if (!(Median > 0 && double.IsFinite(Median))) throw new ArgumentException($"expected a median factor above zero, found {Median}");
        if (!(LogSigma > 0 && LogSigma <= 2)) throw new ArgumentException($"expected a spread above 0 and at most 2, found {LogSigma}");
        double spread = Math.Exp(NormalQuantile95 * LogSigma);
        return new(Median / spread, Median, Median * spread);
    }

    /// <summary>The factor after readings of oxygen: Bayes with a log-normal before, and a straight line through the readings against what a person of
    /// factor one would have used.</summary>
    /// <param name="profile">The person; its own factor is not used.</param>
    /// <param name="stretches">The plan as it was walked, over all readings.</param>
    /// <param name="readings">At least two, rising in time.</param>
    /// <param name="modelLogSigma">How far the rates of the classes of work may be off as a whole, as a standard deviation of the logarithm; it keeps many
    /// readings from telling more than the rates are good for.</param>
    /// <exception cref="ArgumentException">Readings out of order, too few, outside the plan, more left than was aboard, rising by more than three of
    /// their errors, or none of the body's use between them.</exception>
    public PersonFactor Refit(SuitProfile profile, ImmutableArray<SuitStretch> stretches, ImmutableArray<OxygenReading> readings, double modelLogSigma)
    {
        _ = ToEstimate();
        if (!(modelLogSigma >= 0)) throw new ArgumentOutOfRangeException(nameof(modelLogSigma), modelLogSigma, "expected a spread not below zero");
        RequireSound(profile, readings);
        ConsumableCurve Oxygen(SuitProfile of) =>
            SuitUse.Over(of, stretches, stretches.IsEmpty ? default : stretches[^1].To, SuitAmounts.None).Of(Consumable.Oxygen);
        ConsumableCurve all = Oxygen(profile with { PersonFactor = Estimate.Exactly(1) });
        ConsumableCurve body = Oxygen(profile with { PersonFactor = Estimate.Exactly(1), OxygenLeakKilogramsPerSecond = default });
        // Left + leaked = what was there at first - factor x burnt by a person of factor one: weighted least squares, the first unknown.
        ImmutableArray<(double Burnt, double Left, double Weight)> rows = [.. readings.Select(reading =>
        {
            double burnt = body.UsedAt(reading.At).Likely, leaked = all.UsedAt(reading.At).Likely - burnt;
            return (burnt, reading.LeftKilograms + leaked, 1 / (reading.ErrorKilograms * reading.ErrorKilograms));
        })];
        if (rows[^1].Burnt <= rows[0].Burnt) throw new ArgumentException($"{profile.Person}: the suit was on its own oxygen at no time between the readings");
        double meanBurnt = rows.Sum(row => row.Weight * row.Burnt) / rows.Sum(row => row.Weight);
        double squares = rows.Sum(row => row.Weight * (row.Burnt - meanBurnt) * (row.Burnt - meanBurnt));
        double factor = -rows.Sum(row => row.Weight * (row.Burnt - meanBurnt) * row.Left) / squares;
        if (factor <= 0) throw new ArgumentException($"{profile.Person}: by the readings less oxygen was used than leaks");
        double told = 1 / (squares * factor * factor) + modelLogSigma * modelLogSigma, before = LogSigma * LogSigma;
        double variance = 1 / (1 / before + 1 / told);
        return new(Math.Exp(variance * (Math.Log(Median) / before + Math.Log(factor) / told)), Math.Sqrt(variance));
    }

    private static void RequireSound(SuitProfile profile, ImmutableArray<OxygenReading> readings)
    {
        if (readings.Length < 2) throw new ArgumentException($"{profile.Person}: expected at least two readings of oxygen, found {readings.Length}");
        for (int i = 0; i < readings.Length; i++)
        {
            OxygenReading reading = readings[i];
            if (!(reading.ErrorKilograms > 0)) throw new ArgumentException($"{profile.Person}: the reading at {reading.At} has no error above zero");
            if (!(reading.LeftKilograms >= 0 && reading.LeftKilograms <= profile.Aboard.Oxygen + 3 * reading.ErrorKilograms))
                throw new ArgumentException($"{profile.Person}: {reading.LeftKilograms} kg of oxygen left at {reading.At}, of {profile.Aboard.Oxygen} kg aboard");
            if (i == 0) continue;
            OxygenReading earlier = readings[i - 1];
            if (reading.At <= earlier.At) throw new ArgumentException($"{profile.Person}: the readings are out of order: {reading.At} after {earlier.At}");
            double error = Math.Sqrt(reading.ErrorKilograms * reading.ErrorKilograms + earlier.ErrorKilograms * earlier.ErrorKilograms);
            if (reading.LeftKilograms - earlier.LeftKilograms > 3 * error)
                throw new ArgumentException($"{profile.Person}: oxygen left rises from {earlier.At} to {reading.At}");
        }
    }
}
