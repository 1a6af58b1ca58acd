using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>Checks of bodies, suits and the prebreathe against each other.</summary>
internal static class SuitChecks
{
    public static void Run(Scenario scenario, Binding binding)
    {
        binding.Section = "body";
        if (scenario.Body is { } body && binding.Sound("body", "people"))
            foreach (Person person in scenario.Outside.Where(person => body.Factors.All(factor => factor.Person != person.Id))) binding.Report(SuitProblems.NoFactor(binding.PlaceOf(body), person.Id));
        binding.Section = "suits";
        if (scenario.Body is null && binding.Sound("body", "suits"))
            foreach (SuitInUse use in scenario.Suits.Take(1)) binding.Report(SuitProblems.NoBody(binding.PlaceOf(use)));
        foreach (SuitInUse use in scenario.Suits.Where(binding.IsWhole))
        {
            if (use.OwnOxygen < use.Purge) binding.Report(SuitProblems.Order(binding.PlaceOf(use), "purge", use.Purge, "own_oxygen", use.OwnOxygen));
            if (binding.Sound("body", "people", "limits")) Reserves(scenario, use, binding);
        }
        binding.Section = "days";
        foreach (WorkDay day in scenario.Days.Where(binding.IsWhole))
            if (day.Waking.Seconds >= 0) binding.Report(SuitProblems.DayBackwards(binding.PlaceOf(day), day.Waking));
        Prebreathe(scenario.Prebreathe, scenario.LimitOf("prebreathe.break"), binding);
    }

    /// <summary>The same of a prebreathe that stands alone.</summary>
    public static void Prebreathe(PrebreathePlan? plan, Limit? paidBack, Binding binding)
    {
        binding.Section = "limits";
        if (paidBack is { Value: { Dimension: Dimension.Time, Value: < 60 } cost }) binding.Report(SuitProblems.PaidBack(binding.PlaceOf(paidBack), cost.Text));
        binding.Section = "prebreathe";
        if (plan is null || !binding.Sound("prebreathe")) return;
        foreach (PrebreathePart part in plan.Parts.Where(part => part.Pascals <= plan.WaterVapourPascals)) binding.Report(SuitProblems.Vapour(binding.PlaceOf(part)));
        if (plan.Parts is [{ IsBreak: true } first, ..]) binding.Report(SuitProblems.BreakFirst(binding.PlaceOf(first)));
        if (plan.WithoutBreaks is null && plan.Parts.FirstOrDefault(part => part.IsBreak) is { } alone) binding.Report(SuitProblems.BreakAlone(binding.PlaceOf(alone)));
    }

    private static void Reserves(Scenario scenario, SuitInUse use, Binding binding)
    {
        foreach (PersonId person in use.People)
        {
            if (SuitProfile.Of(scenario, person) is not { } profile) continue;
            SuitRates rates = SuitRates.OnReserve(profile);
            foreach (Consumable kind in Enum.GetValues<Consumable>())
                if (rates.Of(kind).High * profile.Reserve.Length.Seconds is var kept && kept > profile.Aboard.Of(kind))
                    binding.Report(SuitProblems.ReserveAboveAboard(binding.PlaceOf(use), person, kind, kept, profile.Aboard.Of(kind), profile.Reserve.Length));
        }
    }
}
