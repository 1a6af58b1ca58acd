using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The steps of legs: what each needs and makes.</summary>
internal static class ImageSteps
{
    public static ImageAction Of(ImageWorld world, DoStep act)
    {
        Leg leg = world.Scenario.Legs.Single(one => one.Id == act.Leg);
        Step step = leg.Steps.Single(one => one.Id == act.Step);
        Site site = world.Scenario.Station.Sites.Single(one => one.Id == leg.Site);
        ImageAction action = world.Action("step", act, step.Time.Likely);
        Order(world, action, act, leg, leg.Steps.IndexOf(step));
        Held(world, action, act, leg, site);
        foreach (Need need in step.Needs) Add(action, need.When, Needed(world, act, site, need));
        if (leg.Light is { } light) action.NeedsThroughout(light == LightCondition.Night ? "(dark)" : "(not (night))");
        if (leg.NeedsLink) action.NeedsThroughout(world.HasLink);
        foreach (ShutdownId shutdown in leg.Shutdowns) action.NeedsThroughout($"(off {world.Shutdown(shutdown)})");
        List<FeatureState> made = [.. step.Makes.OfType<MakeFeature>().Select(make => make.State)];
        foreach (string literal in world.Becomes(made)) action.Ends(literal);
        foreach (FeatureState one in made.Where(one => world.IsSwitch(one.Feature))) action.EndsWhen(Say.Not(world.Is(one.Feature, one.State)), Say.Not(world.IsKnown(one.Feature)));
        foreach (MoveGear move in step.Makes.OfType<MoveGear>().GroupBy(move => move.Gear).Select(moves => moves.Last())) Moves(world, action, act, leg, site, move);
        foreach (IGrouping<GearId, UseStock> uses in step.Makes.OfType<UseStock>().GroupBy(use => use.Gear)) Uses(world, action, act, site, uses.Key, uses.Sum(use => use.Count));
        return action;
    }

    /// <summary>Steps in their order, all by the one person who began the leg; and what the first of them waits for.</summary>
    private static void Order(ImageWorld world, ImageAction action, DoStep act, Leg leg, int number)
    {
        string name = world.Leg(leg.Id), doing = $"(doing {world.Person(act.Person)} {name})", due = Due(world, leg, number);
        action.NeedsAtStart(due).Ends(Say.Not(due)).Ends(number + 1 < leg.Steps.Length ? Due(world, leg, number + 1) : $"(done {name})");
        if (number > 0)
        {
            action.NeedsAtStart(doing);
            return;
        }
        action.Begins(doing).Begins($"(begun {name})").NeedsAtStart($"(may {world.Person(act.Person)} {name})");
        foreach (string training in leg.Training) action.NeedsAtStart($"(trained {world.Person(act.Person)} {world.Training(training)})");
        foreach (GearId gear in leg.With) action.NeedsAtStart(world.Spots.IsOn(act.Person, gear));
        foreach (Precedence before in leg.After) action.NeedsAtStart($"(done {world.Leg(before.Leg)})");
        // Begun at the same moment: neither goes on alone, even for the shortest time.
        if (leg.Together.Length > 0)
            foreach (Leg other in world.Scenario.Legs.Where(other => other.Id != leg.Id && other.Job == leg.Job && other.Together == leg.Together))
                action.NeedsBetween($"(begun {world.Leg(other.Id)})");
    }

    public static string Due(ImageWorld world, Leg leg, int number) => $"(due {world.Leg(leg.Id)} {world.Step(leg.Steps[number].Id)})";

    private static void Held(ImageWorld world, ImageAction action, DoStep act, Leg leg, Site site)
    {
        action.NeedsThroughout(world.Stands(act.Person, world.PlaceOf(site)));
        if (leg.Footing == Footing.Arm) action.NeedsThroughout(Say.Or(world.Scenario.Arms.Where(arm => arm.Id == site.Arm).Select(arm => $"(aboard {world.Person(act.Person)} {world.Arm(arm.Id)})")));
        if (leg.Footing != Footing.Restraint || leg.Restraint is not { } restraint || leg.Socket is not { } socket) return;
        action.NeedsThroughout($"(held-at {world.Person(act.Person)} {world.Spots.Socket(socket)})");
        action.NeedsThroughout(world.Spots.Lies(restraint, world.Spots.Socket(socket)));
        if (leg.Setting is { } setting) action.NeedsThroughout(ImageHandling.Fixed(world, restraint, setting));
    }

    private static void Add(ImageAction action, NeedTime when, string condition)
    {
        if (when == NeedTime.Start) action.NeedsAtStart(condition);
        else if (when == NeedTime.Throughout) action.NeedsThroughout(condition);
        else action.NeedsAtEnd(condition);
    }

    private static string Needed(ImageWorld world, DoStep act, Site site, Need need) => need switch
    {
        NeedFeature one => world.Holds(one.Condition),
        NeedGear one => world.Spots.IsAtHand(act.Person, one.Gear, site),
        NeedDead one => ImagePower.IsDead(world, one.Node, one.Inhibits),
        NeedGo one => ImageCommands.IsRead(world, one.Command),
        _ => throw new ArgumentException($"step '{act.Step}' of '{act.Leg}' has a need that has no image: {need.GetType().Name}"),
    };

    private static void Moves(ImageWorld world, ImageAction action, DoStep act, Leg leg, Site site, MoveGear move)
    {
        ImageSpots spots = world.Spots;
        action.NeedsAtEnd(spots.IsAtHand(act.Person, move.Gear, site));
        if (move.To.Kind == LocationKind.Person)
        {
            PersonId onto = move.To.Name.Length == 0 ? act.Person : new(move.To.Name);
            OntoSuit(world, action, act, site, move.Gear, onto);
            return;
        }
        if (move.To.Kind == LocationKind.Bag) action.NeedsAtEnd(spots.IsAtHand(act.Person, new(move.To.Name), site));
        string to = move.To.Kind == LocationKind.Site && move.To.Name.Length == 0 ? spots.Site(leg.Site) : spots.At(move.To);
        Leaves(world, action, act, site, move.Gear, to);
        action.Ends(spots.Lies(move.Gear, to));
    }

    /// <summary>The thing is no more where it was at hand; a carry point where it hung is clear.</summary>
    private static void Leaves(ImageWorld world, ImageAction action, DoStep act, Site site, GearId gear, string to)
    {
        foreach (string carry in world.Spots.CarriesOf(act.Person)) action.EndsWhen(world.Spots.Lies(gear, carry), $"(clear {carry})");
        foreach (string spot in world.Spots.AtHand(act.Person, site).Concat(world.Spots.BagsOf(gear).Select(world.Spots.Bag)))
            if (spot != to) action.Ends(Say.Not(world.Spots.Lies(gear, spot)));
    }

    /// <summary>Onto the first carry point that takes it and is clear, unless it hangs on that person already.</summary>
    private static void OntoSuit(ImageWorld world, ImageAction action, DoStep act, Site site, GearId gear, PersonId onto)
    {
        ImageSpots spots = world.Spots;
        string there = spots.IsWith(onto, gear), not = Say.Not(there);
        List<string> carries = [.. spots.PersonOf(onto).CarryPoints.Where(point => point.Sizes.Contains(spots.GearOf(gear).Size)).Select(point => spots.Carry(onto, point.Id))];
        action.NeedsAtEnd(Say.Or([there, .. carries.Select(carry => $"(clear {carry})")]));
        IEnumerable<string> from = spots.AtHand(act.Person, site).Except(spots.On(onto)).Concat(spots.BagsOf(gear).Select(spots.Bag));
        foreach (string spot in from) action.EndsWhen(not, Say.Not(spots.Lies(gear, spot)));
        if (onto != act.Person)
            foreach (string carry in spots.CarriesOf(act.Person)) action.EndsWhen(spots.Lies(gear, carry), $"(clear {carry})");
        for (int i = 0; i < carries.Count; i++)
        {
            string first = Say.And([not, $"(clear {carries[i]})", .. carries.Take(i).Select(carry => $"(not (clear {carry}))")]);
            action.EndsWhen(first, spots.Lies(gear, carries[i])).EndsWhen(first, $"(not (clear {carries[i]}))");
        }
    }

    /// <summary>Pieces are counted: one sentence for each number that can be left.</summary>
    private static void Uses(ImageWorld world, ImageAction action, DoStep act, Site site, GearId gear, int count)
    {
        action.NeedsAtEnd(world.Spots.IsAtHand(act.Person, gear, site));
        int most = world.Spots.GearOf(gear).Count;
        IEnumerable<int> enough = Enumerable.Range(0, most + 1).Where(left => left >= count);
        action.NeedsAtEnd(Say.Or(enough.Select(left => Left(world, gear, left))));
        foreach (int left in enough)
        {
            action.EndsWhen(Left(world, gear, left), Say.Not(Left(world, gear, left)));
            action.EndsWhen(Left(world, gear, left), Left(world, gear, left - count));
        }
        // With the last piece the thing is used up.
        string last = Left(world, gear, count);
        foreach (string spot in world.Spots.AtHand(act.Person, site).Concat(world.Spots.BagsOf(gear).Select(world.Spots.Bag)))
            action.EndsWhen(last, Say.Not(world.Spots.Lies(gear, spot)));
        foreach (string carry in world.Spots.CarriesOf(act.Person))
            action.EndsWhen(Say.And([last, world.Spots.Lies(gear, carry)]), $"(clear {carry})");
        action.EndsWhen(last, world.Spots.Lies(gear, world.Spots.Spent));
    }

    public static string Left(ImageWorld world, GearId gear, int count) => $"(left {world.Gear(gear)} {world.Count(count)})";
}
