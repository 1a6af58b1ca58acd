namespace Sallyport.Planning;

/// <summary>How soon a plan can end at best, of what is decoded and of the work and ways that are still to come: what is sure to be refused need not be decoded to its end.</summary>
internal sealed partial class Decoder
{
    // By place in the order and person: what legs and the ways between them take from there on, s, and the place of the first of them.
    private readonly int[] toCome, nextPlace;

    // One leg: what it takes at least, s, and where it is done or one gets onto the arm for it; -1 where that is one of several places.
    private readonly int[] leastOf, placeOf;

    /// <summary>From when the last one is at the hatch until it is closed, s.</summary>
    private readonly int homeTakes;

    /// <summary>Adds up what is to come from a place in the order on.</summary>
    private void LookOut(int from)
    {
        for (int p = 0; p < people; p++) (toCome[count * people + p], nextPlace[count * people + p]) = (0, rootPlace[p]);
        for (int i = count - 1; i >= from; i--)
        {
            int here = i * people;
            for (int p = 0; p < people; p++) (toCome[here + p], nextPlace[here + p]) = (toCome[here + people + p], nextPlace[here + people + p]);
            SearchCase.Unit unit = all.Units[order[i].Unit];
            if (unit.Options.Length == 0) continue;
            int[] who = unit.Options[order[i].Option];
            for (int r = 0; r < who.Length; r++)
            {
                int at = here + who[r], l = unit.Legs[r];
                toCome[at] += leastOf[l];
                if (placeOf[l] < 0) continue;
                toCome[at] += Known(ways[who[r]].Between(0, placeOf[l], nextPlace[at]));
                nextPlace[at] = placeOf[l];
            }
        }
    }

    /// <summary>The plan ends no earlier than this, whatever still comes: everybody does all legs that are left, one after the other, goes from one to the next and home, unladen
    /// and without a wait, and the hatch is closed when the last one is there.</summary>
    private int EarliestEnd(int from)
    {
        int latest = 0;
        for (int p = 0; p < people; p++)
            latest = Math.Max(latest, time[p] + Known(ways[p].Seconds(0, mooring[p], nextPlace[from * people + p])) + toCome[from * people + p]);
        return latest + homeTakes;
    }

    /// <summary>Whether a decode is sure to come to more than is taken, with an end not before some moment.</summary>
    private bool IsBeyond(double brokenWeight, int end, double ceiling) => brokenWeight * (broken + Math.Max(0, end - all.PetLimit)) + end > ceiling + 1e-6;

    // Where no way is known, none is counted.
    private static int Known(int way) => way < SearchCase.Never ? way : 0;
}
