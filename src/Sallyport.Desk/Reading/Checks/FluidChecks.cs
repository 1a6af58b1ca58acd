using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Checks of the fluid net, and of the steps that work on it.</summary>
internal static class FluidChecks
{
    public static void Run(Scenario scenario, Binding binding)
    {
        if (!binding.Sound("fluid", "features")) return;
        Fittings(scenario.Station, binding);
        if (binding.Sound("fluid", "jobs")) Steps(scenario, binding);
    }

    private static void Fittings(Station station, Binding binding)
    {
        binding.Section = "fluid";
        HashSet<FeatureId> ends = [.. station.FluidLines.SelectMany(line => line.Ends)], fittings = [];
        foreach ((object fitting, FeatureId feature) in station.Valves.Select(valve => ((object)valve, valve.Feature)).Concat(station.Disconnects.Select(one => ((object)one, one.Feature))))
        {
            if (!fittings.Add(feature)) binding.Report(FluidProblems.FittingTwice(binding.PlaceOf(fitting), feature));
            if (!ends.Contains(feature)) binding.Report(FluidProblems.FittingUnused(binding.PlaceOf(fitting), feature));
        }
        foreach (Disconnect one in station.Disconnects)
            foreach (string state in one.Mated.Intersect(one.Capped)) binding.Report(FluidProblems.MatedAndCapped(binding.PlaceOf(one), one.Feature, state));
        foreach (FluidLine line in station.FluidLines)
            foreach (FeatureId end in line.Ends)
                if (!fittings.Contains(end)) binding.Report(FluidProblems.EndUnknown(binding.PlaceOf(line), line, end));
    }

    private static void Steps(Scenario scenario, Binding binding)
    {
        binding.Section = "jobs";
        HashSet<FeatureId> disconnects = [.. scenario.Station.Disconnects.Select(one => one.Feature)];
        foreach (Step step in scenario.Legs.SelectMany(leg => leg.Steps))
        {
            if (step.Fluid is not { } touch || scenario.Station.FluidLines.FirstOrDefault(line => line.Name == touch.Line) is not { } line) continue;
            if (!touch.Tests.IsEmpty && scenario.Station.BakeOut is null) binding.Report(FluidProblems.NoBakeOut(binding.PlaceOf(step), step.Id));
            if (!touch.Tests.IsEmpty && scenario.Station.BakeOut is { } bakeOut && step.Time.Likely < bakeOut.Test)
                binding.Report(FluidProblems.TestTooShort(binding.PlaceOf(step), step.Id, bakeOut));
            bool works = touch is { Reads: false, Watches: false, Vents: false, Tests.IsEmpty: true };
            if (works && !step.Makes.OfType<MakeFeature>().Any(make => disconnects.Contains(make.State.Feature) && line.Ends.Contains(make.State.Feature)))
                binding.Report(FluidProblems.OpensNothing(binding.PlaceOf(step), touch, step.Id));
        }
    }
}
