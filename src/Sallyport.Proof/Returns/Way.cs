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

    /// <summary>What is kept below was reckoned with what is closed in this play, and is worth nothing in another.</summary>
    private int play;
    private Dictionary<int, Course>? courses;

    /// <summary>When something on it is closed whatever is done; default until it is asked for.</summary>
    private ImmutableArray<PetInterval> always;

    /// <summary>What was asked last of what follows from the work done: moments are asked for in their order, and so is the work done until then.</summary>
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

    /// <summary>A piece of way before this one; no way before no way.</summary>
    public Way Behind(Passage where, int seconds) =>
        this == None || seconds >= NoneSeconds ? None : seconds == 0 ? this : new(new(where, seconds), this);

    /// <summary>Pieces in their order before this way.</summary>
    public Way Behind(IReadOnlyList<WayLeg> legs)
    {
        Way way = this;
        for (int i = legs.Count - 1; i >= 0; i--) way = way.Behind(legs[i].Where, legs[i].Seconds);
        return way;
    }

    /// <summary>When one arrives.</summary>
    public Course Course(Closed closed, int work)
    {
        if (next is null) return Seconds == 0 ? Proof.Course.Arrived : Proof.Course.None;
        Forget(closed);
        courses ??= [];
        if (!courses.TryGetValue(work, out Course? course))
            courses[work] = course = best is not null ? best(closed, work)
                : leg.Seconds == 0 ? next.Course(closed, work)
                : leg.Seconds >= NoneSeconds ? Proof.Course.None
                : next.Course(closed, work).Before(leg.Seconds, closed.Of(leg.Where, work), closed.Of(Passage.At(leg.Where.From), work));
        return course;
    }

    /// <summary>Whether anything on it, taken without waiting, is closed in a stretch of seconds.</summary>
    public bool Meets(Closed closed, int work, long from, long to) =>
        Proof.Closed.Meets(Always(closed), from, to) || Proof.Closed.Meets(Closings(closed, work), from, to);

    /// <summary>What closes it in a stretch of seconds, by name.</summary>
    public IEnumerable<string> Names(Closed closed, int work, long from, long to)
    {
        for (Way? way = this; way?.next is not null; way = way.next)
            foreach (string name in closed.Names(way.leg.Where, work, from, to)) yield return name;
    }

    private ImmutableArray<PetInterval> Always(Closed closed)
    {
        if (next is null) return [];
        Forget(closed);
        return always.IsDefault ? always = Proof.Closed.Joined(closed.WhateverIsDone(leg.Where), next.Always(closed)) : always;
    }

    private ImmutableArray<PetInterval> Closings(Closed closed, int work)
    {
        if (next is null) return [];
        Forget(closed);
        if (closings.Work == work) return closings.Times;
        closings = (work, Proof.Closed.Joined(closed.ByWork(leg.Where, work), next.Closings(closed, work)));
        return closings.Times;
    }

    private void Forget(Closed closed)
    {
        if (play == closed.Play) return;
        (play, courses, always, closings) = (closed.Play, null, default, (-1, []));
    }
}
