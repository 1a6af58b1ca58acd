using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What is done to the fluid net: isolate, read the pressure, demate, cap, mate, check the lock, open, watch, open up.</summary>
internal static class FluidDeeds
{
    private const string Rule = "line.pressure";

    /// <summary>What a step does. Called before the step's effects are added, so that what it changes is still seen as it was.</summary>
    public static void Of(World world, Deed deed, DoStep act, Step step)
    {
        Changes(world, deed, $"{act.Person}'s step {act.Step} of {act.Leg}", [.. step.Makes.OfType<MakeFeature>().Select(make => make.State)]);
        if (step.Fluid is not { } touch) return;
        FluidLine line = world.Fluid.Line(touch.Line);
        string who = $"{act.Person}'s step {act.Step} of {act.Leg}";
        if (touch.Reads)
        {
            NeedsShutOff(world, deed, line, $"{who} reads the pressure of {line.Name}");
            deed.Finish += () => Become(world, line, one => one.State, LineStates.Known);
        }
        if (touch.Vents)
        {
            NeedsShutOff(world, deed, line, $"{who} lets off {line.Name}");
            deed.Finish += () => Become(world, line, one => one.Fill, LineStates.Vented);
        }
        if (!touch.Watches) return;
        deed.NeedsThroughout(Rule, () => StateOf(world, line) == LineStates.Fed,
            () => $"{who} watches {line.Name} for leaks, but no pressure is on it", () => "Open one valve onto it first.");
        deed.Finish += () => Become(world, line, one => one.Joints, LineStates.Sound);
    }

    /// <summary>What a step or command does by bringing valves and disconnects to states.</summary>
    public static void Changes(World world, Deed deed, string who, IReadOnlyList<FeatureState> made)
    {
        foreach (FeatureState to in made)
        {
            if (world.Fluid.Disconnect(to.Feature) is { } disconnect) Moves(world, deed, who, disconnect, to.State);
            if (world.Fluid.Valve(to.Feature) is { } valve && !valve.Shut.Contains(to.State)) Opens(world, deed, who, valve, made);
        }
    }

    /// <summary>Whether bringing a disconnect to a state now opens it: it is closed, mated or capped, and does not stay as it is.</summary>
    public static bool IsOpening(World world, Disconnect one, string to) => !world.Fluid.IsExposed(one) && world.Fluid.StateOf(one.Feature) != to;

    private static void Moves(World world, Deed deed, string who, Disconnect one, string to)
    {
        deed.NeedsThroughout(Rule, () => !IsOpening(world, one, to) || UnsafeAt(world, one.Feature) is null,
            () => $"{who} opens {one.Feature}, but {UnsafeAt(world, one.Feature)}",
            () => "Shut the line off at every end, then read its pressure, then open the disconnect.");
        deed.Finish += () =>
        {
            if (world.Fluid.StateOf(one.Feature) == to) return;
            foreach (FluidLine line in world.Fluid.Touching(one.Feature)) world.Become(world.Fluid.Of(line).Joints, LineStates.Disturbed);
        };
    }

    /// <summary>Why a disconnect may not be opened now, in words; null when it may.</summary>
    private static string? UnsafeAt(World world, FeatureId feature)
    {
        foreach (FluidLine line in world.Fluid.Touching(feature))
            switch (StateOf(world, line))
            {
                case LineStates.Fed: return $"{line.Name} is under pressure: nothing shuts it off";
                case LineStates.Shut: return $"the pressure of {line.Name} was not read since it was shut off";
            }
        return null;
    }

    private static void Opens(World world, Deed deed, string who, Valve valve, IReadOnlyList<FeatureState> made)
    {
        Disconnect? Exposed() => world.Fluid.Touching(valve.Feature).Select(world.Fluid.ExposedAt).FirstOrDefault(one => one is not null);
        deed.NeedsThroughout(Rule, () => !world.Fluid.IsShut(valve) || Exposed() is null,
            () => $"{who} opens {valve.Feature} onto {Exposed()!.Feature}, which is {world.Fluid.StateOf(Exposed()!.Feature)}: neither mated with its lock checked, nor capped",
            () => "Mate the disconnect and check its lock, or cap it, before any valve is opened onto it.");

        // The first valve puts pressure on for the leak check; a second one opens the line up, and waits for that check.
        bool another = made.Any(to => to.Feature != valve.Feature && world.Fluid.Valve(to.Feature) is { } other && !other.Shut.Contains(to.State) && world.Fluid.IsShut(other));
        FluidLine? Unwatched() => world.Fluid.Touching(valve.Feature).FirstOrDefault(line =>
            world.State(world.Fluid.Of(line).Joints) == LineStates.Disturbed && (another || StateOf(world, line) == LineStates.Fed));
        deed.Needs(Rule, () => !world.Fluid.IsShut(valve) || Unwatched() is null,
            () => $"{who} opens {valve.Feature} on {Unwatched()!.Name}, which was taken apart and not watched for leaks since",
            () => "Open one valve, watch the line for leaks, and open the next one after that.");
    }

    private static void NeedsShutOff(World world, Deed deed, FluidLine line, string what) => deed.NeedsThroughout(
        Rule, () => StateOf(world, line) != LineStates.Fed, () => $"{what}, which is not shut off", () => "Shut the line off at every end first.");

    private static string StateOf(World world, FluidLine line) => world.State(world.Fluid.Of(line).State);

    private static void Become(World world, FluidLine line, Func<LineVariables, int> variable, string state)
    {
        foreach (FluidLine joined in world.Fluid.Joined(line)) world.Become(variable(world.Fluid.Of(joined)), state);
    }
}
