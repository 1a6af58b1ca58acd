namespace Sallyport.Model;

/// <summary>A step tried at its low or high time, with the rest of the plan as late, or as early, as it follows.</summary>
/// <param name="Leg">Its leg.</param>
/// <param name="Step">The step.</param>
/// <param name="Extra">What is added to its likely time; negative for the low one.</param>
/// <param name="From">When that is known.</param>
/// <param name="Clean">Whether the plan then still plays clean.</param>
/// <param name="Breaks">What breaks first, one sentence; empty when it is clean.</param>
public sealed record StepTry(LegId Leg, StepId Step, Duration Extra, Pet From, bool Clean, string Breaks);
