using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>Reads the section about the orbit: elements, stations, relays, regions of high radiation, attitude.</summary>
internal static class OrbitSections
{
    public static OrbitGiven Orbit(MapReader r)
    {
        TextNode? file = r.RequiredText("elements", "station.omm");
        if (file is not null) CheckFileName(r.Binding, file, "elements", "station.omm");
        double note = r.Measure("note_after", Dimension.Time) / 86400, refuse = r.Measure("refuse_after", Dimension.Time) / 86400;
        return new(
            file, note, refuse,
            r.List("stations", "a ground station", Station), r.List("relays", "a relay", Relay), r.List("radiation", "a region of high radiation", Region),
            r.OptionalMap("attitude", "an attitude", Attitude), r.Text("source"));
    }

    /// <summary>Tells a file that is not beside the scenario: a scenario is one folder.</summary>
    internal static void CheckFileName(Binding binding, TextNode file, string key, string such)
    {
        if (file.Text != Path.GetFileName(file.Text) || file.Text.Contains('\\') || file.Text is "." or "..")
            binding.Report(ValueProblems.Form(file, key, "the name of a file in the folder of the scenario", such));
    }

    private static GroundStation Station(MapReader r) => new(
        r.Id("name", Kinds.GroundStation, blanks: true), Map(r), r.Has("height") ? r.Measure("height", Dimension.Length, aboveZero: false) : 0,
        r.Degrees("mask", -5, 60), r.List("skyline", "a point of a skyline", Skyline) is var points && Rises(r, points) ? [.. points.Select(point => point.Point)] : []);

    private static SkylineRead Skyline(MapReader r) => new(new(r.Degrees("azimuth", 0, 360), r.Degrees("elevation", -5, 60)));

    private static bool Rises(MapReader r, ImmutableArray<SkylineRead> points)
    {
        for (int i = 1; i < points.Length; i++)
            if (points[i].Point.Azimuth <= points[i - 1].Point.Azimuth && r.Binding.IsWhole(points[i]) && r.Binding.IsWhole(points[i - 1]))
                r.Binding.Report(OrbitProblems.SkylineBack(r.Binding.PlaceOf(points[i])));
        return true;
    }

    private static Relay Relay(MapReader r) => new(r.Id("name", Kinds.GroundStation, blanks: true), r.Degrees("longitude", -360, 360), r.Within("grazing", Dimension.Length, 0, 1e6, "0 to 1000 km") / 1000);

    private static RadiationRegion Region(MapReader r)
    {
        RadiationRegion region = new(r.Id("name", Kinds.Region, blanks: true), [.. r.FilledList("corners", "a corner", inner => new CornerRead(Map(inner))).Select(corner => corner.At)]);
        if (region.Corners.Length is 1 or 2) r.Binding.Report(OrbitProblems.FewCorners(r.Place, region.Name, region.Corners.Length));
        return region;
    }

    private static AttitudeRead Attitude(MapReader r) => new(
        new(r.Degrees("yaw", -180, 180), r.Degrees("pitch", -180, 180), r.Degrees("roll", -180, 180)), r.Degrees("glare", 0, 90));

    private static GroundPoint Map(MapReader r) => new(r.Degrees("latitude", -90, 90), r.Degrees("longitude", -360, 360));

    private sealed record SkylineRead(SkylinePoint Point);

    private sealed record CornerRead(GroundPoint At);
}
