using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests;

/// <summary>
/// Puts a fluid net with a job on it, surfaces and a sharp edge into some random scenarios. It draws from a stream of its own, so that
/// what else is random stays as it was.
/// </summary>
internal static class RandomScenarioFluid
{
    private const string Source = "invented for the test";

    public static Scenario Add(Scenario scenario, int seed)
    {
        Random random = new(seed ^ 0x0F1D);
        scenario = Touched(scenario, random);
        return random.Next(100) < 50 ? WithNet(scenario, random) : scenario;
    }

    /// <summary>Surfaces that are near the limits where people work, and one beyond them where people only pass, with an edge.</summary>
    private static Scenario Touched(Scenario scenario, Random random)
    {
        Station station = scenario.Station;
        HashSet<GripId> stayed = [.. station.Sites.Select(site => site.Grip).Concat(station.Sockets.Select(socket => (GripId?)socket.Grip))
            .Concat(station.Grips.Where(grip => grip.Stow || grip.Anchor).Select(grip => (GripId?)grip.Id))
            .Concat(scenario.Arms.SelectMany(arm => arm.Mounts.Select(mount => (GripId?)mount.Grip))).OfType<GripId>()];
        GripId[] passed = [.. station.Grips.Select(grip => grip.Id).Where(grip => !stayed.Contains(grip))];
        List<Surface> surfaces = [];
        if (random.Next(100) < 40) surfaces.Add(new("warm-plate", [], [station.Sites[random.Next(station.Sites.Length)].Id], Degrees(105), Degrees(-110), Source));
        if (passed.Length == 0 || random.Next(100) >= 30) return With(scenario, surfaces, []);
        GripId hot = passed[random.Next(passed.Length)];
        surfaces.Add(new("hot-plate", [hot], [], Degrees(random.Next(2) == 0 ? 140 : 80), Degrees(-120), Source));
        Point at = new(100, 0, 0);
        scenario = scenario with { Station = station with { Grips = [.. station.Grips.Select(grip => grip.Id == hot ? grip with { At = at } : grip)] } };
        return With(scenario, surfaces, [new("torn-rim", at with { Y = 0.2 }, null)]);
    }

    private static Scenario With(Scenario scenario, List<Surface> surfaces, ImmutableArray<Edge> edges) => scenario with
    {
        Station = scenario.Station with { Surfaces = [.. surfaces], Edges = edges },
        Limits = scenario.Limits.AddRange(
            new Limit(new("touch.temperature"), Degrees(113), null, Source, false) { Least = Degrees(-118) },
            new Limit(new("edge.sharp"), new(Dimension.Length, 0.6, "0.6 m"), null, Source, false)),
    };

    /// <summary>A loop, two hoses with a disconnect between them, and a job that takes them apart and puts them together again.</summary>
    private static Scenario WithNet(Scenario scenario, Random random)
    {
        Station station = scenario.Station;
        Site[] sites = [.. station.Sites.Where(site => site.Grip is not null)];
        Site valves = sites[random.Next(sites.Length)], coupling = sites[random.Next(sites.Length)];
        bool shaded = random.Next(2) == 0, tested = random.Next(100) < 50;
        Duration trapped = Duration.FromMinutes(70 + random.Next(60));
        FluidLine Hose(string name, string valve) => new(name, [new(valve), new("coupling")], 900_000)
        { Holds = "coolant", Liquid = true, Trapped = trapped, Source = Source, ShadedAtNight = shaded };
        Feature Turned(string name) => new(new(name), ["open", "closed"], "open", null, "open");
        ImmutableArray<Soiled>? spills = tested ? null : [];

        Site hatch = new(new("hatch-of-the-test"), "At the hatch", station.Airlocks[0].Grip, null, null);
        PersonId[] outside = [.. scenario.Outside.Select(person => person.Id)];
        ImmutableArray<PersonId> who = tested ? [outside[random.Next(outside.Length)]] : [];
        GearId? bag = scenario.Gear.FirstOrDefault(gear => gear.Kind == GearKind.Bag && random.Next(2) == 0)?.Id;

        Leg isolate = Leg("isolate", valves.Id, who, Step("shut-in", 2, ("valve-in", "closed")), Step("shut-out", 2, ("valve-out", "closed")),
            Step("read", 3) with { Fluid = new("hose-in", false) { Reads = true } });
        Leg work = Leg("work", coupling.Id, who,
            Step("demate", 6, ("coupling", "apart")) with { Fluid = new("hose-in", true) { Spills = spills } },
            Step("cap", 2, ("coupling", "capped")) with { Fluid = new("hose-in", false) },
            Step("uncap", 2, ("coupling", "apart")) with { Fluid = new("hose-in", true) { Spills = spills } },
            Step("mate", 6, ("coupling", "mated")) with { Fluid = new("hose-in", false) },
            Step("lock", 2, ("coupling", "locked")) with { Fluid = new("hose-in", false) }) with
        {
            With = bag is { } carried ? [carried] : [],
            After = [new(isolate.Id, default, null)],
        };
        Leg check = Leg("check", valves.Id, who, Step("crack", 2, ("valve-in", "open")),
            Step("watch", 8) with { Fluid = new("hose-in", false) { Watches = true } }, Step("open", 2, ("valve-out", "open"))) with
        {
            After = [new(work.Id, default, null)],
        };
        // A night lasts 36 min: after 46 the sun has shone for 10.
        Leg test = Leg("test", hatch.Id, who, Step("test", 4) with { Fluid = new("hose-in", false) { Tests = [Soiled.Person, Soiled.Tool, Soiled.Bag] } }) with
        {
            After = [new(work.Id, Duration.FromMinutes(46), null)],
        };
        return scenario with
        {
            Station = station with
            {
                Sites = tested ? station.Sites.Add(hatch) : station.Sites,
                Features = station.Features.AddRange(Turned("valve-in"), Turned("valve-out"),
                    new Feature(new("coupling"), ["locked", "apart", "capped", "mated"], "locked", null, "locked")),
                FluidLines =
                [
                    new("loop", [new("valve-in"), new("valve-out")], 900_000) { Holds = "coolant", Liquid = true, Feeds = true },
                    Hose("hose-in", "valve-in"), Hose("hose-out", "valve-out"),
                ],
                Valves = [new(new("valve-in"), ["closed"]), new(new("valve-out"), ["closed"])],
                Disconnects = [new(new("coupling"), ["locked"], ["capped"])],
                BakeOut = new(Duration.FromMinutes(10), Duration.FromMinutes(4), Source),
            },
            Jobs = scenario.Jobs.Add(new(new("coolant"), "Work on the coolant", Source, Worth.Should, 8, 0, "",
                tested ? [isolate, work, check, test] : [isolate, work, check], [])),
        };
    }

    private static Leg Leg(string name, SiteId site, ImmutableArray<PersonId> who, params ImmutableArray<Step> steps) => new(
        new($"coolant/{name}"), name, site, who, [], Footing.Free, null, null, null, [], [], [], "", [], [], null, false, false, steps);

    private static Step Step(string name, int minutes, params (string Feature, string State)[] makes) => new(
        new(name), name, "", new(Duration.FromMinutes(minutes), Duration.FromMinutes(minutes), Duration.FromMinutes(2 * minutes), Source), [],
        [.. makes.Select(make => new MakeFeature(new(new(make.Feature), make.State)))],
        new(Duration.FromSeconds(60), []), new(Duration.FromSeconds(120), []), WorkClass.Moderate, null, null);

    private static Quantity Degrees(int degrees) => new(Dimension.Temperature, degrees + 273.15, $"{degrees} degC");
}
