using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>A command whose GO legs need, by index.</summary>
internal sealed class GoCase(SearchCase all, GroundConsole console, Command command)
{
    public GroundConsole Console { get; } = console;

    public Command Command { get; } = command;

    /// <summary>How long it takes before the reading begins, s.</summary>
    public int BeforeReading { get; } = command.Time.Seconds - (command.Go?.Seconds ?? 0);

    /// <summary>The legs whose steps change what it covers.</summary>
    public int[] ChangedBy { get; } = [.. Enumerable.Range(0, all.Legs.Length).Where(l =>
        all.Legs[l].Steps.SelectMany(step => step.Makes).OfType<MakeFeature>().Any(make => command.Covers.Contains(make.State.Feature)))];

    /// <summary>The GOs that a leg needs.</summary>
    public static GoCase[] Of(SearchCase all, Leg leg) =>
    [
        .. leg.Steps.SelectMany(step => step.Needs).OfType<NeedGo>().Select(need => need.Command).Distinct().SelectMany(id =>
            all.Scenario.Consoles.SelectMany(console => console.Commands.Where(command => command.Id == id).Select(command => new GoCase(all, console, command)))),
    ];
}
