using System.Text.RegularExpressions;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>What changed since another outline, and for whom.</summary>
public sealed class ChangesTests
{
    private static string Changes(string from, string to)
    {
        using TemporaryFolder folder = new();
        foreach (string path in Directory.GetFiles(Folders.SkerryShort, "*.yaml")) File.Copy(path, Path.Combine(folder.Path, Path.GetFileName(path)));
        string before = File.ReadAllText(Path.Combine(Folders.SkerryShort, "outlines", "by-hand.yaml"));
        Assert.Contains(from, before);
        using TemporaryFolder outlines = new();
        string outline = Path.Combine(outlines.Path, "now.yaml"), old = Path.Combine(outlines.Path, "before.yaml");
        File.WriteAllText(outline, before.Replace(from, to));
        File.WriteAllText(old, before);
        SortieDesk desk = Folders.Good(SortieDesk.Open(folder.Path));
        ProvenPlan Plan(string path) => desk.Check(path, asIs: true) is var outcome && outcome.Plan is { } plan ? plan : throw new InvalidOperationException(Problem.Render(outcome.Problems));
        return Draw.BookletText.Write(BriefingFiles.Changes(desk.Scenario, Plan(outline), Briefings.Options with { Since = Plan(old) })!);
    }

    [Fact]
    public void Changes_OfTheSamePlan_AreNone()
    {
        string changes = Changes("scenario: skerry/short", "scenario: skerry/short");
        Assert.Contains(Wording.English["changes.same"], changes);
        Assert.DoesNotContain("later", changes);
    }

    [Fact]
    public void Changes_OfALegHeldBack_AreToldToWhomTheyConcernInOneLine()
    {
        string changes = Changes("{leg: latch/look, way: auto, anchor: lock}", "{leg: latch/look, way: auto, anchor: lock, not_before: \"2:00\"}");
        string second = changes.Split("\nEV2 · ")[1];
        Assert.Contains("later", second);
        Assert.Contains(Caution.Text, changes);
        Assert.Contains(Wording.English["changes.end"], changes);
    }

    [Fact]
    public void Changes_OfAnotherCarryPoint_NameTheThing()
    {
        string changes = Changes("carry: waist", "carry: chest");
        string first = changes.Split("\nEV1 · ")[1].Split("\nEV2 · ")[0];
        Assert.Contains("chest", first);
        Assert.Contains("was: ", first);
        // Told where it begins, and once more when it is as it was: not with each deed in between.
        Assert.Single(Regex.Matches(first, "from here on the suit too: chest"));
        Assert.Single(Regex.Matches(first, "from here not on the suit: waist"));
        Assert.Single(Regex.Matches(first, "from here on the suit as before"));
    }

    [Fact]
    public void Changes_OfALegLeftOut_SayWhatIsNoLongerDoneAndWhatFindingsCame()
    {
        string changes = Changes("\n  - {leg: latch/look, way: auto, anchor: lock}", "");
        Assert.Contains(Wording.English["changes.gone"], changes.Split("\nEV2 · ")[1]);
        Assert.Contains(Wording.English["changes.gained"], changes);
        Assert.Contains("NOT CLEAN", changes);
    }
}
