using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>A branch of a proven plan as a briefing looks at it: what is so at a moment, read from the trace, in the words of the briefing. It reckons nothing.</summary>
internal sealed class BriefedPlan
{
    private readonly Dictionary<GearId, Gear> gear;
    private readonly Dictionary<LegId, Leg> legs;
    private readonly Dictionary<JobId, Job> jobs;
    private readonly Dictionary<ActivityId, Rung> rungs;
    private readonly Dictionary<ActivityId, Activity> byId;
    private readonly ILookup<PersonId, Activity> byPerson;

    /// <summary>On the other branch: what is done on the likely one too, at the same time.</summary>
    private readonly HashSet<ActivityId> shared;

    /// <summary>The likely branch, with the other one behind it where the plan has a decision.</summary>
    public BriefedPlan(Scenario scenario, ProvenPlan plan, Wording words) : this(scenario, plan, words, 0)
    {
        if (plan.Played.Length > 1) Other = new(scenario, plan, words, 1);
    }

    private BriefedPlan(Scenario scenario, ProvenPlan plan, Wording words, int branch)
    {
        (Scenario, Plan, Words) = (scenario, plan, words);
        (Timeline, Trace trace) = plan.Played[branch];
        History = new(trace);
        gear = scenario.Gear.ToDictionary(thing => thing.Id);
        legs = scenario.Legs.ToDictionary(leg => leg.Id);
        jobs = scenario.Jobs.ToDictionary(job => job.Id);
        byId = Timeline.Activities.ToDictionary(activity => activity.Id);
        shared = branch == 0 ? [] : [.. plan.Likely.Activities.Where(one => byId.TryGetValue(one.Id, out Activity? own) && own.Start == one.Start && own.End == one.End).Select(one => one.Id)];
        rungs = plan.Verdict.Ladder.Where(rung => Holds(rung.Branch, rung.Activity)).ToDictionary(rung => rung.Activity);
        byPerson = Timeline.Activities.SelectMany(activity => activity.People.Select(person => (person, activity))).ToLookup(one => one.person, one => one.activity);
        HashSet<PersonId> busy = [.. plan.Played.SelectMany(one => one.Timeline.Activities).SelectMany(activity => activity.People)];
        People = [.. scenario.Outside.Where(person => busy.Contains(person.Id))];
    }

    public Scenario Scenario { get; }

    public ProvenPlan Plan { get; }

    public Wording Words { get; }

    /// <summary>What is done on this branch.</summary>
    public Timeline Timeline { get; }

    /// <summary>The same plan on the other branch of its decision, which is told as taken at the last moment; null where there is none, and on that branch itself.</summary>
    public BriefedPlan? Other { get; }

    public History History { get; }

    public Trace Trace => History.Trace;

    /// <summary>Those outside who have something to do in the plan, on whichever branch.</summary>
    public ImmutableArray<Person> People { get; }

    /// <summary>On the other branch: the first moment at which anything is not as on the likely one.</summary>
    public Pet PartsAt => Timeline.Activities.Concat(Plan.Likely.Activities).Where(activity => !shared.Contains(activity.Id)).Select(activity => activity.Start).DefaultIfEmpty(Trace.To).Min();

    public bool IsDraft => !Plan.Verdict.Clean;

    public IEnumerable<Activity> Of(PersonId person) => byPerson[person];

    public Activity Find(ActivityId id) => byId[id];

    public Activity? FindOrNone(ActivityId? id) => id is { } one ? byId.GetValueOrDefault(one) : null;

    public Leg Leg(LegId id) => legs[id];

    public Job Job(LegId leg) => jobs[legs[leg].Job];

    public Step Step(DoStep step) => legs[step.Leg].Steps.First(one => one.Id == step.Step);

    public string Gear(GearId id) => gear.TryGetValue(id, out Gear? thing) ? thing.Title : id.Value;

    public Gear GearOf(GearId id) => gear[id];

    public Rung? Rung(ActivityId activity) => rungs.GetValueOrDefault(activity);

    public Site Site(LegId leg) => Scenario.Station.Sites.First(site => site.Id == legs[leg].Site);

    public Command CommandOf(SendCommand sent) => Scenario.Consoles.First(console => console.Id == sent.Console).Commands.First(command => command.Id == sent.Command);

    public bool IsInPlan(Pet at) => Trace.From <= at && at <= Trace.To;

    /// <summary>Where this branch comes nearest to its return limits.</summary>
    public ImmutableArray<TightMoment> Tight => Timeline.Branch == Plan.Likely.Branch ? Plan.Tight : Tightest.Of(Scenario, Trace);

    /// <summary>Whether a job is done on this branch.</summary>
    public bool IsDone(JobId job) => Timeline.Activities.OfType<DoStep>().Any(step => legs[step.Leg].Job == job);

    /// <summary>The decision near the end, and when it is taken on this branch; null where there is none.</summary>
    public (Decision Decision, Pet At)? DecisionTaken =>
        Plan.Outline?.Decision is { } decision && Timeline.Activities.OfType<DoStep>().Where(step => step.Leg == decision.After).Select(step => step.End).ToArray() is { Length: > 0 } ends
            ? (decision, ends.Max()) : null;

    /// <summary>What the proof found at an activity for a person on this branch.</summary>
    public IEnumerable<Finding> FindingsOf(Activity activity, PersonId person) => Plan.Verdict.Findings.Where(finding =>
        finding.Activity == activity.Id && (finding.Who.IsEmpty || finding.Who.Contains(person)) && Holds(finding.Branch, activity.Id));

    /// <summary>Whether what the proof says of an activity on a branch holds on this one: where the branches are one it is said once, of the likely one.</summary>
    private bool Holds(Branch branch, ActivityId activity) => branch == Timeline.Branch || shared.Contains(activity);

    /// <summary>The state of a variable from a moment on; null when the trace has none of this name.</summary>
    public string? State(string variable, Pet at) => History.Find(variable) is { } index ? History.StateAt(index, at) : null;

    public int? Count(string variable, Pet at) => History.Find(variable) is { } index ? History.At(index, at) : null;

    public string Utc(Pet at) => Scenario.Sortie.PetZero.AddSeconds(at.Seconds).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    public DateTime UtcTime(Pet at) => Scenario.Sortie.PetZero.AddSeconds(at.Seconds);

    /// <summary>What a person does at a moment; null before the first and after the last.</summary>
    public Activity? During(PersonId person, Pet at) => byPerson[person].FirstOrDefault(activity => activity.Start <= at && at < activity.End);

    /// <summary>Where a person is from a moment on.</summary>
    public string Place(PersonId person, Pet at) => PlaceWords(State($"person {person} place", at) ?? "inside");

    /// <summary>A place as the trace names it, as people say it: the worksites of a grip are named with it.</summary>
    public string PlaceWords(string place)
    {
        if (place == "inside") return Words["place.inside"];
        int slash = place.IndexOf('/');
        if (slash < 0) return place;
        string arm = place[..slash], pose = place[(slash + 1)..];
        return pose == "moving" ? Words.Say("place.riding", arm) : Words.Say("place.arm", arm, pose);
    }

    public bool IsInside(PersonId person, Pet at) => (State($"person {person} place", at) ?? "inside") == "inside";

    /// <summary>How a person is held from a moment on.</summary>
    public string Footing(PersonId person, Pet at)
    {
        string footing = State($"person {person} footing", at) ?? "free";
        return footing switch
        {
            "free" => Words["footing.free"],
            "body tether" => Words["footing.body"],
            _ when footing.StartsWith("socket ", StringComparison.Ordinal) => RestraintIn(footing["socket ".Length..], at),
            _ when footing.StartsWith("arm ", StringComparison.Ordinal) => Words.Say("footing.arm", footing["arm ".Length..]),
            _ => footing,
        };
    }

    private string RestraintIn(string socket, Pet at)
    {
        foreach (Gear thing in Scenario.Gear.Where(thing => thing.Kind == GearKind.Restraint))
            if (State($"gear {thing.Id} place", at) == $"socket {socket}")
                return Words.Say("footing.restraint", thing.Title, socket, State($"gear {thing.Id} setting", at) ?? "");
        return Words.Say("footing.socket", socket);
    }

    /// <summary>How a person is tied to the structure from a moment on; empty inside.</summary>
    public string Tether(PersonId person, Pet at)
    {
        if (Scenario.Tether.Protocol == TetherProtocol.Leapfrog) return IsInside(person, at) ? "" : Words["tether.short"];
        string anchor = State($"person {person} anchor", at) ?? "none";
        if (anchor == "none") return "";
        if (anchor.StartsWith("arm ", StringComparison.Ordinal)) return Words.Say("tether.arm", anchor["arm ".Length..]);
        // The trace counts millimetres; what is out is never shown as less than it is.
        int millimetres = Count($"person {person} tether", at) ?? 0;
        double reel = Scenario.People.First(one => one.Id == person).Reels is { IsEmpty: false } reels && Count($"person {person} reels", at) is { } used && used >= 1 && used <= reels.Length
            ? reels[used - 1] : double.NaN;
        string paid = (Math.Ceiling(millimetres / 100.0) / 10).ToString("0.0", CultureInfo.InvariantCulture);
        return double.IsNaN(reel) ? Words.Say("tether.out", anchor, paid) : Words.Say("tether.of", anchor, paid, reel.ToString("0.#", CultureInfo.InvariantCulture));
    }

    /// <summary>What hangs where on a suit from a moment on; one phrase a thing.</summary>
    public IEnumerable<string> OnSuit(PersonId person, Pet at)
    {
        foreach (CarryPoint point in Scenario.People.First(one => one.Id == person).CarryPoints)
            if (State($"person {person} carry {point.Id}", at) is { } thing && thing != "none")
                yield return Words.Say("carried", point.Id, Gear(new(thing)));
        foreach (Gear thing in Scenario.Gear)
            if (State($"gear {thing.Id} place", at) == $"hands {person}") yield return Words.Say("carried.hands", thing.Title);
    }

    /// <summary>Where a thing is from a moment on.</summary>
    public string Spot(GearId thing, Pet at) => SpotWords(State($"gear {thing} place", at) ?? "");

    /// <summary>A place of gear as the trace names it, as people say it.</summary>
    public string SpotWords(string spot)
    {
        string[] parts = spot.Split(' ', 2);
        string name = parts.Length > 1 ? parts[1] : "";
        return parts[0] switch
        {
            "inside" => Words["place.inside"],
            "spent" => Words["spot.spent"],
            "grip" => Words.Say("spot.grip", name),
            "bag" => Words.Say("spot.bag", Gear(new(name))),
            "hands" => Words.Say("spot.hands", name),
            "socket" => Words.Say("spot.socket", name),
            "site" => Words.Say("spot.site", Scenario.Station.Sites.FirstOrDefault(site => site.Id.Value == name)?.Title ?? name),
            "arm" => Words.Say("spot.arm", name),
            "person" => Words.Say("spot.person", name.Split(' ')[0], name.Split(' ', 2)[^1]),
            _ => spot,
        };
    }

    /// <summary>What goes on, as said to one person, or about everybody.</summary>
    public string Do(Activity activity, PersonId? to) => activity switch
    {
        AirlockPhase { Phase: AirlockPhaseKind.Out } phase => Words.Say("do.out", phase.Airlock),
        AirlockPhase phase => Words["do." + phase.Phase.ToString().ToLowerInvariant()],
        Translate walk => Words.Say("do.go", string.Join(" → ", walk.Spans.Select(span => span.To))),
        SwapReel swap when swap.Onto == swap.At => Words.Say("do.swap", swap.At),
        SwapReel swap => Words.Say("do.swapback", swap.Onto, swap.At),
        Take take => Words.Say("do.take", Gear(take.Gear), take.At, take.Carry),
        Put put => Words.Say("do.put", Gear(put.Gear), put.At),
        Give give when give.From == to => Words.Say("do.give", Gear(give.Gear), give.To, give.At),
        Give give => Words.Say("do.get", Gear(give.Gear), give.From, give.At, give.Carry),
        Plug plug => Words.Say("do.plug", Gear(plug.Gear), plug.Socket, plug.Setting),
        Unplug unplug => Words.Say("do.unplug", Gear(unplug.Gear), unplug.Socket, unplug.Carry),
        EnterRestraint enter => Words.Say("do.enter", enter.Socket),
        LeaveRestraint leave => Words.Say("do.leave", leave.Socket),
        MountArm mount => Words.Say("do.mount", mount.Arm, mount.At),
        ArmMove { Rider: null } move => Words.Say("do.empty", move.Arm, move.From, move.To),
        ArmMove move => Words.Say("do.ride", move.Arm, move.From, move.To),
        DismountArm dismount => Words.Say("do.dismount", dismount.Arm, dismount.At),
        DoStep { LeftBy: { } left } step => Words.Say(left == Leaving.Abort ? "do.stepabort" : "do.stepterminate", Step(step).Title),
        DoStep step => Words.Say("do.step", Step(step).Title),
        Await wait => Words.Say("do.wait", wait.Until),
        CheckGloves => Words["do.gloves"],
        Rest => Words["do.rest"],
        SendCommand command => Words.Say("do.command", command.Console, command.Command),
        _ => activity.Id.Value,
    };

    /// <summary>Where the others are at a moment and what they do; one phrase a person.</summary>
    public IEnumerable<string> Others(PersonId person, Pet at) => People.Where(other => other.Id != person)
        .Select(other => Words.Say("other", other.Id, Place(other.Id, at), During(other.Id, at) is { } doing ? Short(doing) : Words["other.done"]));

    /// <summary>An activity in few words.</summary>
    private string Short(Activity activity) => activity switch
    {
        DoStep step => step.Leg.Value,
        Translate walk => Words.Say("short.go", walk.Spans[^1].To),
        _ => Do(activity, null),
    };

    /// <summary>Which margin it is.</summary>
    public string MarginOf(TightMoment tight) => Words.Say("margin." + tight.Kind.ToString().ToLowerInvariant(), tight.Person);

    /// <summary>What goes on where a margin is least; empty where nothing does.</summary>
    public string During(TightMoment tight) => FindOrNone(tight.Activity) is { } during ? Do(during, tight.Person) : "";

    /// <summary>Minutes that something takes: never shown as less than they are.</summary>
    public static int MinutesUp(double seconds) => (int)Math.Ceiling((seconds - 1e-6) / 60);

    /// <summary>Minutes that are left: never shown as more than there are.</summary>
    public static int MinutesDown(double seconds) => (int)Math.Floor((seconds + 1e-6) / 60);

    /// <summary>A return time at a moment: where it jumps then, the longer one. Null outside its curve.</summary>
    public static double? ReturnAt(ReturnCurve curve, Pet at)
    {
        ReturnPoint[] now = [.. curve.Points.Where(point => point.At == at)];
        if (now.Length > 0) return now.Max(point => point.Seconds);
        for (int i = 1; i < curve.Points.Length; i++)
        {
            (ReturnPoint from, ReturnPoint to) = (curve.Points[i - 1], curve.Points[i]);
            if (from.At < at && at < to.At) return from.Seconds + (to.Seconds - from.Seconds) * at.Since(from.At).Seconds / to.At.Since(from.At).Seconds;
        }
        return null;
    }

    /// <summary>The longest return time within a stretch; null where the curve has none.</summary>
    public static double? LongestReturn(ReturnCurve curve, Pet from, Pet to)
    {
        double? longest = null;
        void Look(double? seconds)
        {
            if (seconds is { } one && !(one <= longest)) longest = one;
        }
        Look(ReturnAt(curve, from));
        foreach (ReturnPoint point in curve.Points.Where(point => from <= point.At && point.At <= to)) Look(point.Seconds);
        return longest;
    }

    public ReturnCurve? Curve(ReturnKind kind, PersonId? person) => Trace.Returns.FirstOrDefault(curve => curve.Kind == kind && curve.Person == person && !curve.Points.IsEmpty);
}
