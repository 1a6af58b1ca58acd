using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

/// <summary>Standard lines and the tables made of them.</summary>
public class WayTableTests
{
    [Fact]
    public void Seconds_EveryPairAndLoad_IsTheSumOfTheWayBetween() =>
        Gen.Select(RandomStructure.Gen(3, 12), Gen.Bool).Sample((random, reels) =>
        {
            RandomStructure structure = random.With(reels ? RandomStructure.Reel : RandomStructure.Leapfrog(15), 18, 26);
            StandardLines lines = structure.Lines;
            WayTable table = new(lines, structure.Scenario.Sizes, structure.Scenario.Station.Grips.Select(grip => grip.Id));
            int count = table.Moorings.Count;
            for (int from = 0; from < count; from++)
                for (int to = 0; to < count; to++)
                {
                    WayPiece[][] ways = [.. table.Slower.Select(slower => lines.Book.Between(table.Moorings[from].Line, table.Moorings[to].Line, slower).ToArray())];
                    Assert.Equal(ways.Select(way => way.Sum(piece => piece.Seconds)), ways.Select((_, load) => table.Seconds(load)[from * count + to]));
                    Assert.Equal(ways.Any(way => way.Any(piece => lines.Zones.Timed.Contains(piece.From) || lines.Zones.Timed.Contains(piece.To))), table.CrossesTimed(from, to));
                }
            Assert.Same(lines.Book.Root, table.Moorings[table.Root].Line);
        }, iter: 150);

    // A mooring more than the standard ones is there to save a long way round: a minute at least, from some standard one.
    [Fact]
    public void Moorings_Any_StandAtThePlacesAskedForAndSaveTimeWhereTheyAreNotStandard() =>
        RandomStructure.Gen(3, 14).Sample(structure =>
        {
            StandardLines lines = structure.Lines;
            GripId[] places = [.. structure.Scenario.Station.Grips.Where((_, i) => i % 2 == 1).Select(grip => grip.Id)];
            WayTable table = new(lines, structure.Scenario.Sizes, places);
            foreach (GripId place in places.Append(structure.Airlock.Grip))
                foreach (int mooring in table.At(place))
                {
                    TetherLine line = table.Moorings[mooring].Line;
                    Assert.Equal(place, lines.Book.Graph.GripAt(line.Grip).Id);
                    Assert.Equal(table.Moorings[mooring].Standard, lines.To(line.Grip).Contains(line));
                    if (table.Moorings[mooring].Standard) continue;
                    int[] seconds = table.Seconds(0);
                    int[] standard = [.. Enumerable.Range(0, table.Moorings.Count).Where(other => table.Moorings[other].Standard)];
                    int saved = standard.Max(from => standard.Where(to => table.Moorings[to].Line.Grip == line.Grip).Min(to => seconds[from * table.Moorings.Count + to])
                        - seconds[from * table.Moorings.Count + mooring]);
                    Assert.True(saved >= 60, $"the mooring at {place} saves {saved} s");
                }
            Assert.Equal(table.Moorings.Count, places.Append(structure.Airlock.Grip).Sum(place => table.At(place).Length));
        }, iter: 150);

    [Fact]
    public void StandardLines_EveryGripAndAnchor_AreTheQuickestOutOfZonesWhereThatIsPossible() =>
        RandomStructure.Gen(3, 7).Sample(random =>
        {
            RandomStructure structure = random.With(RandomStructure.Reel, 16, 14);
            StandardLines lines = structure.Lines;
            GripId[] inZones = [.. structure.Scenario.Station.Zones.SelectMany(zone => zone.Grips)];
            GripId[] inStatedZones = [.. structure.Scenario.Station.Zones.Where(zone => !zone.While.IsEmpty).SelectMany(zone => zone.Grips)];
            Dictionary<(int, int), int> clear = Quickest(structure, inZones), through = Quickest(structure, inStatedZones);
            Dictionary<(int, int), int> expected = through.ToDictionary(way => way.Key, way => clear.GetValueOrDefault(way.Key, way.Value));

            Dictionary<(int, int), int> found = [];
            for (int grip = 0; grip < lines.Book.Graph.Count; grip++)
                foreach (TetherLine line in lines.To(grip))
                {
                    found.Add((grip, line.Anchor), lines.Book.Between(lines.Book.Root, line, 1).Sum(piece => piece.Seconds));
                    if (clear.ContainsKey((grip, line.Anchor))) Assert.DoesNotContain(Grips(line), lines.EveryZone.Contains);
                    Assert.DoesNotContain(Grips(line), lines.Zones.Stated.Contains);
                    Assert.Same(line, lines.To(grip, line.Anchor));
                }
            Assert.Equal(expected.OrderBy(way => way.Key), found.OrderBy(way => way.Key));
        }, iter: 400);

    [Fact]
    public void LoadClasses_OfSizes_AreTheirFactorsOnceAndOneAscending() =>
        Assert.Equal([1, 1.8, 2.5], WayTable.LoadClasses([new(new("huge"), 2.5), new(new("bulky"), 1.8), new(new("long"), 1.8)]));

    private static Dictionary<(int Grip, int Anchor), int> Quickest(RandomStructure structure, IEnumerable<GripId> closed) =>
        new WholeStateSearch(structure, 1, closed.ToHashSet()).From(new([[structure.Book.Root.Grip]])).Values
            .GroupBy(known => (known.State.Grip, known.State.Anchor)).ToDictionary(group => group.Key, group => group.Min(known => known.Seconds));

    private static IEnumerable<int> Grips(TetherLine? line)
    {
        for (; line is not null; line = line.Parent) yield return line.Grip;
    }
}
