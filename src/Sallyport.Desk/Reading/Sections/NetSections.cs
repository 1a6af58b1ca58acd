using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the power net, the arms and the consoles: power, arms, consoles.</summary>
internal static class NetSections
{
    /// <summary>The power net: its sources, and its lines between nodes.</summary>
    public sealed record PowerNet(
        ImmutableArray<NodeId> Sources, ImmutableArray<PowerLine> Lines, ImmutableArray<Capacitor>? Capacitors, ImmutableArray<SwitchController> Controllers);

    public static PowerNet Power(MapReader r)
    {
        ImmutableArray<PowerLine> lines = r.FilledList("lines", "a power line", PowerLine);
        return new(
            r.FilledRefs("sources", Kinds.Node, name => new NodeId(name)), lines,
            // An empty list says that there are none; without the key nobody knows.
            r.Has("capacitors") ? r.List("capacitors", "a capacitor", Capacitor) : null,
            r.List("controllers", "a controller", Controller));
    }

    private static Capacitor Capacitor(MapReader r)
    {
        NodeId node = new(r.Id("node", Kinds.Capacitor));
        if (r.Find("node") is TextNode { Empty: false } text) r.Use(text, Kinds.Node);
        return new(node, r.Time("bleeds"), r.Text("source"));
    }

    private static SwitchController Controller(MapReader r)
    {
        string id = r.Text("id", "box-a");
        if (id.Length > 0 && !r.Binding.Names.Give(Kinds.Controller, id, r.Place, out Place first))
            r.Binding.Report(NameProblems.Twice(r.Place, Kinds.Controller, id, first));
        return new(id, r.OptionalText("common"));
    }

    public static Arm Arm(MapReader r)
    {
        string id = r.Id("id", Kinds.Arm);
        string pose = Kinds.Pose(id);
        return new(
            new(id), new(r.Ref("operator", Kinds.Person)), new(r.Ref("start", pose)),
            r.FilledList("poses", "a pose", inner => Pose(inner, pose)),
            r.List("rides", "a ride", ride => Ride(ride, pose)),
            r.List("mounts", "a mount", mount => new ArmMount(new(mount.Ref("grip", Kinds.Grip)), new(mount.Ref("pose", pose)))),
            SortieSections.HandlingTime(r, "mount"), SortieSections.HandlingTime(r, "dismount"), r.Text("source"))
        {
            Brakes = r.OptionalMap("brakes", "the brakes", brakes => new ArmBrakes(brakes.Time("set"), brakes.Time("release"))),
        };
    }

    private static RideTime Ride(MapReader r, string pose)
    {
        RideTime ride = new(new(r.Ref("from", pose)), new(r.Ref("to", pose)), r.Time("time"))
        {
            Through = r.Has("through") ? r.Refs("through", Kinds.Grip, name => new GripId(name)) : null,
            Guided = r.OptionalTime("guided", 0, default),
        };
        if (ride.Guided > ride.Time && r.Find("guided") is TextNode node) r.Binding.Report(ValueProblems.Range(node, "guided", $"no more than the ride takes, {ride.Time}"));
        return ride;
    }

    public static GroundConsole Console(MapReader r) => new(
        new(r.Id("id", Kinds.Console)),
        r.FilledList("commands", "a command", command => new Command(
            new(command.Id("id", Kinds.Command, blanks: true)), command.Time("time"), command.Choice("link", ("true", true), ("false", false)), Features.States(command, "makes"))
        {
            Go = command.Has("go") ? command.Time("go") : null,
            SeenAboard = command.OptionalChoice("seen", ("telemetry", false), ("aboard", true)) ?? false,
            Covers = command.Refs("covers", Kinds.Feature, name => new FeatureId(name)),
        }),
        r.List("shutdowns", "a shutdown", Shutdown));

    private static PowerLine PowerLine(MapReader r)
    {
        NodeId from = Node(r, "from"), to = Node(r, "to");
        bool isSwitch = r.Has("switch");
        if (isSwitch && r.Has("connector")) r.Refuse("connector", "either a switch or a connector");
        ImmutableArray<string>? exposed = null;
        FeatureCondition? closed = r.OptionalMap(isSwitch ? "switch" : "connector", isSwitch ? "a switch" : "a connector", inner =>
        {
            FeatureId feature = new(inner.Ref("feature", Kinds.Feature));
            if (!isSwitch && inner.Has("exposed")) exposed = inner.Refs("exposed", Kinds.State(feature.Value), name => name);
            return new FeatureCondition(feature, [inner.Ref("closed", Kinds.State(feature.Value))]);
        });
        r.Know("controller");
        if (!isSwitch) r.Refuse("controller", "only a switch has a controller");
        // Two switches of one controller count once: leaving it out would count them twice.
        return new(from, to, closed, isSwitch ? r.Text("controller", "box-a") : null) { Exposed = exposed };
    }

    // A node of the net is named by the lines that end in it, as often as they do.
    private static NodeId Node(MapReader r, string key)
    {
        if (r.RequiredText(key, "battery-a") is not { } node) return new("");
        if (MapReader.WellFormed(node.Text, blanks: false)) r.Binding.Names.Give(Kinds.Node, node.Text, node.Place, out _);
        else r.Binding.Report(NameProblems.Form(node.Place, Kinds.Node, node.Text, blanks: false));
        return new(node.Text);
    }

    private static Pose Pose(MapReader r, string kind)
    {
        GripId? climbTo = null;
        Duration climb = default;
        PoseId id = new(r.Id("id", kind));
        Point at = r.Point("at");
        r.OptionalMap("climb", "the climb down", inner => { (climbTo, climb) = (new GripId(inner.Ref("to", Kinds.Grip)), inner.Time("time")); return inner; });
        return new(id, at, climbTo, climb);
    }

    private static Shutdown Shutdown(MapReader r)
    {
        ShutdownId id = new(r.Id("id", Kinds.Shutdown, blanks: true));
        Duration? longest = r.OptionalLimitTime("longest");
        // A limit has a source; without one there is nothing to say where it comes from.
        string source = longest is null ? r.OptionalText("source") ?? "" : r.Text("source");
        return new(id, new(r.Ref("off", Kinds.Command)), new(r.Ref("on", Kinds.Command)), longest, r.Flag("cuts_link"), source);
    }
}
