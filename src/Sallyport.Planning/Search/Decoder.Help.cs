using System.Runtime.InteropServices;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>How long it takes to bring in somebody who cannot come in alone, read off a decoded plan.</summary>
/// <remarks>Near the proof's own figure, and seldom below it: a walk counts as if one stood at the worse of its ends, a leg as if its longest break-off
/// were always due. What is closed on the way, and the span under way, are left to the proof.</remarks>
internal sealed partial class Decoder
{
    /// <summary>What is done in the decode under way, where nobody asked for it and it is needed here.</summary>
    private readonly List<Deed> ownJournal = [];

    // One person: where that person is in turn. Empty where help is not reckoned.
    private readonly List<HelpStand>[] helpStands;

    // One person who may help: the stand under way.
    private readonly int[] helperAt;

    /// <summary>A person somewhere for a while: with two moorings on the way from one to the other; until clear of what goes on it takes so many seconds.</summary>
    private readonly record struct HelpStand(int From, int To, int A, int B, int Load, int Clear, bool Waits);

    /// <summary>Seconds by which the limit is exceeded at most, of each person.</summary>
    private long BeyondHelp()
    {
        HelpCase help = all.Help!;
        long beyond = 0;
        for (int p = 0; p < people; p++)
        {
            int worst = 0;
            Array.Clear(helperAt);
            foreach (ref readonly HelpStand own in CollectionsMarshal.AsSpan(helpStands[p]))
                for (int now = own.From, next; now < own.To; now = next)
                {
                    next = own.To;
                    int quickest = int.MaxValue;
                    for (int q = 0; q < people; q++)
                    {
                        if (q == p) continue;
                        ReadOnlySpan<HelpStand> others = CollectionsMarshal.AsSpan(helpStands[q]);
                        ref int at = ref helperAt[q];
                        while (at < others.Length && others[at].To <= now) at++;
                        if (at == others.Length || others[at].From > now) continue;
                        ref readonly HelpStand other = ref others[at];
                        next = Math.Min(next, other.To);
                        HelpCase.Ways ways = help.Between(q, other.Load, p, own.Load);
                        int seconds = ways.Seconds(other.A, own.A);
                        if (own.A != own.B || other.A != other.B) seconds = Math.Max(seconds, ways.Seconds(other.B, own.B));
                        if (own.A != own.B && other.A != other.B) seconds = Math.Max(seconds, Math.Max(ways.Seconds(other.A, own.B), ways.Seconds(other.B, own.A)));
                        quickest = Math.Min(quickest, own.Clear + other.Clear + seconds);
                    }
                    if (quickest < int.MaxValue) worst = Math.Max(worst, quickest);
                }
            if (worst > help.Limit) beyond += worst >= SearchCase.Never ? Impossible : worst - help.Limit;
        }
        return beyond;
    }

    /// <summary>The stand that goes on at a moment; -1 for none.</summary>
    private static int StandAt(List<HelpStand> stands, int now)
    {
        int low = 0, high = stands.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (stands[middle].To <= now) low = middle + 1;
            else high = middle;
        }
        return low < stands.Count && stands[low].From <= now ? low : -1;
    }

    private void StandsOf(int p, List<Deed> deeds, int end)
    {
        List<HelpStand> stands = helpStands[p];
        stands.Clear();
        Handling handling = all.Scenario.Handling;
        int now = outEnd[p], here = all.Root[p], loaded = 0, arm = -1, pose = -1, mount = -1;
        bool held = false;
        ulong carried = 0;
        foreach (Deed deed in deeds)
        {
            if (deed.Person != p) continue;
            if (deed.Mooring >= 0 && deed.Mooring != here) Walk(deed.Mooring, deed.Start);
            else Stay(deed.Start, arm >= 0 ? Off() : held ? handling.Leave.Time.Seconds : 0, waits: true);
            switch (deed.What)
            {
                case Did.Leg:
                    LegData leg = all.Data[deed.For];
                    held = leg.Socket >= 0;
                    Stay(legEnd[deed.For], leg.Abort + (arm >= 0 ? Off() : held ? handling.Leave.Time.Seconds : 0));
                    Carry((carried | leg.PicksUp) & ~leg.LeavesBehind);
                    break;
                case Did.Mount:
                    Stay(now + all.ArmData[deed.Parcel].Arm.Mount.Time.Seconds, all.ArmData[deed.Parcel].Arm.Mount.BreakOff.Seconds);
                    (arm, mount) = (deed.Parcel, deed.Other);
                    pose = all.ArmData[arm].MountPoses[mount];
                    break;
                case Did.Ride:
                    int rides = all.ArmData[arm].Rides[pose][deed.Other];
                    pose = deed.Other;
                    Stay(now + rides, rides + Off());
                    break;
                case Did.Dismount:
                    int takes = all.ArmData[deed.Parcel].Arm.Dismount.Time.Seconds;
                    Stay(now + takes, takes);
                    arm = -1;
                    break;
                case Did.Check:
                    Stay(now + (all.Pauses?.CheckTakes ?? 0), all.Scenario.Checks?.Gloves?.Time.BreakOff.Seconds ?? 0);
                    break;
                case Did.Rest:
                    Stay(now + (all.Pauses?.RestTakes ?? 0), 0);
                    break;
                case Did.Give:
                    Stay(now + handling.Give.Time.Seconds, handling.Give.BreakOff.Seconds);
                    // The one who receives is told of with nobody to give it to.
                    Carry(deed.Other >= 0 ? carried & ~(1UL << deed.Parcel) : carried | 1UL << deed.Parcel);
                    break;
                default:
                    HandlingTime time = deed.What switch { Did.Take => handling.Take, Did.Put => handling.Put, Did.Plug => handling.Plug, _ => handling.Unplug };
                    Stay(now + time.Time.Seconds, time.BreakOff.Seconds);
                    Carry(deed.What is Did.Take or Did.Unplug ? carried | 1UL << deed.Parcel : carried & ~(1UL << deed.Parcel));
                    break;
            }
        }
        Walk(all.Root[p], end);
        Stay(end, 0);

        int Off() => all.ArmData[arm].Rides[pose][all.ArmData[arm].MountPoses[mount]] + all.ArmData[arm].Arm.Dismount.Time.Seconds;

        void Stay(int until, int clear, bool waits = false)
        {
            if (until <= now) return;
            stands.Add(new(now, until, here, here, loaded, clear, waits));
            now = until;
        }

        void Walk(int to, int until)
        {
            if (to == here) return;
            int leaving = held ? handling.Leave.Time.Seconds : 0, takes = leaving + all.Seconds[p][loaded][here * all.Width[p] + to];
            int there = all.HasTimedZones && all.Tables[p].CrossesTimed(here, to) ? until : Math.Min(until, now + takes);
            if (there > now) stands.Add(new(now, there, here, to, loaded, leaving, false));
            (now, here, held) = (Math.Max(now, there), to, false);
            Stay(until, 0, waits: true);
        }

        void Carry(ulong things)
        {
            carried = things;
            loaded = 0;
            for (int c = loadMask.Length - 1; c > 0; c--)
                if ((carried & loadMask[c]) != 0)
                {
                    loaded = c;
                    break;
                }
        }
    }
}
