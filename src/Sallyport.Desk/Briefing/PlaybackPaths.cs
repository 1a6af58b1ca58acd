using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>Where people and arms are over time, from the trace; the timeline only adds when a change of place began.</summary>
internal sealed class PlaybackPaths
{
    private readonly Scenario scenario;
    private readonly Trace trace;
    private readonly History history;
    private readonly Dictionary<ActivityId, Activity> activities;
    private readonly Dictionary<GripId, Point> grips;

    public PlaybackPaths(Scenario scenario, Timeline timeline, Trace trace, History history)
    {
        (this.scenario, this.trace, this.history) = (scenario, trace, history);
        activities = timeline.Activities.ToDictionary(activity => activity.Id);
        grips = scenario.Station.Grips.ToDictionary(grip => grip.Id, grip => grip.At);
    }

    public Point? PointOf(GripId grip) => grips.TryGetValue(grip, out Point point) ? point : null;

    public Point? PointOf(Site site) => site.Grip is { } grip ? PointOf(grip)
        : scenario.Arms.FirstOrDefault(arm => arm.Id == site.Arm)?.Poses.FirstOrDefault(pose => pose.Id == site.Pose)?.At;

    /// <summary>Where an arm is drawn from. A scenario tells only where its end is: this is the grip that a rider climbs down to from its first pose, or
    /// the grip nearest to that pose.</summary>
    public Point BaseOf(Arm arm)
    {
        Pose first = arm.Poses.First(pose => pose.Id == arm.Start);
        return first.ClimbTo is { } grip && PointOf(grip) is { } point ? point
            : grips.Count == 0 ? first.At : grips.Values.MinBy(other => other.DistanceTo(first.At));
    }

    /// <summary>When somebody began the change of place that ended at a moment; null for no way along a span.</summary>
    public int? StepTo(PersonId person, Pet at)
    {
        IReadOnlyList<(Pet At, string State, int, ActivityId? By)> places = history.Of($"person {person} place");
        for (int i = 1; i < places.Count; i++)
            if (places[i].At == at && places[i].By is { } by && activities.GetValueOrDefault(by) is Translate walk)
                return Math.Max(walk.Start.Seconds, places[i - 1].At.Seconds);
        return null;
    }

    /// <summary>Time and place; time alone from when on nobody is to be seen.</summary>
    public ImmutableArray<double[]> Of(PersonId person)
    {
        List<double[]> path = [];
        Point? last = null;
        foreach ((Pet at, string state, _, ActivityId? by) in history.Of($"person {person} place"))
        {
            int slash = state.IndexOf('/');
            if (state.EndsWith("/moving", StringComparison.Ordinal) && slash > 0 && by is { } mover && activities.GetValueOrDefault(mover) is ArmMove ride)
            {
                path.AddRange(Ride(ride));
                last = Pose(ride.Arm, ride.To);
                continue;
            }
            Point? now = PointOf(new GripId(state)) ?? (slash > 0 ? Pose(new(state[..slash]), new(state[(slash + 1)..])) : null);
            if (now is not { } point)
            {
                path.Add([at.Seconds]);
            }
            else
            {
                if (last is { } before) path.Add([StepTo(person, at) ?? at.Seconds, .. Of(before)]);
                path.Add([at.Seconds, .. Of(point)]);
            }
            last = now;
        }
        return Ordered(path);
    }

    /// <summary>Where the end of an arm is.</summary>
    public ImmutableArray<double[]> Of(Arm arm)
    {
        List<double[]> path = [];
        foreach ((Pet at, string state, _, ActivityId? by) in history.Of($"arm {arm.Id} pose"))
        {
            if (by is { } mover && activities.GetValueOrDefault(mover) is ArmMove move && state == "moving") path.AddRange(Ride(move));
            else if (Pose(arm.Id, new(state)) is { } point) path.Add([at.Seconds, .. Of(point)]);
        }
        return Ordered(path);
    }

    /// <summary>A move between its brakes, straight.</summary>
    private IEnumerable<double[]> Ride(ArmMove move)
    {
        if (Pose(move.Arm, move.From) is not { } from || Pose(move.Arm, move.To) is not { } to) yield break;
        ArmBrakes? brakes = scenario.Arms.First(arm => arm.Id == move.Arm).Brakes;
        int start = move.Start.Seconds + (brakes?.Release.Seconds ?? 0), end = move.End.Seconds - (move.BrakesSet ? brakes?.Set.Seconds ?? 0 : 0);
        yield return [move.Start.Seconds, .. Of(from)];
        if (start < end) yield return [start, .. Of(from)];
        if (start < end) yield return [end, .. Of(to)];
        yield return [move.End.Seconds, .. Of(to)];
    }

    private Point? Pose(ArmId arm, PoseId pose) => scenario.Arms.FirstOrDefault(one => one.Id == arm)?.Poses.FirstOrDefault(one => one.Id == pose)?.At;

    private static double[] Of(Point point) => [Math.Round(point.X, 3), Math.Round(point.Y, 3), Math.Round(point.Z, 3)];

    /// <summary>Without what says nothing new, and never back in time.</summary>
    private ImmutableArray<double[]> Ordered(List<double[]> path)
    {
        ImmutableArray<double[]>.Builder ordered = ImmutableArray.CreateBuilder<double[]>();
        if (path.Count == 0 || path[0][0] > trace.From.Seconds) ordered.Add([trace.From.Seconds]);
        foreach (double[] point in path)
        {
            if (ordered.Count > 0 && point[0] < ordered[^1][0]) continue;
            if (ordered.Count > 0 && point.SequenceEqual(ordered[^1])) continue;
            ordered.Add(point);
        }
        return ordered.ToImmutable();
    }
}
