using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class GearRuleTests
{
    [Fact]
    public void GearAbsent_TheBagNeverTaken_IsFoundForBagToolAndStock()
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Step("EV1", "latch/free", "loosen", 240).Step("EV1", "latch/free", "grease", 360);
        ImmutableArray<Finding> findings = Judged.By("gear.absent", Skerry, plan.Timeline);
        Assert.Equal(["latch-bag", "driver", "grease"], findings.Select(finding => finding.Sentence).Select(sentence =>
            sentence.Contains("latch-bag hangs") ? "latch-bag" : sentence.Contains("needs driver") ? "driver" : "grease"));
        Judged.None("gear.absent", Skerry, Plan.ShortWalk());
    }

    [Fact]
    public void GearAbsent_TheToolHookedAtTheWorksite_IsAtHand()
    {
        Scenario scenario = Skerry.WithGear("driver", gear => gear with { Start = Hooked("quay-2"), End = null });
        Judged.None("gear.absent", scenario, Plan.ShortWalk());
        Judged.One("gear.absent", scenario.WithGear("driver", gear => gear with { Start = Hooked("quay-1") }), Plan.ShortWalk());
    }

    [Fact]
    public void GearAbsent_ThroughoutAStep_IsFoundWhenTheToolGoesAway()
    {
        // The driver hangs at the rim, where EV1 holds for two minutes; EV2, there too, takes it after one.
        Scenario scenario = Skerry.WithGear("driver", gear => gear with { Start = Hooked("quay-1"), End = null })
            .WithLeg("pair/near", leg => leg with { Steps = [leg.Steps[0] with { Needs = [new NeedGear(NeedTime.Throughout, new("driver"))] }] });
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60)).Step("EV1", "pair/near", "hold", 120)
            .Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", 1140).Take("EV2", "driver", "quay-1", "chest");
        Finding finding = Judged.One("gear.absent", scenario, plan.Timeline);
        Assert.Equal(At("0:19"), finding.At);
    }

    [Fact]
    public void GearAbsent_TakingWhatIsInsideAwayFromTheHatch_IsFound() =>
        Judged.One("gear.absent", Skerry, Plan.Outside().Walk("EV1", "lock", ("quay-1", 60)).Take("EV1", "latch-bag", "quay-1", "waist").Timeline);

    // A waist takes 30 kg; the bag weighs 9 with 2 of driver and two cartridges of 0.2.
    [Theory]
    [InlineData(27.6, 0)]
    [InlineData(27.61, 1)]
    public void HandsBusy_MassWithContents_IsFoundOnlyAbove(double bag, int found) =>
        Assert.Equal(found, Judged.By("hands.busy", Skerry.WithGear("latch-bag", gear => gear with { Mass = bag }), Plan.ShortWalk()).Length);

    [Theory]
    [InlineData("tray", "waist")] // too large
    [InlineData("frame", "waist")] // taken already
    [InlineData("frame", "hip")] // no such point
    public void HandsBusy_ACarryPointThatCannotHoldIt_IsFound(string gear, string carry)
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Take("EV1", gear, "lock", carry);
        Judged.One("hands.busy", Skerry, plan.Timeline);
    }

    [Fact]
    public void HandsBusy_WalkingWithSomethingInHand_IsFound()
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Take("EV1", "frame", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60));
        Assert.Contains(Judged.By("hands.busy", Skerry, plan.Timeline), finding => finding.Sentence.Contains("translates with frame in hand"));
    }

    [Fact]
    public void Give_FromOneSuitToAnother_MovesTheBag()
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Wait("EV2", 1140).Give("EV1", "EV2", "latch-bag", "lock", "waist");
        History history = new(Player.Play(Skerry, plan.Timeline));
        Assert.Empty(Judged.All(Skerry, plan.Home()));
        Assert.Equal("person EV2 waist", history.LastState(history["gear latch-bag place"]));
        Assert.Equal("none", history.LastState(history["person EV1 carry waist"]));
        Plan apart = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV2", "lock", ("quay-1", 60)).Give("EV1", "EV2", "latch-bag", "lock", "waist");
        Judged.One("way.none", Skerry, apart.Timeline);
    }

    [Fact]
    public void ItemUntied_HookedWhereNothingMayBeLeft_IsFound()
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60)).Put("EV1", "latch-bag", "quay-1");
        Judged.One("item.untied", Skerry, plan.Timeline);
        Judged.None("item.untied", Skerry, Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Put("EV1", "latch-bag", "lock").Timeline);
    }

    [Fact]
    public void ItemLost_WhatIsWantedInside_IsFoundWhenLeftOutside()
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90), ("quay-3", 120))
            .Put("EV1", "latch-bag", "quay-3").Walk("EV1", "quay-3", ("quay-2", 120), ("quay-1", 90), ("lock", 60));
        Scenario scenario = Skerry.WithGear("driver", gear => gear with { End = Location.Inside });
        // The bag stays out, and so does what is in it and wanted inside.
        Assert.Equal(["driver", "latch-bag"], Judged.By("item.lost", scenario, plan.Home()).Select(finding => finding.Sentence.Split(' ')[2]).Order());
        Judged.None("item.lost", Skerry, Plan.ShortWalk());
        Judged.None("item.lost", scenario, Plan.ShortWalk());
    }

    [Fact]
    public void ItemLost_HookedAtTheHatchAndWantedInside_ComesInWithTheBags()
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Put("EV1", "latch-bag", "lock");
        Assert.Empty(Judged.All(Skerry, plan.Home()));
        History history = new(Player.Play(Skerry, plan.Home()));
        Assert.Equal("inside", history.LastState(history["gear latch-bag place"]));
        Assert.Equal("grip lock", history.LastState(history["gear frame place"]));
    }

    [Fact]
    public void ItemLost_AtTheEndStillOnSomebodyOutside_IsFound() =>
        Assert.Contains(Judged.By("item.lost", Skerry, Plan.Outside().Take("EV1", "frame", "lock", "waist").Timeline), finding => finding.Sentence.Contains("frame"));

    [Theory]
    [InlineData(1, 0)]
    [InlineData(0, 1)]
    public void StockOut_AgainstWhatTheStepUses_IsFoundOnlyBelow(int pieces, int found) =>
        Assert.Equal(found, Judged.By("stock.out", Skerry.WithGear("grease", gear => gear with { Count = pieces }), Plan.ShortWalk()).Length);

    [Fact]
    public void StockOut_TheLastPiece_IsSpent()
    {
        Scenario scenario = Skerry.WithGear("grease", gear => gear with { Count = 1 });
        History history = new(Player.Play(scenario, Plan.ShortWalk()));
        Assert.Equal("spent", history.LastState(history["gear grease place"]));
        Judged.None("item.lost", scenario, Plan.ShortWalk());
    }

    [Fact]
    public void MoveGear_OntoThePerson_NeedsAFreeCarryPoint()
    {
        Scenario scenario = Skerry.WithGear("tray", gear => gear with { Start = new(LocationKind.Site, "ring") })
            .WithLeg("pair/far", leg => leg with { Together = "", Steps = [leg.Steps[0] with { Makes = [new MoveGear(new("tray"), new(LocationKind.Person, ""))] }] })
            .WithLeg("pair/near", leg => leg with { Together = "" });
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Step("EV1", "pair/far", "turn", 120);
        Judged.None("hands.busy", scenario, plan.Timeline);
        History history = new(Player.Play(scenario, plan.Timeline));
        Assert.Equal("person EV1 stiff", history.LastState(history["gear tray place"]));
        Judged.One("hands.busy", scenario.WithGear("tray", gear => gear with { Mass = 60.5 }), plan.Timeline);
    }

    [Fact]
    public void Lost_WantedWhereAJobLeftOutWouldHaveBroughtIt_MayStayAsItWas()
    {
        Location ring = new(LocationKind.Site, "ring"), rim = new(LocationKind.Site, "rim");
        Scenario Wanted(Location end) => Skerry.WithGear("tray", gear => gear with { End = end })
            .WithLeg("box/open", leg => leg with { Steps = [leg.Steps[0] with { Makes = [new MoveGear(new("tray"), new(LocationKind.Site, ""))] }] });
        Judged.None("item.lost", Wanted(ring), Plan.ShortWalk());
        Judged.One("item.lost", Wanted(rim), Plan.ShortWalk());
        // No job would bring it there.
        Judged.One("item.lost", Skerry.WithGear("tray", gear => gear with { End = ring }), Plan.ShortWalk());
    }
}
