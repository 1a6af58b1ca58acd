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

    // The place told is where the last text of a row stands after the edit.
    [Theory]
    [InlineData("broken YAML", "jobs.yaml", "  legs:\n", "  legs: [\n", "file.syntax", "what follows was not looked at", "- id: free")]
    [InlineData("unknown key", "gear.yaml", "mass: 9 kg", "mas: 9 kg", "key.unknown", "Nearest name: mass", "mas: 9 kg")]
    [InlineData("missing unit", "jobs.yaml", "time: 3 / 4 / 7 min", "time: 3 / 4 / 7", "unit.missing", "without a unit", "3 / 4 / 7")]
    [InlineData("wrong unit", "gear.yaml", "mass: 9 kg", "mass: 9 L", "unit.wrong", "which is a volume", "9 L")]
    [InlineData("unknown reference", "jobs.yaml", "site: ring", "site: rign", "name.unknown", "Nearest name: ring", "rign")]
    [InlineData("duplicate id", "jobs.yaml", "- id: look\n    title", "- id:  free\n    title", "name.twice", "the first stands at", "free\n    title: Inspect")]
    [InlineData("circle in the precedence", "jobs.yaml", "site: ring", "site: ring\n    after: [{leg: look}]", "precedence.circle", "a circle: latch/free waits for latch/look; latch/look waits for latch/free", "id: free")]
    [InlineData("no way to a site", "station.yaml", "- {from: quay-1, to: quay-2, length: 4.5 m, class: careful}\n", "", "site.unreachable", "no way over spans to ring", "{id: ring")]
    [InlineData("must-job for nobody", "jobs.yaml", "with: [latch-bag]", "with: [latch-bag, driver, grease]", "job.undoable", "EV2 is not trained for mechanisms", "id: free")]
    public void Scenario_Bad_IsToldByEveryCommandAndNothingIsWritten(string what, string file, string from, string to, string code, string says, string at)
    {
        place.Edit($"{Short}/{file}", from, to);
        foreach (string command in new[] { "plan", "check" })
        {
            Result result = RunAndExpectNothingWritten(2, command, Short);
            AssertTold(what, result, $"{Short}/{file}", at, code);
            Assert.Contains(says, result.Err);
            Assert.Matches(@"\d problems?\.\n$", result.Err);
        }
    }

    [Fact]
    public void Scenario_SeveralFilesBad_AreToldAtOnce()
    {
        place.Edit(Short + "/gear.yaml", "mass: 9 kg", "mas: 9 kg");
        place.Edit(Short + "/jobs.yaml", "site: ring", "site: rign");
        Result result = RunAndExpectNothingWritten(2, "plan", Short);
        AssertTold("first file", result, Short + "/gear.yaml", "mas: 9 kg", "key.unknown");
        AssertTold("second file", result, Short + "/jobs.yaml", "rign", "name.unknown");
    }

    /// <summary>Asserts that a problem is told as <c>file:line:col: code</c>, with the line, a caret under it, and a fix.</summary>
    private void AssertTold(string what, Result result, string file, string at, string code)
    {
        string text = place.Read(file);
        int position = text.IndexOf(at, StringComparison.Ordinal), line = text[..position].Split('\n').Length, column = position - text.LastIndexOf('\n', position);
        string told = $"{file}:{line}:{column}: {code}\n";
        Assert.True(result.Err.Contains(told, StringComparison.Ordinal), $"{what}: {told} is not in\n{result.Err}");
        Assert.Contains($"  {line} | ", result.Err);
        Assert.Matches(@"\n +\| +\^\n  Fix: ", result.Err);
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

    // By hand: 0:30 to break off at the latch, 2:30 back, 3:00 in.
    [Fact]
    public void Scenario_MustJobBeyondTheReturnLimit_EndsWith3AndNamesTheLeg()
    {
        place.Edit(Short + "/rules.yaml", "return.one, limit: 30 min", "return.one, limit: 4 min");
        Result result = RunAndExpectNothingWritten(3, "plan", Short, "--effort", "100000");
        Assert.Contains("No plan. none can be found: leg latch/free of a must-job misses a limit of the return times by 2 min", result.Err);
    }

    [Theory]
    [InlineData("another scenario", "scenario: skerry/short", "scenario: skerry/lee-shore", "scenario.other", "an outline of 'skerry/short'", "skerry/lee-shore")]
    [InlineData("unknown leg", "{leg: latch/look", "{leg: latch/lok", "name.unknown", "Nearest name: latch/look", "latch/lok")]
    [InlineData("unknown key", "carry: waist", "cary: waist", "key.unknown", "Nearest name: carry", "cary: waist")]
    [InlineData("broken YAML", "  - {leg: latch/free, way: auto, anchor: lock}\n", "  - {leg: [latch/free, way: auto, anchor: lock }\n", "file.syntax", "did not find expected", "}\n  - {ingress")]
    public void Outline_Bad_IsToldWithItsPlaceAndNothingIsWritten(string what, string from, string to, string code, string says, string at)
    {
        place.Edit(ByHand, from, to, "mine.yaml");
        Result result = RunAndExpectNothingWritten(2, "check", Short, "--outline", "mine.yaml", "--write");
        AssertTold(what, result, "mine.yaml", at, code);
        Assert.Contains(says, result.Err);
    }

    [Theory]
    [InlineData("  EV2:\n  - {egress: lock}\n", "  EV2:\n", "outline.inside", "EV2's list does not begin with an egress")]
    [InlineData("{leg: latch/free, way: auto", "{leg: latch/free, way: [lock, quay-2]", "outline.way", "no span joins lock and quay-2")]
    public void Outline_CannotBeDone_IsToldAndNothingIsWritten(string from, string to, string code, string says)
    {
        place.Edit(ByHand, from, to, "mine.yaml");
        Result result = RunAndExpectNothingWritten(2, "check", Short, "--outline", "mine.yaml", "--write");
        Assert.Contains($"mine.yaml: {code}\n", result.Err);
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
        AssertTold("outline to go on from", RunAndExpectNothingWritten(2, "plan", Short, "--from", "mine.yaml"), "mine.yaml", "skerry/lee-shore", "scenario.other");
    }
}
