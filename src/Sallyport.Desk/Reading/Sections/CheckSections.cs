using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the sections about what people outside do for themselves and for each other: checks, help.</summary>
internal static class CheckSections
{
    public static Checks Checks(MapReader r) => new(r.OptionalMap("gloves", "a check of gloves", Gloves), r.OptionalMap("rest", "a rest", Rest));

    public static HelpTimes Help(MapReader r) => new(r.Time("secure"), r.Number("slower", 1, 20), r.Time("enter"), r.Text("source"));

    private static GloveCheck Gloves(MapReader r) =>
        new(new(r.Time("time"), r.Time("break_off")), r.OptionalChoice("after", ("rough", true)) ?? false, r.Text("source"));

    private static RestTime Rest(MapReader r) => new(r.Time("time"), r.Text("source"));
}
