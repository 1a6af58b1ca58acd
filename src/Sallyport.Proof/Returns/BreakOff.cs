using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What it takes to be clear of what goes on.</summary>
internal static class BreakOff
{
    /// <summary>Seconds, at any moment of the activity; those that are themselves a way home are reckoned by what is left of them, not here.</summary>
    public static int Seconds(World world, Activity activity)
    {
        Handling handling = world.Scenario.Handling;
        return activity switch
        {
            DoStep step => world.Lookup.Step(step.Leg, step.Step).Abort.Time.Seconds,
            Take => handling.Take.BreakOff.Seconds,
            Put => handling.Put.BreakOff.Seconds,
            Give => handling.Give.BreakOff.Seconds,
            Plug => handling.Plug.BreakOff.Seconds,
            Unplug => handling.Unplug.BreakOff.Seconds,
            EnterRestraint => handling.Enter.BreakOff.Seconds,
            // Getting out is what a return asks anyway: never less than doing it.
            LeaveRestraint => Math.Max(handling.Leave.BreakOff.Seconds, handling.Leave.Time.Seconds),
            MountArm mount => world.Lookup.Arm(mount.Arm).Mount.BreakOff.Seconds,
            DismountArm dismount => world.Lookup.Arm(dismount.Arm).Dismount.BreakOff.Seconds,
            // Where nobody says how long it takes to leave a check, it is ended first.
            CheckGloves check => world.Scenario.Checks?.Gloves?.Time.BreakOff.Seconds ?? check.Length.Seconds,
            // A wait or a rest, and what is done at the hatch with free hands, has nothing to break off.
            Await or Rest or AirlockPhase => 0,
            // A walk without spans is a finding of its own; the person stands.
            Translate => 0,
            _ => throw new ArgumentException($"activity '{activity.Id}' has no break-off that play knows: {activity.GetType().Name}"),
        };
    }
}
