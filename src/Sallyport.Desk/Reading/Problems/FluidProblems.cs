using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The texts of problems with the fluid net, and with surfaces and edges.</summary>
internal static class FluidProblems
{
    public static Problem EndUnknown(Place place, FluidLine line, FeatureId end) =>
        FileProblems.At(place, "fluid.end", $"the line '{line.Name}' with the end '{end}', of which nothing says when it shuts", "a valve or a disconnect at each end",
            $"add '{end}' to 'valves' with the states in which it is shut, or to 'disconnects'.");

    public static Problem FittingTwice(Place place, FeatureId feature) =>
        FileProblems.At(place, "fluid.twice", $"the feature '{feature}' as a fitting a second time", "each feature as one valve or one disconnect", "delete one of the two.");

    public static Problem FittingUnused(Place place, FeatureId feature) =>
        FileProblems.At(place, "fluid.unused", $"'{feature}', at which no line ends", "a line that names it among its ends", $"add '{feature}' to the 'ends' of a line, or delete it here.");

    public static Problem MatedAndCapped(Place place, FeatureId feature, string state) =>
        FileProblems.At(place, "fluid.state", $"the state '{state}' of '{feature}' as mated and as capped", "each state once", "delete it from one of the two.");

    public static Problem OpensNothing(Place place, FluidTouch touch, StepId step) =>
        FileProblems.At(place, "fluid.opens", $"the step '{step}', which {(touch.Opens ? "opens" : "closes")} '{touch.Line}' and makes no state of a disconnect at its ends",
            "an effect on the disconnect among 'makes'", "add it to 'makes', or name the line that is meant.");

    public static Problem NoBakeOut(Place place, StepId step) =>
        FileProblems.At(place, "fluid.bakeout", $"the step '{step}', which tests after a bake-out, where the scenario has none", "'bakeout' in the section 'fluid'",
            "add 'bakeout: {sunlit: 30 min, test: 10 min, source: …}' there.");

    public static Problem TestTooShort(Place place, StepId step, BakeOut bakeOut) =>
        FileProblems.At(place, "fluid.test", $"the step '{step}', which is likely shorter than the test takes", $"at least {bakeOut.Test}, as 'bakeout' says",
            "give the step more time, or mend the bake-out.");

    public static Problem SurfaceNowhere(Place place, string name) =>
        FileProblems.At(place, "key.missing", $"the surface '{name}' without a place", "'grips' or 'sites' where hands touch it", "add the grips or the sites.");

    public static Problem NearInDegrees(Place place, string near) =>
        FileProblems.At(place, "unit.wrong", $"'{near}' for 'near', which is a temperature and no difference of two", "a difference in K", "write it in K, such as '10 K'.");

    public static Problem LeastAboveLimit(Place place, string rule) =>
        FileProblems.At(place, "limit.order", $"a 'least' of {rule} that is not below its 'limit'", "the smaller figure under 'least'", "swap or mend the two.");
}
