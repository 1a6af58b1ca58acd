using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>The structure people move on, and what is built into it.</summary>
/// <param name="Name">The station's name.</param>
/// <param name="Grips">Every point where a person can be.</param>
/// <param name="Spans">The ways between grips, each usable both ways.</param>
/// <param name="Sites">Worksites.</param>
/// <param name="Sockets">Sockets for foot restraints.</param>
/// <param name="Zones">Places closed at times or in states.</param>
/// <param name="Features">Things with states; the state at the start, and the station's configuration before and after.</param>
/// <param name="PowerLines">The power net, as lines between nodes.</param>
/// <param name="PowerSources">Nodes that always feed the net, batteries and arrays among them.</param>
/// <param name="FluidLines">The fluid net, as stretches of line between valves and disconnects.</param>
/// <param name="Airlocks">Where people go out and come in.</param>
/// <param name="Modules">Bodies of the station, for pictures.</param>
public sealed record Station(
    string Name,
    ImmutableArray<Grip> Grips,
    ImmutableArray<Span> Spans,
    ImmutableArray<Site> Sites,
    ImmutableArray<Socket> Sockets,
    ImmutableArray<Zone> Zones,
    ImmutableArray<Feature> Features,
    ImmutableArray<PowerLine> PowerLines,
    ImmutableArray<NodeId> PowerSources,
    ImmutableArray<FluidLine> FluidLines,
    ImmutableArray<Airlock> Airlocks,
    ImmutableArray<Module> Modules)
{
    /// <summary>Joints that move unless they are locked.</summary>
    public ImmutableArray<Joint> Joints { get; init; } = [];

    /// <summary>Jets that may fire unless they are safe.</summary>
    public ImmutableArray<Emitter> Jets { get; init; } = [];

    /// <summary>Antennas that send unless they are safe.</summary>
    public ImmutableArray<Emitter> Beams { get; init; } = [];

    /// <summary>What keeps its charge after it is cut off; null when the scenario does not say whether anything does.</summary>
    public ImmutableArray<Capacitor>? Capacitors { get; init; }

    /// <summary>What is known of controllers; one that is missing here is not known to fail alone.</summary>
    public ImmutableArray<SwitchController> Controllers { get; init; } = [];

    /// <summary>The valves of the fluid net.</summary>
    public ImmutableArray<Valve> Valves { get; init; } = [];

    /// <summary>The quick disconnects of the fluid net.</summary>
    public ImmutableArray<Disconnect> Disconnects { get; init; } = [];

    /// <summary>What makes clean again; null when the scenario does not say.</summary>
    public BakeOut? BakeOut { get; init; }

    /// <summary>Surfaces with temperatures.</summary>
    public ImmutableArray<Surface> Surfaces { get; init; } = [];

    /// <summary>Sharp edges.</summary>
    public ImmutableArray<Edge> Edges { get; init; } = [];
}

/// <summary>A point in station axes, metres: x forward, y starboard, z down.</summary>
/// <param name="X">Forward, m.</param>
/// <param name="Y">Starboard, m.</param>
/// <param name="Z">Down, m.</param>
public readonly record struct Point(double X, double Y, double Z)
{
    /// <summary>The straight distance to another point, m.</summary>
    public double DistanceTo(Point other) =>
        Math.Sqrt((X - other.X) * (X - other.X) + (Y - other.Y) * (Y - other.Y) + (Z - other.Z) * (Z - other.Z));
}

/// <summary>What shape a body of the station has.</summary>
public enum SolidShape
{
    /// <summary>Round about its axis.</summary>
    Cylinder,
    /// <summary>Square about its axis, two sides as level as the axis allows.</summary>
    Box,
}

/// <summary>A body of the station: a cylinder or box between two points, for pictures and shadows.</summary>
/// <param name="Name">As people call it.</param>
/// <param name="From">One end of its axis.</param>
/// <param name="To">The other end.</param>
/// <param name="Width">Its diameter or width, m.</param>
public sealed record Module(string Name, Point From, Point To, double Width)
{
    /// <summary>The shape in which it casts a shadow; null when it casts none, as what turns or is only a sketch.</summary>
    public SolidShape? Shape { get; init; }
}

/// <summary>A point on the structure where a person can be.</summary>
/// <param name="Id">Its name.</param>
/// <param name="At">Where it is.</param>
/// <param name="Anchor">Whether a tether reel may be hooked here and left.</param>
/// <param name="Stow">Whether bags and other gear may be hooked here and left.</param>
public sealed record Grip(GripId Id, Point At, bool Anchor, bool Stow);

/// <summary>How a span is walked.</summary>
public enum SpanClass
{
    /// <summary>Handrail after handrail.</summary>
    Easy,
    /// <summary>Beside delicate or sharp things, or with poor holds.</summary>
    Careful,
    /// <summary>A reach without a rail between: a time, not a pace.</summary>
    Gap,
}

/// <summary>A way between two grips, usable both ways.</summary>
/// <param name="A">One end.</param>
/// <param name="B">The other end.</param>
/// <param name="Length">Along the structure, so also the tether it takes, m; at least the straight distance.</param>
/// <param name="Class">How it is walked.</param>
public sealed record Span(GripId A, GripId B, double Length, SpanClass Class);

/// <summary>A worksite: on a grip, or where an arm holds its rider.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">As shown.</param>
/// <param name="Grip">The grip where a person stands; null when it is reached from the arm only.</param>
/// <param name="Arm">The arm whose pose this is, when it is one.</param>
/// <param name="Pose">The pose of that arm.</param>
public sealed record Site(SiteId Id, string Title, GripId? Grip, ArmId? Arm, PoseId? Pose)
{
    /// <summary>Which way whoever works there looks; null when it is not said.</summary>
    public StationSide? Looks { get; init; }
}

/// <summary>A direction along the axes of the station.</summary>
public enum StationSide
{
    /// <summary>Along x.</summary>
    Forward,
    /// <summary>Against x.</summary>
    Aft,
    /// <summary>Along y.</summary>
    Starboard,
    /// <summary>Against y.</summary>
    Port,
    /// <summary>Along z.</summary>
    Down,
    /// <summary>Against z.</summary>
    Up,
}

/// <summary>A socket for a foot restraint, reached from its grip.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Grip">From where a restraint is plugged in and entered.</param>
public sealed record Socket(SocketId Id, GripId Grip);

/// <summary>A stretch of PET, <c>[From, To)</c>.</summary>
/// <param name="From">Its first second.</param>
/// <param name="To">The first second after it.</param>
public readonly record struct PetInterval(Pet From, Pet To);

/// <summary>When something of the outside world is so.</summary>
public enum LightCondition
{
    /// <summary>Sunlit.</summary>
    Day,
    /// <summary>In the station's night.</summary>
    Night,
}

/// <summary>A set of grips that may not be entered or stayed at while closed.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Why">What it protects from, as a crew member would say it.</param>
/// <param name="Grips">The grips inside; a span is inside when either end is.</param>
/// <param name="Times">Closed in these times.</param>
/// <param name="Light">Closed while it is day, or night; null when light does not matter.</param>
/// <param name="While">Closed while one of these features is in one of the states; empty when states do not matter.</param>
public sealed record Zone(
    ZoneId Id, string Why, ImmutableArray<GripId> Grips, ImmutableArray<PetInterval> Times, LightCondition? Light, ImmutableArray<FeatureCondition> While);

/// <summary>A named thing with a few states.</summary>
/// <param name="Id">Its name.</param>
/// <param name="States">At least one; order is that of the file.</param>
/// <param name="Start">The state at the start of the timeline.</param>
/// <param name="Ready">The state that the hatch may be opened in; null when it does not matter.</param>
/// <param name="Back">The state to be given back at the end; null when it does not matter.</param>
public sealed record Feature(FeatureId Id, ImmutableArray<string> States, string Start, string? Ready, string? Back);

/// <summary>One or more states of one feature.</summary>
/// <param name="Feature">Which.</param>
/// <param name="States">Any of these.</param>
public sealed record FeatureCondition(FeatureId Feature, ImmutableArray<string> States);

/// <summary>A conductor between two nodes. It conducts unless its switch is open or its connector apart.</summary>
/// <param name="From">One node.</param>
/// <param name="To">The other.</param>
/// <param name="Closed">It conducts only in this state; null when nothing interrupts it.</param>
/// <param name="Controller">What drives the switch: switches of one controller fall together and count as one inhibit. Null for a connector, which is no inhibit.</param>
public sealed record PowerLine(NodeId From, NodeId To, FeatureCondition? Closed, string? Controller)
{
    /// <summary>The states of a connector in which its pins are bare; null for every state in which it does not conduct.</summary>
    public ImmutableArray<string>? Exposed { get; init; }

    /// <summary>Whether it is a connector, which a person takes apart.</summary>
    public bool IsConnector => Closed is not null && Controller is null;

    /// <summary>Whether its pins are bare in this state of its feature; never for a switch or a plain conductor.</summary>
    public bool IsExposedIn(string state) => IsConnector && (Exposed?.Contains(state) ?? !Closed!.States.Contains(state));
}

/// <summary>An airlock with its sequence. All times run inside the timeline; depress lies before.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Grip">The grip at the hatch, where everybody comes out and goes in, and where the first reels hang.</param>
/// <param name="Order">Who goes out, in this order; they come in by the reverse.</param>
/// <param name="OutEach">From hatch to outside for one person.</param>
/// <param name="OutBags">Bags out, once the first person is there.</param>
/// <param name="OutCheck">The mutual check that ends egress.</param>
/// <param name="Inventory">Clean-up and inventory with everybody at the hatch.</param>
/// <param name="InBags">Bags in, before the first person.</param>
/// <param name="InEach">From hatch to inside, on the station's supply, for one person. Ends one person's return.</param>
/// <param name="Close">Hatch closed and repress begun. Ends everybody's return, and the sortie.</param>
/// <param name="Holds">Most people at once.</param>
public sealed record Airlock(
    AirlockId Id, GripId Grip, ImmutableArray<PersonId> Order,
    Duration OutEach, Duration OutBags, Duration OutCheck,
    Duration Inventory, Duration InBags, Duration InEach, Duration Close, int Holds)
{
    /// <summary>What goes into it at once; null when the scenario does not say.</summary>
    public AirlockRoom? Room { get; init; }
}
