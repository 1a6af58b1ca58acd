using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>
/// Plays a timeline against the world. One instant has four phases: what ends now; what the outside changes; what starts now; and then
/// every condition that must hold throughout is looked at again if something that it read has changed. Play never stops: a condition
/// that fails is noted as a fact, and the effect is applied as told.
/// </summary>
public sealed class Player
{
    private readonly Timeline timeline;
    private readonly World world;
    private readonly LegStarts starts;
    private readonly Record record;
    private readonly Watch watch;
    private readonly Clash clash;
    private readonly ReturnTimes returns;
    private readonly Action outside;
    private readonly ImmutableArray<Activity> activities;
    private readonly Dictionary<ActivityId, Deed> running = [];
    private readonly Dictionary<ActivityId, int> arrivals = [];
    private readonly List<Deed> begun = [];
    private readonly ImmutableArray<LineLaid>.Builder lines = ImmutableArray.CreateBuilder<LineLaid>();

    private Player(Scenario scenario, Timeline timeline, ImmutableArray<Activity> activities)
    {
        this.timeline = timeline;
        this.activities = activities;
        world = new World(scenario, timeline);
        starts = new LegStarts(world, activities);
        record = new Record(world);
        watch = new Watch(world, record);
        clash = new Clash(world, record);
        returns = new ReturnTimes(world);
        outside = () => Outside.Update(world, world.Now);
    }

    /// <summary>Plays a timeline.</summary>
    /// <exception cref="ArgumentException">The timeline names what the scenario does not have, two activities share an id, or one ends no later than it starts.</exception>
    public static Trace Play(Scenario scenario, Timeline timeline) => Play(scenario, timeline, static activities => activities);

    /// <summary>Plays with the order inside each phase changed; the trace must not depend on it.</summary>
    internal static Trace Play(Scenario scenario, Timeline timeline, Func<ImmutableArray<Activity>, ImmutableArray<Activity>> reorder) => Play(scenario, timeline, reorder, out _);

    /// <summary>Plays, and gives what suits go through too: it has to be reckoned for the trace.</summary>
    internal static Trace Play(Scenario scenario, Timeline timeline, out ImmutableArray<SuitWalk> suits) => Play(scenario, timeline, static activities => activities, out suits);

    private static Trace Play(Scenario scenario, Timeline timeline, Func<ImmutableArray<Activity>, ImmutableArray<Activity>> reorder, out ImmutableArray<SuitWalk> suits)
    {
        foreach (Activity activity in timeline.Activities)
            if (activity.End <= activity.Start)
                throw new ArgumentException($"activity '{activity.Id}' ends at {activity.End}, which is not after its start {activity.Start}", nameof(timeline));
        if (timeline.Activities.DistinctBy(activity => activity.Id).Count() != timeline.Activities.Length)
            throw new ArgumentException("two activities have one id", nameof(timeline));
        ImmutableArray<Activity> sorted = [.. timeline.Activities.OrderBy(activity => activity.Id.Value, StringComparer.Ordinal)];
        return new Player(scenario, timeline, reorder(sorted)).Run(out suits);
    }

    private Trace Run(out ImmutableArray<SuitWalk> suits)
    {
        Pet from = activities.IsEmpty ? default : activities.Min(activity => activity.Start);
        Pet to = activities.IsEmpty ? default : activities.Max(activity => activity.End);
        world.Now = from;
        Outside.Update(world, from);
        record.Open();
        foreach (Instant instant in Instant.All(world.Scenario, activities, from, to)) Pass(instant);
        returns.Close(to);
        ImmutableArray<Change> changes = record.Changes;
        Trace trace = new(
            timeline.Scenario, timeline.PlanId, timeline.Branch, from, to,
            world.Register.Variables, record.Start, changes, record.Facts,
            returns.Curves(from, to, new Closed(world, record.Start, changes, activities)), [])
        { Lines = lines.ToImmutable() };
        world.Book.GiveBack();
        suits = SuitWalk.Of(world.Scenario, timeline, trace);
        ImmutableArray<CutOff> cutOffs = Ceiling.CutOffs(world.Scenario, suits);
        return trace with { CutOffs = cutOffs, Ceiling = Ceiling.Of(world.Scenario, cutOffs, from, to) };
    }

    private void Pass(Instant instant)
    {
        world.Now = instant.Now;
        End(instant);
        record.By(null, outside);
        Begin(instant);
        returns.Settle(instant.Now);
        foreach ((PersonId person, ImmutableArray<GripId> grips) in world.LinesLaidAnew()) lines.Add(new(instant.Now, person, grips));
        record.CloseInstant(instant.Now);
    }

    private void End(Instant instant)
    {
        clash.Open(instant.Now, instant.Ends.Count + instant.Arrivals.Count + instant.HooksOff.Count + instant.HooksOn.Count);
        foreach (Activity activity in instant.Ends) running[activity.Id].Look();
        foreach (Activity activity in instant.Ends) clash.Check(activity, CollectionsMarshal.AsSpan(running[activity.Id].AtEnd));
        foreach ((Translate walk, int span) in instant.Arrivals) clash.Apply(walk, () => Arrive(walk, span));
        // Of two hooks moved in one second it is not told which comes first: the release is taken to.
        foreach (Activity activity in instant.HooksOff)
        {
            clash.Check(activity, HookMoments.ReleaseOf(world, activity));
            clash.Apply(activity, () => HookMoments.Off(world, activity));
        }
        foreach (Activity activity in instant.HooksOn) clash.Apply(activity, () => HookMoments.On(world, activity));
        foreach (Activity activity in instant.Ends) clash.Apply(activity, () => Finish(activity));
        clash.Tell();
    }

    private void Begin(Instant instant)
    {
        clash.Open(instant.Now, instant.Starts.Count);
        begun.Clear();
        foreach (Activity activity in instant.Starts) begun.Add(Deeds.Of(world, starts, activity));
        foreach (Deed deed in begun) clash.Check(deed.Activity, CollectionsMarshal.AsSpan(deed.AtStart));
        foreach (Deed deed in begun) clash.Note(deed.Activity, watch.Begin(deed, instant.Now));
        foreach (Deed deed in begun) clash.Apply(deed.Activity, deed.Begin);
        clash.Tell();
        foreach (Deed deed in begun) running[deed.Activity.Id] = deed;

        watch.Recheck(record.ChangedNow, instant.Now);

        foreach (Deed deed in begun) returns.Begin(deed);
        foreach ((Translate walk, int span) in instant.Arrivals) returns.NextSpan(walk, span + 1);
    }

    private void Arrive(Translate walk, int span)
    {
        WalkDeeds.Arrive(world, walk, span);
        arrivals[walk.Id] = span + 1;
    }

    private void Finish(Activity activity)
    {
        // A walk whose spans are told longer than the whole still arrives, so that one cause gives one finding.
        if (activity is Translate walk)
            for (int span = arrivals.GetValueOrDefault(walk.Id); span < walk.Spans.Length; span++) WalkDeeds.Arrive(world, walk, span);
        Deed deed = running[activity.Id];
        deed.Finish();
        watch.End(deed);
        running.Remove(activity.Id);
        returns.End(deed);
    }
}
