using System.Text;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The files derived from a plan.</summary>
internal static class Documents
{
    public static IEnumerable<(string Name, byte[] Content)> Of(Scenario scenario, ProvenPlan plan, DateOnly? printed)
    {
        foreach ((Timeline timeline, Trace trace) in plan.Played)
        {
            string branch = timeline.Branch == Branch.Likely ? "" : "-otherwise";
            yield return ($"timeline{branch}.json", PlanFiles.ToJson(timeline));
            yield return ($"trace{branch}.json", PlanFiles.ToJson(trace));
        }
        yield return ("findings.json", PlanFiles.ToJson(plan.Verdict));
        Picture chart = RangeChart.Draw(scenario, plan.Played, plan.Verdict, new(plan.Name, printed, Decision: plan.Outline?.Decision));
        yield return ("range.svg", Encoding.UTF8.GetBytes(SvgWriter.Write(chart)));
        yield return ("range.png", PngWriter.Write(chart));
        yield return ("plan.txt", Encoding.UTF8.GetBytes(PlanText.Whole(scenario, plan, printed)));
    }
}
