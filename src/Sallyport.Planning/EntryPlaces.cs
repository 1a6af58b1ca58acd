using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Where somebody has to be for an entry of an outline.</summary>
internal static class EntryPlaces
{
    /// <summary>The grip; null for what is done wherever one is, or on an arm.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="entry">The entry.</param>
    /// <param name="leg">Its leg, where it is one.</param>
    public static GripId? Of(Scenario scenario, Entry entry, Leg? leg)
    {
        return entry switch
        {
            TakeEntry take => take.From,
            PutEntry put => put.At,
            PlugEntry plug => GripOf(plug.Socket),
            UnplugEntry unplug => GripOf(unplug.Socket),
            MeetEntry meet => meet.At,
            MountEntry mount => mount.At,
            IngressEntry ingress => scenario.Station.Airlocks.First(airlock => airlock.Id == ingress.Airlock).Grip,
            LegEntry => leg!.Footing == Footing.Restraint ? GripOf(leg.Socket!.Value) : scenario.Station.Sites.First(site => site.Id == leg.Site).Grip,
            _ => null,
        };

        GripId GripOf(SocketId socket) => scenario.Station.Sockets.First(one => one.Id == socket).Grip;
    }
}
