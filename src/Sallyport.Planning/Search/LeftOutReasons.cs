using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Why a job is not in a plan: what breaks where it costs least to put it in.</summary>
internal sealed class LeftOutReasons(SearchCase all, UnitPins[] pins)
{
    private readonly Decoder decoder = new(all);

    public ImmutableArray<LeftOut> Explain(Candidate plan)
    {
        ImmutableArray<LeftOut>.Builder left = ImmutableArray.CreateBuilder<LeftOut>();
        for (int j = 0; j < plan.JobIn.Length; j++)
            if (!plan.JobIn[j]) left.Add(new(all.Scenario.Jobs[j].Id, Why(plan, j)));
        return left.ToImmutable();
    }

    private string Why(Candidate plan, int job)
    {
        Candidate with = plan.Copy();
        with.JobIn[job] = true;
        foreach (int unit in Enumerable.Range(0, all.Units.Length).Where(u => all.Units[u].Job == job)) PutWhereBest(with, unit);
        PlanScore score = decoder.Decode(with, pins);
        if (score.Broken == 0) return "put in at its best place it would fit: search had not tried that yet; more effort may take it in";
        string end = $"put in at its best place the end would be {Pet.FromSeconds(score.End)}";
        return score.End > all.PetLimit
            ? $"{end}, {Duration.FromSeconds(score.End - all.PetLimit)} past the limit of {Pet.FromSeconds(all.PetLimit)}"
            : $"{end}, within the limit, but other limits would be missed by {Duration.FromSeconds((int)Math.Min(score.Broken, int.MaxValue))}";
    }

    private void PutWhereBest(Candidate plan, int unit)
    {
        int[] others = [.. plan.Order.Where(u => u != unit)];
        PlanScore best = PlanScore.Worst;
        (int[] Order, int Option) found = ([.. plan.Order], plan.Options[unit]);
        for (int at = 0; at <= others.Length; at++)
        {
            if (others.Take(at).Any(u => all.Before[unit][u]) || others.Skip(at).Any(u => all.Before[u][unit])) continue;
            int[] order = [.. others.Take(at), unit, .. others.Skip(at)];
            for (int option = 0; option < all.Units[unit].Options.Length; option++)
            {
                plan.Options[unit] = option;
                PlanScore score = decoder.Decode(new(order, plan.Options, plan.Bringing, plan.JobIn), pins);
                if (score.CompareTo(best) < 0) (best, found) = (score, (order, option));
            }
        }
        found.Order.CopyTo(plan.Order, 0);
        plan.Options[unit] = found.Option;
    }
}
