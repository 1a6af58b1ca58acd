using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What was done before the moment from which a plan is made, done again as it was.</summary>
internal sealed partial class Decoder
{
    private void Replay(PlanSoFar past)
    {
        Array.Clear(ledFrom);
        for (int i = 0; i < past.Deeds.Count; i++)
        {
            Deed deed = past.Deeds[i];
            int p = deed.Person, k = deed.Parcel;
            if (deed.What is not (Did.Check or Did.Rest)) SetOut(p, deed);
            Handling handling = all.Scenario.Handling;
            switch (deed.What)
            {
                case Did.Take:
                    TakenFrom(k, PlaceOf(p, k), time[p]);
                    Work(p, Did.Take, k, handling.Take.Time.Seconds, deed.Point, deed.For);
                    Hang(p, k, deed.Point);
                    break;
                case Did.Unplug:
                    for (int user = 0; user < people; user++)
                        if (user != p && socketIn[user] == deed.Other) LeaveSocket(user);
                    Work(p, Did.Unplug, k, handling.Unplug.Time.Seconds, deed.Point, deed.For, deed.Other);
                    (clearedBy[deed.Other], clearedOf[deed.Other]) = (p, k);
                    Hang(p, k, deed.Point);
                    break;
                case Did.Put:
                    Work(p, Did.Put, k, handling.Put.Time.Seconds, -1, deed.For);
                    Release(p, k);
                    (place[k], readyAt[k]) = (all.PlaceOfMooring[p][mooring[p]], time[p]);
                    HungInSpill(k, place[k], time[p]);
                    break;
                case Did.Plug:
                    LegData of = all.Data[deed.For];
                    Work(p, Did.Plug, k, handling.Plug.Time.Seconds, -1, deed.For);
                    Release(p, k);
                    (pluggedIn[k], pluggedBy[k], setting[k], place[k], readyAt[k]) = (of.Socket, p, of.Leg.Setting, of.Place, time[p]);
                    break;
                case Did.Give when deed.Other >= 0:
                    int q = deed.Other;
                    Deed receives = past.Deeds[++i];
                    SetOut(q, receives);
                    journal?.Add(deed);
                    journal?.Add(receives);
                    time[p] = time[q] = deed.Start + handling.Give.Time.Seconds;
                    Burn(p, Exertion.Light, handling.Give.Time.Seconds);
                    Burn(q, Exertion.Light, handling.Give.Time.Seconds);
                    Entered(p);
                    Entered(q);
                    Release(p, k);
                    Hang(q, k, deed.Point);
                    Touch(p, 1UL << k);
                    break;
                case Did.Mount:
                    ArmCase arm = all.ArmData[k];
                    int empty = RideSeconds(arm, armPose[k], arm.MountPoses[deed.Other]);
                    if (empty > 0) Moved(k, armPose[k], arm.MountPoses[deed.Other], -1, armFree[k], empty);
                    journal?.Add(deed);
                    arrived[p] = time[p] += arm.Arm.Mount.Time.Seconds;
                    Burn(p, Exertion.Moderate, arm.Arm.Mount.Time.Seconds);
                    Stayed(p, time[p]);
                    (armRider[k], armMount[k], armPose[k], armOn[p]) = (p, deed.Other, arm.MountPoses[deed.Other], k);
                    Entered(p);
                    break;
                case Did.Ride:
                    RideTo(p, k, deed.Other, deed.For);
                    break;
                case Did.Dismount:
                    // The ride back stands in no deed of its own; it ends when one gets off.
                    ArmCase off = all.ArmData[k];
                    int mounts = off.MountPoses[armMount[k]], back = armPose[k] == mounts ? 0 : RideSeconds(off, armPose[k], mounts);
                    if (back > 0)
                    {
                        time[p] = deed.Start - back;
                        BeginRide(p, k, armPose[k], mounts, back);
                        time[p] = deed.Start;
                        armPose[k] = mounts;
                    }
                    GetOff(p, k);
                    break;
                case Did.Check:
                    journal?.Add(deed);
                    since[p] = time[p] = deed.Start + all.Pauses!.CheckTakes;
                    CheckedBy(p, since[p], all.Pauses);
                    break;
                case Did.Rest:
                    journal?.Add(deed);
                    since[p] = time[p] = deed.Start + all.Pauses!.RestTakes;
                    RestedBy(p, deed.Start, since[p], all.Pauses);
                    break;
                case Did.Leg:
                    DoAgain(p, deed);
                    break;
            }
        }
        // What is past is as it is; the proof says what of it is broken.
        broken = 0;
    }

    private void DoAgain(int p, Deed deed)
    {
        LegData leg = all.Data[deed.For];
        SearchCase.Unit unit = all.Units[all.UnitOfLeg[deed.For]];
        ledFrom[deed.For] = deed.LedFrom;
        if (leg.Socket >= 0 && socketIn[p] != leg.Socket)
        {
            Burn(p, Exertion.Moderate, all.Scenario.Handling.Enter.Time.Seconds);
            socketIn[p] = leg.Socket;
        }
        if (!Array.Exists(unit.Legs, l => legIn[l]))
        {
            int first = gos;
            foreach (int l in unit.Legs)
                foreach (GoCase needed in all.Data[l].Gos)
                {
                    bool known = false;
                    for (int i = first; i < gos; i++) known |= go[i].Go.Command == needed.Command;
                    if (!known) go[gos++] = (needed, l, 0);
                }
            Lead(unit, deed.Start, anyway: true);
        }
        for (ulong rest = leg.PicksUp; rest != 0; rest &= rest - 1)
        {
            int k = System.Numerics.BitOperations.TrailingZeroCount(rest);
            if (pointOf[k] >= 0 || FreePoint(p, k) is not (>= 0 and var point)) continue;
            pointOf[k] = point;
            pointsUsed[p] |= 1 << point;
        }
        DoLeg(p, deed.For, deed.Start);
    }

    /// <summary>A person is where the deed is done, when it was begun.</summary>
    private void SetOut(int p, Deed deed)
    {
        if (socketIn[p] >= 0 && !(deed.What == Did.Leg && all.Data[deed.For].Socket == socketIn[p])) LeaveSocket(p);
        if (deed.Mooring >= 0 && deed.Mooring != mooring[p])
        {
            int here = mooring[p], seconds = all.Seconds[p][load[p]][here * all.Width[p] + deed.Mooring], arrival = Math.Min(deed.Start, time[p] + seconds);
            Walked(p, here, deed.Mooring, arrival - seconds, arrival);
            Burn(p, Exertion.Translate, seconds);
            walked += seconds;
            mooring[p] = deed.Mooring;
            walkEnded[p] = arrived[p] = arrival;
        }
        time[p] = deed.Start;
    }

    private void Hang(int p, int k, int point)
    {
        (place[k], pluggedIn[k], pluggedBy[k], holder[k], pointOf[k]) = (-1, -1, -1, p, point);
        held[p] |= 1UL << k;
        pointsUsed[p] |= 1 << point;
        SetLoad(p);
        Touch(p);
    }
}
