using System.Text;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>The files derived from a plan.</summary>
internal static class Documents
{
    /// <summary>Files that not every plan has: of an earlier one they would stay beside the new ones.</summary>
    public static readonly string[] NotAlways = ["timeline-otherwise.json", "trace-otherwise.json", "contingencies.json"];

    /// <summary>Every file.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="printed">A date printed on documents; null for none.</param>
    /// <param name="goOn">Expands what follows a contingency; null where the plan has no outline.</param>
    public static IEnumerable<(string Name, byte[] Content)> Of(Scenario scenario, ProvenPlan plan, DateOnly? printed, GoOn? goOn)
    {
        foreach ((Timeline timeline, Trace trace) in plan.Played)
        {
            string branch = timeline.Branch == Branch.Likely ? "" : "-otherwise";
            yield return ($"timeline{branch}.json", PlanFiles.ToJson(timeline));
            yield return ($"trace{branch}.json", PlanFiles.ToJson(trace));
        }
        if (goOn is not null) yield return ("contingencies.json", PlanFiles.ToJson(Contingencies(plan, goOn)));
        yield return ("findings.json", PlanFiles.ToJson(plan.Verdict));
        Picture chart = RangeChart.Draw(scenario, plan.Played, plan.Verdict, new(plan.Name, printed, Decision: plan.Outline?.Decision));
        yield return ("range.svg", Encoding.UTF8.GetBytes(SvgWriter.Write(chart)));
        yield return ("range.png", PngWriter.Write(chart));
        yield return ("plan.txt", Encoding.UTF8.GetBytes(PlanText.Whole(scenario, plan, printed)));
    }

    private static ContingencyFile Contingencies(ProvenPlan plan, GoOn goOn) => new(plan.Likely.Scenario, plan.Verdict.PlanId,
    [
        .. plan.Verdict.Contingencies.Select(proof => new FollowedContingency(
            proof, goOn(plan.Played.First(one => one.Timeline.Branch == proof.Branch).Timeline, proof.Trouble).Timeline)),
    ]);
}
