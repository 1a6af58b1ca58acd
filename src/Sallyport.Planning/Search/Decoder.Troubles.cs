using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What is foreseen to go wrong, read off a decoded plan: whether everybody can then end in order and go in, or go on as planned, only later.</summary>
/// <remarks>What is reckoned of either way is what most often breaks it: windows and thermal clocks, lines of liquid that stay shut off, high radiation, and the end. All
/// else is left to the proof, so what is counted as broken is seldom clean, and what is not may still be refused.</remarks>
internal sealed partial class Decoder
{
    /// <summary>Seconds by which the better of both ways breaks something, of everything foreseen.</summary>
    private long BeyondTroubles()
    {
        long beyond = 0;
        foreach (TroubleCase trouble in all.Troubles)
        {
            if (!legIn[trouble.Leg]) continue;
            int known = StepEnd(trouble.Leg, trouble.Step);
            long ends = EndingInOrder(trouble, known);
            if (ends == 0) continue;
            long goesOn = 0;
            foreach (int extra in trouble.Extras) goesOn = Math.Max(goesOn, GoingOnLater(trouble.Leg, known, extra));
            beyond += Math.Min(ends, goesOn);
        }
        return beyond;
    }

    private long EndingInOrder(TroubleCase trouble, int known)
    {
        int l = trouble.Leg, over = known + trouble.Terminate, last = 0;
        long beyond = 0;
        for (int p = 0; p < people; p++)
        {
            int home = known;
            if (StandAt(helpStands[p], known) is >= 0 and var at)
            {
                HelpStand stand = helpStands[p][at];
                home += stand.Clear + all.Seconds[p][stand.Load][stand.B * all.Width[p] + all.Root[p]];
                if (legDoer[l] == p) home += trouble.Terminate - Math.Min(trouble.Terminate, all.Data[l].Abort);
            }
            last = Math.Max(last, home);
        }
        for (int test = 0; test < legIn.Length; test++)
        {
            if (!legIn[test] || all.Fluid.Testing[test] is null || legStart[test] < known) continue;
            foreach ((int spilling, int least, _) in all.Data[test].After)
                if (all.Fluid.Spilling[spilling] is not null && legStart[spilling] < known)
                    last = Math.Max(last, (spilling == l ? over : Math.Min(known, legEnd[spilling])) + least + all.Data[test].Length);
        }
        for (int w = 0; w < windows; w++)
            if (IsIn(l, w)) beyond += BeyondIn(w, over + (all.Shutdowns[window[w].Shutdown].GuardsRides ? RideAway(all.Data[l]) : 0));
        int inside = 0;
        for (int p = 0; p < people; p++)
        {
            inside = Math.Max(inside, last + inAfter[p] + closeMost);
            beyond += RadiationBeyond(p, last);
        }
        return beyond + TrappedUntil(known, inside, inside) + Math.Max(0, inside - all.PetLimit);
    }

    /// <summary>The shortest ride from a leg's pose to where one can get off, s; 0 for a leg not done from an arm.</summary>
    private int RideAway(LegData leg)
    {
        if (leg.Arm < 0) return 0;
        int least = SearchCase.Never;
        foreach (int pose in all.ArmData[leg.Arm].MountPoses) least = Math.Min(least, all.ArmData[leg.Arm].Rides[leg.Pose][pose]);
        return least < SearchCase.Never ? least : 0;
    }

    private long GoingOnLater(int l, int known, int extra)
    {
        int p = legDoer[l], hatch = 0;
        long beyond = 0;
        for (int w = 0; w < windows; w++)
            if (IsIn(l, w)) beyond += BeyondIn(w, window[w].To - all.Shutdowns[window[w].Shutdown].On.Time.Seconds + extra);
        for (int q = 0; q < people; q++) hatch = Math.Max(hatch, time[q]);
        beyond += TrappedUntil(known, -1, extra, p);
        // What may be left out then makes up for it.
        for (int other = 0; other < legIn.Length; other++)
            if (legIn[other] && legStart[other] >= known && all.Leavable[all.JobOfLeg[other]]) return beyond;
        int later = Math.Max(0, time[p] + Math.Max(0, extra - WaitsOf(p, known, SearchCase.Never)) - hatch);
        if (later == 0) return beyond;
        for (int q = 0; q < people; q++)
        {
            beyond += RadiationBeyond(q, hatch + later);
            beyond += Math.Max(0, hatch + later + inAfter[q] + closeMost - all.PetLimit);
        }
        return beyond;
    }

    private bool IsIn(int l, int w) =>
        (all.Data[l].ShutdownMask >> window[w].Shutdown & 1) != 0 && window[w].From <= legStart[l] && legEnd[l] <= window[w].To;

    private int RadiationBeyond(int p, int last) =>
        all.MostRadiation < SearchCase.Never ? Math.Max(0, all.HighRadiation.Seconds(isOut[p], last + isIn[p]) - all.MostRadiation) : 0;

    /// <summary>Seconds by which a window, and the clocks that look at it, are beyond their limits when it may be ended from a moment on.</summary>
    private long BeyondIn(int w, int from)
    {
        (int s, int begins, int to) = window[w];
        Command on = all.Shutdowns[s].On;
        int until = Math.Max(to, (on.NeedsLink ? NextWithLink(from, on.Time.Seconds) : from) + on.Time.Seconds);
        long beyond = Math.Max(0, until - begins - all.Shutdowns[s].Longest);
        foreach (ClockCase clock in all.Clocks)
            foreach ((int looksAt, _) in clock.Shutdowns)
            {
                if (looksAt != s) continue;
                SetTurns(clock, w, until);
                beyond += Beyond(clock, until, stops: true);
                break;
            }
        return beyond;
    }

    /// <summary>Seconds by which lines that are shut off at a moment are in the sun too long: until a moment, or until they are opened as planned, later when one person does it.</summary>
    private long TrappedUntil(int known, int inside, int extra, int late = -1)
    {
        long beyond = 0;
        foreach (LineClock clock in all.Fluid.Clocks)
        {
            if (ShutOff(clock) is not var (shut, opened, opens) || shut > known || opened <= known) continue;
            int until = inside >= 0 ? inside : opened + (legDoer[opens] == late ? Math.Max(0, extra - WaitsOf(late, known, legStart[opens])) : 0);
            beyond += InSunTooLong(clock, shut, until);
        }
        return beyond;
    }

    /// <summary>Seconds that a person waits between two moments.</summary>
    private int WaitsOf(int p, int from, int to)
    {
        int waits = 0;
        foreach (HelpStand stand in helpStands[p])
            if (stand.Waits) waits += Math.Max(0, Math.Min(stand.To, to) - Math.Max(stand.From, from));
        return waits;
    }
}
