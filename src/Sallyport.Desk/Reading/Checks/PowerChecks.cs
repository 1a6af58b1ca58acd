using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Checks of the power net against itself, and of the GOs that steps need.</summary>
internal static class PowerChecks
{
    public static void Run(Scenario scenario, Binding binding)
    {
        binding.Section = "power";
        foreach (PowerLine line in scenario.Station.PowerLines.Where(binding.IsWhole))
            if (line.Closed is { } closed)
                foreach (string state in closed.States.Intersect(line.Exposed ?? []))
                    binding.Report(PowerProblems.ExposedWhenClosed(binding.PlaceOf(line), closed.Feature, state));
        foreach (Capacitor capacitor in scenario.Station.Capacitors ?? [])
            if (scenario.Station.PowerSources.Contains(capacitor.Node)) binding.Report(PowerProblems.CapacitorFeeds(binding.PlaceOf(capacitor), capacitor.Node));
        string[] driven = [.. scenario.Station.PowerLines.Select(line => line.Controller).OfType<string>().Distinct()];
        if (binding.Sound("power"))
            foreach (SwitchController controller in scenario.Station.Controllers.Where(controller => !driven.Contains(controller.Id)))
                binding.Report(NameProblems.Unknown(binding.PlaceOf(controller), Kinds.Controller, controller.Id, driven));
        binding.Section = "consoles";
        foreach (Command command in scenario.Consoles.SelectMany(console => console.Commands).Where(binding.IsWhole))
            if (command.Go is { } go && go > command.Time) binding.Report(PowerProblems.GoTooLong(binding.PlaceOf(command), command.Id, go, command.Time));
        Gos(scenario, binding);
    }

    // A GO is read before the leg: nothing that it covers may change between.
    private static void Gos(Scenario scenario, Binding binding)
    {
        binding.Section = "jobs";
        Dictionary<CommandId, Command> commands = [];
        foreach (Command command in scenario.Consoles.SelectMany(console => console.Commands)) commands.TryAdd(command.Id, command);
        foreach (Leg leg in scenario.Legs)
        {
            HashSet<FeatureId> changed = [];
            foreach (Step step in leg.Steps)
            {
                foreach (NeedGo need in step.Needs.OfType<NeedGo>())
                {
                    if (!commands.TryGetValue(need.Command, out Command? command)) continue;
                    if (command.Go is null) binding.Report(PowerProblems.NoGo(binding.PlaceOf(step), leg.Id, step.Id, command.Id));
                    foreach (FeatureId feature in command.Covers.Where(changed.Contains)) binding.Report(PowerProblems.GoVoid(binding.PlaceOf(step), leg.Id, step.Id, command.Id, feature));
                }
                changed.UnionWith(step.Makes.OfType<MakeFeature>().Select(make => make.State.Feature));
            }
        }
    }
}
