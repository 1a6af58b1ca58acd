using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>The scenario's things by their ids; nothing in it changes while a timeline is played, so that a scenario needs one. Asking for one that does not exist is misuse and throws with its name.</summary>
internal sealed class Lookup
{
    private static readonly ConditionalWeakTable<Scenario, Lookup> Made = [];

    private readonly Dictionary<PersonId, Person> people;
    private readonly Dictionary<GripId, Grip> grips;
    private readonly Dictionary<SiteId, Site> sites;
    private readonly Dictionary<SocketId, Socket> sockets;
    private readonly Dictionary<GearId, Gear> gear;
    private readonly Dictionary<SizeId, SizeClass> sizes;
    private readonly Dictionary<ArmId, Arm> arms;
    private readonly Dictionary<AirlockId, Airlock> airlocks;
    private readonly Dictionary<LegId, Leg> legs;
    private readonly Dictionary<CommandId, Command> commands;
    private readonly Dictionary<BoltId, Bolt> bolts;
    private readonly Dictionary<(GripId, GripId), Span> spans = [];

    /// <summary>That of a scenario, made once.</summary>
    public static Lookup Of(Scenario scenario) => Made.GetValue(scenario, static one => new Lookup(one));

    private readonly Scenario scenario;

    private Lookup(Scenario scenario)
    {
        this.scenario = scenario;
        Times = new ClockTimes(scenario);
        people = scenario.People.ToDictionary(person => person.Id);
        grips = scenario.Station.Grips.ToDictionary(grip => grip.Id);
        sites = scenario.Station.Sites.ToDictionary(site => site.Id);
        sockets = scenario.Station.Sockets.ToDictionary(socket => socket.Id);
        gear = scenario.Gear.ToDictionary(thing => thing.Id);
        sizes = scenario.Sizes.ToDictionary(size => size.Id);
        arms = scenario.Arms.ToDictionary(arm => arm.Id);
        airlocks = scenario.Station.Airlocks.ToDictionary(airlock => airlock.Id);
        legs = scenario.Legs.ToDictionary(leg => leg.Id);
        commands = scenario.Consoles.SelectMany(console => console.Commands).ToDictionary(command => command.Id);
        bolts = scenario.Bolts.ToDictionary(bolt => bolt.Id);
        BatteryTools = [.. scenario.Gear.Where(thing => thing.Charge is not null)];
        LinkCuts = [.. scenario.Consoles.SelectMany(console => console.Shutdowns).Where(shutdown => shutdown.CutsLink).Select(shutdown => shutdown.Id)];
        Bags = [.. scenario.Gear.Where(thing => thing.Kind == GearKind.Bag)];
        foreach (Span span in scenario.Station.Spans)
        {
            // A timeline names a span by its ends alone: of two between the same grips the longer one counts.
            if (spans.TryGetValue((span.A, span.B), out Span? other) && other.Length >= span.Length) continue;
            spans[(span.A, span.B)] = span;
            spans[(span.B, span.A)] = span;
        }
        SpansFrom = spans.Select(pair => (Ends: pair.Key, pair.Value)).ToLookup(one => one.Ends.Item1, one => (To: one.Ends.Item2, one.Value));
        GripPlaces = [.. scenario.Station.Grips.Select(grip => Places.At(grip.Id))];
        Points = scenario.Station.Grips.Select(grip => (Place: Places.At(grip.Id), grip.At))
            .Concat(scenario.Arms.SelectMany(arm => arm.Poses.Select(pose => (Place: Places.At(arm.Id, pose.Id), pose.At)))).ToDictionary(one => one.Place, one => one.At);
    }

    /// <summary>The registers that timelines of this scenario asked for last. Whoever finds none makes one; of two made at once either is right.</summary>
    public ImmutableArray<Register> Registers { get; set; } = [];

    /// <summary>The rules that have in this scenario what they need.</summary>
    public ImmutableArray<Rule> Rules => field.IsDefault ? field = [.. RuleBook.All.Where(rule => rule.Missing(scenario) is null)] : field;

    public ImmutableArray<Gear> Bags { get; }

    public ImmutableArray<Gear> BatteryTools { get; }

    /// <summary>What takes the link away while it is shut down.</summary>
    public ImmutableArray<ShutdownId> LinkCuts { get; }

    public Person Person(PersonId id) => Find(people, id, "person");

    public Grip Grip(GripId id) => Find(grips, id, "grip");

    public Site Site(SiteId id) => Find(sites, id, "worksite");

    public Socket Socket(SocketId id) => Find(sockets, id, "socket");

    public Gear Gear(GearId id) => Find(gear, id, "gear");

    public SizeClass Size(SizeId id) => Find(sizes, id, "size class");

    public Arm Arm(ArmId id) => Find(arms, id, "arm");

    public Pose Pose(Arm arm, PoseId id) => arm.Poses.FirstOrDefault(pose => pose.Id == id)
        ?? throw new ArgumentException($"arm '{arm.Id}' has no pose '{id}'");

    public Airlock Airlock(AirlockId id) => Find(airlocks, id, "airlock");

    public Leg Leg(LegId id) => Find(legs, id, "leg");

    public Step Step(LegId leg, StepId id)
    {
        foreach (Step step in Leg(leg).Steps)
            if (step.Id == id) return step;
        throw new ArgumentException($"leg '{leg}' has no step '{id}'");
    }

    public Bolt Bolt(BoltId id) => Find(bolts, id, "fastener");

    public Command Command(CommandId id) => Find(commands, id, "command");

    /// <summary>The span between two grips, either way round; null when there is none.</summary>
    public Span? Span(GripId from, GripId to) => spans.GetValueOrDefault((from, to));

    /// <summary>The spans from each grip, with where they lead.</summary>
    public ILookup<GripId, (GripId To, Span Span)> SpansFrom { get; }

    /// <summary>The names of the places that are grips.</summary>
    public HashSet<string> GripPlaces { get; }

    /// <summary>Where grips and poses are, by the names of their places; station axes, m.</summary>
    public Dictionary<string, Point> Points { get; }

    /// <summary>What the clock alone makes so.</summary>
    public ClockTimes Times { get; }

    private static T Find<TId, T>(Dictionary<TId, T> things, TId id, string kind) where TId : notnull =>
        things.TryGetValue(id, out T? thing) ? thing : throw new ArgumentException($"the scenario has no {kind} '{id}', which the timeline names");

    /// <summary>The least time of a span for a person with a load.</summary>
    public static int SpanSeconds(Scenario scenario, Person person, Span span, double slower) =>
        Walking.SpanSeconds(
            person.Pace ?? throw new ArgumentException($"{person.Id} does not go outside and has no pace"), span, slower, scenario.Tether);
}
