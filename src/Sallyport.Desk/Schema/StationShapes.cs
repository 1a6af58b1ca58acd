using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shapes of the sections about the structure: modules, grips, spans, sites, sockets, zones, features, airlocks.</summary>
internal static class StationShapes
{
    public static JsonNode Module() => new MapShape("A body of the station, for pictures and shadows.")
        .Must("name", Shapes.Text("As people call it.", "Quay"))
        .Must("from", Shapes.Point("One end of its axis."))
        .Must("to", Shapes.Point("The other end."))
        .Must("width", Shapes.PositiveFigure("Its diameter or width.", Dimension.Length, "4.2 m"))
        .May("shape", Shapes.Choice("The shape in which it casts a shadow; none is cast when missing.", "round", "square"));

    public static JsonNode Grip() => new MapShape("A point on the structure where a person can be.")
        .Must("id", Shapes.Name("Its name.", "quay-1"))
        .Must("at", Shapes.Point("Where it is."))
        .May("anchor", Shapes.Flag("Whether a tether reel may be hooked here and left.", false))
        .May("stow", Shapes.Flag("Whether bags and other gear may be hooked here and left.", false));

    public static JsonNode Span() => new MapShape("A way between two grips, usable both ways.")
        .Must("from", Shapes.Text("The grip at one end.", "lock"))
        .Must("to", Shapes.Text("The grip at the other end.", "quay-1"))
        .Must("length", Shapes.PositiveFigure("Along the structure; no less than the straight distance.", Dimension.Length, "4.5 m"))
        .Must("class", Shapes.Choice("easy: rail after rail. careful: past delicate or sharp things. gap: a reach without a rail.", "easy", "careful", "gap"));

    public static JsonNode Site() => new MapShape("A worksite: on a grip, or where an arm holds its rider.")
        .Must("id", Shapes.Name("Its name.", "ring"))
        .Must("title", Shapes.Text("As shown.", "Quay's ring"))
        .May("grip", Shapes.Text("The grip where a person stands.", "quay-2"))
        .May("arm", Shapes.Text("The arm that holds the rider here.", "crane"))
        .May("pose", Shapes.Text("The pose of that arm.", "mast-high"))
        .May("looks", Shapes.Choice("Which way whoever works there looks, along the axes of the station.", "forward", "aft", "starboard", "port", "down", "up"))
        .OneOf("grip", "arm").Brings("arm", "pose").Brings("pose", "arm");

    public static JsonNode Socket() => new MapShape("A socket for a foot restraint.")
        .Must("id", Shapes.Name("Its name.", "socket-2"))
        .Must("grip", Shapes.Text("The grip from where a restraint is plugged in and entered.", "quay-2"));

    public static JsonNode Zone() => new MapShape("Grips that may not be entered or stayed at while closed: while any of times, light and while is so.")
        .Must("id", Shapes.Name("Its name.", "beam"))
        .Must("why", Shapes.Text("What it protects from.", "the beam burns"))
        .Must("grips", Shapes.Texts("The grips inside.", "mast-2", filled: true))
        .May("times", WalkShapes.Stretches("Closed in these times."))
        .May("light", Light("Closed by day, or by night."))
        .May("while", Shapes.List("Closed while one of these is so.", Condition()));

    public static JsonNode Feature() => new MapShape("A named thing with a few states.")
        .Must("id", Shapes.Name("Its name.", "latch"))
        .Must("states", States("Its states."))
        .Must("start", Shapes.Text("The state at the start.", "sticky"))
        .May("ready", Shapes.Text("The state that the hatch may be opened in; any when missing.", "held"))
        .May("back", Shapes.Text("The state to be given back at the end; any when missing.", "held"));

    public static JsonNode MayBeLeft() => new MapShape("In which states a feature may be left when everybody goes in before the work is done.")
        .Must("feature", Shapes.Text("The feature.", "gyro-plugs"))
        .Must("in", Shapes.Texts("The states that are safe to leave behind.", "mated", filled: true))
        .May("after_abort", Shapes.Texts("Further states that an abort may leave until the next walk.", "apart"))
        .Must("why", Shapes.Text("What is wrong with any other state, to follow \"because\".", "bare pins corrode"));

    public static JsonNode Airlock() => new MapShape("Where people go out and come in.")
        .Must("id", Shapes.Name("Its name.", "lock"))
        .Must("grip", Shapes.Text("The grip at the hatch.", "lock"))
        .Must("order", Shapes.Texts("Who goes out, in this order; they come in by the reverse. Everybody outside stands in one order.", "EV1", filled: true))
        .Must("out", new MapShape("The way out.")
            .Must("each", Shapes.Time("From hatch to outside for one person.", "5 min"))
            .Must("bags", Shapes.Time("Bags out, once the first person is there.", "3 min"))
            .Must("check", Shapes.Time("The mutual check that ends egress.", "4 min")))
        .Must("in", new MapShape("The way in.")
            .Must("inventory", Shapes.Time("Clean-up and inventory with everybody at the hatch.", "8 min"))
            .Must("bags", Shapes.Time("Bags in, before the first person.", "3 min"))
            .Must("each", Shapes.Time("From hatch to inside for one person.", "3 min"))
            .Must("close", Shapes.Time("Hatch closed and repress begun.", "4 min")))
        .Must("holds", Shapes.Whole("Most people at once.", 1, 100, 2))
        .May("room", ToolShapes.Room());

    public static JsonNode Condition() => new MapShape("A feature in one of some states.")
        .Must("feature", Shapes.Text("The feature.", "latch"))
        .Must("is", Shapes.Texts("Any of these states.", "free", filled: true));

    public static JsonObject FeatureStates(string about) => Shapes.Entries(about, Shapes.Text("The state.", "open"));

    public static JsonObject Light(string about) => Shapes.Choice(about, "day", "night");

    private static JsonObject States(string about)
    {
        JsonObject shape = Shapes.Texts(about, "free", filled: true);
        shape["items"] = Shapes.Name("A state.", "free", blanks: true);
        return shape;
    }
}
