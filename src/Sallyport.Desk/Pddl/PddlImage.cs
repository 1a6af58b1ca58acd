using System.Globalization;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>One timeline in PDDL 2.1 (Fox and Long, JAIR 20, 2003), for a referee who knows nothing of this program: each activity is a
/// durative action, and what the clock alone changes is a timed initial literal (PDDL 2.2: Edelkamp and Hoffmann, 2004). It states the
/// world a second time, from what the model says of itself and from nothing that play or judge hold; of the world it covers what is
/// finite: see docs/pddl.md.</summary>
/// <param name="Domain">domain.pddl: what each activity needs and does.</param>
/// <param name="Problem">problem.pddl: what is so at the start, what the clock changes, what must be so at the end.</param>
/// <param name="Plan">plan.pddl: when each activity begins and how long it takes.</param>
public sealed record PddlImage(string Domain, string Problem, string Plan)
{
    /// <summary>An activity <c>[s, e)</c> is an action over <c>[s, e − this]</c>, s.</summary>
    public const decimal Epsilon = 0.001m;

    /// <summary>The image of one timeline.</summary>
    /// <param name="scenario">Its scenario.</param>
    /// <param name="timeline">The timeline, as told.</param>
    public static PddlImage Of(Scenario scenario, Timeline timeline)
    {
        ImageWorld world = new(scenario, timeline);
        List<ImageAction> actions = [.. timeline.Activities.SelectMany(activity => ImageActivities.Of(world, activity))];
        foreach (ImageAction action in actions) ImageClosings.Guard(world, action);
        (List<string> facts, List<string> goals) = (ImageStart.Facts(world), ImageEnd.Goals(world, actions));
        actions.AddRange(ImageClocks.Pieces(world, actions));
        string problem = WriteProblem(world, facts, goals), domain = WriteDomain(world, actions);
        return new(domain, problem, WritePlan(world, actions));
    }

    /// <summary>The three files with their names.</summary>
    public IEnumerable<(string Name, byte[] Content)> Files =>
        new[] { ("domain.pddl", Domain), ("problem.pddl", Problem), ("plan.pddl", Plan) }.Select(file => (file.Item1, Encoding.UTF8.GetBytes(file.Item2)));

    private static string WriteDomain(ImageWorld world, List<ImageAction> actions)
    {
        StringBuilder text = Head(world, "What each activity needs and does. PDDL 2.1.");
        text.Append("(define (domain sallyport)\n");
        text.Append("(:requirements :adl :durative-actions :duration-inequalities :timed-initial-literals :numeric-fluents)\n");
        text.Append("(:types ").Append(ImageNames.Types).Append(")\n(:constants\n");
        foreach ((string type, IEnumerable<string> names) in world.Names.ByType) text.Append("  ").AppendJoin(' ', names).Append(" - ").Append(type).Append('\n');
        text.Append(")\n(:predicates\n");
        foreach (string predicate in ImageNames.Predicates) text.Append("  ").Append(predicate).Append('\n');
        text.Append($")\n(:functions {ImageNames.Functions})\n");
        foreach (ImageAction action in actions) text.Append(action);
        return text.Append(")\n").ToString();
    }

    private static string WriteProblem(ImageWorld world, List<string> facts, List<string> goals)
    {
        StringBuilder text = Head(world, $"What is so at the start, what the clock changes (PDDL 2.2), what must be so at the end. Time 1 is PET {world.From}.");
        text.Append("(define (problem timeline)\n(:domain sallyport)\n(:init\n");
        foreach (string fact in facts) text.Append("  ").Append(fact).Append('\n');
        text.Append(")\n(:goal (and\n");
        foreach (string goal in goals) text.Append("  ").Append(goal).Append('\n');
        return text.Append("))\n)\n").ToString();
    }

    private static string WritePlan(ImageWorld world, List<ImageAction> actions)
    {
        StringBuilder text = Head(world, $"When each activity begins and how long it takes, s. Time 1 is PET {world.From}.");
        foreach (ImageAction action in actions.OrderBy(action => action.Start).ThenBy(action => action.Name, StringComparer.Ordinal))
            text.Append(CultureInfo.InvariantCulture, $"{world.TimeOf(action.Start) + action.Later:0.000##}: ({action.Name}) [{action.Length - Epsilon - 2 * action.Later:0.000##}]\n");
        return text.ToString();
    }

    private static StringBuilder Head(ImageWorld world, string what) => new StringBuilder()
        .Append("; ").Append(OneLine(world.Scenario.Id)).Append(", plan ").Append(OneLine(world.Timeline.PlanId))
        .Append(world.Timeline.Branch == Branch.Likely ? "" : ", the other branch of the decision").Append('\n')
        .Append("; ").Append(what).Append('\n')
        .Append("; ").Append(Caution.Text).Append('\n');

    private static string OneLine(string text) => text.ReplaceLineEndings(" ");
}
