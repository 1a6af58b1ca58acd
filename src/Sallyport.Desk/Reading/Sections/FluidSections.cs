using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the fluid net and what hands touch: fluid, surfaces, edges, and what a step does with a line.</summary>
internal static class FluidSections
{
    /// <summary>The fluid net: its lines, what shuts them off, and what makes clean after a spill.</summary>
    public sealed record FluidNet(ImmutableArray<FluidLine> Lines, ImmutableArray<Valve> Valves, ImmutableArray<Disconnect> Disconnects, BakeOut? BakeOut);

    public static FluidNet Fluid(MapReader r) => new(
        r.FilledList("lines", "a fluid line", Line),
        r.List("valves", "a valve", Valve),
        r.List("disconnects", "a quick disconnect", Disconnect),
        r.OptionalMap("bakeout", "the bake-out", inner => new BakeOut(inner.Time("sunlit"), inner.Time("test"), inner.Text("source"))));

    public static Surface Surface(MapReader r)
    {
        string name = r.Id("id", Kinds.Surface);
        ImmutableArray<GripId> grips = r.Refs("grips", Kinds.Grip, grip => new GripId(grip));
        ImmutableArray<SiteId> sites = r.Refs("sites", Kinds.Site, site => new SiteId(site));
        if (grips.IsEmpty && sites.IsEmpty) r.Binding.Report(FluidProblems.SurfaceNowhere(r.Place, name));
        return new(name, grips, sites, r.Quantity("lit", Dimension.Temperature, "100 degC") ?? default,
            r.Quantity("shade", Dimension.Temperature, "-80 degC") ?? default, r.Text("source"));
    }

    public static Edge Edge(MapReader r) =>
        new(r.Id("id", Kinds.Edge), r.Point("at"), r.OptionalMap("covered", "what covers the edge", Features.Condition));

    /// <summary>What a step does with a line.</summary>
    public static FluidTouch Touch(MapReader r)
    {
        string line = r.Ref("line", Kinds.FluidLine);
        string? does = r.OneOf("opens", "reads", "watches", "vents", "tests");
        bool opens = r.Flag("opens");
        r.Know("spills");
        if (!opens) r.Refuse("spills", "only a step that opens a disconnect spills");
        foreach (string key in new[] { "reads", "watches", "vents" })
            if (does == key && !r.Flag(key)) r.Refuse(key, "leave it out where it is not so");
        return new(line, opens)
        {
            Reads = does == "reads",
            Watches = does == "watches",
            Vents = does == "vents",
            Spills = opens && r.Has("spills") ? Soiled(r, r.Texts("spills")) : null,
            Tests = does == "tests" ? Soiled(r, r.FilledTexts("tests")) : [],
        };
    }

    private static ImmutableArray<Soiled> Soiled(MapReader r, ImmutableArray<TextNode> words) =>
        [.. words.Select(word => r.ChoiceOf(word, "spills", ("person", Model.Soiled.Person), ("tool", Model.Soiled.Tool), ("bag", Model.Soiled.Bag)))];

    private static FluidLine Line(MapReader r)
    {
        string name = r.Id("name", Kinds.FluidLine, blanks: true);
        ImmutableArray<FeatureId> ends = r.FilledRefs("ends", Kinds.Feature, feature => new FeatureId(feature));
        double pressure = r.Measure("pressure", Dimension.Pressure);
        string holds = r.Text("holds", "coolant");
        bool liquid = r.Choice("liquid", ("true", true), ("false", false)), feeds = r.Flag("feeds");
        r.Know("trapped", "source", "lit", "may_be_left");
        bool bursts = liquid && !feeds;
        if (!bursts)
            foreach (string key in new[] { "trapped", "source", "lit", "may_be_left" }) r.Refuse(key, "only a line of liquid that does not feed can be trapped");
        return new(name, ends, pressure)
        {
            Holds = holds,
            Liquid = liquid,
            Feeds = feeds,
            Harmless = r.Flag("harmless"),
            Trapped = bursts ? r.LimitTime("trapped") : null,
            Source = bursts ? r.Text("source") : "",
            MayBeLeft = bursts ? r.OptionalText("may_be_left") : null,
            ShadedAtNight = bursts && r.OptionalChoice("lit", ("always", false), ("day", true)) is true,
        };
    }

    private static Valve Valve(MapReader r)
    {
        FeatureId feature = new(r.Ref("feature", Kinds.Feature));
        return new(feature, r.FilledRefs("shut", Kinds.State(feature.Value), state => state));
    }

    private static Disconnect Disconnect(MapReader r)
    {
        FeatureId feature = new(r.Ref("feature", Kinds.Feature));
        return new(feature, r.FilledRefs("mated", Kinds.State(feature.Value), state => state), r.Refs("capped", Kinds.State(feature.Value), state => state));
    }
}
