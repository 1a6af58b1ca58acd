using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What must hold of the power net while a step touches one of its nodes. One cause gives one finding: too few open switches is
/// told before a common cause, that before switches of which the crew has not heard, and charge that is left only where nothing feeds it.</summary>
internal static class Touch
{
    public static IEnumerable<Condition> Needs(World world, DoStep act, NeedDead need)
    {
        NodeId node = need.Node;
        int asked = need.Inhibits;
        PowerNet net = world.Net;
        string touches = $"{act.Person}'s step {act.Step} of {act.Leg} touches {node}";

        InhibitCount Open() => net.FewestInhibits(node, asked);
        yield return new("inhibit.few", () => Open().Count >= asked,
            () => $"{touches} behind {Words(Open().Count)}, and needs {asked} independent open inhibits on every path{Open().PathInWords}",
            () => $"Open more switches with controllers of their own between {node} and its sources.",
            () => Counted(Open().Count, asked));

        InhibitCount Independent() => net.FewestInhibits(node, net.ByCause, asked);
        yield return new("inhibit.common", () => Open().Count < asked || Independent().Count >= asked,
            () => $"{touches} behind switches whose controllers have a common cause: {Words(Independent().Count)} once that is counted as one, "
                + $"and needs {asked} on every path{Independent().PathInWords}",
            () => $"Open a switch whose controller shares nothing with the others between {node} and its sources.",
            () => Counted(Independent().Count, asked));

        InhibitCount Known() => net.FewestInhibits(node, line => IsRead(world, line) ? net.ByCause(line) : null, asked);
        yield return new("inhibit.unseen", () => Independent().Count < asked || Known().Count >= asked,
            () => $"{touches} with {Words(Known().Count)} that {act.Person} has been told of, and needs {asked}: {Unread(world, Known())} was not seen, "
                + "or its GO was not read",
            () => "Send the command again with a link until it has ended, and read its GO before the step.",
            () => Counted(Known().Count, asked));

        foreach (Capacitor capacitor in world.Scenario.Station.Capacitors ?? [])
            yield return Bled(world, capacitor, touches, node, asked);
    }

    private static Condition Bled(World world, Capacitor capacitor, string touches, NodeId node, int asked)
    {
        HashSet<NodeId> itself = [capacitor.Node];
        // While it is fed, what feeds it is nearer than asked, and too few inhibits are told already.
        bool Holds()
        {
            if (world.State(world.Register.Capacitors[capacitor.Node]) == Charge.Fed || world.Bleeding[capacitor.Node].Until <= world.Now) return true;
            return world.Net.FewestInhibits(node, itself, world.Net.ByCause, asked).Count >= asked;
        }
        Duration Waited() => world.Now.Since(world.Bleeding[capacitor.Node].Since);
        Duration Wanted() => world.Bleeding[capacitor.Node].Until.Since(world.Bleeding[capacitor.Node].Since);
        return new("connector.bleed", Holds,
            () => $"{touches} {Waited()} after {capacitor.Node} was cut off, and it takes {Wanted()} to bleed down",
            () => $"Let {capacitor.Bleeds} or more lie between the command that cuts {capacitor.Node} off and the step.",
            () => new(Waited().ToString(), Wanted().ToString(), Duration.FromSeconds(Waited().Seconds - Wanted().Seconds).ToString()));
    }

    private static bool IsRead(World world, PowerLine line) =>
        world.Register.Seen.TryGetValue(line.Closed!.Feature, out int sight) && world.State(sight) == SwitchSight.Read;

    /// <summary>The open switches on a path of which nobody told the crew.</summary>
    private static string Unread(World world, InhibitCount count)
    {
        IEnumerable<PowerLine> lines = count.Path.Zip(count.Path.Skip(1)).SelectMany(pair => world.Scenario.Station.PowerLines.Where(line =>
            (line.From == pair.First && line.To == pair.Second) || (line.From == pair.Second && line.To == pair.First)));
        return string.Join(" and ", lines.Where(line => line.Controller is not null && !IsRead(world, line)
            && !line.Closed!.States.Contains(world.State(world.FeatureOf(line.Closed.Feature)))).Select(line => line.Closed!.Feature.Value).Distinct());
    }

    private static Figures Counted(int found, int asked) => new($"{found}", $"{asked}", $"{found - asked}");

    private static string Words(int count) => count == 0 ? "no open inhibit" : $"{count} open inhibit{(count == 1 ? "" : "s")}";
}
