using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>When a ride with somebody on the arm may begin: its guided part with voice, and nothing that it passes closed.</summary>
/// <param name="Seconds">The whole of the move.</param>
/// <param name="GuidedFrom">From its start to the guided part, s.</param>
/// <param name="Guided">The guided part, s.</param>
/// <param name="NoVoice">When nobody is heard.</param>
/// <param name="Closed">When something that it passes is closed.</param>
internal sealed record RideStarts(int Seconds, int GuidedFrom, int Guided, Closings NoVoice, Closings Closed)
{
    /// <summary>Whether anything keeps it from beginning at any time.</summary>
    public bool Any => (Guided > 0 && NoVoice.Any) || Closed.Any;

    /// <summary>The starts of a ride of an arm.</summary>
    public static RideStarts Of(Scenario scenario, ZoneTimes zones, StationGraph graph, Arm arm, RideTime ride)
    {
        int moved = arm.TimeOf(ride, brakesSet: false).Seconds;
        Closings closed = Closings.Join([.. (ride.Through ?? []).Select(grip => zones.ClosedAt(graph.IndexOf(grip)).AsEnumerable())]);
        return new(arm.TimeOf(ride).Seconds, moved - ride.Guided.Seconds, ride.Guided.Seconds, Closings.Join(scenario.Sky.NoVoice), closed);
    }

    /// <summary>The earliest start not before a moment; null when there is none.</summary>
    public int? Next(int from)
    {
        for (int start = from; ;)
        {
            int? heard = Guided > 0 ? NoVoice.Next(start + GuidedFrom, Guided) - GuidedFrom : start;
            if (heard is null || Closed.Next(heard.Value, Seconds) is not { } open) return null;
            if (open == start) return start;
            start = open;
        }
    }
}
