using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Draw.Tests;

/// <summary>As much of a scenario as the chart reads. All names and figures are invented.</summary>
internal static class TestScenario
{
    private static readonly string[] Names = ["Ada Marsh", "Noor Halden", "Iris Kell", "Bram Thole"];

    public static Leg Leg(LegId id, string title, string site, string together)
    {
        StepTime time = new(Duration.FromMinutes(1), Duration.FromMinutes(2), Duration.FromMinutes(3), "invented");
        BreakOff leave = new(Duration.FromMinutes(1), []);
        Step step = new(new("one"), title, "", time, [], [], leave, leave, WorkClass.Moderate, null, null);
        return new(id, title, new(site), [], [], Footing.Free, null, null, null, [], [], [], together, [], [], null, false, false, [step]);
    }

    public static Scenario Of(IReadOnlyList<PersonId> people, ImmutableArray<Leg> legs, IEnumerable<(string Id, string Title)> places, bool arm, int lastSecond)
    {
        ImmutableArray<(string Id, string Title)> known = [.. places];
        ImmutableArray<Site> sites = [.. known.Select(place => new Site(new(place.Id), place.Title, new GripId(place.Id), null, null)), new(new("mast-head"), "Mast head", null, new ArmId("Crane"), new PoseId("mast-head"))];
        ImmutableArray<Grip> grips = [.. known.Select((place, i) => new Grip(new(place.Id), new Point(i, 0, 0), true, true)), new(new("lock"), new Point(0, 0, 0), true, true)];
        Airlock airlock = new(new("lock"), new("lock"), [.. people], Duration.FromMinutes(5), Duration.FromMinutes(3), Duration.FromMinutes(4),
            Duration.FromMinutes(8), Duration.FromMinutes(3), Duration.FromMinutes(3), Duration.FromMinutes(4), people.Count);
        Station station = new("Skerry", grips, [], sites, [], [], [], [], [], [], [airlock], []);
        ImmutableArray<Person> crew = [.. people.Select((id, i) => new Person(id, Names[i % Names.Length], Role.Outside, [], null, [], [], null))];
        ImmutableArray<Gear> gear =
        [
            new(new("gyro-bag"), "Gyro bag", GearKind.Bag, new("bag"), 20, 0.1, Location.Inside, null, 1),
            new(new("lead-reel"), "Reel of heater lead", GearKind.Part, new("bag"), 8, 0.05, Location.Inside, null, 1),
        ];
        HandlingTime handling = new(Duration.FromMinutes(2), Duration.FromSeconds(30));
        ImmutableArray<Arm> arms = arm ? [new(new("Crane"), new("IV"), new("stowed"), [], [], [], handling, handling, "invented")] : [];
        Shutdown shutdown = new(new("branch-a"), new("branch-a off"), new("branch-a on"), Duration.FromMinutes(75), false, "invented");
        GroundConsole console = new(new("power"), [.. new[] { "branch-a off", "branch-a on", "isolate loop", "loop pressure read", "open loop" }.Select(id => new Command(new(id), Duration.FromMinutes(3), true, []))], [shutdown]);
        ImmutableArray<PetInterval> night = [.. Enumerable.Range(0, lastSecond / 5600 + 1).Select(i => new PetInterval(Pet.FromSeconds(1400 + i * 5600), Pet.FromSeconds(3550 + i * 5600)))];
        ImmutableArray<PetInterval> noLink = [.. Enumerable.Range(0, lastSecond / 4000 + 1).Select(i => new PetInterval(Pet.FromSeconds(700 + i * 4000), Pet.FromSeconds(1300 + i * 4000)))];
        ImmutableArray<Job> jobs = [.. legs.GroupBy(leg => leg.Job).Select((group, i) => new Job(group.Key, $"Job {group.Key}", "", (Worth)(i % 3), 10, 4, "", [.. group], []))];
        ImmutableArray<Limit> limits =
        [
            new(new("pet.limit"), new(Dimension.Time, Math.Ceiling(lastSecond / 1800.0 + 0.3) * 1800, "end"), null, "invented", false),
            new(new("return.both"), new(Dimension.Time, 2400, "40 min"), null, "invented", false),
        ];
        return new("skerry/sample", "0", new("Skerry · Sample Walk", new DateTime(2031, 5, 14, 13, 40, 0, DateTimeKind.Utc), "suits on their own power, hatch open", null, null),
            station, crew, [], gear, new(handling, handling, handling, handling, handling, handling, handling, "invented"),
            new(TetherProtocol.Reel, Duration.FromMinutes(2), Duration.FromSeconds(20), "invented"), arms, [console], new(night, noLink, "invented"), jobs, limits);
    }
}
