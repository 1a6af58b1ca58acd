using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The states of a stretch of line, as they stand in the trace.</summary>
internal static class LineStates
{
    /// <summary>Joined to something that keeps it under pressure, or to something unknown.</summary>
    public const string Fed = "fed";

    /// <summary>Shut off, and its pressure not read since.</summary>
    public const string Shut = "shut off";

    /// <summary>Shut off, and its pressure read since.</summary>
    public const string Known = "read";

    public const string Full = "full";
    public const string Vented = "let off";

    /// <summary>No disconnect of it moved since it was last watched for leaks.</summary>
    public const string Sound = "sound";
    public const string Disturbed = "disturbed";
}

/// <summary>The indexes of the variables of one stretch of line: how it is shut off, whether it is full, whether it was watched for leaks.</summary>
internal sealed record LineVariables(int State, int Fill, int Joints);

/// <summary>
/// The fluid net with its fittings as they are. Stretches of line are joined by open valves and mated disconnects. A valve is open unless
/// it is in a state named as shut; a disconnect is open to vacuum unless it is in a state named as mated or as capped.
/// </summary>
internal sealed class FluidNet
{
    private readonly World world;
    private readonly Dictionary<FeatureId, Valve> valves;
    private readonly Dictionary<FeatureId, Disconnect> disconnects;
    private readonly ILookup<FeatureId, FluidLine> touching;

    public FluidNet(World world)
    {
        this.world = world;
        Station station = world.Scenario.Station;
        valves = station.Valves.ToDictionary(valve => valve.Feature);
        disconnects = station.Disconnects.ToDictionary(one => one.Feature);
        touching = station.FluidLines.SelectMany(line => line.Ends.Distinct().Select(end => (end, line))).ToLookup(pair => pair.end, pair => pair.line);
    }

    private ImmutableArray<FluidLine> All => world.Scenario.Station.FluidLines;

    public Valve? Valve(FeatureId feature) => valves.GetValueOrDefault(feature);

    public Disconnect? Disconnect(FeatureId feature) => disconnects.GetValueOrDefault(feature);

    /// <summary>The lines that end in a fitting.</summary>
    public IEnumerable<FluidLine> Touching(FeatureId fitting) => touching[fitting];

    /// <summary>The line of this name, which must exist.</summary>
    public FluidLine Line(string name) => All.FirstOrDefault(line => line.Name == name)
        ?? throw new ArgumentException($"the scenario has no fluid line '{name}'");

    public LineVariables Of(FluidLine line) => world.Register.FluidLines[line.Name];

    public string StateOf(FeatureId feature) => world.State(world.Register.Features[feature]);

    /// <summary>Whether a disconnect is open to vacuum: neither mated, its lock checked, nor capped.</summary>
    public bool IsExposed(Disconnect one) => !one.Mated.Contains(StateOf(one.Feature)) && !one.Capped.Contains(StateOf(one.Feature));

    public bool IsShut(Valve valve) => valve.Shut.Contains(StateOf(valve.Feature));

    /// <summary>A line with all that it is joined to.</summary>
    public IReadOnlyList<FluidLine> Joined(FluidLine line)
    {
        List<FluidLine> joined = [line];
        for (int i = 0; i < joined.Count; i++)
            foreach (FeatureId end in joined[i].Ends.Where(Passes))
                foreach (FluidLine other in touching[end])
                    if (!joined.Contains(other)) joined.Add(other);
        return joined;
    }

    /// <summary>The first disconnect open to vacuum at a line or at what it is joined to; null when there is none.</summary>
    public Disconnect? ExposedAt(FluidLine line) => Joined(line).SelectMany(one => one.Ends)
        .Select(Disconnect).FirstOrDefault(one => one is not null && IsExposed(one));

    /// <summary>Brings the lines' variables to what valves and disconnects say now.</summary>
    public void Update()
    {
        if (!world.FluidChanged) return;
        // What is written here is looked at again in the next instant.
        world.FluidChanged = false;
        List<(int Variable, string State)> next = [];
        foreach (FluidLine line in All)
        {
            IReadOnlyList<FluidLine> joined = Joined(line);
            bool fed = joined.Any(LeadsToPressure);
            // Joined to a line whose pressure is not known, or that was fed until now, none is known any more.
            bool known = !fed && joined.All(one => world.State(Of(one).State) == LineStates.Known);
            next.Add((Of(line).State, fed ? LineStates.Fed : known ? LineStates.Known : LineStates.Shut));
            if (fed || joined.Any(one => world.State(Of(one).Fill) == LineStates.Full)) next.Add((Of(line).Fill, LineStates.Full));
        }
        foreach ((int variable, string state) in next)
            if (world.State(variable) != state) world.Become(variable, state);
    }

    /// <summary>Whether a line keeps itself under pressure, or leads out of the net through an open fitting: what is there is not known.</summary>
    private bool LeadsToPressure(FluidLine line) => line.Feeds || line.Ends.Any(end => touching[end].Count() < 2 && Passes(end));

    private bool Passes(FeatureId end) =>
        valves.TryGetValue(end, out Valve? valve) ? !IsShut(valve)
        : !disconnects.TryGetValue(end, out Disconnect? one) || one.Mated.Contains(StateOf(end));
}
