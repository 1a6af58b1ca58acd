namespace Sallyport.Model;

/// <summary>How everybody goes on once a step has not gone as planned.</summary>
public enum GoingOn
{
    /// <summary>The rest of the plan, as late as it follows; a decision near the end is taken by the clock as it is then.</summary>
    AsPlanned,
    /// <summary>The same without the get-aheads that nobody has begun.</summary>
    WithoutGetAheads,
    /// <summary>The same without the get-aheads and the jobs of worth "should" that nobody has begun.</summary>
    MustJobsOnly,
    /// <summary>Everybody ends in order what runs, and goes in.</summary>
    EndsInOrder,
}

/// <summary>A step that takes another time than the plan gives it: a contingency, or merely a slow or quick one. A timeline that follows it
/// is the plan until <see cref="From"/>; nothing before that knows of it.</summary>
/// <param name="Leg">The leg.</param>
/// <param name="Step">Its step.</param>
/// <param name="Title">What happened, as the contingency's title says it.</param>
/// <param name="Extra">The time added to the likely one; negative for a step that is done sooner.</param>
/// <param name="From">The moment from which it is known: when the step was planned to end, or does end if that is sooner.</param>
/// <param name="GoesOn">What is done then.</param>
public sealed record Trouble(LegId Leg, StepId Step, string Title, Duration Extra, Pet From, GoingOn GoesOn);
