using System.Globalization;
using Sallyport.Model;
using Sallyport.Planning;

namespace Sallyport.Desk;

/// <summary>What no plan can better, beside what one reaches, in words. On the screen only: it is proven by the clock.</summary>
public static class BoundsText
{
    /// <summary>Said when it is proven that there is no plan.</summary>
    public const string NoPlan = " And there is none: that is proven of the least times of legs, ways and gear alone.";

    /// <summary>Value and end of a plan with their bounds, for a line that changes.</summary>
    public static string Short(ProvenBounds bounds, int value, Pet end) => string.Create(CultureInfo.InvariantCulture,
        $"value {value}{(bounds.MostValue is { } most ? $" (at most {Math.Max(most, value)})" : "")}, ends PET {end}{(bounds.LeastEnd is { } least ? $" (not before {least}, gap {bounds.EndGap(end):0.0} %)" : "")}");

    /// <summary>Value, end and dead time of a plan with their bounds, in a sentence each; empty while nothing is proven.</summary>
    public static string Of(ProvenBounds bounds, Scenario scenario, ProvenPlan plan)
    {
        int value = PlanText.ValueOf(scenario, plan);
        Pet end = plan.Played[0].Trace.To;
        List<string> told = [];
        if (bounds.MostValue is { } most)
            told.Add(most <= value ? $"No plan is worth more than its {value}: proven." : string.Create(CultureInfo.InvariantCulture, $"Its value is {value}; more than {most} cannot be (gap {bounds.ValueGap(value):0.0} %)."));
        if (bounds.LeastEnd is { } least)
            told.Add(least >= end && bounds.Worth >= value ? "No plan worth as much ends sooner: proven."
                : string.Create(CultureInfo.InvariantCulture, $"It ends at PET {end}; no plan worth {bounds.Worth} or more ends before {least} (gap {bounds.EndGap(end):0.0} %)."));
        if (bounds.Dead is { } dead && dead.Least.Seconds > 0 && dead.HoldsFor(value, end))
        {
            Duration own = AlternativeText.Dead(scenario, plan);
            told.Add(dead.Least >= own ? $"Things are shut down for {own} in all; no plan worth as much that ends as soon needs less: proven."
                : $"Things are shut down for {own} in all; less than {dead.Least} cannot be in a plan worth {dead.Worth} or more that ends by {dead.By}.");
        }
        return string.Join(' ', told);
    }
}
