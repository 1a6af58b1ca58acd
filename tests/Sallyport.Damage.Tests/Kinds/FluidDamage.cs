using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Tests.Damage;

/// <summary>Fluid lines, spills, surfaces and edges.</summary>
internal static class FluidDamage
{
    private static readonly Duration VeryLong = Duration.FromMinutes(20 * 60);

    public static ImmutableArray<Damage> All { get; } =
    [
        new("pressure not read", "A step does not tell the pressure of the line in the world as played.", "line.pressure",
            "A disconnect is opened afterwards on a line whose pressure nobody knows.",
            plan => plan.All<DoStep>().Where(step => plan.Step(step).Fluid is { Reads: true } && plan.All<DoStep>().Any(later => later.Start >= step.End && plan.Step(later).Fluid is { Opens: true }))
                .Select(step => Instead(plan, step, one => one with { Fluid = null }))),
        new("valve that does not shut", "A valve that a step shuts stays open in the world as played.", "line.pressure",
            "The line is under pressure when its disconnect is opened.",
            plan => Shuttings(plan).Select(one => Instead(plan, one.Step, step => step with { Makes = step.Makes.Remove(one.Make) }))),
        new("disconnect left open", "The step that closes a disconnect for good does not in the world as played.", "line.pressure",
            "It is neither mated with its lock checked, nor capped.",
            plan => plan.Scenario.Station.Disconnects.SelectMany(disconnect => plan.All<DoStep>().Where(step => Makes(plan, step, disconnect.Feature) is not null).TakeLast(1)
                .Where(step => IsExposed(plan, disconnect, TimeDamage.Plus(step.End, -1)))
                .Select(step => Instead(plan, step, one => one with { Makes = one.Makes.Remove(Makes(plan, step, disconnect.Feature)!) })))),
        new("not watched for leaks", "A step watches nothing in the world as played.", "line.pressure",
            "The line was taken apart and is used without a leak check.",
            plan => plan.All<DoStep>().Where(step => plan.Step(step).Fluid is { Watches: true }).Select(step => Instead(plan, step, one => one with { Fluid = null }))),
        new("read too early", "The step that reads the pressure and the one before it change places.", "line.pressure",
            "The line is not shut off yet when its pressure is read.",
            plan => plan.All<DoStep>().Where(step => plan.Step(step).Fluid is { Reads: true }).SelectMany(step => ShutJustBefore(plan, step).Select(before =>
                plan.With(activity => activity == step ? [step with { Start = before.Start, End = before.Start.Plus(step.Length) }]
                    : activity == before ? [before with { Start = before.Start.Plus(step.Length), End = step.End }] : [activity])))),
        new("hose that takes less", "A line that is shut off takes a second in the sun in the world as played, and has no shade.", "line.trapped",
            "It is shut off for longer.",
            plan => plan.Scenario.Station.FluidLines.Where(line => line.Trapped is not null && WasShut(plan, line)).Select(line => plan.WithStation(station => station with
            {
                FluidLines = CleanPlan.Each(station.FluidLines, one => one.Name == line.Name, one => one with { Trapped = Duration.FromSeconds(1), ShadedAtNight = false }),
            }))),
        new("left shut off for too long", "Everything from the opening of a line on is held.", "line.trapped",
            "The line stays shut off in the sun beyond what it takes.",
            plan => plan.All<DoStep>().Where(step => OpensTrapped(plan, step)).Select(step => plan.Hold(plan.StepsOf(step.Leg)[0].Start, 10 * 3600)).Take(1)),
        new("spill on the suit", "A disconnect spills over whoever opens it in the world as played.", "fluid.carried",
            "Nobody tests that person, who comes in soiled.",
            plan => plan.All<DoStep>().Where(step => plan.Step(step).Fluid is { Opens: true } && !plan.All<DoStep>().Any(test => test.Start >= step.End && plan.Step(test).Fluid is { Tests.IsEmpty: false }))
                .Select(step => Instead(plan, step, one => one with { Fluid = one.Fluid! with { Spills = null } }))),
        new("soiled thing in the hand", "A disconnect spills on the tools and bags at hand in the world as played, and nobody tests anything.", "fluid.carried",
            "Whoever has them in the hand or on the suit is soiled by them, and comes in.",
            plan => plan.All<DoStep>().Where(step => plan.Step(step).Fluid is { Opens: true } && HasInHand(plan, step)).Select(step => plan.InWorld(scenario => scenario with
            {
                Jobs = [.. scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg with { Steps = [.. leg.Steps.Select(one => Touched(one, leg.Id == step.Leg && one.Id == step.Step))] })] })],
            }))),
        new("test left out", "A test after a bake-out is made on nothing in the world as played.", "fluid.carried",
            "Whoever was soiled comes in untested.",
            plan => Tests(plan).Select(step => Instead(plan, step, one => one with { Fluid = null }))),
        new("longer bake-out", "A bake-out takes longer in the world as played than a soiled person was in the sun.", "fluid.carried",
            "The test comes too early.",
            plan => Tests(plan).Select(_ => BakeOut(plan, VeryLong))),
        new("no time for a bake-out", "A bake-out takes longer in the world as played than everybody may stay out.", "bakeout.budget",
            "Soiled at the disconnect, nobody could be clean in time.",
            plan => plan.All<DoStep>().Where(step => plan.Step(step).Fluid is { Opens: true }).Take(1).Select(_ => BakeOut(plan, VeryLong))),
        new("hotter by day", "A surface is hotter by day in the world as played than a glove takes.", "touch.temperature",
            "Somebody is there by day.",
            plan => plan.Scenario.Station.Surfaces.Where(surface => IsTouched(plan, surface, "day"))
                .Select(surface => Surfaces(plan, surface, one => one with { Lit = Beyond(plan.Scenario.LimitOf("touch.temperature")!.Value, 1) }))),
        new("colder by night", "A surface is colder by night in the world as played than a glove takes.", "touch.temperature",
            "Somebody is there by night.",
            plan => plan.Scenario.Station.Surfaces.Where(surface => IsTouched(plan, surface, "night"))
                .Select(surface => Surfaces(plan, surface, one => one with { Shade = Beyond(plan.Scenario.LimitOf("touch.temperature")!.Least!.Value, -1) }))),
        new("edge at the worksite", "A bare edge is in the world as played where somebody works.", "edge.sharp",
            "Nobody was told of it there.",
            plan => plan.Scenario.Station.Edges.SelectMany(edge => plan.Done.Select(leg => plan.Legs[leg]).Where(leg => !leg.Minds.Contains(edge.Name))
                .Select(leg => PointOf(plan, leg)).OfType<Point>().Distinct().Select(point => plan.WithStation(station => station with
                {
                    Edges = CleanPlan.Each(station.Edges, one => one.Name == edge.Name, one => one with { At = point, Covered = null }),
                })))),
        new("sun in the eyes", "A step must not be done with the Sun in the eyes in the world as played, and it stands there all the time.", "glare.eyes",
            "Whoever does it sees badly.",
            plan => plan.All<DoStep>().Select(step => Glaring(plan, step, plan.WithLeg(step.Leg, leg => leg with { Steps = CleanPlan.Each(leg.Steps, one => one.Id == step.Step, one => one with { NoGlare = true }) }))))
        { IsCaution = true },
        new("not told of the edge", "A leg that minds an edge does not in the world as played.", "edge.sharp",
            "Whoever works there was not told of it.",
            plan => BesideEdges(plan).Select(leg => plan.WithLeg(leg, one => one with { Minds = [] }))),
    ];

    /// <summary>The legs that are done within reach of an edge that they mind: the clean plan has a note on each.</summary>
    private static IEnumerable<LegId> BesideEdges(CleanPlan plan) => plan.Judge(new(plan.Scenario, plan.Timeline)).Findings
        .Where(note => note.Rule.Value == "edge.sharp").Select(note => plan.Timeline.Activities.Single(activity => activity.Id == note.Activity))
        .Select(activity => activity is DoStep step ? step.Leg : activity.For!.Value).Distinct();

    private static Damaged Instead(CleanPlan plan, DoStep act, Func<Step, Step> change) =>
        plan.WithLeg(act.Leg, leg => leg with { Steps = CleanPlan.Each(leg.Steps, one => one.Id == act.Step, change) });

    private static Damaged Glaring(CleanPlan plan, DoStep step, Damaged damaged) => damaged with
    {
        Scenario = damaged.Scenario with
        {
            Sky = damaged.Scenario.Sky with { Sites = [new(plan.Legs[step.Leg].Site, [(plan.Trace.From, SunAtSite.Glare)])] },
            Limits = [.. damaged.Scenario.Limits.Where(limit => limit.Rule.Value != "glare.eyes"), new(new("glare.eyes"), new(Dimension.Time, 0, "0 s"), null, "damage", false)],
        },
    };

    private static Step Touched(Step step, bool spills) => step.Fluid switch
    {
        { Tests.IsEmpty: false } => step with { Fluid = null },
        { Opens: true } touch => step with { Fluid = touch with { Spills = spills ? [Soiled.Tool, Soiled.Bag] : [] } },
        _ => step,
    };

    /// <summary>Whether a step is done with a tool, or with something hanging on the person.</summary>
    private static bool HasInHand(CleanPlan plan, DoStep step) => plan.Step(step).Needs.OfType<NeedGear>().Any()
        || plan.Scenario.Gear.Any(gear => plan.History.StateAt(plan.History[$"gear {gear.Id} place"], step.Start).StartsWith($"person {step.Person} ", StringComparison.Ordinal));

    private static Damaged BakeOut(CleanPlan plan, Duration sunlit) =>
        plan.WithStation(station => station with { BakeOut = station.BakeOut! with { Sunlit = sunlit } });

    private static Damaged Surfaces(CleanPlan plan, Surface surface, Func<Surface, Surface> change) =>
        plan.WithStation(station => station with { Surfaces = CleanPlan.Each(station.Surfaces, one => one.Name == surface.Name, change) });

    private static Quantity Beyond(Quantity limit, double kelvin) => limit with { Value = limit.Value + kelvin, Text = $"{limit.Value + kelvin} K" };

    private static MakeFeature? Makes(CleanPlan plan, DoStep step, FeatureId feature) =>
        plan.Step(step).Makes.OfType<MakeFeature>().FirstOrDefault(make => make.State.Feature == feature);

    private static bool IsExposed(CleanPlan plan, Disconnect one, Pet at) =>
        plan.History.StateAt(plan.History[$"feature {one.Feature} state"], at) is var state && !one.Mated.Contains(state) && !one.Capped.Contains(state);

    /// <summary>The steps that shut a valve, where a disconnect is opened later and before anything shuts it again.</summary>
    private static IEnumerable<(DoStep Step, MakeFeature Make)> Shuttings(CleanPlan plan) =>
        from valve in plan.Scenario.Station.Valves
        from step in plan.All<DoStep>()
        let make = Makes(plan, step, valve.Feature)
        where make is not null && valve.Shut.Contains(make.State.State)
        where plan.All<DoStep>().Any(later => later.Start >= step.End && plan.Step(later).Fluid is { Opens: true })
        select (step, make);

    private static IEnumerable<DoStep> ShutJustBefore(CleanPlan plan, DoStep read) => plan.All<DoStep>().Where(step => step.Leg == read.Leg && step.End == read.Start
        && plan.Scenario.Station.Valves.Any(valve => Makes(plan, step, valve.Feature) is { } make && valve.Shut.Contains(make.State.State)));

    private static bool WasShut(CleanPlan plan, FluidLine line) =>
        plan.History.Stretches(plan.History[$"line {line.Name} state"]).Any(one => plan.Trace.Variables[plan.History[$"line {line.Name} state"]].States[one.Value] != "fed" && one.To.Seconds - one.From.Seconds > 1);

    private static bool OpensTrapped(CleanPlan plan, DoStep step) => plan.Scenario.Station.FluidLines.Any(line => line.Trapped is not null
        && plan.History.Changes(plan.History[$"line {line.Name} state"]).Any(change => change.At == step.End && plan.Trace.Variables[change.Variable].States[change.Value] == "fed"));

    /// <summary>The tests that make somebody or something clean.</summary>
    private static IEnumerable<DoStep> Tests(CleanPlan plan) =>
        plan.All<DoStep>().Where(step => plan.Step(step).Fluid is { Tests.IsEmpty: false } && plan.Trace.Changes.Any(change => change.By == step.Id && plan.Trace.Variables[change.Variable].Aspect == "soil"));

    private static bool IsTouched(CleanPlan plan, Surface surface, string light)
    {
        HashSet<string> places = [.. surface.Grips.Select(grip => grip.Value), .. plan.Scenario.Station.Sites.Where(site => surface.Sites.Contains(site.Id))
            .Select(site => site.Grip is { } grip ? grip.Value : $"{site.Arm}/{site.Pose}")];
        return plan.Outside.Any(person => plan.History.Stretches(plan.History[$"person {person} place"])
            .Where(one => places.Contains(plan.Trace.Variables[plan.History[$"person {person} place"]].States[one.Value]))
            .Any(one => light == "day" ? Sunlight.Seconds(plan.Scenario.Sky.Night, one.From, one.To) > 0 : Sunlight.Seconds(plan.Scenario.Sky.Night, one.From, one.To) < one.To.Since(one.From).Seconds));
    }

    private static Point? PointOf(CleanPlan plan, Leg leg) =>
        plan.Scenario.Station.Grips.FirstOrDefault(grip => grip.Id == plan.Scenario.Station.Sites.Single(site => site.Id == leg.Site).Grip)?.At;
}
