using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

/// <summary>The way between two lines, walked piece by piece.</summary>
public class BetweenTests
{
    [Fact]
    public void Between_TwoLinesOfReels_LeadsFromOneToTheOther() =>
        Lines.Sample((structure, from, to, slower) =>
        {
            (LineBook book, TetherLine a, TetherLine b) = Pick(structure, from, to);
            TetherLine line = a;
            foreach (WayPiece piece in book.Between(a, b, slower))
            {
                Assert.Equal(line.Grip, piece.From);
                TetherLine? next = !piece.IsSwap ? book.Step(line, piece.To, book.Graph.Between(piece.From, piece.To)!)
                    : piece.Onto == piece.From ? book.SwapOn(line)
                    : LineBook.SwapBack(line);
                Assert.NotNull(next);
                if (piece.IsSwap) Assert.Equal(piece.Onto, next.Anchor);
                line = next;
            }
            Assert.Same(b, line);
        }, iter: 500);

    [Fact]
    public void Between_TwoLinesOfReels_TakesWhatItsSpansAndSwapsTake() =>
        Lines.Sample((structure, from, to, slower) =>
        {
            (LineBook book, TetherLine a, TetherLine b) = Pick(structure, from, to);
            foreach (WayPiece piece in book.Between(a, b, slower))
                Assert.Equal(piece.IsSwap ? structure.Scenario.Tether.Swap.Seconds
                    : Walking.SpanSeconds(structure.Person.Pace!, book.Graph.Between(piece.From, piece.To)!, slower, structure.Scenario.Tether), piece.Seconds);
        }, iter: 300);

    [Fact]
    public void Between_TheAirlockAndALine_TakesAsLongHomeAsOut() =>
        Lines.Sample((structure, from, to, slower) =>
        {
            (LineBook book, _, TetherLine line) = Pick(structure, from, to);
            ImmutableArray<WayPiece> home = book.Between(line, book.Root, slower), away = book.Between(book.Root, line, slower);
            Assert.Equal(away.Sum(piece => piece.Seconds), home.Sum(piece => piece.Seconds));
            Assert.Equal(away.Where(piece => !piece.IsSwap).Select(piece => (piece.To, piece.From)).Reverse(), home.Where(piece => !piece.IsSwap).Select(piece => (piece.From, piece.To)));
        }, iter: 300);

    [Fact]
    public void Between_ShortTethers_IsJoinedAndTakesTheLeastTime() =>
        Lines.Sample((reels, from, to, slower) =>
        {
            RandomStructure structure = reels.With(RandomStructure.Leapfrog(20));
            (LineBook book, TetherLine a, TetherLine b) = Pick(structure, from, to);
            ImmutableArray<WayPiece> way = book.Between(a, b, slower);
            int at = a.Grip;
            foreach (WayPiece piece in way)
            {
                Assert.Equal(at, piece.From);
                Assert.NotNull(book.Graph.Between(piece.From, piece.To));
                at = piece.To;
            }
            Assert.Equal(b.Grip, at);
            Assert.Equal(book.Explore(a, slower)[b.Grip].Min(label => label.Seconds), way.Sum(piece => piece.Seconds));
        }, iter: 300);

    [Fact]
    public void Between_ShortTethersBesideZones_IsTheQuickestThatKeepsOutOfThemWhereOneDoes() =>
        Lines.Sample((reels, from, to, slower) =>
        {
            StandardLines lines = reels.With(RandomStructure.Leapfrog(20)).Lines;
            LineBook book = lines.Book;
            TetherLine[] all = [.. book.Explore(book.Root, 1).SelectMany(labels => labels).Select(label => label.Line)];
            (TetherLine a, TetherLine b) = (all[from % all.Length], all[to % all.Length]);
            IReadOnlySet<int>? kept = new[] { lines.EveryZone, lines.Zones.Stated }.FirstOrDefault(closed => book.Explore(a, slower, closed)[b.Grip].Count > 0);
            ImmutableArray<WayPiece> way = book.Between(a, b, slower);
            Assert.Equal(book.Explore(a, slower, kept)[b.Grip].Min(label => label.Seconds), way.Sum(piece => piece.Seconds));
            if (kept is not null) Assert.All(way, piece => Assert.False(kept.Contains(piece.From) || kept.Contains(piece.To)));
        }, iter: 300);

    [Fact]
    public void Between_ShortTethersAndNoWay_IsRefused()
    {
        RandomStructure structure = RandomStructure.Gen(2, 2).Single().With(RandomStructure.Leapfrog(20));
        LineBook joined = structure.Book;
        TetherLine far = joined.Explore(joined.Root, 1)[1][0].Line;
        LineBook apart = structure.With(station => station with { Spans = [] }).Book;
        ArgumentException refused = Assert.Throws<ArgumentException>(() => apart.Between(apart.Root, far, 1));
        Assert.Contains("no way joins grips 0 and 1", refused.Message);
    }

    private static Gen<(RandomStructure, int, int, double)> Lines { get; } =
        Gen.Select(RandomStructure.Gen(3, 14), Gen.Int[0, 10_000], Gen.Int[0, 10_000], Gen.Double[1, 3]);

    private static (LineBook Book, TetherLine From, TetherLine To) Pick(RandomStructure structure, int from, int to)
    {
        LineBook book = structure.Book;
        TetherLine[] lines = [.. book.Explore(book.Root, 1).SelectMany(labels => labels).Select(label => label.Line)];
        return (book, lines[from % lines.Length], lines[to % lines.Length]);
    }
}
