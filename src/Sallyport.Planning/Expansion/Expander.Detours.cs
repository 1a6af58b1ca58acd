using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

public sealed partial class Expander
{
    /// <summary>A branch of a plan as it was expanded: when each event starts, and which tail of a decision it takes.</summary>
    internal sealed record Planned(IReadOnlyDictionary<(string Name, int Number), int> Starts, bool TakesThen);

    internal Planned Plan(Outline outline, Branch branch, string planId)
    {
        (Builder? builder, bool takesThen, Expansion expansion) = Build(outline, branch, planId);
        return builder is null || expansion.Timeline is null
            ? throw new ArgumentException($"the outline does not expand: {expansion.Problem?.Found}", nameof(outline))
            : new(builder.Starts(), takesThen);
    }

    internal (Timeline? Timeline, string Why) Expand(Outline outline, Planned plan, Timeline planned, Trouble trouble)
    {
        Past past = new(plan.Starts, trouble.From.Seconds);
        ImmutableHashSet<LegId> begun = [.. planned.Activities.OfType<DoStep>().Where(step => step.Start < trouble.From).Select(step => step.Leg)];
        ImmutableHashSet<LegId> givenUp = GivenUp(planned, trouble, begun);
        if (givenUp.IsEmpty && trouble.GoesOn is GoingOn.WithoutGetAheads or GoingOn.MustJobsOnly) return (null, "nothing is left to leave out");
        ImmutableHashSet<GearId> used = [.. scenario.Legs.Where(leg => !givenUp.Contains(leg.Id)).SelectMany(GearOf)];
        Detour detour = new(trouble, past, givenUp, used);

        bool takesThen = plan.TakesThen;
        Expansion expansion = new Builder(this, outline, takesThen, heldUntil: null, detour).Build(planned.Branch, planned.PlanId);
        // The decision is taken by the clock as it is then: what was to be done before the threshold is left when it comes too late.
        if (takesThen && !detour.Ends && outline.Decision is { } decision && expansion.Timeline is { } timeline && timeline.Activities.OfType<DoStep>().Any(step => step.Leg == decision.After)
            && EndOf(decision.After, timeline) is var end && end > trouble.From && end >= decision.IfBefore)
            expansion = new Builder(this, outline, takesThen: false, heldUntil: null, detour).Build(planned.Branch, planned.PlanId);
        return (expansion.Timeline, expansion.Problem?.Found ?? "");
    }

    /// <summary>Legs of jobs that matter less than all that is kept and of which nothing is begun; every leg that is not begun, when the walk ends.</summary>
    private ImmutableHashSet<LegId> GivenUp(Timeline planned, Trouble trouble, ImmutableHashSet<LegId> begun)
    {
        ImmutableHashSet<LegId> inPlan = [.. planned.Activities.OfType<DoStep>().Select(step => step.Leg)];
        bool Leaves(Job job) => trouble.GoesOn switch
        {
            GoingOn.EndsInOrder => true,
            GoingOn.WithoutGetAheads => job.Worth == Worth.GetAhead && !job.Legs.Any(leg => begun.Contains(leg.Id)),
            GoingOn.MustJobsOnly => job.Worth != Worth.Must && !job.Legs.Any(leg => begun.Contains(leg.Id)),
            _ => false,
        };
        return [.. scenario.Jobs.Where(Leaves).SelectMany(job => job.Legs).Select(leg => leg.Id).Where(leg => inPlan.Contains(leg) && !begun.Contains(leg))];
    }

    private static IEnumerable<GearId> GearOf(Leg leg) => leg.Restraint is { } restraint ? [.. leg.With, .. leg.PicksUp, restraint] : [.. leg.With, .. leg.PicksUp];

    /// <summary>How a detour changes what is built from the outline.</summary>
    private sealed partial class Builder
    {
        /// <summary>Whether an entry is still wanted; what was begun of one that is not is finished all the same.</summary>
        private bool Wanted(Walker walker, Entry entry)
        {
            if (detour is null || entry is IngressEntry) return true;
            if (detour.Ends) return false;
            if (entry.For is not { } leg) return entry is not PutEntry hung || walker.Carried.Contains(hung.Gear);
            if (!detour.GivenUp.Contains(leg)) return true;
            return entry switch
            {
                LegEntry => false,
                TakeEntry take => detour.StillUsed.Contains(take.Gear),
                // What was fetched for a leg given up is brought back as planned.
                PutEntry put => walker.Carried.Contains(put.Gear),
                PlugEntry plug => detour.StillUsed.Contains(plug.Restraint) && walker.Carried.Contains(plug.Restraint),
                UnplugEntry unplug => walker.Plugged.ContainsKey(unplug.Socket) || detour.StillUsed.Contains(unplug.Restraint),
                MeetEntry meet => GiftsOf(meet.Id).Any(gift => detour.StillUsed.Contains(gift.Gear)),
                DismountEntry => walker.Riding is not null,
                _ => false,
            };
        }

        private IEnumerable<Gift> GiftsOf(string meeting) =>
            outline.People.SelectMany(list => EntriesOf(list.Person)).OfType<MeetEntry>().Where(part => part.Id == meeting).SelectMany(part => part.Gives);

        /// <summary>Whether the event of this name comes into the timeline: always, save for an entry not wanted that has not come so far.</summary>
        private bool Comes(bool wanted, string name) => wanted || events.PastStart(name) is not null;

        /// <summary>The seconds of each step that is done of a leg, and how the last of them is left. A leg that is not cut short is done whole.</summary>
        private IEnumerable<(Step Step, int Seconds, Leaving? LeftBy)> StepsOf(Leg leg, IEnumerable<Step> steps, int? began)
        {
            int? at = began;
            foreach (Step step in steps)
            {
                int seconds = step.Time.Likely.Seconds;
                if (detour is { } cut)
                {
                    bool itself = cut.Trouble.Leg == leg.Id && cut.Trouble.Step == step.Id;
                    bool running = itself ? at is not null : at < cut.Known && at + seconds > cut.Known;
                    if (cut.Ends && !(at < cut.Known)) yield break;
                    if (cut.Ends && running)
                    {
                        yield return (step, cut.Known - at!.Value + step.Terminate.Time.Seconds, Leaving.Terminate);
                        yield break;
                    }
                    // Legs that go together wait for each other: the other one's step goes on until the trouble is over.
                    if (!cut.Ends && (itself || (running && cut.Trouble.Extra.Seconds > 0 && GoesTogether(leg, cut.Trouble.Leg)))) seconds += cut.Trouble.Extra.Seconds;
                }
                yield return (step, seconds, null);
                at += seconds;
            }
        }

        private bool GoesTogether(Leg leg, LegId other) =>
            leg.Together.Length > 0 && leg.Id != other && LegOf(other) is var troubled && troubled.Job == leg.Job && troubled.Together == leg.Together;

        /// <summary>What must be given back although the leg that would have been before or after the command is given up.</summary>
        private bool RestoresNow(GroundEntry entry, HashSet<ShutdownId> off) => detour is not null
            && scenario.Consoles.SelectMany(console => console.Shutdowns).Any(shutdown => shutdown.On == entry.Do && off.Contains(shutdown.Id));

        private void NoteOff(GroundEntry entry, HashSet<ShutdownId> off)
        {
            foreach (Shutdown shutdown in scenario.Consoles.SelectMany(console => console.Shutdowns))
            {
                if (shutdown.Off == entry.Do) off.Add(shutdown.Id);
                if (shutdown.On == entry.Do) off.Remove(shutdown.Id);
            }
        }
    }
}
