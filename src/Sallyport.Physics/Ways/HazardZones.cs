using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>Joints, jets and beams as zones, so that ways keep out of them: every grip too near, and both ends of every span too near.</summary>
public static class HazardZones
{
    /// <summary>The zones; each is closed while its feature is in a state that is not safe.</summary>
    /// <remarks>Jets and beams without a limit to keep clear by, or whose feature is always safe, give none.</remarks>
    public static ImmutableArray<Zone> Of(Scenario scenario)
    {
        ImmutableArray<Zone>.Builder zones = ImmutableArray.CreateBuilder<Zone>();
        Station station = scenario.Station;
        foreach (Joint joint in station.Joints)
            if (Unsafe(station, joint.Feature, joint.Locked) is { } turning)
                zones.Add(new(new(joint.Id.Value), "a joint that may move", joint.Moves, [], null, [turning]));
        foreach ((ImmutableArray<Emitter> emitters, string rule, string why) in new[] { (station.Jets, "jets.armed", "jets that may fire"), (station.Beams, "beam.live", "an antenna that sends") })
            if (Clearance(scenario, rule) is { } clearance)
                foreach (Emitter emitter in emitters)
                    if (Unsafe(station, emitter.Feature, emitter.Safe) is { } live)
                        zones.Add(new(new(emitter.Id.Value), why, TooNear(station, emitter, clearance), [], null, [live]));
        return zones.ToImmutable();
    }

    /// <summary>The length to keep clear by that the scenario gives for a rule, m; null when it gives none.</summary>
    public static double? Clearance(Scenario scenario, string rule) =>
        scenario.LimitOf(rule) is { Value.Dimension: Dimension.Length } limit ? limit.Value.Value : null;

    private static FeatureCondition? Unsafe(Station station, FeatureId feature, ImmutableArray<string> safe)
    {
        ImmutableArray<string> states = [.. station.Features.Where(one => one.Id == feature).SelectMany(one => one.States).Except(safe)];
        return states.IsEmpty ? null : new(feature, states);
    }

    private static ImmutableArray<GripId> TooNear(Station station, Emitter emitter, double clearance)
    {
        Dictionary<GripId, Point> points = station.Grips.ToDictionary(grip => grip.Id, grip => grip.At);
        HashSet<GripId> near = [.. station.Grips.Where(grip => Closeness.Between(Stretch.Of(grip.At), emitter) < clearance).Select(grip => grip.Id)];
        foreach (Span span in station.Spans)
            if (Closeness.Between(new Stretch(points[span.A], points[span.B]), emitter) < clearance) near.UnionWith([span.A, span.B]);
        return [.. station.Grips.Select(grip => grip.Id).Where(near.Contains)];
    }
}
