using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>What one table of ways says of places: how far each is from each mooring, and by which of its moorings it is reached first. Decoding asks that all the time.</summary>
internal sealed class PlaceWays
{
    private readonly int places;
    private readonly int[][] far, between, first;
    private readonly bool[] isTimed;

    public PlaceWays(WayTable table, ImmutableArray<GripId> at)
    {
        places = at.Length;
        int[][] moorings = [.. at.Select(place => table.At(place).ToArray())];
        int width = table.Moorings.Count;
        far = [.. table.Slower.Select(_ => new int[width * places])];
        first = [.. table.Slower.Select(_ => new int[width * places])];
        between = [.. table.Slower.Select(_ => new int[places * places])];
        isTimed = new bool[width * places];
        for (int load = 0; load < far.Length; load++)
        {
            int[] seconds = table.Seconds(load);
            Array.Fill(between[load], int.MaxValue / 2);
            for (int from = 0; from < width; from++)
                for (int place = 0; place < places; place++)
                {
                    int best = -1, least = Unreached, home = int.MaxValue;
                    foreach (int m in moorings[place])
                    {
                        int way = seconds[from * width + m], back = seconds[m * width + table.Root];
                        if (best < 0 || way < least || (way == least && back < home)) (best, least, home) = (m, way, back);
                        isTimed[from * places + place] |= table.CrossesTimed(from, m);
                    }
                    first[load][from * places + place] = best;
                    far[load][from * places + place] = moorings[place].Contains(from) ? 0 : least;
                }
            for (int from = 0; from < places; from++)
                foreach (int m in moorings[from])
                    for (int to = 0; to < places; to++)
                        foreach (int n in moorings[to]) between[load][from * places + to] = Math.Min(between[load][from * places + to], seconds[m * width + n]);
        }
    }

    /// <summary>Farther than any place that can be reached, s.</summary>
    public const int Unreached = int.MaxValue - 1;

    /// <summary>Seconds from a mooring to the nearest mooring of a place, zones apart; 0 at that place, <see cref="Unreached"/> where no mooring is there.</summary>
    public int Seconds(int load, int mooring, int place) => far[load][mooring * places + place];

    /// <summary>Seconds between the two nearest moorings of two places, zones apart.</summary>
    public int Between(int load, int from, int to) => between[load][from * places + to];

    /// <summary>The mooring of a place that is reached first; of equal ones that with the shorter way home; -1 for none.</summary>
    public int First(int load, int mooring, int place) => first[load][mooring * places + place];

    /// <summary>Whether some way from a mooring to a place touches a grip that is closed at times: which mooring is reached first then depends on the time.</summary>
    public bool IsTimed(int mooring, int place) => isTimed[mooring * places + place];
}
