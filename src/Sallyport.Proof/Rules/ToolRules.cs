using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>Fasteners are driven as their drawing says.</summary>
internal sealed class BoltTurns : FactRule
{
    public override RuleCard Card { get; } = new(new("bolt.turns"),
        "a bolt broken off, or one that holds less than everybody believes",
        "the torque that each closing step sets, against what the bolt may be closed with (where a preload is wanted: K × diameter × preload, kept however it scatters), "
            + "and every torque against what its tool can be set to; the turns that each bolt is in, over the whole plan, once a step ends: in its band when closed, never below none",
        "what the scenario says of each bolt and tool",
        Guard.Proof("torque and turns stand at the steps, and the order of a job's legs is fixed by the job"));

    public override string? Missing(Scenario scenario) =>
        Fasteners(scenario).Any() && scenario.Bolts.IsEmpty ? "no bolt says what it takes" : null;

    public override IEnumerable<string> Unseen(Scenario scenario)
    {
        string[] without = [.. Fasteners(scenario).Where(one => one.Step.Fastener!.Bolt is null).Select(one => $"{one.Leg.Id} {one.Step.Id}")];
        string[] bare = [.. Fasteners(scenario).Select(one => one.Step.Fastener!.Tool).OfType<GearId>().Distinct()
            .Where(tool => scenario.Gear.First(gear => gear.Id == tool).Torque is null).Select(tool => tool.Value)];
        string[] toolless = [.. Fasteners(scenario).Where(one => one.Step.Fastener!.Tool is null).Select(one => $"{one.Leg.Id} {one.Step.Id}")];
        return
        [
            .. without.Length > 0 ? [$"steps that do not name their bolt: {string.Join(", ", without)}"] : Array.Empty<string>(),
            .. toolless.Length > 0 ? [$"steps that do not name their tool: {string.Join(", ", toolless)}"] : Array.Empty<string>(),
            .. bare.Length > 0 ? [$"tools that do not say what they can be set to: {string.Join(", ", bare)}"] : Array.Empty<string>(),
        ];
    }

    private static IEnumerable<(Leg Leg, Step Step)> Fasteners(Scenario scenario) =>
        scenario.Legs.SelectMany(leg => leg.Steps.Where(step => step.Fastener is not null).Select(step => (leg, step)));
}

/// <summary>Battery tools last.</summary>
internal sealed class ToolBattery : FactRule
{
    public override RuleCard Card { get; } = new(new("tool.battery"),
        "a driver that stops with a bolt half out",
        "turns driven with each battery tool, of all bolts alike that a step drives, or steps that use it; what is left after each, against what must be kept",
        "the charge and the reserve that the scenario states at the tool",
        Guard.Decoder("jobs are left out together when their use of one tool would go below its reserve"));

    public override string? Missing(Scenario scenario) =>
        scenario.Gear.Any(gear => gear.Kind == GearKind.Tool) && !scenario.Gear.Any(gear => gear.Charge is not null) ? "no tool says that it has a battery, or what is in it" : null;
}

/// <summary>What must be done can be done with another tool.</summary>
internal sealed class ToolSpare : Rule
{
    public override RuleCard Card { get; } = new(new("tool.spare"),
        "a must-job lost because one tool failed",
        "for each tool that a step of a must-job uses: the tools that stand in for it and are outside or in the airlock then, can be set to the torque, and have the charge left",
        "the scenario's limit, a number of tools",
        Guard.Proof("which tool stands in for which is said by the scenario, and no move makes one"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Count);

    public override IEnumerable<Finding> Find(Case given)
    {
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        int wanted = (int)Math.Ceiling(limit.Value.Value - 1e-9);
        Dictionary<GearId, Gear> gear = given.Scenario.Gear.ToDictionary(thing => thing.Id);
        Dictionary<(LegId, StepId), (Job Job, Step Step)> musts = given.Scenario.Jobs.Where(job => job.Worth == Worth.Must)
            .SelectMany(job => job.Legs.SelectMany(leg => leg.Steps.Select(step => ((leg.Id, step.Id), (job, step))))).ToDictionary(pair => pair.Item1, pair => pair.Item2);
        ILookup<GearId, Gear> spares = given.Scenario.Gear.SelectMany(spare => spare.SpareFor.Select(tool => (tool, spare))).ToLookup(pair => pair.tool, pair => pair.spare);
        HashSet<(JobId, GearId)> told = [];
        foreach (DoStep act in given.Timeline.Activities.OfType<DoStep>().OrderBy(act => act.Start))
        {
            if (!musts.TryGetValue((act.Leg, act.Step), out (Job Job, Step Step) must)) continue;
            foreach (GearId tool in ToolsOf(must.Step, gear))
            {
                int found = spares[tool].Count(spare => StandsIn(given, spare, must.Step, act.Start));
                if (found >= wanted || !told.Add((must.Job.Id, tool))) continue;
                yield return Broken(given, act.Start, [act.Person],
                    $"{act.Leg} uses {tool}, and {Tools(found)} could stand in for it; the must-job {must.Job.Id} asks for {Tools(wanted)}.",
                    $"Bring a tool that stands in for {tool} outside or into the airlock.", act.Id) with
                {
                    Measured = Tools(found),
                    Limit = Tools(wanted),
                    Margin = Tools(found - wanted),
                    Source = SourceOf(limit),
                };
            }
        }
    }

    private static IEnumerable<GearId> ToolsOf(Step step, Dictionary<GearId, Gear> gear)
    {
        IEnumerable<GearId> needed = step.Needs.OfType<NeedGear>().Select(need => need.Gear).Where(id => gear[id].Kind == GearKind.Tool);
        return (step.Fastener?.Tool is { } driver ? needed.Append(driver) : needed).Distinct();
    }

    private static bool StandsIn(Case given, Gear spare, Step step, Pet at)
    {
        if (given.History.StateAt(given.History[$"gear {spare.Id} place"], at) == "spent") return false;
        if (step.Fastener is not { } fastener) return true;
        if (spare.Torque is { } range && !range.Takes(fastener.Torque)) return false;
        if (spare.Charge is not { } charge) return true;
        double drawn = ToolUse.Of(spare, step with { Fastener = fastener with { Tool = spare.Id } }, given.Scenario.Bolts);
        return given.History.At(given.History[$"gear {spare.Id} charge"], at) / 1000.0 - drawn >= charge.Keep - 1e-9;
    }

    private static string Tools(int count) => $"{count} tool{(Math.Abs(count) == 1 ? "" : "s")}";
}
