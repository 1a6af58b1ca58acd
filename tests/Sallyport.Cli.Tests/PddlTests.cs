namespace Sallyport.Cli.Tests;

/// <summary><c>check --pddl</c>: three files for another validator, whole or not at all.</summary>
public sealed class PddlTests : IDisposable
{
    private const string Short = "scenarios/skerry-short";

    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    [Fact]
    public void Check_Pddl_WritesThreeFilesAndNamesThem()
    {
        SortedDictionary<string, string> before = place.Files();
        Result result = place.Run("check", Short, "--pddl", "referee/short").Ended(0);
        string[] files = ["referee/short/domain.pddl", "referee/short/problem.pddl", "referee/short/plan.pddl"];
        Assert.All(files, file => Assert.Contains($"  {file}\n", result.Err));
        Assert.Equal(before.Keys.Concat(files).Order(StringComparer.Ordinal), place.Files().Keys);
        Assert.All(files, file => Assert.Contains(Model.Caution.Text, place.Read(file)));
        Assert.StartsWith("1.000: (", place.Read(files[2]).Split('\n').First(line => line[0] != ';'));
    }

    [Fact]
    public void Check_PddlOfABrokenTimeline_IsWrittenTooAndEndsBroken()
    {
        place.Run("check", Short, "--write").Ended(0);
        place.Edit("out/skerry-short/by-hand/timeline.json", "\"at\": \"lock\",\n      \"carry\": \"waist\"", "\"at\": \"quay-1\",\n      \"carry\": \"waist\"", "told.json");
        place.Run("check", Short, "--timeline", "told.json", "--pddl", "referee").Ended(1);
        Assert.Contains("(at start (stands person-ev1 grip-quay-1))", place.Read("referee/domain.pddl"));
    }

    [Theory]
    [InlineData("referee")]
    [InlineData("referee/plan.pddl/in-the-way")]
    public void Check_PddlFolderThatCannotBeWritten_LeavesEverythingAndSaysSo(string inTheWay)
    {
        place.Write(inTheWay, "not a folder\n");
        SortedDictionary<string, string> before = place.Files();
        Result result = place.Run("check", Short, "--pddl", "referee").Ended(2);
        Assert.Contains("file.unwritable", result.Err);
        Assert.Contains("Fix: check the folder", result.Err);
        Assert.DoesNotContain("Wrote:", result.Err);
        Assert.Equal(before, place.Files());
    }
}
