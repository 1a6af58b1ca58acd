namespace Sallyport.Planning;

/// <summary>Checks of gloves, and rests, put in where they would come due. In an outline they stand before the entry that they are for, so
/// that they are done where that entry is set out from.</summary>
internal sealed partial class Decoder
{
    // One person: the end of the last check or the hatch, the end of the last rest or the hatch, whether gloves were used roughly since the
    // last check, and the end of the last entry, where a pause before the next one is done.
    private readonly int[] checkedAt, restedAt, since;
    private readonly bool[] rough;

    // One person: whether somebody else's need got that person out of a restraint since the last entry. A pause now would be done in the
    // restraint all the same, and the other one would wait for it: that is counted as broken.
    private readonly bool[] calledOut;

    // One person: the restraint left on the way to the next entry, which is free that much later when a pause is put in before it; -1 for none.
    private readonly int[] leaves;

    // One person: the mooring where the last entry ended, and when the walk from there ended.
    private readonly int[] walksFrom, walkEnded;

    private void ResetPauses(int p)
    {
        checkedAt[p] = restedAt[p] = isOut[p];
        (rough[p], calledOut[p], leaves[p], since[p], walksFrom[p]) = (false, false, -1, time[p], mooring[p]);
    }

    /// <summary>Before an entry that takes a person so many seconds: pauses if either would come due before the entry ends.</summary>
    private void Mind(int p, int seconds, int l)
    {
        if (all.Pauses is not { } pauses) return;
        bool rest = time[p] + seconds + pauses.CheckTakes > restedAt[p] + pauses.RestEvery;
        if (pauses.CanCheck && time[p] + seconds + pauses.CheckTakes + (rest ? pauses.RestTakes : 0) > checkedAt[p] + pauses.CheckEvery && checkedAt[p] < time[p]) Check(p, pauses, l);
        if (rest && restedAt[p] < time[p]) Rest(p, pauses, l);
    }

    /// <summary>An entry has ended.</summary>
    private void Entered(int p) => (since[p], calledOut[p], leaves[p], walksFrom[p]) = (time[p], false, -1, mooring[p]);

    private void Check(int p, PauseCase pauses, int l)
    {
        journal?.Add(new(Did.Check, p, -1, -1, -1, -1, l, since[p]));
        Spend(p, pauses.CheckTakes);
        CheckedBy(p, since[p], pauses);
    }

    private void CheckedBy(int p, int end, PauseCase pauses)
    {
        if (end > checkedAt[p] + pauses.CheckEvery) broken += end - checkedAt[p] - pauses.CheckEvery;
        (checkedAt[p], rough[p]) = (end, false);
    }

    private void Rest(int p, PauseCase pauses, int l)
    {
        journal?.Add(new(Did.Rest, p, -1, -1, -1, -1, l, since[p]));
        RestedBy(p, since[p], since[p] + pauses.RestTakes, pauses);
        Spend(p, pauses.RestTakes);
    }

    /// <summary>Puts time in where the last entry ended: all that was done since is that much later.</summary>
    private void Spend(int p, int seconds)
    {
        if (calledOut[p]) broken += seconds;
        else if (leaves[p] >= 0) readyAt[leaves[p]] += seconds;
        int before = time[p], ended = since[p];
        bool came = arrived[p] > since[p];
        since[p] += seconds;
        time[p] += seconds;
        WalkAgain(p, seconds);
        RideAgain(p, ended, seconds);
        NoteLater(p, ended, time[p] - before);
        walkEnded[p] += time[p] - before;
        if (came) arrived[p] += time[p] - before;
    }

    /// <summary>A walk through a zone that is closed at times may have to wait longer after time was put in before it, or less long.</summary>
    private void WalkAgain(int p, int seconds)
    {
        if (!all.HasTimedZones || walksFrom[p] == mooring[p] || !all.Tables[p].CrossesTimed(walksFrom[p], mooring[p])) return;
        int leaving = leaves[p] < 0 ? 0 : all.Scenario.Handling.Leave.Time.Seconds, walked = time[p] - seconds - walkEnded[p];
        int departs = all.Tables[p].EarliestDeparture(walksFrom[p], mooring[p], load[p], since[p] + leaving) ?? SearchCase.Never;
        time[p] = departs + all.Seconds[p][load[p]][walksFrom[p] * all.Width[p] + mooring[p]] + walked;
    }

    private void RestedBy(int p, int from, int to, PauseCase pauses)
    {
        if (from > restedAt[p] + pauses.RestEvery) broken += from - restedAt[p] - pauses.RestEvery;
        restedAt[p] = to;
    }

    /// <summary>Pauses of those who stand ready for a unit that would begin at a moment; gives the moment at which it begins then.</summary>
    private int PauseBefore(SearchCase.Unit unit, int[] who, int start)
    {
        if (all.Pauses is not { } pauses) return start;
        for (bool paused = true; paused;)
        {
            paused = false;
            for (int r = 0; r < who.Length; r++)
            {
                int p = who[r];
                LegData leg = all.Data[unit.Legs[r]];
                GlovesInLeg gloves = leg.Gloves;
                int due = start + (gloves.FirstCheck >= 0 ? gloves.FirstCheck : leg.Length + pauses.CheckTakes);
                bool fresh = checkedAt[p] == since[p];
                if (pauses.CanCheck && !fresh && ((rough[p] && pauses.AfterRough && !gloves.BeginsWithCheck) || due > checkedAt[p] + pauses.CheckEvery))
                {
                    Check(p, pauses, unit.Legs[r]);
                    paused = true;
                }
                bool waits = start - time[p] >= pauses.RestTakes;
                if (!waits && restedAt[p] < since[p] && !(fresh && restedAt[p] == since[p] - pauses.CheckTakes)
                    && start + leg.Length + pauses.CheckTakes > restedAt[p] + pauses.RestEvery)
                {
                    Rest(p, pauses, unit.Legs[r]);
                    paused = true;
                }
                start = Math.Max(start, time[p]);
            }
            if (paused) start = Settle(unit, who, start);
        }
        foreach (int p in who)
            if (start - time[p] >= pauses.RestTakes && pauses.RestEvery < SearchCase.Never) RestedBy(p, time[p], start, pauses);
        return start;
    }

    /// <summary>What a leg does to the gloves, and how long one may go on after it.</summary>
    private void Handled(int p, LegData leg, int end)
    {
        if (all.Pauses is not { } pauses) return;
        Entered(p);
        GlovesInLeg gloves = leg.Gloves;
        if (gloves.FirstCheck >= 0)
        {
            // Waits inside a leg lie before or after its checks, nobody knows here: the later check counts from the end of the leg back.
            CheckedBy(p, end - leg.Length + gloves.FirstCheck, pauses);
            checkedAt[p] = end - leg.Length + gloves.LastCheck;
        }
        rough[p] |= gloves.LeavesRough;
    }

    /// <summary>Pauses before the way home, so that nothing comes due before everybody is in.</summary>
    private void PauseBeforeHome()
    {
        if (all.Pauses is not { } pauses) return;
        for (bool paused = true; paused;)
        {
            paused = false;
            int last = 0;
            for (int p = 0; p < people; p++) last = Math.Max(last, time[p] + HomeFrom(p));
            for (int p = 0; p < people; p++)
            {
                int inside = last + inAfter[p];
                if (pauses.CanCheck && checkedAt[p] != since[p] && inside > checkedAt[p] + pauses.CheckEvery)
                {
                    Check(p, pauses, -1);
                    paused = true;
                }
                if (restedAt[p] < since[p] - pauses.CheckTakes && last - time[p] - HomeFrom(p) < pauses.RestTakes && inside > restedAt[p] + pauses.RestEvery)
                {
                    Rest(p, pauses, -1);
                    paused = true;
                }
            }
        }
    }

    /// <summary>Whether anything has come due before everybody is in; all stand at their hatch.</summary>
    private void HomeInTime(int last)
    {
        if (all.Pauses is not { } pauses) return;
        for (int p = 0; p < people; p++)
        {
            int inside = last + inAfter[p];
            if (last - time[p] >= pauses.RestTakes && pauses.RestEvery < SearchCase.Never) RestedBy(p, time[p], last, pauses);
            if (inside > checkedAt[p] + pauses.CheckEvery) broken += inside - checkedAt[p] - pauses.CheckEvery;
            if (inside > restedAt[p] + pauses.RestEvery) broken += inside - restedAt[p] - pauses.RestEvery;
        }
    }

    /// <summary>Seconds from where a person is to the hatch, out of a restraint included.</summary>
    private int HomeFrom(int p) => Leaving(p) + Distance(p, rootPlace[p]);

    /// <summary>Seconds to get out of the restraint that a person is in.</summary>
    private int Leaving(int p) => socketIn[p] < 0 ? 0 : all.Scenario.Handling.Leave.Time.Seconds;
}
