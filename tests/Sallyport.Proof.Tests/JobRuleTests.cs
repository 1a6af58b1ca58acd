using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class JobRuleTests
{
    private static Scenario WithJob(string job, Func<Job, Job> change) =>
        Skerry with { Jobs = [.. Skerry.Jobs.Select(one => one.Id.Value == job ? change(one) : one)] };

    // EV1 begins latch/free, the first leg of the job, at 0:21:30.
    [Theory]
    [InlineData("0:21:30", 0)]
    [InlineData("0:21:29", 1)]
    public void JobLate_OfALegAndOfAJob_IsFoundByTheSecond(string latest, int found)
    {
        foreach (Scenario scenario in new[] { Skerry.WithLeg("latch/free", leg => leg with { Latest = At(latest) }), WithJob("latch", job => job with { Latest = At(latest) }) })
        {
            ImmutableArray<Finding> findings = Judged.By("job.late", scenario, Plan.ShortWalk());
            Assert.Equal(found, findings.Length);
            if (found == 1) Assert.Equal((Severity.Broken, At("0:21:30"), "-1 s", "PET 0:21:29"), (findings[0].Severity, findings[0].At, findings[0].Margin, findings[0].Limit));
        }
    }

    [Fact]
    public void JobLate_OfAJob_CountsItsFirstLegOnly() =>
        // latch/look begins at 0:31:30, long after the job.
        Judged.None("job.late", WithJob("latch", job => job with { Latest = At("0:25") }), Plan.ShortWalk());

    [Fact]
    public void JobLate_OfALegThatIsNotDone_IsNotFound() =>
        Judged.None("job.late", Skerry.WithLeg("pair/near", leg => leg with { Latest = At("0:00") }), Plan.ShortWalk());

    [Theory]
    [InlineData(Worth.Must, Severity.Broken)]
    [InlineData(Worth.Should, Severity.Note)]
    public void JobMissing_OfAJobThatIsWanted_IsToldByItsWorth(Worth worth, Severity severity)
    {
        Judged.None("job.missing", WithJob("latch", job => job with { Worth = worth }), Plan.ShortWalk());
        Finding finding = Judged.One("job.missing", WithJob("pair", job => job with { Worth = worth }), Plan.ShortWalk());
        Assert.Equal(severity, finding.Severity);
        Assert.Contains("job pair", finding.Sentence);
    }

    [Fact]
    public void JobMissing_OfAGetAhead_IsNotFound() => Judged.None("job.missing", Skerry, Plan.ShortWalk());

    [Fact]
    public void JobMissing_OfAJobBegun_IsLeftToTheOrderOfJobs()
    {
        Scenario scenario = WithJob("latch", job => job with { Worth = Worth.Must });
        Timeline timeline = Plan.Outside().Walk("EV2", "lock", ("quay-1", 60)).Step("EV2", "latch/look", "look", 180).Walk("EV2", "quay-1", ("lock", 60)).Home();
        Judged.None("job.missing", scenario, timeline);
        Assert.NotEmpty(Judged.By("job.order", scenario, timeline));
    }

    [Fact]
    public void JobMissing_InOneBranchOfADecision_IsToldForThatBranch()
    {
        Timeline likely = Plan.ShortWalk(), other = Plan.Outside().Home() with { Branch = Branch.Otherwise };
        Scenario scenario = WithJob("latch", job => job with { Worth = Worth.Must });
        Verdict verdict = Judge.Of(scenario, [(likely, Player.Play(scenario, likely)), (other, Player.Play(scenario, other))]);
        Assert.Equal(Branch.Otherwise, verdict.Findings.Single(finding => finding.Rule.Value == "job.missing").Branch);
        Assert.False(verdict.Clean);
    }
}
