using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Checks of legs against the station and gear, and of the order that legs ask for.</summary>
internal static class JobChecks
{
    public static void Run(Scenario scenario, Binding binding)
    {
        Places(scenario, binding);
        Circles(scenario, binding);
        Bags(scenario, binding);
    }

    private static void Places(Scenario scenario, Binding binding)
    {
        binding.Section = "jobs";
        foreach (Leg leg in scenario.Legs)
        {
            foreach (GearId gear in leg.LeavesBehind.Except(leg.With)) binding.Report(ScenarioProblems.NotCarried(binding.PlaceOf(leg), leg, gear));
            if (scenario.Station.Sites.FirstOrDefault(site => site.Id == leg.Site) is not { } site || !binding.IsWhole(site) || !binding.IsWhole(leg)) continue;
            if (leg.Footing == Footing.Arm && site.Arm is null) binding.Report(ScenarioProblems.NeedsArm(binding.PlaceOf(leg), leg, site));
            if (leg.Footing != Footing.Arm && site.Arm is not null) binding.Report(ScenarioProblems.NeedsGrip(binding.PlaceOf(leg), leg, site));
            Socket? socket = scenario.Station.Sockets.FirstOrDefault(socket => socket.Id == leg.Socket);
            if (socket is not null && site.Grip is { } grip && socket.Grip != grip) binding.Report(ScenarioProblems.SocketElsewhere(binding.PlaceOf(leg), leg, socket, site));
        }
    }

    // Legs that start together are one point of the order. What can come first is taken away until nothing can; what is left then
    // holds at least one circle.
    private static void Circles(Scenario scenario, Binding binding)
    {
        binding.Section = "jobs";
        Dictionary<LegId, Leg> legs = [];
        foreach (Leg leg in scenario.Legs) legs.TryAdd(leg.Id, leg);
        ILookup<string, Leg> points = legs.Values.ToLookup(PointOf);
        Dictionary<string, List<Wait>> waits = points.ToDictionary(point => point.Key, point => point
            .SelectMany(leg => leg.After.Where(after => legs.ContainsKey(after.Leg)).Select(after => new Wait(PointOf(legs[after.Leg]), leg.Id, after.Leg))).ToList());
        while (true)
        {
            Strip(waits);
            if (waits.Count == 0) return;
            List<string> circle = [];
            string here = waits.Keys.First();
            while (!circle.Contains(here))
            {
                circle.Add(here);
                here = waits[here][0].Point;
            }
            circle.RemoveRange(0, circle.IndexOf(here));
            Wait[] links = [.. circle.Select(point => waits[point][0])];
            binding.Report(ScenarioProblems.Circle(binding.PlaceOf(legs[links[0].Leg]), [.. links.Select(link => (link.Leg, link.For))]));
            foreach (string point in circle) waits.Remove(point);
        }
    }

    private static void Strip(Dictionary<string, List<Wait>> waits)
    {
        for (bool again = true; again;)
        {
            again = false;
            foreach (string point in waits.Keys.ToArray())
            {
                waits[point].RemoveAll(wait => !waits.ContainsKey(wait.Point));
                if (waits[point].Count == 0) again |= waits.Remove(point);
            }
        }
    }

    /// <summary>That a leg waits for another, which lies in a point of the order.</summary>
    private readonly record struct Wait(string Point, LegId Leg, LegId For);

    private static string PointOf(Leg leg) => leg.Together.Length == 0 ? leg.Id.Value : $"{leg.Job} together {leg.Together}";

    private static void Bags(Scenario scenario, Binding binding)
    {
        binding.Section = "gear";
        Dictionary<GearId, Gear> gear = [];
        foreach (Gear thing in scenario.Gear) gear.TryAdd(thing.Id, thing);
        HashSet<GearId> told = [];
        foreach (Gear thing in scenario.Gear)
        {
            List<GearId> inside = [];
            Gear? here = thing;
            while (here is { Start.Kind: LocationKind.Bag } && !inside.Contains(here.Id) && !told.Contains(here.Id))
            {
                inside.Add(here.Id);
                here = gear.GetValueOrDefault(new(here.Start.Name));
            }
            if (here is null || !inside.Contains(here.Id)) continue;
            List<GearId> circle = inside[inside.IndexOf(here.Id)..];
            told.UnionWith(circle);
            binding.Report(ScenarioProblems.BagCircle(binding.PlaceOf(here), circle));
        }
    }
}
