using System.Runtime.InteropServices;

namespace Sallyport.Planning;

/// <summary>Going on from where a candidate first differs from one decoded before, instead of from the start.</summary>
/// <remarks>The state before a unit follows from the units before it, and from what was looked at ahead: what gear a person's next units need, and which unit needs a
/// thing next. So a checkpoint says how far was looked, and serves candidates that agree up to there.</remarks>
internal sealed partial class Decoder
{
    /// <summary>A checkpoint is made before every second unit.</summary>
    private const int Stride = 2;

    /// <summary>A unit in its place: who does it, by option, and how its gear is brought.</summary>
    private readonly record struct Placed(int Unit, int Option, Bringing Bringing);

    /// <summary>What is decoded, in order: the units whose jobs are in, without those that are past.</summary>
    private readonly Placed[] order;

    // The candidate that is held, in the same way; what it came to, and its jobs.
    private readonly Placed[] before;
    private readonly bool[] heldJobs;
    private PlanScore heldScore;
    private bool heldAhead;
    private int count, heldCount = -1;

    // Before each unit of the held candidate, and the state at the start.
    private readonly Checkpoint?[] checkpoints;
    private readonly int[][] ints;

    /// <summary>The last place in the order that made a difference to what is decoded so far.</summary>
    private int looked;

    /// <summary>The unit, by place in the order, from which the last decode went on; 0 when it began afresh.</summary>
    public int WentOnFrom { get; private set; }

    /// <summary>What was done in the last decode; null when nothing is reckoned from it, and nobody asked.</summary>
    public IReadOnlyList<Deed>? Done => journal;

    /// <summary>Holds a candidate: those decoded next mostly agree with its beginning.</summary>
    /// <param name="candidate">The candidate.</param>
    /// <param name="score">What it came to.</param>
    public void Hold(Candidate candidate, PlanScore score)
    {
        int listed = List(candidate), same = heldCount < 0 ? 0 : Agreement(listed, out _);
        for (int i = 1; i < checkpoints.Length; i++)
            if (checkpoints[i] is { } one && (i * Stride > same || one.Looked >= same)) one.Holds = false;
        order.AsSpan(0, listed).CopyTo(before);
        candidate.JobIn.CopyTo(heldJobs, 0);
        (heldCount, heldScore, heldAhead) = (listed, score, IsAhead(listed));
    }

    /// <summary>Lists what is to be decoded, and says how many units that are.</summary>
    private int List(Candidate candidate)
    {
        int listed = 0;
        foreach (int u in candidate.Order)
            if (candidate.JobIn[all.JobOfUnit[u]] && all.SoFar?.Units[u] != true) order[listed++] = new(u, candidate.Options[u], candidate.Bringing[u]);
        return listed;
    }

    private bool IsAhead(int listed)
    {
        for (int i = 0; i < listed; i++)
            if (order[i].Bringing.Ahead > 0) return true;
        return false;
    }

    /// <summary>With how many of its first units the held candidate agrees, and whether in all.</summary>
    private int Agreement(int listed, out bool isSame)
    {
        int same = order.AsSpan(0, listed).CommonPrefixLength(before.AsSpan(0, heldCount));
        isSame = same == listed && same == heldCount && jobIn.AsSpan().SequenceEqual(heldJobs);
        // Whether anything may be taken along before is asked of all units together.
        return IsAhead(listed) == heldAhead ? same : 0;
    }

    /// <summary>Goes back to the last checkpoint that serves for a candidate which agrees with so many units of the held one; the place it goes on from.</summary>
    private int GoBack(int same)
    {
        for (int i = Math.Min(same / Stride, checkpoints.Length - 1); i > 0; i--)
            if (checkpoints[i] is { Holds: true } one && one.Looked < same)
            {
                one.Restore(this);
                return i * Stride;
            }
        if (checkpoints[0] is { } start) start.Restore(this);
        else
        {
            Begin();
            (checkpoints[0] = new(this)).Keep(this);
        }
        return 0;
    }

    /// <summary>Makes a checkpoint where the held candidate has none yet.</summary>
    private void Mark(int place, int same)
    {
        if (place % Stride != 0 || place > same || looked >= same) return;
        ref Checkpoint? one = ref checkpoints[place / Stride];
        one ??= new(this);
        if (!one.Holds) one.Keep(this);
    }

    /// <summary>The state of a decode before a unit.</summary>
    private sealed class Checkpoint(Decoder of)
    {
        private readonly int[] ints = new int[of.ints.Sum(one => one.Length)];
        private readonly ulong[] held = new ulong[of.people];
        private readonly double[] burnt = new double[of.people];
        private readonly bool[] rough = new bool[of.people], calledOut = new bool[of.people], legIn = new bool[of.legIn.Length];
        private readonly string?[] setting = new string?[of.parcels];
        private readonly LastRide[] rides = new LastRide[of.people];
        private readonly List<Presence> presences = [];
        private readonly List<Sweep> sweeps = [];
        private readonly List<(int Bag, int Place, int Until)> hung = [];
        private readonly List<Deed> journal = [];
        private readonly (int From, int To, int Unit)[][] talks = [.. of.talks.Select(line => new (int, int, int)[line.Length])];
        private readonly (GoCase Go, int Leg, int Earliest)[] go = new (GoCase, int, int)[of.go.Length];
        private (long Broken, int Walked, int LeastMargin, int Gos, ulong SoiledParcels, int SoiledPeople) rest;

        /// <summary>Whether it is one of the held candidate.</summary>
        public bool Holds { get; set; }

        /// <summary>How far in the order was looked until then.</summary>
        public int Looked { get; private set; }

        public void Keep(Decoder from)
        {
            Span<int> to = ints;
            foreach (int[] one in from.ints)
            {
                one.CopyTo(to);
                to = to[one.Length..];
            }
            Copy(from.held, held, from.burnt, burnt, from.rough, rough, from.calledOut, calledOut, from.legIn, legIn, from.setting, setting, from.rides, rides);
            Copy(from.presences, presences);
            Copy(from.sweeps, sweeps);
            Copy(from.hung, hung);
            Copy(from.ownJournal, journal);
            for (int line = 0; line < talks.Length; line++) from.talks[line].AsSpan(0, from.talking[line]).CopyTo(talks[line]);
            from.go.AsSpan(0, from.gos).CopyTo(go);
            rest = (from.broken, from.walked, from.leastMargin, from.gos, from.soiledParcels, from.soiledPeople);
            (Looked, Holds) = (from.looked, true);
        }

        public void Restore(Decoder to)
        {
            ReadOnlySpan<int> from = ints;
            foreach (int[] one in to.ints)
            {
                from[..one.Length].CopyTo(one);
                from = from[one.Length..];
            }
            Copy(held, to.held, burnt, to.burnt, rough, to.rough, calledOut, to.calledOut, legIn, to.legIn, setting, to.setting, rides, to.rides);
            Copy(presences, to.presences);
            Copy(sweeps, to.sweeps);
            Copy(hung, to.hung);
            Copy(journal, to.ownJournal);
            for (int line = 0; line < talks.Length; line++) talks[line].AsSpan(0, to.talking[line]).CopyTo(to.talks[line]);
            (to.broken, to.walked, to.leastMargin, to.gos, to.soiledParcels, to.soiledPeople) = rest;
            go.AsSpan(0, to.gos).CopyTo(to.go);
            to.looked = Looked;
        }

        private static void Copy(ulong[] held, ulong[] heldTo, double[] burnt, double[] burntTo, bool[] rough, bool[] roughTo, bool[] calledOut, bool[] calledOutTo,
            bool[] legIn, bool[] legInTo, string?[] setting, string?[] settingTo, LastRide[] rides, LastRide[] ridesTo)
        {
            held.CopyTo(heldTo, 0);
            burnt.CopyTo(burntTo, 0);
            rough.CopyTo(roughTo, 0);
            calledOut.CopyTo(calledOutTo, 0);
            legIn.CopyTo(legInTo, 0);
            setting.CopyTo(settingTo, 0);
            rides.CopyTo(ridesTo, 0);
        }

        private static void Copy<T>(List<T> from, List<T> to)
        {
            CollectionsMarshal.SetCount(to, from.Count);
            CollectionsMarshal.AsSpan(from).CopyTo(CollectionsMarshal.AsSpan(to));
        }
    }
}
