namespace Sallyport.Planning;

/// <summary>The GOs that legs wait for.</summary>
internal sealed partial class Decoder
{
    /// <summary>By person, since when at the place.</summary>
    private readonly int[] arrived;

    /// <summary>The GOs of the decode under way: which, before which leg, and the earliest start of its command.</summary>
    private readonly (GoCase Go, int Leg, int Earliest)[] go;

    private int gos;

    /// <summary>When every GO that a unit needs can have been read: after everybody who needs it has come, and after what it covers has changed.</summary>
    private int ReadGos(SearchCase.Unit unit, int[] who)
    {
        // Read again where a pause has kept somebody.
        while (gos > 0 && unit.Legs.Contains(go[gos - 1].Leg)) gos--;
        int first = gos, start = 0;
        for (int r = 0; r < unit.Legs.Length; r++)
            foreach (GoCase needed in all.Data[unit.Legs[r]].Gos)
            {
                int from = arrived[who[r]];
                foreach (int l in needed.ChangedBy)
                    if (legIn[l]) from = Math.Max(from, legEnd[l]);
                int i = first;
                while (i < gos && go[i].Go.Command != needed.Command) i++;
                if (i == gos) go[gos++] = (needed, unit.Legs[r], 0);
                go[i].Earliest = Math.Max(go[i].Earliest, from - needed.BeforeReading);
            }
        for (int i = first; i < gos; i++)
        {
            int seconds = go[i].Go.Command.Time.Seconds;
            if (go[i].Go.Command.NeedsLink) go[i].Earliest = all.NoLink.Next(go[i].Earliest, seconds) ?? SearchCase.Never;
            start = Math.Max(start, go[i].Earliest + seconds);
        }
        return start;
    }

    /// <summary>Puts the commands of GOs onto their consoles, each as late as its leg and the link allow.</summary>
    private void SendGos()
    {
        for (int i = 0; i < gos; i++)
        {
            int planned = GoTime(i);
            Insert(new(go[i].Go.Console, -1, -1, true, planned, planned, go[i].Go.Command) { Earliest = go[i].Earliest });
        }
    }

    private int GoTime(int i)
    {
        int seconds = go[i].Go.Command.Time.Seconds, latest = legStart[go[i].Leg] - seconds;
        return go[i].Go.Command.NeedsLink ? LastWithLink(latest, seconds) : latest;
    }
}
