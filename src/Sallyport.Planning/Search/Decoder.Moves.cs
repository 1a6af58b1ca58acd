using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Moving, riding, coming home, and what is shut down meanwhile.</summary>
internal sealed partial class Decoder
{
    private int Distance(int p, int target) => target < 0 ? PlaceWays.Unreached : ways[p].Seconds(load[p], mooring[p], target);

    private int Between(int p, int from, int to) => ways[p].Between(load[p], from, to);

    /// <summary>Goes to a place by the mooring that is reached first; of equal ones, by that with the shorter way home.</summary>
    /// <remarks>The restraint in <paramref name="keepSocket"/> is not left, since the next leg is done in it; -1 for none.</remarks>
    private void MoveTo(int p, int target, int keepSocket = -1)
    {
        if (armOn[p] >= 0) Dismount(p);
        if (socketIn[p] != keepSocket) LeaveSocket(p);
        int here = mooring[p], width = all.Width[p], root = all.Root[p];
        if (all.PlaceOfMooring[p][here] == target) return;
        int[] seconds = all.Seconds[p][load[p]];
        int best = -1, bestArrival = int.MaxValue, bestHome = int.MaxValue;
        if (!all.HasTimedZones || !ways[p].IsTimed(here, target))
        {
            best = ways[p].First(load[p], here, target);
            if (best >= 0) bestArrival = time[p] + seconds[here * width + best];
        }
        else
            foreach (int m in all.At[p][target])
            {
                int departure = time[p];
                if (all.Tables[p].CrossesTimed(here, m)) departure = all.Tables[p].EarliestDeparture(here, m, load[p], departure) ?? SearchCase.Never;
                int arrival = departure + seconds[here * width + m], home = seconds[m * width + root];
                if (arrival < bestArrival || (arrival == bestArrival && home < bestHome)) (best, bestArrival, bestHome) = (m, arrival, home);
            }
        if (best < 0 || bestArrival >= SearchCase.Never)
        {
            broken += Impossible;
            return;
        }
        Walked(p, here, best, bestArrival - seconds[here * width + best], bestArrival);
        Burn(p, Exertion.Translate, seconds[here * width + best]);
        walked += seconds[here * width + best];
        (mooring[p], time[p]) = (best, bestArrival);
        walkEnded[p] = arrived[p] = bestArrival;
    }

    private void Burn(int p, Exertion exertion, int seconds)
    {
        if (all.Suits is { } suits) burnt[p] += suits.Joules(exertion, seconds);
    }

    private void LeaveSocket(int p)
    {
        if (socketIn[p] < 0) return;
        time[p] += all.Scenario.Handling.Leave.Time.Seconds;
        Burn(p, Exertion.Moderate, all.Scenario.Handling.Leave.Time.Seconds);
        for (int k = 0; k < parcels; k++)
            if (pluggedIn[k] == socketIn[p]) (readyAt[k], leaves[p]) = (time[p], k);
        socketIn[p] = -1;
    }

    private void Ride(int p, LegData leg, int l)
    {
        ArmCase arm = all.ArmData[leg.Arm];
        if (armOn[p] != leg.Arm)
        {
            if (armRider[leg.Arm] is >= 0 and var other) Dismount(other);
            int mount = 0, least = int.MaxValue;
            for (int i = 0; i < arm.MountPlaces.Length; i++)
            {
                int far = Distance(p, arm.MountPlaces[i]);
                if (far < least) (mount, least) = (i, far);
            }
            int empty = RideSeconds(arm, armPose[leg.Arm], arm.MountPoses[mount]), ready = armFree[leg.Arm] + empty;
            Mind(p, Math.Max(Leaving(p) + least, ready - time[p]) + arm.Arm.Mount.Time.Seconds, l);
            MoveTo(p, arm.MountPlaces[mount]);
            if (empty > 0) Moved(leg.Arm, armPose[leg.Arm], arm.MountPoses[mount], -1, armFree[leg.Arm], empty);
            time[p] = Math.Max(time[p], ready);
            journal?.Add(new(Did.Mount, p, leg.Arm, mooring[p], -1, mount, l, time[p]));
            arrived[p] = time[p] += arm.Arm.Mount.Time.Seconds;
            Burn(p, Exertion.Moderate, arm.Arm.Mount.Time.Seconds);
            Stayed(p, time[p]);
            (armRider[leg.Arm], armMount[leg.Arm], armPose[leg.Arm], armOn[p]) = (p, mount, arm.MountPoses[mount], leg.Arm);
            Entered(p);
        }
        rideStart[l] = int.MaxValue;
        if (armPose[leg.Arm] != leg.Pose) RideTo(p, leg.Arm, leg.Pose, l);
    }

    private void RideTo(int p, int a, int pose, int l)
    {
        ArmCase arm = all.ArmData[a];
        int seconds = RideSeconds(arm, armPose[a], pose);
        CheckRide(p, arm, armPose[a], pose, seconds);
        BeginRide(p, a, armPose[a], pose, seconds);
        rideStart[l] = time[p];
        journal?.Add(new(Did.Ride, p, a, -1, -1, pose, l, time[p]));
        arrived[p] = time[p] += seconds;
        armPose[a] = pose;
    }

    /// <summary>The return rule while an arm moves: the ride is finished, then ridden back, or climbed down where it stops.</summary>
    private void CheckRide(int p, ArmCase arm, int from, int to, int seconds)
    {
        int[][] climb = arm.ClimbHome[p];
        int armless = Math.Max(climb[from][load[p]], climb[to][load[p]]) + inEach[p];
        if (armless > all.ReturnArmless) broken += armless - all.ReturnArmless;
        int mount = armMount[arm.Index], one = seconds + arm.Rides[to][arm.MountPoses[mount]] + arm.Arm.Dismount.Time.Seconds
            + all.Seconds[p][load[p]][mooring[p] * all.Width[p] + all.Root[p]] + inEach[p];
        if (one > all.ReturnOne) broken += one - all.ReturnOne;
    }

    private int RideSeconds(ArmCase arm, int from, int to)
    {
        int seconds = arm.Rides[from][to];
        if (seconds < SearchCase.Never) return seconds;
        broken += Impossible;
        return 0;
    }

    /// <summary>Waits until a ride may begin, and ends the stay at the pose before it.</summary>
    private void BeginRide(int p, int a, int from, int to, int seconds)
    {
        int ready = time[p];
        if (all.ArmData[a].Starts[from][to] is { } starts)
        {
            if (starts.Next(time[p]) is { } start) time[p] = start;
            else broken += Impossible;
        }
        rides[p] = new(a, from, to, ready, time[p]);
        Moved(a, from, to, p, time[p], seconds);
        for (int l = lastLeg[p]; l >= 0 && all.Data[l].Arm == a && all.Data[l].Pose == from && rideEnd[l] == int.MaxValue; l = legBefore[l]) rideEnd[l] = time[p] + seconds;
    }

    /// <summary>A ride since the last entry begins later after time was put in before it, when all that it passes is open again.</summary>
    private void RideAgain(int p, int ended, int seconds)
    {
        (int a, int from, int to, int ready, int start) = rides[p];
        if (a < 0 || armOn[p] != a || start < ended) return;
        int again = ready + seconds;
        if (all.ArmData[a].Starts[from][to] is { } starts)
        {
            if (starts.Next(again) is { } next) again = next;
            else broken += Impossible;
        }
        time[p] += again - start - seconds;
        rides[p] = new(a, from, to, ready + seconds, again);
        int ends = start + all.ArmData[a].Rides[from][to];
        for (int l = 0; l < rideStart.Length; l++)
        {
            if (all.Data[l].Arm != a) continue;
            if (rideStart[l] == start) rideStart[l] = again;
            if (legIn[l] && rideEnd[l] == ends) rideEnd[l] = ends + again - start;
        }
    }

    private void Dismount(int p)
    {
        int a = armOn[p];
        ArmCase arm = all.ArmData[a];
        int pose = arm.MountPoses[armMount[a]];
        int ride = armPose[a] == pose ? 0 : RideSeconds(arm, armPose[a], pose);
        Mind(p, ride + arm.Arm.Dismount.Time.Seconds, -1);
        if (armPose[a] != pose)
        {
            BeginRide(p, a, armPose[a], pose, ride);
            time[p] += ride;
            armPose[a] = pose;
        }
        GetOff(p, a);
    }

    private void GetOff(int p, int a)
    {
        ArmCase arm = all.ArmData[a];
        journal?.Add(new(Did.Dismount, p, a, mooring[p], -1, armMount[a], -1, time[p]));
        arrived[p] = time[p] += arm.Arm.Dismount.Time.Seconds;
        Burn(p, Exertion.Moderate, arm.Arm.Dismount.Time.Seconds);
        Stayed(p, time[p]);
        (armFree[a], armRider[a], armOn[p]) = (time[p], -1, -1);
        Entered(p);
    }

    /// <summary>Brings home what must come home, and everybody in.</summary>
    private int Finish(out int unbalance)
    {
        for (int p = 0; p < people; p++)
            if (armOn[p] >= 0) Dismount(p);
        LeaveSoiledOutside();
        while (NextHomeward() is ( >= 0 and var who, var parcel))
        {
            int target = Target(parcel, who);
            if (holder[parcel] != who)
            {
                if (FreePoint(who, parcel) < 0) UnloadFor(who, parcel);
                if (!Get(who, parcel, -1, 0, []))
                {
                    broken += Impossible;
                    place[parcel] = Nowhere;
                }
            }
            else PutDown(who, parcel, target, -1);
        }
        CheckSoiled();
        PauseBeforeHome();
        int last = 0, everybodyIn = 0;
        unbalance = 0;
        for (int p = 0; p < people; p++)
        {
            MoveTo(p, rootPlace[p]);
            last = Math.Max(last, time[p]);
        }
        HomeInTime(last);
        for (int p = 0; p < people; p++)
        {
            Stayed(p, last);
            unbalance += last - time[p];
            int inside = last + inAfter[p];
            everybodyIn = Math.Max(everybodyIn, inside);
            if (inside > all.CutOff[p]) broken += inside - all.CutOff[p];
            if (all.MostRadiation < SearchCase.Never) broken += Math.Max(0, all.HighRadiation.Seconds(isOut[p], last + isIn[p]) - all.MostRadiation);
        }
        if (all.Suits is { } suits)
            for (int p = 0; p < people; p++) broken += suits.Short(p, burnt[p] + suits.AtHatch[p], everybodyIn + closeMost);
        return everybodyIn + closeMost;
    }

    /// <summary>The next thing to fetch or to hang where it belongs, and who does it soonest; -1 when all is where it must be.</summary>
    private (int Who, int Parcel) NextHomeward()
    {
        (int Who, int Parcel) next = (-1, -1);
        int least = int.MaxValue;
        for (int k = 0; k < parcels; k++)
        {
            if (((homeMask >> k & 1) == 0 && !MustGo(k)) || place[k] == Nowhere || (place[k] == Anywhere && endPlace[k] < 0)) continue;
            for (int p = 0; p < people; p++)
            {
                int target = Target(k, p);
                if (holder[k] >= 0 ? holder[k] != p || (endPlace[k] < 0 && !MustGo(k)) : IsHome(k)) continue;
                int far = time[p] + (holder[k] >= 0 ? Distance(p, target) : Distance(p, PlaceOf(p, k)) + Between(p, PlaceOf(p, k), rootPlace[p]));
                if (far < least) (next, least) = ((p, k), far);
            }
        }
        return next;
    }

    /// <summary>Whether a parcel hangs on somebody who cannot come in with it: it stays outside, or must be in before anybody.</summary>
    private bool MustGo(int k) => holder[k] is >= 0 and var p && ((staysMask | beforePeople[p]) >> k & 1) != 0;

    /// <summary>Where a parcel must be in the end; what may stay anywhere outside is hung where it is least out of the way.</summary>
    private int Target(int k, int p)
    {
        if (endPlace[k] >= 0) return endPlace[k];
        if ((staysMask >> k & 1) == 0) return rootPlace[p];
        int nearest = rootPlace[p], least = int.MaxValue;
        foreach (int stow in all.Stows)
        {
            int far = Distance(p, stow) + Between(p, stow, rootPlace[p]);
            if (far < least) (nearest, least) = (stow, far);
        }
        return nearest;
    }

    /// <summary>Whether a parcel hangs where it must be in the end: what hangs at any hatch comes in with the bags.</summary>
    private bool IsHome(int k)
    {
        if (endPlace[k] >= 0) return place[k] == endPlace[k];
        for (int p = 0; p < people; p++)
            if (place[k] == rootPlace[p]) return true;
        return false;
    }

    private void UnloadFor(int p, int k)
    {
        for (int other = 0; other < parcels; other++)
            if (holder[other] == p && (pointMask[p][k] >> pointOf[other] & 1) != 0)
            {
                PutDown(p, other, rootPlace[p], -1);
                return;
            }
    }

    /// <summary>Seconds in which something is shut down: one window for each run of legs that touch it, joined when close.</summary>
    private int Shutdowns()
    {
        int total = 0;
        (cuts, windows, sendings) = (0, 0, 0);
        foreach (int s in all.CutsFirst)
        {
            int count = WindowsOf(s);
            for (int i = 0; i < count; i++)
            {
                (int off, int on) = CommandTimes(s, i);
                int from = off + all.Shutdowns[s].Off.Time.Seconds, to = on + all.Shutdowns[s].On.Time.Seconds;
                Plan(s, off, on);
                if (all.Shutdowns[s].Shutdown.CutsLink) cut[cuts++] = (from, to);
            }
        }
        SendGos();
        SendOneAtATime();
        for (int w = 0; w < windows; w++)
        {
            (int s, int from, int to) = window[w];
            total += to - from;
            if (to - from > all.Shutdowns[s].Longest) broken += to - from - all.Shutdowns[s].Longest;
        }
        if (cuts > 0)
            for (int l = 0; l < legIn.Length; l++)
                if (legIn[l] && all.Data[l].Leg.NeedsLink)
                    for (int i = 0; i < cuts; i++) broken += Math.Max(0, Math.Min(legEnd[l], cut[i].To) - Math.Max(legStart[l], cut[i].From));
        return total;
    }

    /// <summary>Fills <see cref="runs"/> with the windows of one shutdown, in order, and returns how many there are.</summary>
    private int WindowsOf(int s)
    {
        ShutdownCase shutdown = all.Shutdowns[s];
        int count = 0;
        for (int l = 0; l < legIn.Length; l++)
        {
            if (!legIn[l] || (all.Data[l].ShutdownMask >> s & 1) == 0) continue;
            int i = count++;
            int last = StaysOffFor(l);
            (int from, int to) = shutdown.GuardsRides
                ? (Math.Min(legStart[l], rideStart[l]), Math.Max(legEnd[last], Math.Max(rideEnd[l], rideEnd[last])))
                : (legStart[l], legEnd[last]);
            for (; i > 0 && runs[i - 1].From > from; i--) runs[i] = runs[i - 1];
            runs[i] = (from, to, l, last);
        }
        int turn = shutdown.On.Time.Seconds + shutdown.Off.Time.Seconds + shutdown.Wait, joined = 0;
        for (int i = 1; i < count; i++)
        {
            bool close = runs[i].From - runs[joined].To < turn + JoinWithin;
            // For want of a link it may be turned on later and off again sooner.
            bool overlap = OnTime(shutdown, runs[joined].To) + shutdown.On.Time.Seconds > OffTime(shutdown, runs[i].From);
            bool fits = Math.Max(runs[i].To, runs[joined].To) + shutdown.On.Time.Seconds - runs[joined].From + shutdown.Wait <= shutdown.Longest;
            if (overlap || (close && fits && !IsEnded(joined, i)))
            {
                if (runs[i].To > runs[joined].To || (runs[i].To == runs[joined].To && legEnd[runs[i].Last] > legEnd[runs[joined].Last])) (runs[joined].To, runs[joined].Last) = (runs[i].To, runs[i].Last);
            }
            else runs[++joined] = runs[i];
        }
        return count == 0 ? 0 : joined + 1;
    }

    /// <summary>Whether a window was ended before now, and another one comes later: it is not opened again by joining.</summary>
    private bool IsEnded(int window, int next) =>
        all.SoFar is { } past && runs[window].To < past.Now && !past.Units[all.UnitOfLeg[runs[next].First]];

    /// <summary>The leg that closes what another one leaves bare, the first after it; that one itself when it leaves nothing bare.</summary>
    private int StaysOffFor(int l)
    {
        int closing = l;
        foreach (int other in all.Data[l].ClosedBy)
            if (legIn[other] && legStart[other] >= legEnd[l] && (closing == l || legEnd[other] < legEnd[closing])) closing = other;
        return closing;
    }

    /// <summary>Windows closer than this are one: power is not cycled for a few minutes.</summary>
    private const int JoinWithin = 600;

    /// <summary>The commands of the last decode with their starts, for its outline.</summary>
    public IEnumerable<(int Start, GroundEntry Entry)> Commands()
    {
        for (int s = 0; s < all.Shutdowns.Length; s++)
        {
            int count = WindowsOf(s);
            for (int i = 0; i < count; i++)
            {
                (int off, int on) = CommandTimes(s, i);
                yield return (off, new(all.Shutdowns[s].Off.Id, null, all.Legs[runs[i].First].Id, Late: true));
                yield return (on, new(all.Shutdowns[s].On.Id, all.Legs[runs[i].Last].Id, null, Late: false));
            }
        }
        for (int i = 0; i < gos; i++) yield return (GoTime(i), new(go[i].Go.Command.Id, null, all.Legs[go[i].Leg].Id, Late: true));
    }

    /// <summary>When the commands of a window start, with a link where they need one.</summary>
    private (int Off, int On) CommandTimes(int s, int window)
    {
        ShutdownCase shutdown = all.Shutdowns[s];
        return (OffTime(shutdown, runs[window].From), OnTime(shutdown, runs[window].To));
    }

    /// <summary>When to send what shuts down, for a first leg that begins at a moment.</summary>
    private int OffTime(ShutdownCase shutdown, int from)
    {
        int off = from - shutdown.Wait - shutdown.Off.Time.Seconds;
        return shutdown.Off.NeedsLink ? LastWithLink(off, shutdown.Off.Time.Seconds) : off;
    }

    /// <summary>When to send what ends that, for a last leg that ends at a moment.</summary>
    private int OnTime(ShutdownCase shutdown, int to) => shutdown.On.NeedsLink ? NextWithLink(to, shutdown.On.Time.Seconds) : to;

    private int NextWithLink(int from, int seconds)
    {
        int start = all.NoLink.Next(from, seconds) ?? SearchCase.Never;
        for (int i = 0; i < cuts; i++)
            if (start < cut[i].To && start + seconds > cut[i].From) (start, i) = (all.NoLink.Next(cut[i].To, seconds) ?? SearchCase.Never, -1);
        return start;
    }

    private int LastWithLink(int until, int seconds)
    {
        int start = all.NoLink.Last(until, seconds) ?? -SearchCase.Never;
        for (int i = 0; i < cuts; i++)
            if (start < cut[i].To && start + seconds > cut[i].From) (start, i) = (all.NoLink.Last(cut[i].From - seconds, seconds) ?? -SearchCase.Never, -1);
        return start;
    }
}
