using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>Commands that make a joint, jets or an antenna safe, or not.</summary>
internal static class HazardCommands
{
    /// <summary>Whether a command changes what says whether such a thing is safe.</summary>
    public static bool Guards(Scenario scenario, Command command) => command.Makes.Any(state =>
        scenario.Station.Joints.Any(joint => joint.Feature == state.Feature)
        || scenario.Station.Jets.Concat(scenario.Station.Beams).Any(emitter => emitter.Feature == state.Feature));

    /// <summary>Whether a shutdown does.</summary>
    public static bool Guards(Scenario scenario, GroundConsole console, Shutdown shutdown) =>
        console.Commands.Any(command => (command.Id == shutdown.Off || command.Id == shutdown.On) && Guards(scenario, command));
}
