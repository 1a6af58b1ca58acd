using System.Text.Json.Nodes;

namespace Sallyport.Desk;

/// <summary>The shape of the section clocks.</summary>
internal static class ClockShapes
{
    public static JsonNode Clock() => new MapShape("Something that may stay without its heating or cooling for a time only.")
        .Must("id", Shapes.Name("Its name.", "gyro heaters", blanks: true))
        .Must("runs", Shapes.Choice("cold: it freezes. hot: it gets too hot.", "cold", "hot"))
        .Must("while", Shapes.List("It runs while all of these are so, and is fresh again once one is not.", Condition(), filled: true))
        .Must("lasts", Shapes.List("How long it lasts from fresh: the first whose conditions are all so. What one state uses up counts in the next.", new MapShape("A time that it lasts.")
            .May("when", Shapes.List("In this state: all of these. The last one has none.", Condition()))
            .Must("time", Shapes.Time("How long, from fresh.", "75 min")), filled: true))
        .May("may_run_on", Shapes.Flag("Whether it may still run at the end.", false))
        .Must("source", WalkShapes.Source());

    private static JsonNode Condition() => new MapShape("A feature's state, the place of a thing, day or night, or something shut down.")
        .May("feature", Shapes.Text("The feature.", "gyro-box"))
        .May("is", Shapes.Texts("Any of these states.", "new-loose", filled: true))
        .May("gear", Shapes.Text("The thing.", "gyro-new"))
        .May("in", PeopleShapes.Place("Where it is.", inStep: false))
        .May("light", StationShapes.Light("By day, or by night."))
        .May("shutdown", Shapes.Text("Off until it is seen to be on again.", "branch-a"))
        .OneOf("feature", "gear", "light", "shutdown").Brings("feature", "is").Brings("is", "feature").Brings("gear", "in").Brings("in", "gear");
}
