namespace Sallyport.Cli.Tests;

/// <summary><c>complete</c> shows what an edited outline needs and writes it when asked; <c>new</c> makes a scenario to begin with.</summary>
public sealed class CompleteTests : IDisposable
{
    private const string Short = "scenarios/skerry-short", ByHand = Short + "/outlines/by-hand.yaml";
    private const string Take = "  - {take: latch-bag, from: lock, carry: waist, for: latch/free}\n";

    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    private Result Complete(params string[] words) => place.Run(["complete", Short, "--outline", "mine.yaml", .. words]).Ended(0);

    [Fact]
    public void Complete_BagMoveDeleted_IsShownAndWrittenOnlyWhenAsked()
    {
        place.Edit(ByHand, Take, "", "mine.yaml");
        string mine = place.Read("mine.yaml");
        Result shown = Complete();
        Assert.Equal("EV1: + take latch-bag from lock onto waist, before leg latch/free\n", shown.Out);
        Assert.Contains("Not written; --write changes the file.", shown.Err);
        Assert.Equal(mine, place.Read("mine.yaml"));

        Assert.Equal(shown.Out, Complete("--write").Out);
        string[] before = mine.Split('\n'), after = place.Read("mine.yaml").Split('\n');
        Assert.Equal(before, after.Where(line => !line.Contains("take: latch-bag")));
        Assert.Equal(before.Length + 1, after.Length);
        place.Run("check", Short, "--outline", "mine.yaml", "--as-is").Ended(0).Broke();
    }

    [Fact]
    public void Complete_NothingMoved_SaysSo()
    {
        place.Edit(ByHand, "# Worked by hand", "# Copied by hand", "mine.yaml");
        Result shown = Complete("--write");
        Assert.Empty(shown.Out);
        Assert.Contains("Nothing to re-derive.", shown.Err);
    }

    [Fact]
    public void Complete_OrderThatCannotBeKept_LeavesTheFileAndSaysWhy()
    {
        const string Free = "  - {leg: latch/free, way: auto, anchor: lock}\n", Look = "  - {leg: latch/look, way: auto, anchor: lock}\n";
        // The look waits for the latch, and stands before it in the same list; the bag is missing too.
        place.Edit(ByHand, [(Take, ""), (Look, ""), (Free, Look + Free)], "mine.yaml");
        string mine = place.Read("mine.yaml");
        Result shown = Complete("--write");
        Assert.Empty(shown.Out);
        Assert.Contains("no bag moves were found that bring it with everybody's legs kept in their order", shown.Err);
        Assert.Equal(mine, place.Read("mine.yaml"));
    }

    [Fact]
    public void New_Folder_IsAScenarioThatCanBePlanned()
    {
        place.Run("new", "mine").Ended(0);
        place.Run("plan", "mine", "--effort", "1").Ended(0).ShowedPlan().Broke();
        SortedDictionary<string, string> before = place.Files();
        Assert.Contains("Fix:", place.Run("new", "mine").Ended(2).Err);
        Assert.Equal(before, place.Files());
    }
}
