using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shape of the section about the orbit.</summary>
internal static class OrbitShapes
{
    /// <summary>The name of a file beside the scenario.</summary>
    internal static JsonObject FileName(string what, string such)
    {
        JsonObject shape = Shapes.Text(what, such);
        shape["pattern"] = @"^(?!\.{1,2}$)[^/\\]*[^/\\\s][^/\\]*$";
        return shape;
    }

    public static JsonNode Orbit() => new MapShape("The orbit that day, night, link and radiation are computed from; what stands under sky is added to it.")
        .Must("elements", FileName("The file of mean elements in the folder of the scenario: an OMM or a two-line element set.", "skerry.omm"))
        .Must("note_after", Shapes.PositiveFigure("Elements older than this, either way, get a note.", Dimension.Time, "3 d"))
        .Must("refuse_after", Shapes.PositiveFigure("Elements older than this, either way, are refused.", Dimension.Time, "14 d"))
        .May("stations", Shapes.List("Ground stations.", new MapShape("A ground station.")
            .Must("name", Shapes.Name("Its name.", "Cove", blanks: true))
            .Must("latitude", Latitude()).Must("longitude", Longitude())
            .May("height", Shapes.FigureFromZero("Above the ellipsoid; zero when missing.", Dimension.Length, "40 m"))
            .Must("mask", Shapes.Figure("The lowest elevation at which it sees, −5 to 60 deg.", Dimension.Angle, "5 deg"))
            .May("skyline", Shapes.List("What stands higher than the mask, in order from north by east, straight between the points.", new MapShape("A point of a skyline.")
                .Must("azimuth", Shapes.Figure("From north by east, 0 to 360 deg.", Dimension.Angle, "90 deg"))
                .Must("elevation", Shapes.Figure("−5 to 60 deg.", Dimension.Angle, "12 deg"))))))
        .May("relays", Shapes.List("Relays in geostationary orbit.", new MapShape("A relay.")
            .Must("name", Shapes.Name("Its name.", "East", blanks: true))
            .Must("longitude", Longitude())
            .Must("grazing", Shapes.FigureFromZero("The least height at which the line to it may pass the Earth; at most 1000 km.", Dimension.Length, "100 km"))))
        .May("radiation", Shapes.List("Regions of the map over which radiation is high.", new MapShape("A region of high radiation.")
            .Must("name", Shapes.Name("Its name.", "Shoal", blanks: true))
            .Must("corners", Shapes.List("At least three, in order around it.", new MapShape("A corner.").Must("latitude", Latitude()).Must("longitude", Longitude()), filled: true))))
        .May("attitude", new MapShape("How the station flies, all the time: its axes against forward, starboard, down along the orbit. Needed to tell sun and shade at worksites.")
            .Must("yaw", Turn("About down first: above zero turns the bow to starboard."))
            .Must("pitch", Turn("Then about starboard: above zero lifts the bow."))
            .Must("roll", Turn("Then about forward: above zero lowers the starboard side."))
            .Must("glare", Shapes.Figure("Nearer than this to where somebody looks the Sun is in the eyes, 0 to 90 deg.", Dimension.Angle, "30 deg")))
        .Must("source", WalkShapes.Source());

    private static JsonObject Latitude() => Shapes.Figure("Geodetic, north above zero, −90 to 90 deg.", Dimension.Angle, "34.5 deg");

    private static JsonObject Longitude() => Shapes.Figure("East above zero, −360 to 360 deg.", Dimension.Angle, "-71.2 deg");

    private static JsonObject Turn(string about) => Shapes.Figure($"{about} −180 to 180 deg.", Dimension.Angle, "0 deg");
}
