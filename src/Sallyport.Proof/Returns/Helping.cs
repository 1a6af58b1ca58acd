using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>
/// How long it takes to bring somebody in who cannot come in alone: the best helper leaves what is at hand and goes there, makes that person
/// ready to be moved, and both come home along that person's line.
/// </summary>
internal sealed class Helping(World world, WayHome wayHome, ArmHome armHome, HelpTimes help)
{
    private readonly Dictionary<PersonId, List<Stand>> stands = world.Register.People.Keys.ToDictionary(person => person, _ => new List<Stand>());
    private readonly HelpWays ways = new(world, wayHome, help);

    /// <summary>An activity goes on from now, walks apart.</summary>
    public void Begin(Activity activity)
    {
        foreach (PersonId person in activity.People.Distinct())
        {
            if (!world.IsOutside(person) || activity is AirlockPhase { Phase: AirlockPhaseKind.In }) continue;
            int length = activity.Length.Seconds;
            switch (activity)
            {
                case SwapReel swap:
                    Add(person, activity.Start, activity.End, activity, length, 0, After(person, swap));
                    break;
                case ArmMove move:
                    int toMount = world.Lookup.Arm(move.Arm) is var moving ? armHome.ToMount(person, moving, move.To) + moving.Dismount.Time.Seconds : 0;
                    Add(person, activity.Start, activity.End, activity, length + toMount, toMount, AtMount(person, moving));
                    break;
                case DismountArm dismount:
                    Add(person, activity.Start, activity.End, activity, length, 0, Here(person, dismount.At));
                    break;
                default:
                    int clear = BreakOff.Seconds(world, activity);
                    if (activity is not LeaveRestraint && world.Footing(person).StartsWith("socket ", StringComparison.Ordinal)) clear += world.Scenario.Handling.Leave.Time.Seconds;
                    Standpoint place;
                    if (world.Scenario.Arms.FirstOrDefault(arm => world.Footing(person) == Places.On(arm.Id)) is { } on)
                    {
                        clear += armHome.ToMount(person, on, PoseOf(person, on)) + on.Dismount.Time.Seconds;
                        place = AtMount(person, on);
                    }
                    else place = Here(person, new GripId(world.Place(person)));
                    Add(person, activity.Start, activity.End, activity, clear, clear, place);
                    break;
            }
        }
    }

    /// <summary>One span of a walk goes on: a helper ends it first; who needs help is found at the end of it that is further from help.</summary>
    public void NextSpan(Translate walk, SpanWalk told, Pet from, Pet to)
    {
        TetherLine line = world.Lines[walk.Person];
        Span? span = world.Lookup.Span(told.From, told.To);
        int millimetres = span is null ? 0 : (int)Math.Ceiling(span.Length * 1000 - 1e-6);
        ImmutableArray<LineMark> behind = [.. line.FromAirlockToEnd()];
        ImmutableArray<LineMark> ahead = behind.IsEmpty ? [] : line.LeadsBackTo(told.To) ? behind[..^1]
            : behind.Add(new(told.To, false, new(told.To, millimetres, span, told.Time.Seconds)));
        int least = span is null ? told.Time.Seconds : wayHome.SpanSeconds(walk.Person, world.SlowedBy(walk.Person), span);
        int time = Math.Max(least, to.Since(from).Seconds);
        Add(walk.Person, from, to, walk, time, time - to.Since(from).Seconds, new(told.To, ahead), new(told.From, behind));
    }

    /// <summary>One curve a person, for the moments at which somebody else is outside too.</summary>
    public IEnumerable<ReturnCurve> Curves()
    {
        Dictionary<PersonId, Stand[]> sorted = stands.ToDictionary(one => one.Key, one => one.Value.OrderBy(stand => stand.From).ThenBy(stand => stand.Activity.Value, StringComparer.Ordinal).ToArray());
        Pet[] moments = [.. stands.Values.SelectMany(own => own).SelectMany(stand => new[] { stand.From, stand.To }).Distinct().Order()];
        foreach (PersonId person in world.Scenario.People.Select(one => one.Id).Where(stands.ContainsKey))
        {
            List<Segment> pieces = [];
            Dictionary<PersonId, int> next = sorted.Keys.ToDictionary(one => one, _ => 0);
            for (int i = 0; i + 1 < moments.Length; i++)
            {
                if (At(sorted[person], next, person, moments[i]) is not { } own) continue;
                Segment? best = null;
                foreach ((PersonId helper, Stand[] all) in sorted.OrderBy(one => one.Key.Value, StringComparer.Ordinal))
                {
                    if (helper == person || At(all, next, helper, moments[i]) is not { } other) continue;
                    Segment piece = new(moments[i], moments[i + 1], Total(person, own, helper, other, moments[i]), Total(person, own, helper, other, moments[i + 1]), own.Activity, Stage.Outside);
                    // One helper for the whole piece, so that a straight line between its ends is never below the truth.
                    if (best is not { } known || Math.Max(piece.FromSeconds, piece.ToSeconds) < Math.Max(known.FromSeconds, known.ToSeconds)) best = piece;
                }
                if (best is { } found) pieces.Add(found);
            }
            if (pieces.Count > 0) yield return new ReturnCurve(ReturnKind.Help, person, Segments.Points(pieces));
        }
    }

    private static Stand? At(Stand[] own, Dictionary<PersonId, int> next, PersonId person, Pet moment)
    {
        while (next[person] < own.Length && own[next[person]].To <= moment) next[person]++;
        return next[person] < own.Length && own[next[person]].From <= moment ? own[next[person]] : null;
    }

    /// <summary>All of it at one moment, one thing after the other: the helper comes, gets that person clear of what goes on (an arm that could move
    /// meanwhile is not reckoned so), and both go home. Who is found between two grips has nothing to be got clear of.</summary>
    private double Total(PersonId person, Stand own, PersonId helper, Stand other, Pet now)
    {
        Airlock airlock = wayHome.AirlockOf(person);
        double worst = 0;
        foreach (Standpoint place in own.Places) worst = Math.Max(worst, ways.There(helper, other, person, place) + ways.Home(helper, other.Slower, person, own.Slower, place));
        double clear = own.Places.Length > 1 ? 0 : own.Clear(now);
        return Math.Min(WayHome.None, other.Clear(now) + clear + worst + help.Secure.Seconds + help.Enter.Seconds + airlock.Close.Seconds);
    }

    private void Add(PersonId person, Pet from, Pet to, Activity activity, double clearFrom, double clearTo, params ReadOnlySpan<Standpoint> places) =>
        stands[person].Add(new(from, to, activity.Id, world.SlowedBy(person), clearFrom, clearTo, [.. places]));

    private Standpoint Here(PersonId person, GripId grip) => new(grip, [.. world.Lines[person].FromAirlockToEnd()]);

    private Standpoint AtMount(PersonId person, Arm arm) => Here(person, armHome.MountOf(person, arm)?.Grip ?? world.Lines[person].End ?? wayHome.AirlockOf(person).Grip);

    /// <summary>Once a change of reels is ended.</summary>
    private Standpoint After(PersonId person, SwapReel swap)
    {
        ImmutableArray<LineMark> marks = [.. world.Lines[person].FromAirlockToEnd()];
        return new(swap.At, swap.Onto == swap.At ? marks.Add(new(swap.At, true, default)) : marks is [.., { Hook: true }] && marks.Length > 1 ? marks[..^1] : marks);
    }

    private PoseId PoseOf(PersonId person, Arm arm) => world.Place(person) is var place && place.StartsWith(arm.Id.Value + "/", StringComparison.Ordinal)
        ? new(place[(arm.Id.Value.Length + 1)..])
        : armHome.MountOf(person, arm)?.Pose ?? arm.Start;
}
