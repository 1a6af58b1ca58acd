using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class BagRuleTests
{
    private static readonly BagHolds Roomy = new(0.1, 100, [new("small"), new("bag"), new("bulky")], 8, true);

    // The latch bag: a driver of 10 L and 2 kg, and two cartridges of 10 L and 0.2 kg each.
    private static Scenario With(BagHolds holds) => Skerry.WithGear("latch-bag", gear => gear with { Holds = holds });

    /// <summary>The tray is installed at the ring, and the last step of the latch puts it into the bag, from 0:29:30 on.</summary>
    private static Scenario TrayIntoBag(BagHolds holds) => With(holds).WithGear("tray", gear => gear with { Start = new(LocationKind.Site, "ring") })
        .WithLeg("latch/free", leg => leg with { Steps = leg.Steps.SetItem(1, leg.Steps[1] with { Makes = leg.Steps[1].Makes.Add(new MoveGear(new("tray"), In("latch-bag"))) }) });

    [Theory]
    [InlineData(30, 0)]
    [InlineData(29.99, 1)]
    public void GearVolume_OfEverythingInIt_IsFoundOnlyAbove(double litres, int found) =>
        Assert.Equal(found, Judged.By("gear.volume", With(Roomy with { Volume = litres / 1000 }), Plan.ShortWalk()).Length);

    [Theory]
    [InlineData(2.4, 0)]
    [InlineData(2.39, 1)]
    public void GearVolume_MassOfEverythingInIt_IsFoundOnlyAbove(double mass, int found) =>
        Assert.Equal(found, Judged.By("gear.volume", With(Roomy with { Mass = mass }), Plan.ShortWalk()).Length);

    [Fact]
    public void GearVolume_OverfilledByAStep_IsFoundThenWithItsFigures()
    {
        // One cartridge is used, 20 L are left, and the tray's 10 L come to them.
        Judged.None("gear.volume", TrayIntoBag(Roomy with { Volume = 0.03, Mass = 22.2 }), Plan.ShortWalk());
        Finding finding = Judged.One("gear.volume", TrayIntoBag(Roomy with { Volume = 0.03, Mass = 22.1 }), Plan.ShortWalk());
        Assert.Equal(At("0:31:30"), finding.At);
        Assert.Equal(("22.2 kg", "22.1 kg", "-0.1 kg"), (finding.Measured, finding.Limit, finding.Margin));
    }

    [Fact]
    public void GearVolume_ABagInIt_CountsWithItsOwnVolumeOrWithItsContents()
    {
        Gear pouch = Skerry.Gear[0] with { Id = new("pouch"), Size = new("small"), Mass = 1, Volume = 0.002, Start = In("latch-bag"), End = null };
        Scenario scenario = With(Roomy with { Volume = 0.032, Mass = 3.4 }).WithGear("driver", gear => gear with { Start = In("pouch"), End = null, Volume = 0.012 });
        scenario = scenario with { Gear = scenario.Gear.Add(pouch) };
        // 20 L of cartridges and 12 L in the pouch, which is itself only 2 L; 1 + 2 + 0.4 kg.
        Judged.None("gear.volume", scenario, Plan.ShortWalk());
        Judged.One("gear.volume", scenario.WithGear("driver", gear => gear with { Volume = 0.0121 }), Plan.ShortWalk());
        Judged.One("gear.volume", scenario.WithGear("pouch", gear => gear with { Volume = 0.013 }), Plan.ShortWalk());
        Judged.One("gear.volume", scenario.WithGear("pouch", gear => gear with { Mass = 1.01 }), Plan.ShortWalk());
    }

    [Theory]
    [InlineData(3, 0)]
    [InlineData(2, 1)]
    public void GearNested_ThingsInIt_AreFoundOnlyAboveItsPlaces(int items, int found)
    {
        Scenario scenario = TrayIntoBag(Roomy with { Items = items });
        Assert.Equal(found, Judged.By("gear.nested", scenario, Plan.ShortWalk()).Length);
        if (found > 0) Assert.Equal(("3 things", "2 things", "-1 thing"), Judged.One("gear.nested", scenario, Plan.ShortWalk()) is var finding ? (finding.Measured, finding.Limit, finding.Margin) : default);
    }

    [Fact]
    public void GearNested_ASizeThatItDoesNotTake_IsFoundWhenItComesIn()
    {
        Finding finding = Judged.One("gear.nested", TrayIntoBag(Roomy with { Sizes = [new("small")] }), Plan.ShortWalk());
        Assert.Contains("tray, which is bulky", finding.Sentence);
        Assert.Equal(At("0:31:30"), finding.At);
    }

    [Fact]
    public void GearNested_ABagWhereNoneMayLie_IsFound()
    {
        Scenario Nested(bool bags) => With(Roomy with { Bags = bags }) is var scenario
            ? scenario with { Gear = scenario.Gear.Add(Skerry.Gear[0] with { Id = new("pouch"), Start = In("latch-bag"), End = null }) } : scenario;
        Judged.None("gear.nested", Nested(bags: true), Plan.ShortWalk());
        Assert.Contains("takes no bags", Judged.One("gear.nested", Nested(bags: false), Plan.ShortWalk()).Sentence);
    }

    [Fact]
    public void GearNested_ABagInABagInABag_IsFoundWhateverTheyHold()
    {
        Gear pouch = Skerry.Gear[0] with { Id = new("pouch"), Start = In("latch-bag"), End = null }, purse = pouch with { Id = new("purse"), Start = In("pouch") };
        Scenario two = Skerry with { Gear = Skerry.Gear.Add(pouch).Add(purse with { Start = Hooked("lock") }) }, three = Skerry with { Gear = Skerry.Gear.Add(pouch).Add(purse) };
        Judged.None("gear.nested", two, Plan.ShortWalk());
        Assert.Equal("3 bags", Judged.One("gear.nested", three, Plan.ShortWalk()).Measured);
    }

    [Fact]
    public void GearNested_ABagInItself_IsFound()
    {
        Scenario scenario = Skerry with { Gear = Skerry.Gear.Add(Skerry.Gear[0] with { Id = new("pouch"), Start = In("pouch"), End = null }) };
        Assert.Contains("pouch lies in itself", Judged.One("gear.nested", scenario, Plan.ShortWalk()).Sentence);
        scenario = Skerry with { Gear = Skerry.Gear.Add(scenario.Gear[^1] with { Start = In("purse") }).Add(scenario.Gear[^1] with { Id = new("purse") }) };
        Assert.Equal(2, Judged.By("gear.nested", scenario, Plan.ShortWalk()).Length);
    }

    [Fact]
    public void Bags_ThatDoNotSayWhatTheyHold_AreNotCalledClean()
    {
        Timeline plan = Plan.ShortWalk();
        Verdict Of(Scenario scenario) => Judge.Of(scenario, [(plan, Player.Play(scenario, plan))]);
        Assert.Contains("gear.volume: no bag says what it holds", Of(Skerry).NotChecked);
        Assert.Contains("gear.nested: bags that do not say what they hold: latch-bag", Of(Skerry).NotChecked);
        Assert.DoesNotContain(Of(With(Roomy)).NotChecked, words => words.StartsWith("gear.", StringComparison.Ordinal));
    }
}
