using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The forms that the small scenario has no use for.</summary>
public sealed class EveryKeyTests
{
    private static Scenario Read => Folders.EveryKeyScenario;

    private static Duration Seconds(int seconds) => Duration.FromSeconds(seconds);

    [Fact]
    public void Sortie_WithObjectives_KeepsTheirOrder() =>
        Assert.Equal([Objective.Margin, Objective.Walking, Objective.End, Objective.Value, Objective.Balance, Objective.Dead], Read.Sortie.Objectives);

    [Fact]
    public void Sortie_WithDecision_KeepsIt()
    {
        Assert.Equal(Pet.FromSeconds(16200), Read.Sortie.Decision!.Earliest);
        // Beside what the orbit gives, and beyond the span of which it is known.
        Assert.Equal(new PetInterval(Pet.FromSeconds(-1200), Pet.FromSeconds(900)), Read.Sky.Night[1]);
        Assert.Equal(Pet.FromSeconds(6390), Read.Sky.Night[2].To);
        Assert.Equal(Seconds(0), Read.Tether.Hook);
        Assert.True(Read.LimitOf("return.one")!.Verified);
        Assert.False(Read.LimitOf("glove.check")!.Verified);
        Assert.Null(Read.LimitOf("glove.check")!.Near);
    }

    [Fact]
    public void Station_Everything_IsAsWritten()
    {
        Station station = Read.Station;
        Assert.Equal(3, station.Modules[0].Width);
        Assert.Equal(SpanClass.Gap, station.Spans[2].Class);
        Assert.Equal(new Site(new("lamp"), "The lamp", null, new ArmId("boom"), new PoseId("lamp-high")), station.Sites[1]);
        Assert.Equal(new Socket(new("socket-2"), new("rail-2")), Assert.Single(station.Sockets));
        Zone zone = Assert.Single(station.Zones);
        Assert.Equal(("beam", "the beam burns", LightCondition.Day), (zone.Id.Value, zone.Why, zone.Light));
        Assert.Equal(["rail-1"], zone.Grips.Select(grip => grip.Value));
        Assert.Equal([new PetInterval(Pet.FromSeconds(7200), Pet.FromSeconds(7800))], zone.Times);
        Assert.Equal("beam", Assert.Single(zone.While).Feature.Value);
        Assert.Equal(["on", "warming"], zone.While[0].States);
    }

    [Fact]
    public void Nets_Read_AreAsWritten()
    {
        ImmutableArray<PowerLine> lines = Read.Station.PowerLines;
        Assert.Equal(["battery-a"], Read.Station.PowerSources.Select(source => source.Value));
        Assert.Equal(("battery-a", "bus-a", "sw-a", "box-a"), (lines[0].From.Value, lines[0].To.Value, lines[0].Closed!.Feature.Value, lines[0].Controller));
        Assert.Equal(["closed"], lines[0].Closed!.States);
        Assert.Equal(("plug-a", null), (lines[1].Closed!.Feature.Value, lines[1].Controller));
        Assert.Equal(["mated"], lines[1].Closed!.States);
        Assert.Equal(((FeatureCondition?)null, null), (lines[2].Closed, lines[2].Controller));
        Assert.Equal(["apart"], lines[1].Exposed);
        Assert.Equal([new Capacitor(new("lamp-load"), Seconds(90), "invented for the test")], Read.Station.Capacitors);
        Assert.Equal([new SwitchController("box-a", "converter")], Read.Station.Controllers);
    }

    [Fact]
    public void Arm_Read_IsAsWritten()
    {
        Arm arm = Assert.Single(Read.Arms);
        Assert.Equal(("boom", "OP", "park", "invented for the test"), (arm.Id.Value, arm.Operator.Value, arm.Start.Value, arm.Source));
        Assert.Equal([new Pose(new("park"), new(4, 0, 3), new GripId("rail-1"), Seconds(480)), new Pose(new("lamp-high"), new(9, 0, 6), null, default)], arm.Poses);
        RideTime ride = Assert.Single(arm.Rides);
        Assert.Equal((new PoseId("park"), new PoseId("lamp-high"), Seconds(420), Seconds(5)), (ride.A, ride.B, ride.Time, ride.Guided));
        Assert.Equal([new GripId("rail-2")], ride.Through!.Value.AsEnumerable());
        Assert.Equal(new ArmBrakes(Seconds(20), Seconds(10)), arm.Brakes);
        Assert.Equal(450, arm.TimeOf(ride).Seconds);
        Assert.Equal([new ArmMount(new("rail-1"), new("park"))], arm.Mounts);
        Assert.Equal((new HandlingTime(Seconds(840), Seconds(240)), new HandlingTime(Seconds(600), Seconds(180))), (arm.Mount, arm.Dismount));
        Assert.Equal(Role.ArmOperator, Read.People[3].Role);
    }

    [Fact]
    public void Hazards_Read_AreAsWritten()
    {
        Joint joint = Assert.Single(Read.Station.Joints);
        Assert.Equal(("mirror-joint", "mirror"), (joint.Id.Value, joint.Feature.Value));
        Assert.Equal(["locked"], joint.Locked);
        Assert.Equal([new("rail-1")], joint.Moves.AsEnumerable());
        Emitter jets = Assert.Single(Read.Station.Jets), mast = Assert.Single(Read.Station.Beams);
        Assert.Equal((new Point(20, 0, 0), 0.5), (jets.At, jets.Around));
        Assert.Equal((new Point(2, 0, 0), 12.0), (jets.Cone!.Along, jets.Cone.Reach));
        // 20 deg × π/180.
        Assert.Equal(Math.PI / 9, jets.Cone!.HalfAngle, 1e-12);
        Assert.Equal((0.0, (Cone?)null), (mast.Around, mast.Cone));
        Assert.Equal(["off", "warming"], mast.Safe);
    }

    [Fact]
    public void Voice_Read_IsAsWritten()
    {
        Assert.Equal([new PetInterval(Pet.FromSeconds(9000), Pet.FromSeconds(9060))], Read.Sky.NoVoice);
        Assert.Equal("beam", Assert.Single(Read.Sky.VoiceLost).Feature.Value);
        Assert.Equal(Seconds(45), Read.Tether.Hooked);
    }

    [Fact]
    public void Console_Read_IsAsWritten()
    {
        Assert.Equal(["power", "deck"], Read.Consoles.Select(one => one.Id.Value));
        GroundConsole console = Read.Consoles[0];
        Assert.Equal((Seconds(60), false), (console.Commands[0].Go, console.Commands[0].SeenAboard));
        Assert.Equal((null, true), (console.Commands[1].Go, console.Commands[1].SeenAboard));
        Assert.Equal(["lid", "plug-a"], Read.Consoles[1].Commands[0].Covers.Select(feature => feature.Value));
        Assert.Equal(("branch-a off", Seconds(180), true), (console.Commands[0].Id.Value, console.Commands[0].Time, console.Commands[0].NeedsLink));
        Assert.Equal([new FeatureState(new("sw-a"), "open")], console.Commands[0].Makes);
        Assert.False(console.Commands[1].NeedsLink);
        Assert.Equal([new Shutdown(new("branch-a"), new("branch-a off"), new("branch-a on"), Seconds(4500), true, "invented for the test")], console.Shutdowns);
    }

    [Fact]
    public void Clock_Read_IsAsWritten()
    {
        HeatClock clock = Assert.Single(Read.Clocks);
        Assert.Equal(("lamp heater", ClockKind.Cold, true, "invented for the test"), (clock.Id.Value, clock.Kind, clock.MayRunOn, clock.Source));
        Assert.Equal([new IsShutDown(new("branch-a")), (WorldCondition)new GearIsIn(new("lamp-new"), new(LocationKind.Bag, "lamp-bag"))], clock.While);
        Assert.Equal([Seconds(1200), Seconds(2400)], clock.Lasts.Select(rate => rate.Time));
        Assert.Equal(["open"], Assert.IsType<FeatureIs>(clock.Lasts[0].When[0]).Condition.States);
        Assert.Equal(new LightIs(LightCondition.Night), clock.Lasts[0].When[1]);
        Assert.Equal([new NeedGo(NeedTime.Start, new("go lamp"))], Read.Jobs[0].Legs[1].Steps[0].Needs);
    }

    [Fact]
    public void Gear_Anywhere_IsAsWritten()
    {
        Assert.Equal(
            ["lamp-bag inside inside 1", "lamp-new bag lamp-bag site lamp 1", "lamp-old site lamp inside 1", "ties bag lamp-bag  6", "restraint-2 grip rail-1  1", "spare socket socket-2  1", "camera person EV2 inside 1",
                "tool-bag bag lamp-bag  1", "wrench bag tool-bag  1", "second-wrench inside  1"],
            Read.Gear.Select(gear => $"{gear.Id} {gear.Start} {gear.End} {gear.Count}"));
        // 22 lb × 0.45359237 kg/lb.
        Assert.Equal(9.97903214, Read.People[0].CarryPoints[1].MaxMass, 1e-12);
        Assert.Equal([26, 25], Read.People[0].Reels);
    }

    [Fact]
    public void Legs_Everything_IsAsWritten()
    {
        Leg swap = Read.Jobs[0].Legs[0], steady = Read.Jobs[0].Legs[1], turn = Read.Jobs[1].Legs[0];
        Assert.Equal(["EV1"], swap.Who.Select(person => person.Value));
        Assert.Equal(("both", "both"), (swap.Together, steady.Together));
        Assert.Equal(["branch-a"], swap.Shutdowns.Select(shutdown => shutdown.Value));
        Assert.Equal((Footing.Arm, LightCondition.Day, true, false), (swap.Footing, swap.Light, swap.NeedsLink, swap.MayWait));
        Assert.Equal((Footing.Restraint, "restraint-2", "socket-2", "B6", true), (steady.Footing, steady.Restraint!.Value.Value, steady.Socket!.Value.Value, steady.Setting, steady.MayWait));
        Assert.Equal(([new("camera")], [new("lamp-bag")]), ((GearId[])[.. turn.PicksUp], (GearId[])[.. turn.LeavesBehind]), Comparer);
        Assert.Equal([new Precedence(new("lamp/swap"), Seconds(600), Seconds(7200))], turn.After);
        Assert.Equal((Worth.GetAhead, 0, ""), (Read.Jobs[1].Worth, Read.Jobs[1].HalfValue, Read.Jobs[1].Hazard));
        Assert.Equal(Worth.Should, Read.Jobs[2].Worth);
    }

    private static readonly IEqualityComparer<(GearId[], GearId[])> Comparer =
        EqualityComparer<(GearId[], GearId[])>.Create((left, right) => left.Item1.SequenceEqual(right.Item1) && left.Item2.SequenceEqual(right.Item2));

    [Fact]
    public void Steps_Everything_IsAsWritten()
    {
        Step takeOut = Read.Jobs[0].Legs[0].Steps[0], putIn = Read.Jobs[0].Legs[0].Steps[1], turn = Read.Jobs[1].Legs[0].Steps[0];
        Assert.Equal(("it is dead", "from memory, unverified", WorkClass.Heavy), (takeOut.For, takeOut.Time.Source, takeOut.Work));
        Assert.Equal(new NeedDead(NeedTime.Throughout, new("lamp-plug"), 1), takeOut.Needs[0]);
        Assert.Equal(NeedTime.End, takeOut.Needs[1].When);
        Assert.Equal([new MoveGear(new("lamp-old"), new(LocationKind.Bag, "lamp-bag")), (Effect)new MakeFeature(new(new("plug-a"), "apart"))], takeOut.Makes);
        Assert.Equal([new FeatureState(new("lid"), "open")], takeOut.Abort.Leaves);
        Assert.Equal([new FeatureState(new("lid"), "shut"), new FeatureState(new("plug-a"), "apart")], takeOut.Terminate.Leaves);
        Assert.Equal(new StepTime(Seconds(50), Seconds(120), Seconds(360), "common practice, no source"), putIn.Time);
        Assert.Equal(new MoveGear(new("lamp-new"), new(LocationKind.Site, "lamp")), putIn.Makes[0]);
        Assert.Equal(new MoveGear(new("camera"), new(LocationKind.Person, "")), turn.Makes[1]);
        Assert.Equal(new FluidTouch("cooling line", false), turn.Fluid);
    }

    [Fact]
    public void Checks_AndHelp_AreAsWritten()
    {
        Assert.Equal(new GloveCheck(new(Seconds(90), Seconds(10)), true, "invented for the test"), Read.Checks!.Gloves);
        Assert.Equal(new RestTime(Seconds(300), "invented for the test"), Read.Checks.Rest);
        Assert.Equal(new HelpTimes(Seconds(360), 2.5, Seconds(600), "invented for the test"), Read.Help);
        Job scrape = Read.Jobs.First(job => job.Id.Value == "scrape");
        Assert.Equal((Pet.FromSeconds(12600), Pet.FromSeconds(10830)), (scrape.Latest, scrape.Legs[0].Latest));
        Assert.Equal([(true, true, true, false), (false, false, false, true)], scrape.Legs[0].Steps.Select(step => (step.Led, step.Rough, step.NoGlare, step.ChecksGloves)));
        Assert.Equal((null, null, false), (Read.Jobs[2].Latest, Read.Jobs[2].Legs[0].Latest, Read.Jobs[2].Legs[0].Steps[0].Led));
    }

    [Fact]
    public void Contingency_Read_IsAsWritten()
    {
        Contingency stuck = Assert.Single(Read.Jobs[0].Contingencies);
        Assert.Equal(
            new Contingency(new("lamp/swap"), new("out"), "Lamp stuck", 0.05, "from memory and unverified", new(Seconds(300), Seconds(600), Seconds(1200), "from memory and unverified"), "twist it and pull again") { Tools = stuck.Tools },
            stuck);
        Assert.Equal(["spare"], stuck.Tools.Select(tool => tool.Value));
    }

    [Fact]
    public void MayBeLeft_Read_IsAsWritten()
    {
        Assert.Equal(["plug-a", "lid"], Read.MayBeLeft.Select(one => one.Feature.Value));
        Assert.Equal(["mated"], Read.MayBeLeft[0].In);
        Assert.Equal(["apart"], Read.MayBeLeft[0].AfterAbort);
        Assert.Equal("bare pins corrode", Read.MayBeLeft[0].Why);
        Assert.Equal(["shut", "open"], Read.MayBeLeft[1].In);
        Assert.Empty(Read.MayBeLeft[1].AfterAbort);
    }

    [Fact]
    public void Sections_SpreadOverFiles_AreJoinedInOrderOfTheNames()
    {
        using TemporaryFolder folder = new();
        foreach (string path in Directory.GetFiles(Folders.EveryKey)) File.Copy(path, Path.Combine(folder.Path, Path.GetFileName(path)));
        File.WriteAllText(Path.Combine(folder.Path, "a-more.yaml"), "sizes:\n- {id: huge, slower: 2}\n");
        Scenario more = Folders.Good(ScenarioReader.Read(folder.Path));
        Assert.Equal(["huge", "small", "bag"], more.Sizes.Select(size => size.Id.Value));
        Assert.NotEqual(Read.Digest, more.Digest);
        File.Move(Path.Combine(folder.Path, "a-more.yaml"), Path.Combine(folder.Path, "b-more.yaml"));
        Assert.NotEqual(more.Digest, Folders.Good(ScenarioReader.Read(folder.Path)).Digest);
    }

    // A limit is never made wider by reading it, and nothing else shorter.
    [Theory]
    [InlineData("longest: 75 min", "longest: 100.9 s", 100)]
    [InlineData("longest: 75 min", "longest: 100 s", 100)]
    public void LimitingTime_PartSeconds_AreRoundedDown(string from, string to, int seconds) =>
        Assert.Equal(Seconds(seconds), Folders.Good(Folders.ReadChanged(Folders.EveryKey, "arm.yaml", from, to)).Consoles[0].Shutdowns[0].Longest);

    [Theory]
    [InlineData("time: 7 min", "time: 100.1 s", 101)]
    [InlineData("time: 7 min", "time: 0.1 min", 6)]
    public void WorkingTime_PartSeconds_AreRoundedUp(string from, string to, int seconds) =>
        Assert.Equal(Seconds(seconds), Folders.Good(Folders.ReadChanged(Folders.EveryKey, "arm.yaml", from, to)).Arms[0].Rides[0].Time);

    [Fact]
    public void Scenarios_OfTheDemos_AreReadWithoutAProblem()
    {
        string[] folders = Directory.GetDirectories(RepositoryFolder.Of("scenarios"));
        Assert.NotEmpty(folders);
        Assert.All(folders, folder => Folders.Good(ScenarioReader.Read(folder)));
    }

    [Fact]
    public void Reference_OfTheFormat_NamesEverySection()
    {
        string reference = File.ReadAllText(RepositoryFolder.Of("docs", "scenario-format.md"));
        Assert.All(Sections.Known, section => Assert.Contains($"`{section}`", reference));
    }
}
