using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class WalkingTests
{
    private static readonly Pace Pace = new(6.0 / 60, 3.0 / 60, Duration.FromMinutes(2), "invented");

    [Theory]
    [InlineData(6, SpanClass.Easy, 1, 60)] // 6 m at 6 m/min
    [InlineData(4.5, SpanClass.Careful, 1, 90)] // 4.5 m at 3 m/min
    [InlineData(6.01, SpanClass.Easy, 1, 61)] // 60.1 s, up
    [InlineData(6, SpanClass.Easy, 1.8, 108)] // 60 s × 1.8
    [InlineData(50, SpanClass.Gap, 1, 120)] // a gap takes what a gap takes
    [InlineData(50, SpanClass.Gap, 1.5, 180)]
    [InlineData(0.001, SpanClass.Easy, 1, 1)] // never less than a second
    public void SpanSeconds_OnAReel_IsLengthByPaceRoundedUp(double length, SpanClass how, double slower, int seconds) =>
        Assert.Equal(seconds, Walking.SpanSeconds(Pace, Span(length, how), slower, RandomStructure.Reel));

    [Theory]
    [InlineData(6, 1, 80)] // 60 s + 20 s of hooking
    [InlineData(6, 1.8, 128)] // load stretches the 60 s, not the hooking
    public void SpanSeconds_WithShortTethers_AddsHookingThatLoadDoesNotStretch(double length, double slower, int seconds) =>
        Assert.Equal(seconds, Walking.SpanSeconds(Pace, Span(length, SpanClass.Easy), slower, RandomStructure.Leapfrog(20)));

    [Fact]
    public void SpanSeconds_AnySpan_IsNeverRoundedDownNorByMoreThanASecond() =>
        Gen.Select(Gen.Double[0.2, 60], Gen.Bool, Gen.Double[1, 3]).Sample((length, easy, slower) =>
        {
            double exact = length / (easy ? Pace.Easy : Pace.Careful) * slower;
            int seconds = Walking.SpanSeconds(Pace, Span(length, easy ? SpanClass.Easy : SpanClass.Careful), slower, RandomStructure.Reel);
            return seconds >= exact - 1e-6 && seconds < exact + 1;
        });

    [Fact]
    public void SlowedBy_SeveralThings_IsThatOfTheSlowest() =>
        Assert.Equal(2.5, Walking.SlowedBy([new(new("bag"), 1.2), new(new("huge"), 2.5), new(new("bulky"), 1.8)]));

    [Fact]
    public void SlowedBy_Nothing_IsOne() => Assert.Equal(1, Walking.SlowedBy([]));

    [Theory]
    [InlineData(6, 6000)]
    [InlineData(6.0001, 6001)]
    [InlineData(0.3, 300)] // 0.3 × 1000 is a little less than 300 in binary
    [InlineData(1.1, 1100)] // 1.1 × 1000 is a little more than 1100
    public void Millimetres_OfASpan_AreRoundedUp(double length, int millimetres) =>
        Assert.Equal(millimetres, StationGraph.Millimetres(Span(length, SpanClass.Easy)));

    private static Span Span(double length, SpanClass how) => new(new("a"), new("b"), length, how);
}
