using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests;

/// <summary>
/// Small random scenarios, the same one for the same seed. What a step needs is always brought about by the legs before it, or by a
/// shutdown it asks for; all else is left to chance, so that a few of them have no plan.
/// </summary>
internal sealed partial class RandomScenario
{
    private readonly Random random;
    private readonly List<Grip> grips = [];
    private readonly List<Span> spans = [];
    private readonly List<Site> sites = [];
    private readonly List<Socket> sockets = [];
    private readonly List<Feature> features = [];
    private readonly List<PowerLine> powerLines = [];
    private readonly List<Gear> gear = [];
    private readonly List<Job> jobs = [];
    private readonly List<Arm> arms = [];
    private readonly List<GripId> ends = [];
    private readonly List<GripId> transit = [];
    private ImmutableArray<Person> people = [];
    private ImmutableArray<Airlock> airlocks = [];
    private ImmutableArray<GroundConsole> consoles = [];

    private RandomScenario(int seed) => random = new(seed);

    /// <summary>The scenario of a seed.</summary>
    public static Scenario Of(int seed)
    {
        RandomScenario made = new(seed);
        return RandomMotion.With(RandomTroubles.With(RandomScenarioFluid.Add(RandomBody.Added(RandomScenarioGear.Add(made.Make(seed), seed), seed), seed), seed), seed);
    }

    private Scenario Make(int seed)
    {
        int outside = 2 + random.Next(3);
        PersonId[] names = [.. Enumerable.Range(1, outside).Select(i => new PersonId($"EV{i}"))];
        MakeStructure(names);
        TetherRules tether = new(Chance(70) ? TetherProtocol.Reel : TetherProtocol.Leapfrog, Minutes(2), Seconds(20), Source);
        double[] reels = [20 + random.Next(8), 20 + random.Next(8)];
        people = [.. names.Select(name => Outside(name, reels)), Inside("IV", Role.Inside)];
        MakeArms();
        MakeGround();
        MakeGear();
        MakeJobs();
        if (arms.Count > 0) people = people.Add(Inside("OP", Role.ArmOperator));

        Station station = new("Skerry", [.. grips], [.. spans], [.. sites], [.. sockets], MakeZones(), [.. features], [.. powerLines],
            powerLines.Count == 0 ? [] : [new("array")], [], airlocks, []);
        Handling handling = new(Time(2, 30), Time(2, 30), Time(2, 30), Time(5, 60), Time(3, 60), Time(3, 120), Time(2, 120), Source);
        return WithPower(seed, new($"skerry/random-{seed}", seed.ToString(System.Globalization.CultureInfo.InvariantCulture),
            new("Random walk", new(2031, 5, 14, 13, 40, 0, DateTimeKind.Utc), "hatch open", null, null),
            station, people, [new(new("small"), 1), new(new("bag"), 1), new(new("bulky"), 1.8)], [.. gear], handling, tether, [.. arms], consoles,
            new(Every(92, 12 + random.Next(40), 36), Every(46, 6 + random.Next(20), 7), Source), [.. jobs],
            [LimitOf("return.one", 30), LimitOf("return.both", 45), LimitOf("return.armless", 30), LimitOf("pet.limit", 390)]));
    }

    private const string Source = "invented for the test";

    private bool Chance(int percent) => random.Next(100) < percent;

    private T Pick<T>(IReadOnlyList<T> from) => from[random.Next(from.Count)];

    private static Duration Minutes(int minutes) => Duration.FromMinutes(minutes);

    private static Duration Seconds(int seconds) => Duration.FromSeconds(seconds);

    private static HandlingTime Time(int minutes, int breakOff) => new(Minutes(minutes), Seconds(breakOff));

    private static Limit LimitOf(string rule, int minutes) => new(new(rule), new(Dimension.Time, minutes * 60, $"{minutes} min"), null, Source, false);

    private static ImmutableArray<PetInterval> Every(int period, int first, int length) =>
        [.. Enumerable.Range(0, 12).Select(i => new PetInterval(Pet.FromSeconds((first + i * period) * 60), Pet.FromSeconds((first + i * period + length) * 60)))];

    private Person Outside(PersonId name, double[] reels) => new(
        name, $"Walker {name}", Role.Outside, name.Value == "EV1" || Chance(50) ? ["mechanisms"] : [],
        new(6.0 / 60, 3.0 / 60, Minutes(2), Source),
        [
            new(new("waist"), [new("small"), new("bag"), new("bulky")], 60),
            new(new("chest"), [new("small"), new("bag")], 30),
            .. Chance(40) ? [new CarryPoint(new("hip"), [new("small")], 5)] : ImmutableArray<CarryPoint>.Empty,
        ],
        [.. reels], new(Pet.FromSeconds(7 * 3600), Source, 29647, 0.55, Minutes(30), 4, 1_800_000, 0.75));

    private static Person Inside(string name, Role role) => new(new(name), $"Crew {name}", role, [], null, [], [], null);

    /// <summary>A spine with the airlocks on it and side branches, some of which close a loop.</summary>
    private void MakeStructure(PersonId[] names)
    {
        int length = 7 + random.Next(4);
        for (int i = 0; i < length; i++)
        {
            grips.Add(new(new($"spine-{i}"), default, Anchor: i % 2 == 0, Stow: i % 3 == 1));
            if (i > 0) Join(grips[i - 1].Id, grips[i].Id);
        }
        int locks = 1 + random.Next(2);
        for (int i = 0; i < locks; i++)
        {
            GripId at = new($"lock-{i + 1}");
            grips.Add(new(at, default, Anchor: true, Stow: true));
            Join(at, new($"spine-{Math.Clamp(length / 2 + i * 2 - random.Next(2), 0, length - 1)}"));
            PersonId[] order = [.. names.Where((_, n) => n % locks == i)];
            airlocks = airlocks.Add(new(new($"airlock-{i + 1}"), at, [.. order],
                Minutes(5), Minutes(3), Minutes(4), Minutes(8), Minutes(3), Minutes(3), Minutes(4), names.Length));
        }
        int branches = 3 + random.Next(3);
        for (int b = 0; b < branches; b++)
        {
            GripId last = new($"spine-{random.Next(length)}");
            for (int i = 1 + random.Next(2); i > 0; i--)
            {
                GripId next = new($"branch-{b}-{i}");
                grips.Add(new(next, default, Anchor: Chance(20), Stow: i == 1 && Chance(20)));
                Join(last, next);
                if (i > 1) transit.Add(next);
                last = next;
            }
            ends.Add(last);
            if (Chance(40)) Join(last, new($"spine-{random.Next(length)}"));
        }
        ends.AddRange(Enumerable.Range(0, length).Where(i => i % 3 == 0).Select(i => new GripId($"spine-{i}")));
        for (int i = 0; i < 3; i++) sockets.Add(new(new($"socket-{i + 1}"), ends[i]));
    }

    private void Join(GripId a, GripId b)
    {
        if (a == b || spans.Exists(span => (span.A == a && span.B == b) || (span.A == b && span.B == a))) return;
        spans.Add(Chance(10) ? new(a, b, 2, SpanClass.Gap) : new(a, b, 2 + random.Next(2500) / 1000.0, Chance(30) ? SpanClass.Careful : SpanClass.Easy));
    }

    /// <summary>Zones lie only where people pass and nobody works, so that nobody has to wait inside one.</summary>
    private ImmutableArray<Zone> MakeZones()
    {
        if (transit.Count == 0 || !Chance(40)) return [];
        return [new(new("beam"), "the antenna beam sweeps here", [Pick(transit)], Every(50, 20 + random.Next(30), 4 + random.Next(6)), null, [])];
    }

    private void MakeArms()
    {
        int count = random.Next(3);
        for (int a = 0; a < count; a++)
        {
            ImmutableArray<ArmMount> mounts = [.. Enumerable.Range(0, 1 + random.Next(2)).Select(i => new ArmMount(new($"spine-{2 + 2 * i + a}"), new($"low-{a}-{i}")))];
            ImmutableArray<Pose> poses =
            [
                .. mounts.Select(mount => new Pose(mount.Pose, default, mount.Grip, Minutes(3))),
                .. Enumerable.Range(0, 2 + random.Next(2)).Select(i => new Pose(new($"high-{a}-{i}"), default, Pick(ends), Minutes(4 + random.Next(4)))),
            ];
            List<RideTime> rides = [];
            for (int i = 0; i < poses.Length; i++)
                for (int j = i + 1; j < poses.Length; j++) rides.Add(new(poses[i].Id, poses[j].Id, Minutes(3 + random.Next(5))));
            ArmId id = new($"crane-{a + 1}");
            foreach (Pose pose in poses.Skip(mounts.Length)) sites.Add(new(new($"at-{pose.Id}"), $"At {pose.Id}", null, id, pose.Id));
            arms.Add(new(id, new("OP"), Pick(poses).Id, poses, [.. rides], mounts, Time(8, 120), Time(5, 120), Source));
        }
        sites.AddRange(ends.Select((grip, i) => new Site(new($"site-{i}"), $"Site {i}", grip, null, null)));
    }

    private void MakeGround()
    {
        int count = random.Next(3);
        List<(ImmutableArray<Command> Commands, Shutdown Shutdown)> made = [];
        for (int s = 0; s < count; s++)
        {
            string name = $"branch-{(char)('a' + s)}";
            ImmutableArray<FeatureId> switches = [.. Enumerable.Range(1, 1 + random.Next(2)).Select(i => new FeatureId($"{name}-switch-{i}"))];
            NodeId from = new("array");
            foreach (FeatureId one in switches)
            {
                features.Add(new(one, ["closed", "open"], "closed", "closed", "closed"));
                NodeId to = one == switches[^1] ? new(name) : new($"{one}-out");
                powerLines.Add(new(from, to, new(one, ["closed"]), $"{one}-driver"));
                from = to;
            }
            bool link = Chance(50);
            Command Send(string what, string state) => new(new($"{name} {what}"), Minutes(2 + random.Next(3)), link, [.. switches.Select(one => new FeatureState(one, state))])
            {
                Go = Minutes(1),
                SeenAboard = !link,
            };
            Command off = Send("off", "open"), on = Send("on", "closed");
            made.Add(([off, on], new(new(name), off.Id, on.Id, Chance(60) ? Minutes(90) : null, CutsLink: false, Source)));
        }
        consoles = count == 0 ? []
            : Chance(50) ? [new(new("power"), [.. made.SelectMany(one => one.Commands)], [.. made.Select(one => one.Shutdown)])]
            : [.. made.Select((one, i) => new GroundConsole(new($"power-{i + 1}"), one.Commands, [one.Shutdown]))];
    }
}
