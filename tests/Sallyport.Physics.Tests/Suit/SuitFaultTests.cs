using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;
using static Sallyport.Tests.Physics.SuitExamples;

namespace Sallyport.Tests.Physics;

/// <summary>What a suit cannot be reckoned with, and in which words it is refused.</summary>
public class SuitFaultTests
{
    public static TheoryData<string, Func<SuitProfile, SuitProfile>> Faulty => new()
    {
        { "the suit has no battery", suit => suit with { Aboard = suit.Aboard with { Battery = 0 } } },
        { "the suit has no primary oxygen", suit => suit with { Aboard = suit.Aboard with { Oxygen = -1 } } },
        { "the suit has no cartridge", suit => suit with { Aboard = suit.Aboard with { CarbonDioxide = 0 } } },
        { "the suit has no feedwater", suit => suit with { Aboard = suit.Aboard with { Feedwater = double.NaN } } },
        { "the amount of battery aboard is not a finite number", suit => suit with { Aboard = suit.Aboard with { Battery = double.PositiveInfinity } } },
        { "the reserve of battery, 1801800 J, is above what is aboard, 1800000 J", suit => suit with { Reserve = suit.Reserve with { Length = Duration.FromSeconds(36036) } } },
        { "the reserve is below zero", suit => suit with { Reserve = suit.Reserve with { Length = Duration.FromSeconds(-1) } } },
        { "the reserve is reckoned with 'radio', which the suit does not have", suit => suit with { Reserve = suit.Reserve with { PowerMode = "radio" } } },
        { "the respiratory quotient 0.6 to 0.9", suit => suit with { RespiratoryQuotient = new(0.6, 0.85, 0.9) } },
        { "the person factor 0", suit => suit with { PersonFactor = new(0, 1, 1) } },
        { "the oxygen leak is below zero", suit => suit with { OxygenLeakKilogramsPerSecond = new(-1e-6, 0, 0) } },
        { "the feedwater evaporates at 300 K", suit => suit with { FeedwaterKelvin = 300 } },
        { "the metabolic rate of Heavy work is not above 0 W", suit => suit with { Rates = suit.Rates with { Heavy = default } } },
        { "nothing in the suit draws power", suit => suit with { PowerModes = [] } },
        { "'lights on' draws no power", suit => suit with { PowerModes = [new(Lights, default)] } },
        { "'lights off' is given 2 times", suit => suit with { PowerModes = suit.PowerModes.Add(new(Dark, Exactly(1))) } },
    };

    [Theory]
    [MemberData(nameof(Faulty))]
    public void Faults_OfASuitWithAFault_NameIt(string words, Func<SuitProfile, SuitProfile> spoil)
    {
        SuitProfile spoiled = spoil(Plain);
        Assert.Contains(spoiled.Faults(), fault => fault.StartsWith(words, StringComparison.Ordinal));
        Assert.Contains(words, Assert.Throws<ArgumentException>(() => SuitUse.Over(spoiled, Walk(Exertion.Light), At("6:00"), SuitAmounts.None)).Message);
    }

    [Fact]
    public void Faults_OfSoundSuits_AreNone()
    {
        Assert.Empty(Plain.Faults());
        Assert.Empty(Spread.Faults());
    }

    // Ten hours of 50 W are all that is aboard: exactly the reserve is no fault.
    [Fact]
    public void Faults_OfAReserveOfTheWholeTank_AreNoneForThatTank() =>
        Assert.DoesNotContain((Plain with { Reserve = Plain.Reserve with { Length = Duration.FromMinutes(600) } }).Faults(), fault => fault.Contains("battery"));

    [Fact]
    public void SuitAmounts_InASuitOfTheScenario_AreItsFour()
    {
        Suit suit = new(At("7:00"), "invented", 29_647, PrimaryOxygen: 0.5, Duration.FromMinutes(30), Feedwater: 4, Battery: 1.8e6, CarbonDioxide: 0.7);
        Assert.Equal(new(Oxygen: 0.5, CarbonDioxide: 0.7, Feedwater: 4, Battery: 1.8e6), SuitAmounts.In(suit));
    }

    [Fact]
    public void Faults_OfSeveral_AreAllNamed() =>
        Assert.Equal(
            ["the suit has no primary oxygen", "the suit has no battery"],
            (Plain with { Aboard = Plain.Aboard with { Oxygen = 0, Battery = 0 } }).Faults());

    [Fact]
    public void Over_StretchesOutOfOrderOrWithAGap_AreRefused()
    {
        ImmutableArray<SuitStretch> walk = Walk(Exertion.Light);
        Refused("expected a stretch from 0:05 on, found one from 0:06", walk.SetItem(4, walk[4] with { From = At("0:06") }));
        Refused("the stretch from 6:30 to 6:00 does not rise in time", walk.SetItem(5, walk[5] with { From = At("6:30"), To = At("6:00") }));
        Refused("expected a stretch from -1:00 on, found one from -0:10", walk.RemoveAt(1));
        Refused("at least one stretch", []);
    }

    [Fact]
    public void Over_AStateThatCannotBe_IsRefused()
    {
        ImmutableArray<SuitStretch> walk = Walk(Exertion.Light);
        void State(string words, SuitState state) => Refused(words, walk.SetItem(4, walk[4] with { State = state }));
        SuitState own = SuitState.OnItsOwn(Lights);
        State("EV1: the cooling water is on outside vacuum", own with { Vacuum = false });
        State("EV1: on its own oxygen, and nothing takes up carbon dioxide", own with { Cartridge = false });
        State("EV1: on the battery, and no power mode is told", own with { PowerMode = "" });
        State("EV1: the suit has no 'radio'", own with { PowerMode = "radio" });
    }

    [Theory]
    [InlineData("-2:00:01")]
    [InlineData("6:30:01")]
    public void Over_RepressOutsideThePlan_IsRefused(string repress) =>
        Assert.Contains("repress starts at", Assert.Throws<ArgumentException>(() => SuitUse.Over(Plain, Walk(Exertion.Light), At(repress), SuitAmounts.None)).Message);

    [Theory]
    [InlineData(-0.1)]
    [InlineData(0.7)]
    [InlineData(double.NaN)]
    public void Over_MoreUsedThanWasAboardOrLessThanNothing_IsRefused(double oxygen) =>
        Assert.Contains("of primary oxygen used before", Assert.Throws<ArgumentException>(() =>
            SuitUse.Over(Plain, Walk(Exertion.Light), At("6:00"), SuitAmounts.None with { Oxygen = oxygen })).Message);

    private static void Refused(string words, ImmutableArray<SuitStretch> stretches) =>
        Assert.Contains(words, Assert.Throws<ArgumentException>(() => SuitUse.Over(Plain, stretches, At("6:00"), SuitAmounts.None)).Message);
}
