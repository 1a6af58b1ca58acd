using System.Text;
using System.Text.Json;
using CsCheck;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The files of a plan: written whole or not at all, and read back.</summary>
public sealed class PlanFilesTests
{
    private static readonly Scenario Every = Folders.EveryKeyScenario;

    private static Timeline OneOfEach => new(Every.Id, "p1", Branch.Likely, Timelines.OneOfEach, []);

    private static string Json => Encoding.UTF8.GetString(PlanFiles.ToJson(OneOfEach));

    private static ReadResult<Timeline> Read(string json) => PlanFiles.ReadTimeline(Folders.Bytes(json), "t.json", Every);

    private static string Told(string from, string to)
    {
        string json = Json;
        int at = json.IndexOf(from, StringComparison.Ordinal);
        Assert.True(at >= 0, $"'{from}' is not in the timeline");
        return string.Join('\n', Read(json[..at] + to + json[(at + from.Length)..]).Problems.Select(BadInput.Told));
    }

    [Fact]
    public void Timeline_WrittenAndRead_IsTheSame() =>
        Timelines.All.Sample(timeline =>
        {
            byte[] json = PlanFiles.ToJson(timeline);
            Timeline back = Folders.Good(PlanFiles.ReadTimeline(json, "t.json", Every));
            Assert.Equal(StructureText.Of(timeline), StructureText.Of(back));
            Assert.Equal(json, PlanFiles.ToJson(back));
        }, iter: 300);

    [Fact]
    public void Timeline_WithEachKindOfActivity_HasEachKindInTheModel()
    {
        IEnumerable<Type> kinds = typeof(Activity).Assembly.GetTypes().Where(type => !type.IsAbstract && type.IsSubclassOf(typeof(Activity)));
        Assert.Equal(kinds.Select(kind => kind.Name).Order(), OneOfEach.Activities.Select(activity => activity.GetType().Name).Distinct().Order());
        Assert.Equal(StructureText.Of(OneOfEach), StructureText.Of(Folders.Good(Read(Json))));
    }

    [Fact]
    public void Timeline_Written_ReadsWellToPeople()
    {
        Timeline timeline = OneOfEach with { Activities = [Timelines.OneOfEach[3] with { Start = Pet.FromSeconds(-90), After = [new(null, Duration.FromSeconds(60), "day")] }] };
        Assert.Equal("""
            {
              "caution": "Planning aid only: flight rules, safety, the flight surgeon and licensed practice decide.",
              "scenario": "islet/first-light",
              "planId": "p1",
              "branch": "likely",
              "activities": [
                {
                  "does": "take",
                  "id": "a3",
                  "start": "-0:01:30",
                  "end": "0:04",
                  "after": [
                    {
                      "lag": "60 s",
                      "why": "day"
                    }
                  ],
                  "for": "look/look",
                  "person": "EV2",
                  "gear": "lamp-bag",
                  "at": "door",
                  "carry": "waist"
                }
              ],
              "notes": []
            }

            """, Encoding.UTF8.GetString(PlanFiles.ToJson(timeline)));
    }

    [Fact]
    public void Timeline_OutOfOrder_IsSortedByStartAndName()
    {
        Timeline shuffled = OneOfEach with { Activities = [.. OneOfEach.Activities.Reverse()] };
        Assert.Equal(OneOfEach.Activities.Select(activity => activity.Id), Folders.Good(PlanFiles.ReadTimeline(PlanFiles.ToJson(shuffled), "t.json", Every)).Activities.Select(activity => activity.Id));
    }

    [Theory]
    [InlineData("\"gear\": \"lamp-bag\"", "\"gear\": \"lamp-bg\"", "t.json:61:15: name.unknown | 'lamp-bg' | a known gear item | write 'lamp-bag' if that is meant, or add the gear item 'lamp-bg'.")]
    [InlineData("\"carry\": \"waist\"", "\"carry\": \"chest\"", "t.json:63:16: name.unknown | 'chest' | a known carry point of EV2 | use one of: waist.")]
    [InlineData("\"person\": \"EV1\"", "\"person\": \"IV\"", "t.json:28:17: name.kind | 'IV', which is a known person but no person outside | a person outside | use one of: EV1, EV2.")]
    [InlineData("\"id\": \"a1\"", "\"id\": \"a0\"", "t.json:23:13: name.twice | the activity 'a0' again; the first stands at t.json:9:13 | each activity once | rename or delete one of the two.")]
    [InlineData("\"start\": \"0:01\"", "\"start\": \"0:02\"", "t.json:21:5: activity.short | the activity 'a1', which ends no later than it starts | at least 1 s | mend 'start' or 'end'.")]
    [InlineData("\"does\": \"take\"", "\"does\": \"tkae\"", "t.json:54:15: value.choice | 'tkae' for 'does' | one of: airlock, translate, swap-reel, take, put, give, plug, unplug, enter-restraint, leave-restraint, mount, arm-move, dismount, step, wait, check-gloves, rest, command | write 'take' if that is meant.")]
    [InlineData("\"phase\": \"in\"", "\"phase\": \"outside\"", "t.json:15:16: value.choice | 'outside' for 'phase' | one of: out, waitInside, bagsOut, check, inventory, bagsIn, in, safeInside, close | write one of these.")]
    [InlineData("islet/first-light", "skerry/short", "t.json:3:15: scenario.other | a timeline of 'skerry/short' | a timeline of 'islet/first-light' | give the scenario 'skerry/short', or a timeline of 'islet/first-light'.")]
    [InlineData("\"airlock\": \"door\"", "\"airlck\": \"door\"", "t.json:14:7: key.unknown | the key 'airlck' | a key of an activity: does, airlock, phase, who, id, start, end, after, for | write 'airlock' if that is meant, or delete it.")]
    [InlineData("\"id\": \"a1\"", "\"id\": \"a1\", \"id\": \"b\"", "t.json:23:19: key.twice | the key 'id' again; it stands already at t.json:23:7 | each key once in a map | keep one of the two.")]
    [InlineData("\"end\": \"0:01\"", "\"end\": 60", "t.json:11:14: value.form | '60' for 'end' | a moment of PET, hours and minutes | write it like this: \"3:10\" or \"3:10:30\".")]
    public void Timeline_Bad_IsToldWithPlaceAndFix(string from, string to, string told) => Assert.Equal(told, Told(from, to));

    [Fact]
    public void Dependency_OnAnUnknownActivity_IsTold()
    {
        Timeline timeline = OneOfEach with { Activities = [OneOfEach.Activities[3] with { After = [new(new("a9"), default, "same person")] }] };
        Problem problem = Assert.Single(PlanFiles.ReadTimeline(PlanFiles.ToJson(timeline), "t.json", Every).Problems);
        Assert.Equal(("name.unknown", "'a9'", "a known activity", 14), (problem.Code, problem.Found, problem.Expected, problem.Line));
    }

    [Theory]
    [InlineData("{\"scenario\": \"islet/first-light\",\n \"planId\": }", 2, 12)]
    [InlineData("{\"scenario\": \"islet/first-light\"", 1, 33)]
    [InlineData("", 1, 1)]
    [InlineData("{} {}", 1, 4)]
    [InlineData("{\"a\": \"\\ud800\"}", 1, 7)]
    public void Timeline_NoJson_IsToldWithItsPlace(string json, int line, int column)
    {
        Problem problem = Assert.Single(Read(json).Problems);
        Assert.Equal(("file.syntax", line, column), (problem.Code, problem.Line, problem.Column));
    }

    [Fact]
    public void Timeline_DamagedAnyhow_NeverThrows()
    {
        string json = Json;
        Gen.Select(Gen.Int[0, json.Length], Gen.Int[0, 30], Gen.String[0, 4]).Sample((at, length, put) =>
            Read(json[..at] + put + json[Math.Min(json.Length, at + length)..]) is { Ok: true } or { Problems.Length: > 0 }, iter: 500);
    }

    [Fact]
    public void TraceAndVerdict_Written_AreTheSameBytesEachTime()
    {
        Trace trace = new(
            Every.Id, "p1", Branch.Otherwise, Pet.FromSeconds(0), Pet.FromSeconds(60), [new("person EV1 place", "EV1", "place", ["door", "rail-1"])], [0],
            [new(Pet.FromSeconds(30), 0, 1, new ActivityId("a1")), new(Pet.FromSeconds(40), 0, 0, null)], [new(new("way.none"), Pet.FromSeconds(1), new("a1"), [new("EV1")], "what", "mend")],
            [new(ReturnKind.Both, null, [new(Pet.FromSeconds(0), 12.5, new("a1"))])], [new(Pet.FromSeconds(0), Pet.FromSeconds(60), 1800, 1740, "reserve")]);
        Verdict verdict = new("p1", [new(new("way.none"), Severity.Broken, Branch.Likely, [new("EV1")], Pet.FromSeconds(1), null, "s", "m", "l", "g", "f", "d")], [new("way.none")], ["light"]);
        foreach (byte[] json in new[] { PlanFiles.ToJson(trace), PlanFiles.ToJson(verdict) })
        {
            using JsonDocument document = JsonDocument.Parse(json);
            Assert.Equal(Caution.Text, document.RootElement.GetProperty("caution").GetString());
            Assert.Equal("p1", document.RootElement.GetProperty("planId").GetString());
        }
        Assert.Equal(PlanFiles.ToJson(trace), PlanFiles.ToJson(trace with { }));
        using JsonDocument read = JsonDocument.Parse(PlanFiles.ToJson(trace));
        Assert.Equal(("0:00:30", "a1"), (read.RootElement.GetProperty("changes")[0].GetProperty("at").GetString(), read.RootElement.GetProperty("changes")[0].GetProperty("by").GetString()));
        Assert.False(read.RootElement.GetProperty("changes")[1].TryGetProperty("by", out _));
        Assert.Equal(12.5, read.RootElement.GetProperty("returns")[0].GetProperty("points")[0].GetProperty("seconds").GetDouble());
        using JsonDocument judged = JsonDocument.Parse(PlanFiles.ToJson(verdict));
        Assert.Equal(("broken", false), (judged.RootElement.GetProperty("findings")[0].GetProperty("severity").GetString(), judged.RootElement.GetProperty("clean").GetBoolean()));
    }
}
