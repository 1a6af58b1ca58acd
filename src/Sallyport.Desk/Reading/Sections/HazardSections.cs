using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads what can hurt somebody near it: joints, jets, beams.</summary>
internal static class HazardSections
{
    public static Joint Joint(MapReader r)
    {
        HazardId id = new(r.Id("id", Kinds.Hazard));
        FeatureId feature = new(r.Ref("feature", Kinds.Feature));
        return new(id, feature, r.FilledRefs("locked", Kinds.State(feature.Value), state => state), r.FilledRefs("moves", Kinds.Grip, name => new GripId(name)));
    }

    public static Emitter Emitter(MapReader r)
    {
        HazardId id = new(r.Id("id", Kinds.Hazard));
        FeatureId feature = new(r.Ref("feature", Kinds.Feature));
        ImmutableArray<string> safe = r.FilledRefs("safe", Kinds.State(feature.Value), state => state);
        Point at = r.Point("at");
        double around = r.Has("around") ? r.Measure("around", Dimension.Length, aboveZero: false) : 0;
        return new(id, feature, safe, at, around, r.OptionalMap("cone", "a cone", Cone));
    }

    private static Cone Cone(MapReader r)
    {
        Point along = r.Point("along");
        if (along == default && r.Find("along") is TextNode node && r.Binding.Count == 0)
            r.Binding.Report(ValueProblems.Range(node, "along", "a direction: at least one figure other than zero"));
        double angle = r.Measure("half_angle", Dimension.Angle);
        // A degree read in radians may come out a last bit above the right angle.
        if (angle > Math.PI / 2 + 1e-12 && r.Find("half_angle") is TextNode wide)
            r.Binding.Report(ValueProblems.Range(wide, "half_angle", "more than 0, at most 90 deg"));
        return new(along, Math.Min(angle, Math.PI / 2), r.Measure("reach", Dimension.Length));
    }
}
