using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>What the scenario with every key says of bags, tools, bolts, footings and the room of an airlock.</summary>
public sealed class EveryKeyToolsTests
{
    private const double FootPoundForce = 1.3558179483314004;

    private static Scenario Read => Folders.EveryKeyScenario;

    private static Gear Thing(string id) => Read.Gear.Single(gear => gear.Id.Value == id);

    [Fact]
    public void Bag_Read_HoldsWhatIsWritten()
    {
        BagHolds holds = Thing("tool-bag").Holds!;
        Assert.Equal((0.008, 20, 5, true), (Math.Round(holds.Volume, 12), holds.Mass, holds.Items, holds.Bags));
        Assert.Equal(["small"], holds.Sizes.Select(size => size.Value));
        Assert.Null(Thing("lamp-bag").Holds);
    }

    [Fact]
    public void Tools_Read_AreAsWritten()
    {
        Gear wrench = Thing("wrench"), second = Thing("second-wrench");
        Assert.Equal(5 * FootPoundForce, wrench.Torque!.Value.Least, 1e-12);
        Assert.Equal(20 * FootPoundForce, wrench.Torque.Value.Most, 1e-12);
        Assert.Equal("5 ft-lbf to 20 ft-lbf", wrench.Torque.Value.Text);
        Assert.Equal(new ToolCharge(true, 60, 10, "invented for the test"), wrench.Charge);
        Assert.Equal(new ToolCharge(false, 9, 1, "invented for the test"), second.Charge);
        Assert.Equal(["wrench"], second.SpareFor.Select(tool => tool.Value));
        Assert.Equal(("it is handed over to the next walk", (string?)null), (wrench.Stays, second.Stays));
    }

    [Fact]
    public void Bolts_Read_AreAsWritten()
    {
        Bolt lamp = Read.Bolts[0], foot = Read.Bolts[1], lid = Read.Bolts[2], hinge = Read.Bolts[3];
        Assert.Equal(("lamp-bolts", "Bolts of the lamp", 2, 6.0, true), (lamp.Id.Value, lamp.Title, lamp.Number, lamp.Start, lamp.Verified));
        Assert.Equal(new Band(5.5, 6.5, "5.5 turns to 6.5 turns"), lamp.Closed);
        Assert.Equal((12 * FootPoundForce, 16 * FootPoundForce), (lamp.Torque!.Value.Least, lamp.Torque.Value.Most));
        Assert.Null(lamp.Preload);
        Assert.Equal(new Preload(new(8000, 15000, "8000 N to 15000 N"), 0.008, 0.18, 0.25), foot.Preload);
        Assert.Equal((0.21, 0.0), (lid.Preload!.NutFactor, lid.Preload.Scatter));
        // By hand: mean diameter 7.1881 mm, lead 0.055354, slope 0.173205; 7.1881/16 × 0.228559/(1 − 0.009588) + 0.625 × 0.2.
        Assert.Equal(0.228675, hinge.Preload!.NutFactor, 5e-6);
    }

    [Fact]
    public void FootingsAndRoom_Read_AreAsWritten()
    {
        Assert.Equal([Footing.Free, Footing.Arm], Read.Footings.Select(footing => footing.Kind));
        Assert.Equal(3 * FootPoundForce, Read.Footings[0].Torque, 1e-12);
        Assert.Equal(25 * 4.4482216152605, Read.Footings[1].Force, 1e-9);
        Assert.Equal((false, true), (Read.Footings[0].Verified, Read.Footings[1].Verified));
        AirlockRoom room = Read.Station.Airlocks[0].Room!;
        Assert.Equal((3, 0.9, 5), (room.Volume, Math.Round(room.PersonVolume, 12), room.Items));
        Assert.Equal((["small", "bag"], ["bag"]), ((string[])[.. room.Hatch.Select(size => size.Value)], (string[])[.. room.BeforePeople.Select(size => size.Value)]), Lists);
    }

    private static readonly IEqualityComparer<(string[], string[])> Lists =
        EqualityComparer<(string[], string[])>.Create((left, right) => left.Item1.SequenceEqual(right.Item1) && left.Item2.SequenceEqual(right.Item2));

    [Fact]
    public void Steps_Read_SayBoltToolForceAndTies()
    {
        Step putIn = Read.Jobs[0].Legs[0].Steps[1], hold = Read.Jobs[0].Legs[1].Steps[0];
        Assert.Equal(("lamp-bolts", "wrench"), (putIn.Fastener!.Bolt!.Value.Value, putIn.Fastener.Tool!.Value.Value));
        Assert.Equal(20 * 4.4482216152605, hold.Force!.Value, 1e-9);
        Assert.Equal(["camera"], hold.Ties.Select(gear => gear.Value));
        Assert.Equal((null, 0), (putIn.Force, putIn.Ties.Length));
        Assert.Equal(Duration.FromSeconds(20), Read.Handling.Tie);
    }
}
