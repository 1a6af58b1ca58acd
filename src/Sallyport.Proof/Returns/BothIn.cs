using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>How long until everybody is inside and the hatch closed: all go home at once, enter one after another as they arrive, and then
/// the hatch is closed. With several airlocks, no hatch is closed before everybody is in, and the one that takes longest counts.</summary>
internal sealed class BothIn(ImmutableArray<(AirlockId Airlock, Pet From, Pet To)> closings, Closed closed)
{
    private readonly List<double> arrivals = [];

    /// <summary>All who go in through one airlock during a stretch.</summary>
    private sealed record Queue(Airlock Airlock, List<Segment> Pieces);

    public static ImmutableArray<ReturnPoint> Points(
        IReadOnlyList<(Airlock Airlock, ImmutableArray<Segment> Pieces)> everybody,
        ImmutableArray<(AirlockId Airlock, Pet From, Pet To)> closings, Closed closed, Pet from, Pet to) =>
        new BothIn(closings, closed).Points(everybody, from, to);

    private ImmutableArray<ReturnPoint> Points(IReadOnlyList<(Airlock Airlock, ImmutableArray<Segment> Pieces)> everybody, Pet from, Pet to)
    {
        List<Segment> pieces = [];
        List<Pet> ends = [from, to];
        foreach ((_, ImmutableArray<Segment> own) in everybody)
            foreach (Segment piece in own)
            {
                ends.Add(piece.From);
                ends.Add(piece.To);
            }
        ends.Sort();
        int[] next = new int[everybody.Count];
        List<(Airlock Airlock, Segment Piece)> active = [];
        for (int i = 0; i + 1 < ends.Count; i++)
        {
            if (ends[i] == ends[i + 1]) continue;
            active.Clear();
            for (int person = 0; person < everybody.Count; person++)
            {
                ImmutableArray<Segment> own = everybody[person].Pieces;
                while (next[person] < own.Length && own[next[person]].To <= ends[i]) next[person]++;
                if (next[person] < own.Length && own[next[person]].From <= ends[i]) active.Add((everybody[person].Airlock, own[next[person]]));
            }
            if (active.Count > 0) AddPieces(pieces, active, ends[i], ends[i + 1]);
        }
        return Segments.Points(pieces);
    }

    private void AddPieces(List<Segment> pieces, List<(Airlock Airlock, Segment Piece)> active, Pet from, Pet to)
    {
        Segment longest = active[0].Piece;
        List<Queue> queues = new(1);
        foreach ((Airlock airlock, Segment piece) in active)
        {
            if (piece.At(from) > longest.At(from)) longest = piece;
            int own = 0;
            while (own < queues.Count && queues[own].Airlock.Id != airlock.Id) own++;
            if (own == queues.Count) queues.Add(new(airlock, new(active.Count)));
            queues[own].Pieces.Add(piece);
        }
        // Somebody who has to queue meets a hatch that is closed meanwhile: then each second is looked at.
        bool shuts = false;
        foreach (Queue queue in queues) shuts = shuts || QueueMeets(queue, from, to);
        Pet start = from;
        if (shuts)
            for (int second = from.Seconds + 1; second < to.Seconds; second++) Add(Pet.FromSeconds(second));
        else
            foreach (int kink in Kinks(active, from, to)) Add(Pet.FromSeconds(kink));
        Add(to);

        void Add(Pet moment)
        {
            pieces.Add(new Segment(start, moment, At(queues, start, start, moment), At(queues, moment, start, moment), longest.Activity, Stage.Outside) { Closed = longest.Closed });
            start = moment;
        }
    }

    /// <summary>The whole seconds inside the stretch around which somebody overtakes somebody, or has to queue for somebody.</summary>
    private static IReadOnlyCollection<int> Kinks(List<(Airlock Airlock, Segment Piece)> active, Pet from, Pet to)
    {
        SortedSet<int>? kinks = null;
        int length = to.Seconds - from.Seconds;
        for (int i = 0; i < active.Count; i++)
        {
            for (int j = 0; j < active.Count; j++)
            {
                double rate = Rate(active[i].Piece) - Rate(active[j].Piece);
                if (i == j || Math.Abs(rate) < 1e-9) continue;
                for (int queue = -active.Count; queue <= active.Count; queue++)
                {
                    double ahead = active[i].Piece.At(from) - active[j].Piece.At(from) + queue * active[j].Airlock.InEach.Seconds;
                    double kink = -ahead / rate;
                    if (kink <= 0 || kink >= length) continue;
                    foreach (int whole in new[] { (int)Math.Floor(kink), (int)Math.Ceiling(kink) })
                        if (0 < whole && whole < length) (kinks ??= []).Add(from.Seconds + whole);
                }
            }
        }
        return kinks ?? (IReadOnlyCollection<int>)[];
    }

    private static double Rate(Segment piece) => (piece.ToSeconds - piece.FromSeconds) / (piece.To.Seconds - piece.From.Seconds);

    /// <summary>The value at one moment of the stretch from <paramref name="from"/> to <paramref name="to"/>.</summary>
    private double At(List<Queue> queues, Pet now, Pet from, Pet to)
    {
        double closing = 0, everybodyIn = 0, close = 0;
        foreach ((Airlock airlock, List<Segment> pieces) in queues)
        {
            if (LeftOfClosing(airlock, pieces, now, from, to) is { } left)
            {
                closing = Math.Max(closing, left);
                continue;
            }
            everybodyIn = Math.Max(everybodyIn, In(airlock, pieces, now));
            close = Math.Max(close, airlock.Close.Seconds);
        }
        return Math.Max(closing, everybodyIn + close);
    }

    /// <summary>While the hatch is being closed behind the last one, what is left of that; null at other times.</summary>
    private int? LeftOfClosing(Airlock airlock, List<Segment> pieces, Pet now, Pet from, Pet to)
    {
        foreach (Segment piece in pieces)
            if (piece.Stage != Stage.Inside) return null;
        foreach ((AirlockId closed, Pet start, Pet end) in closings)
            if (closed == airlock.Id && start <= from && to <= end) return end.Since(now).Seconds;
        return null;
    }

    private double In(Airlock airlock, List<Segment> pieces, Pet now)
    {
        double hatchFree = 0;
        arrivals.Clear();
        foreach (Segment piece in pieces)
            if (piece.Stage == Stage.Entering) hatchFree = Math.Max(hatchFree, piece.At(now));
            else if (piece.Stage == Stage.Outside) arrivals.Add(piece.At(now) - airlock.InEach.Seconds);
        arrivals.Sort();
        foreach (double arrival in arrivals)
        {
            // Each one's own way is clear; whoever stands in the queue longer may be shut out, and then there is no way.
            if (hatchFree > arrival && IsShut(airlock, now, now.Seconds + arrival, now.Seconds + hatchFree + airlock.InEach.Seconds)) return Way.NoneSeconds;
            hatchFree = Math.Max(hatchFree, arrival) + airlock.InEach.Seconds;
        }
        return hatchFree;
    }

    private bool QueueMeets(Queue queue, Pet from, Pet to)
    {
        if (queue.Pieces.Count < 2) return false;
        double most = queue.Pieces.Max(piece => Math.Max(piece.FromSeconds, piece.ToSeconds)) + queue.Pieces.Count * queue.Airlock.InEach.Seconds;
        return most < Way.NoneSeconds && IsShut(queue.Airlock, from, from.Seconds, to.Seconds + most);
    }

    private bool IsShut(Airlock airlock, Pet now, double from, double to) =>
        closed.Meets(Passage.Through(airlock), closed.WorkAt(now), (long)Math.Floor(from), (long)Math.Ceiling(to));
}
