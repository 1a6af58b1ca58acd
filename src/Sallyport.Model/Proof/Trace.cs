using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>A timeline played against the world: the state of everything over time.</summary>
/// <param name="Scenario">The scenario.</param>
/// <param name="PlanId">The plan it belongs to.</param>
/// <param name="Branch">The branch played.</param>
/// <param name="From">The first moment.</param>
/// <param name="To">The last moment: the last end of an activity.</param>
/// <param name="Variables">Every variable; its place in the list is its index.</param>
/// <param name="Start">One value a variable, before the first activity.</param>
/// <param name="Changes">In order of time.</param>
/// <param name="Facts">Conditions that did not hold, as play met them.</param>
/// <param name="Returns">Return times.</param>
/// <param name="Ceiling">What return times are held against.</param>
public sealed record Trace(
    string Scenario, string PlanId, Branch Branch, Pet From, Pet To,
    ImmutableArray<Variable> Variables, ImmutableArray<int> Start, ImmutableArray<Change> Changes, ImmutableArray<Fact> Facts,
    ImmutableArray<ReturnCurve> Returns, ImmutableArray<CeilingPiece> Ceiling)
{
    /// <summary>How each person's tether lies on the structure, from moment to moment, in order of time.</summary>
    public ImmutableArray<LineLaid> Lines { get; init; } = [];

    /// <summary>By when each person outside must be in, in the order of the scenario; none for who has no suit told.</summary>
    public ImmutableArray<CutOff> CutOffs { get; init; } = [];
}

/// <summary>By when a person must be in: the earlier of what the suit's owner states and of the moment at which the first reserve is reached.</summary>
/// <param name="Person">Who.</param>
/// <param name="At">The last moment.</param>
/// <param name="Binds">What of the two, in words that follow "the".</param>
/// <param name="Source">Where it comes from.</param>
public sealed record CutOff(PersonId Person, Pet At, string Binds, string Source);

/// <summary>From a moment on a person's tether lies along these grips.</summary>
/// <param name="At">When.</param>
/// <param name="Person">Whose.</param>
/// <param name="Grips">From where the first reel hangs to the person's end, or to where it was left; none when nothing is laid.</param>
public sealed record LineLaid(Pet At, PersonId Person, ImmutableArray<GripId> Grips);

/// <summary>Something whose value changes only at moments: finite-state, or counted.</summary>
/// <param name="Name">Unique, such as <c>person EV1 place</c>.</param>
/// <param name="Subject">What it belongs to, such as <c>EV1</c>.</param>
/// <param name="Aspect">Which side of it, such as <c>place</c>.</param>
/// <param name="States">The states by value; empty when it is counted.</param>
public sealed record Variable(string Name, string Subject, string Aspect, ImmutableArray<string> States);

/// <summary>A variable takes a value at a moment and keeps it until its next change.</summary>
/// <param name="At">When.</param>
/// <param name="Variable">Index of the variable.</param>
/// <param name="Value">Index of the state, or the count.</param>
/// <param name="By">The activity that did it; null for the outside world.</param>
public readonly record struct Change(Pet At, int Variable, int Value, ActivityId? By);

/// <summary>A condition that did not hold.</summary>
/// <param name="Rule">The rule it concerns.</param>
/// <param name="At">When.</param>
/// <param name="Activity">The activity that needed it.</param>
/// <param name="Who">The people it concerns.</param>
/// <param name="What">What was needed and what was found, one sentence.</param>
/// <param name="Mend">What would mend it, one sentence.</param>
/// <param name="Measured">The figure found, with its unit; empty when there is none.</param>
/// <param name="Limit">The figure needed, with its unit; empty when there is none.</param>
/// <param name="Margin">How far inside (or, negative, outside) it is; empty when there is none.</param>
public sealed record Fact(
    RuleId Rule, Pet At, ActivityId Activity, ImmutableArray<PersonId> Who, string What, string Mend,
    string Measured = "", string Limit = "", string Margin = "");

/// <summary>Which return time.</summary>
public enum ReturnKind
{
    /// <summary>Until this person is safe.</summary>
    One,
    /// <summary>Until everybody is inside and the hatch closed.</summary>
    Both,
    /// <summary>Until this person is safe, with the arm stopped where it is.</summary>
    Armless,
    /// <summary>Until this person is inside with the hatch closed, brought in by somebody else outside.</summary>
    Help,
    /// <summary>The same with the arm stopped where it is, while one of the two is on it.</summary>
    HelpArmless,
}

/// <summary>A return time over PET: straight between points, a jump where two points share a moment.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Person">Whose; null for everybody.</param>
/// <param name="Points">In order of time.</param>
public sealed record ReturnCurve(ReturnKind Kind, PersonId? Person, ImmutableArray<ReturnPoint> Points);

/// <summary>A point of a return time.</summary>
/// <param name="At">When.</param>
/// <param name="Seconds">How long until safe, s.</param>
/// <param name="Activity">What goes on from here on.</param>
public readonly record struct ReturnPoint(Pet At, double Seconds, ActivityId Activity)
{
    /// <summary>Stands for "no way at all", s: a whole day, beyond every limit, and a figure that every file can hold.</summary>
    public const int NoWaySeconds = 86_400;

    /// <summary>What is closed on the way for some of that time and so waited for, or leaves no way at all, by name; null for nothing.</summary>
    public string? Closed { get; init; }
}

/// <summary>A piece of the closing ceiling, straight from its start to its end.</summary>
/// <param name="From">Its start.</param>
/// <param name="To">Its end.</param>
/// <param name="FromSeconds">The ceiling at its start, s.</param>
/// <param name="ToSeconds">The ceiling at its end, s.</param>
/// <param name="Binds">What binds, in words.</param>
public readonly record struct CeilingPiece(Pet From, Pet To, double FromSeconds, double ToSeconds, string Binds);
