using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Every variable of a scenario: what its states are, where it starts, and at which index play finds it.</summary>
internal sealed class Register
{
    private readonly List<Variable> variables = [];
    private readonly List<int> start = [];
    private readonly List<Dictionary<string, int>> stateIndex = [];
    private readonly Dictionary<Spot, int> spotIndex = [];

    public ImmutableArray<Variable> Variables { get; }

    public ImmutableArray<int> Start { get; }

    /// <summary>Every spot where a thing can be; a gear variable's value is an index into this list.</summary>
    public ImmutableArray<Spot> Spots { get; }

    public Dictionary<PersonId, PersonVariables> People { get; } = [];
    public Dictionary<FeatureId, int> Features { get; } = [];
    public Dictionary<GearId, int> GearPlace { get; } = [];

    /// <summary>Every thing with the variable of its place, in the order of the scenario.</summary>
    public ImmutableArray<(Gear Gear, int Place)> GearPlaces { get; }

    public Dictionary<GearId, int> StockCount { get; } = [];
    public Dictionary<GearId, int> Setting { get; } = [];

    /// <summary>What is left in battery tools, in thousandths of a turn or use.</summary>
    public Dictionary<GearId, int> ToolCharge { get; } = [];

    /// <summary>Turns that fasteners are in, in thousandths.</summary>
    public Dictionary<BoltId, int> BoltTurns { get; } = [];
    public Dictionary<SocketId, int> SocketUser { get; } = [];
    public Dictionary<ArmId, int> ArmPose { get; } = [];
    public Dictionary<ArmId, int> ArmRider { get; } = [];
    public Dictionary<ArmId, int> ArmBrakes { get; } = [];
    public Dictionary<ShutdownId, int> Shutdowns { get; } = [];
    public Dictionary<ZoneId, int> Zones { get; } = [];

    /// <summary>Every zone with the variable of its state, in the order of the scenario.</summary>
    public ImmutableArray<(Zone Zone, int Variable)> ZoneStates { get; }

    public Dictionary<LegId, int> Legs { get; } = [];
    public Dictionary<AirlockId, int> Hatch { get; } = [];
    public Dictionary<string, LineVariables> FluidLines { get; } = [];

    /// <summary>The features of valves and disconnects, and the variables of the lines between them.</summary>
    public HashSet<int> FluidVariables { get; } = [];

    /// <summary>Whether anything can spill. Where nothing can, nothing has a variable for it.</summary>
    public bool Spills { get; private set; }

    /// <summary>Whether a spill has soiled each person outside.</summary>
    public Dictionary<PersonId, int> PersonSoil { get; } = [];

    /// <summary>Whether a spill has soiled each thing.</summary>
    public Dictionary<GearId, int> GearSoil { get; } = [];

    /// <summary>How far the state of a switch is known to the crew.</summary>
    public Dictionary<FeatureId, int> Seen { get; } = [];

    public Dictionary<NodeId, int> Capacitors { get; } = [];

    /// <summary>The features of switches and connectors.</summary>
    public HashSet<int> NetFeatures { get; } = [];

    /// <summary>How often the GO of a command was read.</summary>
    public Dictionary<CommandId, int> Gos { get; } = [];

    /// <summary>Whether something shut down is known to be on: off from the end of the command that turns it off, on once it is seen to be.</summary>
    public Dictionary<ShutdownId, int> Known { get; } = [];

    public int Light { get; }

    public int Link { get; }

    /// <summary>Whether the station passes a region of high radiation; low where nobody has said.</summary>
    public int Radiation { get; }

    /// <summary>How the Sun stands to the worksites of which that is known.</summary>
    public ImmutableArray<(SiteLight Site, int Variable)> SiteLights { get; }

    /// <summary>Whether those outside, inside and at the arm hear each other: apart from the link to the ground.</summary>
    public int Voice { get; }

    /// <summary>How the Sun can stand to a worksite, by its number.</summary>
    public static ImmutableArray<string> Suns { get; } = [.. Enum.GetNames<SunAtSite>().Select(sun => sun.ToLowerInvariant())];

    /// <summary>Of a timeline only this much counts: who is in it, and to what restraints are set.</summary>
    private readonly ImmutableArray<Person> people;
    private readonly ImmutableArray<string> settings;

    /// <summary>The variables of a scenario as a timeline names them; one register for all timelines that name the same.</summary>
    public static Register Of(Lookup lookup, Scenario scenario, Timeline timeline)
    {
        HashSet<PersonId> named = [];
        foreach (Activity activity in timeline.Activities) named.UnionWith(activity.People);
        ImmutableArray<Person> people = [.. scenario.People.Where(person => person.Role == Role.Outside || named.Contains(person.Id))];
        ImmutableArray<string> settings =
        [
            Places.None,
            .. scenario.Legs.Select(leg => leg.Setting ?? "").Concat(timeline.Activities.OfType<Plug>().Select(plug => plug.Setting))
                .Where(setting => setting.Length > 0 && setting != Places.None).Distinct().Order(StringComparer.Ordinal),
        ];
        foreach (Register known in lookup.Registers)
            if (known.people.AsSpan().SequenceEqual(people.AsSpan()) && known.settings.AsSpan().SequenceEqual(settings.AsSpan())) return known;
        Register made = new(scenario, people, settings);
        lookup.Registers = [made, .. lookup.Registers.Take(7)];
        return made;
    }

    private Register(Scenario scenario, ImmutableArray<Person> people, ImmutableArray<string> settings)
    {
        (this.people, this.settings) = (people, settings);
        Station station = scenario.Station;

        AddPeople(scenario, people);
        Spots = SpotsOf(scenario, people);
        for (int i = 0; i < Spots.Length; i++) spotIndex[Spots[i]] = i;
        AddGear(scenario);
        GearPlaces = [.. scenario.Gear.Select(gear => (gear, GearPlace[gear.Id]))];

        StateList nobodyOrSomebody = new([Places.None, .. people.Select(person => person.Id.Value)]);
        foreach (Socket socket in station.Sockets)
            SocketUser[socket.Id] = Add("socket", socket.Id.Value, "user", nobodyOrSomebody, Places.None);
        foreach (Arm arm in scenario.Arms)
        {
            ArmPose[arm.Id] = Add("arm", arm.Id.Value, "pose", new([.. arm.Poses.Select(pose => pose.Id.Value), "moving"]), arm.Start.Value);
            ArmRider[arm.Id] = Add("arm", arm.Id.Value, "rider", nobodyOrSomebody, Places.None);
            ArmBrakes[arm.Id] = Add("arm", arm.Id.Value, "brakes", new(["on", "off"]), "on");
        }
        foreach (Feature feature in station.Features)
            Features[feature.Id] = Add("feature", feature.Id.Value, "state", new(feature.States), feature.Start);
        foreach (PowerLine line in station.PowerLines)
            if (line.Closed is { } closed && Features.TryGetValue(closed.Feature, out int variable)) NetFeatures.Add(variable);
        foreach (Feature feature in station.Features)
            if (station.PowerLines.Any(line => line.Controller is not null && line.Closed?.Feature == feature.Id))
                Seen[feature.Id] = Add("switch", feature.Id.Value, "sight", new(SwitchSight.All), SwitchSight.AtStart(feature));
        foreach (Capacitor capacitor in station.Capacitors ?? [])
            Capacitors[capacitor.Node] = Add("capacitor", capacitor.Node.Value, "charge", new([Charge.Fed, Charge.CutOff]), Charge.Fed);
        StateList onOff = new(["on", "going off", "off", "going on"]);
        foreach (Shutdown shutdown in scenario.Consoles.SelectMany(console => console.Shutdowns))
        {
            Shutdowns[shutdown.Id] = Add("shutdown", shutdown.Id.Value, "state", onOff, "on");
            Known[shutdown.Id] = Add("shutdown", shutdown.Id.Value, "known", new(["on", "off"]), "on");
        }
        foreach (Command command in scenario.Consoles.SelectMany(console => console.Commands).Where(command => command.Go is not null))
            Gos[command.Id] = AddCount("command", command.Id.Value, "go", 0);
        StateList openClosed = new(["open", "closed"]);
        foreach (Zone zone in station.Zones)
            Zones[zone.Id] = Add("zone", zone.Id.Value, "state", openClosed, "open");
        foreach (Airlock airlock in station.Airlocks)
            Hatch[airlock.Id] = Add("airlock", airlock.Id.Value, "hatch", openClosed, "closed");
        StateList progress = new(["not begun", "under way", "done"]);
        foreach (Leg leg in scenario.Legs)
            Legs[leg.Id] = Add("leg", leg.Id.Value, "progress", progress, "not begun");
        foreach (Bolt bolt in scenario.Bolts) BoltTurns[bolt.Id] = AddCount("bolt", bolt.Id.Value, "turns", ToolDeeds.Thousandths(bolt.Start));
        Light = Add("sky", "sky", "light", new(["day", "twilight", "night"]), "day");
        Link = Add("sky", "sky", "link", new(["link", "none"]), "link");
        Voice = Add("sky", "sky", "voice", new(["voice", "none"]), "voice");
        if (scenario.Sky.Radiation is not null) Radiation = Add("sky", "sky", "radiation", new(["low", "high"]), "low");
        StateList sunStates = new(Suns);
        Dictionary<SiteId, int> suns = [];
        foreach (SiteLight site in scenario.Sky.Sites) suns[site.Site] = Add("site", site.Site.Value, "light", sunStates, "none");
        AddFluid(scenario);
        SiteLights = [.. scenario.Sky.Sites.Select(site => (site, suns[site.Site]))];
        ZoneStates = [.. station.Zones.Select(zone => (zone, Zones[zone.Id]))];
        Variables = [.. variables];
        Start = [.. start];
    }

    private void AddFluid(Scenario scenario)
    {
        StateList states = new([LineStates.Fed, LineStates.Shut, LineStates.Known]), fills = new([LineStates.Full, LineStates.Vented]),
            joints = new([LineStates.Sound, LineStates.Disturbed]), soil = new([SoilDeeds.Clean, SoilDeeds.Soiled]);
        foreach (FluidLine line in scenario.Station.FluidLines)
            FluidLines[line.Name] = new(Add("line", line.Name, "state", states, LineStates.Shut),
                Add("line", line.Name, "fill", fills, LineStates.Full), Add("line", line.Name, "joints", joints, LineStates.Sound));
        foreach (FeatureId fitting in scenario.Station.Valves.Select(valve => valve.Feature).Concat(scenario.Station.Disconnects.Select(one => one.Feature)))
            if (Features.TryGetValue(fitting, out int variable)) FluidVariables.Add(variable);
        foreach (LineVariables line in FluidLines.Values) FluidVariables.UnionWith([line.State, line.Fill]);
        if (scenario.Station.Disconnects.IsEmpty) return;
        Spills = true;
        foreach (Person person in people) PersonSoil[person.Id] = Add("person", person.Id.Value, "soil", soil, SoilDeeds.Clean);
        foreach (Gear gear in scenario.Gear) GearSoil[gear.Id] = Add("gear", gear.Id.Value, "soil", soil, SoilDeeds.Clean);
    }

    /// <summary>The index of a state of a variable.</summary>
    public int StateOf(int variable, string state) => stateIndex[variable].TryGetValue(state, out int index)
        ? index
        : throw new ArgumentException($"'{variables[variable].Name}' has no state '{state}'; it has {string.Join(", ", variables[variable].States)}");

    /// <summary>The value of a gear variable for a spot.</summary>
    public int ValueOf(Spot spot) => spotIndex.TryGetValue(spot, out int index)
        ? index
        : throw new ArgumentException($"the scenario has no place '{spot}' where gear could be");

    private void AddPeople(Scenario scenario, ImmutableArray<Person> people)
    {
        StateList places = new([
            Places.Inside,
            .. scenario.Station.Grips.Select(grip => Places.At(grip.Id)),
            .. scenario.Arms.SelectMany(arm => arm.Poses.Select(pose => Places.At(arm.Id, pose.Id))),
            .. scenario.Arms.Select(arm => Places.MovingOn(arm.Id))]);
        StateList footings = new([
            Places.Free, Places.BodyTether,
            .. scenario.Station.Sockets.Select(socket => Places.In(socket.Id)),
            .. scenario.Arms.Select(arm => Places.On(arm.Id))]);
        StateList anchors = new([
            Places.None,
            .. scenario.Station.Grips.Select(grip => Places.At(grip.Id)),
            .. scenario.Arms.Select(arm => Places.On(arm.Id))]);
        StateList carried = new([Places.None, .. scenario.Gear.Select(gear => gear.Id.Value)]);
        foreach (Person person in people)
        {
            string name = person.Id.Value;
            People[person.Id] = new PersonVariables(
                Place: Add("person", name, "place", places, Places.Inside),
                Footing: Add("person", name, "footing", footings, Places.Free),
                Anchor: Add("person", name, "anchor", anchors, Places.None),
                Tether: AddCount("person", name, "tether", 0),
                Reels: AddCount("person", name, "reels", 0),
                Hooks: AddCount("person", name, "hooks", 0),
                Carry: person.CarryPoints.ToDictionary(
                    point => point.Id, point => Add("person", name, $"carry {point.Id}", carried, Places.None)));
        }
    }

    private static ImmutableArray<Spot> SpotsOf(Scenario scenario, ImmutableArray<Person> people) =>
    [
        Spot.Inside, Spot.Spent,
        .. scenario.Station.Grips.Select(grip => Spot.At(grip.Id)),
        .. scenario.Gear.Where(gear => gear.Kind == GearKind.Bag).Select(bag => new Spot(SpotKind.Bag, bag.Id.Value)),
        .. people.SelectMany(person => person.CarryPoints.Select(point => Spot.On(person.Id, point.Id))),
        .. people.Select(person => Spot.InHands(person.Id)),
        .. scenario.Station.Sockets.Select(socket => Spot.In(socket.Id)),
        .. scenario.Station.Sites.Select(site => new Spot(SpotKind.Site, site.Id.Value)),
        .. scenario.Arms.Select(arm => new Spot(SpotKind.Arm, arm.Id.Value)),
    ];

    private void AddGear(Scenario scenario)
    {
        StateList places = new([.. Spots.Select(spot => spot.ToString())]);
        StateList set = new(settings);
        foreach (Gear gear in scenario.Gear)
        {
            Spot spot = StartOf(gear);
            int variable = Add("gear", gear.Id.Value, "place", places, spot.ToString());
            GearPlace[gear.Id] = variable;
            if (spot.Kind == SpotKind.Carry)
            {
                int point = People[new PersonId(spot.Name)].Carry[new CarryPointId(spot.Carry)];
                start[point] = StateOf(point, gear.Id.Value);
            }
            if (gear.Kind == GearKind.Stock) StockCount[gear.Id] = AddCount("gear", gear.Id.Value, "count", gear.Count);
            if (gear.Charge is { } charge) ToolCharge[gear.Id] = AddCount("gear", gear.Id.Value, "charge", (int)Math.Floor(charge.Full * 1000 + 1e-6));
            if (gear.Kind == GearKind.Restraint) Setting[gear.Id] = Add("gear", gear.Id.Value, "setting", set, Places.None);
        }
    }

    /// <summary>A thing that starts on a person hangs on the first free carry point that takes its size, or else is in the hands.</summary>
    private Spot StartOf(Gear gear)
    {
        if (gear.Start.Kind != LocationKind.Person) return SpotOf(gear.Start);
        Person? person = people.FirstOrDefault(one => one.Id.Value == gear.Start.Name)
            ?? throw new ArgumentException($"gear '{gear.Id}' starts on '{gear.Start.Name}', who does not go outside");
        foreach (CarryPoint point in person.CarryPoints)
            if (point.Sizes.Contains(gear.Size) && start[People[person.Id].Carry[point.Id]] == 0) return Spot.On(person.Id, point.Id);
        return Spot.InHands(person.Id);
    }

    /// <summary>The spot that a file's location means; a location on a person has no one spot, because the carry point is not said.</summary>
    public static Spot SpotOf(Location location) => location.Kind switch
    {
        LocationKind.Inside => Spot.Inside,
        LocationKind.Spent => Spot.Spent,
        LocationKind.Grip => new(SpotKind.Grip, location.Name),
        LocationKind.Bag => new(SpotKind.Bag, location.Name),
        LocationKind.Socket => new(SpotKind.Socket, location.Name),
        LocationKind.Site => new(SpotKind.Site, location.Name),
        LocationKind.Arm => new(SpotKind.Arm, location.Name),
        _ => throw new ArgumentException($"'{location}' does not name one spot"),
    };

    private int Add(string kind, string subject, string aspect, StateList states, string value)
    {
        variables.Add(new Variable(NameOf(kind, subject, aspect), subject, aspect, states.Names));
        stateIndex.Add(states.Index);
        start.Add(0);
        start[^1] = StateOf(variables.Count - 1, value);
        return variables.Count - 1;
    }

    private int AddCount(string kind, string subject, string aspect, int value)
    {
        variables.Add(new Variable(NameOf(kind, subject, aspect), subject, aspect, []));
        stateIndex.Add([]);
        start.Add(value);
        return variables.Count - 1;
    }

    private static string NameOf(string kind, string subject, string aspect) => kind == subject ? $"{kind} {aspect}" : $"{kind} {subject} {aspect}";

    /// <summary>States with their index, shared by every variable that has the same states.</summary>
    private sealed class StateList(ImmutableArray<string> names)
    {
        public ImmutableArray<string> Names { get; } = names;

        public Dictionary<string, int> Index { get; } = names.Select((name, index) => (name, index)).ToDictionary(pair => pair.name, pair => pair.index);
    }
}

/// <summary>The indexes of one person's variables. Tether is counted in millimetres paid out of the reel in use.</summary>
internal sealed record PersonVariables(
    int Place, int Footing, int Anchor, int Tether, int Reels, int Hooks, Dictionary<CarryPointId, int> Carry);
