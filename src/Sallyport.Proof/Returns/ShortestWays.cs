using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The quickest ways over spans from everywhere to one grip, and then on; where a zone is closed on the quickest, the best of all ways.</summary>
internal sealed class ShortestWays
{
    private readonly Dictionary<GripId, (Way Way, double Metres, GripId? Next)> found = [];
    private readonly ILookup<GripId, (GripId To, Span Span)> spans;
    private readonly GripId to;
    private readonly Way end;
    private readonly Func<Span, int> seconds;
    private readonly Dictionary<int, Dictionary<GripId, Course>> courses = [];

    /// <summary>The courses were reckoned with what is closed in this play.</summary>
    private int play;

    /// <param name="lookup">The station's spans.</param>
    /// <param name="to">Where all ways lead.</param>
    /// <param name="end">What follows there.</param>
    /// <param name="seconds">How long a span takes.</param>
    public ShortestWays(Lookup lookup, GripId to, Way end, Func<Span, int> seconds)
    {
        spans = lookup.SpansFrom;
        (this.to, this.end, this.seconds) = (to, end, seconds);
        PriorityQueue<(GripId Grip, GripId? Next, int Last), (int Seconds, double Metres)> queue = new();
        queue.Enqueue((to, null, 0), (0, 0));
        while (queue.TryDequeue(out (GripId Grip, GripId? Next, int Last) one, out (int Seconds, double Metres) so))
        {
            if (found.ContainsKey(one.Grip)) continue;
            // Where all ways lead one may have to go away again, and come back when it is open.
            (Passage where, Way after) = one.Next is { } next ? (new Passage(Places.At(one.Grip), Places.At(next)), found[next].Way) : (Passage.At(Places.At(to)), end);
            Way way = after == Way.None ? after : new(new(where, one.Last), after, (closed, work) => CourseFrom(one.Grip, closed, work));
            found[one.Grip] = (way, so.Metres, one.Next);
            foreach ((GripId before, Span span) in spans[one.Grip])
                if (!found.ContainsKey(before) && seconds(span) is var takes && takes < Way.NoneSeconds)
                    queue.Enqueue((before, one.Grip, takes), (so.Seconds + takes, so.Metres + span.Length));
        }
    }

    /// <summary>The quickest way from a grip.</summary>
    public Way From(GripId grip) => found.TryGetValue(grip, out var way) ? way.Way : Way.None;

    /// <summary>The grips of the quickest way, the first one included; none where there is no way.</summary>
    public IReadOnlyList<GripId> Grips(GripId grip)
    {
        List<GripId> grips = [];
        for (GripId? at = found.ContainsKey(grip) ? grip : null; at is { } here; at = found[here].Next) grips.Add(here);
        return grips;
    }

    /// <summary>The quickest span from one grip to the next.</summary>
    public Span SpanBetween(GripId from, GripId next) => spans[from].Where(one => one.To == next).Select(one => one.Span).MinBy(seconds)!;

    private Course CourseFrom(GripId grip, Closed closed, int work)
    {
        if (play != closed.Play)
        {
            courses.Clear();
            play = closed.Play;
        }
        if (!courses.TryGetValue(work, out Dictionary<GripId, Course>? all)) courses[work] = all = Reckoned(closed, work);
        return all.GetValueOrDefault(grip, Course.None);
    }

    /// <summary>From the end backwards, again and again, until no way is better any more.</summary>
    private Dictionary<GripId, Course> Reckoned(Closed closed, int work)
    {
        Dictionary<GripId, Course> best = new() { [to] = end.Course(closed, work) };
        Queue<GripId> open = new([to]);
        HashSet<GripId> waiting = [to];
        while (open.TryDequeue(out GripId grip))
        {
            waiting.Remove(grip);
            foreach ((GripId before, Span span) in spans[grip])
            {
                int takes = seconds(span);
                if (takes >= Way.NoneSeconds) continue;
                string here = Places.At(before);
                Course over = best[grip].Before(takes, closed.Of(new(here, Places.At(grip)), work), closed.Of(Passage.At(here), work));
                Course better = best.TryGetValue(before, out Course? known) ? Course.Best(known, over) : over;
                if (known is not null && better.Same(known)) continue;
                best[before] = better;
                if (waiting.Add(before)) open.Enqueue(before);
            }
        }
        return best;
    }
}
