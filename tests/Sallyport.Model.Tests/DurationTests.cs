using CsCheck;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Tests.Model;

public class DurationTests
{
    private static readonly Gen<Duration> Durations = Gen.Int[-1_000_000, 1_000_000].Select(Duration.FromSeconds);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(90, 90)]
    [InlineData(90.001, 91)]
    [InlineData(0.5, 1)]
    [InlineData(-0.5, 0)]
    [InlineData(-1.5, -1)]
    public void CeilingFromSeconds_PartSeconds_RoundsUp(double seconds, int expected) =>
        Assert.Equal(expected, Duration.CeilingFromSeconds(seconds).Seconds);

    [Fact]
    public void CeilingFromSeconds_LastBitsOfAProduct_AreForgiven()
    {
        // 16.1 min × 60 s/min is 966.0000000000001 in doubles; a file that says 16.1 min means 966 s.
        Assert.True(16.1 * 60 > 966);
        Assert.Equal(966, Duration.CeilingFromSeconds(16.1 * 60).Seconds);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(1.1e7)]
    [InlineData(-1.1e7)]
    public void CeilingFromSeconds_NoLengthThatAPlanCanHold_Throws(double seconds) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Duration.CeilingFromSeconds(seconds));

    [Fact]
    public void CeilingFromSeconds_AnyLength_IsNeverShorterThanToldAndLessThanASecondLonger() =>
        Gen.Double[0, 1e6].Sample(told =>
        {
            int taken = Duration.CeilingFromSeconds(told).Seconds;
            return taken >= told - 1e-9 && taken < told + 1;
        });

    [Fact]
    public void FromMinutes_MoreThanSecondsCanCount_Throws() =>
        Assert.Throws<OverflowException>(() => Duration.FromMinutes(int.MaxValue / 60 + 1));

    [Fact]
    public void Plus_AnyTwoLengths_AddsSecondsEitherWayRound() =>
        Gen.Select(Durations, Durations).Sample((a, b) => a.Plus(b) == b.Plus(a) && a.Plus(b).Seconds == a.Seconds + b.Seconds);

    [Fact]
    public void Order_AnyTwoLengths_IsThatOfTheirSeconds() =>
        Gen.Select(Durations, Durations).Sample((a, b) =>
            (a < b) == (a.Seconds < b.Seconds) && (a > b) == (b < a) && (a <= b) == !(a > b) && (a >= b) == !(a < b)
            && Math.Sign(a.CompareTo(b)) == Math.Sign(a.Seconds.CompareTo(b.Seconds)));

    [Theory]
    [InlineData(0, "0 s")]
    [InlineData(45, "45 s")]
    [InlineData(420, "7 min")]
    [InlineData(450, "7 min 30 s")]
    [InlineData(-450, "-7 min 30 s")]
    [InlineData(7200, "120 min")]
    public void ToString_Length_ReadsAsPeopleSayIt(int seconds, string text) =>
        Assert.Equal(text, Duration.FromSeconds(seconds).ToString());
}
