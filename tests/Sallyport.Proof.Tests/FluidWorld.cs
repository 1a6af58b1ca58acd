using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>
/// A loop under pressure, two hoses with a quick disconnect between them, and a valve at each end. EV1 works on them at quay-1, five minutes
/// a step from PET 0:18, in whatever order a test asks for. All of it is invented for the tests.
/// </summary>
internal static class FluidWorld
{
    public const string WorkLeg = "filter/work";

    /// <summary>All of it, in the order of the trade.</summary>
    public static ImmutableArray<string> Order { get; } = ["shut-a", "shut-b", "read", "demate", "cap", "uncap", "mate", "lock", "open-a", "watch", "open-b"];

    public static FeatureState Is(string feature, string state) => new(new(feature), state);

    /// <summary>The scenario with a leg that does these steps in this order.</summary>
    public static Scenario With(IEnumerable<string> steps, Func<Step, Step>? change = null) => Skerry.WithStation(station => station with
    {
        Features = station.Features.AddRange(
            new Feature(new("valve-a"), ["open", "closed"], "open", null, null),
            new Feature(new("valve-b"), ["open", "closed"], "open", null, null),
            new Feature(new("coupling"), ["locked", "apart", "capped", "mated"], "locked", null, null)),
        FluidLines =
        [
            Line("loop", "valve-a", "valve-b") with { Feeds = true },
            Line("hose-a", "valve-a", "coupling") with { Trapped = Minutes(120), Source = "a test" },
            Line("hose-b", "coupling", "valve-b") with { Trapped = Minutes(120), Source = "a test" },
        ],
        Valves = [new(new("valve-a"), ["closed"]), new(new("valve-b"), ["closed"])],
        Disconnects = [new(new("coupling"), ["locked"], ["capped"])],
        BakeOut = new(Minutes(30), Minutes(5), "a test"),
    }) with
    {
        Jobs = Skerry.Jobs.Add(new(new("filter"), "filter", "", Worth.Must, 10, 4, "",
            [
                new(new(WorkLeg), WorkLeg, new("rim"), [], [], Footing.Free, null, null, null, [], [], [], "", [], [], null, false, true,
                    [.. steps.Select((name, at) => StepNamed(name, at)).Select(step => change?.Invoke(step) ?? step)]),
            ], [])),
    };

    /// <summary>EV1 does the steps one after another and everybody goes home.</summary>
    public static Plan Walk(IEnumerable<string> steps)
    {
        Plan plan = Plan.Outside().Walk("EV1", "lock", ("quay-1", 60));
        int at = 0;
        foreach (string name in steps) plan.Step("EV1", WorkLeg, $"{name}-{at++}", 300);
        return plan;
    }

    public static Timeline Home(this Plan plan, int until)
    {
        plan.Wait("EV1", until).Walk("EV1", "quay-1", ("lock", 60));
        return plan.Home();
    }

    public static Timeline Timeline(IEnumerable<string> steps) => Walk(steps).Home(0);

    public static ImmutableArray<Finding> By(string rule, IEnumerable<string> steps, Func<Step, Step>? change = null) =>
        Judged.By(rule, With(steps, change), Timeline(steps));

    private static FluidLine Line(string name, string one, string other) => new(name, [new(one), new(other)], 965_000) { Holds = "coolant", Liquid = true };

    private static Step StepNamed(string name, int at)
    {
        (ImmutableArray<FeatureState> makes, FluidTouch? touch) = name switch
        {
            "shut-a" => ([Is("valve-a", "closed")], null),
            "shut-b" => ([Is("valve-b", "closed")], null),
            "read" => ([], new FluidTouch("hose-a", false) { Reads = true }),
            "demate" => ([Is("coupling", "apart")], new("hose-a", true) { Spills = [] }),
            "demate-and-cap" => ([Is("coupling", "capped")], new("hose-a", true) { Spills = [] }),
            "cap" => ([Is("coupling", "capped")], new("hose-a", false)),
            "uncap" => ([Is("coupling", "apart")], new("hose-a", true) { Spills = [] }),
            "mate" => ([Is("coupling", "mated")], new("hose-a", false)),
            "lock" => ([Is("coupling", "locked")], new("hose-a", false)),
            "open-a" => ([Is("valve-a", "open")], null),
            "open-b" => ([Is("valve-b", "open")], null),
            "open-both" => ([Is("valve-a", "open"), Is("valve-b", "open")], null),
            "watch" => ([], new FluidTouch("hose-a", false) { Watches = true }),
            "vent" => ([], new FluidTouch("hose-a", false) { Vents = true }),
            "test" => ([], new FluidTouch("hose-a", false) { Tests = [Soiled.Person, Soiled.Tool, Soiled.Bag] }),
            "rest" => ((ImmutableArray<FeatureState>, FluidTouch?))([], null),
            _ => throw new ArgumentOutOfRangeException(nameof(name), name, "expected a step of the fluid world"),
        };
        return StepOf($"{name}-{at}", 5, 60, [], [.. makes.Select(state => new MakeFeature(state))]) with { Fluid = touch };
    }
}
