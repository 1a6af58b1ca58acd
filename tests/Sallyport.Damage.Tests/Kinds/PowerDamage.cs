using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Tests.Damage.TimeDamage;

namespace Sallyport.Tests.Damage;

/// <summary>What is touched, what is left bare, what goes cold or hot, and what has its GO.</summary>
internal static class PowerDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("common converter", "One converter feeds all controllers in the world as played.", "inhibit.common",
            "Its failure closes all switches at once.",
            plan => Touches(plan).Any(touch => touch.Need.Inhibits > 1) ? [plan.WithStation(station => station with
            {
                Controllers = [.. station.PowerLines.Select(line => line.Controller).OfType<string>().Distinct().Select(id => new SwitchController(id, "one converter"))],
            })] : []),
        new("GO not read", "No GO is read for the command that opens the switches in the world as played.", "inhibit.unseen",
            "The crew touches what nobody told them of.",
            plan => OffsOfTouches(plan).Select(off => WithCommand(plan, off.Command, command => command with { Go = null }))),
        new("off unseen", "The link is lost for a second in the middle of the command that opens the switches.", "inhibit.unseen",
            "Nobody has seen the switches open.",
            plan => OffsOfTouches(plan).Where(off => !CommandOf(plan, off.Command).SeenAboard)
                .Select(off => StateDamage.NoLink(plan, new(Plus(off.Start, 5), Plus(off.Start, 6))))),
        new("touched at once", "The command that cuts off what stays charged ends when the touch begins.", "connector.bleed",
            "It has had no time to bleed down.",
            plan => Charged(plan).Select(touch => plan.Move(touch.Off, Plus(touch.Step.Start, -touch.Off.Length.Seconds)))),
        new("slower to bleed", "It takes a second longer to bleed down in the world as played than there is before the touch.", "connector.bleed",
            "A second is missing.",
            plan => Charged(plan).Select(touch => plan.WithStation(station => station with
            {
                Capacitors = CleanPlan.Each(station.Capacitors!.Value, one => one.Node == touch.Need.Node, one => one with { Bleeds = Plus(touch.Step.Start, 1).Since(touch.Off.End) }),
            }))),
        new("powered up bare", "The command that turns on is sent while the pins are bare.", "connector.uncapped",
            "One half of the connector is live.",
            plan => PoweredUpBare(plan)),
        new("inhibit lost while bare", "The command that turns on is sent while the pins are bare, and nobody touches them meanwhile.", "inhibit.few",
            "What was asked for at the touch holds until the connector is closed.",
            plan => PoweredUpBare(plan)),
        new("left bare", "A connector is never mated again in the world as played.", "connector.uncapped",
            "Its pins are bare at the end.",
            plan => Bare(plan).SelectMany(bare => Closers(plan, bare.Line.Closed!).Take(1).Select(step => Without(plan, step, bare.Line.Closed!.Feature)))),
        new("clock that lasts less", "A thermal clock lasts a second less than it runs in the world as played.", "thermal.clock",
            "It runs out.",
            plan => Running(plan).Select(clock => WithClock(plan, clock.Clock, one => one with { Lasts = [new([], clock.Ran.Plus(Duration.FromSeconds(-1)))] }))),
        new("clock by its state", "A thermal clock lasts half as long as it runs in the world as played while it is day, and so while it is night.", "thermal.clock",
            "At neither rate does it last.",
            plan => Running(plan).Where(clock => clock.Ran.Seconds > 2).Select(clock => WithClock(plan, clock.Clock, one => one with
            {
                Lasts = [new([new LightIs(LightCondition.Day)], Half(clock.Ran)), new([new LightIs(LightCondition.Night)], Half(clock.Ran)), new([], Duration.FromMinutes(600))],
            }))),
        new("heater on unseen", "The link is lost for a second in the middle of the command that turns on.", "thermal.clock",
            "Nobody has seen the heater on, so that its clock runs on.",
            plan => plan.Scenario.Consoles.SelectMany(console => console.Shutdowns).SelectMany(shutdown => plan.All<SendCommand>().Where(on => on.Command == shutdown.On).TakeLast(1))
                .Where(on => !CommandOf(plan, on.Command).SeenAboard).Select(on => StateDamage.NoLink(plan, new(Plus(on.Start, 5), Plus(on.Start, 6))))),
        new("clock that never ends", "What a thermal clock waits for never comes in the world as played.", "thermal.clock",
            "It still runs at the end.",
            plan => plan.Scenario.Clocks.Where(clock => !clock.MayRunOn).SelectMany(clock => clock.While.OfType<FeatureIs>().SelectMany(condition =>
                plan.All<DoStep>().Where(step => Ends(plan.Step(step), condition.Condition) && Runs(plan, clock)).TakeLast(1).Select(step => Without(plan, step, condition.Condition.Feature))))),
        new("GO not given", "The command whose GO a step needs is not sent.", "go.missing",
            "Nobody has said that the step may begin.",
            plan => Gos(plan).Select(go => plan.Skip(go.Send))),
        new("GO too early", "The GO is read before the person comes to the site.", "go.missing",
            "It was read to somebody who was not there.",
            plan => Gos(plan).SelectMany(go => Arrival(plan, go.Step) is { } came ? [plan.Move(go.Send, Plus(came, -go.Send.Length.Seconds))] : Array.Empty<Damaged>())),
        new("GO made void", "What the GO covers changes after it was read.", "go.missing",
            "It was given for another state.",
            plan => Gos(plan).SelectMany(go => CommandOf(plan, go.Send.Command).Covers
                .SelectMany(feature => plan.History.Changes(plan.History[$"feature {feature} state"]).Where(change => change.At < go.Step.Start).TakeLast(1))
                .Select(change => plan.Move(go.Send, Plus(change.At, -go.Send.Length.Seconds))))),
    ];

    private static Duration Half(Duration whole) => Duration.FromSeconds(whole.Seconds / 2);

    private static Command CommandOf(CleanPlan plan, CommandId id) => plan.Scenario.Consoles.SelectMany(console => console.Commands).Single(command => command.Id == id);

    private static IEnumerable<(DoStep Step, NeedDead Need)> Touches(CleanPlan plan) =>
        plan.All<DoStep>().SelectMany(step => plan.Step(step).Needs.OfType<NeedDead>().Select(need => (step, need)));

    /// <summary>The last command before a step that turns something off which its leg wants off.</summary>
    private static IEnumerable<SendCommand> OffsBefore(CleanPlan plan, DoStep step) => plan.Legs[step.Leg].Shutdowns.SelectMany(id =>
        plan.Scenario.Consoles.SelectMany(console => console.Shutdowns).Where(shutdown => shutdown.Id == id)
            .SelectMany(shutdown => plan.All<SendCommand>().Where(send => send.Command == shutdown.Off && send.End <= step.Start).TakeLast(1)));

    private static IEnumerable<SendCommand> OffsOfTouches(CleanPlan plan) => Touches(plan).SelectMany(touch => OffsBefore(plan, touch.Step)).Distinct();

    /// <summary>The first touch of something that stays charged, with the one command that cuts it off.</summary>
    private static IEnumerable<(DoStep Step, NeedDead Need, SendCommand Off)> Charged(CleanPlan plan) => Touches(plan)
        .Where(touch => (plan.Scenario.Station.Capacitors ?? []).Any(capacitor => capacitor.Node == touch.Need.Node))
        .SelectMany(touch => OffsBefore(plan, touch.Step).Take(1).Select(off => (touch.Step, touch.Need, off))).DistinctBy(touch => touch.off.Id);

    /// <summary>Each connector that a step under a shutdown leaves bare, and until when.</summary>
    private static IEnumerable<(PowerLine Line, DoStep By, Pet Until)> Bare(CleanPlan plan)
    {
        foreach (PowerLine line in plan.Scenario.Station.PowerLines.Where(line => line.IsConnector))
        {
            int variable = plan.History[$"feature {line.Closed!.Feature} state"];
            foreach (PetInterval bare in plan.History.While(variable, line.IsExposedIn))
                if (plan.All<DoStep>().FirstOrDefault(step => step.End == bare.From && plan.Step(step).Needs.Any(need => need is NeedDead)
                    && plan.Step(step).Makes.OfType<MakeFeature>().Any(make => make.State.Feature == line.Closed.Feature)) is { } by) yield return (line, by, bare.To);
        }
    }

    /// <summary>The command that turns on ends within the time in which the pins are bare; none where that is too short.</summary>
    private static IEnumerable<Damaged> PoweredUpBare(CleanPlan plan) => Bare(plan).SelectMany(bare => plan.Legs[bare.By.Leg].Shutdowns.SelectMany(id =>
        plan.Scenario.Consoles.SelectMany(console => console.Shutdowns).Where(shutdown => shutdown.Id == id).SelectMany(shutdown => plan.All<SendCommand>()
            .Where(on => on.Command == shutdown.On && on.Start >= bare.By.End && Plus(bare.By.End, on.Length.Seconds) < bare.Until && !TouchedAt(plan, Plus(bare.By.End, on.Length.Seconds))).Take(1)
            .Select(on => plan.Move(on, bare.By.End)))));

    private static bool TouchedAt(CleanPlan plan, Pet moment) => Touches(plan).Any(touch => touch.Step.Start <= moment && moment < touch.Step.End);

    private static IEnumerable<DoStep> Closers(CleanPlan plan, FeatureCondition closed) =>
        plan.All<DoStep>().Where(step => plan.Step(step).Makes.OfType<MakeFeature>().Any(make => make.State.Feature == closed.Feature && closed.States.Contains(make.State.State))).TakeLast(1);

    private static Damaged Without(CleanPlan plan, DoStep act, FeatureId feature) => plan.WithLeg(act.Leg, leg => leg with
    {
        Steps = CleanPlan.Each(leg.Steps, step => step.Id == act.Step, step => step with { Makes = [.. step.Makes.Where(effect => effect is not MakeFeature make || make.State.Feature != feature)] }),
    });

    private static bool Ends(Step step, FeatureCondition condition) =>
        step.Makes.OfType<MakeFeature>().Any(make => make.State.Feature == condition.Feature && !condition.States.Contains(make.State.State));

    /// <summary>The clocks that run in the plan on features, things or shutdowns alone, and how long the longest run is.</summary>
    private static IEnumerable<(HeatClock Clock, Duration Ran)> Running(CleanPlan plan) =>
        plan.Scenario.Clocks.Select(clock => (clock, Longest(plan, clock))).Where(run => run.Item2.Seconds > 1);

    private static bool Runs(CleanPlan plan, HeatClock clock) => Longest(plan, clock).Seconds > 0;

    private static Duration Longest(CleanPlan plan, HeatClock clock)
    {
        bool At(Pet moment) => clock.While.All(condition => condition switch
        {
            FeatureIs one => one.Condition.States.Contains(plan.History.StateAt(plan.History[$"feature {one.Condition.Feature} state"], moment)),
            GearIsIn one => plan.History.StateAt(plan.History[$"gear {one.Gear} place"], moment) == one.Place.ToString(),
            IsShutDown one => plan.History.StateAt(plan.History[$"shutdown {one.Shutdown} known"], moment) == "off",
            _ => true,
        });
        Pet[] moments = [.. plan.Trace.Changes.Select(change => change.At).Append(plan.Trace.From).Append(plan.Trace.To).Distinct().Order()];
        int longest = 0, run = 0;
        foreach ((Pet from, Pet to) in moments.Zip(moments.Skip(1)))
        {
            run = At(from) ? run + to.Since(from).Seconds : 0;
            longest = Math.Max(longest, run);
        }
        return Duration.FromSeconds(longest);
    }

    private static Damaged WithClock(CleanPlan plan, HeatClock clock, Func<HeatClock, HeatClock> change) =>
        plan.InWorld(scenario => scenario with { Clocks = CleanPlan.Each(scenario.Clocks, one => one.Id == clock.Id, change) });

    private static Damaged WithCommand(CleanPlan plan, CommandId id, Func<Command, Command> change) => plan.InWorld(scenario => scenario with
    {
        Consoles = [.. scenario.Consoles.Select(console => console with { Commands = CleanPlan.Each(console.Commands, one => one.Id == id, change) })],
    });

    /// <summary>The steps that need a GO, with the last command of it before.</summary>
    private static IEnumerable<(DoStep Step, SendCommand Send)> Gos(CleanPlan plan) => plan.All<DoStep>().SelectMany(step => plan.Step(step).Needs.OfType<NeedGo>()
        .SelectMany(need => plan.All<SendCommand>().Where(send => send.Command == need.Command && send.End <= step.Start).TakeLast(1).Select(send => (step, send))));

    private static Pet? Arrival(CleanPlan plan, DoStep step) => plan.History.Changes(plan.History[$"person {step.Person} place"])
        .Where(change => change.At <= step.Start).Select(change => (Pet?)change.At).LastOrDefault();
}
