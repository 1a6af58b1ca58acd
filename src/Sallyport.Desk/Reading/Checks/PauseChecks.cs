using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Checks of what is said about checks of gloves and rests: that each leaves time for anything else.</summary>
internal static class PauseChecks
{
    public static void Run(Scenario scenario, Binding binding)
    {
        binding.Section = "checks";
        if (scenario.Checks?.Gloves is { } gloves) LeavesTime(scenario, binding, gloves, "a check of gloves", "glove.check", gloves.Time.Time);
        if (scenario.Checks?.Rest is { } rest) LeavesTime(scenario, binding, rest, "a rest", "work.rest", rest.Least);
        if (scenario.Checks?.Gloves is not { } wanted) return;
        foreach (Step step in scenario.Legs.SelectMany(leg => leg.Steps))
            if (step.ChecksGloves && step.Time.Likely < wanted.Time.Time) binding.Report(ScenarioProblems.CheckShort(binding.PlaceOf(step), step, wanted.Time.Time));
    }

    private static void LeavesTime(Scenario scenario, Binding binding, object told, string what, string rule, Duration takes)
    {
        if (scenario.LimitOf(rule) is { Value.Dimension: Dimension.Time } limit && limit.Value.Value <= takes.Seconds)
            binding.Report(ScenarioProblems.NoTimeBetween(binding.PlaceOf(told), what, takes, rule, limit.Value.Text));
    }
}
