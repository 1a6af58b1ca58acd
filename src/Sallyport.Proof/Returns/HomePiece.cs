using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What has to be done before the way home begins.</summary>
internal enum HeadKind
{
    /// <summary>Nothing: the way begins at once.</summary>
    None,
    /// <summary>What goes on is ended first, at a moment that is known.</summary>
    Ending,
    /// <summary>What was walked since a moment is walked back.</summary>
    Back,
}

/// <summary>One thing that a person can do to come home during a piece: end or turn back what goes on, and then a way.</summary>
/// <param name="Kind">What comes first.</param>
/// <param name="Where">Where that is.</param>
/// <param name="Moment">When it is ended, or since when it was walked.</param>
/// <param name="Way">The way then.</param>
internal readonly record struct HomeOption(HeadKind Kind, Passage Where, Pet Moment, Way Way)
{
    public static HomeOption Now(Way way) => new(HeadKind.None, default, default, way);

    /// <summary>The second of arrival of somebody who begins it at a moment; <see cref="Course.Never"/> where what is closed leaves no way.</summary>
    public long Arrival(Closed closed, int work, Pet moment)
    {
        long ready = Ready(moment);
        return Kind != HeadKind.None && closed.Meets(Where, work, moment.Seconds, ready) ? Course.Never : Way.Course(closed, work).At(ready);
    }

    /// <summary>Whether anything closed in a stretch of seconds can make it longer.</summary>
    public bool Meets(Closed closed, int work, long from, long to) =>
        (Kind != HeadKind.None && closed.Meets(Where, work, from, to)) || Way.Meets(closed, work, from, to);

    public IEnumerable<string> Names(Closed closed, int work, long from, long to) =>
        (Kind == HeadKind.None ? [] : closed.Names(Where, work, from, to)).Concat(Way.Names(closed, work, from, to));

    private long Ready(Pet moment) => Kind switch
    {
        HeadKind.Ending => Moment.Seconds,
        HeadKind.Back => 2L * moment.Seconds - Moment.Seconds,
        _ => moment.Seconds,
    };
}

/// <summary>A piece of a return time while nothing is known yet of what is closed, and what it is made of.</summary>
/// <param name="Open">The piece with everything open.</param>
/// <param name="Options">What the person can do; none where no way is asked.</param>
/// <param name="Worst">Whether the longest of them counts, and not the shortest.</param>
internal sealed record HomePiece(Segment Open, ImmutableArray<HomeOption> Options, bool Worst = false)
{
    /// <summary>Adds the piece as it is with what is closed: straight between whole seconds, and itself where nothing closed comes in its way.</summary>
    public void AddTo(List<Segment> pieces, Closed closed)
    {
        long last = Open.To.Seconds + (long)Math.Ceiling(Math.Max(Open.FromSeconds, Open.ToSeconds));
        int first = closed.WorkAt(Open.From), final = closed.WorkAt(Pet.FromSeconds(Open.To.Seconds - 1));
        bool waits = false;
        for (int work = first; work <= final && !waits; work++)
            foreach (HomeOption option in Options) waits |= option.Meets(closed, work, Open.From.Seconds, last);
        if (waits) pieces.AddRange(Waiting(closed));
        else pieces.Add(Open);
    }

    private IEnumerable<Segment> Waiting(Closed closed) => Sampled.Pieces(Open, moment => At(closed, moment), (from, to) => Names(closed, from, to));

    private double At(Closed closed, Pet moment)
    {
        int work = closed.WorkAt(moment);
        long arrival = Worst ? 0 : Course.Never;
        foreach (HomeOption option in Options) arrival = Worst ? Math.Max(arrival, option.Arrival(closed, work, moment)) : Math.Min(arrival, option.Arrival(closed, work, moment));
        return Math.Min(Way.NoneSeconds, arrival - moment.Seconds);
    }

    private string Names(Closed closed, Pet from, double seconds) => string.Join(" and ",
        Options.SelectMany(option => option.Names(closed, closed.WorkAt(from), from.Seconds, from.Seconds + (long)Math.Ceiling(seconds))).Distinct().Order(StringComparer.Ordinal));
}

/// <summary>A return time reckoned at each second, as straight pieces.</summary>
internal static class Sampled
{
    /// <summary>The pieces: exact at each whole second, so that where the time jumps, one piece of a second leads there.</summary>
    /// <param name="open">What goes on, and when.</param>
    /// <param name="at">The return time at a second.</param>
    /// <param name="names">What is closed on the way of somebody who turns back at a moment, so many seconds long.</param>
    public static IEnumerable<Segment> Pieces(Segment open, Func<Pet, double> at, Func<Pet, double, string> names)
    {
        int from = open.From.Seconds, to = open.To.Seconds;
        double start = at(open.From), before = start, slope = double.NaN;
        for (int second = from + 1; second < to; second++)
        {
            double now = at(Pet.FromSeconds(second));
            if (now - before != slope && !double.IsNaN(slope))
            {
                yield return Piece(from, second - 1, start, before);
                (from, start) = (second - 1, before);
            }
            (slope, before) = (now - before, now);
        }
        // Up to the end as before, but no jump goes on.
        double end = Math.Abs(slope) <= 2 ? before + slope : before;
        if (double.IsNaN(slope) || Math.Abs(slope) <= 2) yield return Piece(from, to, start, end);
        else
        {
            yield return Piece(from, to - 1, start, before);
            yield return Piece(to - 1, to, before, before);
        }

        Segment Piece(int first, int last, double fromSeconds, double toSeconds)
        {
            Pet worst = fromSeconds >= toSeconds ? Pet.FromSeconds(first) : Pet.FromSeconds(last);
            string closed = names(worst, Math.Max(fromSeconds, toSeconds));
            return open with { From = Pet.FromSeconds(first), To = Pet.FromSeconds(last), FromSeconds = fromSeconds, ToSeconds = toSeconds, Closed = closed.Length == 0 ? null : closed };
        }
    }
}
