using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The starter scenario: it reads, plans clean, takes its folder's name, and is never written over anything.</summary>
public sealed class NewScenarioTests
{
    private static SortieDesk New(string folder)
    {
        (ImmutableArray<string> written, Problem? problem) = NewScenario.Write(folder);
        Assert.Null(problem);
        Assert.Equal(written.Order(StringComparer.Ordinal), Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal));
        return Folders.Good(SortieDesk.Open(folder));
    }

    [Fact]
    public void Starter_Planned_IsCleanWithEveryJobDone()
    {
        using TemporaryFolder temporary = new();
        SortieDesk desk = New(Path.Combine(temporary.Path, "islet"));
        Assert.Empty(desk.Notes);
        PlanOutcome outcome = desk.Plan("plan", effort: 1, seed: 7, from: null, _ => { }, CancellationToken.None);
        ProvenPlan plan = Assert.IsType<ProvenPlan>(outcome.Plan);
        Assert.Empty(plan.Verdict.Findings);
        Assert.Empty(plan.Outline!.LeftOut);
        Assert.Equal(desk.Scenario.Legs.Select(leg => leg.Id.Value).Order(), plan.Likely.Activities.OfType<DoStep>().Select(step => step.Leg.Value).Distinct().Order());
        Assert.Equal(["EV1", "EV2"], desk.Scenario.Outside.Select(person => person.Id.Value));
    }

    // Not clean because nothing was asked for: with nobody trained for the lamp, the must-job is refused.
    [Fact]
    public void Starter_WithoutTraining_IsRefused()
    {
        using TemporaryFolder temporary = new();
        string folder = Path.Combine(temporary.Path, "islet"), people = Path.Combine(folder, "people.yaml");
        New(folder);
        File.WriteAllText(people, File.ReadAllText(people).Replace("trained_for: [lamps]", "trained_for: [ropes]"));
        Assert.Equal("name.unknown", Assert.Single(ScenarioReader.Read(folder).Problems).Code);
    }

    [Theory]
    [InlineData("islet", "islet")]
    [InlineData("first.walk_2", "first.walk_2")]
    [InlineData("null", "null")]
    [InlineData("7", "7")]
    [InlineData("two words", "starter")]
    [InlineData("one#two", "starter")]
    public void Starter_Folder_GivesTheScenarioItsNameWhenFit(string folder, string id)
    {
        using TemporaryFolder temporary = new();
        Assert.Equal(id, New(Path.Combine(temporary.Path, "deep", folder)).Scenario.Id);
    }

    [Fact]
    public void Starter_EveryFile_TeachesItsSections()
    {
        (string Name, byte[] Content)[] files = [.. NewScenario.Files("islet")];
        Assert.Equal(6, files.Length);
        Assert.Contains(files, file => System.Text.Encoding.UTF8.GetString(file.Content).Contains(Caution.Text));
        foreach ((string name, byte[] content) in files)
        {
            string[] lines = System.Text.Encoding.UTF8.GetString(content).Split('\n');
            // Above every section, or under its head, stands a comment that says what it is.
            foreach (int line in Enumerable.Range(0, lines.Length).Where(line => lines[line].Length > 0 && char.IsLetter(lines[line][0])))
                Assert.True(lines[line - 1].StartsWith('#') || lines[line + 1].TrimStart().StartsWith('#') || lines[line].StartsWith("sortie"), $"{name}: '{lines[line]}' is not explained");
        }
    }

    [Fact]
    public void Write_IntoAnEmptyFolder_FillsIt()
    {
        using TemporaryFolder temporary = new();
        New(temporary.Path + Path.DirectorySeparatorChar);
    }

    [Fact]
    public void Write_WhereSomethingIs_ChangesNothing()
    {
        using TemporaryFolder temporary = new();
        string mine = Path.Combine(temporary.Path, "mine.txt");
        File.WriteAllText(mine, "mine");
        foreach (string folder in new[] { temporary.Path, mine })
        {
            (ImmutableArray<string> written, Problem? problem) = NewScenario.Write(folder);
            Assert.Empty(written);
            Assert.Equal("folder.filled", problem?.Code);
            Assert.Equal([mine], Directory.EnumerateFileSystemEntries(temporary.Path));
        }
        Assert.Equal("mine", File.ReadAllText(mine));
    }

    [Fact]
    public void Write_WhereNothingCanBeWritten_LeavesNothing()
    {
        using TemporaryFolder temporary = new();
        string file = Path.Combine(temporary.Path, "file");
        File.WriteAllText(file, "mine");
        Assert.Equal("file.unwritable", NewScenario.Write(Path.Combine(file, "a", "b")).Problem?.Code);
        Assert.Equal([file], Directory.EnumerateFileSystemEntries(temporary.Path));
    }
}
