using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>How grave a finding is.</summary>
public enum Severity
{
    /// <summary>A rule is broken.</summary>
    Broken,
    /// <summary>Within the margin that the scenario wants to hear of.</summary>
    Near,
    /// <summary>Worth knowing.</summary>
    Note,
}

/// <summary>A rule broken or come near, as data.</summary>
/// <param name="Rule">Which rule.</param>
/// <param name="Severity">How grave.</param>
/// <param name="Branch">The branch it was found in.</param>
/// <param name="Who">The people concerned.</param>
/// <param name="At">The first moment.</param>
/// <param name="Activity">The activity it is about; null for the plan as a whole.</param>
/// <param name="Sentence">One sentence a crew member understands.</param>
/// <param name="Measured">The figure measured, with its unit; empty when the rule measures nothing.</param>
/// <param name="Limit">The limit with its unit; empty when there is none.</param>
/// <param name="Margin">How far inside (or, negative, outside) it is; empty when there is none.</param>
/// <param name="Source">Where the limit comes from, with "unverified" where it is.</param>
/// <param name="Mend">What would mend it.</param>
public sealed record Finding(
    RuleId Rule, Severity Severity, Branch Branch, ImmutableArray<PersonId> Who, Pet At, ActivityId? Activity,
    string Sentence, string Measured, string Limit, string Margin, string Source, string Mend);

/// <summary>What judging a trace gave: findings, and what was and was not checked.</summary>
/// <param name="PlanId">The plan judged.</param>
/// <param name="Findings">Gravest first, then by time.</param>
/// <param name="Checked">The rules that were applied.</param>
/// <param name="NotChecked">What this version cannot yet check, in words: never counted as clean.</param>
public sealed record Verdict(string PlanId, ImmutableArray<Finding> Findings, ImmutableArray<RuleId> Checked, ImmutableArray<string> NotChecked)
{
    /// <summary>Whether no rule that was applied is broken.</summary>
    public bool Clean => !Findings.Any(finding => finding.Severity == Severity.Broken);

    /// <summary>How each contingency of the plan comes out, twice: with its likely and with its high time.</summary>
    public ImmutableArray<ContingencyProof> Contingencies { get; init; } = [];

    /// <summary>What it takes to leave each step, and what that leaves behind.</summary>
    public ImmutableArray<Rung> Ladder { get; init; } = [];

    /// <summary>Each step of the likely branch tried at its low and at its high time; null when that was not done.</summary>
    public ImmutableArray<StepTry>? StepTimes { get; init; }
}
