using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>A GO that a step needs: its reading began once the person had come to the site, and once what it covers had changed for the last time.</summary>
internal static class GoPoint
{
    /// <summary>A command that has a GO ends: the GO was read in its last part.</summary>
    public static void Read(World world, Command command, Pet end)
    {
        if (command.Go is not { } reading) return;
        int count = world.Register.Gos[command.Id];
        world.Write(count, world.Read(count) + 1);
        world.GoReadFrom[command.Id] = end.Plus(Duration.FromSeconds(-reading.Seconds));
    }

    public static Condition Needs(World world, DoStep act, Site site, NeedGo need)
    {
        Command command = world.Lookup.Command(need.Command);
        bool Holds() => command.Go is not null && world.Read(world.Register.Gos[command.Id]) > 0
            && Waits(world, act, site, command).All(since => since.At <= world.GoReadFrom[command.Id]);
        return new("go.missing", Holds,
            () => $"{act.Person}'s step {act.Step} of {act.Leg} needs the GO of {command.Id}, but {Found(world, act, site, command)}",
            () => $"Send {command.Id} once {act.Person} is at {site.Id}, and read its GO before {act.Leg}.");
    }

    private static string Found(World world, DoStep act, Site site, Command command)
    {
        if (command.Go is null) return "no GO is read for it";
        if (!world.GoReadFrom.TryGetValue(command.Id, out Pet read)) return "it was not read";
        (string what, Pet at) = Waits(world, act, site, command).First(since => since.At > read);
        return $"it was read from {read} on, and {what} at {at}";
    }

    /// <summary>What the reading must come after.</summary>
    private static IEnumerable<(string What, Pet At)> Waits(World world, DoStep act, Site site, Command command)
    {
        if (world.ChangedAt(world.Of(act.Person).Place) is { } came) yield return ($"{act.Person} came to {site.Id}", came);
        foreach (FeatureId feature in command.Covers)
            if (world.ChangedAt(world.FeatureOf(feature)) is { } changed) yield return ($"{feature} changed", changed);
    }
}
