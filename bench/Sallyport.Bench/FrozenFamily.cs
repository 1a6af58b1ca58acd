using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Bench;

/// <summary>
/// The benchmark family: random sorties of 15, 25 and 40 legs, seeds 1 to 12 at each size, frozen so that figures of different days compare.
/// It is never changed to please a result; the digests of all cases stand in a test. All of it is invented.
/// </summary>
/// <remarks>
/// <para>The shape. A spine of 41 grips, steps of 0.5 to 1 min; 14 side branches of 1 to 4 grips at 0.6 to 1.2 min, a third of them closing
/// a loop. Airlock at the middle, arm base 3 steps from it, two stow points 10 steps either side. Durations scatter ±50 % round 430/n min; 60 %
/// must, the rest worth 2 to 10; six bags, two at each stow point and at the airlock; 60 % of legs use a near one; 18 % from the arm; 10 %
/// for both; 20 % of the rest bound to one person; 8 % with a bulky item to carry; 20 % day-only (55 of 92 min), 15 % link-only; a fifth touch one of
/// two power branches; n/5 precedences, 30 % of them with a longest lag of 120 min; arm set-up 25, tear-down 15; bag handling 2, hand-over 2;
/// return limit 30 min; end limit 390 min.</para>
/// <para>Chosen where that leaves it open. Everybody moves 6 m/min on easy spans, so that minutes are lengths; a bulky item slows by 1.8.
/// One reel that reaches everywhere, anchored at the airlock: the family is not about tethers. A loop goes from a branch's end to a spine
/// grip within 4 steps of its root. A leg is a job of its own; one for both is two legs that start together. Sites are drawn from all grips
/// alike. Near is the stow point or airlock with the fewest spine steps to the site's root, and one of its two bags is drawn; arm legs that
/// use a bag use one of the airlock's. The bulky item is handed out at the airlock and stays at the site; none goes with the arm. Each arm
/// leg has a pose of its own; rides between any two take 3 to 5 min, by the half minute. The link is lost 10 of every 92 min, so that the
/// longest leg finds a window. A power branch has two switches in series, goes off and on in 4 min each and may stay off; what is touched
/// must be dead behind both. A must-job never waits for one that may be left out. Shares are drawn leg by leg, so that the counts scatter;
/// only must-jobs and precedences are counted out. Airlock out 5 min each, bags 3, check 4; in: inventory 8, bags 3, 3 each, close 4.
/// Everybody in within 40 min. Breaking off takes 30 s. Suits last to 7:00.</para>
/// <para>Some cases may have no plan: nothing was left out or mended for being hard.</para>
/// </remarks>
internal sealed partial class FrozenFamily
{
    private const int SpineGrips = 41, Middle = SpineGrips / 2, Branches = 14;
    private const double MetresAMinute = 6;

    private readonly FrozenRandom random;
    private readonly int legs;
    private readonly int seed;
    private readonly List<Grip> grips = [];
    private readonly List<Span> spans = [];

    /// <summary>For each grip, the spine step it stands on or branches from.</summary>
    private readonly Dictionary<GripId, int> root = [];

    private FrozenFamily(int legs, int seed)
    {
        (this.legs, this.seed) = (legs, seed);
        random = new((ulong)(legs * 1000 + seed));
    }

    /// <summary>The sizes, in legs.</summary>
    public static ImmutableArray<int> Sizes { get; } = [15, 25, 40];

    /// <summary>The seeds.</summary>
    public static IEnumerable<int> Seeds { get; } = Enumerable.Range(1, 12);

    /// <summary>One case.</summary>
    public static Scenario Of(int legs, int seed) => new FrozenFamily(legs, seed).Make();

    /// <summary>A short digest of everything in a case that planning can see; 12 letters.</summary>
    public static string DigestOf(Scenario scenario) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(TextOf(scenario))))[..12];

    private Scenario Make()
    {
        MakeStructure();
        ImmutableArray<PersonId> names = [new("EV1"), new("EV2")];
        Job[] jobs = MakeJobs(names);
        Airlock airlock = new(new("lock"), Spine(Middle), names, Minutes(5), Minutes(3), Minutes(4), Minutes(8), Minutes(3), Minutes(3), Minutes(4), names.Length);
        Station station = new("Skerry", [.. grips], [.. spans], [.. sites], [], [], [.. Features], [.. PowerLines], [new("array")], [], [airlock], []);
        HandlingTime two = new(Minutes(2), Seconds(30));
        Handling handling = new(two, two, two, new(Minutes(5), Seconds(60)), new(Minutes(3), Seconds(60)), new(Minutes(3), Seconds(120)), new(Minutes(2), Seconds(120)), Source);
        Scenario scenario = new(
            string.Create(CultureInfo.InvariantCulture, $"family/{legs}-{seed:00}"), "",
            new("Benchmark sortie", new(2031, 5, 14, 13, 40, 0, DateTimeKind.Utc), "hatch open", null, null),
            station, [.. names.Select(Outside), Inside("IV", Role.Inside), Inside("OP", Role.ArmOperator)],
            [new(new("bag"), 1), new(new("bulky"), 1.8)], [.. gear], handling, new(TetherProtocol.Reel, Minutes(2), Seconds(20), Source),
            [MakeArm()], [MakeConsole()], new(Every(92, random.Next(92), 37), Every(92, random.Next(92), 10), Source), [.. jobs],
            [LimitOf("return.one", 30), LimitOf("return.both", 40), LimitOf("return.armless", 30), LimitOf("pet.limit", 390)]);
        return scenario with { Digest = DigestOf(scenario) };
    }

    private void MakeStructure()
    {
        for (int i = 0; i < SpineGrips; i++)
        {
            AddGrip(Spine(i), i, anchor: i == Middle, stow: i is Middle or Middle - 10 or Middle + 10);
            if (i > 0) Join(Spine(i - 1), Spine(i), 0.5, 1);
        }
        for (int b = 0; b < Branches; b++)
        {
            int from = random.Next(SpineGrips), length = 1 + random.Next(4);
            GripId last = Spine(from);
            for (int i = 1; i <= length; i++)
            {
                GripId next = new(string.Create(CultureInfo.InvariantCulture, $"branch-{b + 1}-{i}"));
                AddGrip(next, from, anchor: false, stow: false);
                Join(last, next, 0.6, 1.2);
                last = next;
            }
            if (random.Next(3) > 0) continue;
            int back = Math.Clamp(from + (random.Next(2) == 0 ? -1 : 1) * (1 + random.Next(4)), 0, SpineGrips - 1);
            if (back != from) Join(last, Spine(back), 0.6, 1.2);
        }
    }

    private void AddGrip(GripId id, int step, bool anchor, bool stow)
    {
        grips.Add(new(id, default, anchor, stow));
        root[id] = step;
    }

    /// <summary>Joins two grips by a span that takes between so many minutes, whole seconds.</summary>
    private void Join(GripId a, GripId b, double least, double most)
    {
        int seconds = (int)(least * 60) + random.Next((int)((most - least) * 60) + 1);
        spans.Add(new(a, b, seconds * MetresAMinute / 60, SpanClass.Easy));
    }

    private static GripId Spine(int step) => new(string.Create(CultureInfo.InvariantCulture, $"spine-{step}"));

    private static Person Outside(PersonId name) => new(
        name, $"Walker {name}", Role.Outside, [], new(MetresAMinute / 60, MetresAMinute / 120, Minutes(2), Source),
        [new(new("waist"), [new("bag"), new("bulky")], 200), new(new("chest"), [new("bag")], 100)],
        [400], new(Pet.FromSeconds(7 * 3600), Source, 29647, 0.55, Minutes(30), 4, 1_800_000, 0.75));

    private static Person Inside(string name, Role role) => new(new(name), $"Crew {name}", role, [], null, [], [], null);

    private static ImmutableArray<PetInterval> Every(int period, int first, int length) =>
        [.. Enumerable.Range(0, 12).Select(i => new PetInterval(Pet.FromSeconds((first + i * period) * 60), Pet.FromSeconds((first + i * period + length) * 60)))];

    private static Limit LimitOf(string rule, int minutes) => new(new(rule), new(Dimension.Time, minutes * 60, $"{minutes} min"), null, Source, false);

    private static Duration Minutes(int minutes) => Duration.FromMinutes(minutes);

    private static Duration Seconds(int seconds) => Duration.FromSeconds(seconds);

    private const string Source = "invented for the benchmark";

    /// <summary>Every figure of a case, in a form that does not change when the model grows.</summary>
    private static string TextOf(Scenario scenario)
    {
        StringBuilder text = new();
        void Line(FormattableString line) => text.Append(FormattableString.Invariant(line)).Append('\n');
        foreach (Grip grip in scenario.Station.Grips) Line($"grip {grip.Id} {grip.Anchor} {grip.Stow}");
        foreach (Span span in scenario.Station.Spans) Line($"span {span.A} {span.B} {span.Length:R} {span.Class}");
        foreach (Site site in scenario.Station.Sites) Line($"site {site.Id} {site.Grip} {site.Arm} {site.Pose}");
        foreach (Gear one in scenario.Gear) Line($"gear {one.Id} {one.Kind} {one.Size} {one.Mass:R} {one.Start} {one.End}");
        foreach (Person person in scenario.Outside) Line($"person {person.Id} {person.Pace!.Easy:R} {string.Join(' ', person.Reels)} {person.Suit!.CutOff} {string.Join(' ', person.CarryPoints.Select(point => point.Id))}");
        foreach (Arm arm in scenario.Arms)
        {
            Line($"arm {arm.Id} {arm.Start} {arm.Mount} {arm.Dismount} {string.Join(' ', arm.Mounts)}");
            foreach (RideTime ride in arm.Rides) Line($"ride {ride.A} {ride.B} {ride.Time}");
            foreach (Pose pose in arm.Poses) Line($"pose {pose.Id} {pose.ClimbTo} {pose.Climb}");
        }
        foreach (Airlock one in scenario.Station.Airlocks)
            Line($"airlock {one.Grip} {string.Join(' ', one.Order)} {one.OutEach} {one.OutBags} {one.OutCheck} {one.Inventory} {one.InBags} {one.InEach} {one.Close}");
        Line($"handling {scenario.Handling.Take} {scenario.Handling.Put} {scenario.Handling.Give}");
        foreach (Shutdown shutdown in scenario.Consoles.SelectMany(console => console.Shutdowns)) Line($"shutdown {shutdown.Id} {shutdown.Longest} {shutdown.CutsLink}");
        foreach (Command command in scenario.Consoles.SelectMany(console => console.Commands)) Line($"command {command.Id} {command.Time} {command.NeedsLink}");
        foreach (PetInterval dark in scenario.Sky.Night) Line($"night {dark.From} {dark.To}");
        foreach (PetInterval silent in scenario.Sky.NoLink) Line($"no link {silent.From} {silent.To}");
        foreach (Limit limit in scenario.Limits) Line($"limit {limit.Rule} {limit.Value}");
        foreach (Job job in scenario.Jobs)
        {
            Line($"job {job.Id} {job.Worth} {job.Value}");
            foreach (Leg leg in job.Legs)
                Line($"leg {leg.Id} {leg.Site} {leg.Footing} {leg.Length} {leg.Light} {leg.NeedsLink} {leg.Together} who {string.Join(' ', leg.Who)} with {string.Join(' ', leg.With)} leaves {string.Join(' ', leg.LeavesBehind)} off {string.Join(' ', leg.Shutdowns)} after {string.Join(' ', leg.After)}");
        }
        return text.ToString();
    }
}

/// <summary>A small generator of our own (SplitMix64, in the public domain; from memory, unverified), so that no other version of the platform draws other cases.</summary>
internal sealed class FrozenRandom(ulong seed)
{
    private ulong state = seed;

    /// <summary>A whole number from 0 to below a bound.</summary>
    public int Next(int below)
    {
        state += 0x9E3779B97F4A7C15;
        ulong mixed = state;
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
        mixed ^= mixed >> 31;
        // The bias of a remainder is far below anything that these cases are about.
        return (int)(mixed % (ulong)below);
    }

    /// <summary>Whether something of a share in percent happens.</summary>
    public bool Chance(int percent) => Next(100) < percent;
}
