using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The fluid net, surfaces and edges, as the files say them and as they are refused.</summary>
public sealed class EveryFluidKeyTests
{
    private const string File = "valves.yaml";

    private static Station Station => Folders.EveryKeyScenario.Station;

    [Fact]
    public void Lines_Everything_IsAsWritten()
    {
        FluidLine loop = Station.FluidLines[0], line = Station.FluidLines[1], coil = Station.FluidLines[2];
        Assert.Equal(("pump loop", "water", true, true, true, (Duration?)null), (loop.Name, loop.Holds, loop.Liquid, loop.Feeds, loop.Harmless, loop.Trapped));
        Assert.Equal(["valve-1", "lamp-qd"], line.Ends.Select(end => end.Value));
        // 14 psi × 6894.757293168 Pa/psi.
        Assert.Equal(("cooling line", 96526.602104352), (line.Name, Math.Round(line.Pressure, 9)));
        Assert.Equal((true, false, false, Duration.FromMinutes(45), true, "invented for the test"), (line.Liquid, line.Feeds, line.Harmless, line.Trapped, line.ShadedAtNight, line.Source));
        Assert.Equal(("the ground turns it out of the sun", null), (line.MayBeLeft, coil.MayBeLeft));
        Assert.Equal((false, (Duration?)null, false), (coil.Liquid, coil.Trapped, coil.ShadedAtNight));
    }

    [Fact]
    public void Fittings_Everything_IsAsWritten()
    {
        Assert.Equal(["valve-1: closed", "valve-2: closed"], Station.Valves.Select(valve => $"{valve.Feature}: {string.Join(' ', valve.Shut)}"));
        Disconnect only = Assert.Single(Station.Disconnects);
        Assert.Equal(("lamp-qd", "locked", "capped"), (only.Feature.Value, Assert.Single(only.Mated), Assert.Single(only.Capped)));
        Assert.Equal(new BakeOut(Duration.FromMinutes(30), Duration.FromMinutes(1), "invented for the test"), Station.BakeOut);
    }

    [Fact]
    public void SurfacesAndEdges_Everything_AreAsWritten()
    {
        Surface glass = Assert.Single(Station.Surfaces);
        Assert.Equal(("lamp-glass", "rail-1", "bench"), (glass.Name, Assert.Single(glass.Grips).Value, Assert.Single(glass.Sites).Value));
        Assert.Equal((393.15, 213.15), (Math.Round(glass.Lit.Value, 9), Math.Round(glass.Shade.Value, 9)));
        Edge burr = Assert.Single(Station.Edges);
        Assert.Equal(("burr", new Point(4, 1, 1.5), "lid"), (burr.Name, burr.At, burr.Covered!.Feature.Value));
        Limit limit = Folders.EveryKeyScenario.LimitOf("touch.temperature")!;
        Assert.Equal((386.15, 155.15), (Math.Round(limit.Value.Value, 9), Math.Round(limit.Least!.Value.Value, 9)));
    }

    [Fact]
    public void Steps_OnALine_AreAsWritten()
    {
        Leg bleed = Folders.EveryKeyScenario.Legs.Single(leg => leg.Id.Value == "coil/bleed");
        Assert.Equal(["burr"], bleed.Minds);
        Assert.Equal(
            [
                new("lamp coil", false) { Reads = true },
                new("lamp coil", true) { Spills = [Soiled.Tool, Soiled.Bag] },
                new("lamp coil", false) { Vents = true },
                new("cooling line", false) { Watches = true },
                new("lamp coil", false) { Tests = [Soiled.Person, Soiled.Tool, Soiled.Bag] },
            ],
            bleed.Steps.Select(step => step.Fluid!));
    }

    public static TheoryData<string, string, string> Cases => new()
    {
        { "- {feature: valve-2, shut: [closed]}", "", "valves.yaml:5:5: fluid.end | the line 'lamp coil' with the end 'valve-2', of which nothing says when it shuts | a valve or a disconnect at each end | add 'valve-2' to 'valves' with the states in which it is shut, or to 'disconnects'." },
        { "- {feature: valve-2, shut", "- {feature: lamp-qd, shut: [capped]}\n  - {feature: valve-2, shut", "valves.yaml:11:5: fluid.twice | the feature 'lamp-qd' as a fitting a second time | each feature as one valve or one disconnect | delete one of the two." },
        { "- {feature: valve-2, shut", "- {feature: lid, shut: [shut]}\n  - {feature: valve-2, shut", "valves.yaml:8:5: fluid.unused | 'lid', at which no line ends | a line that names it among its ends | add 'lid' to the 'ends' of a line, or delete it here." },
        { "capped: [capped]", "capped: [capped, locked]", "valves.yaml:10:5: fluid.state | the state 'locked' of 'lamp-qd' as mated and as capped | each state once | delete it from one of the two." },
        { "makes: [{feature: lamp-qd, becomes: apart}], ", "", "valves.yaml:40:7: fluid.opens | the step 'apart', which opens 'lamp coil' and makes no state of a disconnect at its ends | an effect on the disconnect among 'makes' | add it to 'makes', or name the line that is meant." },
        { "  bakeout: {sunlit: 30 min, test: 1 min, source: invented for the test}\n", "", "valves.yaml:42:7: fluid.bakeout | the step 'test', which tests after a bake-out, where the scenario has none | 'bakeout' in the section 'fluid' | add 'bakeout: {sunlit: 30 min, test: 10 min, source: …}' there." },
        { "test: 1 min", "test: 3 min", "valves.yaml:43:7: fluid.test | the step 'test', which is likely shorter than the test takes | at least 3 min, as 'bakeout' says | give the step more time, or mend the bake-out." },
        { "grips: [rail-1], sites: [bench], ", "", "valves.yaml:14:3: key.missing | the surface 'lamp-glass' without a place | 'grips' or 'sites' where hands touch it | add the grips or the sites." },
        { "least: -118 degC", "least: 113 degC", "valves.yaml:23:3: limit.order | a 'least' of touch.temperature that is not below its 'limit' | the smaller figure under 'least' | swap or mend the two." },
        { "least: -118 degC", "least: -118 degC, near: 10 degC", "valves.yaml:23:3: unit.wrong | '10 degC' for 'near', which is a temperature and no difference of two | a difference in K | write it in K, such as '10 K'." },
        { "minds: [burr]", "minds: [blade]", "valves.yaml:37:13: name.unknown | 'blade' | a known sharp edge | use one of: burr." },
        { "liquid: true, trapped: 45 min", "liquid: true, trapped: 45 psi", "valves.yaml:4:109: unit.wrong | '45 psi' for 'trapped', which is a pressure | a time | write it in one of: s, min, h, d." },
        { "lit: day", "lit: day, feeds: true", "valves.yaml:4:109: key.clash | a fluid line with 'trapped' | only a line of liquid that does not feed can be trapped | delete 'trapped', or change what it clashes with." },
        { "reads: true", "reads: true, watches: true", "valves.yaml:39:125: key.clash | work on a fluid line with more than one of: opens, reads, watches, vents, tests | exactly one of them | keep the one that is meant." },
        { "reads: true", "reads: true, spills: [bag]", "valves.yaml:39:164: key.clash | work on a fluid line with 'spills' | only a step that opens a disconnect spills | delete 'spills', or change what it clashes with." },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Fluid_BadInput_IsToldWithPlaceAndFix(string from, string to, string told) =>
        Assert.Contains(told, Folders.ReadChanged(Folders.EveryKey, File, from, to).Problems.Select(problem =>
            $"{problem.File}:{problem.Line}:{problem.Column}: {problem.Code} | {problem.Found} | {problem.Expected} | {problem.Fix}"));
}
