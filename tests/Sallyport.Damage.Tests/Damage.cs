using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Tests.Damage;

/// <summary>One kind of damage to a clean plan.</summary>
/// <param name="Name">Short, unique.</param>
/// <param name="Does">What it does, one sentence.</param>
/// <param name="Rule">The rule that must find it.</param>
/// <param name="Harm">Why what comes out is never just another valid plan.</param>
/// <param name="At">Every place that a plan offers for it, damaged there; none where it offers no place.</param>
internal sealed record Damage(string Name, string Does, string Rule, string Harm, Func<CleanPlan, IEnumerable<Damaged>> At)
{
    /// <summary>Whether its rule never says more than caution. Such damage is tried only on plans without that caution.</summary>
    public bool IsCaution { get; init; }
}

/// <summary>What is played instead of the clean plan.</summary>
/// <param name="Scenario">The world as played.</param>
/// <param name="Timeline">The timeline as told.</param>
/// <param name="GoOn">What is told of contingencies; null where they are no part of it.</param>
internal sealed record Damaged(Scenario Scenario, Timeline Timeline, GoOn? GoOn = null);

/// <summary>Every kind of damage.</summary>
internal static class Damages
{
    public static ImmutableArray<Damage> All { get; } =
    [
        .. TimeDamage.All, .. WayDamage.All, .. TetherDamage.All, .. MotionDamage.All, .. GearDamage.All, .. BagDamage.All, .. ToolDamage.All, .. HoldDamage.All, .. CommandDamage.All, .. PowerDamage.All,
        .. StateDamage.All, .. PeopleDamage.All, .. OrderDamage.All, .. AirlockDamage.All, .. ReturnDamage.All, .. OutlineDamage.All, .. BodyDamage.All, .. SuitDamage.All, .. FluidDamage.All, .. BranchDamage.All, .. HalfwayDamage.All,
    ];
}
