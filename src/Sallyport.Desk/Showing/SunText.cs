using System.Text;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>How the Sun stands to the worksites while somebody works there, from the trace.</summary>
internal static class SunText
{
    public static void Write(StringBuilder text, Scenario scenario, ProvenPlan plan)
    {
        if (scenario.Sky.Sites.IsEmpty) return;
        History history = new(plan.Played[0].Trace);
        text.AppendLine();
        text.AppendLine("Sun at the worksites (likely branch; to half a minute, as rough as the bodies that cast shadows)");
        foreach (var work in plan.Likely.Activities.OfType<DoStep>().GroupBy(step => (step.Leg, step.Person)).OrderBy(work => work.Min(step => step.Start)))
        {
            Leg leg = scenario.Legs.First(one => one.Id == work.Key.Leg);
            if (history.Find($"site {leg.Site} light") is not { } light) continue;
            Pet from = work.Min(step => step.Start), to = work.Max(step => step.End);
            string[] stretches = [.. history.Stretches(light).Where(one => one.From < to && one.To > from)
                .Select(one => $"{Words(history.Trace.Variables[light].States[one.Value])} {(one.From > from ? one.From : from)} to {(one.To < to ? one.To : to)}")];
            text.AppendLine($"  {from,8}  {work.Key.Person}  [{leg.Id}] {scenario.Station.Sites.First(site => site.Id == leg.Site).Title}: {string.Join(", ", stretches)}");
        }
    }

    private static string Words(string state) => state switch { "none" => "no sun", "glare" => "SUN IN THE EYES", "sun" => "in the sun", _ => "in shade" };
}
