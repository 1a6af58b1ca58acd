using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>Where a person is for a while: at a grip, on a span, at a pose of an arm, or riding it from one pose to another.</summary>
/// <param name="From">Its first second.</param>
/// <param name="To">The first second after it.</param>
/// <param name="Line">The point or straight line that the person is on.</param>
/// <param name="Grips">The grips touched: the one stood at, both ends of a span, or those that a ride passes.</param>
/// <param name="Words">In words, after the person's name.</param>
/// <param name="Arm">The arm ridden, or at whose pose the person is; null on the structure.</param>
public sealed record Whereabouts(Pet From, Pet To, Stretch Line, ImmutableArray<GripId> Grips, string Words, ArmId? Arm)
{
    /// <summary>The stretch of time.</summary>
    public PetInterval While => new(From, To);

    /// <summary>Everything of one person. While a span is walked the person counts as at its near end as well, since it may be turned back on.</summary>
    internal static ImmutableArray<Whereabouts> Of(Case given, PersonId person)
    {
        Dictionary<string, Grip> grips = given.Scenario.Station.Grips.ToDictionary(grip => Places.At(grip.Id), StringComparer.Ordinal);
        Dictionary<string, (Arm Arm, Pose Pose)> poses = given.Scenario.Arms
            .SelectMany(arm => arm.Poses.Select(pose => (arm, pose))).ToDictionary(one => Places.At(one.arm.Id, one.pose.Id), StringComparer.Ordinal);
        List<Whereabouts> all = [];
        foreach ((Pet from, Pet to, int value) in given.History.Stretches(given.History[$"person {person} place"]))
        {
            string place = given.Trace.Variables[given.History[$"person {person} place"]].States[value];
            if (grips.TryGetValue(place, out Grip? grip)) all.Add(new(from, to, Stretch.Of(grip.At), [grip.Id], $"at {grip.Id}", null));
            else if (poses.TryGetValue(place, out (Arm Arm, Pose Pose) held))
                all.Add(new(from, to, Stretch.Of(held.Pose.At), [], $"at {held.Pose.Id} on {held.Arm.Id}", held.Arm.Id));
        }
        foreach (Activity activity in given.Timeline.Activities)
            if (activity is Translate walk && walk.Person == person) all.AddRange(SpansOf(walk, grips));
            else if (activity is ArmMove move && move.Rider == person) all.Add(RideOf(given.Scenario, move));
        return [.. all.OrderBy(one => one.From).ThenBy(one => one.To)];
    }

    /// <summary>What an arm's move sweeps: the straight line between its poses, and the grips that the scenario says it passes.</summary>
    internal static Whereabouts RideOf(Scenario scenario, ArmMove move)
    {
        Arm arm = scenario.Arms.First(one => one.Id == move.Arm);
        Point Of(PoseId id) => arm.Poses.First(pose => pose.Id == id).At;
        return new(move.Start, move.End, new(Of(move.From), Of(move.To)), arm.RideBetween(move.From, move.To)?.Through ?? [], $"riding {arm.Id} from {move.From} to {move.To}", arm.Id);
    }

    /// <summary>The rides of a scenario for which nobody told what they sweep beyond the straight line.</summary>
    internal static IEnumerable<string> UntoldRides(Scenario scenario) => scenario.Arms.SelectMany(arm => arm.Rides.Where(ride => ride.Through is null)
        .Select(ride => $"what {arm.Id} passes between {ride.A} and {ride.B} beyond the straight line is not told (through)"));

    private static IEnumerable<Whereabouts> SpansOf(Translate walk, Dictionary<string, Grip> grips)
    {
        Pet at = walk.Start;
        for (int i = 0; i < walk.Spans.Length; i++)
        {
            SpanWalk span = walk.Spans[i];
            Pet end = i == walk.Spans.Length - 1 ? walk.End : at.Plus(span.Time);
            yield return new(at, end, new(grips[span.From.Value].At, grips[span.To.Value].At), [span.From, span.To], $"between {span.From} and {span.To}", null);
            at = end;
        }
    }
}
