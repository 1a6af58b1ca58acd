using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Since when a capacitor is cut off from every source, and when it will have bled down.</summary>
internal readonly record struct Bleeding(Pet Since, Pet Until);

/// <summary>The capacitors of the power net: fed while anything conducts to them from a source, bleeding down from when nothing does.</summary>
internal static class Charge
{
    public const string Fed = "fed";
    public const string CutOff = "cut off";

    /// <summary>Brings every capacitor to what the switches and connectors are at this moment. One that is cut off from the first
    /// moment on is taken as just cut off: nothing tells how long it was.</summary>
    public static void Update(World world, Pet now)
    {
        if (!world.NetChanged || world.Scenario.Station.Capacitors is not { IsEmpty: false } capacitors) return;
        world.NetChanged = false;
        foreach (Capacitor capacitor in capacitors)
        {
            bool fed = world.Net.IsFed(capacitor.Node);
            if (fed) world.Bleeding.Remove(capacitor.Node);
            else world.Bleeding.TryAdd(capacitor.Node, new(now, now.Plus(capacitor.Bleeds)));
            int variable = world.Register.Capacitors[capacitor.Node];
            string state = fed ? Fed : CutOff;
            if (world.State(variable) != state) world.Become(variable, state);
        }
        // Those that conduct to each other keep each other charged: the slowest one counts for all.
        foreach (Capacitor capacitor in capacitors)
        {
            if (!world.Bleeding.TryGetValue(capacitor.Node, out Bleeding own)) continue;
            foreach (NodeId other in world.Net.JoinedTo(capacitor.Node))
                if (world.Bleeding.TryGetValue(other, out Bleeding joined) && joined.Until > own.Until) own = own with { Until = joined.Until };
            world.Bleeding[capacitor.Node] = own;
        }
    }
}
