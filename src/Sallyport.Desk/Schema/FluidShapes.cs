using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shapes of the fluid net and of what hands touch: fluid, surfaces, edges, and what a step does with a line.</summary>
internal static class FluidShapes
{
    private static readonly string[] Trapped = ["trapped", "source", "lit", "may_be_left"];

    public static JsonNode Fluid() => new MapShape("The fluid net: stretches of line, joined where two name one end.")
        .Must("lines", Shapes.List("Its stretches.", Line(), filled: true))
        .May("valves", Shapes.List("Its valves; every end of a line is a valve or a disconnect.", new MapShape("A valve: open in every state that is not named as shut.")
            .Must("feature", Shapes.Text("The feature that it is.", "valve-in"))
            .Must("shut", Shapes.Texts("The states in which nothing passes.", "closed", filled: true))))
        .May("disconnects", Shapes.List("Its quick disconnects.", new MapShape("A disconnect: open to vacuum in every state that is neither mated nor capped.")
            .Must("feature", Shapes.Text("The feature that it is.", "filter-disconnects"))
            .Must("mated", Shapes.Texts("The states in which it is mated and its lock was checked.", "locked", filled: true))
            .May("capped", Shapes.Texts("The states in which its ends are apart and capped.", "capped"))))
        .May("bakeout", new MapShape("What makes a soiled person or thing clean enough to come in.")
            .Must("sunlit", Shapes.Time("Time outside in sunlight since last soiled.", "30 min"))
            .Must("test", Shapes.Time("How long the test after it takes.", "10 min"))
            .Must("source", WalkShapes.Source()));

    public static JsonNode Surface() => new MapShape("A surface that hands touch at some places.")
        .Must("id", Shapes.Name("Its name.", "vane-root"))
        .May("grips", Shapes.Texts("The grips where it is touched.", "spar-6-keel"))
        .May("sites", Shapes.Texts("The worksites where it is touched.", "vane-view"))
        .Must("lit", Shapes.Figure("Its temperature by day.", Dimension.Temperature, "90 degC"))
        .Must("shade", Shapes.Figure("Its temperature by night.", Dimension.Temperature, "-80 degC"))
        .Must("source", WalkShapes.Source())
        .Rule(new() { ["anyOf"] = new JsonArray(Filled("grips"), Filled("sites")) });

    public static JsonNode Edge() => new MapShape("A sharp edge.")
        .Must("id", Shapes.Name("Its name; legs name it under 'minds'.", "scar"))
        .Must("at", Shapes.Point("Where it is."))
        .May("covered", StationShapes.Condition());

    public static JsonNode Touch() => new MapShape("What the step does with a fluid line.")
        .Must("line", Shapes.Text("The line.", "filter run"))
        .May("opens", Shapes.Flag("A disconnect at one of its ends is opened, or closed. Whatever the step makes of a disconnect says how."))
        .May("reads", True("Its pressure is read, and known until it is joined to something under pressure."))
        .May("watches", True("It is watched for leaks under pressure."))
        .May("vents", True("It is let off, and no longer full."))
        .May("tests", Soiled("Who and what is tested for it after the bake-out.", filled: true))
        .May("spills", Soiled("Who and what a spill reaches; all three when missing, none with an empty list.", filled: false))
        .OneOf("opens", "reads", "watches", "vents", "tests")
        .Rule(new()
        {
            ["if"] = new JsonObject { ["required"] = Shapes.Strings("opens"), ["properties"] = new JsonObject { ["opens"] = new JsonObject { ["const"] = true } } },
            ["else"] = new JsonObject { ["properties"] = new JsonObject { ["spills"] = false } },
        });

    private static MapShape Line()
    {
        JsonObject bursts = new()
        {
            ["properties"] = new JsonObject { ["liquid"] = new JsonObject { ["const"] = true }, ["feeds"] = new JsonObject { ["const"] = false } },
        };
        JsonObject refused = [];
        foreach (string key in Trapped) refused.Add(key, false);
        return new MapShape("A stretch between valves and disconnects.")
            .Must("name", Shapes.Name("Its name.", "filter run", blanks: true))
            .Must("ends", Shapes.Texts("The features that shut it off; what two lines name joins them.", "valve-in", filled: true))
            .Must("pressure", Shapes.PositiveFigure("Working pressure.", Dimension.Pressure, "140 psi"))
            .Must("holds", Shapes.Text("What flows in it.", "coolant"))
            .Must("liquid", Shapes.Flag("Whether that is a liquid."))
            .May("feeds", Shapes.Flag("Whether it keeps itself under pressure, by a pump or a tank.", false))
            .May("harmless", Shapes.Flag("Whether what is spilled from it does no harm inside.", false))
            .May("trapped", Shapes.Time("The longest in the sun while full and shut off.", "90 min"))
            .May("source", WalkShapes.Source())
            .May("may_be_left", Shapes.Text("Why it may be left full and shut off when a walk ends early; it may not when missing.", "the ground turns it out of the sun"))
            .May("lit", Shapes.Choice("Whether it counts as sunlit always, or by day only; always when missing.", "always", "day"))
            .Rule(new()
            {
                ["if"] = bursts,
                ["then"] = new JsonObject { ["required"] = Shapes.Strings("trapped", "source") },
                ["else"] = new JsonObject { ["properties"] = refused },
            });
    }

    private static JsonObject Filled(string key) =>
        new() { ["required"] = Shapes.Strings(key), ["properties"] = new JsonObject { [key] = new JsonObject { ["minItems"] = 1 } } };

    private static JsonObject True(string about) => new() { ["description"] = about, ["const"] = true };

    private static JsonObject Soiled(string about, bool filled)
    {
        JsonObject shape = Shapes.List(about, Shapes.Choice("person: who does the step. tool: what it needs. bag: the bags on the person.", "person", "tool", "bag"), filled);
        shape["uniqueItems"] = true;
        return shape;
    }
}
