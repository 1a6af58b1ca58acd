using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>How late a leg can begin with all else in its order.</summary>
/// <param name="Leg">The leg.</param>
/// <param name="Planned">When the plan begins it.</param>
/// <param name="Latest">The latest whole minute after that at which it was seen to begin in a plan that still plays clean; null where none was.</param>
/// <param name="Then">What a start a minute later breaks, in words.</param>
public sealed record LatestStart(LegId Leg, Pet Planned, Pet? Latest, string Then);

/// <summary>
/// Holds one leg at a time back, minute by minute, lets everything else follow in the order of the plan, and plays and judges what comes of it, contingencies
/// too. It steps by halving, so a start between may be one that breaks something, such as one that falls into the night: only the start told was seen to be clean. While it
/// halves it asks only whether a plan is clean, which is answered far sooner than what all it breaks.
/// </summary>
internal sealed class LatestStarts(SortieDesk desk)
{
    private const int Minute = 60;

    public ImmutableArray<LatestStart> Of(ProvenPlan plan, CancellationToken cancel)
    {
        if (plan.Outline is not { } outline) return [];
        int longest = desk.Scenario.LimitOf("pet.limit") is { Value.Dimension: Dimension.Time } limit ? (int)limit.Value.Value : plan.End.Seconds + 12 * 3600;
        return
        [
            .. plan.Likely.Activities.OfType<DoStep>().GroupBy(step => step.Leg).Select(steps => (Leg: steps.Key, Start: steps.Min(step => step.Start))).OrderBy(one => one.Start)
                .TakeWhile(_ => !cancel.IsCancellationRequested).Select(one => Of(outline, one.Leg, one.Start, longest)),
        ];
    }

    private LatestStart Of(Outline outline, LegId leg, Pet planned, int longest)
    {
        // In whole minutes from the first one after the planned start.
        int first = planned.Seconds / Minute + 1, clean = first - 1, unseen = longest / Minute + 1, broken = unseen;
        while (broken - clean > 1)
        {
            int tried = clean + (broken - clean) / 2;
            if (Holds(outline, leg, Pet.FromSeconds(tried * Minute))) clean = tried;
            else broken = tried;
        }
        return new(leg, planned, clean >= first ? Pet.FromSeconds(clean * Minute) : null, broken == unseen ? "" : Breaks(outline, leg, Pet.FromSeconds(broken * Minute)));
    }

    /// <summary>Whether the plan plays clean with a leg held back until a moment, and the leg does begin then.</summary>
    private bool Holds(Outline outline, LegId leg, Pet moment) =>
        desk.ProveBriefly(Held(outline, leg, moment)) is { } likely && StartOf(likely, leg) is { } start && start <= moment;

    /// <summary>What the plan that does not hold so breaks first.</summary>
    private string Breaks(Outline outline, LegId leg, Pet moment)
    {
        if (desk.ProveShort(Held(outline, leg, moment)) is not { } proven) return "it cannot be expanded";
        if (proven.Verdict.Findings.FirstOrDefault(finding => finding.Severity == Severity.Broken) is { } broken) return $"{broken.Rule}: {broken.Sentence}";
        return StartOf(proven.Likely, leg) is { } start ? $"it would begin at {start}" : "the decision before it goes the other way";
    }

    private static Pet? StartOf(Timeline timeline, LegId leg) => timeline.Activities.OfType<DoStep>().Where(step => step.Leg == leg).Select(step => (Pet?)step.Start).Min();

    private static Outline Held(Outline outline, LegId leg, Pet moment) =>
        outline with { People = Held(outline.People, leg, moment), Decision = outline.Decision is { } decision ? decision with { Then = Held(decision.Then, leg, moment) } : null };

    private static ImmutableArray<PersonOutline> Held(ImmutableArray<PersonOutline> people, LegId leg, Pet moment) =>
        [.. people.Select(list => list with { Entries = [.. list.Entries.Select(entry => entry is LegEntry own && own.Leg == leg ? own with { Pins = own.Pins with { At = null, NotBefore = moment } } : entry)] })];
}
