using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What a new plan from the middle of a walk came to.</summary>
/// <param name="Outline">The best outline that was accepted: the past as it was, and then what is new. Null when none was.</param>
/// <param name="Dropped">Must-jobs that it leaves out; only where no plan with all of them was found.</param>
/// <param name="Search">How the last search went.</param>
/// <param name="Why">With no outline, why.</param>
public sealed record Replanned(Outline? Outline, ImmutableArray<JobId> Dropped, SearchResult? Search, string Why);

/// <summary>
/// Makes a new plan from a moment in the middle of a walk. What was begun until then stays and runs on to its end: legs, handling, and walks with what
/// waits at the end of them; so does what a command was already sent for. Until the last of that begins, everybody goes on as planned. What comes then
/// is searched anew, from two starts side by side: the old order, repaired by leaving out what is optional, and the old order as it was.
/// </summary>
/// <param name="scenario">The scenario as it is known now: a step that takes longer, a limit that has changed, stand in it.</param>
/// <param name="expander">Its expander.</param>
public sealed class Replanner(Scenario scenario, Expander expander)
{
    /// <summary>What each leg moved and each new neighbour counts, s of the end: a crew has read its plan.</summary>
    public const int StayCloseWeight = 60;

    /// <summary>Makes it.</summary>
    /// <param name="outline">The plan under way.</param>
    /// <param name="now">The moment.</param>
    /// <param name="options">How much to search; <see cref="SearchOptions.From"/> is not looked at.</param>
    /// <param name="accept">Expands, plays and judges an outline of the scenario given with it, in which must-jobs that had to be dropped are none:
    /// true when it plays clean.</param>
    /// <param name="progress">Told after each epoch, and when a first plan is there.</param>
    /// <param name="cancel">Ends the search after the epoch under way; its best plan is kept.</param>
    /// <param name="stayClose">What each leg moved and each new neighbour counts, s of the end.</param>
    public Replanned Run(Outline outline, Pet now, SearchOptions options, Func<Scenario, Outline, bool> accept, Action<SearchProgress> progress, CancellationToken cancel,
        int stayClose = StayCloseWeight)
    {
        Replanned all = Search(scenario, outline, now, options, accept, progress, cancel, stayClose);
        if (all.Outline is not null || all.Search is null || cancel.IsCancellationRequested) return all;
        // Each must-job is worth more than everything that is none, so that the plan with the most of them is the best.
        int rest = 1 + scenario.Jobs.Where(job => job.Worth != Worth.Must).Sum(job => job.Value);
        Scenario fewer = scenario with { Jobs = [.. scenario.Jobs.Select(job => job.Worth == Worth.Must ? job with { Worth = Worth.Should, Value = job.Value + rest * 1000 } : job)] };
        Replanned some = Search(fewer, outline, now, options, accept, progress, cancel, stayClose);
        if (some.Outline is not { } found) return some;
        HashSet<LegId> done = [.. found.People.SelectMany(list => list.Entries.OfType<LegEntry>()).Select(entry => entry.Leg)];
        return some with { Dropped = [.. scenario.Jobs.Where(job => job.Worth == Worth.Must && !job.Legs.Any(leg => done.Contains(leg.Id))).Select(job => job.Id)] };
    }

    private Replanned Search(Scenario world, Outline outline, Pet now, SearchOptions options, Func<Scenario, Outline, bool> accept,
        Action<SearchProgress> progress, CancellationToken cancel, int stayClose)
    {
        Outline told = outline with { People = Branches.Of(outline)[0], Decision = null };
        if (expander.Expand(told, Branch.Likely, "").Timeline is not { } timeline) return None("the plan under way cannot be expanded");
        Searcher searcher = new(world, expander);
        SearchCase all = searcher.Case;
        (Candidate old, UnitPins[] pins) = new OutlineReading(all, expander).Read(told, asTold: true);
        IReadOnlyDictionary<LegId, LegEntry> byHand = OutlineReading.ByHand(told);
        (List<(Deed Deed, int Entries)> read, string? why) = new OutlineDeeds(all, expander.Graph, timeline).Read(told.People);
        if (why is not null) return None($"the plan under way cannot be gone on from: {why}");

        // Everything until the last that is under way, over everybody: so nothing that is kept can hang on what is not.
        int until = UnderWay(all, told, timeline, [.. read.Select(one => one.Deed)], now.Seconds);
        (Deed Deed, int Entries)[] kept = [.. read.Where(one => one.Deed.Start <= until)];
        Deed[] past = [.. kept.Select(one => one.Deed)];
        ImmutableArray<Entry>[] entries = [.. all.People.Select((person, p) => Branches.EntriesOf(told.People, person.Id)
            [..kept.Where(one => one.Deed.Person == p).Select(one => one.Entries).DefaultIfEmpty(1).Max()])];
        bool[] units = new bool[all.Units.Length];
        foreach (Deed deed in past.Where(deed => deed.What == Did.Leg)) units[all.UnitOfLeg[deed.For]] = true;
        // A job that was begun is gone on with, and so is one whose legs stand pinned.
        if (pins.Length == 0) pins = [.. all.Units.Select(_ => UnitPins.None)];
        bool[] begun = new bool[world.Jobs.Length];
        for (int u = 0; u < units.Length; u++) begun[all.Units[u].Job] |= units[u];
        for (int u = 0; u < units.Length; u++) pins[u] = pins[u] with { Keeps = pins[u].Keeps || begun[all.Units[u].Job] };
        all.StayClose = CloseTo(all, told, stayClose);
        all.SoFar = new(past, units, entries, now.Seconds);

        Candidate repaired = Repair(all, old, pins, begun);
        HashSet<string> before = [.. timeline.Activities.Select(activity => Said(activity, now)).OfType<string>()];
        bool Accept(Outline found) =>
            expander.Expand(found, Branch.Likely, "").Timeline is { } made && before.SetEquals(made.Activities.Select(activity => Said(activity, now)).OfType<string>())
            && accept(world, found);
        SearchResult result = searcher.Run(options, [repaired, old], pins, byHand, Accept, progress, cancel);
        return new(result.Outline, [], result, result.Why);
    }

    private static Replanned None(string why) => new(null, [], null, why);

    /// <summary>The start of the last that is under way at a moment: what was begun, what somebody is on the way to, and what a command was sent for.</summary>
    private static int UnderWay(SearchCase all, Outline told, Timeline timeline, List<Deed> deeds, int now)
    {
        int until = now - 1;
        for (int p = 0; p < all.People.Length; p++)
        {
            int here = all.Root[p];
            bool begun = true;
            foreach (Deed deed in deeds.Where(deed => deed.Person == p))
            {
                bool comes = deed.Mooring >= 0 && deed.Mooring != here, settles = deed.What == Did.Leg && all.Data[deed.For].Socket >= 0;
                // Whoever has ended the entry before sets out at once.
                if (deed.Start < now || (begun && (comes || settles || deed.What is Did.Dismount))) until = Math.Max(until, deed.Start);
                begun = deed.Start < now && EndOf(all, deed) < now;
                if (deed.Mooring >= 0) here = deed.Mooring;
            }
        }
        foreach (SendCommand sent in timeline.Activities.OfType<SendCommand>().Where(sent => sent.Start.Seconds < now))
            foreach (GroundEntry entry in told.Ground.Where(entry => entry.Do == sent.Command && entry.Before is not null))
                foreach (Deed deed in deeds.Where(deed => deed.What == Did.Leg && all.Legs[deed.For].Id == entry.Before && deed.Start >= sent.Start.Seconds))
                    until = Math.Max(until, NearestAfter(told, timeline, entry, sent) ? deed.Start : until);
        // Whoever rides gets to the leg ridden to.
        for (int before = int.MinValue; before < until;)
        {
            before = until;
            foreach (Deed ride in deeds.Where(deed => deed.What == Did.Ride && deed.Start <= until))
                until = Math.Max(until, deeds.First(deed => deed.What == Did.Leg && deed.For == ride.For).Start);
        }
        return until;
    }

    /// <summary>Whether a command that was sent is the one that an entry stands for: the same one may be sent for several legs, in the order of the outline.</summary>
    private static bool NearestAfter(Outline told, Timeline timeline, GroundEntry entry, SendCommand sent)
    {
        GroundEntry[] entries = [.. told.Ground.Where(one => one.Do == entry.Do)];
        SendCommand[] sends = [.. timeline.Activities.OfType<SendCommand>().Where(one => one.Command == entry.Do).OrderBy(one => one.Start)];
        return Array.IndexOf(entries, entry) == Array.IndexOf(sends, sent);
    }

    private static int EndOf(SearchCase all, Deed deed)
    {
        Handling handling = all.Scenario.Handling;
        return deed.Start + deed.What switch
        {
            Did.Leg => all.Data[deed.For].Length,
            Did.Take => handling.Take.Time.Seconds,
            Did.Put => handling.Put.Time.Seconds,
            Did.Give => handling.Give.Time.Seconds,
            Did.Plug => handling.Plug.Time.Seconds,
            Did.Unplug => handling.Unplug.Time.Seconds,
            Did.Mount => all.ArmData[deed.Parcel].Arm.Mount.Time.Seconds,
            Did.Dismount => all.ArmData[deed.Parcel].Arm.Dismount.Time.Seconds,
            Did.Check => all.Pauses?.CheckTakes ?? 0,
            Did.Rest => all.Pauses?.RestTakes ?? 0,
            _ => 0,
        };
    }

    private static StayClose CloseTo(SearchCase all, Outline told, int weight)
    {
        int[] doer = new int[all.Legs.Length], before = new int[all.Legs.Length];
        Array.Fill(doer, -1);
        Array.Fill(before, -1);
        for (int p = 0; p < all.People.Length; p++)
        {
            int last = -1;
            foreach (LegEntry entry in Branches.EntriesOf(told.People, all.People[p].Id).OfType<LegEntry>())
            {
                int leg = all.LegIndex[entry.Leg];
                (doer[leg], before[leg], last) = (p, last, leg);
            }
        }
        return new(doer, before, weight);
    }

    /// <summary>The old order without what is optional and not begun, one job after the other, until nothing is broken: each time the one whose loss mends most.</summary>
    private static Candidate Repair(SearchCase all, Candidate old, UnitPins[] pins, bool[] begun)
    {
        Decoder decoder = new(all);
        Candidate plan = old.Copy();
        PlanScore score = decoder.Decode(plan, pins);
        while (score.Broken > 0)
        {
            (int Job, PlanScore Score) best = (-1, PlanScore.Worst);
            for (int j = 0; j < plan.JobIn.Length; j++)
            {
                if (!plan.JobIn[j] || begun[j] || all.Scenario.Jobs[j].Worth == Worth.Must) continue;
                plan.JobIn[j] = false;
                PlanScore without = decoder.Decode(plan, pins);
                plan.JobIn[j] = true;
                if (best.Job < 0 || without.CompareTo(best.Score) < 0) best = (j, without);
            }
            if (best.Job < 0) return plan;
            plan.JobIn[best.Job] = false;
            score = best.Score;
        }
        return plan;
    }

    /// <summary>What of an activity is past at a moment, as words that can be compared; null for what is not begun, and for waits, which tell of what comes.</summary>
    private static string? Said(Activity activity, Pet now)
    {
        if (activity.Start >= now || activity is Await) return null;
        string what = activity switch
        {
            DoStep step => $"{step.Leg}/{step.Step}",
            Take take => $"{take.Gear}",
            Put put => $"{put.Gear}",
            Give give => $"{give.Gear}",
            SendCommand send => $"{send.Command}",
            ArmMove move => $"{move.Arm} {move.From} {move.To}",
            _ => activity.For?.Value ?? "",
        };
        return $"{activity.GetType().Name} {string.Join(' ', activity.People)} {activity.Start} {activity.End} {what}";
    }
}
