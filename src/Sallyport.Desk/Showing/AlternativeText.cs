using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>A further plan beside the first one, in a line.</summary>
public static class AlternativeText
{
    /// <summary>What it is worth, when it ends, and how it differs.</summary>
    public static string Of(Scenario scenario, ProvenPlan other, ProvenPlan first) => string.Create(CultureInfo.InvariantCulture,
        $"{other.Name}: {(other.Verdict.Clean ? "clean" : "NOT CLEAN")}, {string.Join(", ", scenario.Sortie.Objectives.Select(one => Measured(scenario, other, one)).OfType<string>())}; {Alternatives.Differs(other, first)}.");

    /// <summary>How a plan stands with one objective, in the order that the scenario gives; null for balance, which nobody asks for in words.</summary>
    private static string? Measured(Scenario scenario, ProvenPlan plan, Objective objective) => objective switch
    {
        Objective.Value => $"value {PlanText.ValueOf(scenario, plan)}",
        Objective.End => $"ends PET {plan.End}",
        Objective.Walking => $"walks {Duration.FromSeconds(plan.Likely.Activities.OfType<Translate>().Sum(walk => walk.Length.Seconds))} in all",
        Objective.Margin when !plan.Tight.IsEmpty => $"least return margin {Duration.FromSeconds((int)Math.Floor(plan.Tight.Min(one => one.MarginSeconds)))}",
        _ => null,
    };
}

/// <summary>How late legs can begin, as a table.</summary>
public static class LatestText
{
    /// <summary>A line a leg, and what the figures are.</summary>
    public static string Of(ImmutableArray<LatestStart> starts)
    {
        StringBuilder text = new();
        text.AppendLine("How late each leg can begin, one at a time, all else in its order (whole minutes; seen to play clean at that start, not at every one before it):");
        foreach (LatestStart start in starts)
            text.AppendLine($"  {start.Leg}: planned {start.Planned}, latest {(start.Latest is { } latest ? $"{latest}, {latest.Since(start.Planned)} later" : "as planned")}. Then {start.Then}");
        text.AppendLine(Caution.Text);
        return text.ToString();
    }
}
