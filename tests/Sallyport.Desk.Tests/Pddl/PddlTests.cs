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

    [Fact]
    public void Pddl_PlanWithADecision_HasItsOtherBranchInAFolderOfItsOwn()
    {
        (Scenario _, ProvenPlan plan) = PddlPlans.Of("skerry");
        Assert.Equal([Branch.Likely, Branch.Otherwise], plan.Played.Select(one => one.Timeline.Branch));
        using TemporaryFolder folder = new();
        SortieDesk desk = Folders.Good(SortieDesk.Open(RepositoryFolder.Of("scenarios", "skerry")));
        (var written, Problem? problem) = desk.WritePddl(plan, folder.Path);
        Assert.Null(problem);
        string[] names = ["domain.pddl", "problem.pddl", "plan.pddl"];
        Assert.Equal(names.Concat(names.Select(name => Path.Combine("otherwise", name))), written.Select(file => Path.GetRelativePath(folder.Path, file)));
        Assert.All(written, file => Assert.Contains(Caution.Text, File.ReadAllText(file)));
        Assert.Null(Referee.Refuses(ReadFrom(folder.Path)));
        Assert.NotNull(Referee.Refuses(ReadFrom(folder.Path) with { Plan = File.ReadAllText(Path.Combine(folder.Path, "otherwise", "plan.pddl")) }));
    }

    [Fact]
    public void Pddl_MomentsOfOnePlan_LieInTheOrderOfAnInstant()
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of("skerry-short");
        PddlImage image = PddlImage.Of(scenario, plan.Likely);
        // PET 0:12 is 720 s, and time 1 is PET 0:00: what ends then ends at 720.999, night falls at 720.9995, what starts then starts at 721.
        Assert.Contains("\n  (at 720.9995 (night))\n", image.Problem);
        Assert.Contains("\n1.000: (out-ev1-001-out) [299.999]\n", image.Plan);
        Assert.Contains("\n301.000: (bagsout-ev1-002-bagsout) [179.999]\n", image.Plan);
    }

    private static PddlImage ReadFrom(string folder)
    {
        string Read(string name) => File.ReadAllText(Path.Combine(folder, name));
        return new(Read("domain.pddl"), Read("problem.pddl"), Read("plan.pddl"));
    }
}
