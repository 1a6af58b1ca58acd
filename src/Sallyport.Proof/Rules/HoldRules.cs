using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Restraints are where and as they are used.</summary>
internal sealed class RestraintAbsent : FactRule
{
    public override RuleCard Card { get; } = new(new("restraint.absent"),
        "work that needs both hands with nothing to stand in, or walking off while still held",
        "the restraint in the socket, its setting, and who is in it, for the whole of each step that asks for it",
        RuleCard.NoFigure,
        Guard.Decoder("a restraint is brought, set and got into before its leg, and left before anything else"));
}

/// <summary>An arm serves one at a time, from where it is.</summary>
internal sealed class ArmShared : FactRule
{
    public override RuleCard Card { get; } = new(new("arm.shared"),
        "two people counting on one arm, or an arm counted on where it is not",
        "each mount, move and dismount: the arm's pose, its rider, and that no two of them overlap",
        RuleCard.NoFigure,
        Guard.Expansion("the sessions of an arm follow each other in the order that the outline fixes"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        foreach (IGrouping<ArmId, Activity> own in given.Timeline.Activities.Where(activity => ArmOf(activity) is not null).GroupBy(activity => ArmOf(activity)!.Value))
        {
            Activity? longest = null;
            foreach (Activity activity in own.OrderBy(one => one.Start).ThenBy(one => one.Id.Value, StringComparer.Ordinal))
            {
                if (longest is not null && activity.Start < longest.End)
                    yield return Broken(given, activity.Start, activity.People,
                        $"{own.Key} is in {longest.Id} until {longest.End}, and in {activity.Id} from {activity.Start}.",
                        $"Start {activity.Id} at {longest.End} or later.", activity.Id);
                if (longest is null || activity.End > longest.End) longest = activity;
            }
        }
    }

    private static ArmId? ArmOf(Activity activity) => activity switch
    {
        MountArm mount => mount.Arm,
        ArmMove move => move.Arm,
        DismountArm dismount => dismount.Arm,
        _ => null,
    };
}

/// <summary>Whoever rides is held, and whoever works from an arm keeps still.</summary>
internal sealed class ArmRider : FactRule
{
    public override RuleCard Card { get; } = new(new("arm.rider"),
        "a rider thrown off, or carried away from the work",
        "who has the arm and how that person is held, through every move and every step done from it",
        RuleCard.NoFigure,
        Guard.Expansion("rides follow from the legs of whoever is on the arm, and no ride lies inside a leg"));
}
