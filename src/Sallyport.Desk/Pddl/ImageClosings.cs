using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>A set of places that is closed while something is so: a zone, what a joint moves, what lies too near to jets or to a beam.</summary>
/// <param name="IsOpen">The sentence that says that it is open.</param>
/// <param name="Takes">Whether a stretch of the structure or of a ride lies in it, told by its line and the grips that it touches.</param>
internal sealed record ImageClosing(string IsOpen, Func<Stretch, IEnumerable<GripId>, bool> Takes);

/// <summary>Closed places: nobody is where it is closed, in whatever activity. Which places lie too near to jets and beams is reckoned beforehand,
/// since places do not move; whether they are live is asked of the facts.</summary>
internal static class ImageClosings
{
    public static void Guard(ImageWorld world, ImageAction action)
    {
        foreach (PersonId person in action.People)
            foreach (ImageClosing closing in world.Closings)
            {
                string[] within = [.. Places(world).Where(place => closing.Takes(Stretch.Of(place.At), place.Grips)).Select(place => Say.Not(world.Stands(person, place.Name)))];
                if (within.Length > 0) action.NeedsBetween(Say.Or([closing.IsOpen, Say.And(within)]));
            }
    }

    /// <summary>That a span, or the sweep of a ride, is open while somebody is on it.</summary>
    public static void Guard(ImageWorld world, ImageAction action, Stretch line, IReadOnlyCollection<GripId> grips)
    {
        foreach (ImageClosing closing in world.Closings.Where(closing => closing.Takes(line, grips))) action.NeedsBetween(closing.IsOpen);
    }

    public static IEnumerable<ImageClosing> Of(ImageWorld world)
    {
        Station station = world.Scenario.Station;
        foreach (Zone zone in station.Zones) yield return new(IsOpen(world, zone), (_, grips) => grips.Any(zone.Grips.Contains));
        foreach (Joint joint in station.Joints) yield return new(world.Holds(new(joint.Feature, joint.Locked)), (_, grips) => grips.Any(joint.Moves.Contains));
        // Without a limit nobody has said how near is too near.
        foreach ((string rule, IEnumerable<Emitter> emitters) in new[] { ("jets.armed", station.Jets.AsEnumerable()), ("beam.live", station.Beams) })
            if (world.Scenario.LimitOf(rule) is { Value: { Dimension: Dimension.Length, Value: var keep } })
                foreach (Emitter emitter in emitters) yield return new(world.Holds(new(emitter.Feature, emitter.Safe)), (line, _) => Closeness.Between(line, emitter) < keep);
    }

    private static string IsOpen(ImageWorld world, Zone zone) => Say.And([
        $"(not (shut {world.Zone(zone.Id)}))",
        .. zone.Light switch { LightCondition.Day => ["(dark)"], LightCondition.Night => ["(not (night))"], _ => Array.Empty<string>() },
        .. zone.While.Select(condition => Say.Not(world.Holds(condition)))]);

    private static IEnumerable<(string Name, Point At, IEnumerable<GripId> Grips)> Places(ImageWorld world) =>
    [
        .. world.Scenario.Station.Grips.Select(grip => (world.Grip(grip.Id), grip.At, (IEnumerable<GripId>)[grip.Id])),
        .. world.Scenario.Arms.SelectMany(arm => arm.Poses.Select(pose => (world.Pose(arm.Id, pose.Id), pose.At, Enumerable.Empty<GripId>()))),
    ];
}
