using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>What plays clean here is accepted by a referee who reads the three files and nothing else.</summary>
public sealed class PddlTests
{
    [Theory]
    [InlineData("skerry-short")]
    [InlineData("skerry")]
    [InlineData("tern")]
    public void Pddl_CleanPlan_IsAccepted(string scenario)
    {
        (Scenario read, ProvenPlan plan) = PddlPlans.Of(scenario);
        foreach ((Timeline timeline, _) in plan.Played)
        {
            PddlImage image = PddlImage.Of(read, timeline);
            int lines = image.Plan.Split('\n').Count(line => line.Length > 0 && line[0] != ';');
            Assert.Equal(timeline.Activities.Length + timeline.Activities.OfType<Translate>().Sum(walk => walk.Spans.Length - 1), lines);
            Assert.Null(Referee.Refuses(image));
        }
    }
}
