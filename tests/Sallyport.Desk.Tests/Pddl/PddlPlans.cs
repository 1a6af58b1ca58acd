using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The plans whose images are held against the referee, each made once.</summary>
internal static class PddlPlans
{
    private static readonly Dictionary<string, Lazy<(Scenario Scenario, ProvenPlan Plan)>> Made = new()
    {
        ["skerry-short"] = new(() => Checked("skerry-short", null)),
        // As a search once left it, with a decision.
        ["skerry"] = new(() => Checked("skerry", Path.Combine(AppContext.BaseDirectory, "skerry-outline.yaml"))),
        ["tern"] = new(() => Searched("tern", effort: 6, seed: 7)),
    };

    public static (Scenario Scenario, ProvenPlan Plan) Of(string scenario) => Made[scenario].Value;

    /// <summary>The likely branch, changed, in a scenario that may be changed too.</summary>
    public static PddlImage Image(string name, Func<Scenario, Scenario>? scenario = null, Func<Activity, Activity?>? activity = null)
    {
        (Scenario told, ProvenPlan plan) = Of(name);
        Timeline timeline = plan.Likely with { Activities = [.. plan.Likely.Activities.Select(activity ?? (one => one)).OfType<Activity>()] };
        return PddlImage.Of(scenario?.Invoke(told) ?? told, timeline);
    }

    private static SortieDesk Open(string name) => Folders.Good(SortieDesk.Open(RepositoryFolder.Of("scenarios", name)));

    private static (Scenario, ProvenPlan) Checked(string name, string? outline)
    {
        SortieDesk desk = Open(name);
        return (desk.Scenario, Clean(desk.Check(outline, asIs: true).Plan));
    }

    private static (Scenario, ProvenPlan) Searched(string name, int effort, int seed)
    {
        SortieDesk desk = Open(name);
        return (desk.Scenario, Clean(desk.Plan(name, effort, seed, null, _ => { }, TestContext.Current.CancellationToken).Plan));
    }

    private static ProvenPlan Clean(ProvenPlan? plan)
    {
        Assert.NotNull(plan);
        Assert.True(plan.Verdict.Clean);
        return plan;
    }
}
