using System.Text;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Desk.Tests;

public sealed class DecisionTests
{
    [Fact]
    public void Expand_DecisionAfterALegThatNobodyDoesBefore_IsTold()
    {
        Scenario scenario = ScenarioReader.Read(Folders.SkerryShort).Value!;
        const string text = """
            scenario: skerry/short
            people:
              EV1:
              - {egress: lock}
              - {ingress: lock}
            decide: {after: latch/free, if_before: "1:00", then: {EV1: []}, else: {EV1: []}}
            """;
        Outline outline = OutlineFile.Read(Encoding.UTF8.GetBytes(text), "mine.yaml", scenario).Value!;

        OutlineProblem problem = new Expander(scenario).Expand(outline, Branch.Likely, "test").Problem!;

        Assert.Equal("outline.decision", problem.Code);
        Assert.Contains("latch/free", problem.Found);
    }
}
