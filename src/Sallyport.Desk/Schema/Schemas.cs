using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Sallyport.Desk;

/// <summary>What an editor needs to know of the files that people write, as JSON Schema 2020-12. Names that lead nowhere, and whatever takes
/// more than one place to see, only the reader tells.</summary>
public static class Schemas
{
    /// <summary>The name of the schema of every scenario file: any section may stand in any of them.</summary>
    public const string ScenarioName = "scenario.schema.json";

    /// <summary>The name of the schema of outline files.</summary>
    public const string OutlineName = "outline.schema.json";

    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes both schemas.</summary>
    /// <param name="folder">The folder; made when missing.</param>
    /// <returns>Null, or the problem, and then everything is as it was.</returns>
    public static Problem? Write(string folder) => PlanFiles.WriteAll(folder, Files());

    internal static IReadOnlyList<(string Name, byte[] Content)> Files() => [(ScenarioName, Bytes(Scenario())), (OutlineName, Bytes(Outline()))];

    internal static JsonObject Scenario()
    {
        MapShape sections = new("Sections of a scenario. Each may stand in any file of the folder; a list may be spread over several.");
        foreach (string section in Sections.Known) sections.May(section, Section(section));
        return Headed("A file of a scenario", sections.Build());
    }

    internal static JsonObject Outline()
    {
        JsonObject schema = Headed("An outline", OutlineShapes.Outline());
        schema["$defs"] = new JsonObject { ["entry"] = OutlineShapes.Entry() };
        return schema;
    }

    private static JsonNode Section(string section) => section switch
    {
        "sallyport" => WalkShapes.Version(),
        "scenario" => WalkShapes.Id(),
        "sortie" => WalkShapes.Sortie(),
        "sky" => WalkShapes.Sky(),
        "orbit" => OrbitShapes.Orbit(),
        "tether" => WalkShapes.Tether(),
        "handling" => WalkShapes.Handling(),
        "limits" => Shapes.List("The limits of the rules.", WalkShapes.Limit()),
        "checks" => CheckShapes.Checks(),
        "help" => CheckShapes.Help(),
        "body" => SuitShapes.Body(),
        "suits" => Shapes.List("How suits use what is aboard.", SuitShapes.Suit()),
        "prebreathe" => SuitShapes.Prebreathe(),
        "days" => Shapes.List("The days of the people outside.", SuitShapes.Day()),
        "station" => Shapes.Text("The station's name.", "Skerry"),
        "model" => OrbitShapes.FileName("A model of the station for the walk-through, drawn in place of the modules: a binary glTF 2.0 file in the folder of the scenario.", "station.glb"),
        "modules" => Shapes.List("The station's bodies, for pictures and shadows.", StationShapes.Module()),
        "grips" => Shapes.List("Every point where a person can be.", StationShapes.Grip()),
        "spans" => Shapes.List("The ways between grips.", StationShapes.Span()),
        "sites" => Shapes.List("Where work is done.", StationShapes.Site()),
        "sockets" => Shapes.List("Sockets for foot restraints.", StationShapes.Socket()),
        "zones" => Shapes.List("Places closed at times or in states.", StationShapes.Zone()),
        "joints" => Shapes.List("Joints that move unless they are locked.", HazardShapes.Joint()),
        "jets" => Shapes.List("Jets that may fire unless they are safe.", HazardShapes.Emitter("Jets, and where they blow.")),
        "beams" => Shapes.List("Antennas that send unless they are safe.", HazardShapes.Emitter("An antenna, and where it sends.")),
        "features" => Shapes.List("Things with states.", StationShapes.Feature()),
        "may_be_left" => Shapes.List("What may be left in which states when a walk ends early.", StationShapes.MayBeLeft()),
        "power" => NetShapes.Power(),
        "fluid" => FluidShapes.Fluid(),
        "surfaces" => Shapes.List("Surfaces with temperatures.", FluidShapes.Surface()),
        "edges" => Shapes.List("Sharp edges.", FluidShapes.Edge()),
        "airlocks" => Shapes.List("Where people go out and come in.", StationShapes.Airlock()),
        "people" => Shapes.List("Everybody with a part in the walk.", PeopleShapes.Person()),
        "sizes" => Shapes.List("Size classes of gear.", PeopleShapes.Size()),
        "gear" => Shapes.List("Every thing that is handled.", PeopleShapes.Gear()),
        "bolts" => Shapes.List("The fasteners whose turns are counted.", ToolShapes.Bolt()),
        "footings" => Shapes.List("What each way of being held takes.", ToolShapes.Footing()),
        "arms" => Shapes.List("The arms.", NetShapes.Arm()),
        "consoles" => Shapes.List("The consoles.", NetShapes.Console()),
        "clocks" => Shapes.List("The thermal clocks.", ClockShapes.Clock()),
        "jobs" => Shapes.List("What is asked for.", JobShapes.Job()),
        _ => throw new ArgumentOutOfRangeException(nameof(section), section, "expected a section of the scenario format"),
    };

    private static JsonObject Headed(string title, JsonObject shape)
    {
        shape.Insert(0, "title", title);
        shape.Insert(0, "$schema", "https://json-schema.org/draft/2020-12/schema");
        return shape;
    }

    private static byte[] Bytes(JsonObject schema) => [.. JsonSerializer.SerializeToUtf8Bytes(schema, Indented), (byte)'\n'];
}
