using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary>The options of <c>plan</c>, and what it does with files that are in the way.</summary>
public sealed class PlanOptionTests : IDisposable
{
    private const string Short = "scenarios/skerry-short", ByHand = Short + "/outlines/by-hand.yaml", Written = Short + "/outlines/plan.yaml";

    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    private Result Plan(params string[] words) => place.Run(["plan", Short, "--effort", "1", .. words]);

    [Fact]
    public void Plan_Json_IsOneDocumentWithCautionAndFindings()
    {
        JsonNode shown = JsonNode.Parse(Plan("--json").Ended(0).Out)!;
        Assert.Equal(Caution.Text, (string)shown["caution"]!);
        Assert.Empty(shown["findings"]!.AsArray());
        Assert.NotEmpty(shown["checked"]!.AsArray());
        Assert.NotEmpty(shown["notChecked"]!.AsArray());
        Assert.Equal(place.Read("out/skerry-short/plan/findings.json"), Plan("--json").Out);
    }

    [Fact]
    public void Plan_DateNameAndFolder_AreTaken()
    {
        Result result = Plan("--date", "2031-05-01", "--name", "second-try", "--out", "papers/here").Ended(0);
        Assert.Contains("outline second-try", result.Out);
        Assert.Contains("printed 2031-05-01", result.Out);
        Assert.True(File.Exists(place.PathOf(Short + "/outlines/second-try.yaml")));
        Assert.True(File.Exists(place.PathOf("papers/here/skerry-short/second-try/range.svg")));
        Assert.Contains("2031-05-01", place.Read("papers/here/skerry-short/second-try/range.svg"));
    }

    [Fact]
    public void Plan_NoDate_PrintsNone()
    {
        Plan().Ended(0);
        Assert.DoesNotContain("printed", place.Read("out/skerry-short/plan/plan.txt"));
    }

    [Fact]
    public void Plan_FromAnOutline_KeepsItsPins()
    {
        place.Edit(ByHand, "anchor: lock}\n  - {ingress: lock, way: auto, anchor: lock}\n  EV2", "anchor: lock, not_before: \"0:45\"}\n  - {ingress: lock, way: auto, anchor: lock}\n  EV2", "pinned.yaml");
        Plan("--from", "pinned.yaml").Ended(0);
        Assert.Contains("{leg: latch/free, not_before: \"0:45\"", place.Read(Written));
        JsonNode step = JsonNode.Parse(place.Read("out/skerry-short/plan/timeline.json"))!["activities"]!.AsArray().First(one => (string?)one!["leg"] == "latch/free")!;
        Assert.Equal("0:45", (string)step["start"]!);
    }

    [Fact]
    public void Plan_OutlineEditedSince_IsKeptAndTheNewOneGetsTheNextName()
    {
        Plan().Ended(0);
        place.Edit(Written, "people:", "# mine\npeople:");
        string mine = place.Read(Written);
        Result again = Plan().Ended(0);
        Assert.Equal(mine, place.Read(Written));
        Assert.Contains($"{Written} has been edited", again.Err);
        Assert.Contains("outline plan-2 ", place.Read("out/skerry-short/plan-2/plan.txt"));
        Assert.True(File.Exists(place.PathOf(Short + "/outlines/plan-2.yaml")));
    }

    [Fact]
    public void Plan_OutlineByHandOfThatName_IsKept()
    {
        byte[] before = place.Bytes(ByHand);
        Plan("--name", "by-hand").Ended(0);
        Assert.Equal(before, place.Bytes(ByHand));
        Assert.True(File.Exists(place.PathOf(Short + "/outlines/by-hand-2.yaml")));
    }

    [Fact]
    public void Plan_OutlineNotEdited_IsWrittenOver()
    {
        Plan("--seed", "1").Ended(0);
        Plan("--seed", "2").Ended(0);
        Assert.Contains("seed: 2", place.Read(Written));
        Assert.False(File.Exists(place.PathOf(Short + "/outlines/plan-2.yaml")));
    }

    [Theory]
    [InlineData("out")]
    [InlineData("out/skerry-short")]
    [InlineData("out/skerry-short/plan")]
    [InlineData("out/skerry-short/plan/trace.json/in-the-way")]
    [InlineData("scenarios/skerry-short/outlines")]
    public void Plan_SomethingInTheWayOfItsFiles_WritesNothingAndSaysSo(string inTheWay)
    {
        if (Directory.Exists(place.PathOf(inTheWay))) Directory.Delete(place.PathOf(inTheWay), recursive: true);
        place.Write(inTheWay, "not a folder\n");
        SortedDictionary<string, string> before = place.Files();
        Result result = Plan().Ended(2);
        Assert.Contains("file.unwritable", result.Err);
        Assert.Contains("Fix: check the folder", result.Err);
        Assert.Empty(result.Out);
        Assert.Equal(before, place.Files());
    }

    [Theory]
    [InlineData("--name", "../plan", "file.name")]
    [InlineData("--from", "nowhere.yaml", "file.unreadable")]
    [InlineData("--effort", "0", "--effort takes a whole number from 1")]
    [InlineData("--effort", "many", "'many'")]
    [InlineData("--date", "1.5.2031", "expected a date such as 2031-05-14")]
    public void Plan_OptionOff_WritesNothingAndSaysSo(string option, string value, string said)
    {
        SortedDictionary<string, string> before = place.Files();
        Result result = place.Run("plan", Short, option, value).Ended(2);
        Assert.Contains(said, result.Err);
        Assert.Equal(before, place.Files());
    }
}
