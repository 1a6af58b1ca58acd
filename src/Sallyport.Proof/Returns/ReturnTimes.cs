using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>
/// Return times while a timeline is played: what it takes to break off what goes on, to leave a restraint, to come off the arm, to go
/// back along the own tether line with every change of reels, and to come in through the hatch.
/// </summary>
internal sealed class ReturnTimes(World world)
{
    private readonly WayHome wayHome = new(world);
    private readonly Dictionary<PersonId, PersonReturns> people = world.Register.People.Keys.ToDictionary(person => person, _ => new PersonReturns());
    private readonly List<(PersonId Person, Activity Activity)> ended = [];

    private readonly HashSet<(AirlockId Airlock, Pet From, Pet To)> closings = [];

    private ArmHome ArmHome => field ??= new ArmHome(world, wayHome);

    /// <summary>Null where the sortie does not say what helping takes.</summary>
    private Helping? Helping => world.Scenario.Help is { } help ? field ??= new Helping(world, wayHome, ArmHome, help) : null;

    /// <summary>An activity goes on from now: the state is that after its start effects.</summary>
    public void Begin(Activity activity)
    {
        foreach (PersonId person in activity.People.Distinct())
        {
            PersonReturns returns = people[person];
            returns.EndIdle(activity.Start);
            returns.Running++;
            if (activity is Translate { Spans.Length: > 0 }) continue;
            AddPieces(returns, person, activity);
        }
        if (activity is Translate walk && walk.Spans.Length > 0) NextSpan(walk, 0);
        else Helping?.Begin(activity);
    }

    /// <summary>An activity has ended.</summary>
    public void End(Activity activity)
    {
        foreach (PersonId person in activity.People.Distinct())
        {
            people[person].Running--;
            ended.Add((person, activity));
        }
    }

    /// <summary>The instant is over: whoever has nothing to do from here on stands where that person is.</summary>
    public void Settle(Pet now)
    {
        // By id, so that of two that end together the same one always names what follows.
        foreach ((PersonId person, Activity activity) in ended.OrderBy(one => one.Activity.Id.Value, StringComparer.Ordinal))
        {
            PersonReturns returns = people[person];
            if (returns.Running == 0 && returns.Idle is null && world.IsOutside(person))
                returns.Idle = (now, FromHere(person, world.SlowedBy(person), 0), StoppedFromHere(person, world.SlowedBy(person), 0), activity.Id);
        }
        ended.Clear();
    }

    /// <summary>Nothing more happens.</summary>
    public void Close(Pet to)
    {
        foreach (PersonReturns returns in people.Values) returns.EndIdle(to);
    }

    /// <summary>One span of a walk goes on from now. On the way out the return grows by each second walked; where the span lies back along
    /// the line, the rest of it is walked and then the way home from there.</summary>
    public void NextSpan(Translate walk, int index)
    {
        PersonId person = walk.Person;
        SpanWalk told = walk.Spans[index];
        Pet from = walk.Start.Plus(Duration.FromSeconds(walk.Spans.Take(index).Sum(span => span.Time.Seconds)));
        Pet to = index == walk.Spans.Length - 1 ? walk.End : from.Plus(told.Time);
        if (to > walk.End) to = walk.End;
        if (to <= from) return;
        Helping?.NextSpan(walk, told, from, to);
        double slower = world.SlowedBy(person);
        TetherLine line = world.Lines[person];
        Span? span = world.Lookup.Span(told.From, told.To);
        int least = span is null ? told.Time.Seconds : wayHome.SpanSeconds(person, slower, span);
        int time = Math.Max(least, to.Since(from).Seconds);
        int entry = wayHome.AirlockOf(person).InEach.Seconds;
        int here = wayHome.From(person, slower, told.From) + entry;
        PersonReturns returns = people[person];
        if (line.Count > 0)
        {
            if (line.LeadsBackTo(told.To))
            {
                int there = here - wayHome.Seconds(person, slower, line.Last);
                returns.Add(new(from, to, there + time, there, walk.Id, Stage.Outside));
            }
            else returns.Add(new(from, to, here, here + time, walk.Id, Stage.Outside));
            return;
        }
        // Without a line to go back along, one turns round or goes on, whichever is shorter.
        int ahead = wayHome.From(person, slower, told.To) + entry;
        int turn = Math.Clamp((ahead - here + time + 1) / 2, 0, to.Since(from).Seconds);
        Pet peak = from.Plus(Duration.FromSeconds(turn));
        returns.Add(new(from, peak, here, here + turn, walk.Id, Stage.Outside));
        returns.Add(new(peak, to, ahead + time - turn, ahead, walk.Id, Stage.Outside));
    }

    /// <summary>The curves of everybody, and of all together.</summary>
    public ImmutableArray<ReturnCurve> Curves(Pet from, Pet to)
    {
        ImmutableArray<ReturnCurve>.Builder curves = ImmutableArray.CreateBuilder<ReturnCurve>();
        List<(Airlock Airlock, ImmutableArray<Segment> Pieces)> everybody = [];
        foreach (PersonId person in world.Scenario.People.Select(one => one.Id).Where(people.ContainsKey))
        {
            PersonReturns returns = people[person];
            ImmutableArray<Segment> one = Segments.InOrder(returns.One);
            everybody.Add((wayHome.AirlockOf(person), one));
            curves.Add(new ReturnCurve(ReturnKind.One, person, Segments.Points(one)));
            if (returns.Rode) curves.Add(new ReturnCurve(ReturnKind.Armless, person, Segments.Points(Segments.InOrder(returns.Armless))));
        }
        // Of two closings told for one moment the later end counts, whichever was played first.
        curves.Add(new ReturnCurve(ReturnKind.Both, null, BothIn.Points(everybody, [.. closings.OrderBy(one => one.Airlock.Value, StringComparer.Ordinal).ThenByDescending(one => one.To).ThenBy(one => one.From)], from, to)));
        curves.AddRange(Helping?.Curves() ?? []);
        return curves.ToImmutable();
    }

    private void AddPieces(PersonReturns returns, PersonId person, Activity activity)
    {
        if (activity is AirlockPhase { Phase: AirlockPhaseKind.Close } close) closings.Add((close.Airlock, close.Start, close.End));
        double slower = world.SlowedBy(person, AlsoHeld(person, activity));
        int entry = wayHome.AirlockOf(person).InEach.Seconds;
        int length = activity.Length.Seconds;
        switch (activity)
        {
            case AirlockPhase { Phase: AirlockPhaseKind.Out } when !world.IsOutside(person):
                Add(entry, entry, Stage.Outside);
                break;
            case AirlockPhase { Phase: AirlockPhaseKind.In } when world.IsOutside(person):
                Add(Math.Max(length, entry), Math.Max(0, entry - length), Stage.Entering);
                break;
            case var _ when !world.IsOutside(person):
                Add(0, 0, Stage.Inside);
                break;
            case SwapReel swap:
                int after = wayHome.From(person, slower, swap.At) + entry + (swap.Onto == swap.At ? world.Scenario.Tether.Swap.Seconds : 0)
                    - (swap.Onto != swap.At && world.Lines[person].Count > 1 ? world.Scenario.Tether.Swap.Seconds : 0);
                Add(length + after, after, Stage.Outside);
                break;
            case ArmMove move:
                Arm arm = world.Lookup.Arm(move.Arm);
                int there = ArmHome.Riding(person, slower, arm, move.To) + entry;
                int stopped = Math.Max(ArmHome.Stopped(person, slower, arm, move.From), ArmHome.Stopped(person, slower, arm, move.To)) + entry;
                returns.Add(
                    new(activity.Start, activity.End, length + there, there, activity.Id, Stage.Outside),
                    new(activity.Start, activity.End, stopped, stopped, activity.Id, Stage.Outside));
                break;
            case DismountArm dismount when world.Footing(person) == Places.On(dismount.Arm):
                int off = wayHome.From(person, slower, dismount.At) + entry;
                Add(length + off, off, Stage.Outside);
                break;
            default:
                int breakOff = BreakOff.Seconds(world, activity);
                bool leaving = activity is LeaveRestraint;
                int now = FromHere(person, slower, breakOff, leaving), climbing = StoppedFromHere(person, slower, breakOff, leaving);
                returns.Add(
                    new(activity.Start, activity.End, now, now, activity.Id, Stage.Outside),
                    new(activity.Start, activity.End, climbing, climbing, activity.Id, Stage.Outside));
                break;
        }

        void Add(double fromSeconds, double toSeconds, Stage stage) =>
            returns.Add(new Segment(activity.Start, activity.End, fromSeconds, toSeconds, activity.Id, stage));
    }

    /// <summary>A thing being handed over may stay with either of the two, so both are reckoned to carry it.</summary>
    private static GearId? AlsoHeld(PersonId person, Activity activity) => activity is Give give && give.To == person ? give.Gear : null;

    /// <summary>From where the person is now, after breaking off.</summary>
    private int FromHere(PersonId person, double slower, int breakOff, bool leaving = false)
    {
        int seconds = breakOff + wayHome.AirlockOf(person).InEach.Seconds;
        if (!leaving && InRestraint(person)) seconds += world.Scenario.Handling.Leave.Time.Seconds;
        return seconds + (OnArm(person) is var (arm, pose)
            ? pose is { } at ? ArmHome.Riding(person, slower, arm, at) : WayHome.None
            : wayHome.From(person, slower, new GripId(world.Place(person))));
    }

    /// <summary>The same with the arm stopped where it is.</summary>
    private int StoppedFromHere(PersonId person, double slower, int breakOff, bool leaving = false) => OnArm(person) is var (arm, pose)
        ? breakOff + wayHome.AirlockOf(person).InEach.Seconds + (pose is { } at ? ArmHome.Stopped(person, slower, arm, at) : WayHome.None)
        : FromHere(person, slower, breakOff, leaving);

    private bool InRestraint(PersonId person) => world.Footing(person).StartsWith("socket ", StringComparison.Ordinal);

    /// <summary>The arm the person is on and its pose, null while moving; null when on no arm.</summary>
    private (Arm Arm, PoseId? Pose)? OnArm(PersonId person)
    {
        string place = world.Place(person);
        foreach (Arm arm in world.Scenario.Arms)
        {
            if (!place.StartsWith(arm.Id.Value + "/", StringComparison.Ordinal)) continue;
            return (arm, place == Places.MovingOn(arm.Id) ? null : new PoseId(place[(arm.Id.Value.Length + 1)..]));
        }
        return null;
    }

    /// <summary>One person's pieces while they are gathered.</summary>
    private sealed class PersonReturns
    {
        public List<Segment> One { get; } = [];

        public List<Segment> Armless { get; } = [];

        public bool Rode { get; private set; }

        public int Running { get; set; }

        public (Pet From, int One, int Armless, ActivityId Activity)? Idle { get; set; }

        public void Add(Segment piece) => Add(piece, piece);

        public void Add(Segment one, Segment armless)
        {
            One.Add(one);
            Armless.Add(armless);
            Rode |= armless.FromSeconds != one.FromSeconds || armless.ToSeconds != one.ToSeconds;
        }

        public void EndIdle(Pet now)
        {
            if (Idle is not { } idle) return;
            Add(new(idle.From, now, idle.One, idle.One, idle.Activity, Stage.Outside), new(idle.From, now, idle.Armless, idle.Armless, idle.Activity, Stage.Outside));
            Idle = null;
        }
    }
}
