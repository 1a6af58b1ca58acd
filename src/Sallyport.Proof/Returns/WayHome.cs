using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The way back to the hatch and in, for people as things are now.</summary>
internal sealed class WayHome(World world)
{
    /// <summary>A person as loaded, with the airlock as it is now.</summary>
    public Walker Of(PersonId person, double slower) => world.Book.WalkerOf(person, AirlockOf(person), slower);

    /// <summary>From a grip, and in: back along the person's own line, changing reels at each anchor; or, where nothing is laid, the
    /// shortest way.</summary>
    public Way From(PersonId person, double slower, GripId grip) =>
        world.Lines[person].Count == 0 ? Of(person, slower).Shortest.From(grip) : Of(person, slower).Along(world.Lines[person].Lay);

    /// <summary>The airlock a person came out of; before that, the one in whose order the person is.</summary>
    public Airlock AirlockOf(PersonId person) =>
        world.OutOf.TryGetValue(person, out AirlockId airlock) ? world.Lookup.Airlock(airlock)
        : world.Scenario.Station.Airlocks.FirstOrDefault(one => one.Order.Contains(person)) ?? world.Scenario.Station.Airlocks[0];
}
