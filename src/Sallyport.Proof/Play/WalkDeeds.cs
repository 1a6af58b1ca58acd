using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Hand over hand along spans, and changing reels.</summary>
internal static class WalkDeeds
{
    public static Deed Translate(World world, Translate walk)
    {
        PersonId who = walk.Person;
        Person person = world.Lookup.Person(who);
        Deed deed = new(walk);
        deed.Needs("way.none", () => walk.Spans.Length > 0, () => $"{who} translates, but no span is named", () => "Name the spans walked.");
        if (walk.Spans.Length > 0) deed.NeedsAt(world, who, walk.Spans[0].From, () => "set off");
        deed.NeedsFree(world, who, () => "translate");
        if (world.Scenario.Tether.Protocol == TetherProtocol.Leapfrog) deed.AtStart.Add(HookMoments.Release(world, who, "sets off"));
        deed.Needs("hands.busy",
            () => world.CarriedBy(who).All(gear => world.PeekSpotOf(gear.Id).Kind != SpotKind.Hands),
            () => $"{who} translates with {string.Join(" and ", InHands(world, who))} in hand", () => "Hang it on a free carry point, or put it down first.");
        deed.Needs("way.short",
            () => walk.Spans.Sum(span => span.Time.Seconds) <= walk.Length.Seconds,
            () => $"{who}'s spans take {Duration.FromSeconds(walk.Spans.Sum(span => span.Time.Seconds))} together, but the whole is given {walk.Length}",
            () => "Let the times of the spans add up to the whole.");
        for (int i = 0; i < walk.Spans.Length; i++) Span(world, deed, person, walk, i);
        deed.Begin = () => world.Write(world.Of(who).Hooks, TetherHooks.Walking(world, who));
        return deed;
    }

    private static void Span(World world, Deed deed, Person person, Translate walk, int index)
    {
        SpanWalk told = walk.Spans[index];
        Span? span = world.Lookup.Span(told.From, told.To);
        deed.Needs("way.none", () => span is not null,
            () => $"{person.Id} goes from {told.From} to {told.To}, but no span joins them", () => "Walk along spans that the station has.");
        if (index > 0)
            deed.Needs("way.none", () => walk.Spans[index - 1].To == told.From,
                () => $"{person.Id} arrives at {walk.Spans[index - 1].To} and goes on from {told.From}", () => "Join the spans end to end.");
        if (span is null || person.Pace is null) return;
        // The load is that at the start: nothing is taken or put down between.
        deed.Needs("way.short",
            () => told.Time.Seconds >= Lookup.SpanSeconds(world.Scenario, person, span, world.SlowedBy(person.Id)),
            () => $"{person.Id} goes from {told.From} to {told.To} in {told.Time}, but needs {Least()} with {Load(world, person.Id)}",
            () => $"Give {person.Id} more time from {told.From} to {told.To}.",
            () => new(told.Time.ToString(), Least().ToString(), Duration.FromSeconds(told.Time.Seconds - Least().Seconds).ToString()));

        Duration Least() => Duration.FromSeconds(Lookup.SpanSeconds(world.Scenario, person, span, world.SlowedBy(person.Id)));
    }

    /// <summary>The end of one span: the place changes, the line pays out or winds in.</summary>
    public static void Arrive(World world, Translate walk, int index)
    {
        SpanWalk told = walk.Spans[index];
        Span? span = world.Lookup.Span(told.From, told.To);
        world.Become(world.Of(walk.Person).Place, Places.At(told.To));
        int millimetres = span is null ? 0 : (int)Math.Ceiling(span.Length * 1000 - 1e-6);
        world.Lines[walk.Person].Walk(new LineStretch(told.To, millimetres, span, told.Time.Seconds));
        world.ShowLine(walk.Person);
        if (index == walk.Spans.Length - 1) world.Write(world.Of(walk.Person).Hooks, TetherHooks.AtRest(world, walk.Person));
    }

    public static Deed Swap(World world, SwapReel swap)
    {
        PersonId who = swap.Person;
        TetherLine line = world.Lines[who];
        bool outward = swap.Onto == swap.At;
        Deed deed = new(swap);
        deed.NeedsTime(world.Scenario.Tether.Swap, () => "Changing reels");
        HookMoments.Needs(world, deed);
        deed.NeedsAt(world, who, swap.At, () => "change reels");
        deed.NeedsFree(world, who, () => "change reels");
        if (outward)
        {
            int reels = world.Lookup.Person(who).Reels.Length;
            deed.Needs("tether.none", () => world.Lookup.Grip(swap.At).Anchor,
                () => $"{who} hooks a reel at {swap.At}, where none may be hooked", () => "Hook the reel at a grip that is an anchor.");
            deed.Needs("tether.reach", () => world.Read(world.Of(who).Reels) < reels,
                () => $"{who} hooks one more reel at {swap.At}, but carries {reels} and all are in use", () => "Go another way, or carry another reel.");
        }
        else
        {
            deed.Needs("tether.none",
                () => world.Read(world.Of(who).Reels) > 1 && line.AnchorBefore == swap.Onto && line.Anchor == swap.At,
                () => $"{who} goes back at {swap.At} to the reel from {swap.Onto}, but the reel in use hangs at {line.Anchor?.Value ?? "nothing"} "
                    + $"and the one before at {line.AnchorBefore?.Value ?? "nothing"}",
                () => "Change back where the reel in use was hooked, onto the one before it.");
            deed.Needs("tether.wrap", () => world.Read(world.Of(who).Tether) == 0,
                () => $"{who} takes up the reel at {swap.At} with {line.PaidOut / 1000.0:0.0} m of it still laid round the structure",
                () => "Come back along the line first.");
        }
        if (swap.Hooks is null) deed.Begin = () => world.Write(world.Of(who).Hooks, TetherHooks.AtRest(world, who) + 1);
        deed.Finish = () =>
        {
            if (outward) line.Hook(swap.At);
            else if (line.Count > 1) line.Unhook();
            world.ShowLine(who);
            world.Write(world.Of(who).Hooks, TetherHooks.AtRest(world, who));
        };
        return deed;
    }

    private static IEnumerable<string> InHands(World world, PersonId person) =>
        world.CarriedBy(person).Where(gear => world.PeekSpotOf(gear.Id).Kind == SpotKind.Hands).Select(gear => gear.Id.Value);

    private static string Load(World world, PersonId person)
    {
        List<string> load = [.. world.CarriedBy(person).Select(gear => gear.Id.Value)];
        return load.Count == 0 ? "nothing carried" : string.Join(", ", load);
    }
}
