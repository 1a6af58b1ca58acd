using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Tern: three people, short tethers, no arm, a ring, and an airlock with another order. What holds on Skerry holds here.</summary>
public sealed class TernTests
{
    private static readonly Lazy<(SortieDesk Desk, PlanOutcome Outcome)> Planned = new(() =>
    {
        SortieDesk desk = Folders.Good(SortieDesk.Open(RepositoryFolder.Of("scenarios", "tern")));
        return (desk, desk.Plan("tern", effort: 2, seed: 3, null, _ => { }, TestContext.Current.CancellationToken));
    });

    private static Scenario Tern => Planned.Value.Desk.Scenario;

    private static ProvenPlan Plan => Planned.Value.Outcome.Plan ?? throw new InvalidOperationException(Planned.Value.Outcome.Search!.Why);

    [Fact]
    public void Tern_Read_IsAnotherKindOfStation()
    {
        Assert.Equal(["EV1", "EV2", "EV3"], Tern.Outside.Select(person => person.Id.Value));
        Assert.Equal(["EV3", "EV1", "EV2"], Assert.Single(Tern.Station.Airlocks).Order.Select(person => person.Value));
        Assert.Empty(Tern.Arms);
        Assert.Equal(TetherProtocol.Leapfrog, Tern.Tether.Protocol);
        Assert.All(Tern.People, person => Assert.Empty(person.Reels));
        Assert.Null(Tern.Sortie.Decision);
    }

    [Fact]
    public void Tern_PlannedWithLittleEffort_PlaysClean()
    {
        Assert.True(Plan.Verdict.Clean, string.Join("\n", Plan.Verdict.Findings.Select(finding => finding.Sentence)));
        Assert.Empty(Planned.Value.Outcome.Search!.Refused);
        HashSet<LegId> done = [.. Plan.Likely.Activities.OfType<DoStep>().Select(step => step.Leg)];
        Assert.All(Tern.Jobs.Where(job => job.Worth == Worth.Must).SelectMany(job => job.Legs), leg => Assert.Contains(leg.Id, done));
    }

    [Fact]
    public void Tern_WithoutArm_AsksForNoLimitWithTheArmStopped()
    {
        Assert.Contains(new RuleId("return.armless"), Plan.Verdict.Checked);
        Assert.DoesNotContain(Plan.Verdict.NotChecked, line => line.StartsWith("return.armless", StringComparison.Ordinal));
        Assert.DoesNotContain(Plan.Played[0].Trace.Returns, curve => curve.Kind == ReturnKind.Armless);
    }

    [Fact]
    public void Tern_OnShortTethers_NobodyChangesReelsAndEachSpanCostsItsHooking()
    {
        Assert.DoesNotContain(Plan.Likely.Activities, activity => activity is SwapReel);
        Assert.All(Plan.Likely.Activities.OfType<Translate>().SelectMany(walk => walk.Spans), span => Assert.True(span.Time > Tern.Tether.Hook));
    }

    [Theory]
    [InlineData("brace/", 3)]
    [InlineData("beacon/", 2)]
    public void Tern_LegsTogether_BeginAtOneMomentWithAsManyPeople(string job, int people)
    {
        Leg[] together = [.. Tern.Legs.Where(leg => leg.Together.Length > 0 && leg.Id.Value.StartsWith(job, StringComparison.Ordinal))];
        DoStep[] first = [.. together.Select(leg => Plan.Likely.Activities.OfType<DoStep>().Single(step => step.Leg == leg.Id && step.Step == leg.Steps[0].Id))];
        Assert.Single(first.Select(step => step.Start).Distinct());
        Assert.Equal(people, first.Select(step => step.Person).Distinct().Count());
    }

    [Theory]
    [InlineData("bale", "bollard-top")]
    [InlineData("brace-bag", "thwart-keel")]
    [InlineData("beacon", "inside")]
    [InlineData("charger-old", "bag charger-bag")]
    public void Tern_AtTheEnd_ThingsAreWhereTheyMustBe(string gear, string place)
    {
        Trace trace = Plan.Played[0].Trace;
        int variable = Enumerable.Range(0, trace.Variables.Length).Single(i => trace.Variables[i].Subject == gear && trace.Variables[i].Aspect == "place");
        int value = trace.Changes.Where(change => change.Variable == variable).Select(change => change.Value).Prepend(trace.Start[variable]).Last();
        Assert.EndsWith(place, trace.Variables[variable].States[value]);
    }
}
