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
        $"{other.Name}: {(other.Verdict.Clean ? "clean" : "NOT CLEAN")}, value {PlanText.ValueOf(scenario, other)}, ends PET {other.End}; {Alternatives.Differs(other, first)}.");
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
