using System.Text.Json.Nodes;

namespace Sallyport.Desk;

/// <summary>The shapes of the power net, the arms and the consoles: power, arms, consoles.</summary>
internal static class NetShapes
{
    public static JsonNode Power() => new MapShape("The power net, as lines between nodes.")
        .Must("sources", Shapes.Texts("Nodes that always feed the net, batteries too.", "battery-a", filled: true))
        .May("capacitors", Shapes.List("What keeps its charge after it is cut off; an empty list says that nothing does.", new MapShape("A capacitor.")
            .Must("node", Shapes.Name("The node that it hangs on.", "gyro-plug"))
            .Must("bleeds", Shapes.Time("How long it takes to bleed down.", "5 min"))
            .Must("source", WalkShapes.Source())))
        .May("controllers", Shapes.List("What is known of the controllers.", new MapShape("A controller.")
            .Must("id", Shapes.Text("The controller, as lines name it.", "box-a"))
            .May("common", Shapes.Text("What makes it fail together with others that have the same word; it fails alone when missing.", "converter-1"))))
        .Must("lines", Shapes.List("Its conductors.", new MapShape("A conductor between two nodes, through a switch, a connector, or neither.")
            .Must("from", Shapes.Name("One node; lines that name it meet there.", "battery-a"))
            .Must("to", Shapes.Name("The other node.", "bus-a"))
            .May("switch", Closed("A switch: an inhibit while it is open."))
            .May("connector", Closed("A connector: no inhibit.")
                .May("exposed", Shapes.Texts("The states in which its pins are bare; every one but 'closed' when missing.", "apart")))
            .May("controller", Shapes.Text("What drives the switch; switches of one controller count once.", "box-a"))
            .NotBoth("switch", "connector").Brings("switch", "controller").Brings("controller", "switch"), filled: true));

    public static JsonNode Arm() => new MapShape("An arm that a person can ride.")
        .Must("id", Shapes.Name("Its name.", "crane"))
        .Must("operator", Shapes.Text("The person who drives it.", "CRANE"))
        .Must("start", Shapes.Text("Its pose at the start.", "cradle"))
        .Must("poses", Shapes.List("Where it can hold its rider.", new MapShape("A pose.")
            .Must("id", Shapes.Name("Its name, unique on this arm.", "mast-high"))
            .Must("at", Shapes.Point("Where the rider is."))
            .May("climb", new MapShape("How one gets home from here once the arm has stopped; no way when missing.")
                .Must("to", Shapes.Text("The grip climbed to.", "mast-3"))
                .Must("time", Shapes.Time("How long that takes.", "10 min"))), filled: true))
        .May("rides", Shapes.List("The moves it can make, both ways.", new MapShape("A move between two poses.")
            .Must("from", Shapes.Text("One pose.", "cradle"))
            .Must("to", Shapes.Text("The other.", "mast-high"))
            .Must("time", Shapes.Time("How long it takes.", "5 min"))
            .May("through", Shapes.Texts("Grips that it sweeps beyond those near the straight line; none with an empty list, not known when missing.", "mast-3"))
            .May("guided", Shapes.Time("The last part, either way, that the rider guides by voice; none when missing.", "2 min", 0))))
        .May("brakes", new MapShape("How long its brakes take, at each move; they are not looked at when missing.")
            .Must("set", Shapes.Time("To set them.", "20 s"))
            .Must("release", Shapes.Time("To release them.", "10 s")))
        .May("mounts", Shapes.List("Where one gets on and off.", new MapShape("A place to get on and off.")
            .Must("grip", Shapes.Text("The grip.", "spar-3-starboard"))
            .Must("pose", Shapes.Text("The pose that the arm is in then.", "low-starboard"))))
        .Must("mount", WalkShapes.HandlingTime("Getting on, the restraint fitted."))
        .Must("dismount", WalkShapes.HandlingTime("Getting off."))
        .Must("source", WalkShapes.Source());

    public static JsonNode Console() => new MapShape("A console that commands power, fluids or radio.")
        .Must("id", Shapes.Name("Its name.", "power"))
        .Must("commands", Shapes.List("What it can send.", new MapShape("A command.")
            .Must("id", Shapes.Name("Its name.", "branch-a off", blanks: true))
            .Must("time", Shapes.Time("From sending to the GO.", "3 min"))
            .Must("link", Shapes.Flag("Whether it needs a link throughout."))
            .May("go", Shapes.Time("The last part of its time, in which its GO is read to the crew; none is read when missing.", "1 min"))
            .May("seen", Shapes.Choice("Where its effect is seen: in telemetry with a link, or aboard without one; telemetry when missing.", "telemetry", "aboard"))
            .May("covers", Shapes.Texts("What its GO is about: a change of one of these makes it void.", "gyro-box"))
            .May("makes", StationShapes.FeatureStates("The states of features once the GO is given.")), filled: true))
        .May("shutdowns", Shapes.List("What legs can ask to have off.", new MapShape("Something off between two commands.")
            .Must("id", Shapes.Name("Its name.", "branch-a", blanks: true))
            .Must("off", Shapes.Text("The command that turns it off.", "branch-a off"))
            .Must("on", Shapes.Text("The command that turns it on again.", "branch-a on"))
            .May("longest", Shapes.Time("The most from off to on; asks for a source.", "75 min"))
            .May("cuts_link", Shapes.Flag("Whether the link is lost meanwhile.", false))
            .May("source", WalkShapes.Source())
            .Brings("longest", "source")));

    private static MapShape Closed(string about) => new MapShape(about)
        .Must("feature", Shapes.Text("The feature that it is.", "switch-a1"))
        .Must("closed", Shapes.Text("The state in which it conducts.", "closed"));
}
