using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary>A scenario planned in two folders with the same effort and seed.</summary>
public abstract class PlannedTwice(string scenario, params string[] words) : IDisposable
{
    public string Scenario { get; } = scenario;

    public Workplace First { get; } = new(scenario);

    public Workplace Second { get; } = new(scenario);

    public Lazy<Result> FirstRun => field ??= new(() => First.Run(["plan", $"scenarios/{Scenario}", .. words]));

    public Lazy<Result> SecondRun => field ??= new(() => Second.Run(["plan", $"scenarios/{Scenario}", .. words]));

    public string Outline => $"scenarios/{Scenario}/outlines/plan.yaml";

    public string Derived(string name) => $"out/{Scenario}/plan/{name}";

    public void Dispose()
    {
        First.Dispose();
        Second.Dispose();
        GC.SuppressFinalize(this);
    }
}

public sealed class SkerryShortTwice() : PlannedTwice("skerry-short", "--effort", "2");

public sealed class SkerryTwice() : PlannedTwice("skerry", "--effort", "1", "--seed", "2");

public sealed class TernTwice() : PlannedTwice("tern", "--effort", "1");

[CollectionDefinition(nameof(SkerryTwice))]
public sealed class SkerryTwiceCollection : ICollectionFixture<SkerryTwice>;

/// <summary>What planning shows and writes, the same for every scenario.</summary>
public abstract class PlanTests(PlannedTwice planned)
{
    private static readonly string[] Always = ["timeline.json", "trace.json", "contingencies.json", "findings.json", "plan.txt", "range.svg", "range.png"];

    [Fact]
    public void Plan_InAPipe_EndsCleanAndShowsThePlanAndNothingElse()
    {
        Result result = planned.FirstRun.Value.Ended(0).ShowedPlan().Broke();
        Assert.Contains("Clean under", result.Out);
        Assert.Matches(@"\A[^\n]+ · outline plan · plan [0-9a-f]{12}\n", result.Out);
    }

    [Fact]
    public void Plan_Written_HasEveryFileAndTellsOfEach()
    {
        Result result = planned.FirstRun.Value.Ended(0);
        foreach (string file in Always.Select(planned.Derived).Append(planned.Outline))
        {
            Assert.True(File.Exists(planned.First.PathOf(file)), file);
            Assert.Contains($"  {file}\n", result.Err);
        }
        Assert.Equal([0x89, .. "PNG"u8], planned.First.Bytes(planned.Derived("range.png"))[..4]);
        Assert.DoesNotContain(planned.First.Files().Keys, name => name.EndsWith(".part", StringComparison.Ordinal));
    }

    [Fact]
    public void Plan_EveryDerivedFile_CarriesOnePlanId()
    {
        string shown = Regex.Match(planned.FirstRun.Value.Ended(0).Out, @"· plan ([0-9a-f]{12})\n").Groups[1].Value;
        Assert.Equal(12, shown.Length);
        foreach (string file in TextFiles())
        {
            string text = planned.First.Read(file);
            if (file.EndsWith(".json", StringComparison.Ordinal)) Assert.Equal(shown, (string)JsonNode.Parse(text)!["planId"]!);
            else Assert.Contains(shown, text);
        }
    }

    [Fact]
    public void Plan_EveryTextFile_CarriesTheCaution()
    {
        planned.FirstRun.Value.Ended(0);
        foreach (string file in TextFiles().Append(planned.Outline)) Assert.Contains(Caution.Text, planned.First.Read(file));
    }

    [Fact]
    public void Plan_AgainInAnotherFolder_GivesTheSameBytes()
    {
        Assert.Equal(planned.FirstRun.Value.Ended(0).Out, planned.SecondRun.Value.Ended(0).Out);
        foreach (string file in TextFiles().Append(planned.Outline)) Assert.Equal(planned.First.Bytes(file), planned.Second.Bytes(file));
        Assert.Equal(planned.First.Files().Keys, planned.Second.Files().Keys);
    }

    [Fact]
    public void Check_OfTheOutlineWritten_IsCleanAndShowsTheSamePlan()
    {
        Result plan = planned.FirstRun.Value.Ended(0);
        Result check = planned.First.Run("check", $"scenarios/{planned.Scenario}", "--outline", planned.Outline).Ended(0).ShowedPlan();
        Assert.Equal(plan.Out, check.Out);
        Assert.DoesNotContain("Re-derived", check.Err);
    }

    [Fact]
    public void Check_OfTheTimelineWritten_IsClean()
    {
        planned.FirstRun.Value.Ended(0);
        Result check = planned.First.Run("check", $"scenarios/{planned.Scenario}", "--timeline", planned.Derived("timeline.json")).Ended(0).ShowedPlan().Broke();
        Assert.Contains("Clean under", check.Out);
    }

    private IEnumerable<string> TextFiles() => Directory.GetFiles(planned.First.PathOf(planned.Derived(""))).Select(Path.GetFileName)
        .Where(name => !name!.EndsWith(".png", StringComparison.Ordinal)).Select(name => planned.Derived(name!));
}

public sealed class SkerryShortPlanTests(SkerryShortTwice planned) : PlanTests(planned), IClassFixture<SkerryShortTwice>;

public sealed class TernPlanTests(TernTwice planned) : PlanTests(planned), IClassFixture<TernTwice>;

[Collection(nameof(SkerryTwice))]
public sealed class SkerryPlanTests(SkerryTwice planned) : PlanTests(planned)
{
    [Fact]
    public void Plan_OfSkerry_ProvesBothBranchesOfItsDecision()
    {
        string shown = planned.FirstRun.Value.Ended(0).Out;
        Assert.Contains("Decision when ", shown);
        foreach (string name in new[] { "timeline-otherwise.json", "trace-otherwise.json" })
            Assert.Equal("otherwise", (string)JsonNode.Parse(planned.First.Read(planned.Derived(name)))!["branch"]!);
    }
}
