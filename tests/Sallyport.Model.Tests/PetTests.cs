using CsCheck;
using Sallyport.Model;
using Xunit;

namespace Sallyport.Tests.Model;

public class PetTests
{
    /// <summary>Every moment that a file can write: hours of up to three digits.</summary>
    private static readonly Gen<Pet> Pets = Gen.Int[-3_599_999, 3_599_999].Select(Pet.FromSeconds);

    [Theory]
    [InlineData("0:00", 0)]
    [InlineData("0:25", 1500)]
    [InlineData("6:30", 23400)]
    [InlineData("3:10:05", 11405)]
    [InlineData("-0:40", -2400)]
    [InlineData("-0:00:01", -1)]
    [InlineData("+1:00", 3600)]
    [InlineData("999:59:59", 3_599_999)]
    public void TryParse_WellFormedText_ReadsSignedSeconds(string text, int seconds)
    {
        Assert.True(Pet.TryParse(text, out Pet pet));
        Assert.Equal(seconds, pet.Seconds);
    }

    [Theory]
    [InlineData("")]
    [InlineData("-")]
    [InlineData("3")]
    [InlineData("3:1")]
    [InlineData("3:60")]
    [InlineData("3:10:60")]
    [InlineData("3:10:5")]
    [InlineData("3:10:05:00")]
    [InlineData("1000:00")]
    [InlineData(":30")]
    [InlineData("--1:00")]
    [InlineData("+-1:00")]
    [InlineData("3:-1")]
    [InlineData("3: 10")]
    [InlineData(" 3:10")]
    [InlineData("3:10 ")]
    [InlineData("3.5:10")]
    [InlineData("three:ten")]
    [InlineData("٣:10")]
    public void TryParse_AnythingElse_IsRefusedAndGivesZero(string text)
    {
        Assert.False(Pet.TryParse(text, out Pet pet));
        Assert.Equal(default, pet);
    }

    [Theory]
    [InlineData(0, "0:00")]
    [InlineData(-2400, "-0:40")]
    [InlineData(-1, "-0:00:01")]
    [InlineData(11405, "3:10:05")]
    [InlineData(36000, "10:00")]
    public void ToString_Moment_WritesSecondsOnlyWhenTheyAreNotZero(int seconds, string text) =>
        Assert.Equal(text, Pet.FromSeconds(seconds).ToString());

    [Fact]
    public void ToString_AnyMoment_ReadsBackAsItself() =>
        Pets.Sample(pet => Pet.TryParse(pet.ToString(), out Pet again) && again == pet);

    [Fact]
    public void Since_AnyTwoMoments_IsUndoneByPlus() =>
        Gen.Select(Pets, Pets).Sample((a, b) => b.Plus(a.Since(b)) == a);

    [Fact]
    public void Order_AnyTwoMoments_IsThatOfTheirSeconds() =>
        Gen.Select(Pets, Pets).Sample((a, b) =>
            (a < b) == (a.Seconds < b.Seconds) && (a > b) == (b < a) && (a <= b) == !(a > b) && (a >= b) == !(a < b)
            && Math.Sign(a.CompareTo(b)) == Math.Sign(a.Seconds.CompareTo(b.Seconds)));

    [Fact]
    public void Default_Moment_IsPetZero() => Assert.Equal(Pet.FromSeconds(0), default);
}
