using System.Collections.Immutable;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Draw.Tests;

public sealed class PartsTests
{
    private static readonly LabelShape Word = new([new("word", Face.Regular, 12, Palette.Words)], 0);

    [Fact]
    public void ReturnLine_PartBetweenJumps_StartsAfterOneAndEndsBeforeTheNext()
    {
        // By hand: 10 min until 0:10, a jump to 14, a climb to 20 at 0:40, a jump down to 5.
        ReturnPoint Point(int minute, int minutes) => new(Pet.FromSeconds(minute * 60), minutes * 60, new("a"));
        ReturnCurve curve = new(ReturnKind.One, new("EV1"), [Point(0, 10), Point(10, 10), Point(10, 14), Point(40, 20), Point(40, 5), Point(60, 5)]);
        TimeAxis axis = new(Pet.FromSeconds(0), Pet.FromSeconds(3600), default, 0, 600);
        ReturnLine line = new(curve, axis, seconds => seconds / 60);
        Assert.Equal(600, axis.X(Pet.FromSeconds(3600)));
        Assert.Equal([new(100, 14), new(400, 20)], line.Part(Pet.FromSeconds(600), Pet.FromSeconds(2400)));
        Assert.Equal([new(50, 10), new(100, 10), new(100, 14), new(250, 17)], line.Part(Pet.FromSeconds(300), Pet.FromSeconds(1500)));
        Assert.Equal(5 * 60, line.After(Pet.FromSeconds(2400)));
    }

    [Fact]
    public void Placer_NoObstacle_PutsTheLabelAboveTheMiddleOfItsLine()
    {
        LabelPlacer placer = new(new(0, 0, 400, 100));
        placer.Avoid([new(100, 60), new(300, 60)], 2, false);
        PlacedLabel label = Assert.Single(placer.Place([new([Word], [new(100, 60), new(300, 60)], 1, 80)]))!;
        Assert.Equal(200, label.Area.Centre.X, 1);
        Assert.True(label.Area.Bottom < 60);
        Assert.Null(label.Leader);
    }

    [Fact]
    public void Placer_PlaceTaken_GoesAsideWithALeaderThatReachesTheStretch()
    {
        LabelPlacer placer = new(new(0, 0, 400, 100));
        placer.Avoid(new Area(150, 0, 100, 57));
        placer.Avoid(new Area(150, 63, 100, 37));
        PlacedLabel label = Assert.Single(placer.Place([new([Word], [new(195, 60), new(205, 60)], 1, 120)]))!;
        Assert.True(label.Area.Right < 150 || label.Area.Left > 250);
        Assert.InRange(label.Leader!.Value.To.X, 195, 205);
    }

    [Fact]
    public void Placer_NoRoomAtAll_GivesItBackUnplaced()
    {
        LabelPlacer placer = new(new(0, 0, 60, 16));
        placer.Avoid([new(0, 8), new(60, 8)], 2, false);
        Assert.Null(Assert.Single(placer.Place([new([Word], [new(30, 8), new(31, 8)], 1, 80)])));
    }

    [Fact]
    public void Placer_TwoWantTheLastPlace_TheMoreImportantOneGetsIt()
    {
        LabelPlacer placer = new(new(0, 0, Word.Width + 6, 16));
        ImmutableArray<PlacedLabel?> placed = placer.Place([new([Word], [new(15, 16), new(16, 16)], 1, 80), new([Word], [new(15, 16), new(16, 16)], 2, 80)]);
        Assert.Null(placed[0]);
        Assert.NotNull(placed[1]);
    }

    [Theory]
    [InlineData(0, 0, 10, 10, true)]
    [InlineData(-5, 5, 15, 5, true)]
    [InlineData(-5, -5, -1, 20, false)]
    [InlineData(9, -3, 11, 3, true)]
    [InlineData(11, -3, 20, 8, false)]
    [InlineData(4, 4, 5, 5, true)]
    public void Area_LineThroughOrPast_IsTold(double fromX, double fromY, double toX, double toY, bool meets) =>
        Assert.Equal(meets, new Area(0, 0, 10, 10).Meets(new(fromX, fromY), new(toX, toY)));

    [Fact]
    public void Lettering_Figures_AreAllOfOneWidth()
    {
        foreach (Face face in Enum.GetValues<Face>())
            Assert.Single(Enumerable.Range(0, 10).Select(digit => Lettering.Measure(digit.ToString(System.Globalization.CultureInfo.InvariantCulture), face, 10)).Distinct());
        // Lato 2.0 Regular, table hmtx: every figure advances 1160 of 2000 units.
        Assert.Equal(5.8, Lettering.Measure("7", Face.Regular, 10), 1e-9);
    }

    [Fact]
    public void Lettering_LongText_IsWrappedShortenedAndHalvedWithinTheWidth()
    {
        const string words = "Grease the hinge and work the latch until it moves by hand";
        IReadOnlyList<string> lines = Lettering.Wrap(words, Face.Regular, 12, 120);
        Assert.Equal(words, string.Join(' ', lines));
        Assert.All(lines, line => Assert.True(Lettering.Measure(line, Face.Regular, 12) <= 120));
        string shortened = Lettering.Shorten(words, Face.Regular, 12, 120);
        Assert.EndsWith("…", shortened);
        Assert.True(Lettering.Measure(shortened, Face.Regular, 12) <= 120);
        Assert.Equal(["Free the", "old latch"], Lettering.Halve("Free the old latch", Face.Bold, 12));
    }

    [Theory]
    [InlineData(3600, true)] // the seventh comes as the first one's hour is over
    [InlineData(3599, false)]
    public void LabelsAnHour_SevenLabels_AreTooManyWithinTheHour(int seventh, bool allowed)
    {
        int[] seconds = [0, 600, 1200, 1800, 2400, 3000, seventh];
        Assert.Equal(allowed, StripLabels.KeepsWithin(6, seconds.Select(Pet.FromSeconds)));
        Assert.True(StripLabels.KeepsWithin(6, seconds.Take(6).Select(Pet.FromSeconds)));
    }

    [Fact]
    public void TimeAxis_ShortAndLongWalks_KeepTicksApart()
    {
        TimeAxis shortWalk = new(Pet.FromSeconds(0), Pet.FromSeconds(50 * 60), new DateTime(2031, 5, 14, 23, 40, 0, DateTimeKind.Utc), 100, 900);
        Assert.Equal(300, shortWalk.Step);
        Assert.Equal("00:30", shortWalk.Utc(Pet.FromSeconds(50 * 60)));
        Assert.Equal(new DateOnly(2031, 5, 15), shortWalk.Date(Pet.FromSeconds(20 * 60)));
        TimeAxis longWalk = new(Pet.FromSeconds(-1200), Pet.FromSeconds(9 * 3600), default, 100, 900);
        Assert.Equal(3600, longWalk.Step);
        Assert.Equal(Pet.FromSeconds(-3600), longWalk.From);
    }
}
