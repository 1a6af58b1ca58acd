using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>Checks that people can walk the structure: that no span takes longer than a walk lasts, and that everybody's reels reach a
/// site.</summary>
internal static class WalkingChecks
{
    private const double LongestSpan = 24 * 60 * 60;

    public static void Run(Scenario scenario, Binding binding)
    {
        if (!binding.Sound("grips", "spans", "sites", "arms", "airlocks", "people", "sizes", "tether")) return;
        binding.Section = "people";
        double slowest = scenario.Sizes.Select(size => size.Slower).Append(1).Max();
        StationGraph graph = new(scenario.Station);
        foreach (Person person in scenario.Outside)
        {
            Span? slow = scenario.Station.Spans.FirstOrDefault(span => span.Length / SpeedOn(span, person.Pace!) * slowest > LongestSpan);
            if (slow is not null) binding.Report(ScenarioProblems.SpanTooSlow(binding.PlaceOf(person), person, slow));
            if (scenario.Tether.Protocol == TetherProtocol.Reel) Reels(scenario, graph, person, binding);
        }
    }

    // A gap is a time, not a pace, and bounded as one.
    private static double SpeedOn(Span span, Pace pace) => span.Class switch { SpanClass.Easy => pace.Easy, SpanClass.Careful => pace.Careful, _ => double.PositiveInfinity };

    private static void Reels(Scenario scenario, StationGraph graph, Person person, Binding binding)
    {
        if (person.Reels.Length == 0)
        {
            binding.Report(ScenarioProblems.NoReel(binding.PlaceOf(person), person));
            return;
        }
        if (scenario.Station.Airlocks.FirstOrDefault(airlock => airlock.Order.Contains(person.Id)) is not { } airlock) return;
        HashSet<GripId> wanted = [.. scenario.Station.Sites.SelectMany(site => Ways(scenario, site))];
        int[] anchors = [graph.IndexOf(airlock.Grip)];
        foreach (double reel in person.Reels)
        {
            Dictionary<int, long> reached = Within(graph, anchors, (long)Math.Floor(reel * 1000 + 1e-6));
            if (reached.Keys.Any(grip => wanted.Contains(graph.GripAt(grip).Id))) return;
            anchors = [.. reached.Keys.Where(grip => graph.GripAt(grip).Anchor)];
        }
        KeyValuePair<int, long>[] ways = [.. Within(graph, [graph.IndexOf(airlock.Grip)], long.MaxValue).Where(grip => wanted.Contains(graph.GripAt(grip.Key).Id))];
        // Without a site there is nothing to reach.
        if (ways.Length == 0) return;
        (int nearest, long away) = ways.MinBy(grip => grip.Value);
        binding.Report(ScenarioProblems.ReelsTooShort(binding.PlaceOf(person), person, graph.GripAt(nearest).Id, away / 1000.0));
    }

    // A site on an arm is reached from where one gets on.
    private static IEnumerable<GripId> Ways(Scenario scenario, Site site) =>
        site.Grip is { } grip ? [grip] : scenario.Arms.Where(arm => arm.Id == site.Arm).SelectMany(arm => arm.Mounts).Select(mount => mount.Grip);

    /// <summary>The grips that one reel reaches from any of some anchors, with the least tether that this pays out, in millimetres.</summary>
    private static Dictionary<int, long> Within(StationGraph graph, IEnumerable<int> anchors, long reel)
    {
        Dictionary<int, long> reached = [];
        PriorityQueue<int, long> open = new(anchors.Select(anchor => (anchor, 0L)));
        while (open.TryDequeue(out int grip, out long paidOut))
        {
            if (!reached.TryAdd(grip, paidOut)) continue;
            foreach (StationGraph.Edge edge in graph.From(grip))
                if (paidOut + StationGraph.Millimetres(edge.Span) is var further && further <= reel) open.Enqueue(edge.To, further);
        }
        return reached;
    }
}
