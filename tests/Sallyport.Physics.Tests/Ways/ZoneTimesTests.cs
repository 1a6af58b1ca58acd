using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class ZoneTimesTests
{
    /// <summary>All closings of the random structures that end at all end before this; so does every way begun then.</summary>
    private const int Horizon = 4000;

    [Fact]
    public void EarliestDeparture_AnyWay_IsWhatTryingEverySecondFinds() =>
        Gen.Select(RandomStructure.Gen(3, 10), Gen.Int[0, 10_000], Gen.Int[-300, 2500]).Sample((random, pick, from) =>
        {
            RandomStructure structure = random.With(RandomStructure.Leapfrog(10));
            LineBook book = structure.Book;
            ZoneTimes zones = new(structure.Scenario, book.Graph);
            TetherLine to = book.Explore(book.Root, 1)[pick % book.Graph.Count][0].Line;
            ImmutableArray<WayPiece> way = book.Between(book.Root, to, 1);

            int? expected = null;
            for (int departure = from; departure < Horizon && expected is null; departure++)
                if (IsOpen(structure, way, departure)) expected = departure;
            Assert.Equal(expected, zones.EarliestDeparture(way, from));
        }, iter: 500);

    [Fact]
    public void Stated_AZoneThatNothingCanClose_IsNotAvoided()
    {
        Scenario scenario = RandomStructure.Of(3, 6).Scenario;
        Zone zone = new(new("cone"), "invented", [scenario.Station.Grips[1].Id], [], null, [new(new("jets"), ["armed"])]);
        Scenario With(string start, params FeatureState[] made) => scenario with
        {
            Station = scenario.Station with { Zones = [zone], Features = [new(new("jets"), ["armed", "held"], start, null, null)] },
            Consoles = [new(new("power"), [new(new("go"), Duration.FromSeconds(60), false, [.. made])], [])],
        };
        IReadOnlySet<int> Stated(Scenario given) => new ZoneTimes(given, new(given.Station)).Stated;
        Assert.Equal([1], Stated(With("armed")));
        Assert.Empty(Stated(With("held")));
        Assert.Equal([1], Stated(With("held", new FeatureState(new("jets"), "armed"))));
    }

    [Fact]
    public void Timed_AndStated_AreTheGripsOfSuchZones() =>
        RandomStructure.Gen(3, 10).Sample(structure =>
        {
            StationGraph graph = structure.Graph;
            ZoneTimes zones = new(structure.Scenario, graph);
            ImmutableArray<Zone> all = structure.Scenario.Station.Zones;
            IEnumerable<int> In(Func<Zone, bool> kind) => all.Where(kind).SelectMany(zone => zone.Grips).Select(graph.IndexOf).Distinct().Order();
            Assert.Equal(In(zone => !zone.Times.IsEmpty || zone.Light is not null), zones.Timed.Order());
            Assert.Equal(In(zone => !zone.While.IsEmpty), zones.Stated.Order());
        }, iter: 100);

    [Fact]
    public void Daylight_Between_IsEverySecondThatIsNoNight()
    {
        ImmutableArray<PetInterval> nights = [At(-50, -20), At(10, 30), At(30, 40)];
        ImmutableArray<PetInterval> days = Daylight.Between(nights);
        for (int second = -100; second < 100; second++)
            Assert.NotEqual(Holds(nights, second), Holds(days, second));
        Assert.True(Holds(days, int.MinValue) && Holds(days, int.MaxValue - 1));
    }

    private static bool IsOpen(RandomStructure structure, ImmutableArray<WayPiece> way, int departure)
    {
        int second = departure;
        foreach (WayPiece piece in way)
            for (int end = second + piece.Seconds; second < end; second++)
                if (IsClosed(structure, piece.From, second) || IsClosed(structure, piece.To, second)) return false;
        return true;
    }

    private static bool IsClosed(RandomStructure structure, int grip, int second)
    {
        bool night = Holds(structure.Scenario.Sky.Night, second);
        return structure.Scenario.Station.Zones.Any(zone => zone.Grips.Contains(structure.Scenario.Station.Grips[grip].Id)
            && (Holds(zone.Times, second) || zone.Light == (night ? LightCondition.Night : LightCondition.Day)));
    }

    private static bool Holds(ImmutableArray<PetInterval> intervals, int second) =>
        intervals.Any(interval => interval.From.Seconds <= second && second < interval.To.Seconds);

    private static PetInterval At(int from, int to) => new(Pet.FromSeconds(from), Pet.FromSeconds(to));
}
