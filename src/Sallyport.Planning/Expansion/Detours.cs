using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What is different from the plan after some moment: one step takes another time, and some work is given up.</summary>
/// <param name="Trouble">What happened, and how everybody goes on.</param>
/// <param name="Past">What had happened by then, and stays as it was.</param>
/// <param name="GivenUp">The legs that are not begun any more.</param>
/// <param name="StillUsed">Gear that the other legs use.</param>
/// <param name="Tests">Legs that test for what was spilled: done even when everybody goes in.</param>
/// <param name="Spilled">Whether a disconnect had been opened by then.</param>
internal sealed record Detour(
    Trouble Trouble, Past Past, ImmutableHashSet<LegId> GivenUp, ImmutableHashSet<GearId> StillUsed, ImmutableHashSet<LegId> Tests, bool Spilled)
{
    /// <summary>Whether everybody ends what runs and goes in.</summary>
    public bool Ends => Trouble.GoesOn == GoingOn.EndsInOrder;

    /// <summary>The second from which the trouble is known.</summary>
    public int Known => Past.Until;
}

/// <summary>A check of gloves, or a rest, that comes due on a way on and is put before an entry.</summary>
/// <param name="Person">Whose.</param>
/// <param name="Entry">The number of the entry in that person's list.</param>
/// <param name="IsRest">Whether it is a rest.</param>
internal sealed record DuePause(PersonId Person, int Entry, bool IsRest);

/// <summary>Expands what follows when a step of a plan does not go as planned. Until that is known everything stays as it was planned to
/// the second; what comes after is as early as it can be.</summary>
public sealed class Detours(Expander expander, Outline outline)
{
    private readonly Dictionary<Branch, Expander.Planned> known = [];

    /// <summary>The timeline of one way on.</summary>
    /// <param name="planned">The branch of the plan that it happens in.</param>
    /// <param name="trouble">What happens, when it is known, and how everybody goes on.</param>
    /// <returns>The timeline, or why there is none, in words.</returns>
    public (Timeline? Timeline, string Why) Expand(Timeline planned, Trouble trouble)
    {
        if (!known.TryGetValue(planned.Branch, out Expander.Planned? plan)) known[planned.Branch] = plan = expander.Plan(outline, planned.Branch, planned.PlanId);
        return expander.Expand(outline, plan, planned, trouble);
    }
}
