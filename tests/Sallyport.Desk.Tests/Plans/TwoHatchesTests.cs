using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>A station with two hatches, a pair of people at each, and two arms: none of these is one, or two, in the code.</summary>
public sealed class TwoHatchesTests
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "TwoHatches");
    private static readonly Lazy<(SortieDesk Desk, PlanOutcome Outcome)> Laden = new(() => Planned(Folder));

    private static ProvenPlan Plan => Laden.Value.Outcome.Plan ?? throw new InvalidOperationException(Laden.Value.Outcome.Search!.Why);

    private static (SortieDesk Desk, PlanOutcome Outcome) Planned(string folder)
    {
        SortieDesk desk = Folders.Good(SortieDesk.Open(folder));
        return (desk, desk.Plan("two", effort: 1, seed: 1, null, _ => { }, TestContext.Current.CancellationToken));
    }

    [Fact]
    public void TwoHatches_WithNothingToCarry_PlaysClean()
    {
        using TemporaryFolder bare = new();
        foreach (string path in Directory.GetFiles(Folder, "*.yaml").Where(path => Path.GetFileName(path) != "gear.yaml")) File.Copy(path, Path.Combine(bare.Path, Path.GetFileName(path)));
        (SortieDesk desk, PlanOutcome outcome) = Planned(bare.Path);
        Assert.Empty(desk.Scenario.Gear);
        Assert.True(outcome.Plan is { Verdict.Clean: true }, outcome.Search!.Why);
        Assert.Empty(outcome.Search!.Refused);
        Assert.Equal(desk.Scenario.Legs.Select(leg => leg.Id).Order(ById), outcome.Plan!.Likely.Activities.OfType<DoStep>().Select(step => step.Leg).Distinct().Order(ById));
    }

    [Fact]
    public void TwoHatches_WithGear_PlaysClean()
    {
        Assert.True(Plan.Verdict.Clean, string.Join("\n", Plan.Verdict.Findings.Select(finding => finding.Sentence)));
        Assert.Empty(Laden.Value.Outcome.Search!.Refused);
    }

    [Theory]
    [InlineData("north", "EV1 EV2", "EV2 EV1")]
    [InlineData("south", "EV4 EV3", "EV3 EV4")]
    public void TwoHatches_EachPair_GoesOutAndComesInByItsOwn(string hatch, string outward, string inward)
    {
        string Who(AirlockPhaseKind kind) => string.Join(' ', Plan.Likely.Activities.OfType<AirlockPhase>()
            .Where(phase => phase.Airlock.Value == hatch && phase.Phase == kind).OrderBy(phase => phase.Start).SelectMany(phase => phase.Who));
        Assert.Equal(outward, Who(AirlockPhaseKind.Out));
        Assert.Equal(inward, Who(AirlockPhaseKind.In));
    }

    [Fact]
    public void TwoHatches_NoHatch_IsClosedBeforeEverybodyIsIn()
    {
        Pet[] closing = [.. Plan.Likely.Activities.OfType<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Close).Select(phase => phase.Start)];
        Assert.Equal(2, closing.Length);
        Assert.All(Plan.Likely.Activities.OfType<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.In), phase => Assert.True(phase.End <= closing.Min()));
    }

    // With everybody at a hatch: in by the north in 4 min each, by the south in 6 min each, and then the longer of closing in 7 and 5 min.
    [Fact]
    public void TwoHatches_EverybodyAtAHatch_AreInWhenTheSlowerPairIsAndTheSlowerHatchIsClosed()
    {
        Pet inventory = Plan.Likely.Activities.OfType<AirlockPhase>().Where(phase => phase.Phase == AirlockPhaseKind.Inventory).Max(phase => phase.Start);
        ReturnCurve both = Plan.Played[0].Trace.Returns.Single(curve => curve.Kind == ReturnKind.Both);
        Assert.Equal((2 * 6 + 7) * 60, both.Points.Last(point => point.At <= inventory).Seconds);
    }

    [Fact]
    public void TwoHatches_ItemsAlreadyAtAHatch_ComeInThere()
    {
        Assert.DoesNotContain(Plan.Likely.Activities.OfType<Take>(), take => take.Gear.Value == "sack");
        Assert.Contains(Plan.Likely.Activities.OfType<Put>(), put => put.Gear.Value == "float" && put.At.Value == "north");
    }

    [Fact]
    public void TwoArms_AtOneMoment_CarryARiderEachAndAreNamedApart()
    {
        ArmMove[] ridden = [.. Plan.Likely.Activities.OfType<ArmMove>().Where(move => move.Rider is not null)];
        Assert.Equal(["north-arm", "south-arm"], ridden.Select(move => move.Arm.Value).Distinct().Order());
        Assert.Equal(2, ridden.Select(move => move.Rider).Distinct().Count());
        string chart = Encoding.UTF8.GetString(Documents.Of(Laden.Value.Desk.Scenario, Plan, null, null).Single(file => file.Name == "range.svg").Content);
        Assert.Contains("High over north", chart);
        Assert.Contains("High over south", chart);
    }

    private static Comparer<LegId> ById { get; } = Comparer<LegId>.Create((a, b) => string.CompareOrdinal(a.Value, b.Value));
}
