using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>The tension after a part.</summary>
/// <param name="Part">Which part.</param>
/// <param name="EndMinutes">Minutes since the start of the first one, at its end.</param>
/// <param name="TensionPascals">Inert-gas tension at its end.</param>
/// <param name="Ratio">That over the lowest regulated suit pressure.</param>
public sealed record PrebreatheStep(PrebreathePart Part, double EndMinutes, double TensionPascals, double Ratio);

/// <summary>How long a prebreathe must go on for its breaks.</summary>
/// <param name="BreakMinutes">All breaks together.</param>
/// <param name="ByRuleMinutes">What the stated rule asks for, beyond what was planned without breaks.</param>
/// <param name="ByTensionMinutes">What the tension alone asks for, with the gas breathed before each break, to be where it was at its start; null when
/// that gas never gets there.</param>
public sealed record BreakPenalty(double BreakMinutes, double ByRuleMinutes, double? ByTensionMinutes)
{
    /// <summary>The longer of the two; null when a break cannot be paid back.</summary>
    public double? Minutes => ByTensionMinutes is { } minutes ? Math.Max(ByRuleMinutes, minutes) : null;
}

/// <summary>A prebreathe reckoned through.</summary>
/// <param name="Steps">One a part.</param>
/// <param name="Penalty">For its breaks; it is not yet in the steps, whose minutes are as told.</param>
/// <param name="IsForInformationOnly">True with exercise in it: such protocols are approved as whole sequences, which this compartment does not describe,
/// so the ratio neither clears nor condemns them.</param>
/// <param name="StartIs">What the tension at the start stands for, to be shown beside every ratio.</param>
/// <param name="WaterVapourPascals">Water vapour taken off the pressure breathed, to be shown beside every ratio; zero is dry gas.</param>
public sealed record PrebreatheResult(
    ImmutableArray<PrebreatheStep> Steps, BreakPenalty Penalty, bool IsForInformationOnly, string StartIs, double WaterVapourPascals);

/// <summary>Inert gas in the body as one compartment that halves its distance to the gas breathed in a stated time.</summary>
/// <remarks>P(t) = Pa + (P₀ − Pa) 2^(−t/half-time), ratio = P / suit pressure (reference "inert-gas"). The flight surgeon decides.</remarks>
/// <param name="HalfTimeMinutes">360 in the published form.</param>
/// <param name="StartPascals">Tension at the start of the first part.</param>
/// <param name="StartIs">What that stands for, in words, such as <c>0.79 of 14.7 psi, dry</c>.</param>
/// <param name="SuitPascals">Lowest regulated suit pressure.</param>
/// <param name="WaterVapourPascals">Water vapour taken off the pressure breathed; zero, for dry gas, gives the higher ratio.</param>
public sealed record InertGas(double HalfTimeMinutes, double StartPascals, string StartIs, double SuitPascals, double WaterVapourPascals = 0)
{
    /// <summary>The compartment that a scenario tells of.</summary>
    /// <param name="plan">The prebreathe.</param>
    /// <param name="suitPascals">Lowest regulated suit pressure, where the plan does not say it.</param>
    public static InertGas Of(PrebreathePlan plan, double suitPascals) => new(plan.HalfTimeMinutes, plan.StartPascals, plan.StartIs, suitPascals, plan.WaterVapourPascals);

    /// <summary>What a minute of break costs by the limit of the rule, in minutes; one where there is no limit in time.</summary>
    public static double PaidBack(Limit? limit) => limit is { Value.Dimension: Dimension.Time } paid ? paid.Value.Value / 60 : 1;

    /// <summary>Minutes breathed, breaks aside, beyond what was planned without breaks; below zero when less was breathed.</summary>
    public static double BeyondMinutes(PrebreathePlan plan) =>
        plan.WithoutBreaks is { } planned ? plan.Parts.Where(part => !part.IsBreak).Sum(part => part.Minutes) - planned.Seconds / 60.0 : 0;

    /// <summary>Reckons a sequence of parts through.</summary>
    /// <param name="parts">In order; at least one.</param>
    /// <param name="paidBack">What a minute of break costs by the stated rule, in minutes more: at least 1.</param>
    /// <exception cref="ArgumentException">No part, or a figure out of its range, named with the number of its part.</exception>
    public PrebreatheResult Over(ImmutableArray<PrebreathePart> parts, double paidBack)
    {
        RequireSound();
        if (parts.IsEmpty) throw new ArgumentException("expected at least one part of the prebreathe");
        if (!(paidBack >= 1 && double.IsFinite(paidBack)))
            throw new ArgumentOutOfRangeException(nameof(paidBack), paidBack, "expected at least one minute for a minute of break");
        ImmutableArray<PrebreatheStep>.Builder steps = ImmutableArray.CreateBuilder<PrebreatheStep>();
        double tension = StartPascals, minutes = 0, breaks = 0;
        double? byTension = 0;
        for (int i = 0; i < parts.Length; i++)
        {
            RequireSound(parts[i], i + 1);
            double before = tension;
            tension = After(tension, parts[i]);
            minutes += parts[i].Minutes;
            if (parts[i].IsBreak)
            {
                breaks += parts[i].Minutes;
                PrebreathePart gas = parts.Take(i).LastOrDefault(part => !part.IsBreak) ?? throw new ArgumentException($"part {i + 1}: a break with nothing before it to break");
                byTension += MinutesTo(before, tension, gas);
            }
            steps.Add(new(parts[i], minutes, tension, tension / SuitPascals));
        }
        return new(steps.ToImmutable(), new(breaks, paidBack * breaks, byTension), parts.Any(part => part.Exercise), StartIs, WaterVapourPascals);
    }

    /// <summary>Minutes of one gas that bring the tension of the start down to a ratio; zero when it is there already.</summary>
    /// <param name="ratio">The ratio wanted, above zero.</param>
    /// <param name="pascals">Absolute pressure breathed at.</param>
    /// <param name="oxygenShare">Share of oxygen in the dry gas breathed, 0 to 1.</param>
    /// <returns>Exact minutes, to be rounded up where shown; null when that gas never gets there.</returns>
    public double? MinutesToRatio(double ratio, double pascals, double oxygenShare)
    {
        RequireSound();
        if (!(ratio > 0)) throw new ArgumentOutOfRangeException(nameof(ratio), ratio, "expected a ratio above zero");
        PrebreathePart gas = new(pascals, oxygenShare, 1);
        RequireSound(gas, 1);
        return MinutesTo(ratio * SuitPascals, StartPascals, gas);
    }

    /// <summary>Minutes of a gas that bring a tension down to another; null when it never does.</summary>
    private double? MinutesTo(double wanted, double tension, PrebreathePart gas)
    {
        if (tension <= wanted) return 0;
        double breathed = Breathed(gas);
        return wanted <= breathed ? null : HalfTimeMinutes * Math.Log2((tension - breathed) / (wanted - breathed));
    }

    private double After(double tension, PrebreathePart part)
    {
        double breathed = Breathed(part);
        return breathed + (tension - breathed) * Math.Pow(2, -part.Minutes / HalfTimeMinutes);
    }

    private double Breathed(PrebreathePart part) => (part.Pascals - WaterVapourPascals) * (1 - part.OxygenShare);

    private void RequireSound()
    {
        if (!(HalfTimeMinutes > 0 && double.IsFinite(HalfTimeMinutes))) throw new ArgumentException($"expected a half-time above zero, found {HalfTimeMinutes} min");
        if (!(StartPascals >= 0 && double.IsFinite(StartPascals))) throw new ArgumentException($"expected a tension not below zero, found {StartPascals} Pa");
        if (!(SuitPascals > 0 && double.IsFinite(SuitPascals))) throw new ArgumentException($"expected a suit pressure above zero, found {SuitPascals} Pa");
        if (!(WaterVapourPascals >= 0)) throw new ArgumentException($"expected water vapour not below zero, found {WaterVapourPascals} Pa");
    }

    private void RequireSound(PrebreathePart part, int number)
    {
        if (!(part.Pascals > WaterVapourPascals && double.IsFinite(part.Pascals)))
            throw new ArgumentException($"part {number}: {part.Pascals} Pa is not above the water vapour of {WaterVapourPascals} Pa");
        if (!(part.OxygenShare is >= 0 and <= 1)) throw new ArgumentException($"part {number}: an oxygen share of {part.OxygenShare} is not within 0 to 1");
        if (!(part.Minutes > 0 && double.IsFinite(part.Minutes))) throw new ArgumentException($"part {number}: {part.Minutes} min is not above zero");
    }
}
