using System.Text.Json;
using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary><c>sky</c> as a user runs it.</summary>
public sealed class SkyTests : IDisposable
{
    private const string Elements = "scenarios/skerry/skerry.omm";

    private readonly Workplace place = new("skerry", "tern");

    public void Dispose() => place.Dispose();

    [Fact]
    public void Sky_OfSkerry_TellsNightsPassesGapsRadiationAndTheAgeOfTheElements()
    {
        Result sky = place.Run("sky", "scenarios/skerry").Ended(0);
        Assert.Empty(sky.Err);
        Assert.Contains(Caution.Text, sky.Out);
        Assert.Contains("Elements of SKERRY, epoch 2031-05-20 06:00:00 UTC, 1.6 days from the far end of this (note after 3, refused after 14).", sky.Out);
        Assert.Matches(@"Beta \d+\.\d deg", sky.Out);
        // 93.9 min a turn: seven or eight nights begin in the twelve hours looked at.
        Assert.InRange(sky.Out.Split('\n').Count(line => line.StartsWith("not full day", StringComparison.Ordinal)), 7, 9);
        foreach (string name in new[] { "Cairn", "Spindle", "Lantern east", "Lantern west", "no link", "no voice", "high radiation" })
            Assert.Matches($@"(?m)^{name} +-?\d+:\d\d\S* +-?\d+:\d\d\S* +05-21 \d\d:\d\d:\d\d +05-21 \d\d:\d\d:\d\d  \d+ (min|s)", sky.Out);
    }

    // What the plan takes is never wider than what was computed, and UTC and PET say the same.
    [Fact]
    public void Sky_AsJson_HoldsComputedTimesAndWhatPlansTake()
    {
        JsonElement sky = JsonDocument.Parse(place.Run("sky", "scenarios/skerry", "--json").Ended(0).Out).RootElement;
        Assert.Equal(Caution.Text, sky.GetProperty("caution").GetString());
        DateTime zero = sky.GetProperty("petZero").GetDateTime();
        JsonElement computed = sky.GetProperty("computed");
        JsonElement[] penumbra = [.. computed.GetProperty("penumbra").EnumerateArray()], umbra = [.. computed.GetProperty("umbra").EnumerateArray()];
        Assert.Equal(penumbra.Length, umbra.Length);
        foreach ((JsonElement outer, JsonElement inner) in penumbra.Zip(umbra))
        {
            Assert.True(outer.GetProperty("fromSeconds").GetDouble() <= inner.GetProperty("fromSeconds").GetDouble());
            Assert.True(outer.GetProperty("toSeconds").GetDouble() >= inner.GetProperty("toSeconds").GetDouble());
            Assert.Equal(outer.GetProperty("fromSeconds").GetDouble(), (outer.GetProperty("fromUtc").GetDateTime() - zero).TotalSeconds, 3);
        }
        JsonElement[] notDay = [.. sky.GetProperty("plan").GetProperty("notFullDay").EnumerateArray()], dark = [.. sky.GetProperty("plan").GetProperty("fullNight").EnumerateArray()];
        Assert.Equal(penumbra.Length, notDay.Length);
        for (int i = 0; i < notDay.Length; i++)
        {
            Assert.True(Seconds(notDay[i], "from") <= penumbra[i].GetProperty("fromSeconds").GetDouble());
            Assert.True(Seconds(notDay[i], "to") >= penumbra[i].GetProperty("toSeconds").GetDouble());
            Assert.True(Seconds(dark[i], "from") >= umbra[i].GetProperty("fromSeconds").GetDouble());
            Assert.True(Seconds(dark[i], "to") <= umbra[i].GetProperty("toSeconds").GetDouble());
        }
        Assert.Equal(["Cairn", "Spindle"], computed.GetProperty("stations").EnumerateArray().Select(one => one.GetProperty("name").GetString()));
        Assert.NotEmpty(sky.GetProperty("plan").GetProperty("noLink").EnumerateArray());
        Assert.NotEmpty(sky.GetProperty("plan").GetProperty("radiation").EnumerateArray());
    }

    [Fact]
    public void Sky_GivenByHand_SaysSoAndThatRadiationIsNotKnown()
    {
        Result sky = place.Run("sky", "scenarios/tern").Ended(0);
        Assert.Contains("Given by hand, not computed from an orbit.", sky.Out);
        Assert.Contains("not given: no plan here is checked for it", sky.Out);
        Assert.Equal(JsonValueKind.Undefined, JsonDocument.Parse(place.Run("sky", "scenarios/tern", "--json").Ended(0).Out).RootElement.TryGetProperty("computed", out JsonElement none) ? none.ValueKind : JsonValueKind.Undefined);
    }

    [Theory]
    [InlineData("strip.svg", "<svg")]
    [InlineData("new/strip.PNG", "PNG")]
    public void Sky_Drawn_WritesAStripByTheEndOfItsName(string name, string begins)
    {
        Result sky = place.Run("sky", "scenarios/skerry", "--draw", name).Ended(0);
        Assert.Contains(name, sky.Err);
        string content = System.Text.Encoding.Latin1.GetString(place.Bytes(name));
        Assert.Contains(begins, content[..300]);
        if (begins == "<svg")
            Assert.All(["Lantern east", "loss of signal", "high radiation", Caution.Text, "fully dark, PET "], words => Assert.Contains(words, place.Read(name)));
    }

    // The state of the epoch against the elements themselves: 15.335 turns a day is 6849 km from the centre on average.
    [Fact]
    public void Elements_AtSomeMinutes_GivesPositionAndVelocity()
    {
        Result states = place.Run("sky", "--elements", Elements, "--at=0,-360,720.5").Ended(0);
        string[] rows = [.. states.Out.Split('\n').SkipWhile(line => !line.Contains("x km", StringComparison.Ordinal)).Skip(1).Where(line => line.Length > 0)];
        Assert.Equal(["0", "-360", "720.5"], rows.Select(row => row.Split(' ', StringSplitOptions.RemoveEmptyEntries)[0]));
        foreach (string row in rows)
        {
            double[] figures = [.. row.Split(' ', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(word => double.Parse(word, System.Globalization.CultureInfo.InvariantCulture))];
            Assert.InRange(Math.Sqrt(figures[..3].Sum(x => x * x)), 6830, 6870);
            Assert.InRange(Math.Sqrt(figures[3..].Sum(x => x * x)), 7.60, 7.66);
        }
        JsonElement json = JsonDocument.Parse(place.Run("sky", "--elements", Elements, "--at=0,-360,720.5", "--json").Ended(0).Out).RootElement;
        Assert.Equal("TEME", json.GetProperty("frame").GetString());
        Assert.Equal([0, -360, 720.5], json.GetProperty("states").EnumerateArray().Select(state => state.GetProperty("minutes").GetDouble()));
        Assert.Single(JsonDocument.Parse(place.Run("sky", "--elements", Elements, "--json").Ended(0).Out).RootElement.GetProperty("states").EnumerateArray());
    }

    // So much drag that the theory ends within a fortnight: its own code is told, whichever it is.
    [Fact]
    public void Elements_OfAnOrbitThatDecays_TellsTheModelsCode()
    {
        place.Edit(Elements, [("BSTAR = 0.00012000", "BSTAR = 0.20000000"), ("MEAN_MOTION = 15.33500000", "MEAN_MOTION = 16.30000000")], "low.omm");
        Result states = place.Run("sky", "--elements", "low.omm", "--at=0,20000").Ended(2);
        Assert.Matches(@"20000  no state: the orbit .* \(SGP4 code [1-6]\)", states.Out);
        JsonElement last = JsonDocument.Parse(place.Run("sky", "--elements", "low.omm", "--at=0,20000", "--json").Ended(2).Out).RootElement.GetProperty("states")[1];
        Assert.InRange(last.GetProperty("sgp4Code").GetInt32(), 1, 6);
        Assert.False(last.TryGetProperty("positionInKm", out _));
    }

    [Theory]
    [InlineData("give a scenario folder", "sky")]
    [InlineData("not both", "sky", "scenarios/skerry", "--elements", Elements)]
    [InlineData("--at goes with --elements", "sky", "scenarios/skerry", "--at=1")]
    [InlineData("minutes from the epoch", "sky", "--elements", Elements, "--at=1,x")]
    [InlineData("ends in .svg or .png", "sky", "scenarios/skerry", "--draw", "strip.bmp")]
    [InlineData("--draw goes with a scenario", "sky", "--elements", Elements, "--draw", "strip.svg")]
    [InlineData("file.unreadable", "sky", "--elements", "nowhere.omm")]
    public void Words_ThatDoNotGoTogether_EndWithUsage(string said, params string[] words)
    {
        SortedDictionary<string, string> before = place.Files();
        Assert.Contains(said, place.Run(words).Ended(2).Err);
        Assert.Equal(before, place.Files());
    }

    // Whatever is wrong with the elements, every command that needs them says where, and nothing is written.
    [Theory]
    [InlineData("skerry.omm", "CENTER_NAME = EARTH", "CENTER_NAME = MARS", "skerry.omm:7:15: orbit.other")]
    [InlineData("skerry.omm", "REF_FRAME = TEME", "REF_FRAME = GCRF", "skerry.omm:8:13: orbit.other")]
    [InlineData("skerry.omm", "EPOCH = 2031", "EPOCH = 1999", "skerry.omm:11:9: orbit.old")]
    [InlineData("skerry.omm", "EPOCH = 2031-05-20", "EPOCH = 2031-05-20T", "skerry.omm:11:9: value.form")]
    [InlineData("skerry.omm", "ECCENTRICITY = 0.0006000", "ECCENTRICITY = 1.2", "skerry.omm:13:16: value.range")]
    [InlineData("skerry.omm", "ECCENTRICITY = 0.0006000", "ECCENTRICITY = 0.0800000", "skerry.omm:12:15: orbit.decayed")]
    [InlineData("orbit.yaml", "elements: skerry.omm", "elements: skerrry.omm", "orbit.yaml:5:13: file.missing")]
    [InlineData("orbit.yaml", "elements: skerry.omm", "elements: ../skerry.omm", "orbit.yaml:5:13: value.form")]
    [InlineData("orbit.yaml", "refuse_after: 14 d", "refuse_after: 1 d", "skerry.omm:11:9: orbit.old")]
    [InlineData("orbit.yaml", "latitude: 31.2 deg", "latitude: 131.2 deg", "orbit.yaml:9:29: value.range")]
    public void Elements_ThatCannotBeUsed_AreToldWithTheirPlace(string file, string from, string to, string told)
    {
        place.Edit($"scenarios/skerry/{file}", from, to);
        SortedDictionary<string, string> before = place.Files();
        foreach (string command in new[] { "sky", "plan", "check" }) Assert.Contains($"scenarios/skerry/{told}", place.Run(command, "scenarios/skerry").Ended(2).Err);
        Assert.Equal(before, place.Files());
    }

    // Without a plan the windows alone: a day later the same nights, half an hour earlier, since fifteen turns and a third make a day.
    [Fact]
    public void Slip_WithoutAPlan_TellsWhichWindowsMove()
    {
        Result slip = place.Run("sky", "scenarios/skerry", "--slip", "1d").Ended(0);
        Assert.Contains("the same plan 1 d later", slip.Out);
        Assert.Contains(Caution.Text, slip.Out);
        Assert.Matches(@"PET 0:00 +2031-05-21 09:15:00 UTC +2031-05-22 09:15:00 UTC", slip.Out);
        Assert.Matches(@"not full day +3:29:56 to 4:05 +2:57:\d\d to 3:32:\d\d +31 min 5\d s earlier", slip.Out);
        Assert.Contains("No plan was looked at", slip.Out);
        JsonElement[] rows = [.. JsonDocument.Parse(place.Run("sky", "scenarios/skerry", "--slip=-12h", "--json").Ended(0).Out).RootElement.GetProperty("rows").EnumerateArray()];
        Assert.Equal("2031-05-20 21:15:00 UTC", rows[0].GetProperty("then").GetString());
        Assert.Superset(new HashSet<string?> { "date", "orbit", "night", "sight", "link", "radiation" }, rows.Select(row => row.GetProperty("kind").GetString()).ToHashSet());
    }

    [Theory]
    [InlineData("orbit.old", "scenarios/skerry", "--slip", "30d")]
    [InlineData("sky.given", "scenarios/tern", "--slip", "1d")]
    [InlineData("expected a time with its unit", "scenarios/skerry", "--slip", "1")]
    [InlineData("expected a time with its unit", "scenarios/skerry", "--slip", "1 kg")]
    [InlineData("expected a time with its unit", "scenarios/skerry", "--slip", "61d")]
    [InlineData("--outline goes with --slip", "scenarios/skerry", "--outline", "x.yaml")]
    [InlineData("exclude each other", "scenarios/skerry", "--slip", "1d", "--draw", "x.svg")]
    [InlineData("file.unreadable", "scenarios/skerry", "--slip", "1d", "--outline", "nowhere.yaml")]
    public void Slip_ThatCannotBe_EndsWithUsage(string said, params string[] words) => Assert.Contains(said, place.Run(["sky", .. words]).Ended(2).Err);

    private static int Seconds(JsonElement stretch, string end)
    {
        Assert.True(Pet.TryParse(stretch.GetProperty(end).GetString()!, out Pet pet));
        return pet.Seconds;
    }

    [Fact]
    public void Elements_WithAWrongChecksum_AreToldWithTheirPlace()
    {
        place.Write("two.txt", "1 99001U 29003A   31131.52084333  .00001000  00000-0  12345-3 0    14\n2 99001  38.0123 110.5000 0008123  40.2500 319.7500 15.35120000 12342\n");
        Assert.Contains("two.txt:1:69: orbit.checksum", place.Run("sky", "--elements", "two.txt").Ended(2).Err);
    }

    [Fact]
    public void Elements_OlderThanIsNoted_AreUsedWithAWarning()
    {
        place.Edit("scenarios/skerry/orbit.yaml", "note_after: 3 d", "note_after: 1 d");
        Result sky = place.Run("sky", "scenarios/skerry").Ended(0);
        Assert.Contains("OLD ELEMENTS", sky.Out);
        Assert.Contains("Get newer ones before the day", sky.Err);
    }
}

/// <summary>Skerry as planned, slipped to other dates.</summary>
[Collection(nameof(SkerryTwice))]
public sealed class SlipTests : IDisposable
{
    private readonly Workplace place = new("skerry");
    private readonly SkerryTwice planned;

    public SlipTests(SkerryTwice planned)
    {
        this.planned = planned;
        planned.FirstRun.Value.Ended(0);
        place.Write("plan.yaml", planned.First.Read(planned.Outline));
    }

    public void Dispose() => place.Dispose();

    // What the table says of the other date is what check says of a scenario written for that date.
    [Fact]
    public void Slip_ByADay_IsWhatCheckSaysOfThatDate()
    {
        Result slip = place.Run("sky", "scenarios/skerry", "--slip", "1d", "--outline", "plan.yaml", "--json");
        JsonElement root = JsonDocument.Parse(slip.Out).RootElement;
        slip.Ended(root.GetProperty("clean").GetBoolean() ? 0 : 1);
        (string? Kind, string? What, string? Now, string? Then)[] rows = [.. root.GetProperty("rows").EnumerateArray().Select(row =>
            (row.GetProperty("kind").GetString(), row.GetProperty("what").GetString(), row.GetProperty("now").GetString(), row.GetProperty("then").GetString()))];
        Assert.Superset(new HashSet<string?> { "date", "night", "link", "radiation", "finding" }, rows.Select(row => row.Kind).ToHashSet());

        place.Edit("scenarios/skerry/scenario.yaml", "2031-05-21T09:15:00Z", "2031-05-22T09:15:00Z");
        Result check = place.Run("check", "scenarios/skerry", "--outline", "plan.yaml", "--as-is", "--json");
        JsonElement[] findings = [.. JsonDocument.Parse(check.Out).RootElement.GetProperty("findings").EnumerateArray()];
        Assert.Equal(check.Exit, slip.Exit);
        foreach ((_, string? what, _, string? then) in rows.Where(row => row.Kind == "finding" && row.Then!.Length > 0))
            Assert.Contains(findings, finding => what!.StartsWith(finding.GetProperty("rule").GetString()!, StringComparison.Ordinal)
                && then!.StartsWith($"{finding.GetProperty("severity").GetString()} at {finding.GetProperty("at").GetString()}", StringComparison.Ordinal));
        string[] broken = [.. findings.Where(finding => finding.GetProperty("severity").GetString() == "broken").Select(finding => finding.GetProperty("rule").GetString()!).Distinct()];
        Assert.All(broken, rule => Assert.Contains(rows, row => row.Kind == "finding" && row.What!.StartsWith(rule, StringComparison.Ordinal) && row.Then!.StartsWith("broken", StringComparison.Ordinal)));
    }

    // A second is too little to move anything by more than a second; the plan stays clean.
    [Fact]
    public void Slip_ByASecond_ChangesNothingByMoreThanASecond()
    {
        Result slip = place.Run("sky", "scenarios/skerry", "--slip", "1s", "--outline", "plan.yaml", "--json").Ended(0);
        foreach (JsonElement row in JsonDocument.Parse(slip.Out).RootElement.GetProperty("rows").EnumerateArray())
        {
            string kind = row.GetProperty("kind").GetString()!, change = row.GetProperty("change").GetString()!;
            if (kind is "night" or "sight" or "link" or "radiation" or "leg") Assert.Matches(@"^1 s (earlier|later|longer|shorter)(, 1 s (longer|shorter))?$", change);
            Assert.DoesNotContain("BROKEN", change);
        }
    }
}
