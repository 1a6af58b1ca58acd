using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;
using Xunit;
using static Sallyport.Tests.Planning.ShortWalk;

namespace Sallyport.Tests.Planning;

/// <summary>What search, expansion and completion do about bleed-down, bare pins, thermal clocks and GOs.</summary>
public class PowerPlanTests
{
    private static readonly Expander ForBled = new(Bled(Duration.FromMinutes(6)));

    /// <summary>The latch is freed on a dead plug; the bus is shut down by commands of 3 min, and its capacitor bleeds so long.</summary>
    private static Scenario Bled(Duration bleeds) => WithJob(Skerry with
    {
        Station = Skerry.Station with
        {
            Features = [.. Skerry.Station.Features, new(new("switch"), ["closed", "open"], "closed", null, "closed"), new(new("lead"), ["mated", "apart"], "mated", null, "mated")],
            PowerLines = [new(new("battery"), new("plug"), new(new("switch"), ["closed"]), "box"), new(new("plug"), new("load"), new(new("lead"), ["mated"]), null)],
            PowerSources = [new("battery")],
            Capacitors = [new(new("plug"), bleeds, "a test")],
        },
        Consoles = [new(new("power"), [Send("off", "open"), Send("on", "closed")], [new(new("bus"), new("off"), new("on"), null, false, "a test")])],
    }, Free, leg => leg with
    {
        Shutdowns = [new("bus")],
        Steps = [leg.Steps[0] with { Needs = leg.Steps[0].Needs.Add(new NeedDead(NeedTime.Throughout, new("plug"), 1)) }, leg.Steps[1]],
    });

    private static Command Send(string id, string state) =>
        new(new(id), Duration.FromMinutes(3), false, [new(new("switch"), state)]) { Go = Duration.FromMinutes(1), SeenAboard = true };

    private static Scenario WithJob(Scenario scenario, LegId id, Func<Leg, Leg> change) => scenario with
    {
        Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg.Id == id ? change(leg) : leg)] })],
    };

    private static Scenario WithGo(string covers) => WithJob(Skerry with
    {
        Consoles = [new(new("flight"), [new(new("go"), Duration.FromMinutes(2), false, []) { Go = Duration.FromMinutes(1), Covers = [new(covers)] }], [])],
    }, Look, leg => leg with { Steps = [leg.Steps[0] with { Needs = leg.Steps[0].Needs.Add(new NeedGo(NeedTime.Start, new("go"))) }] });

    private static ImmutableArray<Finding> Judged(Scenario scenario, Timeline timeline) => Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Findings;

    private static Timeline Expand(Scenario scenario, Outline outline)
    {
        Expansion expansion = new Expander(scenario).Expand(outline, Branch.Likely, "test");
        Assert.Null(expansion.Problem);
        return expansion.Timeline!;
    }

    private static Outline Search(Scenario scenario)
    {
        SearchResult result = new Searcher(scenario, new(scenario)).Run(new(Effort: 1, Seed: 1, null, Threads: 1), outline => !Judged(scenario, Expand(scenario, outline)).Any(finding => finding.Severity == Severity.Broken), _ => { }, CancellationToken.None);
        Assert.Empty(result.Refused);
        return result.Outline!;
    }

    [Fact]
    public void Search_WithACapacitor_LeavesItTimeToBleedDown()
    {
        Scenario scenario = Bled(Duration.FromMinutes(6));
        Timeline timeline = Expand(scenario, Search(scenario));
        SendCommand off = timeline.Activities.OfType<SendCommand>().Single(send => send.Command.Value == "off");
        DoStep touch = timeline.Activities.OfType<DoStep>().Single(step => step.Step.Value == "loosen");
        Assert.Equal(Duration.FromMinutes(6), touch.Start.Since(off.End));
    }

    [Fact]
    public void Expand_AnOutlineByHand_WaitsForTheBleedDown()
    {
        // Off from 0:00 to 0:03; 40 min later the leg may begin, though EV1 is there at 0:21:30.
        Outline outline = ByHand with { Ground = [new(new("off"), null, Free, false), new(new("on"), Free, null, false)] };
        Timeline timeline = new Expander(Bled(Duration.FromMinutes(40))).Expand(outline, Branch.Likely, "test").Timeline!;
        Assert.Equal(At("0:43"), timeline.Activities.OfType<DoStep>().Single(step => step.Step.Value == "loosen").Start);
        Assert.Equal(At("0:21:30"), ForBled.Expand(outline, Branch.Likely, "test").Timeline!.Activities.OfType<DoStep>().Single(step => step.Step.Value == "loosen").Start);
    }

    [Fact]
    public void Search_WithPinsLeftBareByALeg_KeepsItOffUntilAnotherHasMatedThem()
    {
        // The second leg mates what the first took apart, 30 min later and without asking for anything to be off.
        Scenario scenario = WithJob(WithJob(Bled(Duration.FromSeconds(1)), Free, leg => leg with { Steps = [leg.Steps[0], leg.Steps[1] with { Makes = leg.Steps[1].Makes.Add(new MakeFeature(new(new("lead"), "apart"))) }] }),
            Look, leg => leg with { After = [new(Free, Duration.FromMinutes(30), null)], Steps = [leg.Steps[0] with { Makes = [new MakeFeature(new(new("lead"), "mated"))] }] });
        Timeline timeline = Expand(scenario, Search(scenario));
        SendCommand on = timeline.Activities.OfType<SendCommand>().Single(send => send.Command.Value == "on");
        Assert.True(on.Start >= timeline.Activities.OfType<DoStep>().Single(step => step.Step.Value == "look").End);
    }

    [Theory]
    [InlineData(668, true)]
    [InlineData(667, false)]
    public void Search_WithAClockByState_OffersNoPlanThatRunsOver(int sticky, bool fits)
    {
        // A second to bleed down and 10 min of work while it is sticky, 601 s; then 3 min until it is on again, a tenth of half an hour.
        Scenario scenario = Bled(Duration.FromSeconds(1)) with
        {
            Clocks = [new(new("heater"), ClockKind.Cold, [new IsShutDown(new("bus"))], [new([new FeatureIs(new(new("latch"), ["sticky"]))], Duration.FromSeconds(sticky)), new([], Duration.FromMinutes(30))], false, "a test")],
        };
        SearchResult result = new Searcher(scenario, new(scenario)).Run(new(Effort: 1, Seed: 1, null, Threads: 1), outline => !Judged(scenario, Expand(scenario, outline)).Any(finding => finding.Severity == Severity.Broken), _ => { }, CancellationToken.None);
        Assert.Empty(result.Refused);
        Assert.Equal(fits, result.Outline is not null);
    }

    [Fact]
    public void Search_WithAGo_ReadsItWhenThePersonIsThereAndTheLatchIsFree()
    {
        Scenario scenario = WithGo("latch");
        Timeline timeline = Expand(scenario, Search(scenario));
        SendCommand go = timeline.Activities.OfType<SendCommand>().Single();
        // The latch is free at 0:31:30: read from then on, 1 min, and the leg begins.
        Assert.Equal((At("0:30:30"), At("0:32:30")), (go.Start, go.End));
        Assert.Equal(At("0:32:30"), timeline.Activities.OfType<DoStep>().Single(step => step.Step.Value == "look").Start);
    }

    [Fact]
    public void Complete_AnOutlineWithoutItsGo_PutsItIn()
    {
        Scenario scenario = WithGo("jets");
        Assert.Contains(Judged(scenario, Expand(scenario, ByHand)), finding => finding.Rule.Value == "go.missing");
        Completed completed = new Completion(scenario, new(scenario)).Complete(ByHand);
        Assert.Null(completed.Kept);
        Assert.Equal([new GroundEntry(new("go"), null, Look, true)], completed.Outline.Ground);
        Assert.Contains(completed.Changes, line => line.Contains("go"));
        Assert.DoesNotContain(Judged(scenario, Expand(scenario, completed.Outline)), finding => finding.Severity == Severity.Broken);
    }
}
