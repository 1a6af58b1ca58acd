using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shapes of the sections bolts and footings, and of what gear and airlocks say about tools, bags and room.</summary>
internal static class ToolShapes
{
    private const int MostItems = 1000;

    public static JsonNode Bolt() => new MapShape("A fastener, or several alike that one step drives.")
        .Must("id", Shapes.Name("Its name.", "clamp-bolts"))
        .Must("title", Shapes.Text("As shown.", "Clamp bolts"))
        .Must("number", Shapes.Count("How many alike a step drives.", "pieces"))
        .Must("start", Shapes.FigureFromZero("Turns that each is in at the start.", Dimension.Count, "6 turns"))
        .Must("closed", Band("Turns that each is in when it is closed.", Dimension.Count, "5.5 turns", "6.5 turns"))
        .May("torque", Band("The torque to close it with.", Dimension.Torque, "10 ft-lbf", "14 ft-lbf"))
        .May("preload", Preload())
        .Must("source", WalkShapes.Source())
        .May("verified", Shapes.Flag("true only where the source was looked up.", false))
        .OneOf("torque", "preload");

    public static JsonNode Footing() => new MapShape("What one way of being held takes.")
        .Must("kind", Shapes.Choice("How the person is held.", "free", "body tether", "restraint", "arm"))
        .Must("torque", Shapes.FigureFromZero("The most torque.", Dimension.Torque, "14 ft-lbf"))
        .Must("force", Shapes.FigureFromZero("The most force.", Dimension.Force, "20 lbf"))
        .Must("source", WalkShapes.Source())
        .May("verified", Shapes.Flag("true only where the source was looked up.", false));

    public static JsonNode Holds() => new MapShape("What a bag holds at every moment.")
        .Must("volume", Shapes.PositiveFigure("The most volume.", Dimension.Volume, "150 L"))
        .Must("mass", Shapes.PositiveFigure("The most mass.", Dimension.Mass, "70 kg"))
        .Must("sizes", Shapes.Texts("The size classes that it takes.", "small", filled: true))
        .Must("items", Shapes.Whole("The most things that lie in it, a stock counted once.", 1, MostItems, 8))
        .May("bags", Shapes.Flag("Whether a bag may lie in it.", false));

    public static JsonNode Charge() => new MapShape("What a battery tool can do.")
        .May("turns", Shapes.PositiveFigure("Turns from a full battery.", Dimension.Count, "120 turns"))
        .May("uses", Shapes.PositiveFigure("Steps that use it, from a full battery.", Dimension.Count, "40 pieces"))
        .Must("keep", Shapes.FigureFromZero("What must be left.", Dimension.Count, "20 turns"))
        .Must("source", WalkShapes.Source())
        .OneOf("turns", "uses");

    public static JsonNode Room() => new MapShape("What goes into an airlock at once, and how.")
        .Must("volume", Shapes.PositiveFigure("The room in it.", Dimension.Volume, "4 m3"))
        .Must("person", Shapes.PositiveFigure("What one suited person takes of it.", Dimension.Volume, "1 m3"))
        .Must("items", Shapes.Whole("The most things besides people, a bag counted once.", 0, MostItems, 8))
        .Must("hatch", Shapes.Texts("The size classes that pass its hatch.", "bag", filled: true))
        .May("before_people", Shapes.Texts("Of these, those that must be in before anybody comes in.", "bulky"))
        .Must("source", WalkShapes.Source());

    public static MapShape Band(string about, Dimension dimension, string least, string most) => new MapShape(about)
        .Must("least", Shapes.FigureFromZero("The least.", dimension, least))
        .Must("most", Shapes.PositiveFigure("The most; no less than the least.", dimension, most));

    /// <summary>What ends inside does not stay outside.</summary>
    public static JsonObject StaysOutside() => new()
    {
        ["if"] = new JsonObject { ["required"] = Shapes.Strings("end"), ["properties"] = new JsonObject { ["end"] = new JsonObject { ["const"] = "inside" } } },
        ["then"] = new JsonObject { ["properties"] = new JsonObject { ["stays"] = false } },
        ["else"] = new JsonObject { ["properties"] = new JsonObject { ["may_be_left"] = false } },
    };

    private static JsonNode Preload() => Band("The force that each is to be drawn with, kept however it scatters.", Dimension.Force, "9000 N", "15000 N")
        .Must("diameter", Shapes.PositiveFigure("Nominal diameter.", Dimension.Length, "10 mm"))
        .Must("scatter", Shapes.Number("How far the preload strays at one torque, either way, as a share.", 0, 0.95, 0.25))
        .May("nut_factor", Shapes.Number("K in torque = K x diameter x force.", 0.01, 1, 0.18))
        .May("finish", Shapes.Choice("K by finish.", "plain", "zinc", "lubricated", "cadmium"))
        .May("friction", new MapShape("K from friction, for a thread of 60 degrees.")
            .Must("thread", Shapes.Number("In the thread.", 0.01, 1, 0.15))
            .Must("collar", Shapes.Number("Under the head.", 0.01, 1, 0.15))
            .Must("pitch", Shapes.PositiveFigure("Pitch of the thread.", Dimension.Length, "1.5 mm")))
        .OneOf("nut_factor", "finish", "friction");
}
