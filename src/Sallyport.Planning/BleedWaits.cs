using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>How long something must have been shut down before the legs that ask for it: until what stays charged near what they touch has bled down.</summary>
internal static class BleedWaits
{
    /// <summary>The wait after the command that turns off, s; the same for every leg, so that search and expansion never differ.</summary>
    public static int Seconds(Scenario scenario, Shutdown shutdown)
    {
        int longest = 0;
        foreach (Leg leg in scenario.Legs.Where(leg => leg.Shutdowns.Contains(shutdown.Id)))
        {
            HashSet<FeatureState> off = [.. leg.Shutdowns.SelectMany(id => OffOf(scenario, id).Makes)];
            foreach (NeedDead touch in leg.Steps.SelectMany(step => step.Needs).OfType<NeedDead>())
                foreach (Capacitor capacitor in scenario.Station.Capacitors ?? [])
                    if (capacitor.Bleeds.Seconds > longest && Between(scenario.Station, off, touch.Node, capacitor.Node) < touch.Inhibits) longest = capacitor.Bleeds.Seconds;
        }
        return longest;
    }

    private static Command OffOf(Scenario scenario, ShutdownId id) => scenario.Consoles
        .SelectMany(console => console.Shutdowns.Where(shutdown => shutdown.Id == id).Select(shutdown => console.Commands.First(command => command.Id == shutdown.Off))).First();

    /// <summary>The fewest open switches between two nodes; connectors count as mated.</summary>
    private static int Between(Station station, HashSet<FeatureState> off, NodeId from, NodeId to)
    {
        Dictionary<FeatureId, string> states = station.Features.ToDictionary(feature => feature.Id, feature => feature.Start);
        foreach (FeatureState made in off) states[made.Feature] = made.State;
        PriorityQueue<NodeId, int> open = new();
        HashSet<NodeId> seen = [];
        open.Enqueue(from, 0);
        while (open.TryDequeue(out NodeId at, out int switches))
        {
            if (at == to) return switches;
            if (!seen.Add(at)) continue;
            foreach (PowerLine line in station.PowerLines.Where(line => line.From == at || line.To == at))
            {
                bool opens = line is { Controller: not null, Closed: { } closed } && !closed.States.Contains(states[closed.Feature]);
                open.Enqueue(line.From == at ? line.To : line.From, switches + (opens ? 1 : 0));
            }
        }
        return SearchCase.Never;
    }
}
