using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>How often gloves are looked over and people rest, and how long that takes, s. What has no limit is never due.</summary>
internal sealed class PauseCase
{
    private PauseCase(Scenario scenario)
    {
        CheckEvery = EveryOf(scenario, "glove.check");
        RestEvery = scenario.Checks?.Rest is null ? SearchCase.Never : EveryOf(scenario, "work.rest");
        CanCheck = scenario.Checks?.Gloves is not null;
        CheckTakes = scenario.Checks?.Gloves?.Time.Time.Seconds ?? 0;
        RestTakes = scenario.Checks?.Rest?.Least.Seconds ?? 0;
        AfterRough = scenario.Checks?.Gloves is { AfterRough: true } && scenario.LimitOf("glove.check") is not null;
    }

    public int CheckEvery { get; }

    /// <summary>Whether checks can be put in; otherwise only steps are checks.</summary>
    public bool CanCheck { get; }

    public int CheckTakes { get; }

    /// <summary>Whether a check is due between a leg with a rough step and the next leg.</summary>
    public bool AfterRough { get; }

    public int RestEvery { get; }

    public int RestTakes { get; }

    /// <summary>The case of a scenario; null when nothing is ever due in it.</summary>
    public static PauseCase? Of(Scenario scenario)
    {
        PauseCase made = new(scenario);
        return made.CheckEvery == SearchCase.Never && made.RestEvery == SearchCase.Never ? null : made;
    }

    private static int EveryOf(Scenario scenario, string rule) =>
        scenario.LimitOf(rule) is { Value.Dimension: Dimension.Time } limit ? (int)Math.Floor(limit.Value.Value) : SearchCase.Never;
}

/// <summary>The checks of gloves inside a leg, and its rough steps; likely seconds from its start.</summary>
/// <param name="FirstCheck">The end of the first step that is a check; -1 for none.</param>
/// <param name="LastCheck">The end of the last one; -1 for none.</param>
/// <param name="BeginsWithCheck">Whether its first step is a check.</param>
/// <param name="LeavesRough">Whether a rough step follows the last check.</param>
internal readonly record struct GlovesInLeg(int FirstCheck, int LastCheck, bool BeginsWithCheck, bool LeavesRough)
{
    public static GlovesInLeg Of(Leg leg)
    {
        (int first, int last, int end, bool rough) = (-1, -1, 0, false);
        foreach (Step step in leg.Steps)
        {
            end += step.Time.Likely.Seconds;
            if (step.ChecksGloves) (first, last, rough) = (first < 0 ? end : first, end, false);
            rough |= step.Rough && !step.ChecksGloves;
        }
        return new(first, last, leg.Steps[0].ChecksGloves, rough);
    }
}
