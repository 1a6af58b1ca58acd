using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Nobody works harder than what holds them takes.</summary>
internal sealed class FootingLoad : Rule
{
    // Far below any figure of a file, far above the last bit of a conversion of units.
    private const double Forgiven = 1e-9;

    public override RuleCard Card { get; } = new(new("footing.load"),
        "a person turned round by the bolt, or pushed off by the box",
        "the torque and the force of each step, against how the person is held while it is done: free, by a body tether, in a restraint, on an arm. "
            + "A way of being held of which the scenario says nothing takes no load",
        "what the scenario says that each way of being held takes",
        Guard.Proof("a leg's footing is asked for by the job, and no plan can choose another"));

    public override string? Missing(Scenario scenario) =>
        Loaded(scenario).Any() && scenario.Footings.IsEmpty ? "the scenario does not say what each way of being held takes" : null;

    public override IEnumerable<string> Unseen(Scenario scenario) =>
        Loaded(scenario).Any(step => step.Force is null) ? ["the force of steps that state none"] : [];

    public override IEnumerable<Finding> Find(Case given)
    {
        Dictionary<(LegId, StepId), Step> steps = given.Scenario.Legs.SelectMany(leg => leg.Steps.Select(step => ((leg.Id, step.Id), step))).ToDictionary(pair => pair.Item1, pair => pair.step);
        foreach (DoStep act in given.Timeline.Activities.OfType<DoStep>())
        {
            Step step = steps[(act.Leg, act.Step)];
            if (step.Fastener is null && step.Force is null) continue;
            Footing footing = FootingOf(given.History.StateAt(given.History[$"person {act.Person} footing"], act.Start));
            FootingStrength? takes = given.Scenario.Footings.FirstOrDefault(one => one.Kind == footing);
            if (step.Fastener is { } fastener && Above(fastener.Torque, takes?.Torque))
                yield return Over(given, act, footing, "torque", fastener.Torque, takes?.Torque, "N-m", takes);
            if (step.Force is { } force && Above(force, takes?.Force))
                yield return Over(given, act, footing, "force", force, takes?.Force, "N", takes);
        }
    }

    private static IEnumerable<Step> Loaded(Scenario scenario) => scenario.Legs.SelectMany(leg => leg.Steps).Where(step => step.Fastener is not null || step.Force is not null);

    private static bool Above(double load, double? takes) => load > (takes ?? 0) * (1 + Forgiven);

    private static Footing FootingOf(string held) => held switch
    {
        Places.Free => Footing.Free,
        Places.BodyTether => Footing.BodyTether,
        _ when held.StartsWith("socket ", StringComparison.Ordinal) => Footing.Restraint,
        _ => Footing.Arm,
    };

    private Finding Over(Case given, DoStep act, Footing footing, string what, double load, double? takes, string unit, FootingStrength? strength)
    {
        string held = footing switch { Footing.Free => "by one hand", Footing.BodyTether => "by a body tether", Footing.Restraint => "in a restraint", _ => "on an arm" };
        string limit = takes is { } most ? $"which takes {Figure(most)} {unit}" : "of which the scenario does not say what it takes";
        return Broken(given, act.Start, [act.Person],
            $"{act.Person}'s step {act.Step} of {act.Leg} works with a {what} of {Figure(load)} {unit}, held {held}, {limit}.",
            $"Give {act.Leg} a footing that takes it, or lower the {what}.", act.Id) with
        {
            Measured = $"{Figure(load)} {unit}",
            Limit = takes is { } figure ? $"{Figure(figure)} {unit}" : "",
            Margin = takes is { } than ? $"{Figure(than - load)} {unit}" : "",
            Source = strength is null ? Card.LimitFrom
                : strength.Verified || strength.Source.Contains("unverified", StringComparison.OrdinalIgnoreCase) ? strength.Source : $"{strength.Source} (unverified)",
        };
    }

    private static string Figure(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
