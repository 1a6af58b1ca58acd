using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>A scenario as search needs it: everything by index, times in seconds, sets as bits. Built once, never changed.</summary>
internal sealed class SearchCase
{
    /// <summary>No limit.</summary>
    public const int Never = int.MaxValue / 4;

    /// <summary>Up to so many units, no hint is needed which of them are near each other.</summary>
    private const int FewUnits = 24;

    /// <summary>With more units than this, search cools long in few lanes.</summary>
    private const int ManyUnits = 32;

    /// <summary>Of how many near ones each unit knows.</summary>
    private const int MostNear = 6;

    public SearchCase(Scenario scenario, Expander expander)
    {
        Scenario = scenario;
        People = [.. scenario.Outside.Where(person => AirlockOf(scenario, person) is not null)];
        Airlocks = [.. People.Select(person => scenario.Station.Airlocks.IndexOf(AirlockOf(scenario, person)!))];
        GearIndex = [];
        Parcels = CollectParcels();
        Legs = [.. scenario.Legs];
        for (int i = 0; i < Legs.Length; i++) LegIndex[Legs[i].Id] = i;
        Places = CollectPlaces();
        for (int i = 0; i < Places.Length; i++) PlaceIndex[Places[i]] = i;

        Slower = WayTable.LoadClasses(scenario.Sizes);
        Lines = [.. People.Select((person, p) => expander.LinesOf(person, scenario.Station.Airlocks[Airlocks[p]]))];
        // Legs and tables ask nothing of each other: they are made side by side, and a first plan is there sooner.
        Task<LegData[]> data = Task.Run(() => Legs.Select(leg => new LegData(this, leg, expander)).ToArray());
        // People who move alike share their tables.
        Dictionary<StandardLines, WayTable> tables = Lines.Distinct().AsParallel().Select(lines => (lines, table: new WayTable(lines, scenario.Sizes, Places))).ToDictionary(one => one.lines, one => one.table);
        Tables = [.. Lines.Select(lines => tables[lines])];
        Dictionary<WayTable, PlaceWays> ways = tables.Values.AsParallel().Select(table => (table, ways: new PlaceWays(table, Places))).ToDictionary(one => one.table, one => one.ways);
        Ways = [.. Tables.Select(table => ways[table])];
        Seconds = [.. Tables.Select(table => Enumerable.Range(0, Slower.Length).Select(table.Seconds).ToArray())];
        Root = [.. Tables.Select(table => table.Root)];
        Width = [.. Tables.Select(table => table.Moorings.Count)];
        At = [.. Tables.Select(table => Places.Select(place => table.At(place).ToArray()).ToArray())];
        PlaceOfMooring = [.. Tables.Select(table => table.Moorings.Select(mooring => PlaceIndex[expander.Graph.GripAt(mooring.Line.Grip).Id]).ToArray())];
        HasTimedZones = Lines[0].Zones.Timed.Count > 0;
        Stows = [.. Enumerable.Range(0, Places.Length).Where(i => expander.Graph.GripAt(expander.Graph.IndexOf(Places[i])).Stow)];

        Task<Sweeps> sweeps = Task.Run(() => new Sweeps(this, expander.Graph));
        Data = data.GetAwaiter().GetResult();
        Units = CollectUnits();
        UnitOfLeg = new int[Legs.Length];
        for (int u = 0; u < Units.Length; u++)
            foreach (int leg in Units[u].Legs) UnitOfLeg[leg] = u;
        JobOfUnit = [.. Units.Select(unit => unit.Job)];
        JobOfLeg = [.. UnitOfLeg.Select(unit => Units[unit].Job)];
        Leavable = [.. scenario.Jobs.Select(job => job.Worth != Worth.Must)];
        DecisionFrom = scenario.Sortie.Decision?.Earliest.Seconds ?? Never;
        Conversations = scenario.Legs.Any(leg => leg.Steps.Any(step => step.Led)) && scenario.LimitOf("voice.crowded") is { Value.Dimension: Dimension.Count } crowd
            ? Math.Clamp((int)Math.Floor(crowd.Value.Value), 1, Units.Length) : 0;
        Pauses = PauseCase.Of(scenario);
        Turn = [.. People.Select((person, p) => scenario.Station.Airlocks[Airlocks[p]].Order.Where(id => People.Any(one => one.Id == id)).ToList().IndexOf(person.Id))];
        LatestJobs = [.. scenario.Jobs.Where(job => job.Latest is not null).Select(job => (job.Legs.Select(leg => LegIndex[leg.Id]).ToArray(), job.Latest!.Value.Seconds))];
        Before = CloseBefore();
        ArmData = [.. scenario.Arms.Select(arm => new ArmCase(this, arm, expander))];
        Near = Units.Length <= FewUnits ? [] : [.. Units.Select((unit, u) => Enumerable.Range(0, Units.Length).Where(v => v != u && Apart(unit, Units[v]) < Never).OrderBy(v => Apart(unit, Units[v])).Take(MostNear).ToArray())];
        NoLink = Closings.Join(scenario.Sky.NoLink);
        HighRadiation = Closings.Join(scenario.Sky.Radiation ?? []);
        MostRadiation = SecondsOf("radiation.high");
        Help = HelpCase.Of(this, expander.Graph, SecondsOf("return.help"));
        ReturnOne = SecondsOf("return.one");
        ReturnBoth = SecondsOf("return.both");
        ReturnArmless = SecondsOf("return.armless");
        PetLimit = SecondsOf("pet.limit");
        CutOff = [.. People.Select(person => person.Suit?.CutOff.Seconds ?? Never)];
        Shutdowns = [.. scenario.Consoles.SelectMany(console => console.Shutdowns.Select(shutdown => new ShutdownCase(scenario, console, shutdown, BleedWaits.Seconds(scenario, shutdown))))];
        CutsFirst = [.. Enumerable.Range(0, Shutdowns.Length).OrderBy(s => Shutdowns[s].Shutdown.CutsLink ? 0 : 1)];
        Charges = [.. scenario.Gear.Where(gear => gear.Charge is not null).Select(ChargeOf)];
        foreach (LegData leg in Data)
            for (int s = 0; s < Shutdowns.Length; s++)
                if (leg.Leg.Shutdowns.Contains(Shutdowns[s].Shutdown.Id)) leg.ShutdownMask |= 1 << s;
        foreach (LegData leg in Data)
        {
            leg.ClosedBy = ClosingLegs(leg.Leg);
            leg.Gos = GoCase.Of(this, leg.Leg);
        }
        Clocks = [.. scenario.Clocks.Select(clock => new ClockCase(this, clock))];
        Fluid = new(this);
        Troubles = [.. TroubleCase.Of(this)];
        Suits = SuitCase.Of(this);
        if (Suits is { } suits)
            foreach (LegData leg in Data) leg.Joules = suits.Joules(leg.Leg);
        Sweeps = sweeps.GetAwaiter().GetResult();
    }

    public Scenario Scenario { get; }
    public ImmutableArray<Person> People { get; }
    public ImmutableArray<int> Airlocks { get; }
    public ImmutableArray<Parcel> Parcels { get; }
    public Dictionary<GearId, int> GearIndex { get; }
    public ImmutableArray<Leg> Legs { get; }
    public Dictionary<LegId, int> LegIndex { get; } = [];
    public LegData[] Data { get; }
    public Unit[] Units { get; }
    public int[] UnitOfLeg { get; }

    public int[] JobOfUnit { get; }
    public int[] JobOfLeg { get; }

    /// <summary>By job, whether a plan is complete without it.</summary>
    public bool[] Leavable { get; }

    /// <summary>The earliest PET of a decision, s; <see cref="Never"/> when none is wished.</summary>
    public int DecisionFrom { get; }

    /// <summary>When gloves are looked over and people rest; null when neither is ever due.</summary>
    public PauseCase? Pauses { get; }

    /// <summary>By person, how many go out before by the same airlock.</summary>
    public int[] Turn { get; }

    /// <summary>How many people may be led from inside at once; 0 when nobody is led, or when nothing limits it.</summary>
    public int Conversations { get; }

    /// <summary>The jobs with a latest start: their legs, and that start, s of PET.</summary>
    public (int[] Legs, int Latest)[] LatestJobs { get; }

    /// <summary>Whether unit [a] must stand before unit [b].</summary>
    public bool[][] Before { get; }

    /// <summary>By unit, some that are done near it; none at all where units are few, of which search tries enough places without.</summary>
    public int[][] Near { get; }

    /// <summary>Whether units are so many that a few long coolings find more than many short ones.</summary>
    public bool HasMany => Units.Length > ManyUnits;

    public ImmutableArray<GripId> Places { get; }
    public Dictionary<GripId, int> PlaceIndex { get; } = [];
    public ImmutableArray<double> Slower { get; }
    public StandardLines[] Lines { get; }
    public WayTable[] Tables { get; }

    /// <summary>By person, how far places are.</summary>
    public PlaceWays[] Ways { get; }

    /// <summary>By person and load class, mooring to mooring, row after row.</summary>
    public int[][][] Seconds { get; }

    /// <summary>By person, the mooring at the airlock.</summary>
    public int[] Root { get; }

    /// <summary>Moorings a person.</summary>
    public int[] Width { get; }

    /// <summary>By person and place, the moorings there.</summary>
    public int[][][] At { get; }

    public int[][] PlaceOfMooring { get; }
    public bool HasTimedZones { get; }
    public int[] Stows { get; }
    public ArmCase[] ArmData { get; }
    public Sweeps Sweeps { get; }
    public ShutdownCase[] Shutdowns { get; }

    /// <summary>The shutdowns, those that cut the link first: the commands of the others must find a link.</summary>
    public int[] CutsFirst { get; }
    public Closings NoLink { get; }
    public ClockCase[] Clocks { get; }
    public int ReturnOne { get; }
    public int ReturnBoth { get; }
    public int ReturnArmless { get; }
    public int PetLimit { get; }

    /// <summary>What is done already; null for a plan from the beginning.</summary>
    public PlanSoFar? SoFar { get; set; }

    /// <summary>The plan to stay close to; null for none.</summary>
    public StayClose? StayClose { get; set; }

    /// <summary>When the station passes a region of high radiation.</summary>
    public Closings HighRadiation { get; }

    /// <summary>How long somebody may be outside then, s.</summary>
    public int MostRadiation { get; }

    /// <summary>Bringing somebody in; null where it is not held against a limit.</summary>
    public HelpCase? Help { get; }

    /// <summary>What is foreseen to go wrong.</summary>
    public TroubleCase[] Troubles { get; }

    public int[] CutOff { get; }
    public FluidCase Fluid { get; }

    /// <summary>What bodies burn and suits hold; null where no supply is held against a limit.</summary>
    public SuitCase? Suits { get; }

    /// <summary>By battery tool, what may be drawn from it, and what each job draws.</summary>
    public (double Most, double[] Jobs)[] Charges { get; }

    public static Airlock? AirlockOf(Scenario scenario, Person person) =>
        scenario.Station.Airlocks.FirstOrDefault(airlock => airlock.Order.Contains(person.Id));

    /// <summary>The legs that close the connectors which a leg leaves bare: what it wants shut down stays off until one of them has.</summary>
    private int[] ClosingLegs(Leg leg)
    {
        HashSet<int> closing = [];
        foreach (PowerLine line in Scenario.Station.PowerLines.Where(line => LeftBy(leg, line) is { } left && line.IsExposedIn(left)))
            closing.UnionWith(Enumerable.Range(0, Legs.Length).Where(l => LeftBy(Legs[l], line) is { } left && !line.IsExposedIn(left)));
        return [.. closing];
    }

    /// <summary>The state in which a leg leaves a connector; null when it does not change it.</summary>
    private static string? LeftBy(Leg leg, PowerLine line) =>
        leg.Steps.SelectMany(step => step.Makes).OfType<MakeFeature>().LastOrDefault(make => line.IsConnector && make.State.Feature == line.Closed!.Feature)?.State.State;

    private (double Most, double[] Jobs) ChargeOf(Gear tool) => (
        tool.Charge!.Full - tool.Charge.Keep,
        [.. Scenario.Jobs.Select(job => job.Legs.SelectMany(leg => leg.Steps).Sum(step => ToolUse.Of(tool, step, Scenario.Bolts)))]);

    private int SecondsOf(string rule) => Scenario.LimitOf(rule) is { Value.Dimension: Dimension.Time } limit ? (int)Math.Floor(limit.Value.Value) : Never;

    /// <summary>What moves as one piece: everything that does not begin inside a bag.</summary>
    private ImmutableArray<Parcel> CollectParcels()
    {
        ImmutableArray<Parcel>.Builder parcels = ImmutableArray.CreateBuilder<Parcel>();
        HashSet<GearId> moved = [.. Scenario.Legs.SelectMany(leg => leg.With.Concat(leg.PicksUp))];
        foreach (Gear gear in Scenario.Gear)
        {
            bool loose = gear.Start.Kind is LocationKind.Inside or LocationKind.Grip or LocationKind.Socket;
            if (!loose && !moved.Contains(gear.Id)) continue;
            GearIndex[gear.Id] = parcels.Count;
            parcels.Add(new(gear, TotalMass(gear)));
        }
        if (parcels.Count > 64) throw new NotSupportedException($"{parcels.Count} things are carried; search holds at most 64");
        return parcels.ToImmutable();
    }

    private double TotalMass(Gear gear) =>
        gear.Mass * gear.Count + Scenario.Gear.Where(inner => inner.Start == new Location(LocationKind.Bag, gear.Id.Value)).Sum(TotalMass);

    private ImmutableArray<GripId> CollectPlaces() =>
    [
        .. Scenario.Station.Airlocks.Select(airlock => airlock.Grip)
            .Concat(Scenario.Station.Sites.Where(site => site.Grip is not null).Select(site => site.Grip!.Value))
            .Concat(Scenario.Station.Sockets.Select(socket => socket.Grip))
            .Concat(Scenario.Station.Grips.Where(grip => grip.Stow).Select(grip => grip.Id))
            .Concat(Scenario.Arms.SelectMany(arm => arm.Mounts).Select(mount => mount.Grip))
            .Concat(Scenario.Gear.Where(gear => gear.Start.Kind == LocationKind.Grip).Select(gear => new GripId(gear.Start.Name)))
            .Concat(Scenario.Gear.Where(gear => gear.End is { Kind: LocationKind.Grip }).Select(gear => new GripId(gear.End!.Value.Name)))
            .Distinct(),
    ];

    private Unit[] CollectUnits()
    {
        List<Unit> units = [];
        for (int j = 0; j < Scenario.Jobs.Length; j++)
        {
            HashSet<string> grouped = [];
            foreach (Leg leg in Scenario.Jobs[j].Legs)
            {
                if (leg.Together.Length > 0 && !grouped.Add(leg.Together)) continue;
                int[] legs = leg.Together.Length == 0
                    ? [LegIndex[leg.Id]]
                    : [.. Scenario.Jobs[j].Legs.Where(other => other.Together == leg.Together).Select(other => LegIndex[other.Id])];
                units.Add(new(j, legs, Assignments(legs), legs.Min(l => Legs[l].Latest?.Seconds ?? Never)));
            }
        }
        return [.. units];
    }

    /// <summary>Every way to give the legs of one unit to different people who may do them.</summary>
    private int[][] Assignments(int[] legs)
    {
        List<int[]> found = [];
        void Extend(int[] chosen, int role)
        {
            if (role == legs.Length)
            {
                found.Add([.. chosen]);
                return;
            }
            for (int p = 0; p < People.Length; p++)
                if (Data[legs[role]].MayDo[p] && !chosen.AsSpan(0, role).Contains(p))
                {
                    chosen[role] = p;
                    Extend(chosen, role + 1);
                }
        }
        Extend(new int[legs.Length], 0);
        return [.. found];
    }

    /// <summary>Seconds between the sites of two units, both on the structure or both on one arm.</summary>
    private int Apart(Unit a, Unit b)
    {
        LegData one = Data[a.Legs[0]], other = Data[b.Legs[0]];
        return one.Arm != other.Arm ? Never : one.Arm >= 0 ? ArmData[one.Arm].Rides[one.Pose][other.Pose] : Ways[0].Between(0, one.Place, other.Place);
    }

    private bool[][] CloseBefore()
    {
        bool[][] before = [.. Units.Select(_ => new bool[Units.Length])];
        for (int u = 0; u < Units.Length; u++)
            foreach (int leg in Units[u].Legs)
                foreach (Precedence precedence in Legs[leg].After)
                    before[UnitOfLeg[LegIndex[precedence.Leg]]][u] = true;
        for (int k = 0; k < Units.Length; k++)
            for (int a = 0; a < Units.Length; a++)
                if (before[a][k])
                    for (int b = 0; b < Units.Length; b++) before[a][b] |= before[k][b];
        return before;
    }

    /// <summary>Legs that are done at one moment, or one leg.</summary>
    /// <param name="Job">Index of the job.</param>
    /// <param name="Legs">Indices of the legs, one a role.</param>
    /// <param name="Options">Ways to give the roles to people.</param>
    /// <param name="Latest">No start after this without a finding, s of PET.</param>
    internal sealed record Unit(int Job, int[] Legs, int[][] Options, int Latest);

    /// <summary>A thing that moves as one piece, and the mass of all that is in it at the start, kg.</summary>
    internal sealed record Parcel(Gear Gear, double Mass)
    {
        public bool Fits(CarryPoint point) => point.Sizes.Contains(Gear.Size) && Mass <= point.MaxMass;
    }
}

/// <summary>A shutdown with its two commands.</summary>
internal sealed class ShutdownCase(Scenario scenario, GroundConsole console, Shutdown shutdown, int wait)
{
    /// <summary>How long it must be off before a leg that wants it off, s.</summary>
    public int Wait { get; } = wait;

    public GroundConsole Console { get; } = console;
    public Shutdown Shutdown { get; } = shutdown;
    public Command Off { get; } = console.Commands.First(command => command.Id == shutdown.Off);
    public Command On { get; } = console.Commands.First(command => command.Id == shutdown.On);

    /// <summary>Whether it makes a joint, jets or an antenna safe: then it lasts from before the ride to a leg to after the ride away.</summary>
    public bool GuardsRides { get; } = HazardCommands.Guards(scenario, console, shutdown);

    public int Longest { get; } = shutdown.Longest?.Seconds ?? SearchCase.Never;
}

/// <summary>A leg by index.</summary>
internal sealed class LegData
{
    public LegData(SearchCase all, Leg leg, Expander expander)
    {
        Leg = leg;
        Scenario scenario = all.Scenario;
        Site site = scenario.Station.Sites.First(candidate => candidate.Id == leg.Site);
        Length = leg.Length.Seconds;
        Pieces = leg.MayWait ? [.. leg.Steps.Select(step => step.Time.Likely.Seconds)] : [leg.Length.Seconds];
        StepEnds = new int[leg.Steps.Length];
        for (int i = 0, end = 0; i < StepEnds.Length; i++) StepEnds[i] = end += leg.Steps[i].Time.Likely.Seconds;
        Abort = leg.Steps.Max(step => step.Abort.Time.Seconds);
        Voice = VoiceStretch.Of(leg);
        Gloves = GlovesInLeg.Of(leg);
        MayDo = [.. all.People.Select(person => (leg.Who.IsEmpty || leg.Who.Contains(person.Id)) && leg.Training.All(person.TrainedFor.Contains)
            && !SuitCase.IsTooHard(scenario, person, leg))];
        if (leg.Footing == Footing.Arm)
        {
            Arm = scenario.Arms.IndexOf(scenario.Arms.First(arm => arm.Id == site.Arm));
            Pose = scenario.Arms[Arm].Poses.IndexOf(scenario.Arms[Arm].Poses.First(pose => pose.Id == site.Pose));
        }
        else if (leg.Footing == Footing.Restraint)
        {
            Restraint = all.GearIndex[leg.Restraint!.Value];
            Socket = scenario.Station.Sockets.IndexOf(scenario.Station.Sockets.First(socket => socket.Id == leg.Socket));
            Place = all.PlaceIndex[scenario.Station.Sockets[Socket].Grip];
        }
        else
            Place = all.PlaceIndex[site.Grip!.Value];
        With = Mask(all, leg.With);
        PicksUp = Mask(all, leg.PicksUp);
        LeavesBehind = Mask(all, leg.LeavesBehind);
        foreach (GearId gear in leg.LeavesBehind)
            LeavesAt[all.GearIndex[gear]] = leg.Steps.SelectMany(step => step.Makes).OfType<MoveGear>().Last(move => move.Gear == gear).To is { Kind: LocationKind.Grip } to
                ? all.PlaceIndex[new(to.Name)]
                : -1;
        IEnumerable<PetInterval> atSite = Place < 0 ? [] : all.Lines[0].Zones.ClosedAt(expander.Graph.IndexOf(all.Places[Place]));
        Closed = Closings.Of(scenario, leg, atSite);
        After = [.. leg.After.Select(precedence => (all.LegIndex[precedence.Leg], precedence.Least.Seconds, precedence.Most?.Seconds ?? SearchCase.Never))];
    }

    public Leg Leg { get; }
    public int Length { get; }

    /// <summary>What its steps take above rest, J of factor one; 0 where no supply is held against a limit.</summary>
    public double Joules { get; set; }

    /// <summary>What is done without a gap, in order: the whole leg, or each step of one that may wait between its steps; s.</summary>
    public int[] Pieces { get; }

    /// <summary>The longest break-off of its steps.</summary>
    public int Abort { get; }

    /// <summary>When it is led from inside; null for never.</summary>
    public VoiceStretch? Voice { get; }

    /// <summary>The checks of gloves in it, and its rough steps.</summary>
    public GlovesInLeg Gloves { get; }

    public bool[] MayDo { get; }

    /// <summary>The place where the person stands; -1 on an arm.</summary>
    public int Place { get; } = -1;

    public int Arm { get; } = -1;
    public int Pose { get; } = -1;
    public int Restraint { get; } = -1;
    public int Socket { get; } = -1;
    public ulong With { get; }
    public ulong PicksUp { get; }
    public ulong LeavesBehind { get; }

    /// <summary>Where a parcel left behind hangs afterwards; -1 when it has become part of the site or of a bag.</summary>
    public Dictionary<int, int> LeavesAt { get; } = [];

    public Closings Closed { get; }
    public (int Leg, int Least, int Most)[] After { get; }
    public int ShutdownMask { get; set; }

    /// <summary>When each step ends, s after the start of the leg; of legs that do not wait between steps.</summary>
    public int[] StepEnds { get; }

    /// <summary>Legs that close what this one leaves bare.</summary>
    public int[] ClosedBy { get; set; } = [];

    /// <summary>The GOs that it needs.</summary>
    public GoCase[] Gos { get; set; } = [];

    private static ulong Mask(SearchCase all, IEnumerable<GearId> gear) => gear.Aggregate(0UL, (mask, id) => mask | 1UL << all.GearIndex[id]);
}

/// <summary>An arm by index.</summary>
internal sealed class ArmCase
{
    public ArmCase(SearchCase all, Arm arm, Expander expander)
    {
        Arm = arm;
        Index = all.Scenario.Arms.IndexOf(arm);
        int poses = arm.Poses.Length;
        Rides = new int[poses][];
        for (int a = 0; a < poses; a++)
        {
            Rides[a] = new int[poses];
            for (int b = 0; b < poses; b++)
                Rides[a][b] = a == b ? 0 : arm.RideBetween(arm.Poses[a].Id, arm.Poses[b].Id) is { } ride ? arm.TimeOf(ride).Seconds : SearchCase.Never;
        }
        Starts = [.. arm.Poses.Select(a => arm.Poses.Select(b => arm.RideBetween(a.Id, b.Id) is { } ride
            && RideStarts.Of(all.Scenario, all.Lines[0].Zones, expander.Graph, arm, ride) is { Any: true } starts ? starts : null).ToArray())];
        Start = arm.Poses.IndexOf(arm.Poses.First(pose => pose.Id == arm.Start));
        MountPlaces = [.. arm.Mounts.Select(mount => all.PlaceIndex[mount.Grip])];
        MountPoses = [.. arm.Mounts.Select(mount => arm.Poses.IndexOf(arm.Poses.First(pose => pose.Id == mount.Pose)))];
        ClimbHome = [.. all.People.Select((person, p) => arm.Poses.Select(pose => all.Slower.Select(slower => Climb(pose, p, slower)).ToArray()).ToArray())];

        int Climb(Pose pose, int p, double slower) => pose.ClimbTo is { } grip
            ? pose.Climb.Seconds + WayHome.Seconds(expander.LinesOf(all.People[p], all.Scenario.Station.Airlocks[all.Airlocks[p]]), grip, slower)
            : SearchCase.Never;
    }

    public Arm Arm { get; }
    public int Index { get; }
    public int[][] Rides { get; }
    public int Start { get; }

    /// <summary>By two poses, when a ride between them may begin with somebody on the arm; null for any time.</summary>
    public RideStarts?[][] Starts { get; }
    public int[] MountPlaces { get; }
    public int[] MountPoses { get; }

    /// <summary>By person, pose and load class: climbing down and home, with the arm stopped.</summary>
    public int[][][] ClimbHome { get; }
}
