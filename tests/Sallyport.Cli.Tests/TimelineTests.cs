using System.Text.Json.Nodes;

namespace Sallyport.Cli.Tests;

/// <summary>The short walk planned once, for timelines to be damaged.</summary>
public sealed class PlannedShort : IDisposable
{
    public PlannedShort() => Place.Run("check", "scenarios/skerry-short", "--write").Ended(0);

    public Workplace Place { get; } = new("skerry-short");

    public void Dispose() => Place.Dispose();
}

/// <summary><c>check --timeline</c> judges a timeline as told, however it came about.</summary>
public sealed class TimelineTests(PlannedShort planned) : IClassFixture<PlannedShort>
{
    private const string Short = "scenarios/skerry-short", Honest = "out/skerry-short/by-hand/timeline.json";

    private Result Check(string file) => planned.Place.Run("check", Short, "--timeline", file);

    private Result CheckDamaged(Action<JsonArray> damage)
    {
        JsonNode timeline = JsonNode.Parse(planned.Place.Read(Honest))!;
        damage(timeline["activities"]!.AsArray());
        planned.Place.Write("damaged.json", timeline.ToJsonString());
        return Check("damaged.json");
    }

    private static JsonNode Find(JsonArray activities, string does, string person) =>
        activities.First(one => (string)one!["does"]! == does && (string?)one["person"] == person)!;

    [Fact]
    public void Timeline_AsWritten_IsClean()
    {
        Result result = Check(Honest).Ended(0).ShowedPlan().Broke();
        Assert.Contains($"timeline {Honest}, as told", result.Err);
    }

    // The way to the ring takes 60 s and 90 s; told, it takes 59 s and 90 s, and the person stands still for the second left over.
    [Fact]
    public void Timeline_WayOneSecondTooShort_IsFound()
    {
        Result result = CheckDamaged(activities =>
        {
            JsonNode walk = Find(activities, "translate", "EV1");
            Assert.Equal(("0:19", "0:21:30", "60 s"), ((string)walk["start"]!, (string)walk["end"]!, (string)walk["spans"]![0]!["time"]!));
            (walk["end"], walk["spans"]![0]!["time"]) = ("0:21:29", "59 s");
        }).Ended(1).ShowedPlan().Broke("way.short", "time.twice");
        Assert.Contains("EV1", result.Out);
        Assert.Contains("measured 59 s, limit 1 min, margin -1 s", result.Out);
    }

    [Fact]
    public void Timeline_TakeShiftedIntoTheMutualCheck_IsFound()
    {
        Result result = CheckDamaged(activities =>
        {
            JsonNode take = Find(activities, "take", "EV1");
            Assert.Equal(("0:17", "0:19"), ((string)take["start"]!, (string)take["end"]!));
            (take["start"], take["end"]) = ("0:16", "0:18");
        }).Ended(1).ShowedPlan();
        Assert.Contains("  BROKEN time.twice\n    PET 0:16: EV1 ", result.Out);
    }

    [Fact]
    public void Timeline_TakeLeftOut_IsFound()
    {
        Result result = CheckDamaged(activities =>
        {
            JsonNode take = Find(activities, "take", "EV1"), walk = Find(activities, "translate", "EV1");
            Assert.Equal((string)take["id"]!, (string)Assert.Single(walk["after"]!.AsArray())!["activity"]!);
            walk["after"]!.AsArray().Clear();
            activities.Remove(take);
        }).Ended(1).ShowedPlan();
        Assert.Contains("  BROKEN gear.absent\n", result.Out);
        Assert.Contains("EV1 begins latch/free, for which latch-bag hangs on the person, but it is inside the station.", result.Out);
    }

    [Fact]
    public void Timeline_WalkBegunDuringTheCheck_IsFound()
    {
        Result result = CheckDamaged(activities =>
        {
            JsonNode walk = Find(activities, "translate", "EV2");
            Assert.Equal(("0:17", "0:18"), ((string)walk["start"]!, (string)walk["end"]!));
            walk["start"] = "0:16:30";
        }).Ended(1).ShowedPlan();
        Assert.Contains("  BROKEN time.twice\n    PET 0:16:30: EV2 ", result.Out);
    }

    [Fact]
    public void Timeline_StepBeforeWhatItRestsOn_IsFound()
    {
        Result result = CheckDamaged(activities =>
        {
            JsonNode wait = activities.First(one => (string)one!["does"]! == "wait" && (string?)one["person"] == "EV2")!;
            JsonNode look = Find(activities, "step", "EV2");
            // The wait of 13 min 30 s and the look of 3 min change places.
            (look["start"], look["end"], wait["start"], wait["end"]) = ("0:18", "0:21", "0:21", "0:34:30");
        }).Ended(1).ShowedPlan().Broke("feature.wrong", "job.order");
        Assert.Contains("Mend:", result.Out);
    }

    [Fact]
    public void Timeline_BrokenJson_IsToldWithItsPlace()
    {
        planned.Place.Edit(Honest, "\"planId\":", "\"planId\"", "broken.json");
        Result result = Check("broken.json").Ended(2);
        Assert.Matches(@"broken\.json:4:\d+: file\.syntax\n  found  ", result.Err);
        Assert.Contains("  4 |   \"planId\" ", result.Err);
        Assert.Empty(result.Out);
    }

    [Theory]
    [InlineData("\"scenario\": \"skerry/short\"", "\"scenario\": \"skerry/lee-shore\"", @"bad\.json:3:15: scenario\.other")]
    [InlineData("\"gear\": \"latch-bag\"", "\"gear\": \"latch-bug\"", @"(?s)bad\.json:\d+:\d+: name\.unknown.*Nearest name: latch-bag")]
    [InlineData("\"planId\"", "\"planID\"", @"bad\.json:4:3: key\.unknown")]
    public void Timeline_BadInput_IsToldWithItsPlace(string from, string to, string told)
    {
        planned.Place.Edit(Honest, from, to, "bad.json");
        Assert.Matches(told, Check("bad.json").Ended(2).Err);
    }

    [Fact]
    public void Timeline_NoFile_IsSaid() => Assert.Contains("nowhere.json: file.unreadable", Check("nowhere.json").Ended(2).Err);
}
