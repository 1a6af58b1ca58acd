using System.Text.Json.Nodes;

namespace Sallyport.Desk;

/// <summary>The shapes of the sections about what people outside do for themselves and for each other: checks, help.</summary>
internal static class CheckShapes
{
    public static JsonNode Checks() => new MapShape("What people outside do for themselves between legs. How often is a limit: glove.check and work.rest.")
        .May("gloves", new MapShape("The check of gloves and helmet where one is.")
            .Must("time", Shapes.Time("How long it takes.", "90 s"))
            .Must("break_off", Shapes.Time("How long it takes to leave it at any moment.", "10 s"))
            .May("after", Shapes.Choice("rough: one is due between a leg with a rough step and the next leg.", "rough"))
            .Must("source", WalkShapes.Source()))
        .May("rest", new MapShape("What counts as a rest.")
            .Must("time", Shapes.Time("The shortest rest that counts; a wait as long is one too.", "5 min"))
            .Must("source", WalkShapes.Source()));

    public static JsonNode Help() => new MapShape("What it takes to bring in somebody who cannot come in alone.")
        .Must("secure", Shapes.Time("To make that person ready to be moved, once reached.", "6 min"))
        .Must("slower", Shapes.Number("What the time of every span home is multiplied by.", 1, 20, 2))
        .Must("enter", Shapes.Time("For both to come in through the hatch.", "10 min"))
        .Must("source", WalkShapes.Source());
}
