using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>An outline made complete again, and what was changed for it.</summary>
/// <param name="Outline">The outline; the one given when nothing had to change.</param>
/// <param name="Changes">One line a change, such as <c>EV1: + take gyro-bag from lock</c>.</param>
public sealed record Completed(Outline Outline, ImmutableArray<string> Changes);

/// <summary>
/// Re-derives the bag moves, restraints, meetings and commands of an outline whose legs were moved by hand. Order, people, pins and what
/// is left out stay as written, and so does every entry marked <c>by: hand</c>.
/// </summary>
public sealed class Completion
{
    private readonly Scenario scenario;
    private readonly Expander expander;

    /// <summary>Prepares to complete outlines of one scenario.</summary>
    public Completion(Scenario scenario, Expander expander)
    {
        this.scenario = scenario;
        this.expander = expander;
    }

    /// <summary>Completes an outline. One in which every leg finds what it needs on the suit is returned as it is.</summary>
    public Completed Complete(Outline outline)
    {
        bool holds = outline.People.All(list => Holds(list.Entries)) && (outline.Decision is null || outline.Decision.Then.All(list => Holds([.. Before(outline, list.Person), .. list.Entries])));
        bool stuck = holds && expander.Expand(outline, Branch.Likely, "").Problem is { Code: "outline.deadlock" };
        if (holds && !stuck) return new(outline, []);
        SearchCase all = new(scenario, expander);
        (Candidate candidate, UnitPins[] pins) = new OutlineReading(all).Read(outline, asTold: true);
        List<Deed> deeds = [];
        Decoder decoder = new(all);
        decoder.Decode(candidate.Order, candidate.Options, candidate.JobIn, pins, deeds);
        Outline derived = new OutlineBuilder(all, expander.Graph, OutlineReading.ByHand(outline))
            .Build(deeds, [.. decoder.Commands()], outline.Made ?? new(0, 0), outline.LeftOut) with { Made = outline.Made, Digest = outline.Digest };
        derived = derived with { People = [.. derived.People.Select(list => list with { Entries = KeepByHand(list.Entries, Before(outline, list.Person)) })] };
        // A circle that new bag moves and commands do not open is in what the person wrote, and is told as written.
        return stuck && expander.Expand(derived, Branch.Likely, "").Problem is not null ? new(outline, []) : new(derived, Differences(outline, derived));
    }

    private static IEnumerable<Entry> Before(Outline outline, PersonId person) =>
        outline.People.Where(list => list.Person == person).SelectMany(list => list.Entries);

    /// <summary>Whether each leg of a list finds on the suit, in its socket or under it what it needs, and each bag move still serves a leg after it.</summary>
    private bool Holds(IEnumerable<Entry> entries)
    {
        HashSet<GearId> carried = [];
        Dictionary<GearId, (SocketId Socket, string Setting)> plugged = [];
        ArmId? riding = null;
        List<Entry> list = [.. entries];
        for (int i = 0; i < list.Count; i++)
        {
            switch (list[i])
            {
                case TakeEntry take:
                    carried.Add(take.Gear);
                    break;
                case UnplugEntry unplug:
                    carried.Add(unplug.Restraint);
                    plugged.Remove(unplug.Restraint);
                    break;
                case PutEntry put:
                    if (!carried.Remove(put.Gear)) return false;
                    break;
                case PlugEntry plug:
                    if (!carried.Remove(plug.Restraint)) return false;
                    plugged[plug.Restraint] = (plug.Socket, plug.Setting);
                    break;
                case MeetEntry meet:
                    foreach (Gift gift in meet.Gives)
                        if (!carried.Remove(gift.Gear)) return false;
                    // What is received is not in this list; it is what later legs of it need.
                    foreach (GearId gear in list.Skip(i).OfType<LegEntry>().SelectMany(later => LegOf(later).With).Where(_ => meet.Gives.IsEmpty)) carried.Add(gear);
                    break;
                case MountEntry mount:
                    riding = mount.Arm;
                    break;
                case DismountEntry:
                    riding = null;
                    break;
                case LegEntry entry:
                    Leg leg = LegOf(entry);
                    if (leg.With.Any(gear => !carried.Contains(gear))) return false;
                    if (leg.Restraint is { } restraint && (!plugged.TryGetValue(restraint, out (SocketId, string) how) || how != (leg.Socket!.Value, leg.Setting ?? ""))) return false;
                    if ((leg.Footing == Footing.Arm) != riding.HasValue) return false;
                    carried.UnionWith(leg.PicksUp);
                    carried.ExceptWith(leg.LeavesBehind);
                    break;
            }
            if (list[i] is not LegEntry && list[i].For is { } serves && !list.Skip(i).OfType<LegEntry>().Any(later => later.Leg == serves)
                && list[i] is TakeEntry or PlugEntry or MountEntry) return false;
        }
        return true;
    }

    private Leg LegOf(LegEntry entry) => scenario.Legs.First(leg => leg.Id == entry.Leg);

    /// <summary>Puts the entries that a person wrote back in place of what was derived for the same thing and leg, or before the leg they stood before.</summary>
    private static ImmutableArray<Entry> KeepByHand(ImmutableArray<Entry> derived, IEnumerable<Entry> told)
    {
        List<Entry> kept = [.. derived];
        List<Entry> original = [.. told];
        for (int i = 0; i < original.Count; i++)
        {
            Entry entry = original[i];
            if (!entry.ByHand || entry is LegEntry) continue;
            int twin = kept.FindIndex(candidate => candidate.GetType() == entry.GetType() && candidate.For == entry.For && GearIn(candidate) == GearIn(entry));
            if (twin >= 0)
            {
                kept[twin] = entry;
                continue;
            }
            LegId? next = original.Skip(i).OfType<LegEntry>().FirstOrDefault()?.Leg;
            int at = kept.FindIndex(candidate => candidate is LegEntry leg && leg.Leg == next);
            kept.Insert(at < 0 ? kept.Count - 1 : at, entry);
        }
        return [.. kept];
    }

    private static GearId? GearIn(Entry entry) => entry switch
    {
        TakeEntry take => take.Gear,
        PutEntry put => put.Gear,
        PlugEntry plug => plug.Restraint,
        UnplugEntry unplug => unplug.Restraint,
        _ => null,
    };

    private static ImmutableArray<string> Differences(Outline before, Outline after)
    {
        ImmutableArray<string>.Builder changes = ImmutableArray.CreateBuilder<string>();
        if (before.Decision is not null) changes.Add("the decision falls away: what it left open is in the lists, to be done");
        foreach (PersonOutline list in after.People)
        {
            IEnumerable<Entry> told = Before(before, list.Person).Concat(before.Decision?.Then.Where(tail => tail.Person == list.Person).SelectMany(tail => tail.Entries) ?? []);
            List<string> old = [.. told.Select(Expander.Describe)], now = [.. list.Entries.Select(Expander.Describe)];
            changes.AddRange(old.Except(now).Select(entry => $"{list.Person}: − {entry}"));
            changes.AddRange(now.Except(old).Select(entry => $"{list.Person}: + {entry}"));
        }
        if (!before.Ground.SequenceEqual(after.Ground)) changes.Add($"ground: {string.Join(", ", after.Ground.Select(entry => entry.Do))}");
        return changes.ToImmutable();
    }
}
