using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>What the readings of a walk say of one person: the factor before and after, and the first reserve with each.</summary>
/// <param name="Person">Who.</param>
/// <param name="Readings">How many there are.</param>
/// <param name="First">The first of them.</param>
/// <param name="Last">The last of them.</param>
/// <param name="Before">The factor that the scenario tells.</param>
/// <param name="After">The factor with the readings: one in twenty lies below the low one, one in twenty above the high one.</param>
/// <param name="CutOffBefore">When the first reserve is reached at high use; null for never.</param>
/// <param name="CutOffAfter">The same with the factor after.</param>
public sealed record Refit(PersonId Person, int Readings, Pet First, Pet Last, Estimate Before, Estimate After, SuitCutOff? CutOffBefore, SuitCutOff? CutOffAfter)
{
    /// <summary>The factor's spread as the scenario tells it, low and high, taken as the twentieth below and the twentieth above; the rates of the classes of work
    /// may be off as a whole by the widest of their own spreads, so that no number of readings tells more than those are good for.</summary>
    /// <exception cref="ArgumentException">Readings that cannot be: see <see cref="PersonFactor.Refit"/>.</exception>
    internal static Refit Of(SuitWalk walk, ImmutableArray<OxygenReading> readings)
    {
        SuitProfile profile = walk.Profile;
        if (!(profile.PersonFactor.High > profile.PersonFactor.Low)) throw new ArgumentException($"{profile.Person}: the factor is told with no spread, so nothing that is read can move it");
        PersonFactor before = new(profile.PersonFactor.Likely, Spread(profile.PersonFactor));
        double rates = Enum.GetValues<Exertion>().Max(exertion => Spread(profile.Rates.Watts(exertion, Estimate.Exactly(1))));
        Estimate after = before.Refit(profile, walk.Use.Stretches, readings, rates).ToEstimate();
        SuitUse use = SuitUse.Over(profile with { PersonFactor = after }, walk.Use.Stretches, walk.RepressStart, SuitAmounts.None);
        return new(profile.Person, readings.Length, readings[0].At, readings[^1].At, profile.PersonFactor, after, walk.Use.CutOff(Level.High), use.CutOff(Level.High));
    }

    // One in twenty lies beyond, at either end.
    private static double Spread(Estimate of) => Math.Log(of.High / of.Low) / (2 * 1.6448536269514722);
}

/// <summary>Refits in words. A low figure is rounded down and a high one up.</summary>
public static class RefitText
{
    /// <summary>For the screen, below the sheet.</summary>
    public static string Screen(ImmutableArray<Refit> refits)
    {
        StringBuilder text = new();
        text.AppendLine();
        text.AppendLine("With the readings (primary oxygen alone; the other supplies follow from the factor)");
        foreach (Refit refit in refits)
        {
            text.AppendLine($"  {refit.Person}: {refit.Readings} readings from {refit.First} to {refit.Last}; factor {Three(refit.Before)} before, {Three(refit.After)} with them");
            text.AppendLine($"    first reserve reached at high use: {At(refit.CutOffBefore)} before, {At(refit.CutOffAfter)} with them. Repress must have started by then.");
        }
        return text.ToString().ReplaceLineEndings("\n");
    }

    private static string At(SuitCutOff? cutOff) => cutOff is null ? "never" : $"PET {cutOff.At} ({cutOff.Binds.InWords()})";

    private static string Three(Estimate of) => string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(of.Low * 1000 + 1e-9) / 1000:0.000} / {of.Likely:0.000} / {Math.Ceiling(of.High * 1000 - 1e-9) / 1000:0.000}");
}
