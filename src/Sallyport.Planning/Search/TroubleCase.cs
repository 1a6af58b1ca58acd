using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What is foreseen to go wrong in a step, by index.</summary>
/// <param name="Leg">Its leg.</param>
/// <param name="Step">The step.</param>
/// <param name="Extras">What it takes more then, likely and at most; s.</param>
/// <param name="Terminate">How long the step takes to break off, s.</param>
internal sealed record TroubleCase(int Leg, int Step, int[] Extras, int Terminate)
{
    public static IEnumerable<TroubleCase> Of(SearchCase all)
    {
        // Completion searches a scenario without the legs that a person left out; what was foreseen in them stands there still.
        foreach (Contingency one in all.Scenario.Jobs.SelectMany(job => job.Contingencies))
        {
            if (!all.LegIndex.TryGetValue(one.Step, out int l)) continue;
            int s = all.Legs[l].Steps.IndexOf(all.Legs[l].Steps.First(step => step.Id == one.StepId));
            yield return new(l, s, [.. new[] { one.Extra.Likely.Seconds, one.Extra.High.Seconds }.Distinct()], all.Legs[l].Steps[s].Terminate.Time.Seconds);
        }
    }
}
