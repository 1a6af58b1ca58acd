using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Wherever the walk is cut off, nothing is left behind in a state that it may not be left in.</summary>
internal sealed class JobHalfway : Rule
{
    public override RuleCard Card { get; } = new(new("job.halfway"),
        "bare pins, an open line, a part held by nothing, left outside because everybody had to go in halfway",
        "at every moment, each feature that the scenario says so of: the state that the break-off of the steps going on leaves it in, else the state it is in; "
            + "left by terminate it is a break, left by abort a caution. What a console can bring back from the ground is not counted. "
            + "And what is left of a disconnect or connector that the scenario does not speak of, of a line of liquid shut off and full, and of a thermal clock "
            + "that nobody is there to stop: the same. A thing wanted inside that hangs outside, and one that a step moves untied, are a caution. "
            + "Getting out of a restraint is part of the way home. Where everybody goes in early after a contingency: the states left at the end",
        "the states under may_be_left, each with what is wrong with any other, and may_be_left of lines and things",
        Guard.Proof("the break-offs are data of the jobs, and no order of them mends one that leaves something unsafe"));

    public override string? Missing(Scenario scenario) => scenario.MayBeLeft.IsEmpty ? "the scenario does not say in which states anything may be left" : null;

    public override IEnumerable<string> Unseen(Scenario scenario)
    {
        HashSet<FeatureId> told = [.. scenario.MayBeLeft.Select(row => row.Feature), .. scenario.Consoles.SelectMany(console => console.Commands).SelectMany(command => command.Makes).Select(make => make.Feature)];
        string[] untold = [.. scenario.Legs.SelectMany(leg => leg.Steps).SelectMany(Ladder.Touched).Where(feature => !told.Contains(feature)).Select(feature => feature.Value).Distinct()];
        return untold.Length == 0 ? [] : [$"the scenario does not say in which states these may be left: {string.Join(", ", untold)}"];
    }

    public override IEnumerable<Finding> Find(Case given)
    {
        Ladder ladder = given.Ladder;
        if (given.EndsEarly)
        {
            foreach (MayBeLeft row in given.Scenario.MayBeLeft)
                if (given.History.LastState(given.History[$"feature {row.Feature} state"]) is var state && !ladder.MayBeLeft(row, state, Leaving.Terminate))
                    yield return LeftAtTheEnd(given, row, state);
            yield break;
        }
        foreach (LeftThing thing in LeftBehind.Of(given, ladder).All())
        {
            (Pet From, string Words, Leaving By)? open = null;
            foreach (Pet moment in thing.Moments.Append(given.Trace.To))
            {
                (string Words, Leaving By)? left = moment == given.Trace.To ? null : Unsafe(thing, moment);
                if (open is { } going && (left is null || left.Value.By != going.By || left.Value.Words != going.Words))
                {
                    yield return Says(given, thing, going.From, going.Words, going.By, moment);
                    open = null;
                }
                if (left is { } begins) open ??= (moment, begins.Words, begins.By);
            }
        }
        foreach (MayBeLeft row in given.Scenario.MayBeLeft)
        {
            (Stretch Stretch, Leaving By)? open = null;
            foreach (Pet moment in ladder.Moments(row.Feature).Append(given.Trace.To))
            {
                (string State, Leaving By)? left = moment == given.Trace.To ? null : Unsafe(ladder, row, moment);
                if (open is { } going && (left is null || left.Value.By != going.By || left.Value.State != going.Stretch.State))
                {
                    yield return Says(given, ladder, row, going.Stretch, going.By, moment);
                    open = null;
                }
                if (left is { } begins) open ??= (new(moment, begins.State), begins.By);
            }
        }
    }

    /// <summary>The state in which the feature would be left and may not: by terminate if that is so, else by abort.</summary>
    private static (string State, Leaving By)? Unsafe(Ladder ladder, MayBeLeft row, Pet moment)
    {
        foreach (Leaving by in new[] { Leaving.Terminate, Leaving.Abort })
            if (ladder.Left(row.Feature, moment, by).FirstOrDefault(state => !ladder.MayBeLeft(row, state, by)) is { } state) return (state, by);
        return null;
    }

    private Finding Says(Case given, Ladder ladder, MayBeLeft row, Stretch stretch, Leaving by, Pet to)
    {
        DoStep? step = ladder.StepAt(row.Feature, stretch.From);
        bool inOrder = by == Leaving.Terminate;
        return Broken(given, stretch.From, step is null ? [] : [step.Person],
            $"until {to} {(inOrder ? "even an end in order" : "an abort")} leaves {row.Feature} {stretch.State}, and that may not be left, because {row.Why}.",
            step is null ? $"Bring {row.Feature} to {string.Join(" or ", row.In)} before anything else is begun."
                : inOrder ? $"Let the terminate of {step.Leg}, step {step.Step}, bring {row.Feature} to {string.Join(" or ", row.In)}, with the time for that."
                : $"Be ready to go back to {row.Feature}, or let the abort of {step.Leg}, step {step.Step}, leave it {string.Join(" or ", row.In)}.", step?.Id) with
        {
            Severity = inOrder ? Severity.Broken : Severity.Near,
            Measured = stretch.State,
            Limit = string.Join(" or ", inOrder ? row.In : [.. row.In, .. row.AfterAbort]),
        };
    }

    /// <summary>How a thing would be left and may not: by terminate if that is so, else by abort.</summary>
    private static (string Words, Leaving By)? Unsafe(LeftThing thing, Pet moment)
    {
        foreach (Leaving by in new[] { Leaving.Terminate, Leaving.Abort })
            if (thing.Left(moment, by) is { } words) return (words, by);
        return null;
    }

    private Finding Says(Case given, LeftThing thing, Pet from, string words, Leaving by, Pet to) =>
        Broken(given, from, [], $"until {to} {(by == Leaving.Terminate ? "even an end in order" : "an abort")} leaves {words}, and that may not be left, because {thing.Why}.", thing.Mend) with
        {
            Severity = by == Leaving.Terminate && !thing.IsCaution ? Severity.Broken : Severity.Near,
            Measured = words,
        };

    private Finding LeftAtTheEnd(Case given, MayBeLeft row, string state) =>
        Broken(given, given.Trace.To, [], $"everybody goes in early and leaves {row.Feature} {state}, and that may not be left, because {row.Why}.",
            $"Let a terminate bring {row.Feature} to {string.Join(" or ", row.In)}, with the time for that.") with
        { Measured = state, Limit = string.Join(" or ", row.In) };

    private readonly record struct Stretch(Pet From, string State);
}
