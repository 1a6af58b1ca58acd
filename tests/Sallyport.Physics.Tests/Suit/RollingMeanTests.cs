using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public class RollingMeanTests
{
    private const double WattsPerBtuPerHour = 1055.05585262 / 3600;
    private static readonly Duration Quarter = Duration.FromMinutes(15), Hour = Duration.FromMinutes(60);

    // One suit's design case as a plan: a quarter at 2000 Btu/h in an hour of 1600, the rest so that seven hours average 1000. The other three
    // quarters of the hour then are at 1466.7 Btu/h, and the other six hours at 900.
    [Fact, Reference("suit-design-case")]
    public void Greatest_OfTheDesignCase_AreItsPeaks()
    {
        ImmutableArray<RateStretch> plan = Plan((180, 900), (20, 4400 / 3.0), (15, 2000), (25, 4400 / 3.0), (180, 900));
        Assert.Equal(586.14, RollingMean.Greatest(plan, Quarter).Mean, 0.005);
        Assert.Equal(468.91, RollingMean.Greatest(plan, Hour).Mean, 0.005);
        Assert.Equal(293.07, RollingMean.Greatest(plan, Duration.FromMinutes(7 * 60)).Mean, 0.005);
        Assert.Equal(Pet.FromSeconds(215 * 60), RollingMean.Greatest(plan, Quarter).To);
        Assert.Equal(Pet.FromSeconds(240 * 60), RollingMean.Greatest(plan, Hour).To);
    }

    [Fact, Reference("suit-design-case")]
    public void Greatest_OfEightHoursAtTheLowerAverage_IsThatAverage() =>
        Assert.Equal(249.11, RollingMean.Greatest(Plan((480, 850)), Duration.FromMinutes(480)).Mean, 0.005);

    // Half the window at 600 and half at 200 is 400, wherever the stretches' ends lie.
    [Fact]
    public void Over_TwoStretches_IsStraightBetweenItsPoints()
    {
        ImmutableArray<RateStretch> plan = [Stretch(0, 1800, 200), Stretch(1800, 2400, 600)];
        Assert.Equal(
            [new(Pet.FromSeconds(900), 200, true), new(Pet.FromSeconds(1800), 200, true), new(Pet.FromSeconds(2400), (300 * 200 + 600 * 600) / 900.0, true)],
            RollingMean.Over(plan, Quarter));
    }

    // The referee moves the window second by second over an array of seconds.
    [Fact]
    public void Greatest_OfAnyPlan_IsWhatMovingTheWindowBySecondsFinds() =>
        Gen.Select(Gen.Int[-3000, 1000], Gen.Select(Gen.Int[1, 400], Gen.Int[0, 800]).Array[1, 10], Gen.Int[1, 900]).Sample((start, parts, window) =>
        {
            ImmutableArray<RateStretch>.Builder plan = ImmutableArray.CreateBuilder<RateStretch>();
            List<int> seconds = [];
            foreach ((int length, int rate) in parts)
            {
                plan.Add(Stretch(start + seconds.Count, start + seconds.Count + length, rate));
                seconds.AddRange(Enumerable.Repeat(rate, length));
            }
            MeanPoint greatest = RollingMean.Greatest(plan.ToImmutable(), Duration.FromSeconds(window));
            Assert.Equal(seconds.Count >= window, greatest.IsWhole);
            int width = Math.Min(window, seconds.Count);
            long sum = seconds.Take(width).Sum(), most = sum;
            for (int i = width; i < seconds.Count; i++) most = Math.Max(most, sum += seconds[i] - seconds[i - width]);
            Assert.Equal((double)most / width, greatest.Mean, 1e-9);
        });

    [Fact]
    public void Over_LessThanAWindow_IsTheMeanOfWhatIsKnownAndSaysSo() =>
        Assert.Equal([new(Pet.FromSeconds(600), 300, false)], RollingMean.Over([Stretch(0, 300, 200), Stretch(300, 600, 400)], Hour));

    [Fact]
    public void Over_BadStretches_AreRefused()
    {
        void Refused(string words, ImmutableArray<RateStretch> stretches, int window) =>
            Assert.Contains(words, Assert.Throws<ArgumentException>(() => RollingMean.Over(stretches, Duration.FromSeconds(window))).Message);
        Refused("at least one", [], 60);
        Refused("does not rise", [Stretch(0, 0, 1)], 60);
        Refused("expected a stretch from 0:01 on, found one from 0:02", [Stretch(0, 60, 1), Stretch(120, 180, 1)], 60);
        Refused("expected a stretch from 0:01 on, found one from 0:00", [Stretch(0, 60, 1), Stretch(0, 180, 1)], 60);
        Refused("not a finite number", [Stretch(0, 60, double.NaN)], 60);
        Refused("window", [Stretch(0, 60, 1)], 0);
    }

    private static RateStretch Stretch(int from, int to, double rate) => new(Pet.FromSeconds(from), Pet.FromSeconds(to), rate);

    /// <summary>Minutes and Btu/h, one after another from PET zero.</summary>
    private static ImmutableArray<RateStretch> Plan(params (int Minutes, double BtuPerHour)[] parts)
    {
        ImmutableArray<RateStretch>.Builder plan = ImmutableArray.CreateBuilder<RateStretch>();
        int at = 0;
        foreach ((int minutes, double rate) in parts) plan.Add(Stretch(at, at += minutes * 60, rate * WattsPerBtuPerHour));
        return plan.ToImmutable();
    }
}
