using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Something that happens in one piece: one activity, or several without a gap.</summary>
internal sealed class EventNode
{
    /// <summary>As a person would name it, for circles and reasons.</summary>
    public required string Name { get; init; }

    /// <summary>Its activities, end to end.</summary>
    public required ImmutableArray<Part> Parts { get; init; }

    /// <summary>How long it takes, s.</summary>
    public int Seconds => Parts.Sum(part => part.Seconds);

    /// <summary>Times that it must stay clear of.</summary>
    public Closings Closed { get; init; } = Closings.None;

    /// <summary>For a way through zones: the earliest departure, not before a moment, that meets none while it is closed.</summary>
    public Func<int, int?>? NextDeparture { get; init; }

    /// <summary>What it waits for when it may not start at once, in words.</summary>
    public string WaitsFor { get; init; } = "";

    /// <summary>The earliest allowed start not before a moment; null when there is none.</summary>
    public int? NextAllowed(int from) => NextDeparture is { } next ? next(from) : Closed.Next(from, Seconds);

    /// <summary>No start before this, s of PET.</summary>
    public int NotBefore { get; set; } = int.MinValue;

    /// <summary>Whether it is moved as late as nothing else is moved by it.</summary>
    public bool Late { get; init; }

    /// <summary>The start it has had already, where the past of a plan is kept: no edge moves it.</summary>
    public int? Held { get; set; }

    public List<EventEdge> In { get; } = [];

    public List<EventEdge> Out { get; } = [];

    public int Start { get; set; }

    /// <summary>The edge that set <see cref="Start"/>, for naming circles.</summary>
    public EventEdge? SetBy { get; set; }

    public int End => Start + Seconds;
}

/// <summary>One activity of a node: how long, and how it is made once its times and what it waits for are known.</summary>
internal sealed record Part(ActivityId Id, int Seconds, Func<ActivityTimes, Activity> Make);

/// <summary>What expansion adds to an activity.</summary>
internal readonly record struct ActivityTimes(ActivityId Id, Pet Start, Pet End, ImmutableArray<Dependency> After);

/// <summary><c>To.Start ≥ From.Start + Lag</c>, in seconds.</summary>
internal sealed record EventEdge(EventNode From, EventNode To, int Lag, string Why)
{
    /// <summary>Whether it says that one thing follows the end of another, which is what an activity is shown to wait for.</summary>
    public bool Follows => Lag >= From.Seconds || Within is not null;

    /// <summary>The activity inside the earlier event whose end counts, and the time from that to the start; null when it is the last one.</summary>
    public (ActivityId Activity, int Lag)? Within { get; init; }
}

/// <summary>The events of a plan as far as they have started.</summary>
/// <param name="Starts">Every start of the plan, s of PET, by name and number.</param>
/// <param name="Until">What starts before this has happened, s of PET; all else is still to be decided.</param>
internal sealed record Past(IReadOnlyDictionary<(string Name, int Number), int> Starts, int Until);

/// <summary>The events of one outline. Solving gives each its earliest start; then what is late moves within its slack.</summary>
internal sealed class EventGraph
{
    private readonly List<EventNode> nodes = [];
    private readonly Dictionary<string, int> named = [];

    public IReadOnlyList<EventNode> Nodes => nodes;

    /// <summary>What has happened already: events of the same names, in the same order, keep their starts. Null for a plan from its beginning.</summary>
    public Past? Past { get; init; }

    public EventNode Add(EventNode node)
    {
        if (Past is { } past)
        {
            node.Held = PastStart(node.Name);
            if (node.Held is null) node.NotBefore = Math.Max(node.NotBefore, past.Until);
        }
        named[node.Name] = named.GetValueOrDefault(node.Name) + 1;
        nodes.Add(node);
        return node;
    }

    /// <summary>When the next event of this name has started already; null when it has not.</summary>
    public int? PastStart(string name) =>
        Past is { } past && past.Starts.TryGetValue((name, named.GetValueOrDefault(name)), out int start) && start < past.Until ? start : null;

    /// <summary>The starts by name and by how many of that name came before it.</summary>
    public IReadOnlyDictionary<(string Name, int Number), int> Starts()
    {
        Dictionary<(string, int), int> starts = [];
        Dictionary<string, int> counted = [];
        foreach (EventNode node in nodes)
        {
            int number = counted.GetValueOrDefault(node.Name);
            starts[(node.Name, number)] = node.Start;
            counted[node.Name] = number + 1;
        }
        return starts;
    }

    /// <summary><paramref name="to"/> starts no earlier than <paramref name="lag"/> after <paramref name="from"/> ends.</summary>
    public void Follow(EventNode? from, EventNode to, string why, int lag = 0)
    {
        if (from is not null) Connect(from, to, from.Seconds + lag, why);
    }

    public void Connect(EventNode from, EventNode to, int lag, string why, (ActivityId Activity, int Lag)? within = null)
    {
        EventEdge edge = new(from, to, lag, why) { Within = within };
        from.Out.Add(edge);
        to.In.Add(edge);
    }

    /// <summary>Finds the earliest starts.</summary>
    /// <returns>Null, or the problem: a circle of events that wait for each other, or an event that can never start.</returns>
    public OutlineProblem? Solve()
    {
        foreach (EventNode node in nodes) (node.Start, node.SetBy) = (int.MinValue, null);
        Queue<EventNode> queue = new(nodes);
        HashSet<EventNode> queued = [.. nodes];
        Dictionary<EventNode, int> times = [];
        while (queue.TryDequeue(out EventNode? node))
        {
            queued.Remove(node);
            if (node.Held is { } held)
            {
                if (node.Start == held) continue;
                node.Start = held;
                foreach (EventEdge edge in node.Out)
                    if (queued.Add(edge.To)) queue.Enqueue(edge.To);
                continue;
            }
            int start = Math.Max(node.NotBefore, 0);
            EventEdge? setBy = null;
            foreach (EventEdge edge in node.In)
                if (edge.From.Start != int.MinValue && edge.From.Start + edge.Lag > start) (start, setBy) = (edge.From.Start + edge.Lag, edge);
            if (node.NextAllowed(start) is not { } allowed)
                return new("outline.never", $"{node.Name} can never start: what it waits for ({node.WaitsFor}) never lasts long enough after {Pet.FromSeconds(start)}",
                    "move it earlier, or leave it out");
            start = allowed;
            if (start <= node.Start) continue;
            (node.Start, node.SetBy) = (start, setBy);
            times[node] = times.GetValueOrDefault(node) + 1;
            if (times[node] > nodes.Count + 1) return Circle(node);
            foreach (EventEdge edge in node.Out)
                if (queued.Add(edge.To)) queue.Enqueue(edge.To);
        }
        MoveLate();
        return null;
    }

    private static OutlineProblem Circle(EventNode node)
    {
        // Every event on a circle was last set by the one before it; walking back as often as there are events ends on the circle.
        List<EventNode> walked = [];
        HashSet<EventNode> seen = [];
        while (seen.Add(node))
        {
            walked.Add(node);
            if (node.SetBy is null) break;
            node = node.SetBy.From;
        }
        List<EventNode> circle = walked[walked.IndexOf(node)..];
        circle.Reverse();
        string named = string.Join(" → ", circle.Append(circle[0]).Select(step => step.Name));
        return new("outline.deadlock", $"these wait for each other in a circle: {named}", "change the order of one of them in its list");
    }

    private void MoveLate()
    {
        // Latest first: moving one command may give room to the command before it.
        foreach (EventNode node in nodes.Where(node => node is { Late: true, Held: null }).OrderByDescending(node => node.Start).ThenByDescending(nodes.IndexOf).ToList())
        {
            int latest = node.Out.Count == 0 ? node.Start : node.Out.Min(edge => edge.To.Start - edge.Lag);
            if (node.Closed.Last(latest, node.Seconds) is { } start && start > node.Start) node.Start = start;
        }
    }
}
