using System.Text.Json.Nodes;

namespace Sallyport.Desk;

/// <summary>The shape of an outline file.</summary>
internal static class OutlineShapes
{
    public static JsonObject Outline() => new MapShape("One sequence for every person and every shared thing, and what was pinned by hand. It holds no times but pins.")
        .Must("scenario", Shapes.Text("The scenario it was made for.", "skerry/short"))
        .May("digest", Shapes.Text("The digest of the files it was made from.", "9f2c"))
        .May("made", new MapShape("How search made it.")
            .Must("effort", Shapes.Whole("Epochs run.", 0, int.MaxValue, 40))
            .Must("seed", Shapes.Whole("The seed.", int.MinValue, int.MaxValue, 7)))
        .Must("people", Lists("What each person outside does, in order."))
        .May("hands", Shapes.Entries("For each thing that more than one person carries: who carries it, stretch after stretch.",
            Shapes.List("One name a stretch.", Shapes.Text("Who.", "EV1"))))
        .May("arms", Shapes.Entries("The sessions of each arm, in order.", Shapes.List("Its sessions.", Session())))
        .May("ground", Shapes.List("The commands, in order.", new MapShape("A command.")
            .Must("do", Shapes.Text("The command.", "branch-a off"))
            .May("after", Shapes.Text("The leg that it comes after.", "gyro/arrive"))
            .May("before", Shapes.Text("The leg that waits for it.", "gyro/demate"))
            .May("late", Shapes.Flag("Whether it is sent as late as can be.", false))))
        .May("voice", Shapes.List("Who is led from inside after whom, one sequence for each conversation that may go on at once.", new MapShape("One sequence.")
            .Must("legs", Shapes.Texts("The legs with led steps, in order; of legs that start together one stands for all.", "latch/free", filled: true))))
        .May("decide", new MapShape("A choice near the end.")
            .Must("after", Shapes.Text("The leg after which it is taken.", "head/mate"))
            .Must("if_before", Shapes.Pet("'then' is taken up to this moment, 'else' after it.", "5:20"))
            .May("then", Lists("What each person does if there is time."))
            .May("else", Lists("What each person does if not.")))
        .May("left_out", Shapes.List("Jobs not in the plan.", new MapShape("A job left out.")
            .Must("job", Shapes.Text("Which.", "vane-photo"))
            .Must("why", Shapes.Text("Why.", "no time for it"))))
        .Build();

    /// <summary>One entry of a person's list; its kind is the key that only this kind has.</summary>
    public static JsonObject Entry() => new()
    {
        ["description"] = "One thing that the person does.",
        ["type"] = "object",
        ["oneOf"] = new JsonArray(
            new MapShape("Out through the hatch.").Must("egress", Shapes.Text("The airlock.", "lock")),
            Placed(new MapShape("Take a thing onto the suit.").Must("take", Gear()).Must("from", Shapes.Text("The grip where it hangs; the airlock's when it is inside.", "lock")).Must("carry", Carry())),
            Placed(new MapShape("Hook a thing at a grip.").Must("put", Gear()).Must("at", Grip())),
            Placed(new MapShape("Plug a restraint into a socket.").Must("plug", Restraint()).Must("into", Socket()).Must("setting", Shapes.Text("How it is set.", "B6"))),
            Placed(new MapShape("Take a restraint out of its socket.").Must("unplug", Restraint()).Must("from", Socket()).Must("carry", Carry())),
            Leg(), Meeting(),
            Placed(new MapShape("Get onto an arm.").Must("mount", Arm()).Must("at", Grip())),
            For(new MapShape("Get off an arm.").Must("dismount", Arm()).Must("at", Grip())),
            ByHand(new MapShape("Wait where one is.").Must("wait", Until())),
            For(new MapShape("Look over gloves and helmet where one is.").Must("check", Shapes.Choice("What is looked over.", "gloves"))),
            For(new MapShape("Rest where one is.").Must("rest", Shapes.Time("How long.", "5 min"))),
            Way(new MapShape("Back in.").Must("ingress", Shapes.Text("The airlock.", "lock"))).Build()),
    };

    private static JsonObject Lists(string about) =>
        Shapes.Entries(about, Shapes.List("This person's entries.", new JsonObject { ["$ref"] = "#/$defs/entry" }));

    private static JsonNode Leg() => ByHand(Way(new MapShape("Do a leg.")
        .Must("leg", Shapes.Text("The leg.", "latch/free"))
        .May("at", Shapes.Pet("Pinned to start at this moment.", "3:10"))
        .May("not_before", Shapes.Pet("Pinned to start no earlier.", "3:10"))
        .May("not_after", Shapes.Pet("Pinned to start no later.", "3:40"))
        .May("who", Shapes.Choice("Pinned to this person.", "pinned"))
        .May("keep", Shapes.Flag("Whether search must keep this leg.", false))));

    private static JsonNode Meeting() => Placed(new MapShape("Meet others; the same entry stands in each one's list.")
        .Must("meet", Shapes.Text("The name of the meeting.", "m1"))
        .Must("at", Grip())
        .Must("with", Shapes.Texts("The others.", "EV2", filled: true))
        .May("give", Shapes.List("What is handed over.", new MapShape("A thing handed over.")
            .Must("gear", Gear())
            .Must("to", Shapes.Text("Who gets it.", "EV2"))
            .Must("carry", Carry()))));

    private static JsonObject Until()
    {
        JsonObject words = Shapes.Choice("Something of the outside world.", "day", "night", "link");
        return new() { ["description"] = "What is waited for.", ["anyOf"] = new JsonArray(words, Shapes.Pet("A moment.", "3:10")) };
    }

    private static JsonNode Session() => new MapShape("From getting on to getting off.")
        .Must("rider", Shapes.Text("Who rides.", "EV1"))
        .Must("mount", Shapes.Text("The grip where the rider gets on.", "spar-3"))
        .May("poses", Shapes.List("The poses, in order.", Shapes.Text("A pose.", "mast-high")))
        .Must("dismount", Shapes.Text("The grip where the rider gets off.", "spar-3"));

    private static MapShape Way(MapShape map) => map
        .May("way", new JsonObject
        {
            ["description"] = "The grips walked, both ends named; auto for the standard way, as when it is missing.",
            ["anyOf"] = new JsonArray(new JsonObject { ["const"] = "auto" }, Shapes.List("The grips.", Shapes.Text("A grip.", "quay-1"))),
        })
        .May("anchor", Shapes.Text("The grip where the reel in use hangs on arrival; the best one when missing.", "lock"));

    private static JsonNode Placed(MapShape map) => For(Way(map));

    private static JsonNode For(MapShape map) => ByHand(map.May("for", Shapes.Text("The leg that it serves.", "latch/free")));

    private static JsonNode ByHand(MapShape map) => map.May("by", Shapes.Choice("That a person wrote this: completion leaves it alone.", "hand")).Build();

    private static JsonObject Gear() => Shapes.Text("The thing.", "latch-bag");

    private static JsonObject Restraint() => Shapes.Text("The restraint.", "restraint-2");

    private static JsonObject Socket() => Shapes.Text("The socket.", "socket-2");

    private static JsonObject Grip() => Shapes.Text("The grip.", "quay-2");

    private static JsonObject Arm() => Shapes.Text("The arm.", "crane");

    private static JsonObject Carry() => Shapes.Text("The carry point it hangs on then.", "waist");
}
