using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>What people call the things of a plan: their titles, where they have one.</summary>
internal sealed class WalkthroughNames
{
    private readonly Dictionary<GripId, string> grips = [];
    private readonly Dictionary<(ArmId, PoseId), string> poses = [];
    private readonly Dictionary<SocketId, GripId> sockets;
    private readonly Dictionary<GearId, string> gear;
    private readonly Dictionary<LegId, Leg> legs;

    public WalkthroughNames(Scenario scenario)
    {
        foreach (Site site in scenario.Station.Sites)
        {
            if (site.Grip is { } grip) grips.TryAdd(grip, site.Title);
            if (site is { Arm: { } arm, Pose: { } pose }) poses.TryAdd((arm, pose), site.Title);
        }
        sockets = scenario.Station.Sockets.ToDictionary(socket => socket.Id, socket => socket.Grip);
        gear = scenario.Gear.ToDictionary(thing => thing.Id, thing => thing.Title);
        legs = scenario.Legs.ToDictionary(leg => leg.Id);
    }

    public string Of(GripId grip) => grips.GetValueOrDefault(grip, grip.Value);

    public string Of(ArmId arm, PoseId pose) => poses.GetValueOrDefault((arm, pose), pose.Value);

    public string Of(SocketId socket) => sockets.TryGetValue(socket, out GripId grip) ? Of(grip) : socket.Value;

    public string Of(GearId thing) => gear.GetValueOrDefault(thing, thing.Value);

    public Leg? Leg(LegId leg) => legs.GetValueOrDefault(leg);

    public string Of(DoStep step) => Leg(step.Leg)?.Steps.FirstOrDefault(one => one.Id == step.Step)?.Title ?? step.Step.Value;

    /// <summary>Where a leg is done.</summary>
    public string PlaceOf(Scenario scenario, Leg leg) => scenario.Station.Sites.FirstOrDefault(site => site.Id == leg.Site)?.Title ?? leg.Site.Value;
}

/// <summary>A trace's histories by name, as a walk-through reads them.</summary>
internal static class NamedHistory
{
    /// <summary>What a variable is from when on, the first at the start of the trace; where several changes share a second, the last holds. None when there is no such variable.</summary>
    public static IReadOnlyList<(Pet At, string State, int Value, ActivityId? By)> Of(this History history, string name)
    {
        if (history.Find(name) is not { } variable) return [];
        Trace trace = history.Trace;
        List<(Pet At, string, int, ActivityId?)> all = [(trace.From, State(trace.Start[variable]), trace.Start[variable], null)];
        foreach (Change change in history.Changes(variable))
        {
            if (all[^1].At == change.At) all.RemoveAt(all.Count - 1);
            all.Add((change.At, State(change.Value), change.Value, change.By));
        }
        return all;

        string State(int value) => trace.Variables[variable].States is { IsEmpty: false } states ? states[value] : "";
    }

    /// <summary>What a variable is at a moment, after everything that happens in it; empty when there is no such variable.</summary>
    public static string At(this History history, string name, Pet at) => history.Find(name) is { } variable ? history.StateAt(variable, at) : "";
}
