using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What a decoded plan is worth, compared in order and never blended.</summary>
/// <param name="Broken">Seconds by which limits are broken, added up; what is impossible counts as very much.</param>
/// <param name="Value">The value of the jobs in it.</param>
/// <param name="Closed">0 when a decision near the end is open as the scenario wishes, or none is wished; 1 when not.</param>
/// <param name="End">When the hatch is closed, s of PET.</param>
/// <param name="Dead">Seconds in which something is shut down, added up.</param>
/// <param name="Unbalance">Seconds that people wait for each other at the hatch, added up.</param>
/// <param name="Walked">Seconds that people walk, added up.</param>
/// <param name="Narrow">How near anybody comes to a limit of a return time: the limit for one without the least margin, s; 0 with no limit.</param>
/// <param name="Apart">How far it is from the plan that it is to stay close to, s of the end; 0 when there is none.</param>
internal readonly record struct PlanScore(long Broken, int Value, int Closed, int End, int Dead, int Unbalance, int Walked, int Narrow, int Apart) : IComparable<PlanScore>
{
    public static PlanScore Worst { get; } = new(long.MaxValue, 0, 1, int.MaxValue, int.MaxValue, int.MaxValue, int.MaxValue, int.MaxValue, 0);

    /// <summary>What comes first.</summary>
    public ImmutableArray<Objective> Objectives { get; init; } = Sortie.UsualObjectives;

    /// <summary>Negative when this one is the better plan.</summary>
    public int CompareTo(PlanScore other)
    {
        int order = Broken.CompareTo(other.Broken);
        for (int i = 0; i < Objectives.Length && order == 0; i++)
            order = Objectives[i] switch
            {
                // A decision kept open counts right after what the jobs are worth.
                Objective.Value => (-Value, Closed).CompareTo((-other.Value, other.Closed)),
                Objective.End => ((long)End + Apart).CompareTo((long)other.End + other.Apart),
                Objective.Dead => Dead.CompareTo(other.Dead),
                Objective.Balance => Unbalance.CompareTo(other.Unbalance),
                Objective.Walking => Walked.CompareTo(other.Walked),
                _ => Narrow.CompareTo(other.Narrow),
            };
        return order;
    }
}
