using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What the proof says against the best of the plans that it refused.</summary>
internal static class RefusedText
{
    /// <summary>So many rules are told.</summary>
    private const int Told = 3;

    /// <summary>The plan of which least is broken, and what breaks, a line each rule; nothing when none of them breaks anything.</summary>
    public static ImmutableArray<string> Of(Scenario scenario, IEnumerable<ProvenPlan> refused)
    {
        ProvenPlan? nearest = refused.Where(plan => !plan.Verdict.Clean).OrderBy(plan => Broken(plan).Length).ThenByDescending(plan => PlanText.ValueOf(scenario, plan)).ThenBy(plan => plan.End).FirstOrDefault();
        if (nearest is null) return [];
        ImmutableArray<Finding> broken = Broken(nearest);
        Finding[] first = [.. broken.DistinctBy(finding => finding.Rule).Take(Told)];
        return
        [
            $"The nearest to one: {PlanText.InShort(scenario, nearest)}. The proof refuses it:",
            .. first.Select(finding => $"  - {finding.Rule}: {finding.Sentence}"),
            .. broken.Length > first.Length ? [string.Create(CultureInfo.InvariantCulture, $"  and {broken.Length - first.Length} more")] : Array.Empty<string>(),
        ];
    }

    private static ImmutableArray<Finding> Broken(ProvenPlan plan) => [.. plan.Verdict.Findings.Where(finding => finding.Severity == Severity.Broken)];
}
