using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Physics;

public sealed class ToolUseTests
{
    private static readonly Bolt Four = new(new("four"), "Four bolts", 4, 8, new(7.5, 8.5, ""), new Band(1, 2, ""), null, "", false);

    private static Gear Tool(ToolCharge? charge) => new(new("driver"), "Driver", GearKind.Tool, new("small"), 2, 0.002, Location.Inside, null, 1) { Charge = charge };

    private static Step Step(Fastener? fastener, params Need[] needs) => new(
        new("drive"), "Drive", "", new(default, default, default, ""), [.. needs], [], new(default, []), new(default, []), WorkClass.Light, fastener, null);

    private static Fastener Drive(double turns, string? bolt, string tool = "driver") => new(10, turns, "") { Bolt = bolt is null ? null : new BoltId(bolt), Tool = new GearId(tool) };

    [Theory]
    [InlineData(-8, "four", 32)]
    [InlineData(8, "four", 32)]
    [InlineData(5, null, 5)]
    public void Use_CountedInTurns_IsThatOfAllBoltsAlike(double turns, string? bolt, double use) =>
        Assert.Equal(use, ToolUse.Of(Tool(new(true, 100, 0, "")), Step(Drive(turns, bolt)), [Four]));

    [Fact]
    public void Use_CountedInUses_IsOneForAStepThatNeedsOrDrivesWithIt()
    {
        Gear tool = Tool(new(false, 10, 0, ""));
        Assert.Equal(1, ToolUse.Of(tool, Step(Drive(8, "four")), [Four]));
        Assert.Equal(1, ToolUse.Of(tool, Step(null, new NeedGear(NeedTime.Throughout, new("driver"))), [Four]));
        Assert.Equal(0, ToolUse.Of(tool, Step(Drive(8, "four", "other")), [Four]));
    }

    [Fact]
    public void Use_OfAToolWithoutABatteryOrLeftAlone_IsNone()
    {
        Assert.Equal(0, ToolUse.Of(Tool(null), Step(Drive(8, "four")), [Four]));
        Assert.Equal(0, ToolUse.Of(Tool(new(true, 100, 0, "")), Step(Drive(8, "four", "other")), [Four]));
        Assert.Equal(0, ToolUse.Of(Tool(new(true, 100, 0, "")), Step(null, new NeedGear(NeedTime.Start, new("driver"))), [Four]));
    }
}
