using Sallyport.Bench;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Xunit;

namespace Sallyport.Tests.Planning;

/// <summary>The benchmark family stays what it was when figures were first taken from it.</summary>
public class FrozenFamilyTests
{
    /// <summary>By size, the digests of seeds 1 to 12.</summary>
    private static readonly Dictionary<int, string[]> Digests = new()
    {
        [15] =
        [
            "57704db15bdd", "3daacc47b9d5", "ed8871d59dd3", "dabf886f4a3f", "45e1092483bd", "b0b264c13787",
            "ab7b9357f7b0", "15c1613acb6d", "3a041fd1d57b", "8db068de5242", "bec9c8891759", "de363819cb6c",
        ],
        [25] =
        [
            "6dd828d45cda", "36ff735828d2", "b06276dd0232", "4593533ce76b", "fb04136b9cbe", "58a2661e4671",
            "68ced20b45ba", "b5750d3ecd9b", "e638e9f857f7", "842607c605d4", "02f3ff28c156", "d26815056337",
        ],
        [40] =
        [
            "7de3e476a390", "b52ee1fc6fe9", "b5dfb314c2a3", "8f9ebb7eed68", "19c5cf50aca4", "5d18847fdad9",
            "51dd61596353", "821232469600", "13ed8dd8977c", "9acd3b1744de", "294caceb9ecf", "dd0678a2e178",
        ]
    };

    [Fact]
    public void Family_EveryCase_IsWhatItWas()
    {
        Assert.Equal(FrozenFamily.Sizes, Digests.Keys);
        foreach ((int legs, string[] digests) in Digests)
            Assert.Equal(digests, FrozenFamily.Seeds.Select(seed => FrozenFamily.Of(legs, seed).Digest));
    }

    // A digest that saw nothing would never tell of a change.
    [Fact]
    public void Digest_OneSecondOfOneLegMore_IsAnother()
    {
        Scenario scenario = FrozenFamily.Of(15, 1);
        Job job = scenario.Jobs[3];
        Leg leg = job.Legs[0];
        StepTime longer = leg.Steps[0].Time with { Likely = leg.Steps[0].Time.Likely.Plus(Duration.FromSeconds(1)) };
        Scenario changed = scenario with { Jobs = scenario.Jobs.SetItem(3, job with { Legs = job.Legs.SetItem(0, leg with { Steps = [leg.Steps[0] with { Time = longer }] }) }) };
        Assert.NotEqual(scenario.Digest, FrozenFamily.DigestOf(changed));
    }

    [Fact]
    public void Family_EveryCase_HasTheShapeStated()
    {
        foreach (int legs in FrozenFamily.Sizes)
            foreach (Scenario scenario in FrozenFamily.Seeds.Select(seed => FrozenFamily.Of(legs, seed)))
            {
                Assert.Equal(legs, scenario.Jobs.Length);
                Assert.Equal((int)Math.Round(legs * 0.6), scenario.Jobs.Count(job => job.Worth == Worth.Must));
                Assert.All(scenario.Jobs.Where(job => job.Worth != Worth.Must), job => Assert.InRange(job.Value, 2, 10));
                Assert.Equal(41, scenario.Station.Grips.Count(grip => grip.Id.Value.StartsWith("spine-", StringComparison.Ordinal)));
                Assert.Equal(14, scenario.Station.Grips.Count(grip => grip.Id.Value.EndsWith("-1", StringComparison.Ordinal) && grip.Id.Value.StartsWith("branch-", StringComparison.Ordinal)));
                Assert.Equal(6, scenario.Gear.Count(gear => gear.Kind == GearKind.Bag));
                Assert.Equal(legs / 5, scenario.Jobs.Sum(job => job.Legs[0].After.Length));
                Assert.All(scenario.Legs, leg => Assert.InRange(leg.Length.Seconds, 430 * 60 / legs / 2, 430 * 60 / legs * 3 / 2));
                // Steps take 0.5 to 1 min on the spine and 0.6 to 1.2 min beside it, at 6 m/min.
                Assert.All(scenario.Station.Spans, span => Assert.InRange(span.Length, 3, 7.2));
            }
    }

    [Fact]
    public void Family_ASmallCase_IsPlannedAndPlaysClean()
    {
        Scenario scenario = FrozenFamily.Of(15, 8);
        Expander expander = new(scenario);
        bool IsClean(Outline outline) => expander.Expand(outline, Branch.Likely, "test").Timeline is { } timeline
            && Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Clean;
        Assert.NotNull(new Searcher(scenario, expander).Run(new(Effort: 2, Seed: 8, null, Threads: 1), IsClean, _ => { }, CancellationToken.None).Outline);
    }
}
