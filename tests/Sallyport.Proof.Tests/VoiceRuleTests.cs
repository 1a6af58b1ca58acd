using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

public sealed class VoiceRuleTests
{
    private static Scenario Limited(Scenario scenario, int most = 1) =>
        scenario with { Limits = [.. scenario.Limits, new(new("voice.crowded"), new(Dimension.Count, most, $"{most} pieces"), null, "a test", true)] };

    private static Leg AllLed(Leg leg) => leg with { Steps = [.. leg.Steps.Select(step => step with { Led = true })] };

    private static Scenario Led(params string[] legs) => legs.Aggregate(Limited(Skerry), (scenario, leg) => scenario.WithLeg(leg, AllLed));

    /// <summary>EV1 turns at the ring 0:19:30–0:21:30; EV2 looks at the rim, from that end on or a little before.</summary>
    private static Timeline Look(int early) => Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Step("EV1", "pair/far", "turn", 120)
        .Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", At("0:21:30").Seconds - early).Step("EV2", "latch/look", "look", 180).Timeline;

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    public void VoiceCrowded_OfTwoLedSteps_IsFoundByTheSecond(int early, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("voice.crowded", Led("pair/far", "latch/look"), Look(early));
        Assert.Equal(found, findings.Length);
        if (found == 1) Assert.Equal((At("0:21:29"), "2", "1", "-1"), (findings[0].At, findings[0].Measured, findings[0].Limit, findings[0].Margin));
    }

    [Fact]
    public void VoiceCrowded_WithTwoInsideWhoLead_IsHeldAgainstTheirNumber()
    {
        Scenario one = Led("pair/far", "latch/look");
        Judged.One("voice.crowded", one, Look(60));
        Judged.None("voice.crowded", Limited(one with { Limits = Skerry.Limits }, most: 2), Look(60));
    }

    [Fact]
    public void VoiceCrowded_OfAStepThatNobodyLeads_IsNotFound() => Judged.None("voice.crowded", Led("pair/far"), Look(60));

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    public void VoiceCrowded_OfLegsTogether_IsOneConversationOnlyWhenTheyStartInOneSecond(int late, int found)
    {
        Timeline timeline = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90)).Walk("EV2", "lock", ("quay-1", 60)).Wait("EV2", At("0:19:30").Seconds + late)
            .Step("EV1", "pair/far", "turn", 120).Step("EV2", "pair/near", "hold", 120).Timeline;
        Assert.Equal(found, Judged.By("voice.crowded", Led("pair/far", "pair/near"), timeline).Length);
    }

    [Fact]
    public void VoiceCrowded_WithoutALimit_SaysThatItIsMissingOnlyWhereSomebodyIsLed()
    {
        Scenario led = Skerry.WithLeg("latch/look", AllLed);
        string NotChecked(Scenario scenario) => string.Join('\n', Judge.Of(scenario, [(Plan.ShortWalk(), Player.Play(scenario, Plan.ShortWalk()))]).NotChecked);
        Assert.Contains("voice.crowded: the scenario gives no limit", NotChecked(led));
        Assert.DoesNotContain("voice.crowded", NotChecked(Skerry));
    }
}
