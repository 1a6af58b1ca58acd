using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>What people call places: the title of the worksite there, where there is one.</summary>
internal sealed class PlaceNames
{
    private readonly Dictionary<GripId, string> grips = [];
    private readonly Dictionary<(ArmId, PoseId), string> poses = [];
    private readonly Dictionary<SocketId, GripId> sockets;

    public PlaceNames(Scenario scenario)
    {
        foreach (Site site in scenario.Station.Sites)
        {
            if (site.Grip is { } grip) grips.TryAdd(grip, site.Title);
            if (site is { Arm: { } arm, Pose: { } pose }) poses.TryAdd((arm, pose), site.Title);
        }
        sockets = scenario.Station.Sockets.ToDictionary(socket => socket.Id, socket => socket.Grip);
    }

    public string Of(GripId grip) => grips.GetValueOrDefault(grip, grip.Value);

    public string Of(ArmId arm, PoseId pose) => poses.GetValueOrDefault((arm, pose), pose.Value);

    public string Of(SocketId socket) => sockets.TryGetValue(socket, out GripId grip) ? Of(grip) : socket.Value;
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
}
