using System.Collections.Immutable;
using System.Text;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Tests.Damage;

/// <summary>What came of one kind of damage in all plans.</summary>
internal sealed record DamageResult(Damage Damage, int Tried, int Caught, ImmutableArray<string> ByOthersOnly, ImmutableArray<string> Escaped, ImmutableArray<string> Harmless);

/// <summary>Every kind of damage tried on every plan, and the table of it.</summary>
internal static class DamageTable
{
    /// <summary>Places tried a kind and plan, spread evenly over those that the plan offers.</summary>
    private const int PlacesAPlan = 3;

    private static readonly Lazy<ImmutableArray<DamageResult>> Tried = new(() => [.. Damages.All.AsParallel().AsOrdered().Select(Try)]);

    public static ImmutableArray<DamageResult> All => Tried.Value;

    private static DamageResult Try(Damage damage)
    {
        int tried = 0, caught = 0;
        List<string> others = [], escaped = [], harmless = [];
        foreach (CleanPlan plan in CleanPlans.All)
        {
            ImmutableArray<Damaged> places = [.. damage.At(plan)];
            for (int i = 0; i < Math.Min(places.Length, PlacesAPlan); i++)
            {
                Damaged damaged = places[i * places.Length / Math.Min(places.Length, PlacesAPlan)];
                string where = $"{damage.Name}, {plan.Name}, place {i + 1}";
                tried++;
                if (Same(plan, damaged)) harmless.Add(where);
                ImmutableArray<string> broken;
                try
                {
                    broken = [.. plan.Judge(damaged).Findings.Where(finding => finding.Severity == Severity.Broken || (damage.IsCaution && finding.Rule.Value == damage.Rule)).Select(finding => finding.Rule.Value).Distinct()];
                }
                catch (ArgumentException refused)
                {
                    // A plan that cannot even be played was not judged, and tells a crew nothing.
                    escaped.Add($"{where}: {refused.Message}");
                    continue;
                }
                if (broken.Contains(damage.Rule)) caught++;
                else if (broken.IsEmpty) escaped.Add(where);
                else others.Add($"{where}: {string.Join(", ", broken)}");
            }
        }
        return new(damage, tried, caught, [.. others], [.. escaped], [.. harmless]);
    }

    private static bool Same(CleanPlan plan, Damaged damaged) => ReferenceEquals(plan.Scenario, damaged.Scenario)
        && plan.Timeline.Activities.SequenceEqual(damaged.Timeline.Activities) && plan.Timeline.Notes.SequenceEqual(damaged.Timeline.Notes) && damaged.GoOn is null;

    /// <summary>The table as the document holds it.</summary>
    public static string Written()
    {
        StringBuilder text = new();
        text.Append("# Damage\n\nMade by `tests/Sallyport.Damage.Tests`; do not edit. `SALLYPORT_WRITE_DAMAGE=1` before the test writes it anew.\n\n")
            .Append("Clean plans are damaged, played and judged. Each kind of damage is made at up to ").Append(PlacesAPlan)
            .Append(" places of each plan, and must be found by the rule meant for it; what other rules find beside is not counted.\n\n")
            .Append($"Plans: {string.Join(", ", CleanPlans.All.Select(plan => plan.Name))}.\n\n").Append("> ").Append(Caution.Text).Append("\n\n")
            .Append("| damage | what it does | why it is never just another valid plan | rule | tried | caught by it | by others only | escaped |\n|---|---|---|---|--:|--:|--:|--:|\n");
        foreach (DamageResult one in All)
            text.Append($"| {one.Damage.Name} | {one.Damage.Does} | {one.Damage.Harm} | `{one.Damage.Rule}` | {one.Tried} | {one.Caught} | {one.ByOthersOnly.Length} | {one.Escaped.Length} |\n");
        text.Append($"| **{All.Length} kinds** | | | **{All.Select(one => one.Damage.Rule).Distinct().Count()} of {RuleBook.All.Length} rules** | **{All.Sum(one => one.Tried)}** "
            + $"| **{All.Sum(one => one.Caught)}** | **{All.Sum(one => one.ByOthersOnly.Length)}** | **{All.Sum(one => one.Escaped.Length)}** |\n");
        return text.ToString();
    }
}
