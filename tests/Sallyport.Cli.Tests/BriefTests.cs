using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary><c>brief</c>, as a user runs it.</summary>
public sealed class BriefTests : IDisposable
{
    private const string Folder = "out/skerry-short/by-hand/brief";
    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    [Fact]
    public void Brief_OfAnOutline_WritesItsFilesAndTheSameOnesAgain()
    {
        Result result = place.Run("brief", "scenarios/skerry-short", "--date", "2031-05-14").Ended(0);
        Assert.Contains(Caution.Text, result.Out);
        Assert.All(["sortie.pdf", "sortie.txt", "sortie.xlsx", "timeline.csv", "ground.ics"], file => Assert.Contains($"{Folder}/{file}", result.Err.Replace('\\', '/')));
        var before = place.Files();
        place.Run("brief", "scenarios/skerry-short", "--date", "2031-05-14").Ended(0);
        Assert.Equal(before, place.Files());
    }

    [Fact]
    public void Brief_WithAndWithoutLatestStarts_TellsThemOrThatTheyWereNotReckoned()
    {
        place.Run("brief", "scenarios/skerry-short").Ended(0);
        Assert.Contains("Not reckoned for this briefing", place.Read($"{Folder}/sortie.txt"));
        place.Run("brief", "scenarios/skerry-short", "--latest").Ended(0);
        string told = place.Read($"{Folder}/sortie.txt");
        Assert.DoesNotContain("Not reckoned for this briefing", told);
        Assert.Contains("Leg · [latch/free]", told);
        Assert.Contains("A minute later:", told);
    }

    [Fact]
    public void Brief_SinceAnotherOutline_SaysWhatChangedAndForWhom()
    {
        place.Edit("scenarios/skerry-short/outlines/by-hand.yaml", "carry: waist", "carry: chest", into: "before.yaml");
        Result result = place.Run("brief", "scenarios/skerry-short", "--since", "before.yaml").Ended(0);
        Assert.Contains("EV1", result.Out);
        Assert.Contains("chest", result.Out);
        Assert.True(File.Exists(place.PathOf($"{Folder}/changes.pdf")));
        // A briefing that tells of no changes leaves none lying beside it that tell of others.
        place.Run("brief", "scenarios/skerry-short").Ended(0);
        Assert.False(File.Exists(place.PathOf($"{Folder}/changes.pdf")));
    }

    [Fact]
    public void Brief_OfAPlanThatBreaksARule_WritesADraftAndEndsWithOne()
    {
        place.Edit("scenarios/skerry-short/outlines/by-hand.yaml", "  - {leg: latch/look, way: auto, anchor: lock}\n", "");
        Result result = place.Run("brief", "scenarios/skerry-short").Ended(1);
        Assert.Contains("NOT CLEAN", result.Out);
        Assert.Contains("DRAFT — NOT CLEAN", place.Read($"{Folder}/sortie.txt"));
    }

    [Fact]
    public void Brief_WhereNothingCanBeWritten_SaysSoAndLeavesNothing()
    {
        place.Write("out", "in the way");
        var before = place.Files();
        Result result = place.Run("brief", "scenarios/skerry-short").Ended(2);
        Assert.Contains("file.unwritable", result.Err);
        Assert.Equal(before, place.Files());
    }

    [Theory]
    [InlineData("--paper", "a5")]
    [InlineData("--date", "14.5.2031")]
    public void Brief_AWordThatIsOff_EndsWithUsage(string option, string value) => place.Run("brief", "scenarios/skerry-short", option, value).Ended(2);

    [Fact]
    public void Brief_SinceAnOutlineThatIsNotThere_EndsWithAProblemAndWritesNothing()
    {
        place.Run("brief", "scenarios/skerry-short", "--since", "nowhere.yaml").Ended(2);
        Assert.False(Directory.Exists(place.PathOf("out")));
    }
}
