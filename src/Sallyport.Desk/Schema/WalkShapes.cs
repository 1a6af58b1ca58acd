using System.Text.Json.Nodes;

namespace Sallyport.Desk;

/// <summary>The shapes of the sections about the walk as a whole: sallyport, scenario, sortie, sky, tether, handling, limits.</summary>
internal static class WalkShapes
{
    public static JsonObject Version() => new()
    {
        ["description"] = "The version of the file format.",
        ["const"] = ScenarioReader.FormatVersion,
        ["examples"] = new JsonArray(ScenarioReader.FormatVersion),
    };

    public static JsonObject Id()
    {
        string part = Shapes.NamePattern(blanks: false).Trim('^', '$');
        JsonObject shape = Shapes.Text("The scenario's name, of one or more parts joined by '/'. Outlines name it.", "skerry/short");
        shape["pattern"] = $"^{part}(?:/{part})*$";
        return shape;
    }

    public static JsonNode Sortie() => new MapShape("Who, when and how long.")
        .Must("title", Shapes.Text("As shown on the chart.", "Skerry · Lee Shore"))
        .Must("pet_zero", Shapes.Form("The instant of PET 0:00, in UTC.", "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-2][0-9]:[0-5][0-9]:[0-5][0-9]Z$", "2031-05-14T13:40:00Z"))
        .Must("pet_zero_is", Shapes.Text("What happens then, in words.", "suits on their own power, hatch open"))
        .May("outline", Shapes.Text("The outline marked current: a file in the folder outlines, without .yaml.", "by-hand"))
        .May("objectives", Shapes.List("What makes one plan better than another, the first first, once the must-jobs are in. What is not named follows: value, end, dead, balance.",
            Shapes.Choice("value: jobs worth more. end: over earlier. dead: less shut down. balance: less waiting for each other. walking: less walking. margin: farther from the limits of the return times.",
                "value", "end", "dead", "balance", "walking", "margin"), filled: true))
        .May("decision", new MapShape("That the search keeps a choice open near the end.").Must("earliest", Shapes.Pet("No decision before this moment.", "4:30")));

    public static JsonNode Sky() => new MapShape("Day, night and link.")
        .May("night", Stretches("When the station is dark, in order, not overlapping."))
        .May("no_link", Stretches("When there is no link to the ground, in order, not overlapping."))
        .May("radiation", Stretches("When the station passes a region of high radiation, in order, not overlapping; nobody has said when missing."))
        .May("no_voice", Stretches("When those outside, inside and at the arm cannot hear each other, in order, not overlapping."))
        .May("voice_lost", Shapes.List("Nor can they while one of these is so.", StationShapes.Condition()))
        .Must("source", Source());

    public static JsonNode Tether() => new MapShape("How people are kept tied to the structure.")
        .Must("protocol", Shapes.Choice("reel: a reel pays out from an anchor. leapfrog: two short tethers moved in turn.", "reel", "leapfrog"))
        .May("swap", Shapes.Time("The change from one reel to the next; asked for with reel.", "2 min", 0))
        .May("hooked", Shapes.Time("From the start of a change until the further hook is on and looked at; the other is released at the end. Hooks are not looked at one by one when missing.", "45 s"))
        .May("hook", Shapes.Time("Hooking, at each span; asked for with leapfrog.", "20 s", 0))
        .Must("source", Source())
        .With("protocol", "reel", "swap").With("protocol", "leapfrog", "hook")
        .Rule(PositiveWith("reel", "swap")).Rule(PositiveWith("leapfrog", "hook"));

    public static JsonNode Handling()
    {
        MapShape map = new("How long it takes to handle things, and to break that off.");
        foreach ((string key, string about) in new[]
        {
            ("take", "Taking a thing onto the suit."), ("put", "Hooking a thing at a grip."), ("give", "Handing a thing over."),
            ("plug", "Plugging a restraint into its socket and setting it."), ("unplug", "Taking a restraint out of its socket."),
            ("enter", "Getting into a restraint."), ("leave", "Getting out of a restraint."),
        }) map.Must(key, HandlingTime(about));
        return map.May("tie", Shapes.Time("Hooking the second tie before the first is let go: part of each time in which a thing changes hands.", "20 s")).Must("source", Source());
    }

    public static JsonNode HandlingTime(string about) => new MapShape(about)
        .Must("time", Shapes.Time("How long it takes.", "2 min"))
        .Must("break_off", Shapes.Time("How long it takes to leave it at any moment.", "30 s"));

    public static JsonNode Limit() => new MapShape("The limit of one rule: data with a source.")
        .Must("rule", Shapes.Form("The rule, two words joined by a dot. 'sallyport rules' lists those that are checked.", @"^[a-z]+\.[a-z]+$", "return.one", "pet.limit"))
        .Must("limit", Shapes.Figure("The figure.", null, "30 min"))
        .May("near", Shapes.Figure("A margin below which one wants to hear of it; of the same dimension.", null, "3 min"))
        .May("least", Shapes.Figure("The least, where the rule holds a figure between two; below the limit, of the same dimension.", null, "-118 degC"))
        .May("hour", Shapes.Figure("work.rate only: what the mean over an hour is held against, beside the limit of the mean over 15 min; of the same dimension.", null, "1600 Btu/h"))
        .Must("source", Source())
        .May("verified", Shapes.Flag("true only where the source was looked up; otherwise shown as unverified.", false));

    public static JsonObject Source() => Shapes.Text("Where the figures come from.", "common practice, no source");

    public static JsonObject Stretches(string about) => Shapes.List(about, new MapShape("A stretch of PET.")
        .Must("from", Shapes.Pet("Its first second.", "0:22"))
        .Must("to", Shapes.Pet("The first second after it.", "0:58")));

    private static JsonObject PositiveWith(string protocol, string key) => new()
    {
        ["if"] = new JsonObject { ["properties"] = new JsonObject { ["protocol"] = new JsonObject { ["const"] = protocol } } },
        ["then"] = new JsonObject { ["properties"] = new JsonObject { [key] = Shapes.Time("With this protocol.", "2 min") } },
    };
}
