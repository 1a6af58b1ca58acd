using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What is left without heating or cooling is not left too long.</summary>
internal sealed class ThermalClock : Rule
{
    public override RuleCard Card { get; } = new(new("thermal.clock"),
        "hardware that freezes while its heaters are off, or gets too hot without its cooling",
        "for each clock: how long it runs, at the rate of each state it is in meanwhile; shares used up in one state count in the next. One that hangs on a shutdown runs "
            + "from the end of the command that turns off until the one that turns on is seen to have worked: with a link for the whole of it, or on board",
        "the times written at the clocks and shutdowns, with their sources",
        Guard.Decoder("what a clock runs over its time counts against a plan; moves of a thing by hand, and not by a step, are left to the proof"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Shutdown shutdown in given.Scenario.Consoles.SelectMany(console => console.Shutdowns))
            if (given.History.LastState(given.History[$"shutdown {shutdown.Id} state"]) is var last && last != "on")
                yield return Broken(given, given.Trace.To, [], $"{shutdown.Id} is {last} at the end.", $"Send {shutdown.On} before the end.");
            else if (given.History.LastState(given.History[$"shutdown {shutdown.Id} known"]) != "on")
                yield return Broken(given, given.Trace.To, [], $"Nobody has seen {shutdown.Id} to be on again at the end.", $"Send {shutdown.On} with a link until it has ended.");
        foreach (HeatClock clock in ClocksOf(given.Scenario))
            foreach (Finding finding in ClockRun.All(given, clock).SelectMany(run => Of(given, run))) yield return finding;
    }

    /// <summary>The clocks of a scenario, and the longest times of its shutdowns as clocks.</summary>
    public static IEnumerable<HeatClock> ClocksOf(Scenario scenario) =>
        scenario.Clocks.Concat(scenario.Consoles.SelectMany(console => console.Shutdowns).Where(shutdown => shutdown.Longest is not null).Select(ClockOf));

    /// <summary>The longest time of a shutdown is a clock with one rate; that it is on at the end is told of the shutdown itself.</summary>
    private static HeatClock ClockOf(Shutdown shutdown) =>
        new(new(shutdown.Id.Value), ClockKind.Cold, [new IsShutDown(shutdown.Id)], [new([], shutdown.Longest!.Value)], MayRunOn: true, shutdown.Source);

    private IEnumerable<Finding> Of(Case given, ClockRun run)
    {
        string goes = run.Clock.Kind == ClockKind.Cold ? "gets colder" : "gets hotter";
        if (run is { IsStill: true, Clock.MayRunOn: false })
            yield return Broken(given, run.To, [], $"{run.Clock.Id} still {goes} at the end, since {run.From}.", $"Bring it to an end before {run.To}.");
        double near = given.Scenario.LimitOf(Card.Id.Value)?.Near is { Dimension: Dimension.Time } wanted ? wanted.Value : 0;
        if (run.RanOut is null && run.Left >= near) yield break;
        string rates = run.Rates.Length == 1 ? "" : $", at the rates of its states ({string.Join(", then ", run.Rates)} from fresh)";
        yield return Broken(given, run.RanOut ?? run.To, [],
            $"{run.Clock.Id} {goes} from {run.From} to {run.To}, {run.Length}; it lasts {run.Lasts}{rates}.", "Begin it later, or end it earlier.") with
        {
            Severity = run.RanOut is null ? Severity.Near : Severity.Broken,
            Measured = run.Length.ToString(),
            Limit = run.Lasts.ToString(),
            Margin = Duration.FromSeconds(run.Left).ToString(),
            Source = run.Clock.Source,
        };
    }
}
