using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Json.Schema;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Schema and reader refuse the same: each key of the demos misspelt, taken out, and given every kind of wrong value.</summary>
public sealed partial class AgreementTests
{
    // What one map alone can tell; the rest takes names or figures from elsewhere, and only the reader tells it.
    [GeneratedRegex(@"^(key\..*|section\.unknown|value\..*|unit\..*|number\..*|list\..*|name\.form|place\.form|format\.version)$")]
    private static partial Regex ToldByOneMap();

    private static readonly Regex NamedInScenario = ScenarioNames(), NamedInOutline = OutlineNames();

    [GeneratedRegex("(/commands\\[\\]/makes|/leaves)$")]
    private static partial Regex ScenarioNames();

    [GeneratedRegex("^/(people|hands|arms|decide/then|decide/else)$")]
    private static partial Regex OutlineNames();

    /// <summary>The folders, read once: every file as a tree.</summary>
    private sealed record Demo(string Folder, ImmutableArray<MapNode> Files)
    {
        public static Demo Of(string folder) => new(folder, [.. Directory.GetFiles(folder, "*.yaml").Order(StringComparer.Ordinal).Select(Trees.Read)]);

        public IEnumerable<(int File, Trees.Spot Spot)> Spots => Files.SelectMany((file, index) => Trees.Spots(file, NamedInScenario.IsMatch).Select(spot => (index, spot)));

        /// <summary>The problems of the folder with one of its files changed.</summary>
        public ImmutableArray<Problem> ProblemsWith(int file, MapNode changed)
        {
            Binding binding = new();
            ScenarioReader.Bind(binding, Folder, Files.SetItem(file, changed));
            return binding.Failed<Scenario>().Problems;
        }
    }

    public static TheoryData<string> Demos =>
    [
        Path.Combine("scenarios", "skerry"), Path.Combine("scenarios", "skerry-short"),
        Path.Combine("src", "Sallyport.Desk", "Starter"), Path.Combine("tests", "Sallyport.Desk.Tests", "EveryKey"),
    ];

    [Theory]
    [MemberData(nameof(Demos))]
    public void Key_Misspelt_IsRefusedByBoth(string folder)
    {
        Demo demo = Demo.Of(RepositoryFolder.Of(folder));
        int tried = 0;
        foreach ((int file, Trees.Spot spot) in demo.Spots.Where(one => !one.Spot.IsName))
        {
            MapNode changed = Trees.Renamed(demo.Files[file], spot);
            Assert.True(demo.ProblemsWith(file, changed).Any(problem => problem.Code is "key.unknown" or "section.unknown"), $"the reader takes {spot.Pattern}x");
            Assert.False(SchemaTests.Takes(SchemaTests.Scenario, Trees.Json(changed)), $"the schema takes {spot.Pattern}x");
            tried++;
        }
        Assert.True(tried > 90, $"only {tried} keys were tried");
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Key_TakenOut_IsRefusedByBothOrNeither(string folder)
    {
        Demo demo = Demo.Of(RepositoryFolder.Of(folder));
        int refused = 0;
        foreach ((int file, Trees.Spot spot) in demo.Spots)
        {
            MapNode changed = Trees.Removed(demo.Files[file], spot);
            if (AssertAgree(spot, "taken out", demo.ProblemsWith(file, changed), SchemaTests.Scenario, changed)) refused++;
        }
        Assert.True(refused > 60, $"only {refused} keys were required");
    }

    private static readonly (string Name, Func<Place, Node> Make)[] Values =
    [
        .. new[]
        {
            "zz", "1", "-1", "1.5", "0", "-5 min", "0 s", "7 min", "3 kg", "2 m", "-2 m", "0 m", "2 m/min", "3 L", "2 psi", "2 Wh", "2 ft-lbf", "2 pieces", "1.5 pieces", "2 inhibits",
            "2 turns", "2 parsecs", "true", "false", "1:30", "1:75", "47:59:59", "49:00", "two words", "two  blanks", "a/b", "1 / 2 / 3 min", "1 / 2 / 3", "0 / 2 / 3 min", "1 / 2 kg / 3 min",
            "1, 2, 3 m", "1, 2, 3", "1, 2 m", "inside", "person", "site", "bag", "bag lamp-bag", "in.side", "2031-05-14T13:40:00Z", "2031-05-14T13:40:00", "day", "reel", "leapfrog",
            "outside", "inside", "stock", "restraint", "arm", "auto", "hand", "pinned", "link", "",
        }.Select(text => ($"'{text}'", (Func<Place, Node>)(place => new TextNode(place, text, Plain: true)))),
        ("a blank in quotes", place => new TextNode(place, " ", Plain: false)),
        ("an empty list", place => new ListNode(place, [])),
        ("a list of one", place => new ListNode(place, [new TextNode(place, "zz", true)])),
        ("a list with one twice", place => new ListNode(place, [new TextNode(place, "zz", true), new TextNode(place, "zz", true)])),
        ("a list of lists", place => new ListNode(place, [new ListNode(place, [])])),
        ("a list of lengths", place => new ListNode(place, [new TextNode(place, "2 m", true), new TextNode(place, "2 m", true)])),
        ("an empty map", place => new MapNode(place, [])),
        ("a map", place => new MapNode(place, [new(new(place, "zz", true), new TextNode(place, "zz", true))])),
    ];

    // Where the reader looks beyond the map, or past the form of a figure: it says more than a schema can, never less.
    private static bool LooksFurther(Trees.Spot spot) =>
        // One dimension for the two; a key of one rule only; three figures within bounds; half no more than the whole; a part shorter than the whole; a direction; up to a right angle.
        spot.Pattern is "/limits[]/limit" or "/limits[]/near" or "/limits[]/least" or "/limits[]/hour" or "/limits[]/rule" or "/body/quotient" or "/body/factors[]/factor" or "/jobs[]/value" or "/jobs[]/half_value"
            or "/tether/swap" or "/tether/hooked" or "/arms[]/rides[]/time" or "/arms[]/rides[]/guided" or "/jets[]/cone/along" or "/jets[]/cone/half_angle";

    [Fact]
    public void Value_OfEveryKind_IsRefusedByBothOrNeither()
    {
        Demo demo = Demo.Of(Folders.EveryKey);
        int refused = 0, taken = 0;
        foreach ((int file, Trees.Spot spot) in demo.Spots)
            foreach ((string name, Func<Place, Node> make) in Values)
            {
                MapNode changed = Trees.Replaced(demo.Files[file], spot, make);
                ImmutableArray<Problem> problems = demo.ProblemsWith(file, changed);
                if (LooksFurther(spot) && SchemaTests.Takes(SchemaTests.Scenario, Trees.Json(changed))) continue;
                if (AssertAgree(spot, $"as {name}", problems, SchemaTests.Scenario, changed)) refused++;
                else taken++;
            }
        Assert.True(refused > 5000 && taken > 2000, $"{refused} refused, {taken} taken");
    }

    // Every form that an outline has.
    private const string EveryEntry = """
        scenario: islet/first-light
        digest: abc
        made: {effort: 40, seed: 7}
        people:
          EV1:
          - {egress: door}
          - {take: lamp-bag, from: door, carry: waist, for: lamp/swap, way: auto, anchor: door, by: hand}
          - {put: lamp-bag, at: rail-1, way: [door, rail-1], for: lamp/swap}
          - {plug: restraint-2, into: socket-2, setting: B6, for: lamp/steady}
          - {unplug: restraint-2, from: socket-2, carry: waist}
          - {leg: lamp/swap, at: "1:00", not_before: "0:50", not_after: "1:10", who: pinned, keep: true, by: hand}
          - {meet: m1, at: rail-1, with: [EV2], give: [{gear: lamp-bag, to: EV2, carry: waist}], for: lamp/swap}
          - {mount: boom, at: rail-1}
          - {dismount: boom, at: rail-1, for: lamp/swap}
          - {wait: day}
          - {wait: "2:00", by: hand}
          - {ingress: door, way: auto, anchor: door}
          EV2:
          - {meet: m1, at: rail-1, with: [EV1]}
        hands:
          lamp-bag: [EV1, EV2]
        arms:
          boom: [{rider: EV1, mount: rail-1, poses: [park, lamp-high], dismount: rail-1}]
        ground: [{do: branch-a off, after: lamp/swap, before: valve/turn, late: true}]
        decide:
          after: lamp/swap
          if_before: "5:20"
          then: {EV1: [{leg: look/look}]}
          else: {EV1: [{ingress: door}]}
        left_out: [{job: valve, why: no time}]
        """;

    [Fact]
    public void Outline_AnyKeyOrValue_IsRefusedByBothOrNeither()
    {
        List<Problem> broken = [];
        MapNode outline = Assert.IsType<MapNode>(YamlReader.Read(SourceText.From(Folders.Bytes(EveryEntry), "outline.yaml", broken.Add)!, broken.Add));
        Assert.Empty(broken);
        Assert.True(SchemaTests.Takes(SchemaTests.Outline, Trees.Json(outline)));
        int refused = 0;
        foreach (Trees.Spot spot in Trees.Spots(outline, NamedInOutline.IsMatch))
        {
            List<(string How, MapNode Changed)> changes = [("taken out", Trees.Removed(outline, spot)), .. Values.Select(value => ($"as {value.Name}", Trees.Replaced(outline, spot, value.Make)))];
            if (!spot.IsName) changes.Add(("misspelt", Trees.Renamed(outline, spot)));
            foreach ((string how, MapNode changed) in changes)
                if (AssertAgree(spot, how, OutlineFile.Bind(changed, "outline.yaml", Folders.EveryKeyScenario, new()).Problems, SchemaTests.Outline, changed)) refused++;
        }
        Assert.True(refused > 1000, $"only {refused} were refused");
    }

    /// <summary>Whether both refuse; fails when only one does.</summary>
    private static bool AssertAgree(Trees.Spot spot, string how, ImmutableArray<Problem> problems, JsonSchema schema, MapNode changed)
    {
        Problem? told = problems.FirstOrDefault(problem => ToldByOneMap().IsMatch(problem.Code));
        bool taken = SchemaTests.Takes(schema, Trees.Json(changed));
        if (told is null != taken) Assert.Fail($"{spot.Pattern} {how}: the schema {(taken ? "takes" : "refuses")} it, the reader {(told is null ? "takes it" : $"says\n{told}")}");
        return told is not null;
    }
}
