using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Gives the timeline that follows when something does not go as planned, or says why there is none. Whoever makes it is not
/// trusted: it is held against the plan, played and judged.</summary>
/// <param name="planned">The branch of the plan in which it happens.</param>
/// <param name="trouble">What happens, and how everybody goes on.</param>
public delegate (Timeline? Timeline, string Why) GoOn(Timeline planned, Trouble trouble);

/// <summary>
/// Proves the contingencies of a plan. Each is taken to happen at the moment its step was planned to end, with its likely and with its high
/// time. It is proven when the rest of the plan then goes on clean; else when it does with less work; else when from that moment
/// everybody can end in order what runs and go in.
/// </summary>
internal sealed class Contingencies(Scenario scenario, IReadOnlyList<(Timeline Timeline, Trace Trace)> played, GoOn goOn)
{
    private readonly GoOn goOn = SideBySide.OneAtATime(goOn);

    private static readonly ImmutableArray<GoingOn> Ways = [GoingOn.AsPlanned, GoingOn.WithoutGetAheads, GoingOn.MustJobsOnly, GoingOn.EndsInOrder];

    /// <summary>Every contingency of a step that some branch does, likely and high; what branches share stands once.</summary>
    public static IEnumerable<(Timeline Planned, Trace Trace, Contingency Contingency, DoStep Step, Duration Extra)> Of(
        Scenario scenario, IReadOnlyList<(Timeline Timeline, Trace Trace)> played)
    {
        HashSet<(LegId, StepId, Pet, Pet)> seen = [];
        foreach ((Timeline planned, Trace trace) in played)
            foreach (DoStep step in planned.Activities.OfType<DoStep>())
            {
                if (!seen.Add((step.Leg, step.Step, step.Start, step.End))) continue;
                foreach (Contingency contingency in scenario.Jobs.SelectMany(job => job.Contingencies).Where(one => one.Step == step.Leg && one.StepId == step.Step))
                    foreach (Duration extra in new[] { contingency.Extra.Likely, contingency.Extra.High }.Distinct())
                        yield return (planned, trace, contingency, step, extra);
            }
    }

    public ImmutableArray<ContingencyProof> Prove() => SideBySide.Each([.. Of(scenario, played)], one => Prove(one.Planned, one.Trace, one.Contingency, one.Step, one.Extra));

    /// <summary>Whether each has a way on and its tools at hand; ends with the first few of which one has not.</summary>
    public bool AllHold() => Of(scenario, played).Chunk(Environment.ProcessorCount).All(some => SideBySide.Each(some, Holds).All(holds => holds));

    /// <summary>Whether any way plays clean. Which of them is not asked, so the one that nearly always does comes first: to end and go in.</summary>
    private bool Holds((Timeline Planned, Trace Trace, Contingency Contingency, DoStep Step, Duration Extra) one) =>
        AbsentTools(one.Trace, one.Contingency, one.Step).IsEmpty
        && Ways.Reverse().Any(way => Try(one.Planned, TroubleOf(one.Contingency, one.Step, one.Extra, way)).Attempt is { Broken.IsEmpty: true });

    private ContingencyProof Prove(Timeline planned, Trace trace, Contingency contingency, DoStep step, Duration extra)
    {
        List<string> broken = [];
        (Replay Attempt, Trouble Trouble)? best = null;
        foreach (GoingOn way in Ways)
        {
            Trouble trouble = TroubleOf(contingency, step, extra, way);
            (Replay? attempt, string? why) = Try(planned, trouble);
            if (attempt is not null && (best is null || attempt.Broken.Length < best.Value.Attempt.Broken.Length)) best = (attempt, trouble);
            if (attempt is { Broken.IsEmpty: true }) break;
            if (why is not null) broken.Add($"{InWords(way)}: {why}");
        }
        bool proven = best is { Attempt.Broken.IsEmpty: true };
        (Duration? margin, string of) = best is { } shown ? Least(shown.Attempt) : (null, "");
        return new(planned.Branch, best?.Trouble ?? TroubleOf(contingency, step, extra, GoingOn.EndsInOrder), step.Person, contingency.Do,
            contingency.Tools, AbsentTools(trace, contingency, step), proven,
            best is { } kept ? LeftOut(planned, kept.Attempt.Timeline) : [], best?.Attempt.Trace.To, margin, of, [.. broken]);
    }

    private static Trouble TroubleOf(Contingency contingency, DoStep step, Duration extra, GoingOn way) => new(step.Leg, step.Step, contingency.Title, extra, step.End, way);

    /// <summary>Plays and judges one way on, and says what it breaks first, or why there is none; that where there is nothing to leave out, is no way of
    /// its own and not said.</summary>
    private (Replay? Attempt, string? Why) Try(Timeline planned, Trouble trouble)
    {
        (Timeline? timeline, string why) = goOn(planned, trouble);
        if (timeline is null) return (null, trouble.GoesOn is GoingOn.AsPlanned or GoingOn.EndsInOrder ? why : null);
        if (Detour.Differs(scenario, planned, timeline, trouble) is { } differs) return (null, $"what was told is not this contingency: {differs}");
        Replay attempt = Replay.Of(scenario, timeline);
        return (attempt, attempt.Broken is [var first, ..] ? $"{first.Rule}, {first.Sentence}" : null);
    }

    private ImmutableArray<GearId> AbsentTools(Trace trace, Contingency contingency, DoStep step)
    {
        if (contingency.Tools.IsEmpty) return [];
        History history = new(trace);
        return [.. contingency.Tools.Where(tool => !Detour.IsAtHand(scenario, history, step, tool))];
    }

    /// <summary>The jobs of which the plan does something that this way does not do to its end.</summary>
    private ImmutableArray<JobId> LeftOut(Timeline planned, Timeline way)
    {
        HashSet<(LegId, StepId)> done = [.. way.Activities.OfType<DoStep>().Where(step => step.LeftBy is null).Select(step => (step.Leg, step.Step))];
        HashSet<LegId> missing = [.. planned.Activities.OfType<DoStep>().Where(step => !done.Contains((step.Leg, step.Step))).Select(step => step.Leg)];
        return [.. scenario.Jobs.Where(job => job.Legs.Any(leg => missing.Contains(leg.Id))).Select(job => job.Id)];
    }

    private (Duration? Margin, string Of) Least(Replay attempt)
    {
        List<(double Seconds, string Of)> margins =
        [
            .. Tightest.Of(scenario, attempt.Trace).Select(tight => (tight.MarginSeconds, tight.Kind switch
            {
                ReturnKind.One => $"{tight.Person} safe inside",
                ReturnKind.Both => "everybody in",
                _ => $"{tight.Person} with the arm stopped",
            })),
        ];
        if (scenario.LimitOf("pet.limit") is { Value.Dimension: Dimension.Time } limit) margins.Add((limit.Value.Value - attempt.Trace.To.Seconds, "the end"));
        return margins.Count == 0 ? (null, "") : margins.MinBy(one => one.Seconds) is var least ? (Duration.FromSeconds((int)Math.Floor(least.Seconds)), least.Of) : default;
    }

    /// <summary>A way on, as a sentence about it begins.</summary>
    public static string InWords(GoingOn way) => way switch
    {
        GoingOn.AsPlanned => "going on as planned",
        GoingOn.WithoutGetAheads => "going on without the get-aheads left",
        GoingOn.MustJobsOnly => "going on with the must-jobs only",
        _ => "ending in order and going in",
    };
}
