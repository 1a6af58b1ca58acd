using System.Numerics;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Doing units: bring what is needed, go there, wait for what must be, and do it.</summary>
internal sealed partial class Decoder
{
    private void DoUnit(SearchCase.Unit unit, int[] who, UnitPins pins)
    {
        int start = pins.NotBefore;
        for (int r = 0; r < unit.Legs.Length; r++)
        {
            Bring(who[r], unit.Legs[r], who.AsSpan(0, r));
            foreach ((int earlier, int least, _) in all.Data[unit.Legs[r]].After)
            {
                if (!legIn[earlier]) broken += Impossible;
                else start = Math.Max(start, legEnd[earlier] + least);
            }
        }
        // Only now: a hand-over to the last of them may have kept the first one.
        foreach (int p in who) start = Math.Max(start, time[p]);
        start = PauseBefore(unit, who, Settle(unit, who, start));
        Lead(unit, start);
        if (start > pins.NotAfter) broken += start - pins.NotAfter;
        if (start > unit.Latest) broken += start - unit.Latest;
        for (int r = 0; r < unit.Legs.Length; r++) DoLeg(who[r], unit.Legs[r], start);
    }

    /// <summary>The first moment, not before one, at which GOs, light, link, zones and whoever leads from inside let a unit begin.</summary>
    private int Settle(SearchCase.Unit unit, int[] who, int start)
    {
        start = Math.Max(start, ReadGos(unit, who));
        foreach (int l in unit.Legs) ledFrom[l] = 0;
        for (bool moved = true; moved;)
        {
            moved = false;
            foreach (int l in unit.Legs)
            {
                LegData leg = all.Data[l];
                if (!leg.Closed.Any) continue;
                if (leg.Closed.Next(start, leg.Pieces[0]) is not { } next)
                {
                    broken += Impossible;
                    continue;
                }
                moved |= next != start;
                start = next;
            }
            moved |= WaitForVoice(unit, ref start);
        }
        return start;
    }

    private void DoLeg(int p, int l, int start)
    {
        LegData leg = all.Data[l];
        foreach ((int earlier, _, int most) in leg.After)
            if (legIn[earlier] && start - legEnd[earlier] > most) broken += start - legEnd[earlier] - most;
        int end = start;
        for (int i = 0; i < leg.Pieces.Length; i++)
        {
            int? begins = Begins(l, i, end);
            if (begins is null) broken += Impossible;
            end = (begins ?? end) + leg.Pieces[i];
        }
        (legStart[l], legEnd[l], legIn[l], time[p]) = (start, end, true, end);
        (legDoer[l], legBefore[l], lastLeg[p]) = (p, lastLeg[p], l);
        burnt[p] += leg.Joules;
        // A leg on an arm lasts until it is ridden away from, and begins with the ride there; told when that is known.
        if (leg.Arm < 0) (rideStart[l], rideEnd[l]) = (start, end);
        else rideEnd[l] = int.MaxValue;
        Handled(p, leg, end);
        journal?.Add(new(Did.Leg, p, -1, armOn[p] < 0 ? mooring[p] : -1, -1, -1, l, start));
        CheckReturn(p, leg, start, end);
        if (!bags.Do(l)) broken += Impossible;
        DoFluid(p, l, start, end);
        if ((leg.PicksUp | leg.LeavesBehind) == 0) return;
        for (ulong rest = leg.PicksUp; rest != 0; rest &= rest - 1)
        {
            int k = BitOperations.TrailingZeroCount(rest);
            (place[k], holder[k]) = (-1, p);
            held[p] |= 1UL << k;
        }
        foreach ((int k, int leftAt) in leg.LeavesAt)
        {
            Release(p, k);
            (place[k], readyAt[k]) = (leftAt < 0 ? Nowhere : leftAt, end);
        }
        SetLoad(p);
        Touch(p);
        CheckReturn(p, leg, end, end);
    }

    /// <summary>The return rule at one person's leg, which is where return times are greatest: exact, but for zones closed at times, which are waited for
    /// where the way begins.</summary>
    private void CheckReturn(int p, LegData leg, int start, int end)
    {
        int home = leg.Abort + (leg.Socket >= 0 ? all.Scenario.Handling.Leave.Time.Seconds : 0);
        if (leg.Arm >= 0)
        {
            ArmCase arm = all.ArmData[leg.Arm];
            int ride = arm.Rides[leg.Pose][arm.MountPoses[armMount[leg.Arm]]];
            int armless = home + arm.ClimbHome[p][leg.Pose][load[p]] + inEach[p];
            if (armless > all.ReturnArmless) broken += armless - all.ReturnArmless;
            home += ride + arm.Arm.Dismount.Time.Seconds;
        }
        if (all.HasTimedZones) home += all.Tables[p].WaitHome(mooring[p], load[p], start + home, end + home);
        home += all.Seconds[p][load[p]][mooring[p] * all.Width[p] + all.Root[p]];
        int one = home + inEach[p], ceiling = Math.Min(all.ReturnOne, all.CutOff[p] - end);
        leastMargin = Math.Min(leastMargin, ceiling - one);
        if (one > ceiling) broken += one - ceiling;
        // Everybody else stands within the limit for one; at worst all who share the hatch arrive there together with this one, and the
        // slowest hatch is closed when everybody is in.
        int both = home + inEach[p] * sharing[p] + closeMost;
        leastMargin = Math.Min(leastMargin, all.ReturnBoth - both);
        if (both > all.ReturnBoth) broken += both - all.ReturnBoth;
    }

    /// <summary>How far the return rule is missed at one person's leg at the least, s: as above, with what the leg needs on the suit and nothing else, by the best mooring and the best
    /// mount, and without a wait.</summary>
    public int BeyondReturn(int p, int l)
    {
        LegData leg = all.Data[l];
        int with = LoadOf(leg.With), left = leg.Abort + (leg.Socket >= 0 ? all.Scenario.Handling.Leave.Time.Seconds : 0), least = int.MaxValue;
        int armless = leg.Arm >= 0 ? left + all.ArmData[leg.Arm].ClimbHome[p][leg.Pose][with] + inEach[p] - all.ReturnArmless : 0;
        if (leg.Arm < 0) From(leg.Place, left);
        else
            for (int mount = 0; mount < all.ArmData[leg.Arm].MountPlaces.Length; mount++)
                From(all.ArmData[leg.Arm].MountPlaces[mount], left + all.ArmData[leg.Arm].Rides[leg.Pose][all.ArmData[leg.Arm].MountPoses[mount]] + all.ArmData[leg.Arm].Arm.Dismount.Time.Seconds);
        return Math.Max(0, Math.Max(armless, least));

        void From(int at, int until)
        {
            foreach (int one in all.At[p][at])
            {
                int home = until + all.Seconds[p][with][one * all.Width[p] + all.Root[p]];
                least = Math.Min(least, Math.Max(home + inEach[p] - Math.Min(all.ReturnOne, all.CutOff[p]), home + inEach[p] * sharing[p] + closeMost - all.ReturnBoth));
            }
        }
    }

    /// <summary>Gets a person to the place of a leg, with everything that it needs on the suit or in its socket.</summary>
    private void Bring(int p, int l, ReadOnlySpan<int> ready)
    {
        LegData leg = all.Data[l];
        bool stays = leg.Arm >= 0 && armOn[p] == leg.Arm;
        if (armOn[p] >= 0 && !(stays && (leg.With & ~held[p]) == 0 && (leg.PicksUp == 0 || RoomFor(p, leg.PicksUp)))) Dismount(p);

        int k = leg.Restraint;
        bool plug = k >= 0 && !(pluggedIn[k] == leg.Socket && pluggedBy[k] == p && setting[k] == leg.Leg.Setting);
        ulong keep = leg.With | leg.PicksUp, ahead = anyAhead && armOn[p] < 0 ? Ahead(p, plug ? keep | 1UL << k : keep) : 0;
        keep |= ahead;
        if (plug)
        {
            ulong carry = keep | 1UL << k;
            bool together = BitOperations.PopCount(carry) <= all.People[p].CarryPoints.Length;
            if (together) Gather(p, l, leg.With, ahead, carry, ready);
            if ((held[p] >> k & 1) == 0) Get(p, k, l, together ? carry : 1UL << k, ready);
            for (int other = 0; other < parcels; other++)
                if (other != k && pluggedIn[other] == leg.Socket) broken += Impossible;
            // Nothing in an outline says that a restraint waits for another one to be taken out by somebody else.
            if (clearedBy[leg.Socket] >= 0 && clearedBy[leg.Socket] != p && clearedOf[leg.Socket] != k) broken += Impossible;
            Mind(p, Leaving(p) + Distance(p, leg.Place) + all.Scenario.Handling.Plug.Time.Seconds, l);
            MoveTo(p, leg.Place);
            Work(p, Did.Plug, k, all.Scenario.Handling.Plug.Time.Seconds, -1, l);
            Release(p, k);
            (pluggedIn[k], pluggedBy[k], setting[k], place[k], readyAt[k]) = (leg.Socket, p, leg.Leg.Setting, leg.Place, time[p]);
        }
        Gather(p, l, leg.With, ahead, keep, ready);
        for (ulong rest = leg.PicksUp; rest != 0; rest &= rest - 1) Reserve(p, BitOperations.TrailingZeroCount(rest), l, keep);

        if (leg.Arm >= 0) Ride(p, leg, l);
        else MoveTo(p, leg.Place, leg.Socket);
        if (leg.Socket >= 0 && socketIn[p] != leg.Socket)
        {
            time[p] += all.Scenario.Handling.Enter.Time.Seconds;
            Burn(p, Exertion.Moderate, all.Scenario.Handling.Enter.Time.Seconds);
            socketIn[p] = leg.Socket;
        }
    }

    /// <summary>What of the gear of a person's next units is taken along already: what hangs ready and finds a free carry point.</summary>
    private ulong Ahead(int p, ulong keep)
    {
        ulong ahead = 0;
        int i = at + 1;
        for (int own = 0; i < count && own < Bringing.MostAhead; i++)
        {
            SearchCase.Unit unit = all.Units[order[i].Unit];
            if (unit.Options.Length == 0 || legIn[unit.Legs[0]]) continue;
            int r = unit.Options[order[i].Option].AsSpan().IndexOf(p);
            if (r < 0) continue;
            if (order[i].Bringing.Ahead < ++own && Asked is null) continue;
            for (ulong rest = all.Data[unit.Legs[r]].With & ~held[p] & ~ahead; rest != 0; rest &= rest - 1)
            {
                int k = BitOperations.TrailingZeroCount(rest);
                if (holder[k] >= 0 || pluggedIn[k] >= 0 || PlaceOf(p, k) is not (>= 0 and var from)) continue;
                if (readyAt[k] > time[p] + Distance(p, from) || !RoomFor(p, keep | ahead | 1UL << k)) continue;
                if (Asked is { } asked) asked[order[i].Unit] |= 1;
                if (order[i].Bringing.Ahead < own) break;
                ahead |= 1UL << k;
                aheadFor[k] = unit.Legs[r];
            }
        }
        // At the end of the order, that nothing comes after it.
        looked = Math.Max(looked, i < count ? i - 1 : count);
        return ahead;
    }

    /// <summary>Gets all of some parcels, for a leg and for later ones, the nearest first.</summary>
    private void Gather(int p, int l, ulong wanted, ulong ahead, ulong keep, ReadOnlySpan<int> ready)
    {
        for (ulong missing = (wanted | ahead) & ~held[p]; missing != 0; missing = (wanted | ahead) & ~held[p])
        {
            int nearest = -1, least = int.MaxValue;
            for (ulong rest = missing; rest != 0; rest &= rest - 1)
            {
                int k = BitOperations.TrailingZeroCount(rest);
                int far = Distance(p, PlaceOf(p, k));
                if (far < least) (nearest, least) = (k, far);
            }
            if (nearest < 0 || !Get(p, nearest, (ahead >> nearest & 1) != 0 ? aheadFor[nearest] : l, keep, ready))
            {
                broken += Impossible;
                return;
            }
        }
    }

    private int PlaceOf(int p, int k)
    {
        // Who rides an arm comes back to where the reel waits.
        if (holder[k] is >= 0 and var q) return all.PlaceOfMooring[q][mooring[q]];
        return place[k] == Anywhere ? rootPlace[p] : place[k];
    }

    /// <summary>Gets one parcel onto a person: from where it hangs, out of its socket, or from whoever carries it.</summary>
    private bool Get(int p, int k, int l, ulong keep, ReadOnlySpan<int> ready)
    {
        int from = PlaceOf(p, k);
        if (from < 0) return false;
        int q = holder[k];
        if (pluggedIn[k] >= 0)
            for (int user = 0; user < people; user++)
            {
                // Who has just left it did so for a later entry, but a pause before that is done in it all the same.
                if (leaves[user] == k && user != p) calledOut[user] = true;
                if (socketIn[user] != pluggedIn[k]) continue;
                if (user != p && ready.Contains(user)) return false;
                LeaveSocket(user);
                calledOut[user] = user != p;
            }
        if (q >= 0)
        {
            // Who stands ready for a leg of this very moment is not called away from it.
            if (ready.Contains(q) && (armOn[q] >= 0 || socketIn[q] >= 0)) return false;
            if (armOn[q] >= 0) Dismount(q);
        }
        if (q >= 0 && l >= 0 && Chosen(1).HandOver > 0 && MeetingPlace(p, q, l) is >= 0 and var meeting)
        {
            from = meeting;
            if (chosen.HandOver == Bringing.PutDown && !ready.Contains(q))
            {
                PutDown(q, k, from, l);
                q = -1;
            }
        }
        int point = MakeRoom(p, k, l, keep, from);
        if (point < 0) return false;
        Handling handling = all.Scenario.Handling;
        int arrives = time[p] + Leaving(p) + Distance(p, from);
        if (q >= 0)
        {
            int comes = Leaving(q) + Distance(q, from);
            Mind(q, Math.Max(comes, arrives - time[q]) + handling.Give.Time.Seconds, l);
            Mind(p, Math.Max(arrives, time[q] + comes) - time[p] + handling.Give.Time.Seconds, l);
        }
        else Mind(p, Math.Max(arrives, readyAt[k]) - time[p] + (pluggedIn[k] >= 0 ? handling.Unplug : handling.Take).Time.Seconds, l);
        MoveTo(p, from);
        if (q >= 0)
        {
            LeaveSocket(q);
            MoveTo(q, from);
            int meet = Math.Max(time[p], time[q]);
            (time[p], time[q]) = (meet, meet);
            journal?.Add(new(Did.Give, q, k, mooring[q], point, p, l, meet));
            journal?.Add(new(Did.Give, p, k, mooring[p], point, -1, l, meet));
            time[p] = time[q] = meet + handling.Give.Time.Seconds;
            Burn(p, Exertion.Light, handling.Give.Time.Seconds);
            Burn(q, Exertion.Light, handling.Give.Time.Seconds);
            Entered(p);
            Entered(q);
            Release(q, k);
            SetLoad(q);
        }
        else
        {
            time[p] = Math.Max(time[p], readyAt[k]);
            if (pluggedIn[k] is >= 0 and var socket)
            {
                Work(p, Did.Unplug, k, handling.Unplug.Time.Seconds, point, l, socket);
                (clearedBy[socket], clearedOf[socket]) = (p, k);
            }
            else
            {
                TakenFrom(k, from, time[p]);
                Work(p, Did.Take, k, handling.Take.Time.Seconds, point, l);
            }
        }
        Hang(p, k, point);
        if (q >= 0) Touch(q, 1UL << k);
        return true;
    }

    private void Work(int p, Did what, int k, int seconds, int point, int l, int other = -1)
    {
        journal?.Add(new(what, p, k, mooring[p], point, other, l, time[p]));
        time[p] += seconds;
        Burn(p, what is Did.Plug or Did.Unplug ? Exertion.Moderate : Exertion.Light, seconds);
        Entered(p);
    }

    private void Release(int p, int k)
    {
        held[p] &= ~(1UL << k);
        if (pointOf[k] >= 0) pointsUsed[p] &= ~(1 << pointOf[k]);
        (holder[k], pointOf[k]) = (-1, -1);
        SetLoad(p);
    }

    private void SetLoad(int p) => load[p] = LoadOf(held[p]);

    /// <summary>The load class of whoever carries some parcels.</summary>
    private int LoadOf(ulong carried)
    {
        for (int c = loadMask.Length - 1; c > 0; c--)
            if ((carried & loadMask[c]) != 0) return c;
        return 0;
    }

    private int FreePoint(int p, int k)
    {
        foreach (int point in pointOrder[p])
            if ((pointMask[p][k] >> point & 1) != 0 && (pointsUsed[p] >> point & 1) == 0) return point;
        return -1;
    }

    private bool RoomFor(int p, ulong wanted)
    {
        int used = pointsUsed[p];
        bool fits = true;
        for (ulong rest = wanted & ~held[p]; rest != 0 && fits; rest &= rest - 1)
        {
            int point = FreePoint(p, BitOperations.TrailingZeroCount(rest));
            if (point < 0) fits = false;
            else pointsUsed[p] |= 1 << point;
        }
        pointsUsed[p] = used;
        return fits;
    }

    private void Reserve(int p, int k, int l, ulong keep)
    {
        if (pointOf[k] >= 0) return;
        int point = MakeRoom(p, k, l, keep, -1);
        if (point < 0)
        {
            broken += Impossible;
            return;
        }
        pointOf[k] = point;
        pointsUsed[p] |= 1 << point;
    }

    /// <summary>How the gear of the unit under way is brought, of which one field is looked at.</summary>
    private Bringing Chosen(int field)
    {
        if (Asked is { } asked && at < count) asked[order[at].Unit] |= (byte)(1 << field);
        return chosen;
    }

    /// <summary>Where a parcel for a leg comes from one person to another, as chosen; -1 where there is no such place.</summary>
    private int MeetingPlace(int p, int q, int l)
    {
        int target = PlaceOf(l);
        if (chosen.HandOver == Bringing.AtLeg) return target;
        int stow = -1, least = int.MaxValue;
        foreach (int candidate in all.Stows)
        {
            int far = Distance(q, candidate) + Distance(p, candidate) + Between(p, candidate, target);
            if (far < least) (stow, least) = (candidate, far);
        }
        return stow;
    }

    /// <summary>A free carry point for a parcel; puts something down where there is none, which and where as chosen.</summary>
    private int MakeRoom(int p, int k, int l, ulong keep, int on)
    {
        int point = FreePoint(p, k);
        if (point >= 0) return point;
        int victim = -1, latest = -1;
        for (ulong rest = held[p] & ~keep; rest != 0; rest &= rest - 1)
        {
            int other = BitOperations.TrailingZeroCount(rest);
            if ((pointMask[p][k] >> pointOf[other] & 1) == 0) continue;
            if (victim < 0)
            {
                victim = other;
                continue;
            }
            if (latest < 0) latest = NextUse(victim);
            int next = NextUse(other);
            if (Chosen(2).Down == 0 ? next > latest : next < latest) (victim, latest) = (other, next);
        }
        if (victim < 0) return -1;
        int stow = -1, least = int.MaxValue;
        foreach (int candidate in all.Stows)
        {
            int far = Distance(p, candidate) + (on >= 0 && on != candidate ? Between(p, candidate, on) : 0);
            if (all.Stows.Length > 1 && Chosen(3).Stow == 1 && NextPlace(victim) is >= 0 and var user) far += Between(p, candidate, user);
            if (far < least) (stow, least) = (candidate, far);
        }
        if (stow < 0) return -1;
        point = pointOf[victim];
        PutDown(p, victim, stow, l);
        return point;
    }

    private void PutDown(int p, int k, int stow, int l)
    {
        Mind(p, Leaving(p) + Distance(p, stow) + all.Scenario.Handling.Put.Time.Seconds, l);
        MoveTo(p, stow);
        Work(p, Did.Put, k, all.Scenario.Handling.Put.Time.Seconds, -1, l);
        Release(p, k);
        (place[k], readyAt[k]) = (stow, time[p]);
        HungInSpill(k, stow, time[p]);
    }

    /// <summary>The place of the leg that needs a parcel next; -1 for none.</summary>
    private int NextPlace(int k)
    {
        int i = NextUse(k);
        if (i >= count) return -1;
        foreach (int l in all.Units[order[i].Unit].Legs)
            if ((parcelLegs[l] >> k & 1) != 0) return PlaceOf(l);
        return -1;
    }

    /// <summary>Where a leg is done, or one gets onto the arm for it.</summary>
    private int PlaceOf(int l) => all.Data[l].Arm >= 0 ? all.ArmData[all.Data[l].Arm].MountPlaces[0] : all.Data[l].Place;

    private int NextUse(int k)
    {
        for (int i = at + 1; i < count; i++)
            foreach (int l in all.Units[order[i].Unit].Legs)
                if (!legIn[l] && (parcelLegs[l] >> k & 1) != 0)
                {
                    looked = Math.Max(looked, i);
                    return i;
                }
        looked = Math.Max(looked, count);
        return (homeMask >> k & 1) != 0 ? count : count + 1;
    }
}
