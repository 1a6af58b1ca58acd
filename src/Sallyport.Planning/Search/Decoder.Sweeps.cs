namespace Sallyport.Planning;

/// <summary>Who is where, and whose line lies where, while an arm moves.</summary>
internal sealed partial class Decoder
{
    private readonly List<Presence> presences = [];
    private readonly List<Sweep> sweeps = [];
    private readonly int[] since;

    /// <summary>A person somewhere for a while: the rides that would sweep that person, and those that would sweep the line.</summary>
    private readonly record struct Presence(int Person, int From, int To, ulong Body, ulong Line);

    /// <summary>A ride under way; nobody with -1.</summary>
    private readonly record struct Sweep(int Ride, int Rider, int From, int To);

    /// <summary>A person has stood, or been held on an arm, until now.</summary>
    private void Stayed(int p, int until)
    {
        if (!all.Sweeps.Any) return;
        int m = mooring[p];
        ulong body = armOn[p] >= 0 ? all.Sweeps.Posed[armOn[p]][armPose[armOn[p]]] : all.Sweeps.Standing[p][m];
        if (until > since[p] && (body | all.Sweeps.Lines[p][m]) != 0) presences.Add(new(p, since[p], until, body, all.Sweeps.Lines[p][m]));
        since[p] = until;
    }

    /// <summary>A person walks from here to there.</summary>
    private void Walked(int p, int from, int to, int departure, int arrival)
    {
        if (!all.Sweeps.Any) return;
        Stayed(p, departure);
        ulong body = all.Sweeps.Walking(p, from, to), line = all.Sweeps.Lines[p][from] | all.Sweeps.Lines[p][to];
        if ((body | line) != 0) presences.Add(new(p, departure, arrival, body, line));
        since[p] = arrival;
    }

    /// <summary>An arm moves, empty or with a rider.</summary>
    private void Moved(int arm, int from, int to, int rider, int start, int seconds)
    {
        if (all.Sweeps.RideOf(arm, from, to) is not (>= 0 and var ride)) return;
        sweeps.Add(new(ride, rider, start, start + seconds));
        if (rider < 0) return;
        Stayed(rider, start);
        presences.Add(new(rider, start, start + seconds, all.Sweeps.Ridden[ride], all.Sweeps.Lines[rider][mooring[rider]]));
        since[rider] = start + seconds;
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
