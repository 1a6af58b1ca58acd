using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>A way, piece by piece to its end. How long it takes with everything open is known at once; what waiting adds, once all is played.</summary>
internal sealed class Way
{
    /// <summary>Stands for "no way at all", s.</summary>
    public const int NoneSeconds = ReturnPoint.NoWaySeconds;

    private readonly WayLeg leg;
    private readonly Way? next;
    private readonly Func<Closed, int, Course>? best;
    private Dictionary<int, Course>? courses;

    /// <summary>What was asked last: moments are asked for in their order, and so is the work done until then.</summary>
    private (int Work, ImmutableArray<PetInterval> Times) closings = (-1, []);

    private Way(WayLeg leg, Way? next, Func<Closed, int, Course>? best, int seconds)
    {
        this.leg = leg;
        this.next = next;
        this.best = best;
        Seconds = Math.Min(NoneSeconds, seconds);
    }

    /// <summary>A piece of way before another way.</summary>
    /// <param name="leg">The piece.</param>
    /// <param name="next">What follows.</param>
    /// <param name="best">Where there is a choice of ways: the course of the best of them.</param>
    public Way(WayLeg leg, Way next, Func<Closed, int, Course>? best = null)
        : this(leg, next, best, next.Seconds + leg.Seconds)
    {
    }

    /// <summary>One is there.</summary>
    public static Way Arrived { get; } = new(default, null, null, 0);

    /// <summary>There is no way at all.</summary>
    public static Way None { get; } = new(default, null, null, NoneSeconds);

    /// <summary>How long it takes where nothing has to be waited for.</summary>
    public int Seconds { get; }

    /// <summary>When one arrives.</summary>
    public Course Course(Closed closed, int work)
    {
        if (next is null) return Seconds == 0 ? Proof.Course.Arrived : Proof.Course.None;
        courses ??= [];
        if (!courses.TryGetValue(work, out Course? course))
            courses[work] = course = best is not null ? best(closed, work)
                : leg.Seconds == 0 ? next.Course(closed, work)
                : leg.Seconds >= NoneSeconds ? Proof.Course.None
                : next.Course(closed, work).Before(leg.Seconds, closed.Of(leg.Where, work), closed.Of(Passage.At(leg.Where.From), work));
        return course;
    }

    /// <summary>Whether anything on it, taken without waiting, is closed in a stretch of seconds.</summary>
    public bool Meets(Closed closed, int work, long from, long to) => Proof.Closed.Meets(Closings(closed, work), from, to);

    /// <summary>What closes it in a stretch of seconds, by name.</summary>
    public IEnumerable<string> Names(Closed closed, int work, long from, long to)
    {
        for (Way? way = this; way?.next is not null; way = way.next)
            foreach (string name in closed.Names(way.leg.Where, work, from, to)) yield return name;
    }

    private ImmutableArray<PetInterval> Closings(Closed closed, int work)
    {
        if (next is null) return [];
        if (closings.Work == work) return closings.Times;
        ImmutableArray<PetInterval> own = closed.Of(leg.Where, work), rest = next.Closings(closed, work);
        closings = (work, own.IsEmpty ? rest : rest.IsEmpty ? own : Intervals.Join(own.Concat(rest)));
        return closings.Times;
    }
}

/// <summary>Ways, each made once, so that what is reckoned of one is reckoned once.</summary>
internal sealed class Ways
{
    private readonly Dictionary<Way, List<(WayLeg Leg, Way Way)>> made = new(ReferenceEqualityComparer.Instance);

    /// <summary>A piece of way before another way; nothing before no way.</summary>
    public Way Before(Way next, Passage where, int seconds)
    {
        if (next == Way.None || seconds >= Way.NoneSeconds) return Way.None;
        if (seconds == 0) return next;
        if (!made.TryGetValue(next, out List<(WayLeg Leg, Way Way)>? before)) made[next] = before = [];
        // Few pieces ever lead to the same way.
        foreach ((WayLeg leg, Way way) in before)
            if (leg.Seconds == seconds && leg.Where == where) return way;
        before.Add((new(where, seconds), new(new(where, seconds), next)));
        return before[^1].Way;
    }

    /// <summary>Pieces in their order before another way.</summary>
    public Way Before(Way next, IReadOnlyList<WayLeg> legs)
    {
        for (int i = legs.Count - 1; i >= 0; i--) next = Before(next, legs[i].Where, legs[i].Seconds);
        return next;
    }
}
