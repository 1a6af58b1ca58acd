using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>A command whose GO legs need, by index.</summary>
internal sealed class GoCase(SearchCase all, GroundConsole console, Command command, HashSet<LegId> before)
{
    public GroundConsole Console { get; } = console;

    public Command Command { get; } = command;

    /// <summary>How long it takes before the reading begins, s.</summary>
    public int BeforeReading { get; } = command.Time.Seconds - (command.Go?.Seconds ?? 0);

    /// <summary>The legs that must have ended before, and whose steps change what it covers.</summary>
    public int[] ChangedBy { get; } = [.. Enumerable.Range(0, all.Legs.Length).Where(l => before.Contains(all.Legs[l].Id) &&
        all.Legs[l].Steps.SelectMany(step => step.Makes).OfType<MakeFeature>().Any(make => command.Covers.Contains(make.State.Feature)))];

    /// <summary>The legs that must have ended before a leg, near and far.</summary>
    public static HashSet<LegId> Before(Scenario scenario, Leg leg)
    {
        HashSet<LegId> before = [];
        Queue<Leg> open = new([leg]);
        while (open.TryDequeue(out Leg? at))
            foreach (Precedence after in at.After)
                if (before.Add(after.Leg) && scenario.Legs.FirstOrDefault(one => one.Id == after.Leg) is { } earlier) open.Enqueue(earlier);
        return before;
    }

    /// <summary>The GOs that a leg needs.</summary>
    public static GoCase[] Of(SearchCase all, Leg leg) =>
    [
        .. leg.Steps.SelectMany(step => step.Needs).OfType<NeedGo>().Select(need => need.Command).Distinct().SelectMany(id =>
            all.Scenario.Consoles.SelectMany(console => console.Commands.Where(command => command.Id == id).Select(command => new GoCase(all, console, command, Before(all.Scenario, leg))))),
    ];
}
