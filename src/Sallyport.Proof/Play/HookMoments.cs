using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Changing over from one hook to another, told hook by hook: on, and only then the other off.</summary>
internal static class HookMoments
{
    /// <summary>When the hooks of an activity are moved, as told; null when it moves none or does not tell.</summary>
    public static HookMoves? Of(Activity activity) => activity switch
    {
        SwapReel swap => swap.Hooks,
        MountArm mount => mount.Hooks,
        DismountArm dismount => dismount.Hooks,
        _ => null,
    };

    /// <summary>That the moments are told, lie in the activity, and leave the scenario's time until the further hook is on.</summary>
    public static void Needs(World world, Deed deed)
    {
        // Where the scenario does not say how long a hook takes, the rule is not applied, and nothing is asked here.
        if (world.Scenario.Tether.Protocol != TetherProtocol.Reel || world.Scenario.Tether.Hooked is not { } least) return;
        Activity activity = deed.Activity;
        HookMoves? told = Of(activity);
        deed.Needs("tether.swap", () => told is not null, () => $"{Who(activity)} changes over from one hook to another, and it is not told which is moved when",
            () => "Tell when the further hook is on and when the other one is released.");
        if (told is null) return;
        deed.Needs("tether.swap", () => activity.Start < told.On && told.On <= activity.End && activity.Start < told.Off && told.Off <= activity.End,
            () => $"{Who(activity)} is to hook on at {told.On} and to release at {told.Off}, outside of the change from {activity.Start} to {activity.End}",
            () => "Let both moments lie after its start and no later than its end.");
        deed.Needs("tether.swap", () => told.On.Since(activity.Start) >= least,
            () => $"{Who(activity)} has the further hook on {told.On.Since(activity.Start)} after beginning, and that takes {least}",
            () => $"Give the further hook {least}.",
            () => new(told.On.Since(activity.Start).ToString(), least.ToString(), Duration.FromSeconds(told.On.Since(activity.Start).Seconds - least.Seconds).ToString()));
    }

    /// <summary>That enough hooks hold a person before one is released.</summary>
    public static Condition Release(World world, PersonId person, string when)
    {
        int hooks = world.Of(person).Hooks;
        int least = world.Scenario.LimitOf("tether.swap") is { Value.Dimension: Dimension.Count } limit ? (int)Math.Ceiling(limit.Value.Value) : 0;
        return new("tether.swap", () => world.Read(hooks) >= least,
            () => $"{person} {when} and lets go of a hook with {world.Read(hooks)} on, and {least} must be on before one is released",
            () => "Put the further hook on first.",
            () => new($"{world.Peek(hooks)} hooks", $"{least} hooks", $"{world.Peek(hooks) - least} hooks"));
    }

    /// <summary>The further hook is on.</summary>
    public static void On(World world, Activity activity)
    {
        // Nothing waits for a rider who gets off elsewhere than where the line was left.
        if (activity is DismountArm off && world.Lines[off.Person].End != off.At && world.Scenario.Tether.Protocol == TetherProtocol.Reel) return;
        Change(world, activity, 1);
    }

    /// <summary>The other one is released.</summary>
    public static void Off(World world, Activity activity) => Change(world, activity, -1);

    /// <summary>That of <see cref="Off"/>.</summary>
    public static Condition ReleaseOf(World world, Activity activity) => Release(world, activity.People[0], "changes over");

    private static void Change(World world, Activity activity, int by)
    {
        int hooks = world.Of(activity.People[0]).Hooks;
        world.Write(hooks, world.Read(hooks) + by);
    }

    private static string Who(Activity activity) => activity.People[0].Value;
}
