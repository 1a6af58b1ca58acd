using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Tests.Damage.TimeDamage;

namespace Sallyport.Tests.Damage;

/// <summary>Commands and what they cut off.</summary>
internal static class CommandDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("off not sent", "The command that turns off what a leg needs off is not sent.", "feature.wrong",
            "The leg needs it off throughout.",
            plan => Shutdowns(plan).SelectMany(shutdown => Offs(plan, shutdown).Where(off => LegsUnder(plan, shutdown, off).Any()).Select(off => plan.Skip(off)))),
        new("off late", "The command that turns off what a leg needs off is sent when the leg begins.", "feature.wrong",
            "The leg needs it off throughout.",
            plan => Shutdowns(plan).SelectMany(shutdown => Offs(plan, shutdown).SelectMany(off => LegsUnder(plan, shutdown, off).Select(step => plan.Move(off, step.Start))))),
        new("on early", "The command that turns on again is sent while the leg that needs it off goes on.", "feature.wrong",
            "The leg needs it off throughout.",
            plan => Shutdowns(plan).SelectMany(shutdown => plan.All<SendCommand>().Where(on => on.Command == shutdown.On).SelectMany(on => plan.All<DoStep>()
                .Where(step => step.End <= on.Start && plan.Legs[step.Leg].Shutdowns.Contains(shutdown.Id)).TakeLast(1).Select(step => plan.Move(on, Plus(step.End, -1)))))),
        new("on not sent", "The command that turns on again is not sent.", "thermal.clock",
            "What was turned off is off at the end.",
            plan => Shutdowns(plan).SelectMany(shutdown => plan.All<SendCommand>().Where(on => on.Command == shutdown.On).TakeLast(1).Select(on => plan.Skip(on)))),
        new("past the clock", "The command that turns on again ends a second after the longest time off.", "thermal.clock",
            "The longest time is passed.",
            plan => Clocks(plan).Select(clock => plan.Move(clock.On, clock.Late))),
        new("off once more", "What is off is turned off once more, and turned on a second after the longest time since it was turned off first.", "thermal.clock",
            "A second command to turn off warms nothing.",
            plan => Clocks(plan).Select(clock => plan.Instead(clock.On, clock.On with { Start = clock.Late, End = clock.Late.Plus(clock.On.Length) },
                clock.Off with { Id = new($"{clock.Off.Id}-again"), Start = clock.Off.End, End = clock.Off.End.Plus(clock.Off.Length) }))),
        new("one controller", "All switches have one controller in the world as played.", "inhibit.few",
            "Open switches of one controller are one inhibit.",
            plan => Dead(plan).Any(need => need.Inhibits > 1) ? [Lines(plan, line => line with { Controller = line.Controller is null ? null : "one" })] : []),
        new("battery behind", "What is touched has a battery of its own in the world as played.", "inhibit.few",
            "No switch lies between.",
            plan => Dead(plan).Select(need => plan.WithStation(station => station with
            {
                PowerLines = station.PowerLines.Add(new(new("new-battery"), need.Node, null, null)),
                PowerSources = station.PowerSources.Add(new("new-battery")),
            }))),
        new("switch that stays", "The command that turns off opens no switch in the world as played.", "inhibit.few",
            "The path to the source is whole.",
            plan => Dead(plan).Any() ? [plan.InWorld(scenario => scenario with
            {
                Consoles = [.. scenario.Consoles.Select(console => console with { Commands = CleanPlan.Each(console.Commands,
                    command => console.Shutdowns.Any(shutdown => shutdown.Off == command.Id), command => command with { Makes = [] }) })],
            })] : []),
        new("one inhibit more", "A step needs one inhibit more in the world as played than there are.", "inhibit.few",
            "There are not so many on the path.",
            plan => plan.Done.Where(leg => plan.Legs[leg].Steps.Any(step => step.Needs.OfType<NeedDead>().Any())).Select(leg => plan.WithLeg(leg, one => one with
            {
                Steps = [.. one.Steps.Select(step => step with { Needs = [.. step.Needs.Select(need => need is NeedDead dead ? dead with { Inhibits = 99 } : need)] })],
            }))),
        new("command without a link", "There is no link while a command that needs one is sent.", "radio.needed",
            "Nobody sees it in telemetry.",
            plan => plan.All<SendCommand>().Where(send => CommandOf(plan, send).NeedsLink).Select(send => StateDamage.NoLink(plan, new(send.Start, send.End)))),
        new("switches not given back", "A switch that a command opened is not closed again.", "station.unready",
            "It must be given back closed.",
            plan => Shutdowns(plan).SelectMany(shutdown => plan.All<SendCommand>().Where(on => on.Command == shutdown.On && GivesBack(plan, on)).TakeLast(1).Select(on => plan.Skip(on)))),
    ];

    private static IEnumerable<Shutdown> Shutdowns(CleanPlan plan) => plan.Scenario.Consoles.SelectMany(console => console.Shutdowns);

    private static IEnumerable<SendCommand> Offs(CleanPlan plan, Shutdown shutdown) => plan.All<SendCommand>().Where(send => send.Command == shutdown.Off);

    /// <summary>The last time that something with a clock is off, and when its command to turn on must start to end a second too late.</summary>
    private static IEnumerable<(SendCommand Off, SendCommand On, Pet Late)> Clocks(CleanPlan plan) => Shutdowns(plan).Where(shutdown => shutdown.Longest is not null)
        .SelectMany(shutdown => Offs(plan, shutdown).TakeLast(1).SelectMany(off => plan.All<SendCommand>().Where(on => on.Command == shutdown.On && on.Start >= off.End).Take(1)
            .Select(on => (off, on, Plus(off.End.Plus(shutdown.Longest!.Value), 1 - on.Length.Seconds)))));

    private static Command CommandOf(CleanPlan plan, SendCommand send) =>
        plan.Scenario.Consoles.Single(console => console.Id == send.Console).Commands.Single(command => command.Id == send.Command);

    /// <summary>The steps that need something off, after this command and before it is turned on again.</summary>
    private static IEnumerable<DoStep> LegsUnder(CleanPlan plan, Shutdown shutdown, SendCommand off)
    {
        Pet until = plan.All<SendCommand>().FirstOrDefault(on => on.Command == shutdown.On && on.Start >= off.End)?.Start ?? plan.Trace.To;
        return plan.All<DoStep>().Where(step => step.Start >= off.End && step.End <= until && plan.Legs[step.Leg].Shutdowns.Contains(shutdown.Id));
    }

    private static bool GivesBack(CleanPlan plan, SendCommand on) => CommandOf(plan, on).Makes.Any(make =>
        plan.Scenario.Station.Features.Single(feature => feature.Id == make.Feature).Back is { } back && back == make.State);

    private static IEnumerable<NeedDead> Dead(CleanPlan plan) => plan.All<DoStep>().SelectMany(step => plan.Step(step).Needs.OfType<NeedDead>());

    private static Damaged Lines(CleanPlan plan, Func<PowerLine, PowerLine> change) =>
        plan.WithStation(station => station with { PowerLines = [.. station.PowerLines.Select(change)] });
}
