using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

/// <summary>From times to whole seconds: what allows shrinks, what forbids grows.</summary>
public class SkyTimesTests
{
    [Fact]
    public void NotDay_AnyPenumbra_GrowsToWholeSecondsInsideTheSpan()
    {
        SkyTimes sky = Sky(penumbra: [new(0, 100.2, true, false), new(2000.05, 2999.95, false, false), new(9000.5, 10_000, false, true)]);
        Assert.Equal([Between(0, 101), Between(1999, 3001), Between(9000, 10_000)], sky.NotDay);
    }

    [Fact]
    public void FullNight_AnyUmbra_ShrinksAndDropsWhatIsLeftEmpty()
    {
        SkyTimes sky = Sky(umbra: [new(0, 100.2, true, false), new(500.2, 501.9, false, false), new(2000.05, 2999.95, false, false), new(9000.5, 10_000, false, true)]);
        Assert.Equal([Between(0, 100), Between(2001, 2999), Between(9001, 10_000)], sky.FullNight);
    }

    [Fact]
    public void NoLink_LinksThatMeetInsideASecond_LeavesTheGapAtTheHandOver()
    {
        SkyTimes sky = Sky(stations: [new("Cove", [new(10.5, 99.95, false, false)]), new("Headland", [new(100.02, 200.5, false, false), new(150, 300, false, false)])]);
        Assert.Equal([Between(11, 99), Between(101, 299)], sky.Link);
        Assert.Equal([Between(0, 11), Between(99, 101), Between(299, 10_000)], sky.NoLink);
    }

    [Fact]
    public void NoLink_NoStationAtAll_IsTheWholeSpan() => Assert.Equal([Between(0, 10_000)], Sky().NoLink);

    [Fact]
    public void Seconds_AnyPassage_NeverPromiseWhatIsNotSo() =>
        Gen.Select(Gen.Double[0, 9000], Gen.Double[0.2, 900]).Sample((from, length) =>
        {
            Passage one = new(from, from + length, false, false);
            SkyTimes sky = Sky([one], [one], [new("Cove", [one])]);
            PetInterval grown = Assert.Single(sky.NotDay);
            Assert.True(grown.From.Seconds <= from && grown.To.Seconds >= from + length && grown.To.Seconds - grown.From.Seconds <= length + 3);
            foreach (PetInterval shrunk in sky.FullNight.Concat(sky.Link))
                Assert.True(shrunk.From.Seconds >= from && shrunk.To.Seconds <= from + length && shrunk.To.Seconds - shrunk.From.Seconds >= length - 3);
            Assert.True(length < 2.3 || (sky.FullNight.Length == 1 && sky.Link.Length == 1));
        });

    // What is written by hand closes further and opens nothing, and outside the span nothing is promised.
    [Fact]
    public void With_TimesByHand_ClosesFurtherAndBeyondTheSpanEverything()
    {
        Passage night = new(2000.5, 2999.5, false, false);
        SkyTimes times = Sky([night], [night], [new("Cove", [new(0, 10_000, true, true)])]) with { Radiation = [new("Shoal", [new(500, 600, false, false)])] };
        Sky byHand = new([Between(2900, 3500)], [Between(40, 50)], "by hand") { Radiation = [Between(590, 700)], NoVoice = [Between(1, 2)] };
        Sky sky = times.With(byHand, []);
        Assert.Equal("by hand", sky.Source);
        Assert.Equal(byHand.NoVoice, sky.NoVoice);
        Assert.Equal(3, sky.Night.Length);
        Assert.Equal(Between(2000, 3500), sky.Night[1]);
        Assert.Equal([Between(2001, 2999)], sky.FullNight);
        Assert.Equal(Between(40, 50), sky.NoLink[1]);
        Assert.Equal(Between(499, 700), sky.Radiation!.Value[1]);
        foreach (ImmutableArray<PetInterval> closed in new[] { sky.Night, sky.NoLink, sky.Radiation.Value })
        {
            Assert.Equal((true, 0), (closed[0].From.Seconds <= -48 * 3600, closed[0].To.Seconds));
            Assert.Equal((10_000, true), (closed[^1].From.Seconds, closed[^1].To.Seconds >= 48 * 3600));
        }
        // No regions, and none by hand: nobody has said.
        Assert.Null(Sky().With(byHand with { Radiation = null }, []).Radiation);
        Assert.Equal([Between(590, 700)], Sky().With(byHand, []).Radiation!.Value);
    }

    private static SkyTimes Sky(ImmutableArray<Passage>? penumbra = null, ImmutableArray<Passage>? umbra = null, ImmutableArray<NamedPassages>? stations = null) =>
        new(new(2031, 5, 12, 8, 0, 0, DateTimeKind.Utc), Between(0, 10_000), 1, 0, penumbra ?? [], umbra ?? [], umbra ?? [], stations ?? [], [], []);

    private static PetInterval Between(int from, int to) => new(Pet.FromSeconds(from), Pet.FromSeconds(to));
}
