using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>
/// How long it takes to bring somebody in who cannot come in alone: the best helper leaves what is at hand and goes there, makes that person
/// ready to be moved, and both come home along that person's line.
/// </summary>
internal sealed class Helping(World world, WayHome wayHome, ArmHome armHome, HelpTimes help)
{
    private readonly Dictionary<PersonId, List<Stand>> stands = world.Register.People.Keys.ToDictionary(person => person, _ => new List<Stand>());
    private readonly HelpWays ways = world.Book.HelpWays!;

    /// <summary>An activity goes on from now, walks apart.</summary>
    public void Begin(Deed deed)
    {
        Activity activity = deed.Activity;
        foreach (PersonId person in deed.Who)
        {
            if (!world.IsOutside(person) || activity is AirlockPhase { Phase: AirlockPhaseKind.In }) continue;
            int length = activity.Length.Seconds;
            Passage here = Passage.At(world.Place(person));
            switch (activity)
            {
                case SwapReel swap:
                    Add(person, activity.Start, activity.End, activity, here, activity.End, [], After(person, swap));
                    break;
                case ArmMove move:
                    Arm moving = world.Lookup.Arm(move.Arm);
                    Passage ridden = new(Places.At(move.Arm, move.From), Places.At(move.Arm, move.To));
                    Add(person, activity.Start, activity.End, activity, ridden, activity.End, armHome.OffBy(person, moving, move.To), AtMount(person, moving));
                    Stops(person, new(activity.Start, activity.End, activity.Id, world.SlowedBy(person), ridden, null, [], [Below(person, moving, move.From), Below(person, moving, move.To)]));
                    break;
                case DismountArm dismount:
                    Add(person, activity.Start, activity.End, activity, new(world.Place(person), Places.At(dismount.At)), activity.End, [], Here(person, dismount.At));
                    break;
                default:
                    List<WayLeg> off = [new(here, BreakOff.Seconds(world, activity))];
                    if (activity is not LeaveRestraint && world.Footing(person).StartsWith("socket ", StringComparison.Ordinal)) off.Add(new(here, world.Scenario.Handling.Leave.Time.Seconds));
                    Standpoint place;
                    Stand? stopped = null;
                    if (world.Scenario.Arms.FirstOrDefault(arm => world.Footing(person) == Places.On(arm.Id)) is { } on)
                    {
                        // Where one got on, getting off needs no arm.
                        if (armHome.MountOf(person, on)?.Pose != PoseOf(person, on))
                            stopped = new(activity.Start, activity.End, activity.Id, world.SlowedBy(person), here, null, [.. off.Where(leg => leg.Seconds > 0)], [Below(person, on, PoseOf(person, on))]);
                        off.AddRange(armHome.OffBy(person, on, PoseOf(person, on)));
                        place = AtMount(person, on);
                    }
                    else place = Here(person, new GripId(world.Place(person)));
                    Add(person, activity.Start, activity.End, activity, here, null, off, place);
                    if (stopped is not null) Stops(person, stopped);
                    break;
            }
        }
    }

    /// <summary>Where one climbs down to from a pose, with the arm stopped there; no way down where nothing is in reach. Where one got on, one gets off.</summary>
    private Standpoint Below(PersonId person, Arm arm, PoseId id)
    {
        string here = Places.At(arm.Id, id);
        if (armHome.MountOf(person, arm) is { } mount && mount.Pose == id) return At(mount.Grip, new(new(here, Places.At(mount.Grip)), arm.Dismount.Time.Seconds));
        return arm.Poses.FirstOrDefault(one => one.Id == id) is { ClimbTo: { } grip } pose
            ? At(grip, new(new(here, Places.At(grip)), pose.Climb.Seconds))
            : At(world.Scenario.Station.Grips[0].Id, new(Passage.At(here), Way.NoneSeconds));

        Standpoint At(GripId below, WayLeg climb) => world.Book.StandpointAt(below, world.Book.Nothing, climb);
    }

    private void Stops(PersonId person, Stand stopped) => stands[person][^1] = stands[person][^1] with { Stopped = stopped };

    /// <summary>One span of a walk goes on: a helper ends it first; who needs help is found at the end of it that is further from help.</summary>
    public void NextSpan(Translate walk, SpanWalk told, Pet from, Pet to)
    {
        TetherLine line = world.Lines[walk.Person];
        Span? span = world.Lookup.Span(told.From, told.To);
        int millimetres = span is null ? 0 : (int)Math.Ceiling(span.Length * 1000 - 1e-6);
        Lay behind = line.Lay;
        Lay ahead = behind.IsEmpty ? behind : line.LeadsBackTo(told.To) ? behind.Before! : behind.WithStretch(new(told.To, millimetres, span, told.Time.Seconds));
        int least = span is null ? told.Time.Seconds : wayHome.Of(walk.Person, world.SlowedBy(walk.Person)).SpanSeconds(span);
        int time = Math.Max(least, to.Since(from).Seconds);
        Add(walk.Person, from, to, walk, new(Places.At(told.From), Places.At(told.To)), from.Plus(Duration.FromSeconds(time)), [], world.Book.StandpointAt(told.To, ahead), world.Book.StandpointAt(told.From, behind));
    }

    /// <summary>One curve a person, for the moments at which somebody else is outside too; and one for those of them at which the arm can stop under one of the two.</summary>
    public IEnumerable<ReturnCurve> Curves(Closed closed)
    {
        Dictionary<PersonId, (Stand, Walker)[]> sorted = stands.ToDictionary(one => one.Key, one => one.Value.OrderBy(stand => stand.From).ThenBy(stand => stand.Activity.Value, StringComparer.Ordinal)
            .Select(stand => (stand, wayHome.Of(one.Key, stand.Slower))).ToArray());
        Pet[] moments = [.. stands.Values.SelectMany(own => own).SelectMany(stand => new[] { stand.From, stand.To }).Distinct().Order()];
        PersonId[] everybody = [.. sorted.Keys.OrderBy(one => one.Value, StringComparer.Ordinal)];
        foreach (PersonId person in world.Scenario.People.Select(one => one.Id).Where(stands.ContainsKey))
        {
            List<Segment> pieces = [], stopped = [];
            Going self = new(sorted[person]);
            Going[] others = [.. everybody.Where(one => one != person).Select(one => new Going(sorted[one]))];
            for (int i = 0; i + 1 < moments.Length; i++)
            {
                if (self.At(moments[i]) is not var (own, who)) continue;
                List<HelpHome> helpers = [], armless = [];
                bool stops = own.Stopped is not null;
                foreach (Going stands in others)
                {
                    if (stands.At(moments[i]) is not var (other, helper)) continue;
                    bool same = own.Stopped is null && other.Stopped is null;
                    helpers.Add(By(own, who, other, helper));
                    armless.Add(same ? helpers[^1] : By(own.Stopped ?? own, who, other.Stopped ?? other, helper));
                    stops |= !same;
                }
                if (helpers.Count == 0) continue;
                Segment empty = new(moments[i], moments[i + 1], 0, 0, own.Activity, Stage.Outside);
                AddPieces(pieces, helpers, empty, closed);
                if (stops) AddPieces(stopped, armless, empty, closed);
            }
            if (pieces.Count > 0) yield return new ReturnCurve(ReturnKind.Help, person, Segments.Points(pieces));
            if (stopped.Count > 0) yield return new ReturnCurve(ReturnKind.HelpArmless, person, Segments.Points(stopped));

            HelpHome By(Stand own, Walker who, Stand other, Walker helper) => new(own, other, Ways(own, who, other, helper), help.Secure.Seconds);
        }
    }

    private static void AddPieces(List<Segment> pieces, List<HelpHome> helpers, Segment empty, Closed closed)
    {
        // One helper for the whole piece, so that a straight line between its ends is never below the truth.
        Segment? best = null;
        bool meets = false;
        foreach (HelpHome helper in helpers)
        {
            Segment piece = empty with { FromSeconds = helper.Open(empty.From), ToSeconds = helper.Open(empty.To) };
            if (best is not { } other || Math.Max(piece.FromSeconds, piece.ToSeconds) < Math.Max(other.FromSeconds, other.ToSeconds)) best = piece;
            meets = meets || helper.Meets(closed, empty.From, empty.To);
        }
        if (meets) pieces.AddRange(Sampled(helpers, empty, closed));
        else if (best is { } open) pieces.Add(open);
    }

    private static IEnumerable<Segment> Sampled(List<HelpHome> helpers, Segment empty, Closed closed) => Proof.Sampled.Pieces(empty, moment => helpers.Min(helper => helper.With(closed, moment)),
        (from, seconds) => string.Join(" and ", helpers.SelectMany(helper => helper.Names(closed, from, seconds)).Distinct().Order(StringComparer.Ordinal)));

    /// <summary>One person's stands, gone through in order of time.</summary>
    private sealed class Going((Stand Stand, Walker Who)[] stands)
    {
        private int next;

        /// <summary>The stand at a moment, none earlier than that asked for before, and how the person goes on from it; null when there is none.</summary>
        public (Stand Stand, Walker Who)? At(Pet moment)
        {
            while (next < stands.Length && stands[next].Stand.To <= moment) next++;
            return next < stands.Length && stands[next].Stand.From <= moment ? stands[next] : null;
        }
    }

    /// <summary>The helper's way, and the way home, for each place where that person may be found.</summary>
    private ImmutableArray<(Passage Place, Way There, Way Home)> Ways(Stand own, Walker who, Stand other, Walker helper)
    {
        var found = new (Passage, Way, Way)[own.Places.Length];
        for (int i = 0; i < found.Length; i++)
        {
            Standpoint place = own.Places[i];
            found[i] = (Passage.At(place.Climb is { } climb ? climb.Where.From : Places.At(place.Grip)), ways.There(helper, other, who, place), ways.Home(helper, who, place));
        }
        return ImmutableCollectionsMarshal.AsImmutableArray(found);
    }

    private void Add(PersonId person, Pet from, Pet to, Activity activity, Passage where, Pet? until, IEnumerable<WayLeg> off, params ReadOnlySpan<Standpoint> places) =>
        stands[person].Add(new(from, to, activity.Id, world.SlowedBy(person), where, until, [.. off.Where(leg => leg.Seconds > 0)], [.. places]));

    private Standpoint Here(PersonId person, GripId grip) => world.Book.StandpointAt(grip, world.Lines[person].Lay);

    private Standpoint AtMount(PersonId person, Arm arm) => Here(person, armHome.MountOf(person, arm)?.Grip ?? world.Lines[person].End ?? wayHome.AirlockOf(person).Grip);

    /// <summary>Once a change of reels is ended.</summary>
    private Standpoint After(PersonId person, SwapReel swap)
    {
        Lay line = world.Lines[person].Lay;
        return world.Book.StandpointAt(swap.At, swap.Onto == swap.At ? line.WithHook(swap.At) : line.Mark.Hook && line.Reels > 1 ? line.Before! : line);
    }

    private PoseId PoseOf(PersonId person, Arm arm) => world.Place(person) is var place && place.StartsWith(arm.Id.Value + "/", StringComparison.Ordinal)
        ? new(place[(arm.Id.Value.Length + 1)..])
        : armHome.MountOf(person, arm)?.Pose ?? arm.Start;
}
