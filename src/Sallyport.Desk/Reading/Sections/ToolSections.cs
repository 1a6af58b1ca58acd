using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>Reads the sections bolts and footings, and what gear and airlocks say about tools, bags and room.</summary>
internal static class ToolSections
{
    private const int MostItems = 1000;

    public static Bolt Bolt(MapReader r)
    {
        BoltId id = new(r.Id("id", Kinds.Bolt));
        string title = r.Text("title");
        int number = r.Count("number", "pieces", 1);
        double start = r.Measure("start", Dimension.Count, aboveZero: false);
        Band closed = Band(r, "closed", Dimension.Count);
        string? given = r.OneOf("torque", "preload");
        Band? torque = given == "torque" ? Band(r, "torque", Dimension.Torque) : null;
        Preload? preload = given == "preload" ? r.OptionalMap("preload", "a preload", Preload) : null;
        r.Know("torque", "preload");
        return new(id, title, number, start, closed, torque, preload, r.Text("source"), r.Flag("verified"));
    }

    private static Preload Preload(MapReader r)
    {
        Band force = Bounds(r, Dimension.Force);
        double diameter = r.Measure("diameter", Dimension.Length), scatter = r.Number("scatter", 0, 0.95);
        string? form = r.OneOf("nut_factor", "finish", "friction");
        r.Know("nut_factor", "finish", "friction");
        double factor = form switch
        {
            "nut_factor" => r.Number("nut_factor", 0.01, 1),
            "finish" => r.Choice("finish", ("plain", BoltTorque.PlainNutFactor), ("zinc", BoltTorque.ZincNutFactor),
                ("lubricated", BoltTorque.LubricatedNutFactor), ("cadmium", BoltTorque.CadmiumNutFactor)),
            "friction" => Friction(r, diameter),
            _ => BoltTorque.PlainNutFactor,
        };
        return new(force, diameter, factor, scatter);
    }

    private static double Friction(MapReader r, double diameter)
    {
        double factor = BoltTorque.PlainNutFactor;
        r.OptionalMap("friction", "the friction of a bolt", inner =>
        {
            double thread = inner.Number("thread", 0.01, 1), collar = inner.Number("collar", 0.01, 1), pitch = inner.Measure("pitch", Dimension.Length);
            if (pitch >= diameter) inner.Binding.Report(GearProblems.PitchTooWide(inner.Place));
            else factor = BoltTorque.NutFactor(diameter, pitch, thread, collar);
            return inner;
        });
        return factor;
    }

    public static FootingStrength Footing(MapReader r)
    {
        Footing kind = Footings(r, "kind");
        if (r.Find("kind") is TextNode node) r.Give(node, Kinds.Footing, blanks: true);
        return new(kind, r.Measure("torque", Dimension.Torque, aboveZero: false), r.Measure("force", Dimension.Force, aboveZero: false), r.Text("source"), r.Flag("verified"));
    }

    public static Footing Footings(MapReader r, string key) => r.Choice(
        key, ("free", Model.Footing.Free), ("body tether", Model.Footing.BodyTether), ("restraint", Model.Footing.Restraint), ("arm", Model.Footing.Arm));

    /// <summary>What a thing of one kind says beyond what all things say.</summary>
    public static Gear More(MapReader r, Gear gear)
    {
        foreach (string key in new[] { "torque", "charge", "spare_for" })
            if (gear.Kind != GearKind.Tool) r.Refuse(key, "only a tool has it");
        if (gear.Kind != GearKind.Bag) r.Refuse("holds", "only a bag holds something");
        if (gear.End == Location.Inside) r.Refuse("stays", "it ends inside");
        else r.Refuse("may_be_left", "it does not end inside");
        r.Know("torque", "charge", "spare_for", "holds", "stays", "may_be_left");
        return gear with
        {
            Holds = gear.Kind == GearKind.Bag ? r.OptionalMap("holds", "what a bag holds", Holds) : null,
            Torque = gear.Kind == GearKind.Tool && r.Has("torque") ? Band(r, "torque", Dimension.Torque) : null,
            Charge = gear.Kind == GearKind.Tool ? r.OptionalMap("charge", "a charge", Charge) : null,
            SpareFor = gear.Kind == GearKind.Tool ? r.Refs("spare_for", Kinds.Tool, name => new GearId(name)) : [],
            Stays = r.OptionalText("stays"),
            MayBeLeft = gear.End == Location.Inside ? r.OptionalText("may_be_left") : null,
        };
    }

    public static AirlockRoom Room(MapReader r) => new(
        r.Measure("volume", Dimension.Volume), r.Measure("person", Dimension.Volume), r.Whole("items", 0, MostItems),
        r.FilledRefs("hatch", Kinds.Size, name => new SizeId(name)), r.Refs("before_people", Kinds.Size, name => new SizeId(name)), r.Text("source"));

    private static BagHolds Holds(MapReader r) => new(
        r.Measure("volume", Dimension.Volume), r.Measure("mass", Dimension.Mass), r.FilledRefs("sizes", Kinds.Size, name => new SizeId(name)), r.Whole("items", 1, MostItems), r.Flag("bags"));

    private static ToolCharge Charge(MapReader r)
    {
        bool byTurns = r.OneOf("turns", "uses") != "uses";
        r.Know("turns", "uses");
        string key = byTurns ? "turns" : "uses";
        double full = r.Has(key) ? r.Measure(key, Dimension.Count) : 1, keep = r.Measure("keep", Dimension.Count, aboveZero: false);
        if (keep > full && r.Has(key)) r.Binding.Report(GearProblems.KeepsTooMuch(r.Place, full, keep));
        return new(byTurns, full, keep, r.Text("source"));
    }

    private static Band Band(MapReader r, string key, Dimension dimension)
    {
        Band band = default;
        r.Map(key, $"the band '{key}'", inner =>
        {
            band = Bounds(inner, dimension);
            return inner;
        }, $"{{least: 10 {ValueProblems.Example(dimension)}, most: 14 {ValueProblems.Example(dimension)}}}");
        return band;
    }

    /// <summary>The keys least and most of a map.</summary>
    private static Band Bounds(MapReader r, Dimension dimension)
    {
        int before = r.Binding.Count;
        double least = r.Measure("least", dimension, aboveZero: false), most = r.Measure("most", dimension);
        Band band = new(least, most, $"{(r.Find("least") as TextNode)?.Text} to {(r.Find("most") as TextNode)?.Text}");
        if (r.Binding.Count == before && least > most) r.Binding.Report(GearProblems.BandCrossed(r.Place, band));
        return band;
    }
}
