using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Judges what was played: every rule on every branch, and what was not checked said in words.</summary>
public static class Judge
{
    /// <summary>Whether the verdict on a plan would be clean, asked the cheap way round: its own rules first, and no further than to what breaks.</summary>
    /// <exception cref="ArgumentException">No branch, or branches of different plans.</exception>
    public static bool IsClean(Scenario scenario, IReadOnlyList<(Timeline Timeline, Trace Trace)> played, GoOn goOn) =>
        Of(scenario, played).Clean && new Contingencies(scenario, played, goOn).AllHold();

    /// <summary>The verdict on a plan.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="played">Each branch of the plan with its trace; at least one.</param>
    /// <param name="goOn">Expands what follows a contingency; null where there is only a timeline, and then contingencies are not checked.</param>
    /// <param name="stepTimes">Whether each step is tried at its low and high time too: worth knowing of a plan that is shown, and slow.</param>
    /// <exception cref="ArgumentException">No branch, or branches of different plans.</exception>
    public static Verdict Of(Scenario scenario, IReadOnlyList<(Timeline Timeline, Trace Trace)> played, GoOn? goOn = null, bool stepTimes = false)
    {
        if (played.Count == 0) throw new ArgumentException("nothing was played", nameof(played));
        string planId = played[0].Timeline.PlanId;
        if (played.Any(one => one.Timeline.PlanId != planId || one.Trace.PlanId != planId || one.Trace.Branch != one.Timeline.Branch))
            throw new ArgumentException($"what was played does not belong to plan '{planId}' alone, or traces and timelines are mixed up", nameof(played));

        // Whether a contingency of the plan would have to be expanded, and nobody is there to do it.
        bool unexpanded = goOn is null && Contingencies.Of(scenario, played).Any();
        ImmutableArray<Rule> applied = [.. Lookup.Of(scenario).Rules.Where(rule => !(unexpanded && rule is BranchUnproven))];
        HashSet<(RuleId, Severity, Pet, ActivityId?, string)> seen = [];
        List<Finding> findings = [];
        ImmutableArray<ContingencyProof> contingencies = goOn is null ? [] : new Contingencies(scenario, played, goOn).Prove();
        ImmutableArray<Case> cases = [.. played.Select(one => new Case(scenario, one.Timeline, one.Trace, contingencies))];
        // Each branch is judged for itself, side by side; branches share their first part: what was found there is told once.
        foreach (Finding finding in SideBySide.Each(cases, given => applied.SelectMany(rule => rule.Find(given)).ToImmutableArray()).SelectMany(found => found))
            if (seen.Add((finding.Rule, finding.Severity, finding.At, finding.Activity, finding.Sentence))) findings.Add(finding);

        HashSet<RuleId> known = RuleBook.All.Select(rule => rule.Card.Id).ToHashSet();
        Fact? stray = played.SelectMany(one => one.Trace.Facts).FirstOrDefault(fact => !known.Contains(fact.Rule));
        if (stray is not null) throw new ArgumentException($"play tells of a rule '{stray.Rule}' that the rule book does not have", nameof(played));

        return new Verdict(
            planId,
            [.. findings.OrderBy(one => one.Severity).ThenBy(one => one.At).ThenBy(one => one.Rule.Value, StringComparer.Ordinal).ThenBy(one => one.Sentence, StringComparer.Ordinal)],
            [.. applied.Select(rule => rule.Card.Id)],
            [
                .. unexpanded ? ["branch.unproven: no contingency was followed; that needs an outline, from which what follows is expanded, and the time for it"] : Array.Empty<string>(),
                goOn is null || !stepTimes ? "step times: the likely figure only; low and high are not tried"
                    : $"step times: two steps at another figure than the likely one{(played.Count > 1 ? ", and the other branch of the decision at any" : "")}",
                .. contingencies.IsEmpty ? Array.Empty<string>() : ["branch.unproven: a second contingency after the first"],
                .. RuleBook.All.Where(rule => rule.Missing(scenario) is not null).Select(rule => $"{rule.Card.Id}: {rule.Missing(scenario)}"),
                .. applied.SelectMany(rule => rule.Unseen(scenario).Select(what => $"{rule.Card.Id}: {what}")),
                .. NotChecked.Always,
            ])
        {
            Contingencies = contingencies,
            Ladder = Ladder.Of(cases),
            StepTimes = goOn is not null && stepTimes ? StepTimes.Of(scenario, played[0].Timeline, goOn) : null,
        };
    }
}
