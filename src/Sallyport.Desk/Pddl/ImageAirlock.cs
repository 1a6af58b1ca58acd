using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Out and in through an airlock.</summary>
internal static class ImageAirlock
{
    public static ImageAction Of(ImageWorld world, AirlockPhase phase)
    {
        Airlock airlock = world.Scenario.Station.Airlocks.Single(one => one.Id == phase.Airlock);
        ImageAction action = world.Action(phase.Phase.ToString(), phase, Least(airlock, phase.Phase));
        string grip = world.Grip(airlock.Grip);
        switch (phase.Phase)
        {
            case AirlockPhaseKind.Out:
                action.Begins($"(opened {world.Hatch(airlock.Id)})");
                if (IsFirst(world, phase)) Ready(world, action);
                foreach (PersonId person in phase.Who)
                {
                    action.NeedsAtStart(world.Stands(person, world.Indoors));
                    foreach (PersonId earlier in airlock.Order.TakeWhile(one => one != person)) action.NeedsAtStart(world.IsOutside(earlier));
                    Go(world, action, person, world.Indoors, grip);
                }
                break;
            case AirlockPhaseKind.In:
                foreach (PersonId person in phase.Who)
                {
                    action.NeedsAtStart(world.Stands(person, grip));
                    foreach (PersonId later in airlock.Order.SkipWhile(one => one != person).Skip(1)) action.NeedsAtStart(world.Stands(later, world.Indoors));
                    foreach (Gear gear in world.Scenario.Gear.Where(gear => airlock.Room?.BeforePeople.Contains(gear.Size) == true))
                        action.NeedsAtStart(Say.Not(world.Spots.IsWith(person, gear.Id)));
                    Go(world, action, person, grip, world.Indoors);
                    BringIn(world, action, person);
                }
                break;
            case AirlockPhaseKind.Close:
                foreach (Person person in world.People) action.NeedsAtStart(world.Stands(person.Id, world.Indoors));
                action.Ends($"(not (opened {world.Hatch(airlock.Id)}))");
                break;
            case AirlockPhaseKind.WaitInside or AirlockPhaseKind.SafeInside:
                foreach (PersonId person in phase.Who) action.NeedsAtStart(world.Stands(person, world.Indoors));
                break;
            default:
                foreach (PersonId person in phase.Who) action.NeedsAtStart(world.Stands(person, grip));
                if (phase.Phase == AirlockPhaseKind.BagsIn) BagsIn(world, action, world.Spots.Hook(airlock.Grip));
                break;
        }
        return action;
    }

    private static Duration Least(Airlock airlock, AirlockPhaseKind phase) => phase switch
    {
        AirlockPhaseKind.Out => airlock.OutEach,
        AirlockPhaseKind.BagsOut => airlock.OutBags,
        AirlockPhaseKind.Check => airlock.OutCheck,
        AirlockPhaseKind.Inventory => airlock.Inventory,
        AirlockPhaseKind.BagsIn => airlock.InBags,
        AirlockPhaseKind.In => airlock.InEach,
        AirlockPhaseKind.Close => airlock.Close,
        _ => Duration.FromSeconds(1),
    };

    /// <summary>The station is ready when the first person begins to go out.</summary>
    private static bool IsFirst(ImageWorld world, AirlockPhase phase) =>
        world.Timeline.Activities.OfType<AirlockPhase>().Where(one => one.Phase == AirlockPhaseKind.Out).Min(one => one.Start) == phase.Start;

    private static void Ready(ImageWorld world, ImageAction action)
    {
        foreach (Feature feature in world.Scenario.Station.Features)
            if (feature.Ready is { } ready) action.NeedsAtStart(world.Is(feature.Id, ready));
    }

    private static void Go(ImageWorld world, ImageAction action, PersonId person, string from, string to) =>
        action.Ends(Say.Not(world.Stands(person, from))).Ends(world.Stands(person, to));

    /// <summary>A person comes in with everything that hangs on that person.</summary>
    private static void BringIn(ImageWorld world, ImageAction action, PersonId person)
    {
        foreach (Gear gear in world.Scenario.Gear)
            foreach (string spot in world.Spots.On(person))
            {
                string there = world.Spots.Lies(gear.Id, spot);
                action.EndsWhen(there, Say.Not(there)).EndsWhen(there, world.Spots.Lies(gear.Id, world.Spots.Inside));
            }
        foreach (string carry in world.Spots.CarriesOf(person)) action.Ends($"(clear {carry})");
    }

    /// <summary>What hangs at the hatch and is wanted inside is handed in; what belongs there stays.</summary>
    private static void BagsIn(ImageWorld world, ImageAction action, string hook)
    {
        foreach (Gear gear in world.Scenario.Gear.Where(gear => gear.End == Location.Inside))
        {
            string there = world.Spots.Lies(gear.Id, hook);
            action.EndsWhen(there, Say.Not(there)).EndsWhen(there, world.Spots.Lies(gear.Id, world.Spots.Inside));
        }
    }
}
