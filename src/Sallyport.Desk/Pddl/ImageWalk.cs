using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Hand over hand along spans, and changing reels.</summary>
internal static class ImageWalk
{
    /// <summary>The place changes as each span ends, and an action has effects at its ends only: so each span is one action.</summary>
    public static IEnumerable<ImageAction> Spans(ImageWorld world, Translate walk)
    {
        Pet at = walk.Start;
        for (int i = 0; i < walk.Spans.Length; i++)
        {
            Duration time = walk.Spans[i].Time;
            // What is left over belongs to the last span.
            if (i == walk.Spans.Length - 1 && walk.End.Since(at) > time) time = walk.End.Since(at);
            yield return Span(world, walk, walk.Spans[i], at, time);
            at = at.Plus(time);
        }
        if (walk.Spans.IsEmpty)
        {
            // Without a span nobody gets anywhere: a grip is joined to itself nowhere.
            string nowhere = world.Grip(world.Scenario.Station.Grips[0].Id);
            yield return world.Action("walk", walk, Duration.FromSeconds(1)).NeedsAtStart($"(span {nowhere} {nowhere})");
        }
    }

    private static ImageAction Span(ImageWorld world, Translate walk, SpanWalk told, Pet start, Duration time)
    {
        string from = world.Grip(told.From), to = world.Grip(told.To);
        ImageAction action = world.Action("walk", walk, start, time, Least(world, walk.Person, told))
            .NeedsAtStart($"(span {from} {to})")
            .NeedsAtStart(world.Stands(walk.Person, from))
            .NeedsAtStart(world.IsLoose(walk.Person))
            .Ends(Say.Not(world.Stands(walk.Person, from)))
            .Ends(world.Stands(walk.Person, to));
        foreach (Gear gear in world.Scenario.Gear) action.NeedsAtStart(Say.Not(world.Spots.Lies(gear.Id, world.Spots.Hands(walk.Person))));
        Point At(GripId grip) => world.Scenario.Station.Grips.Single(one => one.Id == grip).At;
        ImageClosings.Guard(world, action, new(At(told.From), At(told.To)), [told.From, told.To]);
        return action;
    }

    /// <summary>The time with nothing carried: with a load it is longer, and how much is a matter of figures that this image has not.</summary>
    private static Duration Least(ImageWorld world, PersonId person, SpanWalk told)
    {
        Span[] between = [.. world.Scenario.Station.Spans.Where(span => (span.A == told.From && span.B == told.To) || (span.A == told.To && span.B == told.From))];
        if (between.Length == 0 || world.Spots.PersonOf(person).Pace is not { } pace) return Duration.FromSeconds(1);
        // Of two spans between the same grips the timeline does not say which: the longer one counts.
        Span span = between.MaxBy(one => one.Length)!;
        double seconds = span.Class switch
        {
            SpanClass.Easy => span.Length / pace.Easy,
            SpanClass.Careful => span.Length / pace.Careful,
            _ => pace.Gap.Seconds,
        };
        Duration walking = Duration.CeilingFromSeconds(seconds);
        return world.Scenario.Tether.Protocol == TetherProtocol.Leapfrog ? walking.Plus(world.Scenario.Tether.Hook) : walking;
    }

    public static ImageAction Swap(ImageWorld world, SwapReel swap)
    {
        ImageAction action = world.Action("swap", swap, world.Scenario.Tether.Swap)
            .NeedsAtStart(world.Stands(swap.Person, world.Grip(swap.At)))
            .NeedsAtStart(world.IsLoose(swap.Person));
        if (swap.Onto == swap.At) action.NeedsAtStart($"(anchor {world.Grip(swap.At)})");
        return action;
    }
}
