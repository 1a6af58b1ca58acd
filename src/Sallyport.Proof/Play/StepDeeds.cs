using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The steps of legs: what each needs of place, footing, gear, people, light, link and features, and what it makes.</summary>
internal static class StepDeeds
{
    public static Deed Of(World world, LegStarts starts, DoStep act)
    {
        Leg leg = world.Lookup.Leg(act.Leg);
        Step step = world.Lookup.Step(act.Leg, act.Step);
        Site site = world.Lookup.Site(leg.Site);
        int number = leg.Steps.IndexOf(step);
        Deed deed = new(act);
        deed.NeedsTime(Least(world, act, step), () => act.LeftBy is null ? $"{leg.Id}, step {step.Id}," : $"Leaving step {step.Id} of {leg.Id}");
        NeedsOrder(world, deed, act, leg, number);
        if (number == 0) LegStart.Needs(world, starts, deed, act, leg);
        NeedsPlaceAndFooting(world, deed, act, leg, site);
        // What the work needs is not asked where none of it was begun, and only what its terminate brings back is done.
        bool begun = act.LeftBy is null || world.Trouble is not { } trouble || act.Start < trouble.From;
        foreach (Need need in begun ? step.Needs : []) Needs(world, deed, act, site, need);
        NeedsAllThrough(world, deed, act, leg);
        ToolDeeds.Add(world, deed, act, leg, step);
        // A step that is left does none of its work on a line, but what it opened until then may have soiled somebody.
        if (act.LeftBy is null) FluidDeeds.Of(world, deed, act, step);
        SoilDeeds.Of(world, deed, act, step, site);
        if (act.LeftBy is { } left)
        {
            // What must be so when it is done is not asked of a step that is left; what it leaves behind is.
            deed.AtEnd.Clear();
            foreach (FeatureState state in BreakOffOf(step, left).Leaves) Makes(world, deed, act, leg, site, new MakeFeature(state));
        }
        else foreach (Effect effect in step.Makes) Makes(world, deed, act, leg, site, effect);

        int progress = world.Register.Legs[leg.Id];
        PersonVariables person = world.Of(act.Person);
        bool tied = leg.Footing == Footing.BodyTether;
        deed.Begin += () =>
        {
            if (number == 0) world.Become(progress, "under way");
            if (tied && world.State(person.Footing) == Places.Free) world.Become(person.Footing, Places.BodyTether);
        };
        deed.Finish += () =>
        {
            if (world.State(person.Footing) == Places.BodyTether) world.Become(person.Footing, Places.Free);
            if (act.LeftBy is not null) return;
            if (number == leg.Steps.Length - 1) world.Become(progress, "done");
            world.StepsDone[leg.Id] = (number + 1, act.End, act.Person);
        };
        return deed;
    }

    /// <summary>The least time: what is likely; less for a step that is done sooner; for one that is left, what was done of it and its break-off.</summary>
    private static Duration Least(World world, DoStep act, Step step)
    {
        if (act.LeftBy is { } left) return BreakOffOf(step, left).Time.Plus(world.Trouble is { } told && act.Start < told.From ? told.From.Since(act.Start) : default);
        return world.Trouble is { Extra.Seconds: < 0 } quick && quick.Leg == act.Leg && quick.Step == act.Step ? step.Time.Likely.Plus(quick.Extra) : step.Time.Likely;
    }

    private static Model.BreakOff BreakOffOf(Step step, Leaving left) => left == Leaving.Terminate ? step.Terminate : step.Abort;

    /// <summary>Steps in their order, by one person, without a gap unless the leg may wait.</summary>
    private static void NeedsOrder(World world, Deed deed, DoStep act, Leg leg, int number)
    {
        deed.Needs("job.order", () => world.StepsDone.GetValueOrDefault(leg.Id).Steps == number,
            () => $"{act.Person} begins step {act.Step} of {leg.Id} after {world.StepsDone.GetValueOrDefault(leg.Id).Steps} of its steps, not {number}",
            () => "Do the steps of a leg once each and in their order.");
        if (number == 0) return;
        deed.Needs("job.order", () => !world.StepsDone.TryGetValue(leg.Id, out var done) || done.By == act.Person,
            () => $"{act.Person} goes on with {leg.Id}, which {world.StepsDone[leg.Id].By} began", () => "Let one person do all steps of a leg.");
        if (leg.MayWait) return;
        deed.Needs("job.order", () => !world.StepsDone.TryGetValue(leg.Id, out var done) || done.End == act.Start,
            () => $"{act.Person} begins step {act.Step} of {leg.Id} {act.Start.Since(world.StepsDone[leg.Id].End)} after the step before, and this leg may not wait",
            () => "Let the steps of the leg follow each other without a gap.");
    }

    private static void NeedsPlaceAndFooting(World world, Deed deed, DoStep act, Leg leg, Site site)
    {
        // An arm that leaves its pose takes the rider away from the work: that is the arm's fault, not the way's.
        deed.NeedsThroughout(site.Grip is null ? "arm.rider" : "way.none", () => world.Place(act.Person) == Places.At(site),
            () => $"{act.Person} works on {leg.Id} at {Places.At(site)}, but is {Deed.PlaceInWords(world, act.Person)}",
            () => $"Keep {act.Person} at {Places.At(site)} for the whole step.");
        if (leg.Footing == Footing.Arm && site.Arm is { } held) ArmDeeds.NeedsBrakes(world, deed, held, $"{act.Person} works on {leg.Id} from {held}");
        if (leg.Footing == Footing.Arm)
            deed.NeedsThroughout("arm.rider", () => site.Arm is { } arm && world.Footing(act.Person) == Places.On(arm),
                () => $"{act.Person} works on {leg.Id} from an arm, but is not held in its restraint", () => "Get onto the arm first.");
        if (leg.Footing == Footing.Restraint && leg.Restraint is { } restraint && leg.Socket is { } socket)
        {
            deed.NeedsThroughout("restraint.absent", () => world.Footing(act.Person) == Places.In(socket),
                () => $"{act.Person} works on {leg.Id} in a restraint, but is not in the one at {socket}", () => $"Get into the restraint at {socket} first.");
            deed.NeedsThroughout("restraint.absent", () => world.SpotOf(restraint) == Spot.In(socket),
                () => $"{act.Person} works on {leg.Id} in {restraint}, but it is {world.SpotOf(restraint).InWords()}", () => $"Plug {restraint} into {socket} first.");
            if (leg.Setting is { } setting && world.Register.Setting.TryGetValue(restraint, out int variable))
                deed.NeedsThroughout("restraint.absent", () => world.State(variable) == setting,
                    () => $"{restraint} is set to {world.State(variable)} for {leg.Id}, which asks for {setting}", () => $"Set {restraint} to {setting} when plugging it.");
        }
    }

    private static void Needs(World world, Deed deed, DoStep act, Site site, Need need)
    {
        IEnumerable<Condition> conditions = need switch
        {
            NeedFeature one => [FeatureIs(world, act, one.Condition)],
            NeedGear one => [AtHand(world, act, site, one.Gear)],
            NeedDead one => Touch.Needs(world, act, one),
            NeedGo one => [GoPoint.Needs(world, act, site, one)],
            _ => throw new ArgumentException($"step '{act.Step}' of '{act.Leg}' has a need play does not know: {need.GetType().Name}"),
        };
        (need.When switch
        {
            NeedTime.Start => deed.AtStart,
            NeedTime.Throughout => deed.Throughout,
            _ => deed.AtEnd,
        }).AddRange(conditions);
    }

    private static Condition FeatureIs(World world, DoStep act, FeatureCondition wanted)
    {
        int variable = world.FeatureOf(wanted.Feature);
        return new("feature.wrong", () => wanted.States.Contains(world.State(variable)),
            () => $"{act.Person}'s step {act.Step} of {act.Leg} needs {wanted.Feature} {string.Join(" or ", wanted.States)}, but it is {world.State(variable)}",
            () => $"Bring {wanted.Feature} to {string.Join(" or ", wanted.States)} first.");
    }

    private static Condition AtHand(World world, DoStep act, Site site, GearId gear) =>
        new("gear.absent", () => world.IsAtHand(act.Person, gear, site),
            () => $"{act.Person}'s step {act.Step} of {act.Leg} needs {gear}, but it is {world.SpotOf(gear).InWords()}",
            () => $"Bring {gear} to {site.Id} first.");

    private static void NeedsAllThrough(World world, Deed deed, DoStep act, Leg leg)
    {
        if (leg.Light is { } light)
        {
            string wanted = light == LightCondition.Day ? "day" : "night";
            deed.NeedsThroughout("light.needed", () => world.State(world.Register.Light) == wanted,
                () => $"{act.Person}'s step {act.Step} of {act.Leg} needs {wanted}, but it is {world.State(world.Register.Light)}", () => $"Do it by {wanted}.");
        }
        if (leg.NeedsLink)
            deed.NeedsThroughout("radio.needed", () => world.State(world.Register.Link) == "link",
                () => $"{act.Person}'s step {act.Step} of {act.Leg} needs a link, but there is none", () => "Do it while there is a link.");
        foreach (ShutdownId shutdown in leg.Shutdowns)
            deed.NeedsThroughout("feature.wrong", () => world.State(world.Register.Shutdowns[shutdown]) == "off",
                () => $"{act.Person}'s step {act.Step} of {act.Leg} needs {shutdown} off, but it is {world.State(world.Register.Shutdowns[shutdown])}",
                () => $"Let the command that turns {shutdown} off end before {act.Leg}, and the one that turns it on begin after.");
    }

    private static void Makes(World world, Deed deed, DoStep act, Leg leg, Site site, Effect effect)
    {
        switch (effect)
        {
            case MakeFeature make:
                deed.Finish += () => world.Make(make.State);
                break;
            case MoveGear move:
                Moves(world, deed, act, leg, site, move);
                break;
            case UseStock use:
                int count = world.Register.StockCount.TryGetValue(use.Gear, out int variable)
                    ? variable
                    : throw new ArgumentException($"step '{act.Step}' of '{act.Leg}' uses '{use.Gear}', which is no stock");
                deed.AtEnd.Add(AtHand(world, act, site, use.Gear));
                deed.NeedsAtEnd("stock.out", () => world.Read(count) >= use.Count,
                    () => $"{act.Person}'s step {act.Step} of {act.Leg} uses {use.Count} of {use.Gear}, but {world.Read(count)} are left", () => $"Bring more of {use.Gear}.");
                deed.Finish += () =>
                {
                    world.Write(count, world.Read(count) - use.Count);
                    if (world.Read(count) <= 0) world.Move(use.Gear, Spot.Spent);
                };
                break;
            default:
                throw new ArgumentException($"step '{act.Step}' of '{act.Leg}' makes something play does not know: {effect.GetType().Name}");
        }
    }

    private static void Moves(World world, Deed deed, DoStep act, Leg leg, Site site, MoveGear move)
    {
        deed.AtEnd.Add(AtHand(world, act, site, move.Gear));
        if (move.To.Kind == LocationKind.Bag) deed.AtEnd.Add(AtHand(world, act, site, new GearId(move.To.Name)));
        if (move.To.Kind != LocationKind.Person)
        {
            Spot to = move.To.Kind == LocationKind.Site && move.To.Name.Length == 0 ? new Spot(SpotKind.Site, leg.Site.Value) : Register.SpotOf(move.To);
            deed.Finish += () => world.Move(move.Gear, to);
            return;
        }
        PersonId onto = move.To.Name.Length == 0 ? act.Person : new PersonId(move.To.Name);
        deed.NeedsAtEnd("hands.busy", () => world.SpotOf(move.Gear).IsWith(onto) || world.FreeCarry(onto, move.Gear) is not null,
            () => $"{onto} has no carry point that takes {move.Gear} when step {act.Step} of {act.Leg} ends",
            () => $"Free a carry point of {onto} that takes {move.Gear} before {act.Leg}.");
        deed.Finish += () =>
        {
            if (!world.SpotOf(move.Gear).IsWith(onto)) world.MoveOnto(onto, world.FreeCarry(onto, move.Gear), move.Gear);
        };
    }
}
