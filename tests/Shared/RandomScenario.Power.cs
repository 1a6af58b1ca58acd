using Sallyport.Model;

namespace Sallyport.Tests;

/// <summary>What the power net of a random scenario sometimes has besides switches: capacitors, common causes, connectors left bare between
/// legs, thermal clocks, GOs. Drawn from a stream of its own, so that all else stays as it was.</summary>
internal sealed partial class RandomScenario
{
    private static Scenario WithPower(int seed, Scenario scenario)
    {
        Random own = new(seed ^ 0x2f0731);
        bool Often(int percent) => own.Next(100) < percent;
        if (scenario.Station.PowerLines.Length > 0)
        {
            if (Often(70)) scenario = WithCauses(scenario);
            if (Often(60)) scenario = WithCapacitors(scenario, own);
            if (Often(60)) scenario = WithConnectors(scenario);
            if (Often(50)) scenario = scenario with { Clocks = [.. scenario.Consoles.SelectMany(console => console.Shutdowns).Select(shutdown => Clock(shutdown, own))] };
        }
        return Often(40) ? WithGos(scenario, own) : scenario;
    }

    /// <summary>The first switch of each branch has a cause in common with the first of the others: never two on one path.</summary>
    private static Scenario WithCauses(Scenario scenario) => scenario with
    {
        Station = scenario.Station with
        {
            Controllers = [.. scenario.Station.PowerLines.Select(line => new SwitchController(line.Controller!, line.Closed!.Feature.Value.EndsWith("-1", StringComparison.Ordinal) ? "converter" : null))],
        },
    };

    private static Scenario WithCapacitors(Scenario scenario, Random own) => scenario with
    {
        Station = scenario.Station with
        {
            Capacitors = [.. scenario.Consoles.SelectMany(console => console.Shutdowns).Where(_ => own.Next(2) == 0).Select(shutdown => new Capacitor(new(shutdown.Id.Value), Minutes(1 + own.Next(5)), Source))],
        },
    };

    /// <summary>A leg under a shutdown that others must follow takes a connector apart, and the next one mates it.</summary>
    private static Scenario WithConnectors(Scenario scenario)
    {
        foreach (LegId id in scenario.Legs.Where(leg => leg.Shutdowns.Length == 1).Select(leg => leg.Id).ToList())
        {
            // As it is by now: it may mate what the leg before it took apart.
            Leg leg = scenario.Legs.First(one => one.Id == id);
            if (scenario.Legs.FirstOrDefault(later => later.Job == leg.Job && later.After.Any(after => after.Leg == leg.Id)) is not { } next) continue;
            FeatureId plug = new($"{leg.Id.Value.Replace('/', '-')}-plug");
            NodeId branch = new(leg.Shutdowns[0].Value);
            scenario = Changed(Changed(scenario, Makes(leg, new MakeFeature(new(plug, "apart")))), Makes(next, new MakeFeature(new(plug, "mated"))));
            scenario = scenario with
            {
                Station = scenario.Station with
                {
                    Features = scenario.Station.Features.Add(new(plug, ["mated", "apart"], "mated", null, "mated")),
                    PowerLines = scenario.Station.PowerLines.Add(new(branch, new($"{plug}-load"), new(plug, ["mated"]), null)),
                },
            };
        }
        return scenario;
    }

    private static HeatClock Clock(Shutdown shutdown, Random own) => new(
        new($"{shutdown.Id} heater"), own.Next(2) == 0 ? ClockKind.Cold : ClockKind.Hot, [new IsShutDown(shutdown.Id)],
        [new([new LightIs(LightCondition.Night)], Minutes(60 + own.Next(60))), new([], Minutes(80 + own.Next(80)))], false, Source);

    /// <summary>Some legs begin with a GO, which covers what the legs before them change.</summary>
    private static Scenario WithGos(Scenario scenario, Random own)
    {
        List<Command> commands = [];
        foreach (Leg leg in scenario.Legs.Where(_ => own.Next(4) == 0).ToList())
        {
            CommandId go = new($"go {leg.Id.Value.Replace('/', '-')}");
            commands.Add(new(go, Minutes(1 + own.Next(2)), own.Next(2) == 0, [])
            {
                Go = Minutes(1),
                Covers = [.. leg.Steps[0].Needs.OfType<NeedFeature>().Select(need => need.Condition.Feature).Distinct()],
            });
            scenario = Changed(scenario, Needs(leg, new NeedGo(NeedTime.Start, go)));
        }
        return commands.Count == 0 ? scenario : scenario with { Consoles = scenario.Consoles.Add(new(new("flight"), [.. commands], [])) };
    }

    private static Scenario Changed(Scenario scenario, Leg leg) => scenario with
    {
        Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(one => one.Id == leg.Id ? leg : one)] })],
    };
}
