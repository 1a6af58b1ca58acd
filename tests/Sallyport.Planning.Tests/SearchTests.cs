using Sallyport.Model;
using Sallyport.Planning;
using Xunit;

namespace Sallyport.Tests.Planning;

public class SearchTests
{
    // Two codes that know nothing of each other reckon the same plan: the decoder of search and expansion.
    [Fact]
    public void Search_EveryOutlineAnnounced_EndsWhereExpansionEndsIt()
    {
        List<string> differ = [];
        foreach (SearchedPlan plan in SearchedPlans.All)
        {
            Expansion expansion = plan.Expander.Expand(plan.Outline, Branch.Likely, "test");
            if (expansion.Timeline is not { } timeline) differ.Add($"seed {plan.Seed}: {expansion.Problem!.Found}");
            else if (timeline.Activities.OfType<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Close).Max(phase => phase.End) is var end && end != plan.End)
                differ.Add($"seed {plan.Seed}: search says {plan.End}, expansion {end}");
        }
        Assert.Empty(differ);
        Assert.True(SearchedPlans.All.Select(plan => plan.Seed).Distinct().Count() >= 100, "fewer than 100 scenarios have a plan");
    }
}
