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
        ImmutableHashSet<JobId> spilled = [.. planned.Activities.OfType<DoStep>().Where(step => step.Start < trouble.From && CanSpill(step)).Select(step => LegOf(step.Leg).Job)];
        ImmutableHashSet<LegId> tests = [.. scenario.Jobs.Where(job => spilled.Contains(job.Id)).SelectMany(job => job.Legs).Where(leg => leg.IsTest && leg.Id != trouble.Leg).Select(leg => leg.Id)];
        Detour detour = new(trouble, past, givenUp, used, tests, !spilled.IsEmpty);

        bool takesThen = plan.TakesThen;
        Expansion expansion = WithPauses(outline, takesThen, detour, planned);
        // The decision is taken by the clock as it is then: what was to be done before the threshold is left when it comes too late.
        if (takesThen && !detour.Ends && outline.Decision is { } decision && expansion.Timeline is { } timeline && timeline.Activities.OfType<DoStep>().Any(step => step.Leg == decision.After)
            && EndOf(decision.After, timeline) is var end && end > trouble.From && end >= decision.IfBefore)
            expansion = WithPauses(outline, takesThen: false, detour, planned);
        return (expansion.Timeline, expansion.Problem?.Found ?? "");
    }

    /// <summary>Expands a way on, and puts a check or a rest before an entry where one comes due on it; where none can be put, it is left out.</summary>
    private Expansion WithPauses(Outline outline, bool takesThen, Detour detour, Timeline planned)
    {
        HashSet<DuePause> pauses = [];
        while (true)
        {
            Builder builder = new(this, outline, takesThen, heldUntil: null, detour) { Pauses = pauses };
            Expansion expansion = builder.Build(planned.Branch, planned.PlanId);
            if (expansion.Timeline is not { } timeline || PauseCase.Of(scenario) is not { } due
                || (builder.NextCheckAfterRough(due, timeline) ?? (detour.Ends ? null : builder.NextPause(due, timeline))) is not { } next) return expansion;
            pauses.Add(next);
        }
    }

    private Leg LegOf(LegId id) => legs[id];

    /// <summary>Whether a step opens a disconnect, as far as its job says.</summary>
    private bool CanSpill(DoStep act)
    {
        Step step = LegOf(act.Leg).Steps.First(one => one.Id == act.Step);
        return step.Fluid is { Opens: true } || step.Makes.OfType<MakeFeature>().Any(make => scenario.Station.Disconnects.Any(one => one.Feature == make.State.Feature));
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
            if (detour.Ends) return entry is LegEntry kept && detour.Tests.Contains(kept.Leg);
            // A check or a rest is due whatever it was put in for.
            if (entry is CheckEntry or RestEntry) return true;
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
                if (detour is { } cut && !(cut.Ends && cut.Tests.Contains(leg.Id)))
                {
                    bool itself = cut.Trouble.Leg == leg.Id && cut.Trouble.Step == step.Id;
                    bool running = itself ? at is not null : at < cut.Known && at + seconds > cut.Known;
                    if (cut.Ends && !(at < cut.Known))
                    {
                        // Just between two steps: what the terminate of the next one brings back is brought back.
                        if (at == cut.Known && !step.Terminate.Leaves.IsEmpty) yield return (step, step.Terminate.Time.Seconds, Leaving.Terminate);
                        yield break;
                    }
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

        /// <summary>Whether somebody who goes in early hangs a thing at the hatch instead of taking it in: it must be in before people, or somebody
        /// has opened a disconnect and what is soiled stays outside.</summary>
        private bool HangsAtHatch(Airlock airlock, GearId gear) => detour is { Ends: true }
            && scenario.Station.Grips.First(grip => grip.Id == airlock.Grip).Stow
            && (detour.Spilled || airlock.Room is { } room && room.BeforePeople.Contains(GearOf(gear).Size));

        /// <summary>The first check or rest that comes due on this way, and the entry before which it can be put; null when none does or none can.</summary>
        public DuePause? NextPause(PauseCase due, Timeline timeline)
        {
            foreach (Walker walker in outline.People.Select(list => walkers[list.Person]))
            {
                Activity[] own = [.. timeline.Activities.Where(activity => activity.Has(walker.Person.Id)).OrderBy(activity => activity.Start)];
                int outside = own.OfType<AirlockPhase>().First(phase => phase.Phase == AirlockPhaseKind.Out).End.Seconds, inside = own.OfType<AirlockPhase>().Last(phase => phase.Phase == AirlockPhaseKind.In).End.Seconds;
                DuePause? Put(bool rest, int since, int every, int takes, IEnumerable<(int Due, int Again)> done)
                {
                    foreach ((int now, int again) in done.Append((inside, inside)))
                    {
                        if (now - since > every)
                            return walker.Begins.Where(one => one.Node.Start >= Math.Max(since, detour!.Known) && one.Node.Start + (rest ? 0 : takes) <= since + every)
                                .Select(one => new DuePause(walker.Person.Id, one.Number, rest)).LastOrDefault(one => !Pauses.Contains(one));
                        since = again;
                    }
                    return null;
                }
                if (due is { CanCheck: true, CheckEvery: < SearchCase.Never }
                    && Put(false, outside, due.CheckEvery, due.CheckTakes, own.Where(IsCheck).Select(one => (one.End.Seconds, one.End.Seconds))) is { } check) return check;
                if (due.RestEvery < SearchCase.Never && Put(true, outside, due.RestEvery, due.RestTakes, Rests(own, due.RestTakes)) is { } rest) return rest;
            }
            return null;
        }

        /// <summary>The first leg that somebody would begin with gloves not looked over since a rough step of another leg; null when there is none, or
        /// nothing can be put before it any more. Who goes in early begins no leg but a test, and has the time for it.</summary>
        public DuePause? NextCheckAfterRough(PauseCase due, Timeline timeline)
        {
            if (!due.AfterRough) return null;
            foreach (Walker walker in outline.People.Select(list => walkers[list.Person]))
            {
                LegId? rough = null;
                foreach (Activity own in timeline.Activities.Where(activity => activity.Has(walker.Person.Id)).OrderBy(activity => activity.Start))
                {
                    if (IsCheck(own)) rough = null;
                    else if (own is DoStep act)
                    {
                        if (rough is { } before && before != act.Leg && walker.Begins.Where(one => one.Node.Start >= detour!.Known && one.Node.Start <= act.Start.Seconds)
                            .Select(one => new DuePause(walker.Person.Id, one.Number, IsRest: false)).LastOrDefault() is { } next && !Pauses.Contains(next)) return next;
                        if (LegOf(act.Leg).Steps.First(step => step.Id == act.Step).Rough) rough = act.Leg;
                    }
                }
            }
            return null;
        }

        private bool IsCheck(Activity activity) => activity is CheckGloves || (activity is DoStep act && LegOf(act.Leg).Steps.First(step => step.Id == act.Step).ChecksGloves);

        /// <summary>Rests, and waits as long as one; what follows each other is one.</summary>
        private static IEnumerable<(int From, int To)> Rests(IEnumerable<Activity> own, int least)
        {
            (int From, int To)? open = null;
            foreach (Activity one in own.Where(activity => activity is Await or Rest))
            {
                if (open is { } before && before.To == one.Start.Seconds)
                {
                    open = (before.From, one.End.Seconds);
                    continue;
                }
                if (open is { } ended && ended.To - ended.From >= least) yield return ended;
                open = (one.Start.Seconds, one.End.Seconds);
            }
            if (open is { } last && last.To - last.From >= least) yield return last;
        }

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
