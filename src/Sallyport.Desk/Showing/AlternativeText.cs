using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Plans side by side.</summary>
public static class AlternativeText
{
    /// <summary>How plans stand with everything that one may be better than another in, a column each, the first one first; then how each of the others differs from it.</summary>
    public static string Of(Scenario scenario, ImmutableArray<ProvenPlan> plans)
    {
        List<(string Name, string[] Cells)> rows = [("", [.. plans.Select(plan => plan.Name)])];
        void Row(string name, Func<ProvenPlan, string> cell) => rows.Add((name, [.. plans.Select(cell)]));
        Row("proof", plan => plan.Verdict.Clean ? "clean" : "NOT CLEAN");
        Row("value", plan => PlanText.ValueOf(scenario, plan).ToString(CultureInfo.InvariantCulture));
        Row("ends at PET", plan => plan.End.ToString());
        Row("least return margin", plan => StateDifference.LeastMargin(plan)?.ToString() ?? "none held");
        Row("power and radio dead", plan => Dead(scenario, plan).ToString());
        Row("on the way", plan => Sum<Translate>(plan, _ => true).ToString());
        foreach (Person person in scenario.Outside) Row($"work of {person.Id}", plan => Sum<DoStep>(plan, step => step.Person == person.Id).ToString());
        int names = rows.Max(row => row.Name.Length);
        int[] widths = [.. plans.Select((_, i) => rows.Max(row => row.Cells[i].Length))];
        StringBuilder text = new();
        foreach ((string name, string[] cells) in rows) text.AppendLine($"{name.PadRight(names)}  {string.Join("  ", cells.Select((cell, i) => cell.PadLeft(widths[i])))}");
        foreach (ProvenPlan other in plans.Skip(1)) text.AppendLine($"{other.Name}: {Alternatives.Differs(other, plans[0])}.");
        text.AppendLine("Times but for the end are of the likely branch.").AppendLine(Caution.Text);
        return text.ToString();
    }

    private static Duration Sum<T>(ProvenPlan plan, Func<T, bool> counts) where T : Activity => Duration.FromSeconds(plan.Likely.Activities.OfType<T>().Where(counts).Sum(activity => activity.Length.Seconds));

    /// <summary>How long things that consoles shut down are off, all together.</summary>
    internal static Duration Dead(Scenario scenario, ProvenPlan plan) =>
        Duration.FromSeconds(PlanText.Off(scenario, new(plan.Played[0].Trace)).Sum(one => one.Off.To.Since(one.Off.From).Seconds));
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
