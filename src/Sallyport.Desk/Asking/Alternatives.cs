using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Desk;

/// <summary>Other plans than a plan, each clean and each different from the ones before.</summary>
internal sealed class Alternatives(SortieDesk desk)
{
    /// <summary>A plan is another one when at least this share of the legs of either is in one of them alone, or is done by somebody else.</summary>
    private const double Different = 0.2;

    /// <summary>Searches some more plans with the seeds that follow; fewer than asked when the searches find no more.</summary>
    public ImmutableArray<ProvenPlan> Of(ProvenPlan plan, int count, int effort, int seed, Action<SearchProgress> progress, CancellationToken cancel)
    {
        List<ProvenPlan> kept = [plan];
        for (int next = 1; next <= 2 * count && kept.Count <= count && !cancel.IsCancellationRequested; next++)
        {
            PlanOutcome other = desk.Plan($"{plan.Name}-other-{kept.Count}", effort, seed + next, from: null, progress, cancel,
                outline => kept.TrueForAll(one => IsOther(one.Outline!, outline)));
            // The decision that is made of a plan at the end may bring it near one of those kept.
            if (other.Plan is { } found && kept.TrueForAll(one => IsOther(one.Outline!, found.Outline!))) kept.Add(found);
        }
        return [.. kept.Skip(1)];
    }

    /// <summary>How one plan differs from another in what is done and by whom, in words.</summary>
    public static string Differs(ProvenPlan plan, ProvenPlan from)
    {
        HashSet<JobId> had = PlanText.Done(from), has = PlanText.Done(plan);
        Dictionary<LegId, PersonId> before = Doers(from.Outline!), now = Doers(plan.Outline!);
        List<string> told = [];
        if (has.Except(had).ToArray() is { Length: > 0 } more) told.Add($"does {string.Join(", ", more)} as well");
        if (had.Except(has).ToArray() is { Length: > 0 } less) told.Add($"leaves out {string.Join(", ", less)}");
        foreach (IGrouping<PersonId, LegId> moved in now.Where(one => before.TryGetValue(one.Key, out PersonId doer) && doer != one.Value).GroupBy(one => one.Value, one => one.Key))
            told.Add($"{moved.Key} does {string.Join(", ", moved)}");
        return string.Join("; ", told);
    }

    private static bool IsOther(Outline one, Outline other)
    {
        Dictionary<LegId, PersonId> first = Doers(one), second = Doers(other);
        int legs = first.Keys.Union(second.Keys).Count(), moved = first.Keys.Union(second.Keys).Count(leg => !first.TryGetValue(leg, out PersonId a) || !second.TryGetValue(leg, out PersonId b) || a != b);
        return moved >= Math.Max(1, Different * legs);
    }

    private static Dictionary<LegId, PersonId> Doers(Outline outline) => outline.People.Concat(outline.Decision?.Then ?? [])
        .SelectMany(list => list.Entries.OfType<LegEntry>().Select(entry => (entry.Leg, list.Person))).DistinctBy(one => one.Leg).ToDictionary(one => one.Leg, one => one.Person);
}
