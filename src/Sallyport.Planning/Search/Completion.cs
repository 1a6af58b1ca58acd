using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>An outline made complete again, and what was changed for it.</summary>
/// <param name="Outline">The outline; the one given when nothing had to change.</param>
/// <param name="Changes">One line a change, such as <c>EV1: + take gyro-bag from lock, before leg gyro/open</c>.</param>
/// <param name="Kept">Why the outline was left as told although a leg of it lacks something; null otherwise.</param>
public sealed record Completed(Outline Outline, ImmutableArray<string> Changes, string? Kept)
{
    /// <summary><see cref="Kept"/> among other notes: one or none.</summary>
    public ImmutableArray<string> Notes => Kept is { } kept ? [kept] : [];
}

/// <summary>
/// Re-derives the bag moves, restraints, meetings and commands of an outline whose legs were moved by hand. Order, people, pins, decision
/// and what is left out stay as written, and so does every entry marked <c>by: hand</c>. Any number of threads may ask it: what it keeps of outlines is for one after the other.
/// </summary>
public sealed class Completion
{
    /// <summary>What is kept of outlines with other legs: those of two branches, and of the one before a job was left out or brought back.</summary>
    private const int MostCases = 4;

    private readonly Scenario scenario;
    private readonly Expander expander;
    private readonly List<(string Legs, SearchCase Case, SearchCase.Unit[] Units)> cases = [];
    private readonly Lock casesGate = new();

    /// <summary>Prepares to complete outlines of one scenario.</summary>
    public Completion(Scenario scenario, Expander expander)
    {
        this.scenario = scenario;
        this.expander = expander;
    }

    /// <summary>Completes an outline. One in which every leg finds what it needs on the suit is returned as it is.</summary>
    /// <param name="outline">The outline.</param>
    /// <param name="anew">Whether what serves the legs is found anew in any case, as after a leg was moved away from what served it.</param>
    public Completed Complete(Outline outline, bool anew = false)
    {
        bool holds = Holds(outline), stuck = holds && expander.Expand(outline, Branch.Likely, "").Problem is { Code: "outline.deadlock" };
        if (holds && !stuck && !anew) return new(outline, [], null);
        Outline? derived = Rederive(outline);
        if (derived is null || !Branches.SameLegs(outline, derived))
            return new(outline, [], stuck || holds ? null : "A leg lacks what it needs, and no bag moves were found that bring it with everybody's legs kept in their order: judged as it stands.");
        // A circle that new bag moves and commands do not open is in what the person wrote, and is told as written.
        return stuck && expander.Expand(derived, Branch.Likely, "").Problem is not null ? new(outline, [], null) : new(derived, OutlineDifferences.Of(outline, derived), null);
    }

    private Outline? Rederive(Outline told)
    {
        Outline[] derived;
        lock (casesGate) derived = [.. Branches.Of(told).Select(branch => Derive(told, branch))];
        if (told.Decision is not { } decision) return derived[0];
        return Branches.Join(derived[0], derived[1], decision) is { } joined && Holds(joined) ? joined : null;
    }

    /// <summary>The outline with its legs as one branch has them, and everything else about them found anew.</summary>
    private Outline Derive(Outline told, ImmutableArray<PersonOutline> branch)
    {
        Outline flat = told with { People = branch, Decision = null };
        SearchCase all = CaseOf(flat);
        (Candidate candidate, UnitPins[] pins) = new OutlineReading(all, expander).Read(flat, asTold: true);
        List<Deed> deeds = [];
        Decoder decoder = new(all);
        decoder.Decode(candidate, pins, deeds);
        Outline derived = new OutlineBuilder(all, expander.Graph, OutlineReading.ByHand(flat))
            .Build(deeds, [.. decoder.Commands()], decoder.Voices(), told.Made ?? new(0, 0), told.LeftOut) with
        { Made = told.Made, Digest = told.Digest };
        return derived with { People = [.. derived.People.Select(list => list with { Entries = KeepByHand(list.Entries, Branches.EntriesOf(branch, list.Person)) })] };
    }

    /// <summary>The case of the legs that an outline has. Most of a second goes into making one, and an edit that only moves legs asks for the same again.</summary>
    private SearchCase CaseOf(Outline flat)
    {
        string legs = string.Join('\n', flat.People.SelectMany(list => list.Entries.OfType<LegEntry>()).Select(entry => entry.Leg.Value).Order(StringComparer.Ordinal));
        int at = cases.FindIndex(one => one.Legs == legs);
        (string, SearchCase Case, SearchCase.Unit[] Units) found = at >= 0 ? cases[at] : default;
        if (at >= 0) cases.RemoveAt(at);
        else
        {
            SearchCase made = new(AsTold(flat), expander);
            found = (legs, made, [.. made.Units]);
            if (cases.Count == MostCases) cases.RemoveAt(0);
        }
        cases.Add(found);
        // Reading an outline as told adds who does a leg there to who may; the next one begins without that.
        found.Units.CopyTo(found.Case.Units, 0);
        return found.Case;
    }

    /// <summary>The scenario with only the legs that the outline has: what was left out by hand stays out, must-job or not. Checks of gloves and
    /// rests are never due in it, since those that were told stay where they are.</summary>
    private Scenario AsTold(Outline flat)
    {
        HashSet<LegId> told = [.. flat.People.SelectMany(list => list.Entries.OfType<LegEntry>()).Select(entry => entry.Leg)];
        return scenario with
        {
            Limits = [.. scenario.Limits.Where(limit => limit.Rule.Value is not ("glove.check" or "work.rest"))],
            Jobs = [.. scenario.Jobs.Select(job => job with
            {
                Legs = [.. job.Legs.Where(leg => told.Contains(leg.Id)).Select(leg => leg with { After = [.. leg.After.Where(after => told.Contains(after.Leg))] })],
            })],
        };
    }

    private bool Holds(Outline outline) => VoicesHold(outline) && Branches.Of(outline).All(branch => branch.All(list => Holds(list, branch)) && HasGos(outline, branch));

    /// <summary>Whether each led leg has its place among the conversations, where the scenario limits them.</summary>
    private bool VoicesHold(Outline outline)
    {
        if (scenario.LimitOf("voice.crowded") is null) return true;
        HashSet<LegId> named = [.. outline.Voice.SelectMany(voice => voice.Legs)];
        return Branches.Of(outline).SelectMany(branch => branch).SelectMany(list => list.Entries).OfType<LegEntry>().Select(LegOf)
            .Where(leg => leg.Steps.Any(step => step.Led)).All(leg => named.Contains(leg.Id)
                || (leg.Together.Length > 0 && scenario.Legs.Any(other => other.Job == leg.Job && other.Together == leg.Together && named.Contains(other.Id))));
    }

    /// <summary>Whether for each GO that a leg needs a command stands before it, or before a leg that begins together with it.</summary>
    private bool HasGos(Outline outline, ImmutableArray<PersonOutline> branch) => branch.SelectMany(list => list.Entries).OfType<LegEntry>().Select(LegOf)
        .SelectMany(leg => leg.Steps.SelectMany(step => step.Needs).OfType<NeedGo>().Select(need => (leg, need.Command)))
        .All(needed => outline.Ground.Any(entry => entry.Do == needed.Command && entry.Before is { } before
            && (before == needed.leg.Id || (needed.leg.Together.Length > 0 && scenario.Legs.First(leg => leg.Id == before) is var with && with.Job == needed.leg.Job && with.Together == needed.leg.Together))));

    /// <summary>Whether each leg of a list finds on the suit, in its socket or under it what it needs, each carry point holds one thing, and
    /// each bag move still serves a leg after it.</summary>
    private bool Holds(PersonOutline told, ImmutableArray<PersonOutline> branch)
    {
        // What hangs on the suit, and on which point where the list tells.
        Dictionary<GearId, CarryPointId?> carried = [];
        Dictionary<GearId, (SocketId Socket, string Setting)> plugged = [];
        ArmId? riding = null;
        ImmutableArray<Entry> list = told.Entries;
        for (int i = 0; i < list.Length; i++)
        {
            switch (list[i])
            {
                case TakeEntry take:
                    if (carried.ContainsValue(take.Carry)) return false;
                    carried[take.Gear] = take.Carry;
                    break;
                case UnplugEntry unplug:
                    if (carried.ContainsValue(unplug.Carry)) return false;
                    carried[unplug.Restraint] = unplug.Carry;
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
                    // What is received stands in the list of who gives it.
                    foreach (Gift gift in branch.SelectMany(other => other.Entries).OfType<MeetEntry>().Where(other => other.Id == meet.Id).SelectMany(other => other.Gives).Where(gift => gift.To == told.Person))
                        if (carried.ContainsValue(gift.Carry) || !carried.TryAdd(gift.Gear, gift.Carry)) return false;
                    break;
                case MountEntry mount:
                    riding = mount.Arm;
                    break;
                case DismountEntry:
                    riding = null;
                    break;
                case LegEntry entry:
                    Leg leg = LegOf(entry);
                    if (leg.With.Any(gear => !carried.ContainsKey(gear))) return false;
                    if (leg.Restraint is { } restraint && (!plugged.TryGetValue(restraint, out (SocketId, string) how) || how != (leg.Socket!.Value, leg.Setting ?? ""))) return false;
                    if ((leg.Footing == Footing.Arm) != riding.HasValue) return false;
                    foreach (GearId gear in leg.PicksUp) carried.TryAdd(gear, null);
                    foreach (GearId gear in leg.LeavesBehind) carried.Remove(gear);
                    break;
            }
            if (list[i] is not LegEntry && list[i].For is { } serves && !list.Skip(i).OfType<LegEntry>().Any(later => later.Leg == serves)
                && list[i] is TakeEntry or PlugEntry or MountEntry) return false;
        }
        return true;
    }

    private Leg LegOf(LegEntry entry) => scenario.Legs.First(leg => leg.Id == entry.Leg);

    /// <summary>Puts the entries that a person wrote back in place of what was derived for the same thing and leg, or before the leg they stood before.</summary>
    private static ImmutableArray<Entry> KeepByHand(ImmutableArray<Entry> derived, ImmutableArray<Entry> told)
    {
        List<Entry> kept = [.. derived];
        for (int i = 0; i < told.Length; i++)
        {
            Entry entry = told[i];
            // Nothing asks for a wait but the person who wrote it; checks and rests stay after what they stood after.
            bool pause = entry is WaitEntry or CheckEntry or RestEntry;
            if (!entry.ByHand && !pause) continue;
            int before = pause && entry is not WaitEntry && i > 0 ? kept.FindLastIndex(candidate => Branches.SameDeed(candidate, told[i - 1])) : -1;
            if (before >= 0)
            {
                kept.Insert(before + 1, entry);
                continue;
            }
            int twin = pause ? -1 : kept.FindIndex(candidate => candidate.GetType() == entry.GetType() && candidate.For == entry.For && GearIn(candidate) == GearIn(entry));
            if (twin >= 0)
            {
                kept[twin] = entry;
                continue;
            }
            LegId? next = told.Skip(i).OfType<LegEntry>().FirstOrDefault()?.Leg;
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
}
