namespace Sallyport.Desk;

/// <summary>Finds the name that somebody probably meant.</summary>
public static class Nearest
{
    private const int LongestName = 60;

    /// <summary>The known name with the fewest letters changed, added, dropped or swapped; null when none is near.</summary>
    public static string? Of(string name, IEnumerable<string> known)
    {
        if (name.Length is 0 or > LongestName) return null;
        string? best = null;
        int least = Math.Max(2, name.Length / 3) + 1;
        foreach (string candidate in known.Order(StringComparer.Ordinal))
        {
            if (Math.Abs(candidate.Length - name.Length) >= least) continue;
            int distance = Distance(name.ToLowerInvariant(), candidate.ToLowerInvariant());
            if (distance >= least || distance >= Math.Max(name.Length, candidate.Length)) continue;
            least = distance;
            best = candidate;
        }
        return best;
    }

    /// <summary>Levenshtein's distance, with a swap of neighbours counted as one.</summary>
    public static int Distance(string left, string right)
    {
        int[] older = new int[right.Length + 1], old = new int[right.Length + 1], now = new int[right.Length + 1];
        for (int j = 0; j <= right.Length; j++) old[j] = j;
        for (int i = 1; i <= left.Length; i++)
        {
            now[0] = i;
            for (int j = 1; j <= right.Length; j++)
            {
                int change = old[j - 1] + (left[i - 1] == right[j - 1] ? 0 : 1);
                now[j] = Math.Min(change, Math.Min(old[j], now[j - 1]) + 1);
                if (i > 1 && j > 1 && left[i - 1] == right[j - 2] && left[i - 2] == right[j - 1]) now[j] = Math.Min(now[j], older[j - 2] + 1);
            }
            (older, old, now) = (old, now, older);
        }
        return old[right.Length];
    }
}
