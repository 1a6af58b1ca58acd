using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>The part of a leg in which its person is led from inside: from the first led step to the end of the last one.</summary>
/// <param name="First">Index of the first led step.</param>
/// <param name="Last">Index of the last one.</param>
/// <param name="Before">Likely seconds of the steps before the first.</param>
/// <param name="After">Likely seconds of the steps after the last.</param>
internal sealed record VoiceStretch(int First, int Last, int Before, int After)
{
    /// <summary>The stretch of a leg; null when nobody leads any of it.</summary>
    public static VoiceStretch? Of(Leg leg)
    {
        int[] led = [.. Enumerable.Range(0, leg.Steps.Length).Where(i => leg.Steps[i].Led)];
        return led.Length == 0 ? null : new(led[0], led[^1], Seconds(leg.Steps.Take(led[0])), Seconds(leg.Steps.Skip(led[^1] + 1)));
    }

    private static int Seconds(IEnumerable<Step> steps) => steps.Sum(step => step.Time.Likely.Seconds);
}
