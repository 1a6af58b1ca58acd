using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The small scenario reads into exactly what its files say.</summary>
public sealed class SkerryShortTests
{
    private static readonly Scenario Read = Folders.Good(ScenarioReader.Read(Folders.SkerryShort));

    private static Duration Seconds(int seconds) => Duration.FromSeconds(seconds);

    private static Pet At(string text)
    {
        Assert.True(Pet.TryParse(text, out Pet pet));
        return pet;
    }

    [Fact]
    public void Sortie_Read_IsAsWritten()
    {
        Assert.Equal("skerry/short", Read.Id);
        Assert.Equal(64, Read.Digest.Length);
        Assert.Equal(new Sortie("Skerry · Short Walk", new DateTime(2031, 5, 14, 13, 40, 0, DateTimeKind.Utc), "suits on their own power, hatch open", "by-hand", null), Read.Sortie);
        Assert.Equal(DateTimeKind.Utc, Read.Sortie.PetZero.Kind);
        Assert.Equal([new PetInterval(At("0:12"), At("0:48"))], Read.Sky.Night);
        Assert.Equal([new PetInterval(At("0:06"), At("0:11"))], Read.Sky.NoLink);
        Assert.Equal("invented for the demo", Read.Sky.Source);
        Assert.Equal(new TetherRules(TetherProtocol.Reel, Seconds(120), Seconds(20), "common practice, no source"), Read.Tether);
        HandlingTime two = new(Seconds(120), Seconds(30));
        Assert.Equal(new Handling(two, two, two, new(Seconds(300), Seconds(60)), new(Seconds(180), Seconds(60)), new(Seconds(180), Seconds(120)), new(Seconds(120), Seconds(120)), "common practice, no source"), Read.Handling);
    }

    [Fact]
    public void Limits_Read_CarryValueUnitSourceAndDoubt()
    {
        Assert.Equal(["return.one", "return.both", "return.armless", "pet.limit"], Read.Limits.Select(limit => limit.Rule.Value));
        Limit one = Read.LimitOf("return.one")!;
        Assert.Equal(new Quantity(Dimension.Time, 1800, "30 min"), one.Value);
        Assert.Equal(new Quantity(Dimension.Time, 180, "3 min"), one.Near);
        Assert.Equal("secondary oxygen at its stated flow; from memory", one.Source);
        Assert.False(one.Verified);
        Assert.Equal(23400, Read.LimitOf("pet.limit")!.Value.Value);
    }

    [Fact]
    public void Station_Read_IsAsWritten()
    {
        Station station = Read.Station;
        Assert.Equal("Skerry", station.Name);
        Assert.Equal([new Module("Quay", new(0, 0, 0), new(11, 0, 0), 3), new Module("Lock", new(-3, 0, 0), new(0, 0, 0), 2.5)], station.Modules);
        Assert.Equal([new Grip(new("lock"), new(0, 0, 1.5), true, true), new Grip(new("quay-1"), new(6, 0, 1.5), false, false), new Grip(new("quay-2"), new(10, 0, 1.5), true, false)], station.Grips);
        Assert.Equal([new Span(new("lock"), new("quay-1"), 6, SpanClass.Easy), new Span(new("quay-1"), new("quay-2"), 4.5, SpanClass.Careful)], station.Spans);
        Assert.Equal([new Site(new("ring"), "Quay's ring", new GripId("quay-2"), null, null), new Site(new("rim"), "Quay's rim", new GripId("quay-1"), null, null)], station.Sites);
        Assert.Equal(["latch", "jets"], station.Features.Select(feature => feature.Id.Value));
        Assert.Equal(["sticky", "free"], station.Features[0].States);
        Assert.Equal(("sticky", null, null), (station.Features[0].Start, station.Features[0].Ready, station.Features[0].Back));
        Assert.Equal(("held", "held", "held"), (station.Features[1].Start, station.Features[1].Ready, station.Features[1].Back));
        Assert.Empty(station.Sockets);
        Assert.Empty(station.Zones);
        Assert.Empty(station.PowerLines);
        Assert.Empty(station.PowerSources);
        Assert.Empty(station.FluidLines);
        Airlock airlock = Assert.Single(station.Airlocks);
        Assert.Equal(["EV1", "EV2"], airlock.Order.Select(person => person.Value));
        Assert.Equal(
            new Airlock(new("lock"), new("lock"), airlock.Order, Seconds(300), Seconds(180), Seconds(240), Seconds(480), Seconds(180), Seconds(180), Seconds(240), 2), airlock);
    }

    [Fact]
    public void People_Read_AreAsWritten()
    {
        Assert.Equal(["EV1 Ada Marsh Outside", "EV2 Noor Halden Outside", "IV Tomas Reed Inside"], Read.People.Select(person => $"{person.Id} {person.Name} {person.Role}"));
        Person first = Read.People[0];
        Assert.Equal(["mechanisms"], first.TrainedFor);
        Assert.Empty(Read.People[1].TrainedFor);
        Assert.Equal(0.1, first.Pace!.Easy, 1e-15);
        Assert.Equal(0.05, first.Pace.Careful, 1e-15);
        Assert.Equal(Seconds(120), first.Pace.Gap);
        Assert.Equal(["waist 30", "chest 10"], first.CarryPoints.Select(point => $"{point.Id} {point.MaxMass}"));
        Assert.Equal(["small", "bag"], first.CarryPoints[0].Sizes.Select(size => size.Value));
        Assert.Equal([26, 26], first.Reels);
        // 4.3 psi × 6894.757293168 Pa/psi; 500 Wh × 3600 J/Wh.
        Assert.Equal(29647.4563606224, first.Suit!.Pressure, 1e-9);
        Assert.Equal(1_800_000, first.Suit.Battery, 1e-6);
        Assert.Equal((At("7:00"), "invented for the demo", 0.55, Seconds(1800), 4.0, 0.75),
            (first.Suit.CutOff, first.Suit.CutOffSource, first.Suit.PrimaryOxygen, first.Suit.SecondaryOxygen, first.Suit.Feedwater, first.Suit.CarbonDioxide));
        Assert.Null(Read.People[2].Pace);
        Assert.Null(Read.People[2].Suit);
    }

    [Fact]
    public void Gear_Read_IsAsWritten()
    {
        Assert.Equal([new SizeClass(new("small"), 1), new SizeClass(new("bag"), 1), new SizeClass(new("bulky"), 1.8)], Read.Sizes);
        Location inBag = new(LocationKind.Bag, "latch-bag");
        Assert.Equal(new Gear(new("latch-bag"), "Latch bag", GearKind.Bag, new("bag"), 9, 0.04, Location.Inside, Location.Inside, 1), Read.Gear[0]);
        Assert.Equal(new Gear(new("driver"), "Driver", GearKind.Tool, new("small"), 2, 0.002, inBag, inBag, 1), Read.Gear[1]);
        Assert.Equal(new Gear(new("grease"), "Grease cartridges", GearKind.Stock, new("small"), 0.2, 0.0002, inBag, null, 2), Read.Gear[2]);
        Assert.Equal(3, Read.Gear.Length);
    }

    [Fact]
    public void Jobs_Read_AreAsWritten()
    {
        Job job = Assert.Single(Read.Jobs);
        Assert.Equal(("latch", "Sticky latch on Quay's ring", "so that the next ship can be held at the ring", Worth.Must, 10, 4, "pinched glove at the latch"),
            (job.Id.Value, job.Title, job.For, job.Worth, job.Value, job.HalfValue, job.Hazard));
        Assert.Empty(job.Contingencies);
        Leg free = job.Legs[0], look = job.Legs[1];
        Assert.Equal(("latch/free", "ring", Footing.BodyTether), (free.Id.Value, free.Site.Value, free.Footing));
        Assert.Equal(["latch-bag"], free.With.Select(gear => gear.Value));
        Assert.Equal(["mechanisms"], free.Training);
        Assert.Empty(free.Who);
        Assert.Equal(("latch/look", "rim", Footing.Free), (look.Id.Value, look.Site.Value, look.Footing));
        Assert.Equal([new Precedence(new("latch/free"), Seconds(0), null)], look.After);
        Assert.False(free.NeedsLink || free.MayWait || look.NeedsLink || look.MayWait);
        Assert.Null(free.Light);
        Assert.Equal(Seconds(600), free.Length);
    }

    [Fact]
    public void Steps_Read_AreAsWritten()
    {
        Step loosen = Read.Jobs[0].Legs[0].Steps[0], grease = Read.Jobs[0].Legs[0].Steps[1];
        Assert.Equal(new StepTime(Seconds(180), Seconds(240), Seconds(420), "common practice, no source"), loosen.Time);
        Assert.Equal(new NeedGear(NeedTime.Throughout, new("driver")), loosen.Needs[0]);
        NeedFeature sticky = Assert.IsType<NeedFeature>(loosen.Needs[1]);
        Assert.Equal((NeedTime.Start, "latch"), (sticky.When, sticky.Condition.Feature.Value));
        Assert.Equal(["sticky"], sticky.Condition.States);
        Assert.Equal((Seconds(30), Seconds(60)), (loosen.Abort.Time, loosen.Terminate.Time));
        Assert.Empty(loosen.Abort.Leaves);
        Assert.Equal(WorkClass.Moderate, loosen.Work);
        // 14 ft·lbf × 1.3558179483314004 N·m.
        Assert.Equal(18.981451276639606, loosen.Fastener!.Torque, 1e-12);
        Assert.Equal((-6.0, "14 ft-lbf, -6 turns"), (loosen.Fastener.Turns, loosen.Fastener.Text));
        Assert.Equal([new MakeFeature(new(new("latch"), "free")), (Effect)new UseStock(new("grease"), 1)], grease.Makes);
        Assert.Null(grease.Fastener);
    }
}
