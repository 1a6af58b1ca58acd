using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the sections about the structure: modules, grips, spans, sites, sockets, zones, airlocks.</summary>
internal static class StationSections
{
    public static Module Module(MapReader r) => new(r.Text("name"), r.Point("from"), r.Point("to"), r.Measure("width", Dimension.Length))
    {
        Shape = r.OptionalChoice("shape", ("round", SolidShape.Cylinder), ("square", SolidShape.Box)),
    };

    public static Grip Grip(MapReader r) => new(new(r.Id("id", Kinds.Grip)), r.Point("at"), r.Flag("anchor"), r.Flag("stow"));

    public static Span Span(MapReader r) => new(
        new(r.Ref("from", Kinds.Grip)), new(r.Ref("to", Kinds.Grip)), r.Measure("length", Dimension.Length),
        r.Choice("class", ("easy", SpanClass.Easy), ("careful", SpanClass.Careful), ("gap", SpanClass.Gap)));

    public static Site Site(MapReader r)
    {
        SiteId id = new(r.Id("id", Kinds.Site));
        string title = r.Text("title");
        StationSide? looks = r.OptionalChoice("looks", ("forward", StationSide.Forward), ("aft", StationSide.Aft), ("starboard", StationSide.Starboard),
            ("port", StationSide.Port), ("down", StationSide.Down), ("up", StationSide.Up));
        string? on = r.OneOf("grip", "arm");
        r.Know("pose");
        if (on == "grip") r.Refuse("pose", "only a site on an arm has a pose");
        if (on != "arm") return new(id, title, new(r.OptionalRef("grip", Kinds.Grip) ?? ""), null, null) { Looks = looks };
        string arm = r.OptionalRef("arm", Kinds.Arm) ?? "";
        return new(id, title, null, new(arm), new(r.Ref("pose", Kinds.Pose(arm)))) { Looks = looks };
    }

    public static Socket Socket(MapReader r) => new(new(r.Id("id", Kinds.Socket)), new(r.Ref("grip", Kinds.Grip)));

    public static Zone Zone(MapReader r) => new(
        new(r.Id("id", Kinds.Zone)), r.Text("why"), r.FilledRefs("grips", Kinds.Grip, name => new GripId(name)),
        SortieSections.Intervals(r, "times"), Light(r), r.List("while", "a condition", Features.Condition));

    public static Airlock Airlock(MapReader r)
    {
        AirlockId id = new(r.Id("id", Kinds.Airlock));
        GripId grip = new(r.Ref("grip", Kinds.Grip));
        ImmutableArray<PersonId> order = r.FilledRefs("order", Kinds.Outside, name => new PersonId(name));
        Duration outEach = default, bagsOut = default, check = default, inventory = default, bagsIn = default, inEach = default, close = default;
        r.Map("out", "the way out", inner => { (outEach, bagsOut, check) = (inner.Time("each"), inner.Time("bags"), inner.Time("check")); return inner; });
        r.Map("in", "the way in", inner => { (inventory, bagsIn, inEach, close) = (inner.Time("inventory"), inner.Time("bags"), inner.Time("each"), inner.Time("close")); return inner; });
        return new(id, grip, order, outEach, bagsOut, check, inventory, bagsIn, inEach, close, r.Whole("holds", 1, 100))
        { Room = r.OptionalMap("room", "the room of an airlock", ToolSections.Room) };
    }

    public static LightCondition? Light(MapReader r) => r.OptionalChoice("light", ("day", LightCondition.Day), ("night", LightCondition.Night));
}
