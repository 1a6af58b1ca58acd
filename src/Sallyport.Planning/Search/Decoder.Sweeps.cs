namespace Sallyport.Planning;

/// <summary>Who is where, and whose line lies where, while an arm moves.</summary>
internal sealed partial class Decoder
{
    private readonly List<Presence> presences = [];
    private readonly List<Sweep> sweeps = [];
    private readonly int[] notedTo;

    // One person: the last ride.
    private readonly LastRide[] rides;

    /// <summary>A person somewhere for a while: the rides that would sweep that person, and those that would sweep the line.</summary>
    private readonly record struct Presence(int Person, int From, int To, ulong Body, ulong Line);

    /// <summary>A ride under way; nobody with -1.</summary>
    private readonly record struct Sweep(int Ride, int Rider, int From, int To);

    /// <summary>A ride of somebody: when that person was ready for it, and when it began.</summary>
    private readonly record struct LastRide(int Arm, int From, int To, int Ready, int Start);

    /// <summary>A person has stood, or been held on an arm, until now.</summary>
    private void Stayed(int p, int until)
    {
        if (!all.Sweeps.Any) return;
        int m = mooring[p];
        ulong body = armOn[p] >= 0 ? all.Sweeps.Posed[armOn[p]][armPose[armOn[p]]] : all.Sweeps.Standing[p][m];
        if (until > notedTo[p] && (body | all.Sweeps.Lines[p][m]) != 0) presences.Add(new(p, notedTo[p], until, body, all.Sweeps.Lines[p][m]));
        notedTo[p] = until;
    }

    /// <summary>A person walks from here to there.</summary>
    private void Walked(int p, int from, int to, int departure, int arrival)
    {
        if (!all.Sweeps.Any) return;
        Stayed(p, departure);
        ulong body = all.Sweeps.Walking(p, from, to), line = all.Sweeps.Lines[p][from] | all.Sweeps.Lines[p][to];
        if ((body | line) != 0) presences.Add(new(p, departure, arrival, body, line));
        notedTo[p] = arrival;
    }

    /// <summary>An arm moves, empty or with a rider.</summary>
    private void Moved(int arm, int from, int to, int rider, int start, int seconds)
    {
        if (all.Sweeps.RideOf(arm, from, to) is not (>= 0 and var ride)) return;
        sweeps.Add(new(ride, rider, start, start + seconds));
        if (rider < 0) return;
        Stayed(rider, start);
        presences.Add(new(rider, start, start + seconds, all.Sweeps.Ridden[ride], all.Sweeps.Lines[rider][mooring[rider]]));
        notedTo[rider] = start + seconds;
    }

    /// <summary>All that was noted of a person since the last entry ended is that much later, and until then that person stayed.</summary>
    private void NoteLater(int p, int ended, int later)
    {
        if (!all.Sweeps.Any || later == 0) return;
        bool moved = notedTo[p] > ended;
        for (int i = 0; i < presences.Count; i++)
        {
            Presence one = presences[i];
            if (one.Person == p && one.To > ended) presences[i] = one with { From = one.From < ended ? one.From : one.From + later, To = one.To + later };
        }
        for (int i = 0; i < sweeps.Count; i++)
        {
            Sweep one = sweeps[i];
            if (one.Rider == p && one.From >= ended) sweeps[i] = one with { From = one.From + later, To = one.To + later };
        }
        if (!moved) return;
        notedTo[p] += later;
        int m = walksFrom[p];
        bool rode = armOn[p] >= 0 && rides[p].Start >= ended;
        ulong body = rode ? all.Sweeps.Posed[armOn[p]][rides[p].From] : all.Sweeps.Standing[p][m];
        if ((body | all.Sweeps.Lines[p][m]) != 0) presences.Add(new(p, ended, ended + later, body, all.Sweeps.Lines[p][m]));
    }

    /// <summary>Seconds in which somebody, or a line, is in what an arm sweeps.</summary>
    private int Swept()
    {
        int seconds = 0;
        foreach (Sweep sweep in sweeps)
            foreach (Presence presence in presences)
                if (presence.From < sweep.To && sweep.From < presence.To
                    && ((presence.Body >> sweep.Ride & 1) != 0 && presence.Person != sweep.Rider || (presence.Line >> sweep.Ride & 1) != 0))
                    seconds += Math.Min(presence.To, sweep.To) - Math.Max(presence.From, sweep.From);
        return seconds;
    }
}
