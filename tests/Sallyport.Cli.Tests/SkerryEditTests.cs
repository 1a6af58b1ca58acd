namespace Sallyport.Cli.Tests;

/// <summary>An outline of Skerry with a decision near its end, edited as a person edits.</summary>
[Collection(nameof(SkerryTwice))]
public sealed class SkerryEditTests : IDisposable
{
    private readonly Workplace place = new("skerry");
    private readonly SkerryTwice planned;

    public SkerryEditTests(SkerryTwice planned)
    {
        this.planned = planned;
        planned.FirstRun.Value.Ended(0);
    }

    private string[] Lines => planned.First.Read(planned.Outline).Split('\n');

    public void Dispose() => place.Dispose();

    private Result Check(IEnumerable<string> lines, params string[] words)
    {
        place.Write("mine.yaml", string.Join('\n', lines));
        return place.Run(["check", "scenarios/skerry", "--outline", "mine.yaml", .. words]);
    }

    [Fact]
    public void Check_BagMoveDeleted_ComesBackAndTheDecisionStays()
    {
        string taken = Assert.Single(Lines, line => line.Contains("{take: gyro-bag, from: lock"));
        Result result = Check(Lines.Where(line => line != taken)).ShowedPlan();
        Assert.Contains("+ take gyro-bag from lock", result.Err);
        Assert.Contains("Decision when ", result.Out);
        Assert.Equal(planned.FirstRun.Value.Out.Split("Decision when ")[1].Split('\n')[0], result.Out.Split("Decision when ")[1].Split('\n')[0]);
        result.Ended(0);
    }

    [Fact]
    public void Check_BagMoveDeletedAsIs_IsFound()
    {
        Result result = Check(Lines.Where(line => !line.Contains("{take: gyro-bag, from: lock")), "--as-is").Ended(1);
        Assert.Contains("  BROKEN gear.absent\n", result.Out);
        Assert.Contains("for which gyro-bag hangs on the person, but it is inside the station.", result.Out);
    }

    [Fact]
    public void Check_GroundCommandDeleted_IsFoundAsLivePower()
    {
        Result result = Check(Lines.Where(line => !line.Contains("do: branch-a off"))).Ended(1);
        Assert.Contains("  BROKEN inhibit.few\n", result.Out);
    }

    [Fact]
    public void Check_PinNearTheEnd_BreaksTheLimitByASum()
    {
        Result result = Check(Lines.Select(line => line.Replace("{leg: tray/fetch,", "{leg: tray/fetch, not_before: \"6:20\","))).Ended(1);
        Assert.Contains("  BROKEN pet.limit\n", result.Out);
        Assert.Matches(@"measured PET 6:\d\d:?\d*|measured PET 7:\d\d", result.Out);
        Assert.Contains("Mend: Leave a job out, or shorten a way.", result.Out);
    }
}
