using CsCheck;
using QuikGraph;
using QuikGraph.Algorithms;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

/// <summary>Ways held against two referees: Dijkstra of QuikGraph where no tether limits them, a search over whole states where one does.</summary>
public class ExploreTests
{
    private const double Endless = 1_000_000;

    [Fact]
    public void Explore_ShortTethers_GivesTheShortestPathsOfQuikGraph() =>
        Gen.Select(RandomStructure.Gen(2, 30), Gen.Int[0, 30], Gen.Double[1, 3], Gen.Int[0, 100]).Sample((structure, hook, slower, pick) =>
        {
            LineBook book = structure.With(RandomStructure.Leapfrog(hook)).Book;
            AssertShortest(book, StartAt(book, pick, slower), slower);
        }, iter: 300);

    [Fact]
    public void Explore_OneEndlessReel_GivesTheShortestPathsOfQuikGraphFromAnywhere() =>
        Gen.Select(RandomStructure.Gen(2, 30), Gen.Double[1, 3], Gen.Int[0, 100]).Sample((structure, slower, pick) =>
        {
            LineBook book = structure.With(RandomStructure.Reel, Endless).Book;
            AssertShortest(book, StartAt(book, pick, slower), slower);
        }, iter: 300);

    [Fact]
    public void Explore_TwoReels_GivesTheBestOfEveryWholeState() =>
        Gen.Select(RandomStructure.Gen(3, 7), Gen.Int[4, 22], Gen.Int[4, 22], Gen.Int[0, 8], Gen.Int[0, 1_000_000], Gen.Double[1, 3])
            .Sample((random, first, second, steps, seed, slower) =>
            {
                RandomStructure structure = random.With(RandomStructure.Reel, first, second);
                WholeStateSearch referee = new(structure, slower);
                LineBook book = structure.Book;
                (TetherLine line, WholeStateSearch.State state) = Wander(book, referee, steps, new(seed));

                IEnumerable<(int Grip, int Anchor, int Reel, int Seconds, int Millimetres)> found = book.Explore(line, slower).SelectMany(labels => labels)
                    .Select(label => (label.Line.Grip, label.Line.Anchor, label.Line.Reel, label.Seconds, label.Line.OutMillimetres));
                IEnumerable<(int Grip, int Anchor, int Reel, int Seconds, int Millimetres)> every = referee.From(state).Values
                    .Select(known => (known.State.Grip, known.State.Anchor, known.State.Reels.Count - 1, known.Seconds, referee.Millimetres(known.State.Reels[^1])));
                Assert.Equal(Best(every), Best(found));
                Assert.Equal(Best(found).Count, found.Count());
            }, iter: 1000);

    // Only a longer span can be told from a shorter one: with it, every way found was there before, and was no slower.
    [Fact]
    public void Explore_ALengthenedSpan_MakesNoWayShorter() =>
        Gen.Select(RandomStructure.Gen(3, 12), Gen.Int[0, 1000], Gen.Double[0.001, 5], Gen.Bool).Sample((random, pick, more, reels) =>
        {
            RandomStructure structure = random.With(reels ? RandomStructure.Reel : RandomStructure.Leapfrog(20), 20, 14);
            int at = pick % structure.Scenario.Station.Spans.Length;
            Span span = structure.Scenario.Station.Spans[at];
            RandomStructure longer = structure.With(station => station with { Spans = station.Spans.SetItem(at, span with { Length = span.Length + more }) });

            IReadOnlyList<WayLabel>[] before = structure.Book.Explore(structure.Book.Root, 1), after = longer.Book.Explore(longer.Book.Root, 1);
            for (int grip = 0; grip < before.Length; grip++)
                foreach (WayLabel label in after[grip])
                    Assert.Contains(before[grip], old => old.Seconds <= label.Seconds && old.Line.OutMillimetres <= label.Line.OutMillimetres
                        && old.Line.Anchor == label.Line.Anchor && old.Line.Reel == label.Line.Reel);
        }, iter: 300);

    private static void AssertShortest(LineBook book, TetherLine start, double slower)
    {
        UndirectedGraph<int, TaggedUndirectedEdge<int, int>> graph = new();
        graph.AddVertexRange(Enumerable.Range(0, book.Graph.Count));
        foreach (Span span in book.Graph.Station.Spans)
        {
            int a = book.Graph.IndexOf(span.A), b = book.Graph.IndexOf(span.B);
            graph.AddEdge(new(Math.Min(a, b), Math.Max(a, b), book.SpanSeconds(span, slower)));
        }
        TryFunc<int, IEnumerable<TaggedUndirectedEdge<int, int>>> shortest = graph.ShortestPathsDijkstra(edge => edge.Tag, start.Grip);
        IReadOnlyList<WayLabel>[] found = book.Explore(start, slower);
        for (int grip = 0; grip < found.Length; grip++)
        {
            int expected = grip == start.Grip ? 0 : shortest(grip, out IEnumerable<TaggedUndirectedEdge<int, int>> path) ? path.Sum(edge => edge.Tag) : -1;
            Assert.Equal(expected, found[grip].Min(label => label.Seconds));
        }
    }

    /// <summary>The line to some grip, the quickest from the airlock: through the hatch's grip one comes back along the own line only.</summary>
    private static TetherLine StartAt(LineBook book, int pick, double slower) => book.Explore(book.Root, slower)[pick % book.Graph.Count][0].Line;

    /// <summary>A walk of some random steps, told to both.</summary>
    private static (TetherLine, WholeStateSearch.State) Wander(LineBook book, WholeStateSearch referee, int steps, Random random)
    {
        TetherLine line = book.Root;
        WholeStateSearch.State state = new([[book.Root.Grip]]);
        for (int i = 0; i < steps; i++)
        {
            WholeStateSearch.Move[] moves = [.. referee.Moves(state)];
            if (moves.Length == 0) break;
            WholeStateSearch.State next = moves[random.Next(moves.Length)].To;
            TetherLine? followed = next.Reels.Count > state.Reels.Count ? book.SwapOn(line)
                : next.Reels.Count < state.Reels.Count ? LineBook.SwapBack(line)
                : book.Step(line, next.Grip, book.Graph.Between(line.Grip, next.Grip)!);
            Assert.NotNull(followed);
            Assert.Equal((next.Grip, next.Anchor, next.Reels.Count - 1, referee.Millimetres(next.Reels[^1])), (followed.Grip, followed.Anchor, followed.Reel, followed.OutMillimetres));
            (line, state) = (followed, next);
        }
        return (line, state);
    }

    /// <summary>Of every grip, anchor and reel, what nothing else beats in both time and tether paid out.</summary>
    private static SortedSet<(int Grip, int Anchor, int Reel, int Seconds, int Millimetres)> Best(
        IEnumerable<(int Grip, int Anchor, int Reel, int Seconds, int Millimetres)> ways)
    {
        SortedSet<(int, int, int, int, int)> best = [];
        foreach (var place in ways.GroupBy(way => (way.Grip, way.Anchor, way.Reel)))
        {
            int least = int.MaxValue;
            foreach (var way in place.OrderBy(way => way.Seconds).ThenBy(way => way.Millimetres))
                if (way.Millimetres < least)
                {
                    best.Add(way);
                    least = way.Millimetres;
                }
        }
        return best;
    }
}
