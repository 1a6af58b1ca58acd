using System.Globalization;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>What a step does with tools, fasteners and second ties.</summary>
internal static class ToolDeeds
{
    public static void Add(World world, Deed deed, DoStep act, Leg leg, Step step)
    {
        if (step.Fastener is { Bolt: { } bolt } fastener) Drives(world, deed, act, fastener, world.Lookup.Bolt(bolt));
        if (step.Fastener is { Tool: { } driver } with) SetsTo(world, deed, act, with, world.Lookup.Gear(driver));
        foreach (Gear tool in world.Lookup.BatteryTools) Draws(world, deed, act, step, tool);
        if (world.Scenario.Handling.Tie is not null) Ties(deed, act, leg, step);
    }

    /// <summary>The torque against what the fastener may be closed with, and its turns from the start of the sortie on.</summary>
    private static void Drives(World world, Deed deed, DoStep act, Fastener fastener, Bolt bolt)
    {
        int turns = world.Register.BoltTurns[bolt.Id], driven = Thousandths(fastener.Turns);
        bool closes = driven > 0;
        if (closes)
        {
            Band? torque = bolt.Torque ?? (bolt.Preload is { } preload ? BoltTorque.Keeping(preload) : null);
            deed.Needs("bolt.turns", () => torque is { } band && band.Takes(fastener.Torque),
                () => torque is { } band
                    ? $"{act.Person}'s step {act.Step} of {act.Leg} closes {bolt.Id} with {NewtonMetres(fastener.Torque)}, and it takes {band}"
                    : $"{act.Person}'s step {act.Step} of {act.Leg} closes {bolt.Id}, for which no torque keeps its preload in its band",
                () => $"Set the torque for {bolt.Id} as its drawing says.",
                () => torque is { } band ? new(NewtonMetres(fastener.Torque), band.Text, NewtonMetres(band.Margin(fastener.Torque))) : Figures.None);
        }
        // Thousandths of a turn, rounded inward: a limit is never made wider.
        int least = closes ? (int)Math.Ceiling(bolt.Closed.Least * 1000 - 1e-6) : 0, most = (int)Math.Floor(bolt.Closed.Most * 1000 + 1e-6);
        deed.AtEnd.Add(new("bolt.turns", () => Then() >= least && Then() <= most,
            () => $"{act.Person}'s step {act.Step} of {act.Leg} leaves {bolt.Id} {Turns(Then())} in, and it must be {Turns(least)} to {Turns(most)} in",
            () => $"Drive {bolt.Id} by the turns that it was opened by, or mend where it starts.",
            () => new(Turns(Then()), $"{Turns(least)} to {Turns(most)}", Turns(Math.Min(Then() - least, most - Then())))));
        deed.Finish += () => world.Write(turns, Then());

        int Then() => world.Read(turns) + driven;
    }

    /// <summary>The torque against what the tool can be set to.</summary>
    private static void SetsTo(World world, Deed deed, DoStep act, Fastener fastener, Gear driver)
    {
        if (driver.Torque is not { } range) return;
        deed.Needs("bolt.turns", () => range.Takes(fastener.Torque),
            () => $"{act.Person}'s step {act.Step} of {act.Leg} asks {driver.Id} for {NewtonMetres(fastener.Torque)}, and it can be set to {range}",
            () => $"Take a tool that can be set to {NewtonMetres(fastener.Torque)}.",
            () => new(NewtonMetres(fastener.Torque), range.Text, NewtonMetres(range.Margin(fastener.Torque))));
    }

    private static void Draws(World world, Deed deed, DoStep act, Step step, Gear tool)
    {
        if (ToolUse.Of(tool, step, world.Scenario.Bolts) is not (> 0 and var use)) return;
        ToolCharge charge = tool.Charge!;
        int left = world.Register.ToolCharge[tool.Id], drawn = (int)Math.Ceiling(use * 1000 - 1e-6), keep = (int)Math.Ceiling(charge.Keep * 1000 - 1e-6);
        // Told by the step that goes below; what is below already is not told again.
        deed.AtEnd.Add(new("tool.battery", () => world.Read(left) - drawn >= keep || world.Read(left) < keep,
            () => $"{act.Person}'s step {act.Step} of {act.Leg} leaves {tool.Id} with {InUnit(world.Read(left) - drawn)}, and {InUnit(keep)} must be kept",
            () => $"Drive part of it with another tool, or take {tool.Id} with a fresh battery.",
            () => new(InUnit(world.Read(left) - drawn), InUnit(keep), InUnit(world.Read(left) - drawn - keep))));
        deed.Finish += () => world.Write(left, world.Read(left) - drawn);

        string InUnit(int thousandths) => string.Create(CultureInfo.InvariantCulture, $"{thousandths / 1000.0:0.###} {charge.Unit}");
    }

    /// <summary>Whatever a step moves is tied by it, or by an earlier step of its leg, before it is let go.</summary>
    private static void Ties(Deed deed, DoStep act, Leg leg, Step step)
    {
        HashSet<GearId> tied = [.. leg.Steps.Take(leg.Steps.IndexOf(step) + 1).SelectMany(earlier => earlier.Ties)];
        foreach (MoveGear move in step.Makes.OfType<MoveGear>())
            deed.Needs("item.untied", () => tied.Contains(move.Gear),
                () => $"{act.Person}'s step {act.Step} of {act.Leg} moves {move.Gear}, and no step has tied it before",
                () => $"Tie {move.Gear} to the person or to the bag before anything that holds it is let go.");
    }

    public static int Thousandths(double value) => (int)Math.Round(value * 1000);

    private static string Turns(int thousandths) => string.Create(CultureInfo.InvariantCulture, $"{thousandths / 1000.0:0.###} turns");

    private static string NewtonMetres(double value) => string.Create(CultureInfo.InvariantCulture, $"{value:0.##} N-m");
}
