using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>EV1 stands in the restraint at the box and touches its plug from 0:29:30 to 0:34:30; the bus goes off at 0:20 and comes back at 0:38.</summary>
public sealed class PowerRuleTests
{
    private static readonly Pet Touch = At("0:29:30"), Done = At("0:34:30");

    private static Plan Box(int off = 1020, int on = 2100, int stay = 0) => Going(Plan.Outside().Send("bus off", off).Send("bus on", on), stay);

    private static Plan Going(Plan plan, int stay = 0)
    {
        plan.Take("EV1", "frame", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
            .Plug("EV1", "B6").Enter("EV1").Step("EV1", "box/open", "open", 300);
        if (stay > 0) plan.Wait("EV1", stay);
        return plan.Leave("EV1").Unplug("EV1", "waist").Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));
    }

    private static Scenario With(Func<Station, Station> change) => Skerry.WithStation(change);

    private static Scenario WithCommand(string id, Func<Command, Command> change) => Skerry with
    {
        Consoles = [Skerry.Consoles[0] with { Commands = [.. Skerry.Consoles[0].Commands.Select(one => one.Id.Value == id ? change(one) : one)] }],
    };

    private static Scenario NoLink(string from, string to) => Skerry with { Sky = Skerry.Sky with { NoLink = [new(At(from), At(to))] } };

    // A common cause.

    [Theory]
    [InlineData("converter", "converter", 2, 1)]
    [InlineData("converter", "converter", 1, 0)] // exactly as many causes as asked for
    [InlineData("converter", "fuse", 2, 0)]
    [InlineData("converter", null, 2, 0)]
    public void InhibitCommon_TwoControllers_CountByTheirCause(string one, string? other, int asked, int found)
    {
        Scenario scenario = With(station => station with { Controllers = [new("box-1", one), new("box-2", other)] })
            .WithLeg("box/open", leg => leg with { Steps = [leg.Steps[0] with { Needs = [new NeedDead(NeedTime.Throughout, new("plug"), asked)] }] });
        ImmutableArray<Finding> findings = Judged.By("inhibit.common", scenario, Box().Home());
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Equal(("1", "2", "-1", Touch), (findings[0].Measured, findings[0].Limit, findings[0].Margin, findings[0].At));
        Judged.None("inhibit.few", scenario, Box().Home());
    }

    [Fact]
    public void InhibitCommon_NotStatedForOneController_IsSaidNotToBeChecked()
    {
        Scenario scenario = With(station => station with { Controllers = [new("box-1", null)] });
        Timeline timeline = Box().Home();
        Verdict verdict = Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]);
        Assert.Contains("inhibit.common: the scenario does not say whether box-2 has a cause in common with other controllers", verdict.NotChecked);
        Assert.DoesNotContain(new RuleId("inhibit.common"), verdict.Checked);
    }

    // Seen and read.

    [Theory]
    [InlineData("0:17", "0:17:01", 1)] // lost at the moment of sending
    [InlineData("0:18", "0:18:01", 1)]
    [InlineData("0:19:59", "0:20", 1)]
    [InlineData("0:20", "0:29", 0)] // lost in the instant the command has ended
    [InlineData("0:16", "0:17", 0)] // back in the instant it is sent
    public void InhibitUnseen_ALinkLostDuringTheCommand_IsFound(string from, string to, int found)
    {
        ImmutableArray<Finding> findings = Judged.By("inhibit.unseen", NoLink(from, to), Box().Home());
        Assert.Equal(found, findings.Length);
        if (found == 0) return;
        Assert.Equal(("0", "2", "-2", Touch), (findings[0].Measured, findings[0].Limit, findings[0].Margin, findings[0].At));
        Assert.Contains("switch-2 and switch-1", findings[0].Sentence);
    }

    [Fact]
    public void InhibitUnseen_SeenAboard_NeedsNoLink() =>
        Judged.None("inhibit.unseen", WithCommand("bus off", one => one with { SeenAboard = true, NeedsLink = false }) with { Sky = Skerry.Sky with { NoLink = [new(At("0:18"), At("0:19"))] } }, Box().Home());

    [Fact]
    public void InhibitUnseen_NoGoRead_IsFound() => Judged.One("inhibit.unseen", WithCommand("bus off", one => one with { Go = null }), Box().Home());

    [Fact]
    public void InhibitUnseen_SentAgainAndSeen_IsNotFound() =>
        Judged.None("inhibit.unseen", NoLink("0:18", "0:19"), Going(Plan.Outside().Send("bus off", 1020).Send("bus off", 1260, id: "again").Send("bus on", 2100)).Home());

    [Fact]
    public void InhibitUnseen_AsTheHatchWantsIt_WasReadThen()
    {
        // The switches are open from the start; only with "ready" did anybody look at them.
        Scenario Open(string? ready) => With(station => station with
        {
            Features = [.. station.Features.Select(feature => feature.Id.Value.StartsWith("switch") ? feature with { Start = "open", Ready = ready } : feature)],
        }).WithLeg("box/open", leg => leg with { Shutdowns = [] });
        Judged.None("inhibit.unseen", Open("open"), Going(Plan.Outside()).Home());
        Judged.One("inhibit.unseen", Open(null), Going(Plan.Outside()).Home());
        Judged.None("inhibit.few", Open(null), Going(Plan.Outside()).Home());
    }

    // Bleed-down.

    [Theory]
    [InlineData(570, 0)] // cut off at 0:20, touched at 0:29:30
    [InlineData(571, 1)]
    public void ConnectorBleed_FromTheCutToTheTouch_IsHeldByTheSecond(int bleeds, int found)
    {
        Scenario scenario = With(station => station with { Capacitors = [new(new("plug"), Seconds(bleeds), "a drawing")] });
        ImmutableArray<Finding> findings = Judged.By("connector.bleed", scenario, Box().Home());
        Assert.Equal(found, findings.Length);
        if (found > 0) Assert.Equal((Seconds(570).ToString(), Seconds(571).ToString(), "-1 s", "a drawing"), (findings[0].Measured, findings[0].Limit, findings[0].Margin, findings[0].Source));
    }

    [Fact]
    public void ConnectorBleed_BehindEnoughOpenSwitches_IsNotFound()
    {
        Judged.None("connector.bleed", With(station => station with { Capacitors = [new(new("battery"), Minutes(60), "a drawing")], PowerSources = [] }), Box().Home());
        // On the bus only one switch lies between, and two are asked for.
        Judged.One("connector.bleed", With(station => station with { Capacitors = [new(new("bus"), Minutes(60), "a drawing")] }), Box().Home());
    }

    [Fact]
    public void ConnectorBleed_TwoThatConductToEachOther_WaitForTheSlower()
    {
        Scenario scenario = With(station => station with
        {
            Capacitors = [new(new("plug"), Minutes(1), "a drawing"), new(new("load"), Minutes(30), "a drawing")],
            PowerLines = station.PowerLines.Add(new(new("plug"), new("load"), null, null)),
        });
        Assert.Equal(2, Judged.By("connector.bleed", scenario, Box().Home()).Length);
    }

    [Fact]
    public void ConnectorBleed_CutOffFromTheStart_CountsFromThen()
    {
        Scenario scenario = With(station => station with { Capacitors = [new(new("plug"), Minutes(29), "a drawing")], PowerSources = [] });
        Judged.None("connector.bleed", scenario, Box().Home());
        Judged.One("connector.bleed", scenario.WithStation(station => station with { Capacitors = [new(new("plug"), Minutes(30), "a drawing")] }), Box().Home());
    }

    [Fact]
    public void ConnectorBleed_WhereNobodySays_IsSaidNotToBeChecked()
    {
        Scenario scenario = With(station => station with { Capacitors = null });
        Timeline timeline = Box().Home();
        Assert.Contains("connector.bleed: the scenario does not say which capacitors there are", Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).NotChecked);
    }

    // Bare pins: the step takes the plug apart at 0:34:30, and a later one mates it or not.

    private static Scenario Apart(bool mated, params string[] exposed) => With(station => station with
    {
        Features = station.Features.Add(new(new("lead"), ["mated", "apart", "capped"], "mated", null, null)),
        PowerLines = station.PowerLines.Add(new(new("plug"), new("load"), new(new("lead"), ["mated"]), null) { Exposed = exposed.Length == 0 ? null : [.. exposed] }),
    }).WithLeg("box/open", leg => leg with { Steps = [leg.Steps[0] with { Makes = [new MakeFeature(new(new("lead"), "apart"))] }] })
        .WithLeg("pair/far", leg => leg with { Together = "", Steps = [leg.Steps[0] with { Makes = mated ? [new MakeFeature(new(new("lead"), "mated"))] : [] }] });

    /// <summary>Out of the restraint, and mated at 0:38:30.</summary>
    private static Plan Mated(int on) => Plan.Outside().Send("bus off", 1020).Send("bus on", on).Take("EV1", "frame", "lock", "waist").Walk("EV1", "lock", ("quay-1", 60), ("quay-2", 90))
        .Plug("EV1", "B6").Enter("EV1").Step("EV1", "box/open", "open", 300).Leave("EV1").Step("EV1", "pair/far", "turn", 120)
        .Unplug("EV1", "waist").Walk("EV1", "quay-2", ("quay-1", 90), ("lock", 60));

    [Theory]
    [InlineData("0:38:30", 0)] // on in the instant in which it is mated
    [InlineData("0:38:29", 1)]
    [InlineData("0:37", 1)]
    public void BarePins_PoweredUpBeforeTheyAreMated_AreFoundByTheSecond(string on, int found)
    {
        Timeline timeline = Mated(At(on).Seconds - 180).Home();
        ImmutableArray<Finding> live = Judged.By("connector.uncapped", Apart(mated: true), timeline), few = Judged.By("inhibit.few", Apart(mated: true), timeline);
        Assert.Equal((found, found), (live.Length, few.Length));
        if (found == 0) return;
        Assert.Equal((At(on), At(on)), (live[0].At, few[0].At));
        Assert.Equal(("0", "2", "-2"), (few[0].Measured, few[0].Limit, few[0].Margin));
    }

    [Fact]
    public void BarePins_OneInhibitLost_IsTooFewButNotLive()
    {
        // Only the second switch closes: the first still keeps the plug from the battery.
        Scenario half = Apart(mated: true) with
        {
            Consoles = [Skerry.Consoles[0] with { Commands = [.. Skerry.Consoles[0].Commands.Select(one => one.Id.Value == "bus on" ? one with { Makes = [one.Makes[1]] } : one)] }],
        };
        Timeline timeline = Mated(At("0:34:30").Seconds).Home();
        Assert.Equal(("1", At("0:37:30")), (Judged.One("inhibit.few", half, timeline).Measured, Judged.One("inhibit.few", half, timeline).At));
        Judged.None("connector.uncapped", half, timeline);
    }

    [Fact]
    public void BarePins_LeftBehindOneCause_AreFoundThoughControllersWouldDo()
    {
        // Three switches at the touch; the middle one closes, and the two that are left hang on one converter.
        Scenario apart = Apart(mated: true);
        Scenario scenario = apart.WithStation(station => station with
        {
            Features = station.Features.Add(new(new("switch-3"), ["closed", "open"], "open", "open", null)),
            PowerLines = [station.PowerLines[0], new(new("bus"), new("inner"), station.PowerLines[1].Closed, "box-2"), new(new("inner"), new("plug"), new(new("switch-3"), ["closed"]), "box-3"), station.PowerLines[2]],
            Controllers = [new("box-1", "converter"), new("box-2", null), new("box-3", "converter")],
        }) with
        {
            Consoles = [Skerry.Consoles[0] with { Commands = [.. Skerry.Consoles[0].Commands.Select(one => one.Id.Value == "bus on" ? one with { Makes = [one.Makes[1]] } : one)] }],
        };
        Timeline timeline = Mated(At("0:34:30").Seconds).Home();
        Finding finding = Judged.One("inhibit.common", scenario, timeline);
        Assert.Equal(("1", "2", At("0:37:30")), (finding.Measured, finding.Limit, finding.At));
        Judged.None("inhibit.few", scenario, timeline);
    }

    [Fact]
    public void BarePins_LeftAtTheEnd_AreFound()
    {
        Timeline off = Mated(At("0:50").Seconds).Home().Without("power-bus on-3000");
        Assert.Contains("left bare", Judged.One("connector.uncapped", Apart(mated: false), off).Sentence);
        Judged.None("connector.uncapped", Apart(mated: true), off);
    }

    [Fact]
    public void BarePins_CappedStates_AreNotBare() =>
        Judged.None("connector.uncapped", Apart(mated: false, "capped"), Mated(At("0:37").Seconds - 180).Home());
}
