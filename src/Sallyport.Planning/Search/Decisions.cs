using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>
/// Makes the get-aheads at the end of one person's list into a decision: done if the clock allows when the leg before them ends, and left
/// otherwise. The threshold is the latest at which doing them still plays clean.
/// </summary>
internal sealed class Decisions(SearchCase all, Expander expander, UnitPins[] pins, Func<Outline, bool> accept)
{
    /// <summary>Thresholds are whole minutes, and a decision with less room than this is none.</summary>
    private const int LeastRoom = 120;

    private readonly Decoder decoder = new(all);

    /// <summary>The outline with a decision in it that plays clean in both branches, or null when there is none to make.</summary>
    public Outline? TryMake(Candidate plan, Outline outline, IReadOnlyDictionary<LegId, LegEntry> byHand)
    {
        if (all.Scenario.Sortie.Decision is not { } wish) return null;
        (List<Deed> likely, _, _) = Decode(plan);
        for (int p = 0; p < all.People.Length; p++)
        {
            List<Deed> legs = [.. likely.Where(deed => deed.What == Did.Leg && deed.Person == p)];
            for (int tail = 1; tail < legs.Count; tail++)
            {
                Deed last = legs[tail - 1];
                if (last.Start + all.Data[last.For].Length < wish.Earliest.Seconds) continue;
                HashSet<int> jobs = [.. legs.Skip(tail).Select(deed => all.Units[all.UnitOfLeg[deed.For]].Job)];
                bool leavable = jobs.All(job => all.Scenario.Jobs[job].Worth != Worth.Must
                    && likely.Where(deed => deed.What == Did.Leg && all.Units[all.UnitOfLeg[deed.For]].Job == job).All(deed => legs.IndexOf(deed) >= tail));
                if (!leavable) continue;
                Candidate without = plan.Copy();
                foreach (int job in jobs) without.JobIn[job] = false;
                (List<Deed> otherwise, List<(int, GroundEntry)> otherCommands, ImmutableArray<VoiceOutline> otherVoices) = Decode(without);
                if (Make(outline, likely, otherwise, otherCommands, otherVoices, last, byHand) is { } made) return made;
            }
        }
        return null;
    }

    private (List<Deed> Deeds, List<(int, GroundEntry)> Commands, ImmutableArray<VoiceOutline> Voices) Decode(Candidate candidate)
    {
        List<Deed> deeds = [];
        decoder.Decode(candidate, pins, deeds);
        return (deeds, [.. decoder.Commands()], decoder.Voices());
    }

    private Outline? Make(Outline outline, List<Deed> likely, List<Deed> otherwise,
        List<(int Start, GroundEntry Entry)> otherCommands, ImmutableArray<VoiceOutline> otherVoices, Deed last, IReadOnlyDictionary<LegId, LegEntry> byHand)
    {
        OutlineBuilder builder = new(all, expander.Graph, byHand);
        Outline other = builder.Build(otherwise, otherCommands, otherVoices, outline.Made!, outline.LeftOut);
        if (!Branches.Fits(other, outline)) return null;

        int decided = last.Start + all.Data[last.For].Length;
        List<PersonOutline> shared = [], then = [], instead = [];
        for (int p = 0; p < all.People.Length; p++)
        {
            ImmutableArray<Entry> a = outline.People[p].Entries, b = other.People[p].Entries;
            int same = Branches.CountCommon(a, b);
            if (same == a.Length && same == b.Length)
            {
                shared.Add(outline.People[p]);
                continue;
            }
            List<Deed> mine = [.. likely.Where(deed => deed.Person == p)], theirs = [.. otherwise.Where(deed => deed.Person == p)];
            int common = 0;
            while (common < mine.Count && common < theirs.Count && mine[common] == theirs[common]) common++;
            if (mine.Skip(common).Concat(theirs.Skip(common)).Any(deed => deed.Start < decided)) return null;
            PersonId person = all.People[p].Id;
            shared.Add(new(person, a[..same]));
            then.Add(new(person, a[same..]));
            instead.Add(new(person, b[same..]));
        }
        if (then.Count == 0) return null;

        LegId after = all.Legs[last.For].Id;
        if (LatestThreshold(outline, after, decided, last.Person) is not { } threshold) return null;
        Outline made = outline with { People = [.. shared], Decision = new(after, threshold, [.. then], [.. instead]) };
        return accept(made) ? made : null;
    }

    /// <summary>The latest whole minute at which the leg may end so that all of the plan still plays clean; found by halving. What would end too late is
    /// expanded and not proven, and where the least room there must be is not clean no other is tried.</summary>
    private Pet? LatestThreshold(Outline outline, LegId after, int decided, int person)
    {
        int least = (decided + LeastRoom + 59) / 60, latest = Halve(least - 1, all.PetLimit / 60, EndsInTime);
        if (latest < least || !Holds(least)) return null;
        return Pet.FromSeconds(60 * Halve(least, latest, Holds));

        Outline Late(int minute) => EndsAt(outline, after, 60 * minute, person);
        bool Holds(int minute) => accept(Late(minute));
        bool EndsInTime(int minute) => expander.Expand(Late(minute), Branch.Likely, "").Timeline is { } timeline && timeline.Activities.Max(activity => activity.End).Seconds <= all.PetLimit;
    }

    /// <summary>The greatest whole number up to another one for which something holds; what is given as known is not asked.</summary>
    private static int Halve(int known, int most, Func<int, bool> holds)
    {
        while (known < most)
        {
            int middle = known + (most - known + 1) / 2;
            if (holds(middle)) known = middle;
            else most = middle - 1;
        }
        return known;
    }

    private Outline EndsAt(Outline outline, LegId leg, int end, int person)
    {
        Pet start = Pet.FromSeconds(end - all.Data[all.LegIndex[leg]].Length);
        return outline with
        {
            People = outline.People.SetItem(person, outline.People[person] with
            {
                Entries = [.. outline.People[person].Entries.Select(entry => entry is LegEntry known && known.Leg == leg
                    ? known with { Pins = known.Pins with { NotBefore = start } } : entry)],
            }),
        };
    }
}
