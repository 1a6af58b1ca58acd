using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;

namespace Sallyport.Bench;

/// <summary>What search is given to accept a plan, without the desk round it: expand, play, judge.</summary>
internal static class Proving
{
    /// <summary>Whether an outline plays clean; what breaks is told.</summary>
    public static bool IsClean(Scenario scenario, Expander expander, Outline outline, out string why)
    {
        List<Timeline> branches = [];
        foreach (Branch branch in outline.Decision is null ? [Branch.Likely] : Enum.GetValues<Branch>())
        {
            Expansion expansion = expander.Expand(outline, branch, "bench");
            if (expansion.Timeline is not { } timeline)
            {
                why = expansion.Problem!.Found;
                return false;
            }
            branches.Add(timeline);
        }
        Verdict verdict = Judged(scenario, branches);
        why = verdict.Findings.FirstOrDefault(finding => finding.Severity == Severity.Broken)?.Sentence ?? "";
        return verdict.Clean;
    }

    /// <summary>Plays and judges timelines.</summary>
    public static Verdict Judged(Scenario scenario, IEnumerable<Timeline> branches)
    {
        ImmutableArray<(Timeline, Trace)> played = [.. branches.Select(timeline => (timeline, Player.Play(scenario, timeline)))];
        return Judge.Of(scenario, played);
    }

    /// <summary>The first plan that plays clean, of a search that is ended there.</summary>
    public static Outline FirstPlan(Scenario scenario)
    {
        Expander expander = new(scenario);
        try
        {
            new Searcher(scenario, expander).Run(new(Effort: 1000, Seed: 7, null, Environment.ProcessorCount),
                outline => IsClean(scenario, expander, outline, out _) ? throw new FirstFoundException(outline) : false, _ => { }, CancellationToken.None);
        }
        catch (FirstFoundException found)
        {
            return found.Outline;
        }
        throw new InvalidOperationException("no plan was found");
    }

    /// <summary>Ends a search from inside.</summary>
    private sealed class FirstFoundException(Outline outline) : Exception
    {
        public Outline Outline { get; } = outline;
    }
}
