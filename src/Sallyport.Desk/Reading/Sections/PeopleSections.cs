using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the sections about people and what they carry: people, sizes, gear.</summary>
internal static class PeopleSections
{
    public static Person Person(MapReader r)
    {
        PersonId id = new(r.Id("id", Kinds.Person));
        string name = r.Text("name");
        Role role = r.Choice("role", ("outside", Role.Outside), ("inside", Role.Inside), ("arm operator", Role.ArmOperator));
        ImmutableArray<string> trained = Trained(r);
        if (role != Role.Outside)
        {
            foreach (string key in new[] { "pace", "carry", "reels", "suit" }) r.Refuse(key, "only a person outside has it");
            r.Know("pace", "carry", "reels", "suit");
            return new(id, name, role, trained, null, [], [], null);
        }
        if (r.Find("id") is TextNode node) r.Binding.Names.Give(Kinds.Outside, id.Value, node.Place, out _);
        Pace? pace = r.Map("pace", "a pace", inner => new Pace(
            inner.Measure("easy", Dimension.Speed), inner.Measure("careful", Dimension.Speed), inner.Time("gap"), inner.Text("source")));
        ImmutableArray<CarryPoint> carry = r.FilledList("carry", "a carry point", inner => new CarryPoint(
            new(inner.Id("id", Kinds.CarryPointOf(id.Value))), inner.FilledRefs("sizes", Kinds.Size, size => new SizeId(size)), inner.Measure("most", Dimension.Mass)));
        return new(id, name, role, trained, pace, carry, Reels(r), r.Map("suit", "a suit", Suit));
    }

    public static SizeClass Size(MapReader r) => new(new(r.Id("id", Kinds.Size)), r.Number("slower", 1, 20));

    public static Gear Gear(MapReader r)
    {
        string id = r.Id("id", Kinds.Gear);
        string title = r.Text("title");
        GearKind kind = r.Choice("kind", ("bag", GearKind.Bag), ("part", GearKind.Part), ("tool", GearKind.Tool), ("restraint", GearKind.Restraint), ("stock", GearKind.Stock));
        string? narrow = kind switch { GearKind.Bag => Kinds.Bag, GearKind.Restraint => Kinds.Restraint, GearKind.Stock => Kinds.Stock, GearKind.Tool => Kinds.Tool, _ => null };
        if (narrow is not null && r.Find("id") is TextNode node) r.Binding.Names.Give(narrow, id, node.Place, out _);
        int count = 1;
        r.Know("count");
        if (kind == GearKind.Stock) count = r.Count("count", "pieces", 1);
        else r.Refuse("count", "only a stock is counted");
        return ToolSections.More(r, new(
            new(id), title, kind, new(r.Ref("size", Kinds.Size)), r.Measure("mass", Dimension.Mass, aboveZero: false), r.Measure("volume", Dimension.Volume, aboveZero: false),
            r.RequiredText("start", "inside") is { } start ? Locations.Read(r, start, "start") : Location.Inside,
            r.Find("end") is { } end && r.AsText(end, "end") is { } endText ? Locations.Read(r, endText, "end") : null, count));
    }

    // Whoever holds a training gives its name: a leg may ask only for what somebody holds.
    private static ImmutableArray<string> Trained(MapReader r)
    {
        ImmutableArray<TextNode> trained = r.Texts("trained_for");
        foreach (TextNode training in trained)
        {
            if (MapReader.WellFormed(training.Text, blanks: true)) r.Binding.Names.Give(Kinds.Training, training.Text, training.Place, out _);
            else r.Binding.Report(NameProblems.Form(training.Place, Kinds.Training, training.Text, blanks: true));
        }
        return [.. trained.Select(training => training.Text)];
    }

    private static ImmutableArray<double> Reels(MapReader r) => [.. r.Texts("reels", once: false).Select(node => r.Measure(node, "reels", Dimension.Length))];

    private static Suit Suit(MapReader r) => new(
        r.Pet("cut_off"), r.Text("cut_off_source"), r.Measure("pressure", Dimension.Pressure), r.Measure("primary_oxygen", Dimension.Mass),
        r.LimitTime("secondary_oxygen"), r.Measure("feedwater", Dimension.Mass), r.Measure("battery", Dimension.Energy), r.Measure("carbon_dioxide", Dimension.Mass));
}
