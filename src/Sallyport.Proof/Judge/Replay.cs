using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>A timeline that is not the plan itself but follows from it, played and judged.</summary>
/// <param name="Timeline">The timeline.</param>
/// <param name="Trace">What playing it gave.</param>
/// <param name="Broken">What it breaks, in order of time.</param>
internal sealed record Replay(Timeline Timeline, Trace Trace, ImmutableArray<Finding> Broken)
{
    /// <summary>Plays and judges by every rule. What a rule asks there otherwise than of a plan, its card says.</summary>
    public static Replay Of(Scenario scenario, Timeline timeline)
    {
        Trace trace = Player.Play(scenario, timeline, out ImmutableArray<SuitWalk> suits);
        Case given = new(scenario, timeline, trace, [], suits);
        return new(timeline, trace,
        [
            .. Lookup.Of(scenario).Rules.SelectMany(rule => rule.Find(given))
                .Where(finding => finding.Severity == Severity.Broken).OrderBy(finding => finding.At),
        ]);
    }
}
