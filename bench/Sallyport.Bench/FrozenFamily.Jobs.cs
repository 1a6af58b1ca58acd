using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Bench;

// The jobs of a case, with the gear, poses and power branches that they need.
internal sealed partial class FrozenFamily
{
    /// <summary>Each job has one leg, of this name.</summary>
    private const string OnlyLeg = "work";

    private static readonly ArmId Crane = new("crane");
    private static readonly PoseId Rest = new("rest");
    private static readonly string[] PowerBranches = ["branch-a", "branch-b"];

    private readonly List<Gear> gear = [];
    private readonly List<Site> sites = [];
    private readonly List<PoseId> poses = [];

    private static IEnumerable<Feature> Features => PowerBranches.SelectMany(branch => Switches(branch).Select(one => new Feature(one, ["closed", "open"], "closed", null, null)));

    private static IEnumerable<PowerLine> PowerLines => PowerBranches.SelectMany(branch => new PowerLine[]
    {
        new(new("array"), new($"{branch}-middle"), new(Switches(branch)[0], ["closed"]), $"{branch}-box-1"),
        new(new($"{branch}-middle"), new(branch), new(Switches(branch)[1], ["closed"]), $"{branch}-box-2"),
    });

    private static FeatureId[] Switches(string branch) => [new($"{branch}-switch-1"), new($"{branch}-switch-2")];

    private static string BagName(int stow, int number) => string.Create(CultureInfo.InvariantCulture, $"bag-{(stow < Middle ? "west" : stow > Middle ? "east" : "lock")}-{number}");

    private Job[] MakeJobs(ImmutableArray<PersonId> names)
    {
        foreach (int stow in new[] { Middle - 10, Middle, Middle + 10 })
            for (int number = 1; number <= 2; number++)
                gear.Add(new(new(BagName(stow, number)), "Bag", GearKind.Bag, new("bag"), 10, 0.05,
                    stow == Middle ? Location.Inside : new(LocationKind.Grip, Spine(stow).Value), null, 1));

        int musts = (int)Math.Round(legs * 0.6);
        bool[] must = Shuffled(legs).Select(i => i < musts).ToArray();
        List<Precedence>[] after = MakePrecedences(must);
        return [.. Enumerable.Range(0, legs).Select(i => MakeJob(i, must[i], after[i], names))];
    }

    private Job MakeJob(int index, bool must, List<Precedence> after, ImmutableArray<PersonId> names)
    {
        JobId id = new(string.Create(CultureInfo.InvariantCulture, $"job-{index + 1:00}"));
        bool arm = random.Chance(18), both = !arm && random.Chance(10);
        ImmutableArray<PersonId> who = !both && random.Chance(20) ? [names[random.Next(names.Length)]] : [];
        int mean = 430 * 60 / legs, length = mean / 2 + random.Next(mean + 1);
        GripId at = grips[random.Next(grips.Count)].Id;
        GearId? bag = random.Chance(60) ? new GearId(BagName(arm ? Middle : NearestStow(at), 1 + random.Next(2))) : null;
        GearId? bulky = null;
        if (random.Chance(8) && !arm)
        {
            bulky = new($"bulky-{index + 1}");
            gear.Add(new(bulky.Value, "Bulky item", GearKind.Part, new("bulky"), 40, 0.3, Location.Inside, null, 1));
        }
        LightCondition? light = random.Chance(20) ? LightCondition.Day : null;
        bool link = random.Chance(15);
        string? branch = random.Chance(20) ? PowerBranches[random.Next(PowerBranches.Length)] : null;
        int value = must ? 10 : 2 + random.Next(9);
        sites.Add(arm ? new(new($"site-{index + 1}"), $"Site {index + 1}", null, Crane, AddPose(index)) : new(new($"site-{index + 1}"), $"Site {index + 1}", at, null, null));

        Leg first = new(
            new($"{id}/{OnlyLeg}"), $"Work {index + 1}", new($"site-{index + 1}"), who, [], arm ? Footing.Arm : Footing.BodyTether, null, null, null,
            [.. bag is { } used ? [used] : ImmutableArray<GearId>.Empty, .. bulky is { } carried ? [carried] : ImmutableArray<GearId>.Empty], [],
            bulky is { } left ? [left] : [], both ? "both" : "", [.. after], branch is null ? [] : [new(branch)], light, link, MayWait: false,
            [MakeStep(length, branch, bulky, new($"site-{index + 1}"))]);
        ImmutableArray<Leg> all = both
            ? [first, first with { Id = new($"{id}/help"), Title = $"Help {index + 1}", With = [], LeavesBehind = [], Steps = [MakeStep(length, branch, null, first.Site)] }]
            : [first];
        return new(id, $"Job {index + 1}", "", must ? Worth.Must : Worth.GetAhead, value, 0, "", all, []);
    }

    private static Step MakeStep(int seconds, string? branch, GearId? bulky, SiteId site) => new(
        new("do"), "Do the work", "", new(Seconds(seconds), Seconds(seconds), Seconds(seconds), Source),
        branch is null ? [] : [new NeedDead(NeedTime.Throughout, new(branch), 2)],
        bulky is { } part ? [new MoveGear(part, new(LocationKind.Site, site.Value))] : [],
        new(Seconds(30), []), new(Seconds(30), []), WorkClass.Moderate, null, null);

    /// <summary>Which legs wait for which: pairs drawn until there are enough, from earlier to later in the numbering, no pair twice.</summary>
    private List<Precedence>[] MakePrecedences(bool[] must)
    {
        List<Precedence>[] after = [.. Enumerable.Range(0, legs).Select(_ => new List<Precedence>())];
        for (int made = 0; made < legs / 5;)
        {
            int a = random.Next(legs), b = random.Next(legs);
            if (a >= b || (must[b] && !must[a])) continue;
            LegId earlier = new(string.Create(CultureInfo.InvariantCulture, $"job-{a + 1:00}/{OnlyLeg}"));
            if (after[b].Exists(known => known.Leg == earlier)) continue;
            after[b].Add(new(earlier, Seconds(0), random.Chance(30) ? Minutes(120) : null));
            made++;
        }
        return after;
    }

    private int[] Shuffled(int count)
    {
        int[] numbers = [.. Enumerable.Range(0, count)];
        for (int i = count - 1; i > 0; i--)
        {
            int j = random.Next(i + 1);
            (numbers[i], numbers[j]) = (numbers[j], numbers[i]);
        }
        return numbers;
    }

    private int NearestStow(GripId at) => new[] { Middle - 10, Middle, Middle + 10 }.MinBy(stow => Math.Abs(root[at] - stow));

    private PoseId AddPose(int index)
    {
        poses.Add(new($"pose-{index + 1}"));
        return poses[^1];
    }

    private Arm MakeArm()
    {
        GripId mount = Spine(Middle + 3);
        List<RideTime> rides = [];
        PoseId[] all = [Rest, .. poses];
        for (int i = 0; i < all.Length; i++)
            for (int j = i + 1; j < all.Length; j++) rides.Add(new(all[i], all[j], Seconds(180 + 30 * random.Next(5))));
        return new(Crane, new("OP"), Rest, [.. all.Select(pose => new Pose(pose, default, mount, Minutes(pose == Rest ? 2 : 8)))], [.. rides], [new(mount, Rest)],
            new(Minutes(25), Minutes(4)), new(Minutes(15), Minutes(15)), Source);
    }

    private static GroundConsole MakeConsole()
    {
        Command Send(string branch, string what, string state) =>
            new(new($"{branch} {what}"), Minutes(4), NeedsLink: false, [.. Switches(branch).Select(one => new FeatureState(one, state))]) { Go = Minutes(1), SeenAboard = true };
        return new(new("power"), [.. PowerBranches.SelectMany(branch => new[] { Send(branch, "off", "open"), Send(branch, "on", "closed") })],
            [.. PowerBranches.Select(branch => new Shutdown(new(branch), new($"{branch} off"), new($"{branch} on"), null, CutsLink: false, Source))]);
    }
}
