using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof.Tests;

/// <summary>Plays and judges, and keeps what one rule found.</summary>
internal static class Judged
{
    public static ImmutableArray<Finding> All(Scenario scenario, Timeline timeline) => Judge.Of(scenario, [(timeline, Player.Play(scenario, timeline))]).Findings;

    public static ImmutableArray<Finding> By(string rule, Scenario scenario, Timeline timeline) =>
        [.. All(scenario, timeline).Where(finding => finding.Rule.Value == rule)];

    /// <summary>The one finding of a rule, with everything that a finding must say.</summary>
    public static Finding One(string rule, Scenario scenario, Timeline timeline)
    {
        Finding finding = Assert.Single(By(rule, scenario, timeline));
        Assert.StartsWith($"PET {finding.At}: ", finding.Sentence);
        Assert.EndsWith(".", finding.Sentence);
        Assert.NotEmpty(finding.Source);
        Assert.EndsWith(".", finding.Mend);
        return finding;
    }

    public static void None(string rule, Scenario scenario, Timeline timeline) => Assert.Empty(By(rule, scenario, timeline));

    /// <summary>The same timeline with one activity changed.</summary>
    public static Timeline With(this Timeline timeline, string id, Func<Activity, Activity> change)
    {
        Assert.Contains(timeline.Activities, activity => activity.Id.Value == id);
        return timeline with { Activities = [.. timeline.Activities.Select(activity => activity.Id.Value == id ? change(activity) : activity)] };
    }

    public static Timeline Without(this Timeline timeline, string id)
    {
        Assert.Contains(timeline.Activities, activity => activity.Id.Value == id);
        return timeline with { Activities = [.. timeline.Activities.Where(activity => activity.Id.Value != id)] };
    }

    public static string IdOf<T>(this Timeline timeline, Func<T, bool> which) where T : Activity => timeline.Activities.OfType<T>().First(which).Id.Value;
}
