using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class ItemRuleTests
{
    private static Scenario Tied(int seconds = 30) => Skerry with { Handling = Skerry.Handling with { Tie = Seconds(seconds) } };

    // Taking the bag takes two minutes; the plan has no other handling.
    [Theory]
    [InlineData(120, 0)]
    [InlineData(121, 1)]
    public void ItemUntied_TheTimeForASecondTie_IsFoundOnlyWhenThereIsTooLittle(int tie, int found) =>
        Assert.Equal(found, Judged.By("item.untied", Tied(tie), Plan.ShortWalk()).Length);

    [Fact]
    public void ItemUntied_EachKindOfHandling_NeedsTheTime()
    {
        Plan plan = Plan.Outside().Take("EV1", "latch-bag", "lock", "waist", 119).Wait("EV2", 1140).Give("EV1", "EV2", "latch-bag", "lock", "waist", 118).Put("EV2", "latch-bag", "lock", 117)
            .Take("EV1", "frame", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Plug("EV1", "B6", 116).Unplug("EV1", "waist", 115);
        Assert.Equal(["1 min 59 s", "1 min 58 s", "1 min 57 s", "1 min 56 s", "1 min 55 s"], Judged.By("item.untied", Tied(120), plan.Timeline).Select(finding => finding.Measured).OrderDescending());
        Judged.None("item.untied", Tied(115), plan.Timeline);
    }

    /// <summary>The tray is installed at the ring; the second step of the latch puts it into the bag. Which steps tie it is said.</summary>
    private static Scenario Freeing(bool first, bool second) => Tied().WithGear("tray", gear => gear with { Start = new(LocationKind.Site, "ring") }).WithLeg("latch/free", leg => leg with
    {
        Steps =
        [
            leg.Steps[0] with { Ties = first ? [new("tray")] : [] },
            leg.Steps[1] with { Makes = leg.Steps[1].Makes.Add(new MoveGear(new("tray"), In("latch-bag"))), Ties = second ? [new("tray")] : [new("driver")] },
        ],
    });

    [Fact]
    public void ItemUntied_AThingThatAStepMoves_IsFoundUnlessThisOrAnEarlierStepTiesIt()
    {
        Judged.None("item.untied", Freeing(first: true, second: false), Plan.ShortWalk());
        Judged.None("item.untied", Freeing(first: false, second: true), Plan.ShortWalk());
        Finding finding = Judged.One("item.untied", Freeing(first: false, second: false), Plan.ShortWalk());
        Assert.Contains("moves tray", finding.Sentence);
        // At its start: it is free all the while.
        Assert.Equal(At("0:25:30"), finding.At);
    }

    [Fact]
    public void ItemUntied_InHandBeyondItsHandling_IsFoundForAsLong()
    {
        Plan plan = Plan.Outside().Take("EV1", "frame", "lock", "hip").Wait("EV1", 1500).Put("EV1", "frame", "lock");
        Finding finding = Assert.Single(Judged.By("item.untied", Skerry, plan.Timeline));
        Assert.Equal(At("0:19"), finding.At);
        Assert.Contains("until 0:25", finding.Sentence);
    }

    [Fact]
    public void ItemUntied_WithoutATimeForTheSecondTie_IsNotCalledClean()
    {
        Timeline plan = Plan.ShortWalk();
        Assert.Contains(Judge.Of(Skerry, [(plan, Player.Play(Skerry, plan))]).NotChecked, words => words.StartsWith("item.untied: ", StringComparison.Ordinal));
        Assert.DoesNotContain(Judge.Of(Tied(), [(plan, Player.Play(Tied(), plan))]).NotChecked, words => words.StartsWith("item.untied: ", StringComparison.Ordinal));
    }

    private static Timeline BagAt(string grip) => grip == "lock"
        ? Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Put("EV1", "latch-bag", "lock").Home()
        : Plan.Outside().Take("EV1", "latch-bag", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90), ("quay-3", 120))
            .Put("EV1", "latch-bag", "quay-3").Walk("EV1", "quay-3", ("quay-2", 120), ("quay-1", 90), ("lock", 60)).Home();

    private static Scenario Bag(Location? end, string? stays) => Skerry.WithGear("latch-bag", gear => gear with { End = end, Stays = stays });

    [Fact]
    public void ItemLost_MeantToStay_IsFoundWhenItComesIn()
    {
        Judged.None("item.lost", Bag(null, "the next walk uses it"), BagAt("quay-3"));
        Assert.Contains("is meant to stay outside: the next walk uses it", Judged.One("item.lost", Bag(null, "the next walk uses it"), Plan.ShortWalk()).Sentence);
        // Never taken out, it has nothing to stay for.
        Judged.None("item.lost", Bag(null, "the next walk uses it"), Plan.Outside().Home());
    }

    [Fact]
    public void ItemLost_TakenOutAndLeftWithoutAWord_IsNoted()
    {
        Finding finding = Judged.One("item.lost", Bag(null, null), BagAt("quay-3"));
        Assert.Equal(Severity.Note, finding.Severity);
        Judged.None("item.lost", Bag(Hooked("quay-3"), null), BagAt("quay-3"));
        Assert.Equal(Severity.Broken, Judged.One("item.lost", Bag(Hooked("quay-3"), null), BagAt("lock")).Severity);
    }

    [Fact]
    public void Accounts_OfEverything_SayWhatBecameOfIt()
    {
        Scenario scenario = Bag(null, "the next walk uses it").WithGear("grease", gear => gear with { Count = 1 });
        static string Told(Scenario scenario, Timeline plan) => string.Join(", ", Accounts.Of(scenario, Player.Play(scenario, plan)).Select(one => $"{one.Gear.Id} {one.Fate}"));
        Assert.Equal("latch-bag CameHome, driver CameHome, grease UsedUp, frame WasThere, tray WasThere", Told(Skerry.WithGear("grease", gear => gear with { Count = 1 }), Plan.ShortWalk()));
        Assert.Equal("latch-bag Stays, driver InPlace, grease WithItsBag, frame WasThere, tray WasThere", Told(scenario, BagAt("quay-3")));
        Assert.Equal("latch-bag StayedInside, driver StayedInside, grease StayedInside, frame WasThere, tray WasThere", Told(Skerry, Plan.Outside().Home()));
    }
}
