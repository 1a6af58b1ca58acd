using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>The state of everything at one moment of play. Whoever reads or writes a variable is noted, so that clashes and watchers
/// follow from what is really done, and no list of them can be forgotten.</summary>
internal sealed class World
{
    private readonly int[] values;
    private readonly HashSet<PersonId> shown = [];
    private readonly Pet?[] changedAt;
    private List<int>? reads;
    private Action<int>? written;

    /// <summary>What each person carries, while nothing has been moved since it was looked at.</summary>
    private readonly Dictionary<PersonId, Load> carried = [];

    public World(Scenario scenario, Timeline timeline)
    {
        Scenario = scenario;
        Book = WayBook.Borrow(scenario);
        Lookup = Book.Lookup;
        Register = Register.Of(Lookup, scenario, timeline);
        Trouble = timeline.Trouble;
        values = [.. Register.Start];
        changedAt = new Pet?[values.Length];
        foreach (PersonId person in Register.People.Keys) Lines[person] = new TetherLine(Book.Nothing);
        Net = new PowerNet(scenario.Station, feature => State(FeatureOf(feature)));
        Fluid = new FluidNet(this);
    }

    public Scenario Scenario { get; }

    public Lookup Lookup { get; }

    /// <summary>Ways that are known of the scenario; borrowed for this play.</summary>
    public WayBook Book { get; }

    public Register Register { get; }

    public ClockTimes Times => Lookup.Times;

    /// <summary>The step that takes another time than planned; null for none.</summary>
    public Trouble? Trouble { get; }

    /// <summary>The moment that is played.</summary>
    public Pet Now { get; set; }

    /// <summary>The power net as its switches and connectors are now.</summary>
    public PowerNet Net { get; }

    /// <summary>Whether a switch or connector has changed since the charge of capacitors was looked at.</summary>
    public bool NetChanged { get; set; } = true;

    /// <summary>Whether anything that the fluid lines follow from, they themselves among it, has changed since they were looked at.</summary>
    public bool FluidChanged { get; set; } = true;

    /// <summary>The capacitors that nothing feeds.</summary>
    public Dictionary<NodeId, Bleeding> Bleeding { get; } = [];

    /// <summary>The commands under way that have had a link from their start until now.</summary>
    public HashSet<ActivityId> SeenSoFar { get; } = [];

    /// <summary>When the last reading of each command's GO began.</summary>
    public Dictionary<CommandId, Pet> GoReadFrom { get; } = [];

    public FluidNet Fluid { get; }

    /// <summary>When each soiled person and thing was last soiled, by its variable.</summary>
    public Dictionary<int, Pet> SoiledAt { get; } = [];

    /// <summary>Each person's tether on the structure. It stays there while that person rides an arm.</summary>
    public Dictionary<PersonId, TetherLine> Lines { get; } = [];

    /// <summary>The pose from which each rider got on, and so gets off.</summary>
    public Dictionary<PersonId, ArmMount> MountedAt { get; } = [];

    /// <summary>The airlock each person came out of.</summary>
    public Dictionary<PersonId, AirlockId> OutOf { get; } = [];

    /// <summary>When each leg last ended a step, to see that its steps follow without a gap.</summary>
    public Dictionary<LegId, (int Steps, Pet End, PersonId By)> StepsDone { get; } = [];

    /// <summary>The values now, for the record.</summary>
    public ReadOnlySpan<int> Values => values;

    /// <summary>Looks without being noted: for scanning and for words, never for deciding.</summary>
    public int Peek(int variable) => values[variable];

    public int Read(int variable)
    {
        Note(variable);
        return values[variable];
    }

    /// <summary>Little is read at once: looking it through costs less than a set.</summary>
    private void Note(int variable)
    {
        if (reads is not null && !reads.Contains(variable)) reads.Add(variable);
    }

    public void Write(int variable, int value)
    {
        written?.Invoke(variable);
        if (values[variable] != value)
        {
            changedAt[variable] = Now;
            NetChanged |= Register.NetFeatures.Contains(variable);
            FluidChanged |= Register.FluidVariables.Contains(variable);
        }
        values[variable] = value;
    }

    /// <summary>When a variable changed last; null when it never did.</summary>
    public Pet? ChangedAt(int variable)
    {
        Note(variable);
        return changedAt[variable];
    }

    /// <summary>The state of a finite-state variable.</summary>
    public string State(int variable) => Register.Variables[variable].States[Read(variable)];

    public void Become(int variable, string state) => Write(variable, Register.StateOf(variable, state));

    /// <summary>Runs something and notes what it read.</summary>
    public void NotingReads(List<int> noted, Action action)
    {
        reads = noted;
        try { action(); }
        finally { reads = null; }
    }

    /// <summary>Whether a condition holds; what it reads is noted.</summary>
    public bool Holds(Condition condition, List<int> noted)
    {
        reads = noted;
        try { return condition.Holds(); }
        finally { reads = null; }
    }

    /// <summary>Runs something and tells of each write.</summary>
    public void NotingWrites(Action<int> note, Action action)
    {
        written = note;
        try { action(); }
        finally { written = null; }
    }

    // Features.

    public int FeatureOf(FeatureId feature) => Register.Features.TryGetValue(feature, out int variable)
        ? variable
        : throw new ArgumentException($"the scenario has no feature '{feature}'");

    /// <summary>A feature takes a state. A switch that changes has been seen by nobody yet.</summary>
    public void Make(FeatureState made)
    {
        int variable = FeatureOf(made.Feature);
        bool changes = State(variable) != made.State;
        Become(variable, made.State);
        if (changes && Register.Seen.TryGetValue(made.Feature, out int seen)) Become(seen, SwitchSight.Unseen);
    }

    // People.

    public PersonVariables Of(PersonId person) => Register.People.TryGetValue(person, out PersonVariables? variables)
        ? variables
        : throw new ArgumentException($"the scenario has no person '{person}', whom the timeline names");

    public string Place(PersonId person) => State(Of(person).Place);

    public string Footing(PersonId person) => State(Of(person).Footing);

    public bool IsOutside(PersonId person) => Place(person) != Places.Inside;

    /// <summary>Writes what the tether line says into the variables.</summary>
    public void ShowLine(PersonId person)
    {
        shown.Add(person);
        TetherLine line = Lines[person];
        PersonVariables variables = Of(person);
        Become(variables.Anchor, line.Anchor is { } anchor ? Places.At(anchor) : Places.None);
        Write(variables.Tether, line.PaidOut);
        Write(variables.Reels, line.Count);
    }

    /// <summary>The lines written about since this was asked last, as they lie now.</summary>
    public IReadOnlyList<(PersonId Person, ImmutableArray<GripId> Grips)> LinesLaidAnew()
    {
        if (shown.Count == 0) return [];
        List<(PersonId Person, ImmutableArray<GripId> Grips)> laid = [];
        foreach (PersonId person in shown) laid.Add((person, Lines[person].Lay.Grips));
        shown.Clear();
        laid.Sort((one, other) => string.CompareOrdinal(one.Person.Value, other.Person.Value));
        return laid;
    }

    // Gear.

    public Spot SpotOf(GearId gear) => Register.Spots[Read(Register.GearPlace[gear])];

    public Spot PeekSpotOf(GearId gear) => Register.Spots[Peek(Register.GearPlace[gear])];

    /// <summary>Moves a thing; a carry point is freed and taken with it.</summary>
    public void Move(GearId gear, Spot to)
    {
        Spot from = PeekSpotOf(gear);
        if (from.Kind == SpotKind.Carry)
        {
            int point = CarryVariable(from);
            if (Register.Variables[point].States[Peek(point)] == gear.Value) Write(point, 0);
        }
        if (to.Kind == SpotKind.Carry) Become(CarryVariable(to), gear.Value);
        Write(Register.GearPlace[gear], Register.ValueOf(to));
        carried.Clear();
    }

    private int CarryVariable(Spot spot) => Of(new PersonId(spot.Name)).Carry[new CarryPointId(spot.Carry)];

    /// <summary>Where the outermost bag that holds a thing is, or the thing itself. Bags that hold each other in a circle are nowhere: a bag spot.</summary>
    public Spot OutermostSpotOf(GearId gear)
    {
        Spot spot = SpotOf(gear);
        for (int depth = 0; spot.Kind == SpotKind.Bag && depth < Lookup.Bags.Length; depth++) spot = SpotOf(new GearId(spot.Name));
        return spot;
    }

    /// <summary>Whether a thing hangs on a person, by itself or in a bag that does.</summary>
    public bool IsOn(PersonId person, GearId gear) => OutermostSpotOf(gear).IsWith(person);

    /// <summary>Whether a thing is at hand: on the person, hooked or installed at the worksite, or in a bag that is.</summary>
    public bool IsAtHand(PersonId person, GearId gear, Site site)
    {
        Spot spot = OutermostSpotOf(gear);
        return spot.Kind switch
        {
            SpotKind.Carry or SpotKind.Hands => spot.IsWith(person),
            SpotKind.Grip => site.Grip is { } grip && spot == Spot.At(grip),
            SpotKind.Site => spot.Name == site.Id.Value,
            _ => false,
        };
    }

    private bool IsIn(GearId bag, GearId gear)
    {
        Spot spot = PeekSpotOf(gear);
        for (int depth = 0; spot.Kind == SpotKind.Bag && depth <= Lookup.Bags.Length; depth++)
        {
            if (spot.Name == bag.Value) return true;
            spot = PeekSpotOf(new GearId(spot.Name));
        }
        return false;
    }

    /// <summary>What hangs on a person or is in that person's hands, bags counted as one thing.</summary>
    public IEnumerable<Gear> CarriedBy(PersonId person)
    {
        foreach ((Gear gear, int place) in PeekCarriedBy(person))
        {
            Read(place);
            yield return gear;
        }
    }

    /// <summary>The same with the variables of their places, without being noted.</summary>
    public (Gear Gear, int Place)[] PeekCarriedBy(PersonId person) => LoadOf(person).Things;

    private Load LoadOf(PersonId person)
    {
        if (carried.TryGetValue(person, out Load? known)) return known;
        List<(Gear Gear, int Place)> things = [];
        foreach ((Gear gear, int place) in Register.GearPlaces)
            if (Register.Spots[Peek(place)].IsWith(person)) things.Add((gear, place));
        return carried[person] = new([.. things], Walking.SlowedBy(things.Select(one => Lookup.Size(one.Gear.Size))));
    }

    /// <summary>What hangs on a person or is in that person's hands, with the variables of their places, and what it multiplies span times by.</summary>
    private sealed record Load((Gear Gear, int Place)[] Things, double Slower);

    /// <summary>What the load multiplies span times by.</summary>
    public double SlowedBy(PersonId person, GearId? alsoWith = null)
    {
        Load load = LoadOf(person);
        foreach ((_, int place) in load.Things) Read(place);
        return alsoWith is { } other ? Math.Max(load.Slower, Lookup.Size(Lookup.Gear(other).Size).Slower) : load.Slower;
    }

    /// <summary>The mass of a thing with everything in it, kg; stock counts by the piece.</summary>
    public double MassOf(GearId id) =>
        Scenario.Gear.Where(gear => gear.Id == id || IsIn(id, gear.Id)).Sum(gear =>
        {
            Read(Register.GearPlace[gear.Id]);
            return gear.Kind == GearKind.Stock ? gear.Mass * Math.Max(1, Read(Register.StockCount[gear.Id])) : gear.Mass;
        });

    /// <summary>Why a thing cannot hang on a carry point, in words; null when it can.</summary>
    public string? CarryProblem(PersonId person, CarryPointId carry, GearId gear)
    {
        CarryPoint? point = Lookup.Person(person).CarryPoints.FirstOrDefault(one => one.Id == carry);
        if (point is null) return $"{person} has no carry point '{carry}'";
        string holds = State(Of(person).Carry[carry]);
        if (holds != Places.None && holds != gear.Value) return $"{person}'s {carry} already holds {holds}";
        SizeId size = Lookup.Gear(gear).Size;
        if (!point.Sizes.Contains(size)) return $"{person}'s {carry} takes {string.Join(", ", point.Sizes)}, and {gear} is {size}";
        double mass = MassOf(gear);
        return mass <= point.MaxMass ? null : $"{person}'s {carry} takes {point.MaxMass:0.##} kg, and {gear} with what is in it is {mass:0.##} kg";
    }

    /// <summary>The first carry point where a thing can hang; null when there is none.</summary>
    public CarryPointId? FreeCarry(PersonId person, GearId gear)
    {
        foreach (CarryPoint point in Lookup.Person(person).CarryPoints)
            if (CarryProblem(person, point.Id, gear) is null) return point.Id;
        return null;
    }

    /// <summary>Onto a carry point if the scenario has it and it is free, else into the hands: play applies what it is told as far as it can be.</summary>
    public void MoveOnto(PersonId person, CarryPointId? carry, GearId gear)
    {
        bool free = carry is { } point && Of(person).Carry.TryGetValue(point, out int variable)
            && (Read(variable) == 0 || State(variable) == gear.Value);
        Move(gear, free ? Spot.On(person, carry!.Value) : Spot.InHands(person));
    }
}
