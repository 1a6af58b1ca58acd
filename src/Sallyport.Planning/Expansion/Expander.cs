using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>A timeline, or why there is none.</summary>
/// <param name="Timeline">The timeline; null with a problem.</param>
/// <param name="Problem">The problem; null with a timeline.</param>
public sealed record Expansion(Timeline? Timeline, OutlineProblem? Problem);

/// <summary>
/// Expands outlines to the second. It chooses nothing: every event starts as early as what it waits for allows, and what is marked
/// late then moves within its slack. Any number of threads may ask it at once.
/// </summary>
public sealed partial class Expander
{
    private readonly Scenario scenario;
    private readonly StationGraph graph;
    private readonly Dictionary<(PersonId, AirlockId), StandardLines> lines = [];
    private readonly Lock linesGate = new();
    private readonly Dictionary<CommandId, int> waits;
    private readonly Dictionary<LegId, Leg> legs;
    private readonly Dictionary<GearId, Gear> gear;

    /// <summary>Prepares to expand outlines of one scenario.</summary>
    public Expander(Scenario scenario)
    {
        this.scenario = scenario;
        graph = new(scenario.Station);
        legs = scenario.Legs.ToDictionary(leg => leg.Id);
        gear = scenario.Gear.ToDictionary(thing => thing.Id);
        waits = scenario.Consoles.SelectMany(console => console.Shutdowns).GroupBy(shutdown => shutdown.Off)
            .ToDictionary(off => off.Key, off => off.Max(shutdown => BleedWaits.Seconds(scenario, shutdown)));
    }

    internal Scenario Scenario => scenario;

    internal StationGraph Graph => graph;

    /// <summary>The standard lines of a person from an airlock; found once, and the same for people with the same pace and the same reels.</summary>
    public StandardLines LinesOf(Person person, Airlock airlock)
    {
        lock (linesGate)
        {
            if (lines.TryGetValue((person.Id, airlock.Id), out StandardLines? known)) return known;
            Person? alike = scenario.People.FirstOrDefault(other => other.Pace == person.Pace && other.Reels.SequenceEqual(person.Reels) && lines.ContainsKey((other.Id, airlock.Id)));
            return lines[(person.Id, airlock.Id)] = alike is null ? new(scenario, graph, person, airlock) : lines[(alike.Id, airlock.Id)];
        }
    }

    /// <summary>Expands an outline along the likely branch of its decision, or along the other one at its threshold second.</summary>
    /// <param name="outline">An outline of this scenario; its names must exist in it.</param>
    /// <param name="branch">Which branch; <see cref="Branch.Otherwise"/> needs a decision.</param>
    /// <param name="planId">Goes into the timeline.</param>
    public Expansion Expand(Outline outline, Branch branch, string planId) => Build(outline, branch, planId).Expansion;

    /// <summary>The builder that made the expansion; null when the outline was refused before, and which tail of a decision it took.</summary>
    private (Builder? Builder, bool TakesThen, Expansion Expansion) Build(Outline outline, Branch branch, string planId)
    {
        (Builder, bool, Expansion) Run(bool takesThen, Pet? heldUntil)
        {
            Builder builder = new(this, outline, takesThen, heldUntil);
            return (builder, takesThen, builder.Build(branch, planId));
        }

        if (outline.Decision is not { } decision) return Run(takesThen: true, heldUntil: null);
        if (!outline.People.Any(list => list.Entries.OfType<LegEntry>().Any(entry => entry.Leg == decision.After)))
            return (null, true, new(null, new("outline.decision", $"the decision is taken when {decision.After} ends, and that leg is in nobody's list before it", "name a leg that stands in a list under people:")));
        (Builder Builder, bool TakesThen, Expansion Expansion) then = Run(takesThen: true, heldUntil: null);
        if (then.Expansion.Timeline is not { } timeline) return then;
        bool thenIsLikely = EndOf(decision.After, timeline) < decision.IfBefore;
        if (thenIsLikely == (branch == Branch.Likely)) return then;
        return Run(takesThen: false, heldUntil: branch == Branch.Likely ? null : decision.IfBefore);
    }

    private static Pet EndOf(LegId leg, Timeline timeline) => timeline.Activities.OfType<DoStep>().Where(step => step.Leg == leg).Max(step => step.End);

    /// <summary>One expansion under way.</summary>
    private sealed partial class Builder(Expander expander, Outline outline, bool takesThen, Pet? heldUntil, Detour? detour = null)
    {
        private readonly Scenario scenario = expander.scenario;
        private readonly EventGraph events = new() { Past = detour?.Past };
        private readonly Dictionary<PersonId, Walker> walkers = [];
        private readonly Dictionary<LegId, List<EventNode>> legNodes = [];
        private readonly Dictionary<LegId, EventNode> ridesTo = [];
        private readonly Dictionary<LegId, EventNode> ridesFrom = [];
        private readonly Dictionary<LegId, EventNode> arrivals = [];
        private readonly Dictionary<string, Meeting> meetings = [];
        private readonly Dictionary<ArmId, List<ArmStretch>> armStretches = [];
        private readonly Dictionary<GearId, List<CarryStretch>> carried = [];
        private readonly Dictionary<string, int> numbers = [];
        private OutlineProblem? problem;

        /// <summary>What comes due on a way on and is put before entries.</summary>
        public IReadOnlySet<DuePause> Pauses { get; init; } = ImmutableHashSet<DuePause>.Empty;

        public Expansion Build(Branch branch, string planId)
        {
            foreach (PersonOutline list in outline.People)
            {
                Person person = scenario.People.First(candidate => candidate.Id == list.Person);
                walkers[person.Id] = new(person);
            }
            AddAirlocksOut();
            foreach (PersonOutline list in outline.People)
            {
                Walker walker = walkers[list.Person];
                foreach (Entry entry in list.Entries) Walk(walker, entry);
                if (outline.Decision is { } decision)
                {
                    walker.Tail = true;
                    PersonOutline? tail = (takesThen ? decision.Then : decision.Else).FirstOrDefault(candidate => candidate.Person == list.Person);
                    foreach (Entry entry in tail?.Entries ?? []) Walk(walker, entry);
                }
            }
            AddAirlocksIn();
            ConnectMeetings();
            ConnectArms();
            ConnectHands();
            ConnectLegs();
            ConnectVoices();
            AddGround();
            if (problem is null && heldUntil is { } held && legNodes.TryGetValue(outline.Decision!.After, out List<EventNode>? decided))
                decided[^1].NotBefore = Math.Max(decided[^1].NotBefore, held.Seconds - decided[^1].Seconds);
            problem ??= events.Solve();
            if (problem is not null) return new(null, problem);
            return new(new(scenario.Id, planId, branch, Emit(), MissedPins()) { Trouble = detour?.Trouble }, null);
        }

        public IReadOnlyDictionary<(string Name, int Number), int> Starts() => events.Starts();

        private void Fail(string code, string found, string fix) => problem ??= new(code, found, fix);

        private ActivityId NewId(string actor, string verb)
        {
            int number = numbers[actor] = numbers.GetValueOrDefault(actor) + 1;
            return new($"{actor}.{number:000}.{verb}");
        }

        private Airlock AirlockOf(AirlockId id) => scenario.Station.Airlocks.First(airlock => airlock.Id == id);

        private Gear GearOf(GearId id) => expander.gear[id];

        private Leg LegOf(LegId id) => expander.LegOf(id);

        private Site SiteOf(Leg leg) => scenario.Station.Sites.First(site => site.Id == leg.Site);

        /// <summary>Where one person has got to while their list is walked.</summary>
        private sealed class Walker(Person person)
        {
            public Person Person { get; } = person;
            public StandardLines? Lines { get; set; }
            public Airlock? Airlock { get; set; }
            public TetherLine? Line { get; set; }
            public EventNode? Last { get; set; }

            /// <summary>The last event that brought the person to another place.</summary>
            public EventNode? Arrival { get; set; }
            public SocketId? Socket { get; set; }
            public ArmStretch? Riding { get; set; }
            public HashSet<GearId> Carried { get; } = [];
            public bool Tail { get; set; }
            public bool TailBegun { get; set; }
            public bool CameIn { get; set; }

            /// <summary>How many entries of the list have been walked.</summary>
            public int Entries { get; set; }

            /// <summary>The first event of the entry that is walked now; null before it has one.</summary>
            public EventNode? Begin { get; set; }

            /// <summary>The first event of each entry of which nothing had happened, with the number of the entry.</summary>
            public List<(int Number, EventNode Node)> Begins { get; } = [];

            /// <summary>The stretches of carrying that ended with a restraint in a socket.</summary>
            public Dictionary<SocketId, CarryStretch> Plugged { get; } = [];
            public EventNode? Close { get; set; }
        }

        /// <summary>One stretch of carrying a thing: from the event that begins it to the one after which somebody else may have it.</summary>
        private sealed class CarryStretch(PersonId holder, EventNode from)
        {
            public PersonId Holder { get; } = holder;
            public EventNode From { get; } = from;
            public EventNode? To { get; set; }
        }

        /// <summary>One session of an arm: its events in order.</summary>
        private sealed class ArmStretch(PersonId rider, Arm arm, ArmMount mount, EventNode first)
        {
            public PersonId Rider { get; } = rider;
            public Arm Arm { get; } = arm;
            public ArmMount Mount { get; } = mount;
            public EventNode First { get; } = first;
            public EventNode Last { get; set; } = first;
            public PoseId Pose { get; set; } = mount.Pose;

            /// <summary>The legs that this pose was held for since the arm came there.</summary>
            public List<LegId> Since { get; } = [];
        }

        private sealed class Meeting(GripId at)
        {
            public GripId At { get; } = at;
            public List<(PersonId From, Gift Gift)> Gifts { get; } = [];
            public List<PersonId> People { get; } = [];
            public EventNode? Node { get; set; }
        }
    }
}
