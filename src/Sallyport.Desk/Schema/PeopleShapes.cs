using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shapes of the sections about people and what they carry: people, sizes, gear.</summary>
internal static class PeopleShapes
{
    private const string OwnedBefore = "^(?:inside|spent|(?:grip|bag|person|socket|site|arm) +\\S.*)$";
    private const string OwnedInStep = "^(?:inside|spent|person|site|(?:grip|bag|person|socket|site|arm) +\\S.*)$";

    public static JsonNode Person() => new MapShape("Somebody with a part in the walk.")
        .Must("id", Shapes.Name("The short name used everywhere.", "EV1"))
        .Must("name", Shapes.Text("As shown.", "Ada Marsh"))
        .Must("role", Shapes.Choice("outside: in a suit. inside: talks them through it. arm operator: drives an arm.", "outside", "inside", "arm operator"))
        .May("trained_for", Trainings())
        .May("pace", new MapShape("How fast this person translates, unladen.")
            .Must("easy", Shapes.PositiveFigure("On easy spans.", Dimension.Speed, "6 m/min"))
            .Must("careful", Shapes.PositiveFigure("On careful spans.", Dimension.Speed, "3 m/min"))
            .Must("gap", Shapes.Time("For one gap.", "2 min"))
            .Must("source", WalkShapes.Source()))
        .May("carry", Shapes.List("The points on the suit where one thing each hangs.", CarryPoint(), filled: true))
        .May("reels", Shapes.List("The lengths of the tether reels, in order of use; the first hangs at the airlock.", Shapes.PositiveFigure("One reel.", Dimension.Length, "26 m")))
        .May("suit", Suit())
        .With("role", "outside", "pace", "carry", "suit").OnlyWith("role", "outside", "pace", "carry", "reels", "suit");

    public static JsonNode Size() => new MapShape("A size class of gear.")
        .Must("id", Shapes.Name("Its name.", "bag"))
        .Must("slower", Shapes.Number("What one such thing on the suit multiplies span times by.", 1, 20, 1.2));

    public static JsonNode Gear() => new MapShape("A thing that is carried, used up, fitted or brought home.")
        .Must("id", Shapes.Name("Its name.", "latch-bag"))
        .Must("title", Shapes.Text("As shown.", "Latch bag"))
        .Must("kind", Shapes.Choice("bag: holds other gear. stock: counted, and used up.", "bag", "part", "tool", "restraint", "stock"))
        .Must("size", Shapes.Text("Its size class.", "bag"))
        .Must("mass", Shapes.FigureFromZero("Its mass.", Dimension.Mass, "9 kg"))
        .Must("volume", Shapes.FigureFromZero("Its volume.", Dimension.Volume, "40 L"))
        .Must("start", Place("Where it is at the start.", inStep: false))
        .May("end", Place("Where it must be at the end; anywhere when missing.", inStep: false))
        .May("count", Shapes.Count("How many there are; stock only.", "pieces"))
        .May("holds", ToolShapes.Holds()).May("torque", ToolShapes.Band("The torques that it can be set to.", Dimension.Torque, "5 ft-lbf", "25 ft-lbf"))
        .May("charge", ToolShapes.Charge()).May("spare_for", Shapes.Texts("The tools that it stands in for when they fail.", "gyro-driver"))
        .May("stays", Shapes.Text("Why it stays outside on purpose.", "the next walk uses it"))
        .May("may_be_left", Shapes.Text("Why it may be left hanging outside when a walk ends early; only with end: inside.", "it keeps for a month in its foil"))
        .With("kind", "stock", "count").OnlyWith("kind", "stock", "count").OnlyWith("kind", "bag", "holds").OnlyWith("kind", "tool", "torque", "charge", "spare_for")
        .Rule(ToolShapes.StaysOutside());

    /// <summary>A place of gear; in a step, <c>person</c> and <c>site</c> alone mean its own.</summary>
    public static JsonObject Place(string about, bool inStep) => inStep
        ? Shapes.Form($"{about} inside, spent, person (whoever does the step), site (this leg's), or a place and its name.", OwnedInStep, "person", "site", "bag latch-bag")
        : Shapes.Form($"{about} inside, spent, or a place and its name: grip, bag, person, socket, site, arm.", OwnedBefore, "inside", "bag latch-bag", "grip quay-2");

    private static JsonObject Trainings()
    {
        JsonObject shape = Shapes.Texts("What this person is trained for.", "mechanisms");
        shape["items"] = Shapes.Name("A training.", "mechanisms", blanks: true);
        return shape;
    }

    private static JsonNode CarryPoint() => new MapShape("A point on the suit.")
        .Must("id", Shapes.Name("Its name, unique on this suit.", "waist"))
        .Must("sizes", Shapes.Texts("The size classes it takes.", "bag", filled: true))
        .Must("most", Shapes.PositiveFigure("The most it takes.", Dimension.Mass, "30 kg"));

    private static JsonNode Suit() => new MapShape("The suit.")
        .Must("cut_off", Shapes.Pet("The moment by which this person must be inside, as the suit's owner states it.", "7:00"))
        .Must("cut_off_source", WalkShapes.Source())
        .Must("pressure", Shapes.PositiveFigure("Lowest regulated pressure.", Dimension.Pressure, "4.3 psi"))
        .Must("primary_oxygen", Shapes.PositiveFigure("Usable primary oxygen.", Dimension.Mass, "0.55 kg"))
        .Must("secondary_oxygen", Shapes.Time("How long secondary oxygen lasts at its stated flow.", "30 min"))
        .Must("feedwater", Shapes.PositiveFigure("Usable feedwater.", Dimension.Mass, "4 kg"))
        .Must("battery", Shapes.PositiveFigure("Usable energy.", Dimension.Energy, "500 Wh"))
        .Must("carbon_dioxide", Shapes.PositiveFigure("What the cartridge takes.", Dimension.Mass, "0.75 kg"));
}
