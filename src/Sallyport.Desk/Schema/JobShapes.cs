using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shapes of the section jobs: jobs, their legs, steps and contingencies.</summary>
internal static class JobShapes
{
    private const int MostValue = 1_000_000;

    public static JsonNode Job() => new MapShape("What somebody asked for: all of its legs are done, or none.")
        .Must("id", Shapes.Name("Its name.", "latch"))
        .Must("title", Shapes.Text("As shown.", "Free the sticky latch"))
        .Must("for", Shapes.Text("What it is for, as one would say it aloud.", "so that the next ship can be held at the ring"))
        .Must("worth", Shapes.Choice("must: the sortie is for it. should: wanted. get-ahead: if time allows.", "must", "should", "get-ahead"))
        .Must("value", Shapes.Whole("What all of it is worth, compared among jobs of this scenario only.", 0, MostValue, 10))
        .May("half_value", Shapes.Whole("What half of it is worth; no more than value.", 0, MostValue, 4))
        .May("hazard", Shapes.Text("What can hurt someone in it.", "pinched glove at the latch"))
        .May("source", Shapes.Text("Where its step times come from, unless a step says otherwise.", "common practice, no source"))
        .May("latest", Shapes.Pet("The latest moment at which the first of its legs may begin.", "3:00"))
        .Must("legs", Shapes.List("Its parts.", Leg(), filled: true))
        .May("contingencies", Shapes.List("What is done when a step does not go.", Contingency()))
        .Rule(new() { ["anyOf"] = new JsonArray(MapShape.Required("source"), EveryStep(MapShape.Required("source"))) });

    private static JsonNode Leg() => new MapShape("A part of a job at one worksite by one person. Its steps follow each other without a gap.")
        .Must("id", Shapes.Name("Its name in this job; elsewhere it is called job/leg.", "free"))
        .Must("title", Shapes.Text("As shown.", "Free the latch"))
        .Must("site", Shapes.Text("Where.", "ring"))
        .Must("footing", Shapes.Choice("How the person is held.", "free", "body tether", "restraint", "arm"))
        .May("restraint", new MapShape("The foot restraint; with the footing 'restraint' only.")
            .Must("use", Shapes.Text("The restraint.", "restraint-2"))
            .Must("socket", Shapes.Text("The socket, at the grip of the site.", "socket-2"))
            .Must("setting", Shapes.Text("How it is set.", "B6")))
        .May("who", Shapes.Texts("The people who may do it; anybody outside when missing.", "EV1"))
        .May("training", Shapes.Texts("What the person must be trained for.", "mechanisms"))
        .May("with", Shapes.Texts("Gear that hangs on the person throughout.", "latch-bag"))
        .May("picks_up", Shapes.Texts("Gear that hangs on the person once the leg is done, and did not before.", "tray"))
        .May("leaves_behind", Shapes.Texts("Gear of 'with' that hangs there no longer once the leg is done.", "latch-bag"))
        .May("together", Shapes.Text("Legs of this job with the same word start at one moment, by different people.", "both"))
        .May("after", Shapes.List("What must have ended before.", new MapShape("An earlier leg.")
            .Must("leg", Shapes.Text("The earlier leg.", "latch/free"))
            .May("least", Shapes.Time("The least time from its end to this start.", "10 min", 0))
            .May("most", Shapes.Time("The most time from its end to this start.", "2 h", 0))))
        .May("minds", Shapes.Texts("Sharp edges that the person was briefed on for this leg.", "scar"))
        .May("shutdowns", Shapes.Texts("What is off from before its start to after its end.", "branch-a"))
        .May("light", StationShapes.Light("Day or night throughout; either when missing."))
        .May("link", Shapes.Flag("Whether it needs a link throughout.", false))
        .May("may_wait", Shapes.Flag("Whether a wait may lie between its steps.", false))
        .May("latest", Shapes.Pet("The latest moment at which it may begin.", "3:00"))
        .Must("steps", Shapes.List("What is done, in this order.", Step(), filled: true))
        .With("footing", "restraint", "restraint").OnlyWith("footing", "restraint", "restraint");

    private static JsonNode Step() => new MapShape("The smallest thing in a plan.")
        .Must("id", Shapes.Name("Its name, unique in the leg.", "loosen"))
        .Must("do", Shapes.Text("What the person does, in the imperative.", "Loosen the two clamp bolts"))
        .May("for", Shapes.Text("What it is for, where that is not plain.", "it is dead"))
        .Must("time", Shapes.StepTime("How long."))
        .May("source", Shapes.Text("Where its times come from; that of the job when missing.", "from memory, unverified"))
        .May("needs", Shapes.List("What must be so, and when.", Need()))
        .May("makes", Shapes.List("What is so once it ends.", Effect()))
        .Must("abort", BreakOff("What it takes to leave it in an abort, at any moment in it."))
        .Must("terminate", BreakOff("What it takes to leave it in an orderly end, at any moment in it."))
        .Must("work", Shapes.Choice("How hard it is on the body.", "rest", "light", "moderate", "heavy"))
        .May("fastener", new MapShape("The fastener it drives.")
            .Must("torque", Shapes.Figure("Its torque.", Dimension.Torque, "14 ft-lbf"))
            .Must("turns", Shapes.Figure("Turns of each; negative opens.", Dimension.Count, "-6 turns"))
            .May("bolt", Shapes.Text("Which bolt, where its turns are counted.", "clamp-bolts"))
            .May("tool", Shapes.Text("The tool it is driven with.", "driver")))
        .May("force", Shapes.PositiveFigure("The greatest force that it is done with.", Dimension.Force, "20 lbf"))
        .May("ties", Shapes.Texts("What it ties to the person or a bag as its first act, before that is let go.", "lamp-old"))
        .May("led", Shapes.Flag("Whether somebody inside reads it to the person, and can read to nobody else meanwhile.", false))
        .May("rough", Shapes.Flag("Whether it is rough on gloves.", false))
        .May("no_glare", Shapes.Flag("Whether it must not be done with the Sun in the eyes.", false))
        .May("checks", Shapes.Choice("That the step is itself a check of gloves and helmet.", "gloves"))
        .May("fluid", FluidShapes.Touch());

    private static JsonNode Need() => new MapShape("A state, a thing at hand, a dead power node, or a GO.")
        .May("when", Shapes.Choice("When it must be so; at the start when missing.", "start", "throughout", "end"))
        .May("feature", Shapes.Text("The feature.", "latch"))
        .May("is", Shapes.Texts("Any of these states.", "sticky", filled: true))
        .May("gear", Shapes.Text("A thing on the person, in a bag on the person, or at the worksite.", "driver"))
        .May("dead", Shapes.Text("The power node touched.", "gyro-plug"))
        .May("inhibits", Shapes.Count("How many independent open inhibits on every path to it.", "inhibits"))
        .May("go", Shapes.Text("The command whose GO was read since the person came here, and since what it covers changed.", "go for the swap"))
        .OneOf("feature", "gear", "dead", "go").Brings("feature", "is").Brings("is", "feature").Brings("dead", "inhibits").Brings("inhibits", "dead");

    private static JsonNode Effect() => new MapShape("A state, a thing moved, or stock used.")
        .May("feature", Shapes.Text("The feature.", "latch"))
        .May("becomes", Shapes.Text("Its new state.", "free"))
        .May("gear", Shapes.Text("The thing moved.", "lamp-old"))
        .May("to", PeopleShapes.Place("Where it is then.", inStep: true))
        .May("stock", Shapes.Text("The stock used.", "grease"))
        .May("uses", Shapes.Count("How much of it.", "pieces"))
        .OneOf("feature", "gear", "stock").Brings("feature", "becomes").Brings("becomes", "feature").Brings("gear", "to").Brings("to", "gear")
        .Brings("stock", "uses").Brings("uses", "stock");

    private static JsonNode BreakOff(string about) => new MapShape(about)
        .Must("time", Shapes.Time("At most this long; never zero.", "30 s"))
        .May("leaves", StationShapes.FeatureStates("The states left behind; as before the step when missing."));

    private static JsonNode Contingency() => new MapShape("What is done when a step does not go.")
        .Must("leg", Shapes.Text("The leg, by its short name when it is of this job.", "free"))
        .Must("step", Shapes.Text("The step.", "loosen"))
        .Must("title", Shapes.Text("What happened.", "A stuck bolt"))
        .Must("probability", Shapes.Number("How often.", 0, 1, 0.05))
        .Must("source", WalkShapes.Source())
        .Must("extra", Shapes.StepTime("The time it adds."))
        .Must("do", Shapes.Text("What is done, in words.", "Tap the bolt and turn it back first"))
        .May("tools", Shapes.Texts("What must be at hand for it when the step was to end: on the person, in a bag there, or at the worksite.", "hand-wrench"));

    private static JsonObject EveryStep(JsonObject rule) => Inside("legs", Inside("steps", rule));

    private static JsonObject Inside(string list, JsonObject rule) =>
        new() { ["properties"] = new JsonObject { [list] = new JsonObject { ["items"] = rule } } };
}
