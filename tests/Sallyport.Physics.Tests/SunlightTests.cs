using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public sealed class SunlightTests
{
    private static readonly Gen<ImmutableArray<PetInterval>> Nights = Gen.Select(Gen.Int[1, 50], Gen.Int[1, 50]).Array[0, 5].Select(steps =>
    {
        int at = -60;
        return steps.Select(step => new PetInterval(Pet.FromSeconds(at += step.Item1), Pet.FromSeconds(at += step.Item2))).ToImmutableArray();
    });

    [Fact]
    public void Seconds_AnyStretch_AreThoseOutsideTheNights() => Gen.Select(Nights, Gen.Int[-100, 300], Gen.Int[0, 200]).Sample((nights, from, length) =>
        Assert.Equal(
            Enumerable.Range(from, length).Count(second => !nights.Any(night => night.From.Seconds <= second && second < night.To.Seconds)),
            Sunlight.Seconds(nights, Pet.FromSeconds(from), Pet.FromSeconds(from + length))));

    [Fact]
    public void After_SomeSunlight_IsTheFirstMomentWithThatMuch() => Gen.Select(Nights, Gen.Int[-100, 300], Gen.Int[0, 200]).Sample((nights, from, wanted) =>
    {
        Pet start = Pet.FromSeconds(from), after = Sunlight.After(nights, start, wanted);
        Assert.Equal(wanted, Sunlight.Seconds(nights, start, after));
        if (after > start) Assert.True(Sunlight.Seconds(nights, start, Pet.FromSeconds(after.Seconds - 1)) < wanted);
    });
}
