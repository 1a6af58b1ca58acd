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
    public void Begin(Deed deed)
    {
        Activity activity = deed.Activity;
        foreach (PersonId person in deed.Who)
        {
            PersonReturns returns = people[person];
            returns.EndIdle(activity.Start);
            returns.Running++;
            if (activity is Translate { Spans.Length: > 0 }) continue;
            AddPieces(returns, person, activity);
        }
        if (activity is Translate walk && walk.Spans.Length > 0) NextSpan(walk, 0);
        else Helping?.Begin(deed);
    }

    /// <summary>An activity has ended.</summary>
    public void End(Deed deed)
    {
        foreach (PersonId person in deed.Who)
        {
            people[person].Running--;
            ended.Add((person, deed.Activity));
        }
    }

    /// <summary>The instant is over: whoever has nothing to do from here on stands where that person is.</summary>
    public void Settle(Pet now)
    {
        if (ended.Count == 0) return;
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
        int least = span is null ? told.Time.Seconds : wayHome.Of(person, slower).SpanSeconds(span);
        int time = Math.Max(least, to.Since(from).Seconds);
        Passage on = new(Places.At(told.From), Places.At(told.To));
        Way fromHere = wayHome.From(person, slower, told.From);
        int here = fromHere.Seconds;
        PersonReturns returns = people[person];
        if (line.Count > 0)
        {
            if (line.LeadsBackTo(told.To))
            {
                Way there = wayHome.Of(person, slower).Along(line.Lay.Before!);
                returns.Add(Walking(from, to, there.Seconds + time, there.Seconds, there));
            }
            else
            {
                LineStretch stretch = new(told.To, 0, span, told.Time.Seconds);
                returns.Add(Walking(from, to, here, here + time, wayHome.Of(person, slower).Along(line.Lay.WithStretch(stretch))));
            }
            return;
        }
        // Without a line to go back along, one turns round or goes on, whichever is shorter.
        Way fromThere = wayHome.From(person, slower, told.To);
        int ahead = fromThere.Seconds;
        int turn = Math.Clamp((ahead - here + time + 1) / 2, 0, to.Since(from).Seconds);
        Pet peak = from.Plus(Duration.FromSeconds(turn));
        returns.Add(Walking(from, peak, here, here + turn, fromThere));
        returns.Add(Walking(peak, to, ahead + time - turn, ahead, fromThere));

        // Where something is closed, either can be the only way: to turn round, or to go on to the end of the span and wait there.
        HomePiece Walking(Pet start, Pet end, double atStart, double atEnd, Way ahead) => new(
            new(start, end, atStart, atEnd, walk.Id, Stage.Outside),
            [
                new(HeadKind.Back, on, from.Plus(Duration.FromSeconds(to.Since(from).Seconds - time)), fromHere),
                new(HeadKind.Ending, on, from.Plus(Duration.FromSeconds(time)), ahead),
            ]);
    }

    /// <summary>The curves of everybody, and of all together.</summary>
    public ImmutableArray<ReturnCurve> Curves(Pet from, Pet to, Closed closed)
    {
        ImmutableArray<ReturnCurve>.Builder curves = ImmutableArray.CreateBuilder<ReturnCurve>();
        List<(Airlock Airlock, ImmutableArray<Segment> Pieces)> everybody = [];
        foreach (PersonId person in world.Scenario.People.Select(one => one.Id).Where(people.ContainsKey))
        {
            PersonReturns returns = people[person];
            ImmutableArray<Segment> one = With(returns.One, closed);
            everybody.Add((wayHome.AirlockOf(person), one));
            curves.Add(new ReturnCurve(ReturnKind.One, person, Segments.Points(one)));
            if (returns.Rode) curves.Add(new ReturnCurve(ReturnKind.Armless, person, Segments.Points(With(returns.Armless, closed))));
        }
        // Of two closings told for one moment the later end counts, whichever was played first.
        curves.Add(new ReturnCurve(ReturnKind.Both, null, BothIn.Points(everybody, [.. closings.OrderBy(one => one.Airlock.Value, StringComparer.Ordinal).ThenByDescending(one => one.To).ThenBy(one => one.From)], closed, from, to)));
        curves.AddRange(Helping?.Curves(closed) ?? []);
        return curves.ToImmutable();
    }

    private static ImmutableArray<Segment> With(List<HomePiece> all, Closed closed)
    {
        List<Segment> pieces = new(all.Count);
        foreach (HomePiece piece in all) piece.AddTo(pieces, closed);
        return Segments.InOrder(pieces);
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
                Way after = wayHome.Of(person, slower).Along(After(person, swap));
                if (world.Lines[person].Count == 0)
                    after = wayHome.From(person, slower, swap.At).Behind(Passage.At(Places.At(swap.At)), swap.Onto == swap.At ? world.Scenario.Tether.Swap.Seconds : 0);
                returns.Add(Ending(Passage.At(Places.At(swap.At)), after));
                break;
            case ArmMove move:
                Arm arm = world.Lookup.Arm(move.Arm);
                Way here = ArmHome.Stopped(person, slower, arm, move.From), there = ArmHome.Stopped(person, slower, arm, move.To);
                int stopped = Math.Max(here.Seconds, there.Seconds);
                returns.Add(
                    Ending(new(Places.At(move.Arm, move.From), Places.At(move.Arm, move.To)), ArmHome.Riding(person, slower, arm, move.To)),
                    new(new(activity.Start, activity.End, stopped, stopped, activity.Id, Stage.Outside), [HomeOption.Now(here), HomeOption.Now(there)], Worst: true));
                break;
            case DismountArm dismount when world.Footing(person) == Places.On(dismount.Arm):
                returns.Add(Ending(new(world.Place(person), Places.At(dismount.At)), wayHome.From(person, slower, dismount.At)));
                break;
            default:
                int breakOff = BreakOff.Seconds(world, activity);
                bool leaving = activity is LeaveRestraint;
                returns.Add(Standing(FromHere(person, slower, breakOff, leaving)), Standing(StoppedFromHere(person, slower, breakOff, leaving)));
                break;
        }

        HomePiece Standing(Way way) => new(new(activity.Start, activity.End, way.Seconds, way.Seconds, activity.Id, Stage.Outside), [HomeOption.Now(way)]);

        // What goes on is ended first.
        HomePiece Ending(Passage where, Way way) => new(
            new(activity.Start, activity.End, Math.Min(Way.NoneSeconds, length + way.Seconds), way.Seconds, activity.Id, Stage.Outside), [new(HeadKind.Ending, where, activity.End, way)]);

        void Add(double fromSeconds, double toSeconds, Stage stage) =>
            returns.Add(new HomePiece(new Segment(activity.Start, activity.End, fromSeconds, toSeconds, activity.Id, stage), []));
    }

    /// <summary>The line once a change of reels is ended.</summary>
    private Lay After(PersonId person, SwapReel swap)
    {
        Lay line = world.Lines[person].Lay;
        if (swap.Onto == swap.At) return line.WithHook(swap.At);
        if (line.Reels < 2) return line;
        // The hook is taken off and what is laid behind it stays.
        Lay after = line.Hooked!.Before!;
        foreach (LineMark mark in line.Marks[line.Hooked.Marks.Length..]) after = after.With(mark);
        return after;
    }

    /// <summary>A thing being handed over may stay with either of the two, so both are reckoned to carry it.</summary>
    private static GearId? AlsoHeld(PersonId person, Activity activity) => activity is Give give && give.To == person ? give.Gear : null;

    /// <summary>From where the person is now, after breaking off.</summary>
    private Way FromHere(PersonId person, double slower, int breakOff, bool leaving = false)
    {
        Passage here = Passage.At(world.Place(person));
        Way way = OnArm(person) is var (arm, pose)
            ? pose is { } at ? ArmHome.Riding(person, slower, arm, at) : Way.None
            : wayHome.From(person, slower, new GripId(world.Place(person)));
        if (!leaving && InRestraint(person)) way = way.Behind(here, world.Scenario.Handling.Leave.Time.Seconds);
        return way.Behind(here, breakOff);
    }

    /// <summary>The same with the arm stopped where it is.</summary>
    private Way StoppedFromHere(PersonId person, double slower, int breakOff, bool leaving = false) => OnArm(person) is var (arm, pose)
        ? (pose is { } at ? ArmHome.Stopped(person, slower, arm, at) : Way.None).Behind(Passage.At(world.Place(person)), breakOff)
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
        public List<HomePiece> One { get; } = [];

        public List<HomePiece> Armless { get; } = [];

        public bool Rode { get; private set; }

        public int Running { get; set; }

        public (Pet From, Way One, Way Armless, ActivityId Activity)? Idle { get; set; }

        public void Add(HomePiece piece) => Add(piece, piece);

        public void Add(HomePiece one, HomePiece armless)
        {
            One.Add(one);
            Armless.Add(armless);
            Rode |= armless.Open.FromSeconds != one.Open.FromSeconds || armless.Open.ToSeconds != one.Open.ToSeconds;
        }

        public void EndIdle(Pet now)
        {
            if (Idle is not { } idle) return;
            Add(Standing(idle.One), Standing(idle.Armless));
            Idle = null;

            HomePiece Standing(Way way) => new(new(idle.From, now, way.Seconds, way.Seconds, idle.Activity, Stage.Outside), [HomeOption.Now(way)]);
        }
    }
}
