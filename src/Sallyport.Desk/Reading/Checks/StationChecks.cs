using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Checks of the structure: lengths, ways to every site, who goes out where.</summary>
internal static class StationChecks
{
    // Forgives the last bits of unit conversion and square root, far below any length in a file.
    private const double Forgiven = 1e-9;

    public static void Run(Scenario scenario, Binding binding)
    {
        Spans(scenario.Station, binding);
        if (binding.Sound("grips", "spans", "airlocks", "sites", "arms")) Reach(scenario, binding);
        if (binding.Sound("people", "airlocks")) Orders(scenario, binding);
    }

    private static void Spans(Station station, Binding binding)
    {
        Dictionary<GripId, Point> points = [];
        foreach (Grip grip in station.Grips.Where(binding.IsWhole)) points.TryAdd(grip.Id, grip.At);
        foreach (Span span in station.Spans.Where(binding.IsWhole))
        {
            binding.Section = "spans";
            if (span.A == span.B) binding.Report(ScenarioProblems.SpanToItself(binding.PlaceOf(span), span));
            if (!points.TryGetValue(span.A, out Point a) || !points.TryGetValue(span.B, out Point b)) continue;
            double straight = a.DistanceTo(b);
            if (span.Length < straight - Forgiven) binding.Report(ScenarioProblems.SpanTooShort(binding.PlaceOf(span), span, straight));
        }
    }

    private static void Reach(Scenario scenario, Binding binding)
    {
        Station station = scenario.Station;
        HashSet<GripId> walked = Walk(station.Airlocks.Select(airlock => airlock.Grip), station.Spans.Select(span => (span.A, span.B)));
        binding.Section = "sites";
        foreach (Site site in station.Sites)
        {
            if (site.Grip is { } grip && !walked.Contains(grip))
                binding.Report(ScenarioProblems.NoWay(binding.PlaceOf(site), site, $"grip {grip}", station.Airlocks.Select(airlock => airlock.Id.Value)));
            if (scenario.Arms.FirstOrDefault(arm => arm.Id == site.Arm) is not { } arm) continue;
            HashSet<PoseId> ridden = Walk([arm.Start], arm.Rides.Select(ride => (ride.A, ride.B)));
            if (!ridden.Contains(site.Pose!.Value) || !arm.Mounts.Any(mount => walked.Contains(mount.Grip) && ridden.Contains(mount.Pose)))
                binding.Report(ScenarioProblems.NoRide(binding.PlaceOf(site), site, arm));
        }
    }

    private static void Orders(Scenario scenario, Binding binding)
    {
        binding.Section = "airlocks";
        Dictionary<PersonId, AirlockId> byPerson = [];
        foreach (Airlock airlock in scenario.Station.Airlocks)
            foreach (PersonId person in airlock.Order)
                if (!byPerson.TryAdd(person, airlock.Id)) binding.Report(ScenarioProblems.InTwoOrders(binding.PlaceOf(airlock), person, byPerson[person]));
        foreach (Person person in scenario.Outside)
            if (!byPerson.ContainsKey(person.Id)) binding.Report(ScenarioProblems.NotInOrder(binding.PlaceOf(person), person));
    }

    private static HashSet<T> Walk<T>(IEnumerable<T> from, IEnumerable<(T A, T B)> ways)
    {
        ILookup<T, T> beside = ways.SelectMany(way => new[] { way, (A: way.B, B: way.A) }).ToLookup(way => way.A, way => way.B);
        HashSet<T> seen = [.. from];
        Queue<T> open = new(seen);
        while (open.TryDequeue(out T? here))
            foreach (T next in beside[here])
                if (seen.Add(next)) open.Enqueue(next);
        return seen;
    }
}
