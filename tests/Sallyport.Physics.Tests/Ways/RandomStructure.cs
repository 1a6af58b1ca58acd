using System.Collections.Immutable;
using CsCheck;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Tests.Physics;

/// <summary>A random structure with one person and one airlock: all that ways depend on.</summary>
internal sealed class RandomStructure
{
    public required Scenario Scenario { get; init; }

    public StationGraph Graph => new(Scenario.Station);

    public Person Person => Scenario.People[0];

    public Airlock Airlock => Scenario.Station.Airlocks[0];

    public LineBook Book => new(Graph, Scenario.Tether, Person, Airlock.Grip);

    public StandardLines Lines => new(Scenario, Graph, Person, Airlock);

    public RandomStructure With(TetherRules tether, params double[] reels) => new()
    {
        Scenario = Scenario with { Tether = tether, People = [Person with { Reels = [.. reels] }] },
    };

    public RandomStructure With(Func<Station, Station> change) => new() { Scenario = Scenario with { Station = change(Scenario.Station) } };

    public static TetherRules Reel { get; } = new(TetherProtocol.Reel, Duration.FromSeconds(90), Duration.FromSeconds(20), "invented");

    public static TetherRules Leapfrog(int hook) => new(TetherProtocol.Leapfrog, Duration.FromSeconds(90), Duration.FromSeconds(hook), "invented");

    /// <summary>Connected structures of a few grips: each grip hangs on an earlier one, and some further spans close loops.</summary>
    public static Gen<RandomStructure> Gen(int least, int most) => CsCheck.Gen.Select(CsCheck.Gen.Int[least, most], CsCheck.Gen.Int[0, int.MaxValue - 1], Of);

    public static RandomStructure Of(int grips, int seed)
    {
        Random random = new(seed);
        double Length() => 1 + random.Next(9000) / 1000.0;
        GripId Name(int index) => new($"g{index}");
        Dictionary<(int, int), Span> spans = [];
        void Join(int a, int b)
        {
            if (a == b) return;
            SpanClass how = random.Next(4) switch { 0 => SpanClass.Careful, 1 => SpanClass.Gap, _ => SpanClass.Easy };
            spans.TryAdd((Math.Min(a, b), Math.Max(a, b)), new(Name(a), Name(b), Length(), how));
        }
        for (int i = 1; i < grips; i++) Join(i, random.Next(Math.Max(0, i - 3), i));
        for (int i = random.Next(grips / 2 + 1); i > 0; i--) Join(random.Next(grips), random.Next(grips));
        int anchors = 1 + random.Next(3);
        HashSet<int> anchor = [0, .. Enumerable.Range(0, anchors - 1).Select(_ => random.Next(grips))];

        PersonId who = new("EV1");
        Person person = new(who, "Ada Marsh", Role.Outside, [], new(0.05 + random.Next(100) / 1000.0, 0.02 + random.Next(50) / 1000.0, Duration.FromSeconds(60 + random.Next(90)), "invented"),
            [], [26, 26], null);
        Duration none = Duration.FromSeconds(1);
        Airlock airlock = new(new("lock"), Name(0), [who], none, none, none, none, none, none, none, 2);
        HandlingTime time = new(none, none);
        Station station = new("Skerry", [.. Enumerable.Range(0, grips).Select(i => new Grip(Name(i), default, anchor.Contains(i), Stow: true))],
            [.. spans.Values], [], [], RandomZones(random, grips, Name),
            [new(new("jets"), ["armed", "held"], "armed", null, null)], [], [], [], [airlock], []);
        return new()
        {
            Scenario = new("skerry/structure", "", new("Structure", default, "", null, null), station, [person],
                [new(new("small"), 1), new(new("bulky"), 1.8), new(new("huge"), 2.5), new(new("bag"), 1)], [],
                new(time, time, time, time, time, time, time, "invented"), Reel, [], [], new([new(Pet.FromSeconds(700), Pet.FromSeconds(1500))], [], "invented"), [], []),
        };
    }

    private static ImmutableArray<Zone> RandomZones(Random random, int grips, Func<int, GripId> name)
    {
        ImmutableArray<GripId> Some() => [.. Enumerable.Range(1, grips - 1).Where(_ => random.Next(5) == 0).Select(name)];
        int from = random.Next(2000);
        return
        [
            new(new("beam"), "invented", Some(), [new(Pet.FromSeconds(from), Pet.FromSeconds(from + 1 + random.Next(600)))], null, []),
            new(new("hot"), "invented", Some(), [], random.Next(2) == 0 ? LightCondition.Night : LightCondition.Day, []),
            new(new("jets"), "invented", random.Next(3) == 0 ? Some() : [], [], null, [new(new("jets"), ["armed"])]),
        ];
    }
}
