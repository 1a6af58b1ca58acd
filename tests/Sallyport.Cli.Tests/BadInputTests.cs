namespace Sallyport.Cli.Tests;

/// <summary>Bad input end to end: what is said on standard error, nothing on standard output, nothing written.</summary>
public sealed class BadInputTests : IDisposable
{
    private const string Short = "scenarios/skerry-short", ByHand = Short + "/outlines/by-hand.yaml";

    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    private Result RunAndExpectNothingWritten(int exit, params string[] words)
    {
        SortedDictionary<string, string> before = place.Files();
        Result result = place.Run(words).Ended(exit);
        Assert.Empty(result.Out);
        Assert.Equal(before, place.Files());
        return result;
    }

    [Theory]
    [InlineData("broken YAML", "jobs.yaml", "  legs:\n", "  legs: [\n", "jobs.yaml:12:3: file.syntax", "what follows was not looked at")]
    [InlineData("unknown key", "gear.yaml", "mass: 9 kg", "mas: 9 kg", "gear.yaml:8:59: key.unknown", "Nearest name: mass")]
    [InlineData("missing unit", "jobs.yaml", "time: 3 / 4 / 7 min", "time: 3 / 4 / 7", "jobs.yaml:21:13: unit.missing", "Fix:")]
    [InlineData("wrong unit", "gear.yaml", "mass: 9 kg", "mass: 9 L", "gear.yaml:8:65: unit.wrong", "Fix:")]
    [InlineData("unknown reference", "jobs.yaml", "site: ring", "site: rign", "jobs.yaml:14:11: name.unknown", "Nearest name: ring")]
    [InlineData("duplicate id", "jobs.yaml", "  - id: look\n    title", "  - id: free\n    title", "jobs.yaml:38:9: name.twice", "the first stands at")]
    [InlineData("circle in the precedence", "jobs.yaml", "site: ring", "site: ring\n    after: [{leg: look}]", "jobs.yaml:12:5: precedence.circle", "a circle: latch/free waits for latch/look; latch/look waits for latch/free")]
    [InlineData("no way to a site", "station.yaml", "- {from: quay-1, to: quay-2, length: 4.5 m, class: careful}\n", "", "station.yaml:16:3: site.unreachable", "no way over spans to ring")]
    [InlineData("must-job for nobody", "jobs.yaml", "with: [latch-bag]", "with: [latch-bag, driver, grease]", "jobs.yaml:12:5: job.undoable", "EV2 is not trained for mechanisms")]
    public void Scenario_Bad_IsToldByEveryCommandAndNothingIsWritten(string what, string file, string from, string to, string where, string says)
    {
        place.Edit($"{Short}/{file}", from, to);
        foreach (string command in new[] { "plan", "check" })
        {
            Result result = RunAndExpectNothingWritten(2, command, Short);
            Assert.True(result.Err.Contains($"{Short}/{where}\n", StringComparison.Ordinal), $"{what}: {where} is not in\n{result.Err}");
            Assert.Contains(says, result.Err);
            Assert.Contains("Fix: ", result.Err);
            Assert.Matches(@"\d problems?\.\n$", result.Err);
        }
    }

    [Fact]
    public void Scenario_SeveralFilesBad_AreToldAtOnce()
    {
        place.Edit(Short + "/gear.yaml", "mass: 9 kg", "mas: 9 kg");
        place.Edit(Short + "/jobs.yaml", "site: ring", "site: rign");
        Result result = RunAndExpectNothingWritten(2, "plan", Short);
        Assert.Contains("gear.yaml:8:59: key.unknown", result.Err);
        Assert.Contains("jobs.yaml:14:11: name.unknown", result.Err);
    }

    // By hand the must-job ends at 0:56:30 and nobody can be quicker: the look waits for the latch.
    [Fact]
    public void Scenario_MoreMustWorkThanTime_EndsWith3AndTheFigures()
    {
        place.Edit(Short + "/rules.yaml", "pet.limit, limit: 390 min", "pet.limit, limit: 40 min");
        Result result = RunAndExpectNothingWritten(3, "plan", Short, "--effort", "2");
        Assert.Contains("No plan. none found", result.Err);
        Assert.Contains("the must-jobs end at 0:56:30, the limit is 0:40", result.Err);
    }

    [Theory]
    [InlineData("another scenario", "scenario: skerry/short", "scenario: skerry/lee-shore", "mine.yaml:3:11: scenario.other", "an outline of 'skerry/short'")]
    [InlineData("unknown leg", "{leg: latch/look", "{leg: latch/lok", "mine.yaml:12:11: name.unknown", "Nearest name: latch/look")]
    [InlineData("unknown key", "carry: waist", "cary: waist", "mine.yaml:7:35: key.unknown", "Nearest name: carry")]
    [InlineData("broken YAML", "  - {leg: latch/free", "  - {leg: [latch/free", "mine.yaml:8:47: file.syntax", "did not find expected")]
    [InlineData("no egress", "  EV2:\n  - {egress: lock}\n", "  EV2:\n", "mine.yaml: outline.inside", "EV2's list does not begin with an egress")]
    [InlineData("no such way", "{leg: latch/free, way: auto", "{leg: latch/free, way: [lock, quay-2]", "mine.yaml: outline.way", "no span joins lock and quay-2")]
    public void Outline_Bad_IsToldAndNothingIsWritten(string what, string from, string to, string where, string says)
    {
        place.Edit(ByHand, from, to, "mine.yaml");
        Result result = RunAndExpectNothingWritten(2, "check", Short, "--outline", "mine.yaml", "--write");
        Assert.True(result.Err.Contains(where + "\n", StringComparison.Ordinal), $"{what}: {where} is not in\n{result.Err}");
        Assert.Contains(says, result.Err);
        Assert.Contains("Fix: ", result.Err);
    }

    [Fact]
    public void Outline_Deadlock_IsToldWithItsCircle()
    {
        const string Free = "  - {leg: latch/free, way: auto, anchor: lock}\n", Look = "  - {leg: latch/look, way: auto, anchor: lock}\n";
        place.Edit(ByHand, [(Look, ""), (Free, Look + Free)], "mine.yaml");
        Result result = RunAndExpectNothingWritten(2, "check", Short, "--outline", "mine.yaml");
        Assert.Contains("mine.yaml: outline.deadlock", result.Err);
        Assert.Contains("EV1: latch/free → EV1: latch/look", result.Err);
        Assert.Contains("Fix: change the order of one of them in its list.", result.Err);
    }

    [Fact]
    public void Outline_OfAnotherScenario_IsRefusedByPlanToo()
    {
        place.Edit(ByHand, "scenario: skerry/short", "scenario: skerry/lee-shore", "mine.yaml");
        Assert.Contains("mine.yaml:3:11: scenario.other", RunAndExpectNothingWritten(2, "plan", Short, "--from", "mine.yaml").Err);
    }
}
