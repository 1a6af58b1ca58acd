using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class AirlockVolumeTests
{
    private static readonly AirlockRoom Roomy = new(10, 0.9, 5, [new("small"), new("bag"), new("bulky")], [], "a test");

    private static Scenario With(AirlockRoom? room, int holds = 2) =>
        Skerry.WithStation(station => station with { Airlocks = [station.Airlocks[0] with { Room = room, Holds = holds }] });

    // Two people of 900 L, and the bag: 30 L of things go out in it and 20 L come in, since a cartridge is used.
    [Theory]
    [InlineData(1830, 0)]
    [InlineData(1829.9, 1)]
    [InlineData(1820, 1)]
    [InlineData(1819.9, 2)]
    public void AirlockVolume_OfPeopleAndThings_IsFoundOnlyAbove(double litres, int found) =>
        Assert.Equal(found, Judged.By("airlock.volume", With(Roomy with { Volume = litres / 1000 }), Plan.ShortWalk()).Length);

    [Fact]
    public void AirlockVolume_Overfilled_SaysTheFiguresAndWhatIsInIt()
    {
        Finding finding = Judged.One("airlock.volume", With(Roomy with { Volume = 1.825 }), Plan.ShortWalk());
        Assert.Equal(("1830 L (2 people, latch-bag)", "1825 L", "-5 L", "a test"), (finding.Measured, finding.Limit, finding.Margin, finding.Source));
        Assert.Equal(At("0:00"), finding.At);
    }

    [Theory]
    [InlineData(1, 0)]
    [InlineData(0, 2)]
    public void AirlockVolume_ThingsAtOnce_AreFoundOnlyAbove(int items, int found) =>
        Assert.Equal(found, Judged.By("airlock.volume", With(Roomy with { Items = items }), Plan.ShortWalk()).Length);

    [Theory]
    [InlineData(2, 0)]
    [InlineData(1, 2)]
    public void AirlockVolume_PeopleAtOnce_AreFoundOnlyAbove(int holds, int found) =>
        Assert.Equal(found, Judged.By("airlock.volume", With(Roomy, holds), Plan.ShortWalk()).Length);

    [Fact]
    public void AirlockVolume_ASizeThatTheHatchDoesNotLetPass_IsFoundEachWay()
    {
        Assert.Equal(2, Judged.By("airlock.volume", With(Roomy with { Hatch = [new("small")] }), Plan.ShortWalk()).Length);
        // What is in a bag passes in it.
        Judged.None("airlock.volume", With(Roomy with { Hatch = [new("bag")] }), Plan.ShortWalk());
    }

    [Fact]
    public void AirlockVolume_WhatMustBeInBeforePeople_IsFoundWhenItComesInOnSomebody()
    {
        Scenario scenario = With(Roomy with { BeforePeople = [new("bag")] });
        Finding finding = Judged.One("airlock.volume", scenario, Plan.ShortWalk());
        Assert.Contains("latch-bag comes in through lock with a person", finding.Sentence);
        Judged.None("airlock.volume", scenario, Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Put("EV1", "latch-bag", "lock").Home());
    }

    [Fact]
    public void AirlockVolume_OfAnAirlockThatSaysNothing_IsNotCalledClean()
    {
        Timeline plan = Plan.ShortWalk();
        Assert.Contains("airlock.volume: no airlock says what it has room for", Judge.Of(Skerry, [(plan, Player.Play(Skerry, plan))]).NotChecked);
        Scenario second = With(Roomy).WithStation(station => station with { Airlocks = [.. station.Airlocks, station.Airlocks[0] with { Id = new("side"), Room = null, Order = [] }] });
        Assert.Contains("airlock.volume: airlocks that do not say what they have room for: side", Judge.Of(second, [(plan, Player.Play(second, plan))]).NotChecked);
    }
}
